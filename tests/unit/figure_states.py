"""Cars and states that the pictures are tried at: low, ordinary and high, each kind of car. All invented."""

from dataclasses import dataclass, replace
from functools import cache
from math import radians

import numpy as np

from rollmodel.car import GRAVITY, Axle, Bar, Blade, Car, Damper, Tyre
from rollmodel.figures import (
    axle_behind,
    bar_rate_holes,
    bar_section,
    before_after,
    car_above,
    change_in_time,
    corner_in_time,
    grip_load,
    hole_map,
    lever_twice,
    rate_chain,
    roll_and_load,
    roll_balance,
    slip_sum,
    transfer_paths,
    two_regimes,
    understeer_curve,
)
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.transient import roll_against_time

NM_PER_DEG = np.degrees(1.0)
GRIPPY = Tyre(grip_scale=1.15)
QUARTERS = tuple(radians(angle) for angle in range(0, 91, 15))

COUPE = Car(
    "coupe", "rear", 1290.0, 0.52, 2.48, 0.47, GRIPPY,
    Axle(1.52, 84.0, 0.31, 0.055, 65e3, 0.70, 230e3, 0.07, None, radians(-2), 0.5, Damper(4500.0, 0.7),
         Bar(0.026, 0.95, 0.62, (0.22, 0.20, 0.18), 2, 0.004)),
    Axle(1.50, 90.0, 0.31, 0.085, 70e3, 0.75, 230e3, 0.07, None, radians(-1.5), 0.5, Damper(4500.0, 0.7),
         Bar(0.020, 0.95, 0.60, (0.22, 0.20, 0.18), 2)), 9000 * NM_PER_DEG)
HATCH = Car(  # lifts its inside rear wheel from about 0.7 g
    "hatch", "front", 1120.0, 0.63, 2.50, 0.52, GRIPPY,
    Axle(1.48, 72.0, 0.30, 0.04, 28e3, 0.95, 210e3, 0.08, None, radians(-1), 0.3, Damper(2500.0, 0.95),
         Bar(0.020, 1.0, 0.5, (0.26, 0.24), 1)),
    Axle(1.46, 60.0, 0.30, 0.15, 60e3, 0.80, 210e3, 0.08, None, radians(-1.5), 0.6, Damper(2500.0, 0.8),
         Bar(0.026, 1.0, 0.9, (0.24, 0.21, 0.18), 3)))
GRAVEL = Car(  # rolls 11 deg/g; no bar behind
    "gravel", "all", 1350.0, 0.54, 2.55, 0.58, GRIPPY,
    Axle(1.5, 90.0, 0.33, 0.02, 22e3, 0.9, 180e3, 0.16, None, radians(-0.5), 0.2, Damper(3500.0, 0.9),
         Bar(0.016, 1.0, 0.5, (0.26,), 1)),
    Axle(1.5, 90.0, 0.33, 0.03, 22e3, 0.9, 180e3, 0.16, None, radians(-0.5), 0.2, Damper(3500.0, 0.9)))
SINGLE = Car(  # seven blade angles at both ends; a rear roll centre below the ground
    "single-seater", "rear", 620.0, 0.44, 2.6, 0.30, Tyre(grip_scale=1.4),
    Axle(1.55, 50.0, 0.28, 0.02, 110e3, 0.80, 240e3, 0.05, None, radians(-3), 0.4, Damper(6000.0, 0.8),
         Bar(0.022, 0.5, 0.7, (0.15,), 2, 0.003, "blade", blade=Blade(0.15, 0.025, 0.005, QUARTERS))),
    Axle(1.50, 60.0, 0.28, -0.02, 100e3, 0.85, 240e3, 0.05, None, radians(-2), 0.4, Damper(6000.0, 0.85),
         Bar(0.018, 0.5, 0.7, (0.15,), 3, 0.003, "blade", blade=Blade(0.15, 0.022, 0.004, QUARTERS))))
SWEPT = Bar(0.022, 0.9, 0.6, (0.20, 0.17, 0.14), 2, arm_lengths=(0.24, 0.20, 0.17), support_spacing=0.6)


@dataclass(frozen=True)
class Tried:
    """One picture and states of one car that share its scales."""

    name: str
    picture: object
    states: tuple


def setup(car, front, rear):
    return axle_stiffness(car.front, front), axle_stiffness(car.rear, rear)


def _loads(picture, car, *gs, **keywords):
    return tuple(picture.in_corner(car, lateral_acceleration=g * GRAVITY, **keywords) for g in gs)


def _change(picture, car, *pairs):
    return tuple(picture.compare(car, setup(car, *before), setup(car, *after)) for before, after in pairs)


def _corner(car, *plans):
    return tuple(corner_in_time.of_history(roll_against_time(car, BuildUp(g * GRAVITY, *times)), reach=5.5)
                 for g, *times in plans)


def _changed(car, *plans):
    """The front bar moved, and the front dampers made twice as stiff, in a corner; scales shared."""
    harder = replace(car, front=replace(car.front, damper=Damper(9000.0, 0.7)))
    return tuple(change_in_time.of_histories(
        *(roll_against_time(one, BuildUp(g * GRAVITY, *times), *setup(car, hole, 2))
          for one, hole in ((car, 1), (car, 1 + moved), (harder, 1))),
        reach=5.5, room=(-150.0, 300.0)) for g, moved, *times in plans)


def hill(top, now, by_hand=None):
    """A made-up grip curve with its top where it is said to be, for the two regimes; N*m/deg."""
    stiffness = np.linspace(100, 1500, 80) * NM_PER_DEG
    grip = 6000 - 300 * ((stiffness / NM_PER_DEG - top) / 1000) ** 2
    return two_regimes.of_arrays("front", stiffness, grip, top * NM_PER_DEG if 100 < top < 1500 else None,
                                 now * NM_PER_DEG, by_hand and by_hand * NM_PER_DEG, (5200.0, 6120.0))


def _regimes(car, *gs, **keywords):
    return tuple(two_regimes.of_car(car, lateral_acceleration=g * GRAVITY, low=200 * NM_PER_DEG,
                                    high=1500 * NM_PER_DEG, **keywords) for g in gs)


@cache
def tried():
    """Every picture with its states."""
    one_way, other = ((3, 1), (1, 3)), ((1, 3), (3, 1))
    room = (-400.0, 4000.0)
    return (
        Tried("axle moved", axle_behind,
              tuple(axle_behind.by_travel(COUPE.front, left, right, top_force=6000.0) for left, right in
                    ((0.0, 0.0), (0.03, 0.0), (0.06, -0.06), (-0.06, -0.06), (0.06, 0.06)))),
        Tried("axle without bar", axle_behind, (axle_behind.by_travel(GRAVEL.rear, 0.03, -0.03),)),
        Tried("coupe axle", axle_behind, _loads(axle_behind, COUPE, 0.0, 0.5, 1.04, end="front")),
        Tried("hatch axle", axle_behind, _loads(axle_behind, HATCH, 0.2, 0.72, 1.0, end="rear")),
        Tried("gravel axle", axle_behind, _loads(axle_behind, GRAVEL, 0.2, 0.9, 1.6, end="rear")),
        Tried("coupe above", car_above, _loads(car_above, COUPE, 0.0, 0.5, 1.04)),
        Tried("hatch above", car_above, _loads(car_above, HATCH, 0.3, 1.0, 1.6)),
        Tried("coupe grip", grip_load, _loads(grip_load, COUPE, 0.0, 0.5, 1.0, 1.5)),
        Tried("hatch grip", grip_load, _loads(grip_load, HATCH, 0.1, 0.6, 1.0)),
        Tried("single grip", grip_load, _loads(grip_load, SINGLE, 0.1, 1.0, 1.9)),
        Tried("link on an arm", lever_twice,
              tuple(lever_twice.Lever(ratio, travel, rate, 0.05, 170e3) for ratio, travel, rate in
                    ((0.62, 0.03, 130e3), (0.5, 0.03, 130e3), (1.0, 0.05, 150e3), (0.3, 0.0, 40e3)))),
        Tried("rates to roll stiffness", rate_chain,
              tuple(rate_chain.of_axle("front", *(axle_stiffness(COUPE.front, one) for one in (hole, 2, 3)))
                    for hole in (1, 2, 3))),
        Tried("rates without a bar", rate_chain,
              (rate_chain.of_axle("rear", axle_stiffness(GRAVEL.rear), axle_stiffness(GRAVEL.rear)),)),
        Tried("roll and load", roll_and_load,
              tuple(roll_and_load.in_corner(COUPE, g * GRAVITY, *setup(COUPE, *holes), radians(4), 6000.0)
                    for g, holes in ((0.2, (2, 2)), (0.6, (1, 1)), (0.6, (3, 3)), (1.0, (1, 3))))),
        Tried("where it comes to rest", roll_balance,
              tuple(roll_balance.of_car(COUPE, g * GRAVITY, stiffness * NM_PER_DEG, 0.55, 7000.0, height)
                    for g, stiffness, height in ((0.6, 2100, 0.47), (0.6, 1000, 0.47), (0.6, 60, 0.47),
                                                 (0.8, 300, 0.6), (0.1, 2100, 0.45)))),
        Tried("one slip angle", slip_sum,
              tuple(slip_sum.SlipSum(GRIPPY, "front", 3300.0, transfer, radians(slip)) for transfer, slip in
                    ((0.0, 6.0), (2000.0, 6.0), (3300.0, 6.0), (2000.0, 15.0), (1000.0, 0.0)))),
        Tried("coupe paths", transfer_paths, _loads(transfer_paths, COUPE, 0.0, 0.6, 1.04, room=room)),
        Tried("hatch paths", transfer_paths, _loads(transfer_paths, HATCH, 0.1, 0.6, 1.0, room=room)),
        Tried("single paths", transfer_paths,
              _loads(transfer_paths, SINGLE, 0.1, 1.0, 1.9, room=(-120.0, 1800.0))),
        Tried("coupe curve", understeer_curve,
              _change(understeer_curve, COUPE, one_way, other, ((2, 2), (2, 2)))),
        Tried("hatch curve", understeer_curve,
              _change(understeer_curve, HATCH, ((1, 3), (2, 1)), ((1, 1), (1, 2)))),
        Tried("single curve", understeer_curve, _change(understeer_curve, SINGLE, ((1, 7), (7, 1)))),
        Tried("coupe rate", bar_rate_holes, tuple(bar_rate_holes.of_axle(COUPE.front, n) for n in (1, 2, 3))),
        Tried("gravel rate", bar_rate_holes, (bar_rate_holes.of_axle(GRAVEL.front, at="link"),)),
        Tried("blade rate", bar_rate_holes,
              tuple(bar_rate_holes.of_axle(SINGLE.front, n) for n in (1, 4, 7))),
        Tried("swept rate", bar_rate_holes, (bar_rate_holes.of_axle(replace(COUPE.front, bar=SWEPT)),)),
        Tried("coupe map", hole_map,
              tuple(hole_map.of_car(COUPE, *pair) for pair in ((1, 1), (2, 2), (1, 3)))),
        Tried("gravel map", hole_map, (hole_map.of_car(GRAVEL),)),
        Tried("single map", hole_map,
              tuple(hole_map.of_car(SINGLE, *pair) for pair in ((1, 1), (7, 1), (4, 7)))),
        Tried("coupe in time", corner_in_time,
              _corner(COUPE, (0.4, 1, 2, 1), (0.9, 0.2, 2.5, 0.2), (0.9, 0.6, 2, 1))),
        Tried("hatch in time", corner_in_time, _corner(HATCH, (0.9, 0.3, 2, 0.6))),
        Tried("changes in time", change_in_time,
              _changed(COUPE, (0.9, 2, 0.3, 2, 0.3), (0.5, 1, 1, 2, 1), (0.6, 0, 0.5, 2, 0.5))),
        Tried("two regimes", two_regimes, (hill(700, 300, 640), hill(700, 1500), hill(200, 900, 230),
                                           hill(1600, 120, 1490))),
        Tried("gravel regimes", two_regimes, _regimes(GRAVEL, 0.5, 0.8, end="front", span=(5500.0, 7800.0))),
        Tried("coupe regimes", two_regimes, _regimes(COUPE, 0.5, 1.0, end="rear", span=(6000.0, 7200.0))),
        Tried("tube", bar_section, tuple(bar_section.of_bar(COUPE.front.bar, n) for n in (1, 2, 3))),
        Tried("swept bar", bar_section, tuple(bar_section.of_bar(SWEPT, n) for n in (1, 3))),
        Tried("blades", bar_section, tuple(bar_section.of_bar(SINGLE.front.bar, n) for n in (1, 4, 7))),
        Tried("coupe posts", before_after, _change(before_after, COUPE, one_way, other, ((2, 2), (2, 2)))),
        Tried("single posts", before_after, _change(before_after, SINGLE, ((1, 7), (7, 1)))),
    )
