"""Wheel loads with unequal tracks, after the first wheel has lifted, up to rolling over

No paper: the invented car of `plain.py`, its tracks unequal, 1.52 and 1.44 m. One root of the balance of
moments about the roll axis, each end's moment held once its inside wheel is up; then, for the same roll, a
linear programme (scipy's `linprog`) for the four wheel loads: none below zero, each axle's weight kept, the
whole overturning moment m a h and gravity's share, and the front's part, as large as its springs give it.

Computed by a second route.
"""

import numpy as np
from scipy.optimize import linprog

from rollmodel.physics.corner import lift_acceleration, rollover_acceleration, settled_corner
from tests.validation import plain
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "W1"
CAR = plain.invented_car()
WHEELS = [(end, side) for end in plain.ENDS for side in ("inside", "outside")]


def loads_by_programme(a, roll):
    """As much moment at the front as its springs ask for and its wheels can carry; statics sets the rest."""
    whole, sprung, height = plain.masses(CAR)
    push = {end: sprung[end] * (height - CAR.axle(end).roll_centre_height) for end in plain.ENDS}
    halves = [CAR.axle(end).track / 2 for end in plain.ENDS]
    overturning = CAR.mass * a * CAR.cg_height + plain.G * sum(push.values()) * roll
    links = a * (sprung["front"] * CAR.front.roll_centre_height
                 + CAR.front.unsprung_mass * CAR.front.unsprung_cg_height)  # fmt: skip
    front = [-halves[0], halves[0], 0, 0]
    found = linprog(
        np.negative(front),
        A_ub=[front],
        b_ub=[plain.roll_stiffness(CAR.front) * roll + links],
        A_eq=[[1, 1, 0, 0], [0, 0, 1, 1], [-halves[0], halves[0], -halves[1], halves[1]]],
        b_eq=[whole["front"] * plain.G, whole["rear"] * plain.G, overturning],
    )
    assert found.success, found.message
    return dict(zip(WHEELS, found.x, strict=True))


def front_lifts_at():
    """Where the front inside wheel's load has gone; it stays nil beyond."""
    return plain.brentq(lambda a: plain.settled(CAR, a).inside["front"] - 1e-7, 3.0, 13.5, xtol=1e-9)


def test_loads():
    first = front_lifts_at()
    for name, a in (("all four on the ground", 6.0), ("the front inside wheel up", 1.08 * first)):
        roll, ours = plain.settled(CAR, a).roll, settled_corner(CAR, a)
        where = f"{a:.2f} m/s^2, {name}"
        check(SOURCE, f"{where}: roll angle", f"{np.degrees(roll):.5f}", np.degrees(ours.roll_angle), "deg",
              SECOND_ROUTE)  # fmt: skip
        for (end, side), load in loads_by_programme(a, roll).items():
            check(SOURCE, f"{where}: load of the {end} {side} wheel", f"{load:.2f}",
                  getattr(ours.axle(end), side), "N", SECOND_ROUTE)  # fmt: skip
    assert bool(ours.front.lifted) and not bool(ours.rear.lifted)


def test_lifting_and_rolling_over():
    check(SOURCE, "lateral acceleration at which the front inside wheel lifts", f"{front_lifts_at():.5f}",
          lift_acceleration(CAR, "front"), "m/s^2", SECOND_ROUTE)  # fmt: skip
    low, high = 3.0, 20.0
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if plain.settled(CAR, middle) else (low, middle)
    check(SOURCE, "lateral acceleration at which the rear one follows and the car rolls over", f"{low:.5f}",
          rollover_acceleration(CAR), "m/s^2", SECOND_ROUTE)  # fmt: skip
