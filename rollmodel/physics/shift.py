"""What a change moves from one axle to the other while the corner builds up, holds and ends."""

import numpy as np

from rollmodel.physics.transient import RollHistory

PHASES = ("way in", "middle", "way out")


def shifted_to_front(before: RollHistory, after: RollHistory):
    """Load transfer that a change moves from the rear axle to the front one, [N].

    ``((dF_f' - dF_r') - (dF_f - dF_r)) / 2``, the dash for after the change.

    Parameters
    ----------
    before, after : RollHistory
        The same corner, at the same instants.

    Returns
    -------
    numpy.ndarray
        One number per instant; above zero the front carries more and the rear less than before.

    Notes
    -----
    Derived here. Half of the difference, because what one axle gains the other loses: the sum is set by the
    corner, but for what speeds the body's roll up and for a small change of the roll itself.
    """
    gaps = [history.front.load_transfer - history.rear.load_transfer for history in (before, after)]
    return (gaps[1] - gaps[0]) / 2


def instants(history: RollHistory) -> dict[str, int]:
    """Where to read each phase: the fastest roll in, the settled middle, the fastest roll out.

    Returns
    -------
    dict of str to int
        Index into the history's instants, by the name of the phase.
    """
    middle = history.middle
    return {"way in": int(np.argmax(history.roll_rate[:middle])), "middle": middle,
            "way out": middle + int(np.argmin(history.roll_rate[middle:]))}
