"""From spring and bar to wheel, and from wheel to roll stiffness of the axle."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given

from rollmodel.physics.stiffness import (
    axle_stiffness,
    axle_stiffness_for,
    in_series,
    roll_stiffness,
    stiffness_of_every_hole,
    wheel_rate,
)
from tests.unit.plain_car import FRONT as AXLE
from tests.unit.random_cars import axles, cars, numbers

RATES = numbers(1e3, 1e6)


def test_motion_ratio_counts_squared():
    assert wheel_rate(50e3, 0.5) == pytest.approx(12.5e3)


@given(axles)
def test_doubling_the_track_quadruples_roll_stiffness(axle):
    """Tyres too, so the whole quadruples."""
    once, twice = (axle_stiffness(replace(axle, track=track)) for track in (axle.track, 2 * axle.track))
    assert twice.total_roll == pytest.approx(4 * once.total_roll)


@given(axles)
def test_parts_add_and_the_tyre_is_in_series(axle):
    stiff = axle_stiffness(axle)
    assert stiff.suspension_roll == pytest.approx(stiff.spring_roll + stiff.bar_roll)
    assert stiff.bar_wheel_rate == pytest.approx(stiff.bar_wheel_rate_in_roll / 2)
    if axle.tyre_vertical_rate is None:
        assert stiff.total_roll == pytest.approx(stiff.suspension_roll, rel=1e-12)
    else:
        assert 1 / stiff.total_roll == pytest.approx(1 / stiff.suspension_roll + 1 / stiff.tyre_roll)
        assert stiff.total_roll < min(stiff.suspension_roll, stiff.tyre_roll)


@given(RATES, RATES)
def test_in_series_limits(first, second):
    assert in_series(first, np.inf) == pytest.approx(first)
    assert in_series(first, second) == pytest.approx(in_series(second, first))
    assert in_series(first, first) == pytest.approx(first / 2)
    assert in_series(first, 1e-9 * first) == pytest.approx(1e-9 * first)  # the weaker one decides


@given(axles)
def test_two_wheels_pushed_apart_give_the_same_roll_stiffness(axle):
    """By moments: each wheel moves half a track per radian and pushes back at half a track."""
    stiff = axle_stiffness(axle)
    per_wheel = stiff.spring_wheel_rate + stiff.bar_wheel_rate_in_roll
    travel = axle.track / 2 * 1e-3
    assert 2 * per_wheel * travel * axle.track / 2 / 1e-3 == pytest.approx(stiff.suspension_roll)
    assert roll_stiffness(per_wheel, axle.track) == pytest.approx(stiff.suspension_roll)


@given(axles)
def test_bump_stop_takes_over_where_the_travel_is_used_up(axle):
    stiff = axle_stiffness(axle)
    if axle.bump_travel is None or axle.bump_stop_rate is None:
        assert np.isinf(stiff.stop_angle) and stiff.stop_rate == 0
        return
    in_suspension = stiff.stop_angle * stiff.total_roll / stiff.suspension_roll  # the tyre takes the rest
    assert in_suspension * axle.track / 2 == pytest.approx(axle.bump_travel)
    assert stiff.total_roll_on_stop > stiff.total_roll


@pytest.mark.parametrize("tyre", [None, 230e3])
def test_a_stop_on_one_wheel_by_the_balance_of_four_travels(tyre):
    """Body rise and roll, and both wheels' travel, solved from the forces: springs, bar, stop, tyres."""
    axle = replace(AXLE, tyre_vertical_rate=tyre, bump_travel=0.05, bump_stop_rate=1e5)
    stiff = axle_stiffness(axle)
    k, bar, stop, half = stiff.spring_wheel_rate, stiff.bar_wheel_rate, 1e5, axle.track / 2
    tyres = 1e15 if tyre is None else tyre
    # unknown: body rise, body roll, outer and inner wheel's travel up; the stop from its first touch on
    apart = np.array([[-1, half, -1, 0], [-1, -half, 0, -1]])  # outer and inner suspension travel
    energy = k * apart.T @ apart + bar * np.outer(apart[0] - apart[1], apart[0] - apart[1])
    energy += stop * np.outer(apart[0], apart[0]) + np.diag([0, 0, tyres, tyres])
    rolled = np.linalg.solve(energy, [0, 1, 0, 0])[1]  # for a moment of one
    assert 1 / rolled == pytest.approx(stiff.total_roll_on_stop, rel=1e-6)  # tyres of 1e15 for rigid ones


def test_a_hard_stop_makes_the_outside_wheel_the_pivot():
    """However hard the stop, the body can still rise on its two springs: ``k t^2 / 2`` is its most."""
    axle = replace(AXLE, tyre_vertical_rate=None, bump_travel=0.05, bump_stop_rate=1e12)
    stiff = axle_stiffness(axle)
    added = stiff.total_roll_on_stop - stiff.total_roll
    assert added == pytest.approx(stiff.spring_wheel_rate * axle.track**2 / 2, rel=1e-6)


def test_no_bar_adds_nothing():
    stiff = axle_stiffness(replace(AXLE, bar=None))
    assert stiff.bar_roll == 0 and stiff.suspension_roll == stiff.spring_roll


@given(cars())
def test_every_hole_at_once_equals_one_at_a_time(car):
    front, rear = stiffness_of_every_hole(car)
    assume(car.front.bar is not None and car.rear.bar is not None)
    for i in range(car.front.positions):
        for j in range(car.rear.positions):
            one = axle_stiffness(car.front, i + 1).total_roll, axle_stiffness(car.rear, j + 1).total_roll
            assert (front.total_roll[i, 0, 0], rear.total_roll[0, j, 0]) == pytest.approx(one, rel=1e-13)


@given(cars())
def test_the_hole_in_use_is_the_default(car):
    for end in ("front", "rear"):
        axle = car.axle(end)
        assert axle_stiffness(axle).total_roll == axle_stiffness(axle, axle.hole).total_roll


def test_leaning_link_counts_like_a_smaller_motion_ratio():
    leaning = replace(AXLE.bar, link_lean_at_pickup=0.5)
    smaller = replace(AXLE.bar, link_motion_ratio=AXLE.bar.link_motion_ratio * np.cos(0.5))
    rates = [axle_stiffness(replace(AXLE, bar=bar)).bar_roll for bar in (leaning, smaller)]
    assert rates[0] == pytest.approx(rates[1])


def test_arrays_of_bar_rates_go_through():
    stiff = axle_stiffness_for(AXLE, np.array([0.0, 1e4, 2e4]))
    assert stiff.total_roll.shape == (3,) and np.all(np.diff(stiff.total_roll) > 0)
