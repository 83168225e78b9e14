"""Two tyres at one slip angle: what uneven load and lean cost, and slip angles found again."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from scipy.optimize import brentq

from rollmodel.car import Tyre
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.pair import (
    axle_arguments,
    axle_side_force,
    largest_axle_force,
    lean_into_corner,
    slip_for_force,
)
from rollmodel.physics.tyre import MAGIC_1987, peak_side_force
from tests.unit.plain_car import CAR, FRONT
from tests.unit.random_cars import falling_tyres, numbers, tyres

WEIGHTS = numbers(1500.0, 12000.0)
UNEVEN = numbers(0.0, 1.0)
LEANS = numbers(-0.08, 0.08)


def pair(weight, uneven):
    """Outside and inside load; 1: the inside wheel is in the air."""
    return weight / 2 * (1 + uneven), weight / 2 * (1 - uneven)


@given(tyres, WEIGHTS, UNEVEN)
def test_the_largest_sum_is_at_most_the_sum_of_the_peaks(tyre, weight, uneven):
    loads = pair(weight, uneven)
    largest, _ = largest_axle_force(tyre, *loads)
    assert largest <= sum(peak_side_force(tyre, load) for load in loads) * (1 + 1e-9)


@given(tyres, WEIGHTS)
def test_an_even_pair_gives_twice_one_peak(tyre, weight):
    largest, _ = largest_axle_force(tyre, weight / 2, weight / 2)
    assert largest == pytest.approx(2 * float(peak_side_force(tyre, weight / 2)), rel=1e-6)


@given(falling_tyres, WEIGHTS, UNEVEN)
def test_falling_grip_loses_exactly_2_k_dF_squared(tyre, weight, uneven):
    loads = pair(weight, uneven)
    if tyre.peak_grip < 1.2 * tyre.grip_drop * loads[0]:
        return  # so much load that the peak would be negative: the curve stops at nil there
    even, _ = largest_axle_force(tyre, weight / 2, weight / 2)
    lost = even - largest_axle_force(tyre, *loads)[0]
    closed = 2 * tyre.grip_scale * tyre.grip_drop * (weight / 2 * uneven) ** 2
    assert lost == pytest.approx(closed, abs=1e-8 * float(even))


@given(WEIGHTS, UNEVEN, numbers(0.0, 0.08))
def test_lean_costs_a11_W_gamma(weight, uneven, lean):
    """Both wheels lean out alike: the whole curve sinks by a11 W gamma, a11 in N per kN and deg."""
    loads = pair(weight, uneven)
    upright, leaning = (largest_axle_force(Tyre(), *loads, -g, -g)[0] for g in (0.0, lean))
    wanted = MAGIC_1987["a11"] * weight / 1000 * np.degrees(lean)
    assert upright - leaning == pytest.approx(wanted, abs=1e-6 * weight)


def test_the_part_that_the_linkage_gives_back_does_not_cost():
    axle = replace(FRONT, camber=None, camber_recovery=0.6)
    assert lean_into_corner(axle, 0.05) == pytest.approx((-0.02, -0.02))
    assert lean_into_corner(replace(axle, camber_recovery=1.0), 0.05) == pytest.approx((0.0, 0.0))


def test_static_camber_helps_outside_and_hurts_inside():
    axle = replace(FRONT, camber=np.radians(-2.0), camber_recovery=None)
    outside, inside = lean_into_corner(axle, 0.05)
    assert outside == pytest.approx(np.radians(2.0)) and inside == pytest.approx(-np.radians(2.0))


def test_camber_counts_only_where_the_sheet_gives_it():
    assert lean_into_corner(replace(FRONT, camber=None, camber_recovery=None), 0.05) == (0.0, 0.0)


@given(tyres, WEIGHTS, UNEVEN, LEANS, LEANS, numbers(0.05, 0.97))
def test_slip_for_force_is_the_inverse(tyre, weight, uneven, lean_out, lean_in, part):
    arguments = (*pair(weight, uneven), lean_out, lean_in)
    largest, at = largest_axle_force(tyre, *arguments)
    slip = slip_for_force(tyre, part * largest, *arguments)
    assert -0.35 < slip <= at
    assert axle_side_force(tyre, slip, *arguments) == pytest.approx(part * float(largest), rel=1e-9)


@given(tyres, WEIGHTS, UNEVEN)
def test_slip_for_force_agrees_with_scipy(tyre, weight, uneven):
    loads = pair(weight, uneven)
    largest, at = (float(x) for x in largest_axle_force(tyre, *loads))
    wanted = 0.7 * largest
    scalar = brentq(lambda slip: float(axle_side_force(tyre, slip, *loads)) - wanted, 0.0, at, xtol=1e-15)
    assert slip_for_force(tyre, wanted, *loads) == pytest.approx(scalar, abs=1e-11)


def test_no_force_no_slip_and_too_much_no_answer():
    assert slip_for_force(Tyre(), 0.0, 4000.0, 2000.0) == pytest.approx(0, abs=1e-12)
    assert np.isnan(slip_for_force(Tyre(), 1e5, 4000.0, 2000.0))


def test_uneven_pair_peaks_between_the_two_tyres_own_peaks():
    slips = [float(largest_axle_force(Tyre(), load, load)[1]) for load in (1500.0, 5500.0)]
    _, at = largest_axle_force(Tyre(), 5500.0, 1500.0)
    assert min(slips) < at < max(slips)


def test_arguments_of_an_axle_in_the_corner():
    corner = settled_corner(CAR, np.array([2.0, 6.0]))
    outside, inside, *leans = axle_arguments(CAR.front, corner.front)
    assert np.all(outside > inside) and all(np.all(lean == 0) for lean in leans)
