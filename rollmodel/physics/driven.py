"""An axle that drives while it corners: the drive force takes from its side force."""

from functools import partial

import numpy as np

from rollmodel.car import Tyre
from rollmodel.physics.pair import axle_side_force, highest_over_slip, largest_axle_force, rising_root
from rollmodel.physics.tyre import peak_side_force, side_force


def left_by_ellipse(largest, drive_force):
    """Side force an axle has left beside a drive force: ``sqrt(F^2 - Fx^2)``, [N]; 0 when none."""
    return np.sqrt(np.maximum(np.asarray(largest) ** 2 - np.asarray(drive_force) ** 2, 0.0))


def force_beside_drive(tyre: Tyre, slip, share, need, other_drag, largest, *loads):
    """Side force of a driven axle at a slip angle, [N].

    ``F sqrt(1 - (Fx / F_max)^2)``, with ``Fx = share (need sin(slip) + other_drag)``: the drive force
    that holds the speed, rolling and air resistance left out.

    Parameters
    ----------
    tyre : Tyre
    slip : float or array
        [rad].
    share : float or array
        Part of the drive force at this axle, [-].
    need : float or array
        Side force the corner asks of this axle, [N].
    other_drag : float or array
        ``Fy sin(slip)`` of the other axle, [N].
    largest : float or array
        What the axle can give without drive, `F_max`, [N].
    *loads : float or array
        Outside and inside load [N], and their leans [rad].

    Notes
    -----
    Friction ellipse with equal axes, applied to the axle as one (common practice; derived here from it).
    """
    part = share * (need * np.sin(slip) + other_drag) / np.maximum(largest, 1e-9)
    return axle_side_force(tyre, slip, *loads) * np.sqrt(1 - np.clip(part, 0, 1) ** 2)


def left_beside_drive(drive, largest_drive):
    """Part of its side force that a tyre keeps beside a drive force: ``sqrt(1 - (Fx/Fx_max)^2)``, [-].

    Parameters
    ----------
    drive : float or array
        What the tyre passes, [N].
    largest_drive : float or array
        The most it could pass alone, above zero, [N].

    Returns
    -------
    float or array
        1 with no drive, 0 when the tyre has no more to give.

    Notes
    -----
    Friction ellipse at the same slip angle (common practice). Real tyres keep a little more side force
    under light drive and lose it faster towards the end.

    Examples
    --------
    >>> float(left_beside_drive(600.0, 1000.0))
    0.8
    """
    return np.sqrt(np.maximum(1 - (np.asarray(drive) / largest_drive) ** 2, 0.0))


def force_beside_equal_drive(tyre: Tyre, slip, share, need, other_drag, most_outside, most_inside, *loads):
    """Side force of a driven axle with an open differential at a slip angle, [N].

    ``sum(Fy_i(slip) sqrt(1 - (Fx / (2 F_max,i))^2))``, with `Fx` as in :func:`force_beside_drive`: both
    wheels pass the same, half of it each. More slip than the inside wheel can drive against is not to be
    had: from where ``Fx / 2 = F_max,inside``, and it spins, the force stays at what it is there.

    Parameters
    ----------
    tyre : Tyre
    slip : float or array
        [rad].
    share, need, other_drag : float or array
        As for :func:`force_beside_drive`, [-], [N], [N].
    most_outside, most_inside : float or array
        What each tyre could pass alone, `F_max,i`, [N].
    *loads : float or array
        Outside and inside load [N], and their leans [rad].

    Returns
    -------
    float or array
        [N]; 0 where the inside wheel spins even against the other axle's drag alone.

    Notes
    -----
    Derived here from the friction ellipse of each tyre, with equal axes and the tyre upright for its largest
    force (common practice). A limited-slip or locked differential lies between this and
    :func:`force_beside_drive`.
    """
    outside, inside, lean_outside, lean_inside = loads
    spins = (2 * most_inside / np.maximum(share, 1e-9) - other_drag) / np.maximum(need, 1e-9)
    sine = np.where(np.asarray(share) > 0, spins, 1.0)  # an axle that is not driven never spins
    slip = np.minimum(slip, np.arcsin(np.clip(sine, 0, 1)))
    each = share * (need * np.sin(slip) + other_drag) / 2
    force = sum(
        side_force(tyre, slip, load, lean) * left_beside_drive(each, np.maximum(most, 1e-9))
        for load, lean, most in ((outside, lean_outside, most_outside), (inside, lean_inside, most_inside))
    )
    return np.where(sine < 0, 0.0, force)


def largest_beside_drive(tyre: Tyre, share, need, other_drag, *loads, open_differential=False):
    """The most side force a driven axle can give [N], and the slip angle at which it does [rad].

    More slip means more drag and so more drive force: the top lies at less slip than without drive.
    ``open_differential``: both wheels pass the same, not each as its grip allows.
    """
    force, arguments = _by_slip(tyre, share, need, other_drag, loads, open_differential)
    return highest_over_slip(force, *arguments)


def slip_beside_drive(tyre: Tyre, share, need, other_drag, *loads, open_differential=False):
    """Slip angle on the rising side at which a driven axle gives what is asked, [rad]; nan if never."""
    force, arguments = _by_slip(tyre, share, need, other_drag, loads, open_differential)
    return rising_root(force, need, *highest_over_slip(force, *arguments), *arguments)


def _by_slip(tyre, share, need, other_drag, loads, open_differential):
    """The force as a function of slip, and what it is handed besides."""
    if open_differential:
        most = (peak_side_force(tyre, load) for load in loads[:2])
        return partial(force_beside_equal_drive, tyre), (share, need, other_drag, *most, *loads)
    without = largest_axle_force(tyre, *loads)[0]
    return partial(force_beside_drive, tyre), (share, need, other_drag, without, *loads)
