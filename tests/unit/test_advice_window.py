"""The car made softer or stiffer as a whole: the same by cars really altered, and by each end's own curve."""

from dataclasses import replace
from math import radians

import numpy as np
import pytest

from rollmodel.advice.case import own_limit_gains
from rollmodel.advice.numbers import hole_pair
from rollmodel.advice.window import (
    ENDS,
    factors_for,
    other_stiffness_at_crossing,
    times_as_stiff,
    window,
)
from rollmodel.car import GRAVITY, Tyre
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.regimes import HandAxle, axle_grip_against_stiffness, hand_axle
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_car, training_cars

MOST = radians(9) / GRAVITY


@pytest.mark.parametrize("name", training_cars())
@pytest.mark.parametrize("factor", [0.75, 1.0, 2.0])
def test_times_as_stiff_scales_springs_and_bars(name, factor):
    car = training_car(name)
    for end in ENDS:
        before, after = (axle_stiffness(one.axle(end)) for one in (car, times_as_stiff(car, factor)))
        assert after.spring_roll == pytest.approx(factor * before.spring_roll, rel=1e-12)
        assert after.bar_roll == pytest.approx(factor * before.bar_roll, rel=1e-12)
        assert after.tyre_roll == before.tyre_roll


@pytest.mark.parametrize("name", training_cars())
def test_one_solve_agrees_with_cars_really_altered(name):
    car = training_car(name)
    found = window(car, (0.8, 1.0, 1.7))
    for n, factor in enumerate(found.factors):
        altered = times_as_stiff(car, factor)
        stiff = [axle_stiffness(altered.axle(end)) for end in ENDS]
        assert found.roll[n] == pytest.approx(float(roll_gradient(altered, *stiff)), rel=1e-9)
    own = own_limit_gains(car, [hole_pair(car)])
    for end in ENDS:
        assert found.gain_at(end, 1.0) == pytest.approx(float(own[end][0]), rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("name", ["coupe", "gravel", "saloon", "single-seater"])
def test_sign_of_a_gain_is_the_slope_of_that_end_s_curve(name):
    """Where the limit rises with stiffness, so does the axle's side force in the corner that is its limit."""
    car = training_car(name)
    found, held = window(car, (1.0,)), limits(car)
    for end in ENDS:
        stiffness = float(axle_stiffness(car.axle(end)).total_roll)
        grip = axle_grip_against_stiffness(
            car, end, float(getattr(held, end)), stiffness * np.array([0.999, 1.001])
        )
        assert np.sign(found.gain_at(end, 1.0)) == np.sign(grip[1] - grip[0])


def test_soft_car_gains_at_both_ends_stiff_car_at_neither():
    assert window(training_car("gravel"), (1.0,)).gaining(1.0) == ENDS
    for name in ("coupe", "saloon", "single-seater"):
        assert window(training_car(name), (1.0,)).gaining(1.0) == ()


def test_crossing_is_where_the_gain_changes_sign():
    car = training_car("coupe")
    found = window(car, factors_for(car, MOST))
    turn = found.crossing("front")
    assert found.crossing("rear") is None
    for factor in found.factors:
        if abs(found.roll_at(factor) / turn - 1) > 0.02:
            assert (found.gain_at("front", factor) > 0) == (found.roll_at(factor) > turn)


def test_a_wheel_that_is_up_is_told_from_the_window():
    """Grip loads by the corner itself; the wheel of a lower car comes down once its springs are stiff."""
    hatch = training_car("hatch")
    lower = replace(hatch, cg_height=0.8 * hatch.cg_height)
    seen = set()
    for car in (hatch, lower, training_car("coupe")):
        found = window(car, factors_for(car, MOST))
        for factor in (found.factors[0], 1.0, found.factors[-1]):
            altered = times_as_stiff(car, factor)
            held = limits(altered)
            for end in ENDS:
                corner = settled_corner(altered, float(getattr(held, end)))
                lifted = tuple(wheel for wheel in ENDS if corner.axle(wheel).inside <= 0)
                assert found.up_at(end, factor) == lifted
                seen.add((car.cg_height, lifted))
    assert seen == {
        (hatch.cg_height, ("rear",)), (lower.cg_height, ("rear",)), (lower.cg_height, ()),
        (training_car("coupe").cg_height, ()),
    }


def test_nothing_is_crossed_where_a_wheel_is_up():
    """At the lift itself the front turns from nothing to a gain, and that is no crossing of two effects."""
    hatch = training_car("hatch")
    found = window(replace(hatch, cg_height=0.8 * hatch.cg_height), factors_for(hatch, MOST))
    up = found.any_up()
    assert 0 < up.sum() < len(up) and found.crossing("front") is None and found.crossing("rear") is None


def test_range_keeps_the_car_as_it_is_and_leaves_out_cars_that_roll_further():
    for name in training_cars():
        car = training_car(name)
        factors = factors_for(car, MOST)
        assert 1.0 in factors and list(factors) == sorted(factors)
        softer = [factor for factor in factors if factor < 1]
        assert all(window(car, factors).roll_at(factor) < MOST for factor in softer)
    assert factors_for(training_car("gravel"), MOST)[0] > factors_for(training_car("coupe"), MOST)[0]


def test_searched_crossing_is_the_one_on_paper_where_paper_is_exact():
    """Falling grip without camber never gains; the sum on paper says nought, and the search finds none."""
    car = training_car("single-seater")
    assert other_stiffness_at_crossing(car, "front", 1.2 * GRAVITY) is None
    assert hand_axle(car, "front", 1.2 * GRAVITY).other_stiffness_at_crossing(900.0) == 0


@pytest.mark.parametrize("name, end", [("coupe", "front"), ("gravel", "rear"), ("saloon", "front")])
def test_searched_crossing_parts_gain_from_loss(name, end):
    """On either side of it, a car with the other end just softer or stiffer gains or loses."""
    car = training_car(name)
    at = float(getattr(limits(car), end))
    crossing = other_stiffness_at_crossing(car, end, at)
    other = "rear" if end == "front" else "front"
    for factor, sign in ((0.97, 1), (1.03, -1)):
        changed = _with_other(car, other, factor * crossing)
        stiffness = float(axle_stiffness(car.axle(end)).total_roll)
        grip = axle_grip_against_stiffness(changed, end, at, stiffness * np.array([0.99, 1.01]))
        assert np.sign(grip[1] - grip[0]) == sign


def _with_other(car, end, total):
    """The car with one end's springs such that, without a bar, it has a roll stiffness in all."""
    stiff = axle_stiffness(car.axle(end))
    wheel = 2 / (1 / total - 1 / stiff.tyre_roll) / stiff.track**2
    rate = wheel / car.axle(end).spring_motion_ratio ** 2
    return replace(car, **{end: replace(car.axle(end), spring_rate=rate, bar=None)})


def test_paper_figures_of_the_example_car():
    """K = a11 W kappa t / (4 |a1| dF) with the 1987 constants: 7 kN, half given back, 1.5 m, 1.8 kN: 488 "
    "N·m/deg."""
    axle = HandAxle(7000.0, 1.5, 1.0, 1.0, 0.0, 1.0, 22.1e-6, np.degrees(14.8e-3), 0.5)
    assert np.radians(axle.other_stiffness_at_crossing(1800.0)) == pytest.approx(
        14.8e-3 * 7000 * 0.5 * 1.5 / (4 * 22.1e-6 * 1800), rel=1e-12
    )
    assert Tyre().curve == "magic formula 1987"
