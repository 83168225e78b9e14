"""A bar shifts load transfer by the roll angle, a damper by the rate of roll."""

from dataclasses import replace

import numpy as np
import pytest

from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.shift import PHASES, instants, shifted_to_front
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.transient import roll_against_time
from rollmodel.sheets import training_car

CAR = training_car("coupe").with_holes(1, None)
CORNER = BuildUp(5.5, rise_time=0.5, hold_time=3.0, release_time=0.5)
STIFF = axle_stiffness(CAR.front, 3), axle_stiffness(CAR.rear)


def with_front_dampers(car, times):
    front = replace(car.front, damper=replace(car.front.damper, rate=times * car.front.damper.rate))
    return replace(car, front=front)


@pytest.fixture(scope="module")
def before():
    return roll_against_time(CAR, CORNER)


def test_nothing_changed_nothing_shifted(before):
    assert np.all(shifted_to_front(before, before) == 0)


def test_instants_in_order(before):
    found = instants(before)
    assert tuple(found) == PHASES
    times = [before.time[found[phase]] for phase in PHASES]
    assert 0 < times[0] < CORNER.rise_time
    assert times[1] == pytest.approx(CORNER.release_starts, abs=0.011)  # s; two instants
    assert CORNER.release_starts < times[2] < CORNER.release_ends


def test_in_the_middle_a_bar_shifts_what_the_settled_corner_says(before):
    shift = shifted_to_front(before, roll_against_time(CAR, CORNER, *STIFF))[instants(before)["middle"]]
    ends = [settled_corner(CAR, CORNER.peak, *setup) for setup in (
        (axle_stiffness(CAR.front), axle_stiffness(CAR.rear)), STIFF)]
    gaps = [float(one.front.load_transfer - one.rear.load_transfer) for one in ends]
    assert shift == pytest.approx((gaps[1] - gaps[0]) / 2, abs=0.5)  # N; the roll has all but settled


def test_a_damper_shifts_nothing_in_the_middle_and_changes_sign_on_the_way_out(before):
    shift = shifted_to_front(before, roll_against_time(with_front_dampers(CAR, 2), CORNER))
    way_in, middle, way_out = (shift[instant] for instant in instants(before).values())
    assert way_in > 20 and way_out < -20  # N
    assert middle == pytest.approx(0, abs=0.5)  # N; as above
    assert way_out == pytest.approx(-way_in, rel=0.05)  # the way out mirrors the way in once settled


def test_a_bar_shifts_the_same_way_all_along(before):
    shift = shifted_to_front(before, roll_against_time(CAR, CORNER, *STIFF))
    assert all(shift[instant] > 20 for instant in instants(before).values())
