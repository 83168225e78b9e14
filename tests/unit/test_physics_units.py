"""Units do not change a result: a whole car in other units of length and mass rolls and loads alike."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given

from rollmodel.car import GRAVITY
from rollmodel.physics.corner import rollover_acceleration, settled_corner
from tests.unit.random_cars import cars, numbers

ENDS = ("front", "rear")


@given(cars(), numbers(0.2, 4.0), numbers(0.2, 4.0))
def test_other_units_of_length_and_mass_change_nothing(car, length, mass):
    """A unit of length, one of mass, and the unit of time that leaves gravity at its number."""
    scaled = in_other_units(car, length, mass)
    at = np.linspace(0, 0.99, 15) * min(float(rollover_acceleration(car)), 5 * GRAVITY)
    one, other = settled_corner(car, at), settled_corner(scaled, at)
    assert other.roll_angle == pytest.approx(one.roll_angle, rel=1e-6, abs=1e-12)
    for end in ENDS:
        assert other.axle(end).outside == pytest.approx(mass * one.axle(end).outside, rel=1e-6)


def in_other_units(car, length, mass):
    """Lengths and masses in other units; rates are then mass over length, moments mass times length."""
    factors = {
        "track": length,
        "unsprung_mass": mass,
        "unsprung_cg_height": length,
        "roll_centre_height": length,
        "spring_rate": mass / length,
        "tyre_vertical_rate": mass / length,
        "bump_travel": length,
        "bump_stop_rate": mass / length,
    }
    ends = {}
    for end in ENDS:
        axle = car.axle(end)
        given_ = {
            name: getattr(axle, name) and factor * getattr(axle, name) for name, factor in factors.items()
        }
        ends[end] = replace(axle, **given_, bar=axle.bar and _bar_in_other_units(axle.bar, length, mass))
    torsion = car.chassis_torsion and mass * length * car.chassis_torsion
    return replace(
        car,
        mass=mass * car.mass,
        wheelbase=length * car.wheelbase,
        cg_height=length * car.cg_height,
        chassis_torsion=torsion,
        **ends,
    )


def _bar_in_other_units(bar, length, mass):
    lengths = ("outer_diameter", "centre_length", "wall", "support_spacing")
    blade = bar.blade and replace(
        bar.blade,
        length=length * bar.blade.length,
        width=length * bar.blade.width,
        thickness=length * bar.blade.thickness,
    )
    return replace(
        bar,
        blade=blade,
        **{n: getattr(bar, n) and length * getattr(bar, n) for n in lengths},
        holes=tuple(length * a for a in bar.holes),
        arm_lengths=bar.arm_lengths and tuple(length * a for a in bar.arm_lengths),
        bushing_rate=bar.bushing_rate and mass / length * bar.bushing_rate,
        link_rate=bar.link_rate and mass / length * bar.link_rate,
        shear_modulus=mass / length**2 * bar.shear_modulus,
        youngs_modulus=mass / length**2 * bar.youngs_modulus,
    )
