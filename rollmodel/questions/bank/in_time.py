"""Corners against time for questions: what a change at one end moves to that end, by phase."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.shift import instants, shifted_to_front
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.transient import RollHistory, roll_against_time
from rollmodel.sheets import training_car

PEAK = 0.6 * GRAVITY  # all of the college's cars hold it with their wheels down
HOLD = 3.0  # s, for the roll to settle
CARS, TIMES = ("coupe", "gravel", "saloon"), (0.3, 0.4, 0.5, 0.6)  # s, to build the corner up


@lru_cache(maxsize=128)
def history(name: str, time: float, end: str = "front", dampers: float = 1.0, holes: int = 0) -> RollHistory:
    """A training car's corner, both bars at their stiffest, but for one end's dampers or bar.

    Dampers so many times as stiff; ``holes`` below zero is softer.
    """
    car = _damped(training_car(name), end, dampers)
    stiff = {e: axle_stiffness(car.axle(e), car.axle(e).positions + (holes if e == end else 0))
             for e in ("front", "rear")}
    plan = BuildUp(PEAK, rise_time=time, hold_time=HOLD, release_time=time)
    return roll_against_time(car, plan, stiff["front"], stiff["rear"], step=0.01)


def _damped(car: Car, end: str, times: float) -> Car:
    axle = car.axle(end)
    return replace(car, **{end: replace(axle, damper=replace(axle.damper, rate=times * axle.damper.rate))})


def moved(name: str, time: float, end: str, **change) -> dict[str, float]:
    """Load transfer that a change moves to its own end, by phase, [N]."""
    before, after = history(name, time), history(name, time, end, **change)
    to_this_end = shifted_to_front(before, after) * (1 if end == "front" else -1)
    return {phase: float(to_this_end[at]) for phase, at in instants(before).items()}


def damper_part(name: str, time: float, end: str) -> dict[str, float]:
    """What an end's dampers carry as the car stands, by phase, [N]."""
    one = history(name, time)
    return {phase: float(one.axle(end).dampers[at]) for phase, at in instants(one).items()}
