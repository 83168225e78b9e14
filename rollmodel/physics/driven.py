"""An axle that drives while it corners: the drive force takes from its side force."""

from functools import partial

import numpy as np

from rollmodel.car import Tyre
from rollmodel.physics.pair import axle_side_force, highest_over_slip, largest_axle_force, rising_root


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


def largest_beside_drive(tyre: Tyre, share, need, other_drag, *loads):
    """The most side force a driven axle can give [N], and the slip angle at which it does [rad].

    More slip means more drag and so more drive force: the top lies at less slip than without drive.
    """
    without = largest_axle_force(tyre, *loads)[0]
    return highest_over_slip(partial(force_beside_drive, tyre), share, need, other_drag, without, *loads)


def slip_beside_drive(tyre: Tyre, share, need, other_drag, *loads):
    """Slip angle on the rising side at which a driven axle gives what is asked, [rad]; nan if never."""
    without = largest_axle_force(tyre, *loads)[0]
    force = partial(force_beside_drive, tyre)
    arguments = (share, need, other_drag, without, *loads)
    return rising_root(force, need, *highest_over_slip(force, *arguments), *arguments)
