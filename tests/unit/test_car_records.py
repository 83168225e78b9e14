"""Records that are given what they cannot use, from Python: each refuses with the field in its message."""

from dataclasses import replace

import numpy as np
import pytest

from rollmodel.car import Bar, Blade, CarError, Damper, Tyre
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.spread import rate_spread
from rollmodel.physics.stiffness import axle_stiffness
from tests.unit.plain_car import CAR, FRONT

SQUARE = Bar(0.02, 0.9, 0.6, arms="blade", blade=Blade(0.1, 0.01, 0.01, (0.5,)))


@pytest.mark.parametrize(("record", "field", "value"), [
    (FRONT, "camber", -2.0),  # degrees for radians
    (FRONT, "camber", "-2 deg"),
    (FRONT, "track", None),
    (FRONT, "track", "1.5 m"),
    (FRONT, "roll_centre_height", None),
    (FRONT.bar, "outer_diameter", "26 mm"),
    (FRONT.bar, "outer_diameter", None),
    (FRONT.bar, "hole", 1.5),
    (FRONT.bar, "hole", True),
    (FRONT.bar, "hole", "2"),
    (FRONT.bar, "holes", ("a",)),
    (FRONT.bar, "holes", 0.2),
    (FRONT.bar, "holes", (0.2, 0.0)),
    (FRONT.bar, "arm_lengths", ("long",)),
    (FRONT.bar, "link_lean_at_arm", None),
    (SQUARE.blade, "angles", (np.nan,)),
    (SQUARE.blade, "angles", 0.5),
    (SQUARE.blade, "width", "2 cm"),
    (CAR, "mass", None),
    (CAR, "front_weight_share", None),
    (CAR, "front_weight_share", 52),
    (CAR, "roll_inertia", "420"),
    (Damper(4000.0, 0.7), "rate", "4000"),
    (Tyre(), "grip_scale", None),
    (Tyre("falling grip", 1.0, 1.3, 3e-5, 5e4), "grip_drop", "little"),
    (Tyre("falling grip", 1.0, 1.3, 3e-5, 5e4), "peak_grip", -1.0),
    (BuildUp(6.0, 0.4, 1.0, 0.4), "peak", "6"),
    (BuildUp(6.0, 0.4, 1.0, 0.4), "rise_time", None),
])
def test_what_cannot_be_used_is_refused_by_its_field(record, field, value):
    with pytest.raises(CarError) as told:
        replace(record, **{field: value})
    assert told.value.faults[0].startswith(f"{field}: wanted") and "given" in told.value.faults[0]


@pytest.mark.parametrize("hole", [0, -1, -2, 4, 1.5, "2", True])
def test_a_hole_that_is_not_there_is_refused(hole):
    with pytest.raises(CarError, match="hole: wanted a whole number from 1 to 3, given"):
        axle_stiffness(FRONT, hole)


def test_arrays_serve_as_lists():
    bar = replace(FRONT.bar, holes=np.array([0.22, 0.20, 0.18]))
    assert bar == FRONT.bar and hash(bar) == hash(FRONT.bar)
    assert Blade(0.1, 0.02, 0.004, np.array([0.0, 0.5])).angles == (0.0, 0.5)


def test_a_sprung_mass_under_the_ground_is_refused_with_figures():
    heavy = {"unsprung_mass": 300.0, "unsprung_cg_height": 0.6}
    with pytest.raises(CarError, match=r"cg_height: wanted a sprung mass above the ground, given one at -"):
        replace(CAR, cg_height=0.2, front=replace(FRONT, **heavy), rear=replace(CAR.rear, **heavy))


def test_the_spread_of_a_square_blade():
    spread = rate_spread(SQUARE)
    assert np.isfinite(spread.relative).all() and spread.relative > 0
