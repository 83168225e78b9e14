"""What a quicker lap says: how often one stands there by luck alone, beside what a change is worth."""

from __future__ import annotations

import math

from scipy.stats import norm

SCATTER = 0.3  # s, of one driver's laps; a starting figure of our own


def circle_time(lateral_acceleration: float, radius: float) -> float:
    """Time of one lap of a circle, [s].

    ``t = 2 pi sqrt(R / a_y)``

    Parameters
    ----------
    lateral_acceleration : float
        Held all the way round, [m/s^2].
    radius : float
        [m].

    Examples
    --------
    >>> print(round(circle_time(10.0, 30.0), 2))
    10.88
    """
    return 2 * math.pi * math.sqrt(radius / lateral_acceleration)


def chance_of_quicker(gain: float, scatter: float = SCATTER, laps: int = 1) -> float:
    """Chance that the mean of some laps after a change is quicker than that of as many before, [-].

    ``Phi(gain / (s sqrt(2 / n)))``

    Parameters
    ----------
    gain : float
        What the change is really worth, [s]; positive for quicker, nil for a change that does nothing.
    scatter : float, optional
        Standard deviation of one lap, [s].
    laps : int, optional
        Before, and again after.

    Notes
    -----
    Derived here, for laps that scatter independently. Nobody's laps do: a driver learns, tyres warm and
    fuel burns, so that the truth is worse.

    Examples
    --------
    >>> [round(chance_of_quicker(gain, 0.3), 2) for gain in (0.0, 0.1, -0.1)]
    [0.5, 0.59, 0.41]
    """
    return float(norm.cdf(gain / (scatter * math.sqrt(2 / laps))))
