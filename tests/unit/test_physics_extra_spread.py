"""Uncertainty of a bar's rate: powers known by heart, compliance shares, and a Monte Carlo second route."""

from dataclasses import fields, replace

import numpy as np
import pytest

from rollmodel.car import Blade, CarError
from rollmodel.physics.bar import compliance_parts, link_rates_in_roll
from rollmodel.physics.spread import Tolerances, rate_of, rate_spread, sensitivity, shifted
from tests.unit.physics_extra_car import a_bar

TORSION_ONLY = a_bar(arms="rigid", wall=None)
BENT = a_bar(support_spacing=0.7)
BLADED = a_bar(holes=(), arms="blade", hole=1,
               blade=Blade(length=0.2, width=0.022, thickness=0.005, angles=(0.0, 0.8, 1.5)))
SOME = Tolerances(shear_modulus=4.3e9, youngs_modulus=4e9, outer_diameter=0.0001, wall=0.0003,
                  hole=0.001, centre_length=0.004, blade_thickness=0.0001, link_motion_ratio=0.02)


@pytest.mark.parametrize("name, size, power", [
    ("shear_modulus", 79.3e9, 1), ("outer_diameter", 0.024, 4), ("centre_length", 0.95, -1)])
def test_torsion_goes_by_the_powers_that_everybody_knows(name, size, power):
    per_cent = sensitivity(TORSION_ONLY, name) * size / rate_of(TORSION_ONLY)
    assert per_cent == pytest.approx(power, rel=1e-8)  # a difference over 2e-5 of the size


def test_hole_goes_with_the_square_at_each_hole():
    per_metre = sensitivity(TORSION_ONLY, "hole")
    holes = np.array(TORSION_ONLY.holes)
    assert per_metre == pytest.approx(-2 * rate_of(TORSION_ONLY) / holes, rel=1e-8)


def test_wall_of_a_tube_by_hand():
    """``J = pi/32 (D^4 - (D - 2 w)^4)``: ``dJ/dw = pi/4 (D - 2 w)^3``."""
    tube = replace(TORSION_ONLY, wall=0.004)
    bore = 0.016
    polar = np.pi / 32 * (0.024**4 - bore**4)
    expected = rate_of(tube) * np.pi / 4 * bore**3 / polar
    assert sensitivity(tube, "wall") == pytest.approx(expected, rel=1e-8)
    assert np.all(sensitivity(TORSION_ONLY, "wall") == 0)


def test_each_modulus_counts_by_its_share_of_the_compliance():
    """Per cent for per cent, a modulus moves the rate by the part of the compliance it stands in."""
    parts = compliance_parts(BENT)
    whole = sum(parts.values())
    by_shear = sensitivity(BENT, "shear_modulus") * BENT.shear_modulus / rate_of(BENT)
    by_youngs = sensitivity(BENT, "youngs_modulus") * BENT.youngs_modulus / rate_of(BENT)
    assert by_shear == pytest.approx(parts["twist"] / whole, rel=1e-7)
    assert by_youngs == pytest.approx((parts["arm"] + parts["centre bending"]) / whole, rel=1e-7)


@pytest.mark.parametrize("bar", [TORSION_ONLY, a_bar(), BENT, BLADED,
                                 a_bar(arm_lengths=(0.25, 0.23, 0.2))], ids=lambda b: b.arms)
@pytest.mark.parametrize("at", ["link", "wheel"])
def test_monte_carlo_agrees(bar, at):
    draw, rates = np.random.default_rng(11), []
    for _ in range(3000):
        trial = bar
        for field in fields(SOME):
            limit = getattr(SOME, field.name)
            trial = shifted(trial, field.name, draw.uniform(-limit, limit))
        rates.append(rate_of(trial, at))
    spread = rate_spread(bar, SOME, at)
    # 3000 trials know a standard deviation to 1.3 %; three of those, and 1 % for the straight line.
    assert np.std(rates, axis=0) == pytest.approx(spread.standard, rel=0.05)
    # The mean wanders by u/sqrt(3000); the curve of D^4 and 1/a^2 lifts it by far less.
    assert np.mean(rates, axis=0) == pytest.approx(spread.rate, abs=0.06 * spread.standard.max())
    assert np.all(np.abs(np.array(rates) - spread.rate).max(axis=0) < 1.1 * spread.worst_case)


def test_a_moved_hole_moves_along_the_arm_and_a_longer_bar_keeps_its_overhang():
    swept = shifted(a_bar(arm_lengths=(0.25, 0.23, 0.2)), "hole", 0.002)
    assert swept.holes == pytest.approx((0.222, 0.202, 0.182))
    assert swept.arm_lengths == pytest.approx((0.252, 0.232, 0.202))
    longer = shifted(BENT, "centre_length", 0.004)
    assert longer.centre_length - longer.support_spacing == pytest.approx(
        BENT.centre_length - BENT.support_spacing)
    assert shifted(BLADED, "hole", 0.002).blade.length == pytest.approx(0.202)
    assert shifted(BLADED, "blade_thickness", 1e-4).blade.thickness == pytest.approx(0.0051)


def test_about_95_in_100_lie_within_the_figure_given():
    spread = rate_spread(BENT, SOME)
    draw, inside = np.random.default_rng(2), 0
    for _ in range(2000):
        trial = BENT
        for field in fields(SOME):
            limit = getattr(SOME, field.name)
            trial = shifted(trial, field.name, draw.uniform(-limit, limit))
        inside += abs(rate_of(trial)[1] - spread.rate[1]) <= spread.expanded[1]
    assert 0.94 < inside / 2000 <= 1.0  # a sum of rectangles has shorter tails than a bell curve


def test_shares_add_up_and_name_the_main_source():
    spread = rate_spread(a_bar(), Tolerances(outer_diameter=0.0002))
    assert sum(spread.shares.values()) == pytest.approx(1)
    assert max(spread.shares, key=lambda name: spread.shares[name][1]) == "shear_modulus"
    rough = rate_spread(a_bar(), Tolerances(outer_diameter=0.0006))
    assert max(rough.shares, key=lambda name: rough.shares[name][1]) == "outer_diameter"
    exact = rate_spread(a_bar(), Tolerances(shear_modulus=0.0))
    assert np.all(exact.expanded == 0) and np.all(sum(exact.shares.values()) == 0)


def test_the_default_is_the_handbook_range():
    """74.1 to 82.7 GPa is 4.3 GPa either way: 5.4 % of 79.3, 6.3 % as an expanded figure."""
    spread = rate_spread(TORSION_ONLY)
    assert spread.worst_case / spread.rate == pytest.approx(4.3 / 79.3, rel=1e-7)
    assert spread.relative == pytest.approx(2 / np.sqrt(3) * 4.3 / 79.3, rel=1e-7)


def test_rate_at_the_wheel_counts_the_motion_ratio_twice():
    tolerance = Tolerances(shear_modulus=0.0, link_motion_ratio=0.03)
    at_link, at_wheel = (rate_spread(a_bar(), tolerance, at) for at in ("link", "wheel"))
    assert np.all(at_link.standard == 0)
    assert at_wheel.worst_case / at_wheel.rate == pytest.approx(2 * 0.03 / 0.6, rel=1e-7)
    assert at_wheel.rate == pytest.approx(0.36 * link_rates_in_roll(a_bar()))


def test_installed_range_lies_below_the_rate():
    low, high = rate_spread(a_bar()).installed_range
    assert low == pytest.approx(0.75 * rate_of(a_bar())) and high == pytest.approx(0.90 * rate_of(a_bar()))


def test_a_wall_to_the_middle_is_a_solid_bar():
    filled = rate_spread(a_bar(wall=0.012), SOME)
    solid = rate_spread(a_bar(wall=None), SOME)
    assert filled.standard == pytest.approx(solid.standard, rel=1e-9)


def test_refusals():
    with pytest.raises(CarError, match="^wall: wanted a tolerance of zero or more, given -0.001"):
        Tolerances(wall=-0.001)
    with pytest.raises(CarError, match="^at: wanted 'link' or 'wheel', given 'tip'"):
        rate_spread(a_bar(), at="tip")
