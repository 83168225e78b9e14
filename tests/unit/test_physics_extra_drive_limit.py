"""Drive limit on exit: closed form, constrained search, scalar solve, and its limits."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq, minimize

from rollmodel.car import GRAVITY, CarError, Tyre
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.drive_limit import (
    drive_limit,
    end_drive,
    largest_side_force_beside_drive,
    left_beside_drive,
)
from rollmodel.physics.pair import axle_arguments, largest_axle_force
from rollmodel.physics.stiffness import axle_stiffness, stiffness_of_every_hole
from rollmodel.physics.traction import inside_wheel_drive
from rollmodel.physics.tyre import peak_side_force, side_force
from tests.unit.physics_extra_car import a_car

FALLING = Tyre(curve="falling grip", peak_grip=1.3, grip_drop=35e-6, cornering_stiffness=65e3)
ENDS = ("front", "rear")


@pytest.mark.parametrize("end", ENDS)
@pytest.mark.parametrize("a", [3.0, 6.0, 8.0, 9.5])
def test_falling_grip_by_its_closed_form(end, a):
    """With a curve that stays at its peak the best slip is any large one: one equation in the drive."""
    car = a_car(tyre=FALLING)
    loads = settled_corner(car, a).axle(end)
    peaks = [(1.3 - 35e-6 * load) * load for load in (float(loads.outside), float(loads.inside))]
    need = car.axle_mass(end) * a

    def spare(x):
        return sum(p * np.sqrt(max(1 - (x / p) ** 2, 0)) for p in peaks) - need

    expected = 2 * (peaks[1] if spare(peaks[1]) >= 0 else brentq(spare, 0, peaks[1], xtol=1e-9))
    found = end_drive(car, end, a)
    assert float(found.drive) == pytest.approx(expected, rel=1e-8)
    assert bool(found.inside_spins) == (spare(peaks[1]) >= 0)


@pytest.mark.parametrize("camber", [None, -0.03])
@pytest.mark.parametrize("a", [4.0, 7.0, 8.3])
def test_magic_formula_by_a_constrained_search(camber, a):
    """Slip and drive as two free numbers, the corner held as a constraint."""
    car = a_car(rear={"camber": camber, "camber_recovery": 0.4})
    loads = [float(x) for x in axle_arguments(car.rear, settled_corner(car, a).rear)]
    most = [float(peak_side_force(car.tyre, load)) for load in loads[:2]]
    need = car.axle_mass("rear") * a

    def spare(z):
        slip, x = z[0], z[1] * most[1]
        return sum(np.sqrt(max(1 - (x / m) ** 2, 0)) * float(side_force(car.tyre, slip, load, lean))
                   for m, load, lean in zip(most, loads[:2], loads[2:], strict=True)) / need - 1

    tries = [minimize(lambda z: -z[1], start, method="SLSQP", bounds=[(0, 1.0), (0, 1 - 1e-9)],
                      constraints={"type": "ineq", "fun": spare}, options={"ftol": 1e-14, "maxiter": 500})
             for start in ((0.10, 0.3), (0.2, 0.6), (0.15, 0.9))]
    best = max(t.x[1] for t in tries if spare(t.x) > -1e-7)
    # The search's constraint is held to 1e-7 of the side force.
    assert float(end_drive(car, "rear", a).drive) == pytest.approx(2 * best * most[1], rel=1e-5)


def test_side_force_without_drive_is_the_pairs_largest():
    draw = np.random.default_rng(3)
    inside, outside = draw.uniform(100, 3000, 40), draw.uniform(3000, 7000, 40)
    leans = draw.uniform(-0.05, 0.05, (2, 40))
    ours = largest_side_force_beside_drive(Tyre(), 0.0, outside, inside, *leans)
    assert ours == pytest.approx(largest_axle_force(Tyre(), outside, inside, *leans)[0], rel=1e-7)


def test_every_tyre_stays_inside_its_ellipse():
    """The settled state that the limit claims: at its slip no tyre gives more than its ellipse."""
    car, a = a_car(), 7.5
    loads = axle_arguments(car.rear, settled_corner(car, a).rear)
    x = float(end_drive(car, "rear", a).drive) / 2
    slips = np.radians(np.linspace(0, 40, 4001))
    total = 0
    for load, lean in zip(loads[:2], loads[2:], strict=True):
        most = float(peak_side_force(car.tyre, load))
        side = side_force(car.tyre, slips, load, lean) * left_beside_drive(x, most)
        assert np.all((x / most) ** 2 + (side / most) ** 2 <= 1 + 1e-9)
        total = total + side
    assert total.max() == pytest.approx(car.axle_mass("rear") * a, rel=1e-6)  # slips 0.01 deg apart


def test_straight_ahead_it_is_twice_one_wheels_grip():
    car = a_car()
    for end in ENDS:
        wheel = peak_side_force(car.tyre, car.axle_weight(end) / 2)
        found = end_drive(car, end, 1e-6)  # so small a load transfer moves less than one part in 1e6
        assert float(found.drive) == pytest.approx(2 * float(wheel), rel=1e-6)
        assert float(found.cost_of_open_differential) == pytest.approx(0, abs=1e-2)
        assert bool(found.inside_spins)


@pytest.mark.parametrize("end", ENDS)
def test_it_ends_where_the_cornering_limit_is(end):
    car = a_car()
    limit = float(getattr(limits(car), end))
    just_below, just_above = end_drive(car, end, limit * (1 - 1e-6)), end_drive(car, end, limit * (1 + 1e-6))
    assert float(just_below.drive) < 0.005 * car.mass * GRAVITY  # a square root: 1e-6 under leaves 1e-3
    assert np.isnan(just_above.drive)


def test_never_below_where_the_inside_wheel_begins_to_spin_nor_above_any_differential():
    car, a = a_car(), np.linspace(0.1, 8.6, 60)
    for end in ENDS:
        found, begins = end_drive(car, end, a), 2 * inside_wheel_drive(car, end, a)
        assert np.all(found.drive >= begins * (1 - 1e-6))
        assert np.all(found.shared_by_grip >= found.drive * (1 - 1e-9))
        assert np.all(np.diff(found.drive) < 0)


@pytest.mark.parametrize("drive, sign", [("front", (-1, 1)), ("rear", (1, -1))])
@pytest.mark.parametrize("tyre", [Tyre(), FALLING], ids=lambda t: t.curve)
def test_a_stiffer_bar_at_the_driven_end_costs_drive(drive, sign, tyre):
    """And one at the other end gives some back: there the roll moment goes."""
    car = a_car(drive=drive, tyre=tyre)
    map_ = drive_limit(car, 7.0, *stiffness_of_every_hole(car))[..., 0]
    for axis in (0, 1):
        assert np.all(np.sign(np.diff(map_, axis=axis)) == sign[axis])


def test_all_wheel_drive_is_set_by_its_first_end_to_have_no_more():
    car, a = a_car(drive="all"), np.array([3.0, 6.0, 8.0])
    ends = {end: end_drive(car, end, a).drive for end in ENDS}
    share = car.front_weight_share
    assert drive_limit(car, a) == pytest.approx(np.minimum(ends["front"] / share, ends["rear"] / (1 - share)))
    for one in ENDS:
        assert np.all(drive_limit(car, a) > drive_limit(replace(car, drive=one), a))


def test_a_hanging_inside_wheel_passes_nothing():
    car = a_car(rear={"spring_rate": 220e3}, cg_height=0.67, tyre=Tyre(grip_scale=1.4))
    assert settled_corner(car, 9.0).rear.lifted
    found = end_drive(car, "rear", 9.0)
    assert float(found.drive) == pytest.approx(0, abs=1e-6)
    assert float(found.shared_by_grip) > 1000  # a locked differential would drive on the outside wheel


def test_more_drive_grip_is_more_drive():
    car = a_car()
    assert end_drive(car, "rear", 2.0, drive_grip=1.2).drive == pytest.approx(
        1.2 * end_drive(car, "rear", 2.0).drive)  # both spin, so in proportion


def test_no_number_past_the_limit_or_where_the_other_end_slides():
    car = a_car(drive="rear")
    limit = limits(car)
    between = (float(limit.front) + float(limit.rear)) / 2  # the front is past its limit, the rear is not
    assert limit.front < limit.rear
    assert np.isfinite(end_drive(car, "rear", between).drive)
    assert np.isnan(drive_limit(car, between)) and np.isnan(drive_limit(car, 30.0))


def test_no_number_where_the_car_rolls_over_first():
    car = a_car(cg_height=0.7, tyre=Tyre(grip_scale=3.0))
    over = float(limits(car).rollover)
    assert np.isfinite(end_drive(car, "front", 0.98 * over).drive)
    assert np.isnan(end_drive(car, "front", 1.02 * over).drive)
    assert not end_drive(car, "front", 1.02 * over).inside_spins


def test_setups_and_corners_broadcast():
    car = a_car()
    a = np.linspace(1, 9, 5)
    together = drive_limit(car, a, *stiffness_of_every_hole(car))
    assert together.shape == (3, 3, 5)
    for i in (1, 3):
        for j in (1, 2):
            alone = drive_limit(car, a, axle_stiffness(car.front, i), axle_stiffness(car.rear, j))
            assert together[i - 1, j - 1] == pytest.approx(alone, rel=1e-8, nan_ok=True)


def test_ellipse_of_one_tyre():
    share = left_beside_drive(np.array([0.0, 300.0, 500.0, 700.0]), 500.0)
    assert share == pytest.approx([1, 0.8, 0, 0])


def test_refusal():
    with pytest.raises(CarError, match="^drive_grip: wanted a finite number above zero, given 0"):
        end_drive(a_car(), "rear", 5.0, drive_grip=0)
