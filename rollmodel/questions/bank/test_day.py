"""What the test-day part says to a question.

That part brings large libraries. They are loaded when a question on a test day is posed, so that every
other lesson and exercise opens without waiting for them.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness_for
from rollmodel.sheets import training_car

DEG_PER_G = math.radians(1.0) / GRAVITY
READING, PAD = 5e-4, 1.0  # m, kg: what readings are right to; it bears on the uncertainty alone


def half_interval(scatter: float, each: int, freedom: int) -> float:
    """Half the interval of a difference between two means of ``each`` runs, in the unit of the scatter."""
    from rollmodel.testday import power

    return float(power.half_interval(scatter, each, freedom))


def student(freedom: int) -> float:
    """Student's t: half the interval where the difference itself scatters by one."""
    return half_interval(1.0, 2, freedom)


def verdict(value: float, half: float, predicted: float) -> str:
    """The verdict on a change measured to plus or minus ``half``."""
    from rollmodel.testday import compare

    return compare.verdict_on(value - half, value + half, compare.Prediction(0.0, predicted))


def chance(change: float, scatter: float, runs: int) -> float:
    """Chance that so many runs each way round show a change."""
    from rollmodel.testday import power

    return power.chance_of_seeing(change, scatter, runs)


@lru_cache(maxsize=64)
def runs_needed(change: float, scatter: float) -> int | None:
    """Runs each way round that show a change four times in five."""
    from rollmodel.testday import power

    return power.runs_needed(change, scatter)


@lru_cache(maxsize=64)
def smallest_change(scatter: float, runs: int) -> float:
    """The smallest change that so many runs each way round show four times in five."""
    from rollmodel.testday import power

    return power.smallest_change(scatter, runs)


def line(x, y) -> tuple[float, float]:
    """Slope of the straight line through readings, and where it starts at nought."""
    from rollmodel.testday import measured

    found = measured.straight_line(x, y)
    return found.slope, found.intercept


def mean_of_sides(left: float, right: float) -> float:
    """Steer of both ways round, left positive as read, as the fit has it: each into its own corner."""
    from rollmodel.testday import gradients, runs, signs

    settled, _ = signs.settle_signs([_steady(1, left), _steady(-1, right)])
    return gradients.gradient(runs.Setup("both ways round", tuple(settled)), "understeer gradient").intercept


def _steady(way: int, steer: float):
    """A run one way round on which one steer was held throughout."""
    from rollmodel.testday import runs

    a = way * np.arange(1.0, 4.0)
    return runs.Run("run", way, a, np.full(3, steer), None, np.arange(3), np.ones(3, int))


def motion_ratio(wheel, travel) -> float:
    """Part travel over wheel travel, by the line through the steps."""
    from rollmodel.testday import jacking

    return jacking.motion_ratio("front", "spring", wheel, travel, READING).value


@lru_cache(maxsize=64)
def cg_height(mass, wheelbase, radius, lift, level, raised) -> float:
    """Height of the centre of gravity with the rear raised, from the front pads level and raised, [m]."""
    from uncertainties import ufloat

    from rollmodel.testday import tilt

    raising = tilt.Raising("rear", (lift,), (raised,), wheelbase, (radius, radius))
    return tilt.cg_height(raising, ufloat(mass, PAD), ufloat(level, PAD)).value


@lru_cache(maxsize=64)
def roll_gradient_doubt(car: Car, bars: tuple[float, float], doubts: tuple[tuple[str, float], ...]) -> float:
    """Uncertainty of a car's roll gradient, from what stands behind the plus-or-minus sign of some numbers.

    ``bars`` are the bar rates at the wheel, front and rear, with the other wheel held.
    """
    from rollmodel.testday import carry
    from rollmodel.testday.doubts import Doubt

    def result(other: Car) -> dict[str, float]:
        ends = zip((other.front, other.rear), bars, strict=True)
        stiff = [axle_stiffness_for(axle, 2 * rate) for axle, rate in ends]
        return {"roll gradient": float(roll_gradient(other, *stiff))}

    return carry.carry(car, [Doubt(name, 0.0, limit, True) for name, limit in doubts], result)[0].uncertainty


@lru_cache(maxsize=64)
def roll_at(name: str, lateral_acceleration: float) -> float:
    """Roll angle that a training car's sheet gives, [rad]."""
    from rollmodel.testday import predict

    return float(predict.roll_of(training_car(name), lateral_acceleration))


def tangent(lift: float, wheelbase: float) -> float:
    """Tangent of the angle by which a car tilts when one end is raised, wheels of one radius."""
    from rollmodel.testday import tilt

    return math.tan(tilt.tilt(lift, wheelbase))


KEPT = (runs_needed, smallest_change, cg_height, roll_gradient_doubt, roll_at)


def forget() -> None:
    """Work everything out afresh from here on."""
    for one in KEPT:
        one.cache_clear()
