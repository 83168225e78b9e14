"""Where stiffening an end gains or loses grip at that end: on paper, by search, and by the whole model."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import approx_fprime, minimize_scalar

from rollmodel.advice.case import own_limit_gains, stiffness_step
from rollmodel.advice.numbers import hole_pair
from rollmodel.car import GRAVITY
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.pair import axle_arguments, largest_axle_force
from rollmodel.physics.regimes import (
    HandAxle,
    at_roll_stiffness,
    axle_grip_against_stiffness,
    crossing,
    hand_axle,
)
from rollmodel.physics.roll import roll_moment_arm
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_car, training_cars
from tests.unit.advice_cars import car, gravel, heavy_nose, struts_and_beam

PER_DEG = np.radians(1)  # N*m/rad to N*m/deg
C = float(np.degrees(14.8e-3))  # a11 of the 1987 formula, 1/rad

hand_axles = st.builds(
    HandAxle, weight=st.floats(2e3, 1e4), track=st.floats(1.2, 1.7), other_stiffness=st.floats(5e3, 1e5),
    roll_moment=st.floats(1e3, 6e3), fixed_transfer=st.floats(0, 800), peak_grip=st.floats(0.8, 1.8),
    grip_drop=st.floats(1e-5, 1e-4), camber_loss=st.floats(0, 1.5), camber_left=st.floats(0, 1.2),
    static_lean=st.floats(-0.02, 0.06))


# On paper


def test_the_crossing_of_a_road_car_lies_where_the_two_rules_of_the_trade_meet():
    """7 kN on the axle, 1.5 m track, half of the roll given back: 400 to 630 N*m/deg (by hand)."""
    by_hand = HandAxle(7000.0, 1.5, 40e3, 3000.0, 600.0, 1.011, 22.1e-6, C, 0.5)
    for transfer, wanted in ((1400.0, 627.8), (1800.0, 488.3), (2200.0, 399.5)):
        # 14.8 x 7 x 0.5 x 1.5 / (4 x 22.1 x dF in kN) x 1000, printed to 0.1
        assert by_hand.other_stiffness_at_crossing(transfer) * PER_DEG == pytest.approx(wanted, abs=0.05)


@given(hand_axles, st.floats(1e3, 2e5))
def test_the_slope_is_the_slope_of_the_grip(by_hand, stiffness):
    step = 1e-3 * stiffness
    difference = (by_hand.grip(stiffness + step) - by_hand.grip(stiffness - step)) / (2 * step)
    # rounding of a grip of 1e4 N over the step, and the cubic term of the central difference
    assert by_hand.slope(stiffness) == pytest.approx(
        float(difference), rel=1e-4, abs=1e-8 + 1e-11 / step * 1e4
    )


@given(hand_axles)
def test_the_closed_top_is_where_a_search_finds_it(by_hand):
    top = by_hand.stiffness_at_top
    if top is None or top > 1e7:
        tries = np.geomspace(1.0, 1e7, 400)
        best = int(np.argmax(by_hand.grip(tries)))
        assert best in (0, 399) or by_hand.grip(tries).max() - by_hand.grip(tries)[[0, -1]].max() < 1e-3
        return
    found = minimize_scalar(
        lambda log: -float(by_hand.grip(np.exp(log))),
        bounds=(-5, 18),
        method="bounded",
        options={"xatol": 1e-9},
    )
    assert by_hand.grip(top) >= -found.fun - 1e-9
    assert abs(by_hand.slope(top)) < 1e-9


@given(hand_axles, st.floats(1e3, 2e5))
def test_below_the_crossing_a_stiffer_end_gains_and_above_it_loses(by_hand, stiffness):
    transfer = by_hand.load_transfer(stiffness)
    if by_hand.loss_per_transfer(transfer) <= 0:
        assert by_hand.slope(stiffness) >= 0
        return
    at = by_hand.other_stiffness_at_crossing(transfer)
    if not math.isclose(by_hand.other_stiffness, at, rel_tol=1e-9):
        assert (by_hand.slope(stiffness) > 0) == (by_hand.other_stiffness < at)


def test_without_camber_there_is_no_gain_at_any_stiffness():
    by_hand = replace(HandAxle(7000.0, 1.5, 40e3, 3000.0, 600.0, 1.011, 22.1e-6, C, 0.5), camber_loss=0.0)
    assert by_hand.stiffness_at_top is None and np.all(by_hand.slope(np.geomspace(1e3, 1e6, 50)) < 0)


def test_an_other_end_too_soft_leaves_no_top():
    by_hand = HandAxle(7000.0, 1.5, 5e3, 3000.0, 600.0, 1.011, 22.1e-6, C, 1.0)
    assert by_hand.stiffness_at_top is None and np.all(by_hand.slope(np.geomspace(1e3, 1e7, 50)) > 0)


def test_the_loss_to_uneven_load_is_the_closed_one_of_a_pair():
    """4 +- 2 kN of the 1987 formula: 176.8 N (2 |a1| dF^2, computed from published inputs)."""
    by_hand = HandAxle(8000.0, 1.5, 40e3, 1500.0, 2000.0, 1.011, 22.1e-6, 0.0, 0.5)
    assert by_hand.lost_to_uneven_load(0.0) == pytest.approx(176.8)


# The whole model


@pytest.mark.parametrize("total", [5e3, 40e3, np.array([10e3, 60e3])])
def test_an_axle_made_to_a_roll_stiffness_has_it(total):
    stiff = axle_stiffness(training_car("coupe").front)
    assert np.asarray(at_roll_stiffness(stiff, total).total_roll) == pytest.approx(
        np.asarray(total), rel=1e-12
    )


@pytest.mark.parametrize("total", [0.0, -1.0, 1e9])
def test_a_roll_stiffness_that_no_bar_gives_is_refused(total):
    with pytest.raises(ValueError, match="total: wanted above zero and below the tyres' own roll stiffness"):
        at_roll_stiffness(axle_stiffness(training_car("coupe").front), total)


@pytest.mark.parametrize("name", sorted(training_cars()))
@pytest.mark.parametrize("end", ["front", "rear"])
def test_at_its_own_stiffness_an_axle_has_its_own_grip(name, end):
    fitted = training_car(name)
    a = 0.9 * float(limits(fitted).lower)
    own = largest_axle_force(
        fitted.tyre, *axle_arguments(fitted.axle(end), settled_corner(fitted, a).axle(end))
    )[0]
    total = axle_stiffness(fitted.axle(end)).total_roll
    assert float(axle_grip_against_stiffness(fitted, end, a, total)) == pytest.approx(float(own), rel=1e-10)


@pytest.mark.parametrize("make", [car, heavy_nose])
@pytest.mark.parametrize("end", ["front", "rear"])
def test_with_falling_grip_the_model_is_the_paper_with_gravity_counted(make, end):
    """Both by their own road: settled corner and tyre pair here, one closed expression there."""
    fitted, a = make(), 0.8 * GRAVITY
    totals = np.linspace(30e3, 90e3, 13)
    assert axle_grip_against_stiffness(fitted, end, a, totals) == pytest.approx(
        hand_axle(fitted, end, a, refined=True).grip(totals), rel=1e-12
    )


def test_gravity_takes_its_moment_from_the_other_end():
    fitted = heavy_nose()
    plain, refined = (hand_axle(fitted, "front", 5.0, refined) for refined in (False, True))
    assert plain.other_stiffness - refined.other_stiffness == pytest.approx(
        fitted.sprung_mass * GRAVITY * roll_moment_arm(fitted), rel=1e-12
    )


@pytest.mark.parametrize("name", ["coupe", "gravel", "saloon"])
@pytest.mark.parametrize("end", ["front", "rear"])
def test_the_paper_is_near_the_1987_formula(name, end):
    """Within 4 %: the paper sums two peaks and takes camber as a straight line; the formula does neither."""
    fitted = training_car(name)
    a = 0.9 * float(limits(fitted).lower)
    total = axle_stiffness(fitted.axle(end)).total_roll
    assert float(hand_axle(fitted, end, a, refined=True).grip(total)) == pytest.approx(
        float(axle_grip_against_stiffness(fitted, end, a, total)), rel=0.04
    )


@pytest.mark.parametrize("end", ["front", "rear"])
def test_the_top_by_the_model_and_on_paper(end):
    """The top is flat, so a small difference in the curves moves it far: within a quarter of each other."""
    fitted = training_car("coupe")
    a = 0.95 * float(limits(fitted).lower)
    by_model = crossing(fitted, end, a, 5e3, 60e3)
    assert by_model == pytest.approx(hand_axle(fitted, end, a, refined=True).stiffness_at_top, rel=0.25)


def test_the_crossing_is_the_highest_of_a_fine_scan():
    fitted, a = training_car("coupe"), 9.5
    top = crossing(fitted, "front", a, 5e3, 60e3)
    fine = np.linspace(0.99 * top, 1.01 * top, 401)
    grip = axle_grip_against_stiffness(fitted, "front", a, fine)
    assert float(axle_grip_against_stiffness(fitted, "front", a, top)) >= grip.max() - 1e-6
    assert fine[int(np.argmax(grip))] == pytest.approx(top, rel=1e-3)


def test_no_top_inside_a_range_is_none():
    assert crossing(heavy_nose(), "front", 7.0, 20e3, 90e3) is None  # no camber: falls all the way
    assert crossing(struts_and_beam(), "front", 6.0, 10e3, 60e3) is None  # too soft: rises all the way
    assert crossing(car(cg_height=1.5), "front", 12.0, 5e3, 9e3) is None  # rolls over all the way


@pytest.mark.parametrize(
    "make, end, gains",
    [
        (gravel, "front", True),
        (gravel, "rear", True),
        (struts_and_beam, "front", True),
        (struts_and_beam, "rear", False),
        (heavy_nose, "front", False),
        (lambda: training_car("coupe"), "front", False),
        (lambda: training_car("gravel"), "rear", True),
    ],
)
def test_the_side_of_the_crossing_is_the_one_that_the_limit_takes(make, end, gains):
    """Grip at a given corner against stiffness, and the end's own limit: two questions, one sign."""
    fitted = make()
    a = float(getattr(limits(fitted), end))
    total = float(axle_stiffness(fitted.axle(end)).total_roll)
    slope = approx_fprime(
        np.array([total]), lambda k: float(axle_grip_against_stiffness(fitted, end, a, k[0])), 50.0
    )
    assert (slope[0] > 0) == gains
    gain = float(own_limit_gains(fitted, [hole_pair(fitted)])[end][0])
    assert (gain > 0) == gains
    # to first order the limit moves by the grip gained over the mass less what more acceleration costs
    assert abs(gain) < abs(slope[0]) * stiffness_step(fitted) / fitted.axle_mass(end)
