"""Drive with an open differential: the inside wheel's friction ellipse, by hand and in its limits."""

from dataclasses import replace

import numpy as np
import pytest

from rollmodel.car import GRAVITY, Axle, Bar, Car, Tyre
from rollmodel.physics.balance import slip_angles
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import stiffness_of_every_hole
from rollmodel.physics.traction import inside_wheel_drive, open_differential_drive
from rollmodel.physics.tyre import falling_grip_force, falling_grip_peak

TYRE = Tyre(curve="falling grip", peak_grip=1.3, grip_drop=30e-6, cornering_stiffness=70e3)


@pytest.fixture(scope="module")
def car():
    bar = Bar(0.022, 0.95, 0.6, (0.24, 0.20, 0.16), 2)
    axle = Axle(1.5, 80, 0.3, 0.06, 60e3, 0.7, bar=bar)
    return Car("test car", "rear", 1250, 0.53, 2.5, 0.47, TYRE, axle, axle)


def test_inside_wheel_by_hand(car):
    a = 0.6 * GRAVITY
    inside = float(settled_corner(car, a).rear.inside)
    slip = float(slip_angles(car, a)[1])
    largest = float(falling_grip_peak(inside, 1.3, 30e-6))
    side = float(falling_grip_force(slip, inside, 1.3, 30e-6, 70e3))
    assert 0 < side < largest
    assert float(inside_wheel_drive(car, "rear", a)) == pytest.approx((largest**2 - side**2) ** 0.5, rel=1e-9)
    assert float(open_differential_drive(car, a)) == pytest.approx(
        2 * (largest**2 - side**2) ** 0.5, rel=1e-9
    )


def test_straight_ahead_it_is_the_whole_grip_of_two_wheels(car):
    # a millionth of a g moves the loads by less than one part in a million
    wheel = float(falling_grip_peak(car.axle_weight("rear") / 2, 1.3, 30e-6))
    assert float(open_differential_drive(car, 1e-6 * GRAVITY)) == pytest.approx(2 * wheel, rel=1e-5)


@pytest.mark.parametrize("drive", ["front", "rear"])
def test_a_stiffer_bar_at_the_driven_end_costs_drive_and_at_the_other_end_gives_it(car, drive):
    setups = stiffness_of_every_hole(car)
    map_ = open_differential_drive(replace(car, drive=drive), 0.7 * GRAVITY, *setups)[..., 0]
    driven_axis = 0 if drive == "front" else 1
    assert np.all(np.diff(map_, axis=driven_axis) < 0)
    assert np.all(np.diff(map_, axis=1 - driven_axis) > 0)


def test_all_wheel_drive_stops_at_the_first_axle_to_spin(car):
    a = 0.7 * GRAVITY
    ends = {end: 2 * float(inside_wheel_drive(car, end, a)) for end in ("front", "rear")}
    whole = float(open_differential_drive(replace(car, drive="all"), a))
    assert whole == pytest.approx(min(ends["front"] / 0.53, ends["rear"] / 0.47), rel=1e-12)


def test_a_lifted_wheel_passes_nothing_and_past_the_limit_there_is_no_number(car):
    narrow = replace(car, cg_height=0.62, rear=replace(car.rear, spring_rate=200e3))
    a = 0.95 * GRAVITY
    assert bool(settled_corner(narrow, a).rear.lifted)
    assert float(open_differential_drive(narrow, a)) == pytest.approx(0, abs=1e-3)  # N; nil load is 1e-9 N
    assert np.isnan(open_differential_drive(car, 2 * GRAVITY))
