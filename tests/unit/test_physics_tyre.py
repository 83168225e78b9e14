"""Side force of one tyre: limits at no load and no slip, camber, grip, and the falling-grip closed forms."""

import numpy as np
import pytest
from hypothesis import given

from rollmodel.car import Tyre
from rollmodel.physics import tyre as physics
from rollmodel.physics.tyre_2006 import magic_2006_peak, magic_2006_stiffness, magic_formula_2006
from tests.unit.random_cars import numbers

LOADS = numbers(100.0, 8000.0)
SLIPS = numbers(-0.25, 0.25)
LEANS = numbers(-0.1, 0.1)
FALLING = Tyre("falling grip", 1.0, 1.35, 30e-6, 80e3)


def test_no_load_no_force():
    for tyre in (Tyre(), Tyre(grip_scale=1.4), FALLING):
        force = physics.side_force(tyre, np.radians([0.0, 1.0, 5.0, 20.0]), 0.0)
        assert np.all(np.isfinite(force)) and np.abs(force).max() < 1e-4
        assert physics.peak_side_force(tyre, 0.0) == 0


def test_as_the_load_goes_the_friction_tends_to_a2():
    """a2 is newtons per kilonewton: 1.011 of grip at no load."""
    assert physics.magic_peak(1e-3) / 1e-3 == pytest.approx(1.011, rel=1e-6)
    assert physics.magic_formula_1987(np.radians(8.0), 1.0) == pytest.approx(1.0, rel=0.05)


@given(SLIPS, LOADS, LEANS)
def test_turned_the_other_way_the_force_turns_too(slip, load, lean):
    one, other = (physics.magic_formula_1987(sign * slip, load, sign * lean) for sign in (1, -1))
    assert other == pytest.approx(-one, abs=1e-9)


@given(LOADS, numbers(0.5, 1.8))
def test_grip_scales_the_peak_and_leaves_the_slope(load, grip):
    step = 1e-7
    slope = physics.magic_formula_1987(step, load, 0.0, grip) / step
    assert slope == pytest.approx(physics.magic_stiffness(load), rel=1e-4)
    slips = np.radians(np.linspace(0, 60, 3001))
    highest = physics.magic_formula_1987(slips, load, 0.0, grip).max()
    assert highest == pytest.approx(grip * physics.magic_peak(load), rel=1e-4)
    assert physics.peak_side_force(Tyre(grip_scale=grip), load) == pytest.approx(
        grip * physics.magic_peak(load)
    )


@given(LOADS)
def test_slope_at_no_slip_is_the_cornering_stiffness(load):
    step = 1e-7
    for tyre in (Tyre(), FALLING):
        slope = (physics.side_force(tyre, step, load) - physics.side_force(tyre, -step, load)) / (2 * step)
        assert slope == pytest.approx(physics.cornering_stiffness(tyre, load), rel=1e-4)


@given(LOADS, numbers(0.0, 0.1))
def test_lean_into_the_corner_helps_and_away_from_it_hurts(load, lean):
    upright, into, away = (physics.magic_formula_1987(np.radians(3.0), load, g) for g in (0.0, lean, -lean))
    assert away <= upright * (1 + 1e-12) and into >= away
    at_rest = physics.magic_formula_1987(0.0, load, lean)
    assert at_rest >= 0  # camber thrust without slip


def test_a_wheel_in_the_air_has_no_cornering_stiffness():
    for tyre in (Tyre(), FALLING):
        assert physics.cornering_stiffness(tyre, 0.0) == 0


def test_camber_thrust_by_hand():
    """4 kN, 2 deg of lean, no slip: a11 Fz gamma = 118.4 N, and a shift of a9 gamma = 0.056 deg of slip."""
    thrust = 14.8 * 4 * 2
    shift = physics.magic_formula_1987(np.radians(0.028 * 2), 4000.0) * (1 - 0.022 * 2)
    force = physics.magic_formula_1987(0.0, 4000.0, np.radians(2.0))
    assert force == pytest.approx(thrust + shift, rel=1e-4)


@given(numbers(0.0, 9000.0))
def test_falling_grip_peak_by_hand(load):
    assert physics.falling_grip_peak(load, 1.35, 30e-6) == pytest.approx((1.35 - 30e-6 * load) * load)


def test_falling_grip_never_pulls_the_wrong_way():
    assert physics.falling_grip_peak(60e3, 1.35, 30e-6) == 0


@given(LOADS, numbers(0.0, 60e-6))
def test_falling_grip_reaches_its_peak_and_stays_there(load, drop):
    peak = physics.falling_grip_peak(load, 1.35, drop)
    reached = np.arctan(3 * peak / 80e3)
    slips = np.array([reached, 1.5 * reached, 1.2])
    assert physics.falling_grip_force(slips, load, 1.35, drop, 80e3) == pytest.approx(np.full(3, peak))
    assert physics.falling_grip_force(0.99 * reached, load, 1.35, drop, 80e3) < peak


@given(LOADS, SLIPS)
def test_falling_grip_is_odd_in_slip(load, slip):
    one, other = (physics.side_force(FALLING, sign * slip, load) for sign in (1, -1))
    assert other == pytest.approx(-one)


def test_grip_scale_multiplies_the_falling_peak_at_every_load():
    loads = np.linspace(500, 8000, 9)
    scaled = physics.peak_side_force(Tyre("falling grip", 1.2, 1.35, 30e-6, 80e3), loads)
    assert scaled == pytest.approx(1.2 * physics.peak_side_force(FALLING, loads))


@given(LOADS)
def test_peak_rises_with_load_by_less_than_in_proportion(load):
    for tyre in (Tyre(), FALLING):
        assert physics.peak_side_force(tyre, load) < physics.peak_side_force(tyre, 1.1 * load)
        assert physics.peak_side_force(tyre, 1.1 * load) < 1.1 * physics.peak_side_force(tyre, load)


def test_arrays_broadcast():
    slips, loads = np.radians(np.linspace(0, 12, 7))[:, None], np.array([1000.0, 4000.0])
    for tyre in (Tyre(), FALLING):
        forces = physics.side_force(tyre, slips, loads)
        assert forces.shape == (7, 2) and np.all(np.diff(forces, axis=0) > -50)
        assert forces[3, 1] == pytest.approx(float(physics.side_force(tyre, slips[3, 0], 4000.0)), rel=1e-14)


@given(LOADS)
def test_second_tyre_peak_and_slope(load):
    """In its source's signs: a positive slip angle gives a negative force, both sides nearly alike."""
    slips = np.radians(np.linspace(-40, 40, 8001))
    forces = magic_formula_2006(slips, load)
    shift = load * (0.045 - 0.024 * (load - 4000) / 4000)
    assert forces.max() == pytest.approx(-magic_2006_peak(load) + shift, rel=1e-4)
    assert np.gradient(forces, slips).min() == pytest.approx(float(magic_2006_stiffness(load)), rel=0.02)


def test_second_tyre_without_load_gives_nothing():
    assert abs(magic_formula_2006(0.1, 0.0)) < 1e-2
