"""The two causes of a change of grip, each alone."""

from dataclasses import replace

import pytest

from rollmodel.physics.corner import settled_corner
from rollmodel.physics.grip_change import axle_grip, grip_change
from rollmodel.physics.stiffness import axle_stiffness, axle_stiffness_for
from tests.unit.plain_car import CAR

A = 6.0  # m/s^2


def setups(car):
    """The front bar's wheel rate in roll raised, the rear as it is."""
    rear = axle_stiffness(car.rear)
    return tuple((axle_stiffness_for(car.front, rate), rear) for rate in (5e3, 30e3))


def with_camber(car, recovery):
    return replace(car, front=replace(car.front, camber=None, camber_recovery=recovery))


def test_without_camber_all_of_it_is_load():
    change = grip_change(with_camber(CAR, None), "front", A, *setups(CAR))
    assert change.by_lean == 0 and change.by_load < 0


def test_a_linkage_that_gives_all_the_roll_back_leans_no_tyre():
    change = grip_change(with_camber(CAR, 1.0), "front", A, *setups(CAR))
    assert change.by_lean == pytest.approx(0, abs=1e-6)  # N; only rounding is left


def test_less_roll_gives_grip_back_and_the_parts_make_the_whole():
    car = with_camber(CAR, 0.2)
    before, after = setups(car)
    change = grip_change(car, "front", A, before, after)
    assert change.by_lean > 0
    whole = axle_grip(car, "front", A, after) - axle_grip(car, "front", A, before)
    assert change.whole == pytest.approx(whole)


def test_uneven_load_costs_about_what_the_closed_form_says():
    """``2 |a1| dF^2`` for two summed peaks (SAE 870421 coefficients), the tyre's own scale on top.

    The axle works at one slip angle, so it gives a little less than the two peaks: 5 % of the change allowed.
    """
    car = with_camber(CAR, None)
    before, after = setups(car)
    transfers = [float(settled_corner(car, A, *setup).front.load_transfer) for setup in (before, after)]
    by_hand = -2 * 22.1e-6 * car.tyre.grip_scale * (transfers[1] ** 2 - transfers[0] ** 2)
    assert grip_change(car, "front", A, before, after).by_load == pytest.approx(by_hand, rel=0.05)
