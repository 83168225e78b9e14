"""Lesson 8's numbers: one corner against time, with one bar or one pair of dampers changed."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from rollmodel.car import GRAVITY, Car
from rollmodel.figures import change_in_time
from rollmodel.panels.lesson import wanting
from rollmodel.physics.balance import limits
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.transient import RollHistory, roll_against_time
from rollmodel.sheets import training_car

ENDS = ("front", "rear")
HOLD, SETTLE = 2.5, 0.8  # s at the peak, and straight ahead afterwards
SLOWEST, USUAL, QUICK = 1.2, 0.5, 0.3  # s, to build the corner up; as long to let it go
STEP = 0.01  # s, between the instants drawn
HARDEST = 0.8  # of the limit, the hardest corner that the lesson asks for
STIFFER = 2.0  # times the fitted damper rate, in the lesson's comparison


def car_of(lesson) -> Car:
    """The lesson's car with its front bar on the softest hole; the coupe without dampers or front holes."""
    return (training_car("coupe") if lacking(lesson.car) else lesson.car).with_holes(1, None)


@wanting("08")
def lacking(car: Car) -> str:
    """What a car lacks for this lesson; empty when it has dampers and a front bar to move."""
    fits = car.front.positions > 1 and all(car.axle(end).damper for end in ENDS)
    return "" if fits else "dampers at both ends, and a front bar with two holes or more"


@lru_cache(maxsize=16)
def peak_of(car: Car, part: float = 0.6) -> float:
    """A part of what the car can hold, in round twentieths of g, [m/s^2]."""
    return round(20 * part * float(limits(car).lower) / GRAVITY) / 20 * GRAVITY


def with_dampers(car: Car, **rates) -> Car:
    """The car with other damper rates by end, [N*s/m]."""
    return replace(car, **{end: replace(car.axle(end), damper=replace(car.axle(end).damper, rate=rate))
                           for end, rate in rates.items()})


@lru_cache(maxsize=128)
def corner(car: Car, peak: float, time: float, front: int | None = None) -> RollHistory:
    """A corner built up and let go in so much time, the front bar on a hole of its own if one is named."""
    plan = BuildUp(peak, rise_time=time, hold_time=HOLD, release_time=time, settle_time=SETTLE)
    return roll_against_time(car, plan, axle_stiffness(car.front, front), step=STEP)


def reach() -> float:
    """How long the slowest corner takes, [s]."""
    return 2 * SLOWEST + HOLD + SETTLE


def shifts(car: Car, peak: float, time: float, front: int, rate: float, room=None) -> change_in_time.Shifts:
    """The front bar on a hole and the front dampers at a rate [N*s/m], each against the car as it stands."""
    histories = (corner(car, peak, time), corner(car, peak, time, front),
                 corner(with_dampers(car, front=rate), peak, time))
    return change_in_time.of_histories(*histories, reach(), room)


@lru_cache(maxsize=16)
def corner_room(car: Car) -> tuple[float, float]:
    """A scale of load transfer that holds the hardest and quickest corner of the lesson, [N]."""
    hard = corner(car, peak_of(car, HARDEST), QUICK, car.front.positions)
    ends = [hard.axle(end).load_transfer for end in ENDS]
    return 1.2 * min(float(one.min()) for one in ends), 1.08 * max(float(one.max()) for one in ends)


@lru_cache(maxsize=16)
def room(car: Car) -> tuple[float, float]:
    """A scale of load that holds the largest changes of the lesson in the quickest corner, [N]."""
    largest = shifts(car, peak_of(car), QUICK, car.front.positions, STIFFER * car.front.damper.rate)
    return largest.room


def usual(car: Car) -> change_in_time.Shifts:
    """The stiffest hole and dampers twice as stiff, in the usual corner."""
    return shifts(car, peak_of(car), USUAL, car.front.positions, STIFFER * car.front.damper.rate)
