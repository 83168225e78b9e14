"""A test day that the model drives: runs before and after one change, as noisy and as many as wanted."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from functools import lru_cache
from math import radians

import numpy as np

from rollmodel.car import Car
from rollmodel.testday.analysis import Analysis, analyse
from rollmodel.testday.bench import with_steel
from rollmodel.testday.channels import Channels
from rollmodel.testday.compare import Prediction
from rollmodel.testday.doubts import Doubt
from rollmodel.testday.expected import Expected, expected
from rollmodel.testday.gradients import CHANNELS
from rollmodel.testday.predict import roll_of, steer_of
from rollmodel.testday.runs import Setup, settled_runs
from rollmodel.testday.sample import plan_for
from rollmodel.testday.simulate import CAREFUL, Driven, Noise, Plan, simulate

ENDS = ("front", "rear")
RADIUS = 30.0  # m
RATE = 10.0  # rows a second: enough for averages over three seconds, and half the work of a file's
GUST = radians(0.8)  # rad of roll and of steer that a gust puts on one step
_GRID = 60  # points of a curve: finer than any of its bends


@dataclass(frozen=True)
class Day:
    """How a simulated test day goes."""

    before: Car
    after: Car
    noise: float = 1.0  # times that of a careful day with plain sensors
    runs: int = 3  # each way round, before and again after
    number: int = 1  # another number, another day: other noise
    bar: float = 1.0  # rate of the changed end's real bar, times what the sheet says
    gust: bool = False  # whether a gust spoils one step of the first run after

    @property
    def end(self) -> str:
        """Where the change is."""
        return next(end for end in ENDS if self.before.axle(end).hole != self.after.axle(end).hole)

    def real(self, car: Car) -> Car:
        """The car that is driven, whose bar is not quite the sheet's."""
        axle = car.axle(self.end)
        return (
            car
            if self.bar == 1.0
            else replace(car, **{self.end: replace(axle, bar=with_steel(axle.bar, self.bar))})
        )


def driven(day: Day) -> dict[str, Driven]:
    """The rows of both setups, simulated: nobody drove them.

    Parameters
    ----------
    day : Day
    """
    plan = replace(day_plan(day.before, day.after), repetitions=day.runs)
    noise = scaled(CAREFUL, day.noise)
    return {
        name: simulate(*curves(day.real(car), plan), plan, noise, 2 * day.number + place)
        for place, (name, car) in enumerate((("before", day.before), ("after", day.after)))
    }


def scaled(noise: Noise, times: float) -> Noise:
    """All of a day's noise made so many times as large."""
    return Noise(**{one.name: times * getattr(noise, one.name) for one in fields(noise)})


@lru_cache(maxsize=32)
def day_plan(before: Car, after: Car) -> Plan:
    """One way of driving for both setups: up to what both can hold."""
    plans = [plan_for(car, RADIUS) for car in (before, after)]
    return replace(min(plans, key=lambda plan: plan.highest), rate=RATE)


@lru_cache(maxsize=64)
def curves(car: Car, plan: Plan):
    """Roll and steer of the model against lateral acceleration, worked out once for a car."""
    grid = np.linspace(0.0, 1.15 * plan.highest, _GRID)
    roll, steer = roll_of(car, grid), steer_of(car, grid, plan.radius)
    held = np.isfinite(steer)
    return lambda a: np.interp(a, grid, roll), lambda a: np.interp(a, grid[held], steer[held])


@lru_cache(maxsize=64)
def setups(day: Day) -> tuple[Setup, Setup]:
    """Steady points of both setups, found as in any file of runs.

    Parameters
    ----------
    day : Day
    """
    before, after = (_setup(name, rows, day) for name, rows in driven(day).items())
    return before, (_blown(after) if day.gust else after)


def _setup(name: str, rows: Driven, day: Day) -> Setup:
    channels = Channels(
        f"simulated {name}",
        rows.time,
        rows.speed**2 / RADIUS,
        False,
        rows.steer,
        rows.roll,
        rows.run.astype(str),
        rows.direction,
        (),
    )
    runs, told = settled_runs([channels])
    car = day.before if name == "before" else day.after
    holes = {end: car.axle(end).hole for end in ("front", "rear") if car.axle(end).bar}
    return Setup(name, tuple(runs), tuple(told), (), True, RADIUS, holes)


def _blown(setup: Setup) -> Setup:
    """A gust at the middle step of the first run."""
    first, middle = setup.runs[0], setup.runs[0].points // 2
    push = np.where(np.arange(first.points) == middle, GUST, 0.0)
    blown = replace(first, roll=first.roll + push, steer=first.steer + push)
    return replace(setup, runs=(blown, *setup.runs[1:]))


def expected_of(before: Car, after: Car, doubts: tuple[Doubt, ...]) -> dict[str, Expected]:
    """What the sheet says that such runs should show.

    Parameters
    ----------
    before, after : Car
    doubts : tuple of Doubt
    """
    plan = day_plan(before, after)
    return expected(before, after, list(doubts), plan.lowest, float(plan.highest))


def predictions(before: Car, after: Car, doubts: tuple[Doubt, ...]) -> dict[str, Prediction]:
    """The sheet's gradients before and after, as `analyse` takes them."""
    found = expected_of(before, after, doubts)
    return {
        quantity: Prediction(one.before, one.after, one.uncertainty_of_change, one.uncertainty)
        for quantity, one in found.items()
        if quantity in CHANNELS
    }


@lru_cache(maxsize=64)
def read_day(day: Day, doubts: tuple[Doubt, ...]) -> Analysis:
    """What a simulated day's runs say, beside the sheet's prediction.

    Parameters
    ----------
    day : Day
    doubts : tuple of Doubt
        Of the sheet.
    """
    return analyse(*setups(day), predicted=predictions(day.before, day.after, doubts))
