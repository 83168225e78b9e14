"""Which end gives up first: slip angles, gradient and limits against point-by-point solutions by scipy."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from scipy.optimize import brentq, minimize_scalar

from rollmodel.car import GRAVITY, Tyre
from rollmodel.physics.balance import (
    limits,
    slip_angles,
    small_slip_gradient,
    spare_side_force,
    understeer_angle,
    understeer_gradient,
)
from rollmodel.physics.corner import rollover_acceleration, settled_corner
from rollmodel.physics.driven import force_beside_drive, left_by_ellipse
from rollmodel.physics.pair import axle_arguments, axle_side_force, largest_axle_force
from rollmodel.physics.roll import roll_moment_arm
from rollmodel.physics.stiffness import axle_stiffness, axle_stiffness_for, stiffness_of_every_hole
from tests.unit.plain_car import CAR, with_ends
from tests.unit.random_cars import cars, numbers

ENDS = ("front", "rear")
FALLING = Tyre("falling grip", 1.0, 1.45, 35e-6, 70e3)


def arguments(car, end, acceleration):
    return [float(x) for x in axle_arguments(car.axle(end), settled_corner(car, acceleration).axle(end))]


@given(cars(), numbers(0.5, 6.0))
def test_each_axle_gives_its_mass_share_of_the_side_force(car, acceleration):
    for end, slip in zip(ENDS, slip_angles(car, acceleration), strict=True):
        if np.isfinite(slip):
            force = axle_side_force(car.tyre, slip, *arguments(car, end, acceleration))
            assert force == pytest.approx(car.axle_mass(end) * acceleration)
        else:
            most = largest_axle_force(car.tyre, *arguments(car, end, acceleration))[0]
            assert most < car.axle_mass(end) * acceleration


@pytest.mark.parametrize("tyre", [CAR.tyre, FALLING], ids=["magic", "falling"])
def test_slip_angles_against_scipy(tyre):
    car = replace(CAR, tyre=tyre)
    for acceleration in (1.0, 4.0, 8.0):
        for end, slip in zip(ENDS, slip_angles(car, acceleration), strict=True):
            loads, need = arguments(car, end, acceleration), car.axle_mass(end) * acceleration
            top = float(largest_axle_force(tyre, *loads)[1])
            scalar = brentq(
                lambda s, loads=loads, need=need: axle_side_force(tyre, s, *loads) - need, 0.0, top
            )
            assert slip == pytest.approx(scalar, abs=1e-10)


@settings(max_examples=40)
@given(cars())
def test_limits_against_a_scan(car):
    """The first place in a fine scan at which an end falls short, if any, before rolling over."""
    found, over = limits(car), float(rollover_acceleration(car))
    scan = np.linspace(0.02 * GRAVITY, min(over * (1 - 1e-6), 8 * GRAVITY), 2001)
    for end in ENDS:
        short = np.flatnonzero(spare_side_force(car, end, scan) < 0)
        first = scan[short[0]] if short.size else np.nan
        assert getattr(found, end) == pytest.approx(first, abs=1.01 * (scan[1] - scan[0]), nan_ok=True)


@pytest.mark.parametrize("tyre", [CAR.tyre, FALLING], ids=["magic", "falling"])
@pytest.mark.parametrize("end", ENDS)
def test_limits_against_scipy(tyre, end):
    """Another peak search, another root search: scipy's scalar ones."""
    car = with_ends(replace(CAR, tyre=tyre), front={"camber": -0.03, "camber_recovery": 0.5})

    def spare(acceleration):
        loads, need = arguments(car, end, acceleration), car.axle_mass(end) * acceleration
        best = minimize_scalar(
            lambda s: -axle_side_force(tyre, s, *loads),
            bounds=(0.0, 0.5),
            method="bounded",
            options={"xatol": 1e-9},
        )
        return -best.fun - need

    assert getattr(limits(car), end) == pytest.approx(brentq(spare, 2.0, 18.0, xtol=1e-10), rel=1e-7)


def test_a_limit_just_below_rolling_over_is_found():
    """Beyond rolling over no lean is counted and the grip jumps up again: the search must not look there."""
    soft = {"bar": None, "camber_recovery": 0.0, "roll_centre_height": 0.02}
    car = with_ends(front={**soft, "spring_rate": 20e3}, rear={**soft, "spring_rate": 150e3}, cg_height=0.66)
    car = replace(car, tyre=Tyre(grip_scale=0.95))
    over = float(rollover_acceleration(car))
    before, beyond = (float(spare_side_force(car, "rear", over * factor)) for factor in (0.9999, 1.0001))
    assert before < 0 < beyond  # the trap
    assert 0 < limits(car).rear < over


@settings(max_examples=40)
@given(cars())
def test_the_curve_ends_at_the_limit(car):
    found = limits(car)
    if found.end != "rollover":
        below, above = (slip_angles(car, float(found.lower) * (1 + step)) for step in (-1e-6, 1e-6))
        assert np.all(np.isfinite(below)) and not np.all(np.isfinite(above))


def test_a_whole_map_equals_point_by_point():
    car = with_ends(front={"camber_recovery": 0.4})
    a = np.linspace(0.5, 9.5, 10)
    setups = stiffness_of_every_hole(car)
    angles, bounds = understeer_angle(car, a, *setups), limits(car, *setups)
    for i in range(3):
        for j in range(3):
            one = car.with_holes(i + 1, j + 1)
            alone = [float(understeer_angle(one, x)) for x in a]
            assert angles[i, j] == pytest.approx(alone, abs=1e-11, nan_ok=True)
            for end in ENDS:
                assert getattr(bounds, end)[i, j, 0] == pytest.approx(
                    float(getattr(limits(one), end)), rel=1e-9
                )
            assert bounds.end[i, j, 0] == limits(one).end


def test_understeer_gradient_is_the_slope_of_the_angle():
    a, step = 4.0, 1e-4
    slope = (understeer_angle(CAR, a + step) - understeer_angle(CAR, a - step)) / (2 * step)
    assert understeer_gradient(CAR, a) == pytest.approx(float(slope), rel=1e-3)


@given(cars())
def test_understeer_gradient_is_close_to_the_small_slip_rule_near_straight_ahead(car):
    """W_f/C_f - W_r/C_r at 0.02 g without camber; closer than the two terms' own curvature there."""
    car = with_ends(
        car, front={"camber": None, "camber_recovery": None}, rear={"camber": None, "camber_recovery": None}
    )
    a = 0.02 * GRAVITY
    rule = small_slip_gradient(car, settled_corner(car, a))
    terms = car.axle_mass("front") / 5e4 + car.axle_mass("rear") / 5e4
    assert understeer_gradient(car, a) == pytest.approx(float(rule), abs=0.05 * terms)


def test_equal_ends_are_neutral():
    end = replace(CAR.front, roll_centre_height=0.1)
    car = replace(CAR, front=end, rear=end, front_weight_share=0.5)
    assert understeer_angle(car, np.linspace(0, 9, 10)) == pytest.approx(np.zeros(10), abs=1e-12)
    assert limits(car).gap == pytest.approx(0, abs=1e-8)


def test_a_stiffer_front_bar_understeers_more_on_a_reasonably_stiff_car():
    softer, stiffer = (limits(CAR.with_holes(front=hole)) for hole in (1, 3))
    assert stiffer.front < softer.front and stiffer.rear > softer.rear
    gradients = [understeer_gradient(CAR.with_holes(front=hole), 6.0) for hole in (1, 2, 3)]
    assert np.all(np.diff(gradients) > 0)


@pytest.mark.parametrize("drive", ["front", "rear", "all"])
def test_drive_force_costs_the_driven_end_and_no_other(drive):
    car = replace(CAR, drive=drive)
    coasting, driven = limits(car), limits(car, driven=True)
    for end in ENDS:
        if drive in (end, "all"):
            assert getattr(driven, end) < getattr(coasting, end)
        else:
            assert getattr(driven, end) == pytest.approx(float(getattr(coasting, end)), rel=1e-12)


@pytest.mark.parametrize("tyre", [CAR.tyre, FALLING], ids=["magic", "falling"])
@pytest.mark.parametrize("drive", ["front", "rear", "all"])
def test_driven_slip_angles_agree_with_the_ellipse(drive, tyre):
    """Side and drive force of each axle lie on its ellipse, and the drive force is the tyres' drag."""
    car, a = replace(CAR, drive=drive, tyre=tyre), 7.0
    slips = dict(zip(ENDS, slip_angles(car, a, driven=True), strict=True))
    need = {end: car.axle_mass(end) * a for end in ENDS}
    drag = sum(need[end] * np.sin(slips[end]) for end in ENDS)
    share = {
        "front": {"front": 1, "rear": 0},
        "rear": {"front": 0, "rear": 1},
        "all": {"front": 0.52, "rear": 0.48},
    }[drive]
    for end in ENDS:
        loads = arguments(car, end, a)
        largest = float(largest_axle_force(tyre, *loads)[0])
        free = float(axle_side_force(tyre, slips[end], *loads))
        assert left_by_ellipse(largest, share[end] * drag) * free / largest == pytest.approx(
            need[end], rel=1e-9
        )
        other = drag - need[end] * np.sin(slips[end])
        given_ = force_beside_drive(tyre, slips[end], share[end], need[end], other, largest, *loads)
        assert given_ == pytest.approx(need[end], rel=1e-9)


@pytest.mark.parametrize(("drive", "within"), [("front", 1e-7), ("rear", 1e-7), ("all", 1e-3)])
def test_driven_curve_ends_at_the_driven_limit(drive, within):
    """Four wheels driven: the other end's drag is taken as at this end's peak, good to 0.1 %."""
    for tyre in (CAR.tyre, FALLING):
        car = replace(CAR, drive=drive, tyre=tyre)
        lower = float(limits(car, driven=True).lower)
        low, high = 0.9 * lower, 1.1 * lower
        for _ in range(int(np.ceil(np.log2(0.8 / within)))):
            middle = (low + high) / 2
            holds = np.all(np.isfinite(slip_angles(car, middle, driven=True)))
            low, high = (middle, high) if holds else (low, middle)
        assert low == pytest.approx(lower, rel=within)


def test_without_drag_nothing_is_taken():
    assert left_by_ellipse(4000.0, 0.0) == 4000.0
    assert left_by_ellipse(5000.0, 3000.0) == pytest.approx(4000.0)
    assert left_by_ellipse(4000.0, 5000.0) == 0.0


def test_rolling_over_first_is_named():
    tall = replace(CAR, cg_height=0.9, tyre=Tyre(grip_scale=1.6))
    found = limits(tall)
    assert found.end == "rollover" and np.isnan(found.front) and np.isnan(found.rear)
    assert found.lower == rollover_acceleration(tall)


def test_two_effects_of_a_stiffer_bar_cross_where_the_closed_form_says():
    """``K_other = a11 W kappa t / (4 |a1| dF) + m_s g h'``, the last for gravity's share of the roll.

    The closed form takes each tyre at its own peak; at one slip angle for both it is 1 % out.
    """
    free = {
        "roll_centre_height": 0.0,
        "unsprung_mass": 1e-6,
        "camber_recovery": 0.5,
        "tyre_vertical_rate": None,
        "bar": None,
        "spring_motion_ratio": 1.0,
    }
    car = with_ends(replace(CAR, tyre=Tyre()), front=free, rear={**free, "spring_rate": 28e3})
    a = 6.0

    def front_grip(rate):
        stiff = axle_stiffness_for(car.front, rate), axle_stiffness(car.rear)
        return float(
            largest_axle_force(car.tyre, *axle_arguments(car.front, settled_corner(car, a, *stiff).front))[0]
        )

    best = minimize_scalar(lambda rate: -front_grip(rate), bounds=(0.0, 3e5), method="bounded").x
    corner = settled_corner(car, a, axle_stiffness_for(car.front, best), axle_stiffness(car.rear))
    kilonewtons = car.axle_weight("front") / 1000
    per_degree = 1e3 * 14.8 * kilonewtons * 0.5 * car.front.track / (4 * 22.1e-3 * corner.front.load_transfer)
    gravity = GRAVITY * car.sprung_mass * roll_moment_arm(car)
    assert 1e3 < best < 2.9e5  # a real turning point, not an end of the range
    assert np.degrees(per_degree) + gravity == pytest.approx(axle_stiffness(car.rear).total_roll, rel=0.01)
