"""How far the body rolls: the plain formula, chassis that twist, and cars at the edge of standing up."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rollmodel.car import GRAVITY
from rollmodel.physics.roll import (
    at_centre_of_gravity,
    chassis_compliance,
    least_roll_stiffness,
    roll_gradient,
    roll_gradient_for,
    roll_gradient_without_gravity,
    roll_moment_arm,
    roll_moments_per_acceleration,
    solve_roll,
    stands_up,
)
from rollmodel.physics.stiffness import axle_stiffness, axle_stiffness_for
from tests.unit.plain_car import CAR
from tests.unit.random_cars import cars, numbers


def stiffness(car):
    return axle_stiffness(car.front), axle_stiffness(car.rear)


@given(cars(chassis=st.none()))
def test_rigid_chassis_is_the_plain_formula(car):
    front, rear = stiffness(car)
    moment = car.sprung_mass * roll_moment_arm(car)
    plain = moment / (front.total_roll + rear.total_roll - GRAVITY * moment)
    assert roll_gradient(car, front, rear) == pytest.approx(plain, rel=1e-9)


@given(cars())
def test_the_two_ends_moments_add_up_to_the_whole(car):
    assert sum(roll_moments_per_acceleration(car)) == pytest.approx(car.sprung_mass * roll_moment_arm(car))


@given(cars(chassis=numbers(1e9, 1e10)))
def test_a_very_stiff_chassis_is_rigid(car):
    ends = stiffness(car)
    rigid = replace(car, chassis_torsion=None)
    if stands_up(rigid, *ends):
        assert roll_gradient(car, *ends) == pytest.approx(roll_gradient(rigid, *ends), rel=0.02)


def test_a_very_soft_chassis_lets_each_end_roll_on_its_own():
    car = replace(CAR, chassis_torsion=1e-3)
    moments, ends = roll_moments_per_acceleration(car), stiffness(car)
    angles = solve_roll(moments, [end.total_roll for end in ends], moments, chassis_compliance(car))
    alone = [m / (end.total_roll - GRAVITY * m) for m, end in zip(moments, ends, strict=True)]
    assert angles == pytest.approx(alone, rel=1e-6)


def test_the_softer_the_chassis_the_less_a_bar_change_reaches_the_other_end():
    def rear_roll(torsion, front_bar):
        car = replace(CAR, chassis_torsion=torsion)
        moments = roll_moments_per_acceleration(car)
        front, rear = axle_stiffness_for(car.front, front_bar), axle_stiffness(car.rear)
        return solve_roll(moments, (front.total_roll, rear.total_roll), moments, chassis_compliance(car))[1]

    reach = [rear_roll(torsion, 0.0) - rear_roll(torsion, 5e4) for torsion in (1e4, 1e5, 1e6, None)]
    assert np.all(np.diff(reach) > 0)


@given(numbers(0.0, 500.0), numbers(0.0, 500.0), numbers(2e4, 1e5), numbers(2e4, 1e5), numbers(0.0, 1e-4))
def test_each_end_balances_by_itself(front_moment, rear_moment, front_rate, rear_rate, compliance):
    roll = solve_roll(
        (front_moment, rear_moment),
        (front_rate, rear_rate),
        (5.0 * front_moment, 5.0 * rear_moment),
        compliance,
    )
    through_chassis = [
        5.0 * m - (k - GRAVITY * m) * phi
        for m, k, phi in zip((front_moment, rear_moment), (front_rate, rear_rate), roll, strict=True)
    ]
    assert sum(through_chassis) == pytest.approx(0, abs=1e-6)
    assert roll[0] - roll[1] == pytest.approx(compliance * through_chassis[0], abs=1e-12)


def test_at_the_edge_of_standing_up():
    moments = roll_moments_per_acceleration(CAR)
    edge = GRAVITY * sum(moments)
    for factor, stands in ((1.0001, True), (0.9999, False)):
        roll = solve_roll(moments, (edge * factor / 2, edge * factor / 2), moments, 0.0)
        assert bool(np.isfinite(roll[0])) is stands
    assert roll_gradient_at(1.0001) > 50 * roll_gradient_at(2.0)


def roll_gradient_at(factor):
    moments = roll_moments_per_acceleration(CAR)
    edge = GRAVITY * sum(moments)
    return solve_roll(moments, (edge * factor / 2, edge * factor / 2), moments, 0.0)[0]


def test_a_soft_chassis_needs_each_end_to_stand_by_itself():
    """Together the ends would carry the body; one of them alone cannot carry its share."""
    moments, soft = (300.0, 300.0), 1.0
    strong, weak = 2 * GRAVITY * 300.0, 0.5 * GRAVITY * 300.0
    assert np.isfinite(solve_roll(moments, (strong, weak), moments, 0.0)[0])
    assert np.isnan(solve_roll(moments, (strong, weak), moments, soft)[0])


def test_no_roll_arm_no_roll():
    level = replace(
        CAR,
        front=replace(CAR.front, roll_centre_height=CAR.sprung_cg_height),
        rear=replace(CAR.rear, roll_centre_height=CAR.sprung_cg_height),
    )
    assert roll_gradient(level, *stiffness(level)) == pytest.approx(0, abs=1e-15)


def test_roll_at_the_centre_of_gravity_lies_between_the_ends():
    assert at_centre_of_gravity(CAR, 0.02, 0.02) == pytest.approx(0.02)
    share = CAR.sprung_mass_at("front") / CAR.sprung_mass
    assert at_centre_of_gravity(CAR, 0.01, 0.03) == pytest.approx(0.01 * share + 0.03 * (1 - share))


@given(cars())
def test_a_stiffer_bar_rolls_less(car):
    front, rear = stiffness(car)
    stiffer = axle_stiffness_for(car.front, front.bar_wheel_rate_in_roll + 1e4)
    if roll_moment_arm(car) > 0.05:  # a body hung from above its centre of gravity leans the other way
        assert roll_gradient(car, stiffer, rear) < roll_gradient(car, front, rear)


def test_arrays_of_setups():
    bars = np.linspace(0, 1e5, 5)
    front, rear = axle_stiffness_for(CAR.front, bars[:, None]), axle_stiffness_for(CAR.rear, bars)
    together = roll_gradient(CAR, front, rear)
    assert together.shape == (5, 5)
    alone = roll_gradient(CAR, axle_stiffness_for(CAR.front, bars[1]), axle_stiffness_for(CAR.rear, bars[3]))
    assert together[1, 3] == pytest.approx(float(alone), rel=1e-14)


def test_gravity_taken_out_and_put_back():
    """On a rigid chassis the two gradients differ by the leaning weight alone: K - m_s g h' against K."""
    car = replace(CAR, chassis_torsion=None)
    arm = car.sprung_mass * roll_moment_arm(car)
    for total in (20e3, 120e3):
        with_it, without = (gradient(car, 0.6 * total, 0.4 * total)
                            for gradient in (roll_gradient_for, roll_gradient_without_gravity))
        assert with_it == pytest.approx(arm / (total - GRAVITY * arm))
        assert without == pytest.approx(arm / total)
    least = least_roll_stiffness(car)
    assert least == pytest.approx(GRAVITY * arm)
    assert np.isnan(roll_gradient_for(car, 0.5 * least, 0.499 * least))
    assert np.isfinite(roll_gradient_for(car, 0.5 * least, 0.501 * least))
