"""A leaning link against the exact motion of a rigid rod between a turning arm and a pick-up on a line."""

import numpy as np
import pytest
from scipy.optimize import brentq

from rollmodel.physics.bar import leaning_link_ratio

LENGTH, LEVER = 0.25, 0.2


def arm_travel(lean_at_arm, lean_at_pickup, pickup_travel):
    """Travel along its arc of the arm's end, rod length kept, [m].

    The arm lies along x and turns about the origin; the rod leans by `lean_at_arm` off the vertical, in
    the plane of turning; the pick-up slides along a line that leans off the rod by `lean_at_pickup`.
    """
    rod = np.array([np.sin(lean_at_arm), np.cos(lean_at_arm)])
    foot = np.array([LEVER, 0.0])
    turn = lean_at_arm + lean_at_pickup
    pickup = foot + LENGTH * rod + pickup_travel * np.array([np.sin(turn), np.cos(turn)])

    def stretch(angle):
        return np.linalg.norm(pickup - LEVER * np.array([np.cos(angle), np.sin(angle)])) - LENGTH

    return LEVER * brentq(stretch, -0.01, 0.01, xtol=1e-14)


@pytest.mark.parametrize("lean_at_arm", np.radians([-25.0, 0.0, 20.0]))
@pytest.mark.parametrize("lean_at_pickup", np.radians([-15.0, 0.0, 30.0]))
def test_ratio_is_the_rods_own(lean_at_arm, lean_at_pickup):
    """Central difference over 0.02 mm: its error goes with (travel/length)^2, about 1e-8."""
    up, down = (arm_travel(lean_at_arm, lean_at_pickup, travel) for travel in (1e-5, -1e-5))
    assert (up - down) / 2e-5 == pytest.approx(leaning_link_ratio(lean_at_arm, lean_at_pickup), rel=1e-6)


def test_lean_at_the_arm_makes_the_bar_stiffer():
    assert leaning_link_ratio(np.radians(20), 0.0) == pytest.approx(1.0642, abs=5e-5)
