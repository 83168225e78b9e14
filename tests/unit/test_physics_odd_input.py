"""Input at the edge of sense or past it: the answer is right, or one refusal names what was wanted."""

import numpy as np
import pytest

from rollmodel.car import CURVES, GRAVITY, CarError, Tyre
from rollmodel.physics.balance import limits
from rollmodel.physics.drive_limit import drive_limit, end_drive
from rollmodel.physics.traction import open_differential_drive
from rollmodel.physics.tyre import falling_grip_peak, load_of_most_force, peak_side_force, side_force
from rollmodel.physics.tyre_fit import fit_falling_grip
from rollmodel.physics.warp import wheel_loads_on_ground
from tests.unit.plain_car import CAR, with_ends

OWN = {"peak_grip": 1.3, "grip_drop": 3e-5, "cornering_stiffness": 6e4}
FIT = fit_falling_grip((2000.0, 3000.0, 4000.0), (1.2, 1.15, 1.12))


def tyre(curve):
    return Tyre(curve, **(OWN if curve == "falling grip" else {}))


@pytest.mark.parametrize("curve", CURVES)
@pytest.mark.parametrize("load", [-1000.0, 0.0, 60e3])
def test_no_peak_is_below_nothing(curve, load):
    assert peak_side_force(tyre(curve), load) >= 0
    assert falling_grip_peak(load, 1.3, 3e-5) >= 0


@pytest.mark.parametrize("curve", CURVES)
def test_degrees_for_radians_are_refused(curve):
    with pytest.raises(CarError, match=r"slip: wanted an angle in rad within 90 deg .*, given 6"):
        side_force(tyre(curve), np.array([0.1, -6.0]), 4000.0)


def test_load_of_most_force_is_where_the_peak_is_largest():
    top = load_of_most_force(tyre("falling grip"))
    assert peak_side_force(tyre("falling grip"), top) > peak_side_force(
        tyre("falling grip"), top * np.array([0.99, 1.01])).max()
    assert load_of_most_force(Tyre()) == np.inf


def test_limits_are_found_on_ice_too():
    found = limits(with_ends(tyre=Tyre(grip_scale=0.01)))
    # Both ends keep about a hundredth of a tyre's grip of nearly 1; wheels share their load evenly there.
    assert (found.front / GRAVITY, found.rear / GRAVITY) == pytest.approx((0.01, 0.01), rel=0.1)
    assert found.end in ("front", "rear")


@pytest.mark.parametrize("drive", [drive_limit, open_differential_drive,
                                   lambda car, a: end_drive(car, "rear", a).drive])
def test_drive_in_a_corner_the_other_way_is_the_same(drive):
    assert drive(CAR, -5.0) == drive(CAR, 5.0)


def test_a_hanging_wheel_is_known_to_hang_whatever_the_rounding():
    for height in np.linspace(0.2, 0.6, 41):
        loads = wheel_loads_on_ground(CAR, front_left=height)
        hanging = [wheel for wheel, load in loads.by_wheel.items() if load < 1e-6]
        assert [wheel for wheel, up in loads.lifted.items() if up] == hanging


@pytest.mark.parametrize("level", [95, 0, 1.0, "95 %", np.nan])
def test_a_level_of_confidence_is_a_part(level):
    with pytest.raises(CarError, match="level: wanted a part between 0 and 1, such as 0.95, given"):
        FIT.interval(level)


@pytest.mark.parametrize("loads", [[], [np.nan]])
def test_a_range_of_no_loads_is_refused(loads):
    with pytest.raises(CarError, match="loads: wanted at least one load and finite ones, given"):
        FIT.outside_range(loads)
