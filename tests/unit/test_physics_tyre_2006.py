"""The 2006 set as a car's tyre: its signs, what is left out, an axle at one slip angle, and a bar change."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from scipy.optimize import brentq, minimize_scalar

from rollmodel.advice.case import camber_counts
from rollmodel.car import GRAVITY, Tyre
from rollmodel.physics import tyre as physics
from rollmodel.physics.balance import limits, slip_angles, understeer_gradient
from rollmodel.physics.pair import axle_side_force, largest_axle_force, slip_for_force
from rollmodel.physics.regimes import hand_axle
from rollmodel.physics.tyre_2006 import magic_formula_2006
from rollmodel.physics.uneven import grip_drop_between, peak_grip_at, uneven_pair_loss
from rollmodel.sheets import from_values, training_car
from tests.unit.independent import SecondRoad, side_force_2006
from tests.unit.independent_cases import changed
from tests.unit.random_cars import numbers

SECOND = Tyre("magic formula 2006")
ENDS = ("front", "rear")
LOADS = numbers(1000.0, 8000.0)  # what the set is meant for
SLIPS = numbers(-0.26, 0.26)
GRIPS = numbers(0.6, 1.6)


def coupe(curve):
    car = training_car("coupe")
    return replace(car, tyre=replace(car.tyre, curve=curve))


@given(SLIPS, LOADS, GRIPS)
def test_against_the_book_written_down_again(slip, load, grip):
    ours = physics.side_force(replace(SECOND, grip_scale=grip), slip, load)
    assert ours == pytest.approx(side_force_2006(np.tan(slip), load, grip), rel=1e-12, abs=1e-9)


@given(numbers(0.001, 0.26), LOADS)
def test_positive_slip_pushes_into_the_corner_and_both_ways_alike(slip, load):
    one, other = (physics.side_force(SECOND, sign * slip, load) for sign in (1, -1))
    assert one > 0 and other == pytest.approx(-one, rel=1e-12)


@given(numbers(0.01, 0.26), LOADS)
def test_what_is_left_out_is_the_difference_between_the_two_ways(slip, load):
    """The mean of the set's two directions is ours within 0.2 %: the shifts all but cancel in it."""
    mean = (magic_formula_2006(-slip, load) - magic_formula_2006(slip, load)) / 2
    assert physics.side_force(SECOND, slip, load) == pytest.approx(float(mean), rel=2e-3)


def test_left_in_the_shifts_would_part_a_left_corner_from_a_right_one():
    """Peaks of the two ways at 4 kN differ by 2 x 4.5 % of the load: too much for a car and its mirror."""
    forces = magic_formula_2006(np.radians(np.linspace(-40, 40, 8001)), 4000.0)
    assert forces.max() + forces.min() == pytest.approx(2 * 0.045 * 4000, rel=1e-4)


def test_the_push_to_one_side_grows_with_slip_as_the_docstring_says():
    for slip, percent in ((0, 1.0), (4, 2.1), (12, 4.4)):
        both_ways = sum(magic_formula_2006(np.radians(way * slip), 4000.0) for way in (1, -1))
        assert 100 * both_ways / 2 / 4000 == pytest.approx(percent, abs=0.05)


@given(LOADS, GRIPS)
def test_grip_scales_the_peak_and_leaves_the_slope(load, grip):
    scaled, step = replace(SECOND, grip_scale=grip), 1e-7
    slope = physics.side_force(scaled, step, load) / step
    assert slope == pytest.approx(float(physics.cornering_stiffness(scaled, load)), rel=1e-6)
    assert slope == pytest.approx(float(physics.cornering_stiffness(SECOND, load)), rel=1e-6)
    highest = physics.side_force(scaled, np.radians(np.linspace(0, 60, 6001)), load).max()
    assert highest == pytest.approx(float(physics.peak_side_force(scaled, load)), rel=1e-5)
    assert highest == pytest.approx(grip * (0.990 - 0.145 * (load - 4000) / 4000) * load, rel=1e-5)


def test_a_wheel_in_the_air_gives_nothing():
    assert physics.cornering_stiffness(SECOND, 0.0) == 0 and physics.peak_side_force(SECOND, 0.0) == 0
    assert np.abs(physics.side_force(SECOND, np.radians([0.0, 5.0, 20.0]), 0.0)).max() < 2e-3


@given(LOADS, SLIPS, numbers(-0.1, 0.1))
def test_camber_changes_nothing(load, slip, lean):
    assert physics.side_force(SECOND, slip, load, lean) == physics.side_force(SECOND, slip, load)
    assert not camber_counts(coupe("magic formula 2006"))


@given(numbers(2000.0, 8000.0), numbers(0.0, 0.9))
def test_an_axle_at_one_slip_angle(weight, uneven):
    """Largest sum and slip for a force against scipy's scalar searches; at most the sum of the peaks."""
    loads = weight / 2 * (1 + uneven), weight / 2 * (1 - uneven)
    largest, at = (float(x) for x in largest_axle_force(SECOND, *loads))
    best = minimize_scalar(
        lambda s: -axle_side_force(SECOND, s, *loads),
        bounds=(0.05, 1.0),
        method="bounded",
        options={"xatol": 1e-10},
    )
    assert largest == pytest.approx(-best.fun, rel=1e-10)
    assert largest <= sum(physics.peak_side_force(SECOND, load) for load in loads) * (1 + 1e-12)
    slip = brentq(lambda s: axle_side_force(SECOND, s, *loads) - 0.8 * largest, 0.0, at, xtol=1e-15)
    assert slip_for_force(SECOND, 0.8 * largest, *loads) == pytest.approx(slip, abs=1e-11)


def test_on_paper():
    """``mu = 1.135 - 0.03625 per kN``: any two loads give it, and a pair at 4 +- 2 kN loses 290 N."""
    assert 1e6 * grip_drop_between(SECOND, 2000.0, 7000.0) == pytest.approx(36.25)
    assert peak_grip_at(SECOND, 4000.0) == pytest.approx(0.990)
    lost = 2 * physics.peak_side_force(SECOND, 4e3) - sum(
        physics.peak_side_force(SECOND, f) for f in (2e3, 6e3)
    )
    assert lost == pytest.approx(290.0) and uneven_pair_loss(36.25e-6, 2000.0) == pytest.approx(290.0)
    by_hand = hand_axle(coupe("magic formula 2006"), "front", 6.0)
    assert (by_hand.peak_grip, 1e6 * by_hand.grip_drop, by_hand.camber_loss) == pytest.approx(
        (1.15 * 1.135, 1.15 * 36.25, 0.0)
    )


@pytest.mark.parametrize("driven", [False, True], ids=["coasting", "driven"])
def test_slips_limits_and_gradient_of_a_coupe_by_the_second_road(driven):
    tables = changed("coupe", {"tyre.curve": "magic formula 2006"})
    car, road = from_values(tables), SecondRoad(tables, driven)
    found, over = limits(car, driven=driven), road.rollover()
    for end in ENDS:
        assert float(getattr(found, end)) == pytest.approx(road.limit(end, over), rel=1e-6)
    for a in (2.0, 5.0, 8.0):
        theirs = [road.slips(a)[end][0] for end in ENDS]
        assert [float(s) for s in slip_angles(car, a, driven=driven)] == pytest.approx(theirs, abs=1e-8)
    gradient = understeer_gradient(car, 0.3 * GRAVITY, driven=driven)
    assert float(gradient) == pytest.approx(road.understeer_gradient(), rel=1e-6)


STEPS = [(end, hole) for end in ENDS for hole in (1, 2)]


@pytest.mark.parametrize(("end", "hole"), STEPS)
def test_a_bar_change_has_the_same_direction_with_either_tyre(end, hole):
    """Each step to a stiffer hole of the coupe: gap between the limits and gradient, 1987 against 2006."""
    moves = []
    for curve in ("magic formula 1987", "magic formula 2006"):
        soft, stiff = (coupe(curve).with_holes(**{end: at}) for at in (hole, hole + 1))
        gap = float(limits(stiff).gap - limits(soft).gap) / GRAVITY
        steer = np.degrees(float(understeer_gradient(stiff, 6.0) - understeer_gradient(soft, 6.0))) * GRAVITY
        moves.append((gap, steer))
    wanted = -1 if end == "front" else +1  # a stiffer front lowers the front's limit against the rear's
    for gap, steer in moves:
        assert wanted * gap > 0.002 and wanted * steer < -0.005  # g and deg/g: well off nothing
