"""Bodies that lean inward, corners the other way, and a bump stop beside a lifted wheel."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given

from rollmodel.car import GRAVITY, CarError, Damper
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.roll import roll_moment_arm, stands_up
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.stress import inside_travel, outside_travel, travel_difference
from rollmodel.physics.transient import roll_against_time
from tests.unit.plain_car import CAR, with_ends
from tests.unit.random_cars import cars, numbers
from tests.unit.test_physics_corner import ENDS, sweep, unbalanced

STOP = {"bump_travel": 0.005, "bump_stop_rate": 100e3}
HIGH_AXIS = {"roll_centre_height": 0.6, "damper": Damper(4500.0, 0.7)}
INWARD = with_ends(front={**HIGH_AXIS, **STOP}, rear=HIGH_AXIS, cg_height=0.3)
TALL = with_ends(front={"bump_travel": 0.005, "bump_stop_rate": 50e3}, cg_height=0.7)
# Most of the mass hangs under a high rear roll centre; a stiff front holds it, against the corner.
HUNG = with_ends(front={"roll_centre_height": 0.0, "spring_rate": 300e3},
                 rear={"roll_centre_height": 0.6, "bar": None, "spring_rate": 10e3},
                 cg_height=0.2, front_weight_share=0.25)


@given(cars(), numbers(-0.3, 0.6), numbers(-0.3, 0.6))
def test_it_balances_wherever_the_roll_axis_lies(car, front, rear):
    car = with_ends(car, front={"roll_centre_height": front}, rear={"roll_centre_height": rear})
    if not stands_up(car, axle_stiffness(car.front), axle_stiffness(car.rear)):
        return
    corner = settled_corner(car, sweep(car))
    stands = ~corner.rolls_over
    assert np.abs(unbalanced(car, corner)[stands]).max() < 1e-7  # states are told apart to 1e-9 of a moment
    for end in ENDS:
        loads = corner.axle(end)
        assert min(loads.inside.min(), loads.outside.min()) >= 0
        assert loads.inside + loads.outside == pytest.approx(car.axle_weight(end))
        assert not np.any(loads.lifted & loads.outside_lifted)


@given(cars(), numbers(0.1, 12.0))
def test_the_corner_the_other_way_is_the_mirror_past_lifting_and_on_stops_too(car, acceleration):
    one, other = settled_corner(car, acceleration), settled_corner(car, -acceleration)
    assert other.rolls_over == one.rolls_over
    assert other.roll_angle == pytest.approx(-one.roll_angle, nan_ok=True)
    for end in ENDS:
        here, there = one.axle(end), other.axle(end)
        assert (there.outside, there.inside) == pytest.approx((here.inside, here.outside), abs=1e-6)
        assert (there.outside_lifted, there.on_stop) == (here.lifted, here.on_stop)


def test_an_inward_lean_meets_the_inside_stop_and_time_agrees():
    assert roll_moment_arm(INWARD) < 0
    corner = settled_corner(INWARD, 9.0)
    history = roll_against_time(INWARD, BuildUp(9.0, 0.5, 6.0, 0.5))
    assert corner.front.on_stop and corner.front.leans_inward and corner.roll_angle < 0
    # Swinging dies away to about a millionth in the six seconds of the hold.
    assert history.roll_angle[history.middle] == pytest.approx(float(corner.roll_angle), rel=1e-4)
    free = settled_corner(with_ends(INWARD, front={"bump_travel": None, "bump_stop_rate": None}), 9.0)
    assert abs(corner.roll_angle) < abs(free.roll_angle)


def test_travel_of_an_inward_lean_is_the_outward_one_turned_round():
    inward = settled_corner(INWARD, 9.0).front
    stiff = axle_stiffness(INWARD.front)
    turned = replace(inward, elastic=-inward.elastic)
    assert travel_difference(stiff, inward) == pytest.approx(-travel_difference(stiff, turned))
    assert inside_travel(stiff, inward) == pytest.approx(outside_travel(stiff, turned))
    assert outside_travel(stiff, inward) < 0 < stiff.stop_travel < inside_travel(stiff, inward)


def test_an_outside_wheel_can_lift_and_its_load_is_never_below_nothing():
    corner = settled_corner(HUNG, np.linspace(0.0, 11.0, 200))
    up = corner.front.outside_lifted
    assert up[-1] and not up[0] and not corner.rolls_over.any()
    assert np.all(corner.front.outside[up] == 0) and corner.front.outside.min() == 0
    assert corner.front.inside[up] == pytest.approx(HUNG.axle_weight("front"))
    assert np.abs(unbalanced(HUNG, corner)).max() < 1e-7


def test_a_wheel_in_the_air_does_not_make_the_stop_forgotten():
    corner = settled_corner(TALL, np.linspace(0.0, 1.1, 111) * GRAVITY)
    front, stands = corner.front, ~corner.rolls_over
    assert np.any(front.lifted[stands])
    assert np.all(np.diff(front.on_stop[stands].astype(int)) >= 0) and front.on_stop[stands][-1]
    used = outside_travel(axle_stiffness(TALL.front), front)
    assert np.array_equal(front.on_stop[stands], (used >= TALL.front.bump_travel)[stands])


@pytest.mark.parametrize("value", [np.nan, np.inf, [1.0, np.nan]])
def test_a_corner_that_is_no_number_is_refused(value):
    with pytest.raises(CarError, match=r"lateral_acceleration: wanted finite numbers, given"):
        settled_corner(CAR, value)
