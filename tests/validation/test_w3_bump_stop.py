"""A bump stop on the outside wheel, the body free to rise

No paper: one axle written as the forces at its two wheels. Two springs, a bar on the difference of the two
travels, a stop on the outside wheel, a tyre under each; the body may rise and roll. What the two wheels carry
together stays the axle's weight, so the stop lifts the body until springs and stop are in balance. Four
unknowns, by scipy's general root finder; the package has a closed form, the stop in series with both springs.

Computed by a second route, on a car of two equal ends, invented.
"""

import numpy as np
from scipy.optimize import root

from rollmodel.car import Axle, Bar, Car, Tyre
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.stress import outside_travel
from tests.validation import plain
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "W3"
BAR = Bar(0.024, 0.9, 0.6, (0.2,), wall=0.004, arms="rigid")
END = Axle(1.5, 80.0, 0.3, 0.06, 60e3, 0.7, 220e3, bump_travel=0.02, bump_stop_rate=90e3, bar=BAR)
CAR = Car("bump stops", "rear", 1250.0, 0.5, 2.5, 0.52, Tyre(), END, END)
SPRING, TRACK = END.spring_rate * END.spring_motion_ratio**2, END.track
POLAR = np.pi / 32 * (0.024**4 - 0.016**4)
HELD = BAR.shear_modulus * POLAR / (0.9 * 0.2**2) * 0.6**2  # of the bar at the wheel, the other held


def gains(outside, inside):
    """What springs, bar and stop add at each wheel for its travel, [N]."""
    stop = END.bump_stop_rate * max(outside - END.bump_travel, 0)
    return SPRING * outside + HELD * (outside - inside) + stop, SPRING * inside + HELD * (inside - outside)


def two_wheels(a):
    """Roll [rad], both wheels' travel [m] and gain [N] through springs, bar and stop."""
    _, sprung, height = plain.masses(CAR)
    push = sprung["front"] * (height - END.roll_centre_height)

    def left(x):
        rise, roll, *travels = x[0], x[1], x[2], x[3]
        force = gains(*travels)
        moment = push * (a + plain.G * roll)
        tyres = [-one / END.tyre_vertical_rate for one in force]  # how far each wheel goes down
        body = rise - roll * TRACK / 2, rise + roll * TRACK / 2
        return [(sum(force)) / 1e3, ((force[0] - force[1]) * TRACK / 2 - moment) / 1e3,
                1e3 * (tyres[0] - body[0] - travels[0]), 1e3 * (tyres[1] - body[1] - travels[1])]  # fmt: skip

    found = root(left, [0.0, 0.05, 0.03, -0.03], tol=1e-13)
    assert np.abs(left(found.x)).max() < 1e-9, found.message
    return found.x[1], found.x[2:], gains(*found.x[2:])


def test_on_the_stop():
    for a in (4.0, 9.0, 10.5):
        roll, travel, force = two_wheels(a)
        ours, stiff = settled_corner(CAR, a), axle_stiffness(END)
        where = f"{a:g} m/s^2, {'on the stop' if travel[0] > END.bump_travel else 'short of it'}"
        for result, figure, mine, unit in (
            ("roll angle", f"{np.degrees(roll):.6f}", np.degrees(ours.roll_angle), "deg"),
            ("load through springs, bar and stop", f"{force[0]:.3f}", ours.front.elastic, "N"),
            ("bump travel of the outside wheel", f"{1e3 * travel[0]:.5f}",
             1e3 * outside_travel(stiff, ours.front), "mm"),
        ):  # fmt: skip
            check(SOURCE, f"{where}: {result}", figure, mine, unit, SECOND_ROUTE)
        assert abs(sum(force)) < 1e-6  # the axle carries no more than its weight
    assert travel[0] > END.bump_travel
