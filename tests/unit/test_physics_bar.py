"""The bar at its link: limits of each part, and what must hold for any bar."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given

from rollmodel.car import Bar, Blade
from rollmodel.physics import bar as physics
from rollmodel.physics.sections import (
    rectangle_second_moment,
    rectangle_torsion_constant,
    round_polar_second_moment,
    round_second_moment,
)
from tests.unit.random_cars import bars, numbers

PLAIN = Bar(0.026, 0.95, 0.62, (0.22, 0.20, 0.18), wall=0.004, arms="rigid")
INCH, POUND = 0.0254, 4.4482216152605


def blade_bar(*angles, tip="free", **more):
    return Bar(0.026, 0.95, 0.62, arms="blade", blade=Blade(0.2, 0.025, 0.006, angles, tip), **more)


def test_a_wall_of_half_the_diameter_is_a_solid_bar():
    solid, full = (physics.link_rates_in_roll(replace(PLAIN, wall=wall)) for wall in (None, 0.013))
    assert full == pytest.approx(solid, rel=1e-12)


def test_polar_is_twice_the_bending_second_moment():
    assert round_polar_second_moment(0.03, 0.02) == pytest.approx(2 * round_second_moment(0.03, 0.02))


def test_thin_tube_tends_to_its_mean_radius():
    radius, wall = 0.0125, 1e-5
    polar = round_polar_second_moment(2 * radius + wall, 2 * radius - wall)
    assert polar == pytest.approx(2 * math.pi * radius**3 * wall, rel=1e-6)


def test_thin_rectangle_tends_to_a_third():
    assert rectangle_torsion_constant(1.0, 1e-3) == pytest.approx(1e-9 / 3, rel=1e-3)
    assert rectangle_torsion_constant(2.0, 1.0) == pytest.approx(rectangle_torsion_constant(1.0, 2.0))


def test_rigid_arms_go_with_one_over_lever_squared():
    rates = physics.link_rates_in_roll(PLAIN)
    assert rates * np.array(PLAIN.holes) ** 2 == pytest.approx(np.full(3, rates[0] * PLAIN.holes[0] ** 2))


@given(bars())
def test_one_end_held_is_half_of_in_roll(bar):
    assert physics.link_rates_one_end_held(bar) == pytest.approx(physics.link_rates_in_roll(bar) / 2)


@given(bars())
def test_a_stiffer_hole_is_stiffer(bar):
    rates = physics.link_rates_in_roll(bar)
    inboard = bar.support_spacing is not None and bar.arm_sweep == "inward"
    if not inboard:  # an arm swept inward past its bushing can bend the centre section less when longer
        assert np.all(np.diff(rates) > 0)


@given(bars())
def test_every_part_can_only_soften(bar):
    parts = physics.compliance_parts(bar)
    assert all(np.all(part >= 0) for part in parts.values())
    assert np.all(physics.link_rates_in_roll(bar) <= 1 / parts["twist"] * (1 + 1e-12))


@given(bars(), numbers(0.2, 5.0))
def test_a_stiffer_steel_is_stiffer_in_proportion(bar, factor):
    bar = replace(bar, bushing_rate=None, link_rate=None)
    harder = replace(
        bar, shear_modulus=factor * bar.shear_modulus, youngs_modulus=factor * bar.youngs_modulus
    )
    assert physics.link_rates_in_roll(harder) == pytest.approx(factor * physics.link_rates_in_roll(bar))


@given(bars())
def test_inches_and_pounds_give_the_same_bar(bar):
    """Every length in inches, every rate in lbf/in, moduli in psi: the formulas know no units."""
    blade = bar.blade and replace(
        bar.blade,
        length=bar.blade.length / INCH,
        width=bar.blade.width / INCH,
        thickness=bar.blade.thickness / INCH,
    )
    lengths = {
        name: getattr(bar, name) and getattr(bar, name) / INCH
        for name in ("outer_diameter", "centre_length", "wall", "support_spacing")
    }
    rates = {
        name: getattr(bar, name) and getattr(bar, name) / (POUND / INCH)
        for name in ("bushing_rate", "link_rate")
    }
    moduli = {name: getattr(bar, name) / (POUND / INCH**2) for name in ("shear_modulus", "youngs_modulus")}
    inches = replace(
        bar,
        blade=blade,
        holes=tuple(a / INCH for a in bar.holes),
        arm_lengths=bar.arm_lengths and tuple(a / INCH for a in bar.arm_lengths),
        **lengths,
        **rates,
        **moduli,
    )
    in_pounds = physics.link_rates_in_roll(inches) * (POUND / INCH)
    assert in_pounds == pytest.approx(physics.link_rates_in_roll(bar), rel=1e-9)


def test_blade_flat_and_on_edge_are_plain_cantilevers():
    flat, edge = (
        float(physics.blade_compliance(0.2, 0.025, 0.006, angle, 206e9)) for angle in (0, np.pi / 2)
    )
    assert flat == pytest.approx(0.2**3 / (3 * 206e9 * rectangle_second_moment(0.025, 0.006)))
    assert edge == pytest.approx(0.2**3 / (3 * 206e9 * rectangle_second_moment(0.006, 0.025)))
    assert flat / edge == pytest.approx((25 / 6) ** 2)


@given(numbers(0.01, math.pi / 2 - 0.01))
def test_a_guided_tip_is_stiffer_than_a_free_one(angle):
    free, guided = (
        physics.blade_compliance(0.2, 0.025, 0.006, angle, 206e9, tip) for tip in ("free", "guided")
    )
    assert guided < free


def test_free_and_guided_agree_at_both_ends_of_the_travel():
    free, guided = (
        physics.link_rates_in_roll(blade_bar(0.0, math.pi / 2, tip=tip)) for tip in ("free", "guided")
    )
    assert free == pytest.approx(guided, rel=1e-12)


def test_a_free_blade_does_most_of_its_change_near_on_edge():
    """Half way in angle is far from half way in rate."""
    compliance = physics.blade_compliance(0.2, 0.025, 0.006, np.radians([0, 45, 90]), 206e9)
    rates = 1 / compliance
    assert (rates[1] - rates[0]) / (rates[2] - rates[0]) < 0.1


def test_series_rates():
    alone = 1 / physics.link_rates_in_roll(PLAIN)
    both = 1 / physics.link_rates_in_roll(replace(PLAIN, bushing_rate=2e5, link_rate=5e5))
    assert both - alone == pytest.approx(np.full(3, 1 / 2e5 + 1 / 5e5))
    rigid = physics.link_rates_in_roll(replace(PLAIN, bushing_rate=1e15, link_rate=1e15))
    assert rigid == pytest.approx(1 / alone, rel=1e-9)


def test_a_leaning_link_passes_on_less_at_the_pickup_and_more_at_the_arm():
    leaning = replace(PLAIN, link_lean_at_arm=math.radians(20), link_lean_at_pickup=math.radians(-10))
    assert physics.effective_link_motion_ratio(PLAIN) == 0.62
    wanted = 0.62 * math.cos(math.radians(10)) / math.cos(math.radians(20))
    assert physics.effective_link_motion_ratio(leaning) == pytest.approx(wanted)


def test_bushings_at_the_arms_and_square_arms_do_not_bend_the_centre():
    assert physics.centre_bending_compliance(0.95, 0.95, 0.0, 206e9, 1e-8) == 0
    assert physics.centre_bending_compliance(0.95, 0.8, 0.0, 206e9, 1e-8) > 0
    assert physics.centre_bending_compliance(0.95, 0.95, -0.05, 206e9, 1e-8) > 0


def test_an_arm_swept_inward_to_its_bushing_takes_the_bending_out():
    """The link's force then passes through the bushing: only the overhang itself still bends."""
    overhang = 0.05
    swept = physics.centre_bending_compliance(0.95, 0.95 - 2 * overhang, -overhang, 206e9, 1e-8)
    assert swept == pytest.approx(overhang**3 / 3 / (206e9 * 1e-8))


def test_stress_is_torque_times_radius_over_polar_moment():
    stress = physics.surface_shear_stress(300.0, 0.026, 0.018)
    assert stress == pytest.approx(300.0 * 0.013 / round_polar_second_moment(0.026, 0.018))
    assert physics.surface_shear_stress(300.0, 0.026) < stress


def test_blade_lever_is_its_length():
    assert physics.levers(blade_bar(0.0, 0.5)) == pytest.approx([0.2, 0.2])
