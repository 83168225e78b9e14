"""Bar preload: the closed form against the standing car solved by energy with eight unknowns."""

from dataclasses import replace

import numpy as np
import pytest

from rollmodel.car import CarError
from rollmodel.physics.preload import (
    diagonal_per_link_difference,
    link_difference_behind,
    link_difference_that_fits,
    loads_with_preload,
    preload_force,
)
from rollmodel.physics.stiffness import axle_stiffness
from tests.unit.physics_extra_car import a_bar, a_car
from tests.unit.physics_extra_statics import wheel_loads_by_energy

CARS = {"as it is": a_car(), "soft chassis": a_car(chassis_torsion=3e4),
        "rigid chassis": a_car(chassis_torsion=None),
        "stiff bars": a_car(front={"bar": a_bar(outer_diameter=0.03)}).with_holes(3, 3)}


def ours(car, *differences):
    return np.array([float(x) for x in loads_with_preload(car, *differences).by_wheel.values()])


@pytest.mark.parametrize("car", CARS.values(), ids=CARS)
@pytest.mark.parametrize("differences", [(0.004, 0), (0, 0.004), (-0.003, 0.006), (0.005, 0.005)], ids=str)
def test_loads_match_the_energy_solution(car, differences):
    brute = wheel_loads_by_energy(car, link_differences=differences)
    assert brute.min() > 0
    # 1e-6: rounding of the brute solve with its stand-in of 1e12 N*m/rad for a rigid chassis.
    assert ours(car, *differences) == pytest.approx(brute, rel=1e-6)


def test_a_wheel_hangs_when_the_link_is_wrong_enough():
    car = CARS["stiff bars"]
    brute = wheel_loads_by_energy(car, link_differences=(0.25, 0))
    loads = loads_with_preload(car, 0.25)
    assert np.count_nonzero(brute == 0) == 1
    assert [bool(x) for x in loads.lifted.values()] == list(brute == 0)
    assert ours(car, 0.25) == pytest.approx(brute, rel=1e-6, abs=1e-3)


def test_long_left_link_at_the_front_loads_front_left_and_rear_right():
    car = a_car()
    change = ours(car, 0.005) - ours(car)
    assert change[0] > 0 > change[1] and change[3] > 0 > change[2]
    assert ours(car, 0, 0.005)[0] < ours(car)[0]  # at the rear it is the other diagonal


def test_axle_totals_and_the_whole_weight_stay():
    car = a_car()
    for loads in (ours(car, 0.008), ours(car, 0.01, -0.02)):
        assert loads[0] + loads[1] == pytest.approx(car.axle_weight("front"))
        assert loads[2] + loads[3] == pytest.approx(car.axle_weight("rear"))


def test_side_totals_move_by_what_the_lean_of_the_body_shifts_and_no_more():
    car = a_car()
    loads, level = ours(car, 0.008), ours(car)
    side = abs((loads - level)[[0, 2]].sum())
    assert 0 < side < 0.2 * abs(loads - level)[0]


def test_by_hand_on_a_car_alike_at_both_ends():
    """Statics on paper: the preload meets its own axle's springs, and the other axle, in series.

    With ``F`` the force with wheels held, equal ends, rigid tyres and chassis and no arm for gravity,
    the body leans half of what frees the preload: each wheel is left with ``F/2``.
    """
    base = a_car(chassis_torsion=None)
    end = replace(base.front, tyre_vertical_rate=None, roll_centre_height=0.48)
    car = replace(base, front=end, rear=end, front_weight_share=0.5)
    arm = car.sprung_cg_height
    car = replace(car, front=replace(end, roll_centre_height=arm), rear=replace(end, roll_centre_height=arm))
    force = preload_force(car.front, axle_stiffness(car.front), 0.004)
    assert ours(car, 0.004)[0] - ours(car)[0] == pytest.approx(force / 2, rel=1e-9)


def test_force_with_wheels_held_is_the_bench_rate_times_the_gap():
    """``k_b`` at the link, one end held, times the link difference, by the motion ratio to the wheel."""
    from rollmodel.physics.bar import link_rates_one_end_held
    axle = a_car().front
    at_link = link_rates_one_end_held(axle.bar)[axle.bar.hole - 1] * 0.003
    assert preload_force(axle, axle_stiffness(axle), 0.003) == pytest.approx(
        at_link * axle.bar.link_motion_ratio, rel=1e-12)


def test_opposite_preloads_can_hide_each_other():
    """One axle's wrong link can be masked by the other's: the scales look right, both bars are wound up."""
    car = a_car()
    rear = -0.004 * diagonal_per_link_difference(car, "front") / diagonal_per_link_difference(car, "rear")
    assert loads_with_preload(car, 0.004, rear).diagonal_share == pytest.approx(
        loads_with_preload(car).diagonal_share, abs=1e-9)


@pytest.mark.parametrize("end", ["front", "rear"])
def test_the_link_behind_a_reading_is_found_again(end):
    car = a_car()
    wrong = {f"{end}_difference": 0.0035}
    reading = loads_with_preload(car, **wrong).diagonal - loads_with_preload(car).diagonal
    assert link_difference_behind(car, end, reading) == pytest.approx(0.0035, rel=1e-6)


def test_stiffer_hole_turns_the_same_wrong_link_into_more_load():
    car = a_car()
    changes = [abs(ours(car.with_holes(front=hole), 0.004) - ours(car))[0] for hole in (1, 2, 3)]
    assert changes == sorted(changes) and changes[2] > 1.1 * changes[0]


def test_link_that_fits_leaves_nothing_in_the_bar():
    """By the bar's own energy: travel difference and link difference cancel at the arm's end."""
    axle = a_car().front
    shorter = link_difference_that_fits(axle, 0.006)
    gap = axle.bar.link_motion_ratio * 0.006 - shorter
    assert gap == pytest.approx(0, abs=1e-15)
    assert shorter == pytest.approx(0.6 * 0.006)


def test_nothing_wrong_changes_nothing_and_arrays_broadcast():
    car = a_car()
    assert ours(car) == pytest.approx(np.repeat(
        [car.axle_weight("front") / 2, car.axle_weight("rear") / 2], 2))
    many = loads_with_preload(car, np.linspace(-0.3, 0.3, 9)[:, None], np.linspace(-0.1, 0.1, 3))
    assert many.front_left.shape == (9, 3)
    assert min(np.nanmin(load) for load in many.by_wheel.values()) == 0


def test_an_end_without_a_bar_is_refused_by_name():
    car = a_car(rear={"bar": None})
    with pytest.raises(CarError, match=r"^\[rear\] link difference: wanted 0 because there is no bar"):
        loads_with_preload(car, 0.0, 0.003)
    assert loads_with_preload(car, 0.003).front_left > loads_with_preload(car).front_left
    for ask in (lambda: preload_force(car.rear, axle_stiffness(car.rear), 0.003),
                lambda: link_difference_that_fits(car.rear, 0.003)):
        with pytest.raises(CarError, match="no bar"):
            ask()
