"""Warp: the short formulas against the standing car solved by energy with eight unknowns."""

from dataclasses import replace

import numpy as np
import pytest

from rollmodel.car import Tyre
from rollmodel.physics.roll import roll_moments_per_acceleration
from rollmodel.physics.stiffness import axle_stiffness, axle_stiffness_for, stiffness_of_every_hole
from rollmodel.physics.warp import torsion_in_series, warp_cost, wheel_loads_on_ground, without_bar
from tests.unit.physics_extra_car import a_bar, a_car
from tests.unit.physics_extra_statics import WHEELS, wheel_loads_by_energy

SOLVED = 1e-7  # relative: rounding of an eight by eight solve with a chassis of up to 1e12 N*m/rad

CARS = {
    "as it is": a_car(),
    "rigid chassis": a_car(chassis_torsion=None),
    "soft chassis": a_car(chassis_torsion=3e4),
    "no bars": a_car(front={"bar": None}, rear={"bar": None}),
    "nose heavy, stiff rear bar": a_car(front_weight_share=0.62, rear={"bar": a_bar(outer_diameter=0.03)}),
}
HEIGHTS = [(0.01, 0, 0, 0), (0, 0, 0.02, 0), (0.01, -0.01, -0.01, 0.01), (0.01, 0.01, 0.01, 0.01),
           (0.015, 0.015, 0, 0), (0.004, -0.011, 0.007, 0.002)]


def ours(car, heights):
    return np.array([float(x) for x in wheel_loads_on_ground(car, *heights).by_wheel.values()])


@pytest.mark.parametrize("car", CARS.values(), ids=CARS)
@pytest.mark.parametrize("heights", HEIGHTS, ids=str)
def test_loads_match_the_energy_solution(car, heights):
    brute = wheel_loads_by_energy(car, heights)
    assert brute.min() > 0
    assert ours(car, heights) == pytest.approx(brute, rel=1e-6 if car.chassis_torsion is None else SOLVED)


@pytest.mark.parametrize("heights", [(0.28, 0, 0, 0), (0.10, -0.10, -0.10, 0.10), (0, 0, 0, -0.33)], ids=str)
@pytest.mark.parametrize("car", [CARS["as it is"], CARS["nose heavy, stiff rear bar"]])
def test_a_wheel_that_hangs_has_no_load_and_the_rest_match(car, heights):
    loads = wheel_loads_on_ground(car, *heights)
    brute = wheel_loads_by_energy(car, heights)
    assert np.count_nonzero(brute == 0) == 1  # the case is what its name says
    assert [bool(x) for x in loads.lifted.values()] == list(brute == 0)
    assert ours(car, heights) == pytest.approx(brute, rel=SOLVED, abs=1e-6)
    assert ours(car, heights).sum() == pytest.approx(car.mass * 9.80665)


def test_a_front_wheel_hangs_first_on_a_car_light_at_the_front():
    car = a_car(front_weight_share=0.38)
    heights = (0.11, -0.11, -0.11, 0.11)
    brute = wheel_loads_by_energy(car, heights)
    assert list(brute == 0) == [False, True, False, False]
    assert ours(car, heights) == pytest.approx(brute, rel=SOLVED, abs=1e-6)


def test_no_number_where_the_car_would_not_stand_on_the_wheels_left():
    """Once a front wheel hangs, the rear springs alone have to hold the body up, and these cannot."""
    car = a_car(front_weight_share=0.25, chassis_torsion=None, rear={"spring_rate": 7e3, "bar": None})
    gravity = 9.80665 * sum(roll_moments_per_acceleration(car))
    assert axle_stiffness(car.rear).total_roll < gravity < axle_stiffness(car.front).total_roll
    heights = np.array([0.02, 2.0])  # m; the second far beyond any kerb, only to reach the case
    loads = wheel_loads_on_ground(car, rear_left=heights)
    assert np.isfinite(loads.front_left[0]) and np.isnan(loads.front_left[1])


def test_three_springs_in_a_row_when_gravity_has_no_arm():
    """Roll centres at the sprung centre of gravity: ``dF_i = K_warp (1/t_f + 1/t_r) / t_i``."""
    plain = a_car(chassis_torsion=2e5)
    height = plain.sprung_cg_height
    car = replace(plain, front=replace(plain.front, roll_centre_height=height),
                  rear=replace(plain.rear, roll_centre_height=height))
    front, rear = axle_stiffness(car.front), axle_stiffness(car.rear)
    series = torsion_in_series(front.total_roll, rear.total_roll, 1 / 2e5)
    twist = 1 / car.front.track + 1 / car.rear.track
    cost = warp_cost(car)
    assert cost.front == pytest.approx(series * twist / car.front.track, rel=1e-12)
    assert cost.rear == pytest.approx(series * twist / car.rear.track, rel=1e-12)


def test_series_rule_limits():
    assert torsion_in_series(np.inf, 30e3) == 30e3
    assert torsion_in_series(30e3, 30e3, 1 / 15e3) == pytest.approx(7.5e3)


def test_cost_is_the_slope_of_the_loads():
    car = a_car()
    w = 1e-3
    warped, level = ours(car, (w / 2, -w / 2, -w / 2, w / 2)), ours(car, (0, 0, 0, 0))
    change = dict(zip(WHEELS, (warped - level) / w, strict=True))
    cost = warp_cost(car)
    assert change["front left"] == pytest.approx(cost.front, rel=1e-9)
    assert change["front right"] == pytest.approx(-cost.front, rel=1e-9)
    assert change["rear right"] == pytest.approx(cost.rear, rel=1e-9)
    assert wheel_loads_on_ground(car, w / 2, -w / 2, -w / 2, w / 2).diagonal - level[0] - level[3] \
        == pytest.approx(cost.diagonal * w, rel=1e-9)


def test_bars_cost_load_and_without_them_is_the_car_without_bars():
    car, bare = a_car(), a_car(front={"bar": None}, rear={"bar": None})
    cost = warp_cost(car)
    assert cost.front_without_bars == pytest.approx(warp_cost(bare).front)
    assert cost.rear_without_bars == pytest.approx(warp_cost(bare).rear)
    assert cost.times_as_much > 1.2
    assert warp_cost(bare).times_as_much == pytest.approx(1)
    assert without_bar(axle_stiffness(car.front)).bar_roll == 0


def test_stiffer_hole_at_either_end_costs_more():
    front, rear = stiffness_of_every_hole(a_car())
    cost = warp_cost(a_car(), front, rear)
    assert cost.diagonal.shape == (3, 3, 1)
    assert np.all(np.diff(cost.diagonal, axis=0) > 0) and np.all(np.diff(cost.diagonal, axis=1) > 0)
    assert np.all(np.diff(cost.first_lift, axis=0) < 0)


def test_softer_chassis_and_softer_tyres_cost_less():
    torsions = [3e4, 1e5, 1e6, None]
    costs = [warp_cost(a_car(chassis_torsion=t)).diagonal for t in torsions]
    assert costs == sorted(costs)
    soft = {"tyre_vertical_rate": 150e3}
    assert warp_cost(a_car(front=soft, rear=soft)).diagonal < warp_cost(a_car()).diagonal


def test_first_lift_is_where_the_first_wheel_hangs():
    car = a_car()
    w = float(warp_cost(car).first_lift)
    for share, hangs in ((0.999, False), (1.001, True)):
        h = share * w / 2
        loads = wheel_loads_on_ground(car, h, -h, -h, h)
        assert any(bool(x) for x in loads.lifted.values()) is hangs


def test_raising_a_wheel_is_raising_the_one_opposite_but_for_the_body_leaning():
    car = a_car(rear={"track": 1.50})
    one, other = ours(car, (0.01, 0, 0, 0)), ours(car, (0, 0, 0, 0.01))
    leans = abs(one - other)[:2].max()
    assert leans < 0.2 * abs(one - ours(car, (0, 0, 0, 0)))[0]
    no_arm = replace(car, front=replace(car.front, roll_centre_height=car.sprung_cg_height),
                     rear=replace(car.rear, roll_centre_height=car.sprung_cg_height))
    assert ours(no_arm, (0.01, 0, 0, 0)) == pytest.approx(ours(no_arm, (0, 0, 0, 0.01)), rel=1e-12)


def test_setups_and_heights_broadcast():
    car = a_car()
    rates = np.linspace(0, 50e3, 4)[:, None]
    heights = np.linspace(0, 0.5, 7)
    together = wheel_loads_on_ground(car, front_left=heights, front=axle_stiffness_for(car.front, rates))
    assert together.front_left.shape == (4, 7)
    for i, rate in enumerate(rates[:, 0]):
        for j, height in enumerate(heights):
            alone = wheel_loads_on_ground(car, front_left=height, front=axle_stiffness_for(car.front, rate))
            for wheel in WHEELS:
                assert together.by_wheel[wheel][i, j] == pytest.approx(float(alone.by_wheel[wheel]), abs=1e-6)
    assert min(load.min() for load in together.by_wheel.values()) == 0  # some hang, none below


def test_loads_do_not_depend_on_the_tyre_curve():
    assert ours(a_car(tyre=Tyre(grip_scale=1.3)), (0.01, 0, 0, 0)) == pytest.approx(
        ours(a_car(), (0.01, 0, 0, 0)))
