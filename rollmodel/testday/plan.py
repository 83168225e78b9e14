"""A test day for one change: what to drive, what should be seen, how many runs show it, when to stop."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import hypot, radians, sqrt

import numpy as np

from rollmodel.advice import Choice
from rollmodel.car import GRAVITY, Car, CarError
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import lift_acceleration
from rollmodel.testday.doubts import Doubt
from rollmodel.testday.expected import Expected, expected
from rollmodel.testday.gradients import CHANNELS
from rollmodel.testday.power import FEWEST_RUNS, runs_needed
from rollmodel.testday.predict import roll_of, steer_of
from rollmodel.testday.simulate import CAREFUL

OF_LIMIT = 0.8  # part of the lower limit, before and after, that the steps go up to
LOWEST, STEP = 1.0, 0.5  # m/s^2; ISO 4138: steps of at most 0.5
HOLD = 3.0  # s at each step (ISO 4138, from memory)
_DEG_PER_G = radians(1) / GRAVITY
SCATTER = {  # of one run's slope, rad/(m/s^2): starting figures of our own, a careful day with plain sensors
    "roll gradient": 0.08 * _DEG_PER_G,
    "understeer gradient": 0.08 * _DEG_PER_G,
}
LEAST_OFF = (
    0.10  # part of the predicted roll that a reading may be off whatever the sheet knows (our own figure)
)
ROLL_READ = 2 * hypot(CAREFUL.roll, CAREFUL.reading)  # rad: what one reading of roll by eye may be off, 95 %
MOST_STEPS = 24  # rows that one page has room for; the steps are wider where there would be more


@dataclass(frozen=True)
class Step:
    """One speed to hold, and what the sheet says of it before and after the change. SI."""

    lateral_acceleration: float
    speed: float
    roll: tuple[float, float]
    steer: tuple[float, float]  # at the road wheel, with what the bend itself asks for


@dataclass(frozen=True)
class Stop:
    """A reason to stop, by its code, with the numbers in it: name to (SI, kind)."""

    code: str
    end: str = ""
    numbers: dict[str, tuple[float, str]] = field(default_factory=dict)


@dataclass(frozen=True)
class RunPlan:
    """One page's worth of test day."""

    before: Car
    after: Car
    end: str
    from_hole: int
    to_hole: int
    choice: Choice | None  # the advice, where the change came from it
    radius: float  # m
    steering_ratio: float | None  # steering wheel over road wheel; None: steer is said at the road wheel
    steps: tuple[Step, ...]
    expected: dict[str, Expected]
    scatter: dict[str, float]  # of one run's slope
    runs: dict[str, int | None]  # each way round, before and again after; None: cannot be shown
    stops: tuple[Stop, ...]

    @property
    def runs_each_way(self) -> int:
        """Runs to drive each way round: enough for every change that can be shown at all."""
        return max([FEWEST_RUNS, *(count for count in self.runs.values() if count is not None)])


def make_plan(
    before: Car,
    after: Car,
    doubts: list[Doubt],
    radius: float = 30.0,
    scatter: dict[str, float] | None = None,
    choice: Choice | None = None,
    steering_ratio: float | None = None,
) -> RunPlan:
    """Plan constant-radius runs before and after one change of hole.

    Parameters
    ----------
    before, after : Car
        The same car; one end's hole differs.
    doubts : list of Doubt
        How well the sheet knows its numbers.
    radius : float, optional
        [m].
    scatter : dict of str to float, optional
        Standard deviation of one run's slope by gradient, [rad/(m/s^2)]; `SCATTER` where left out.
    choice : Choice, optional
        The advice that the change came from.
    steering_ratio : float, optional
        [-].

    Raises
    ------
    CarError
        No change, or more than one; a car that slides or rolls over too soon to be tested so.
    """
    end, from_hole, to_hole = _one_change(before, after)
    top = _top(before, after)
    scatter = {**SCATTER, **(scatter or {})}
    found = expected(before, after, doubts, LOWEST, top)
    runs = {quantity: runs_needed(found[quantity].change, scatter[quantity]) for quantity in CHANNELS}
    return RunPlan(
        before,
        after,
        end,
        from_hole,
        to_hole,
        choice,
        radius,
        steering_ratio,
        _steps(before, after, radius, top),
        found,
        scatter,
        runs,
        tuple(_stops(before, after, top, found)),
    )


def clearer(found: dict[str, Expected]) -> str:
    """The gradient whose change stands out more from the scatter of one run.

    Parameters
    ----------
    found : dict of str to Expected
        From `expected.expected`.
    """
    return max(
        (one for one in CHANNELS if one in found), key=lambda one: abs(found[one].change) / SCATTER[one]
    )


def _one_change(before: Car, after: Car) -> tuple[str, int, int]:
    moved = [end for end in ("front", "rear") if before.axle(end).hole != after.axle(end).hole]
    if len(moved) != 1:
        raise CarError(f"wanted one change, at one end; given {len(moved)}")
    (end,) = moved
    return end, before.axle(end).hole, after.axle(end).hole


def _top(before: Car, after: Car) -> float:
    """The highest step: a part of the lower limit, down to a whole half metre per second squared."""
    limit = min(float(limits(car, driven=True).lower) for car in (before, after))
    top = STEP * np.floor(OF_LIMIT * limit / STEP)
    if top < LOWEST + 2 * STEP:
        raise CarError(f"the car's limit of {limit / GRAVITY:.2f} g leaves no room for steps below it")
    return float(top)


def _steps(before: Car, after: Car, radius: float, top: float) -> tuple[Step, ...]:
    count = int(round((top - LOWEST) / STEP)) + 1
    accel = np.linspace(LOWEST, top, min(count, MOST_STEPS))
    rolls = [roll_of(car, accel) for car in (before, after)]
    steers = [steer_of(car, accel, radius) for car in (before, after)]
    return tuple(
        Step(
            float(a),
            sqrt(a * radius),
            *(tuple(float(curve[i]) for curve in pair) for pair in (rolls, steers)),
        )
        for i, a in enumerate(accel)
    )


def _stops(before: Car, after: Car, top: float, found: dict[str, Expected]):
    """Reasons to stop with the sheet's own numbers, then those of every test."""
    yield Stop("top-step", numbers={"top": (top, "lateral acceleration")})
    for end in ("front", "rear"):
        lift = min(float(lift_acceleration(car, end)) for car in (before, after))
        if lift <= top:
            yield Stop("wheel-lifts", end, {"lift": (lift, "lateral acceleration")})
    roll = found["roll"]
    off = max(LEAST_OFF, 2 * roll.uncertainty / abs(roll.before))
    yield Stop("roll-off", numbers={"off": (off, "share"), "floor": (ROLL_READ, "angle")})
    yield from (Stop(code) for code in ("tail", "driver", "car", "course"))
