"""Lesson 7's numbers: one bar moved from its softest hole to its stiffest, the other left alone."""

from __future__ import annotations

from functools import lru_cache

from rollmodel.adding_up import change_as_shown, wheel_loads
from rollmodel.advice import Reading, readings, working_acceleration
from rollmodel.car import GRAVITY, Axle, Car
from rollmodel.figures import limit_lines, understeer_curve
from rollmodel.panels.lesson import wanting
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.grip_change import GripChange, grip_change
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_car

ENDS = ("front", "rear")


def car_of(lesson) -> Car:
    """The lesson's car with its front bar on the softest hole; the coupe where an end cannot be moved."""
    return (training_car("coupe") if lacking(lesson.car) else lesson.car).with_holes(1, None)


@wanting("07")
def lacking(car: Car) -> str:
    """What a car lacks for this lesson; empty when it has both bars to move."""
    fits = all(axle.positions > 1 for axle in (car.front, car.rear))
    return "" if fits else "a bar at each end, with two holes or more"


def noun(axle: Axle) -> str:
    """What the places of a bar's link are called."""
    return "blade position" if axle.bar.blade else "hole"


def own(car: Car) -> tuple[int, int]:
    """The holes in use, front and rear."""
    return car.front.hole, car.rear.hole


@lru_cache(maxsize=64)
def setup(car: Car, front: int, rear: int):
    """Front and rear stiffness on a pair of holes."""
    return axle_stiffness(car.front, front), axle_stiffness(car.rear, rear)


@lru_cache(maxsize=64)
def curve(car: Car, front: int, rear: int) -> understeer_curve.Curve:
    """Understeer angle against lateral acceleration on a pair of holes."""
    return understeer_curve.curve(car, *setup(car, front, rear))


@lru_cache(maxsize=64)
def limits(car: Car, front: int, rear: int) -> limit_lines.Change:
    """What each end holds on the car's own holes, and on another pair."""
    return limit_lines.compare(car, setup(car, *own(car)), setup(car, front, rear))


@lru_cache(maxsize=16)
def corner_for(car: Car) -> float:
    """The corner that loads are compared in: nine tenths of the limit, in round hundredths of g, [m/s^2]."""
    return round(working_acceleration(car) / GRAVITY, 2) * GRAVITY


@lru_cache(maxsize=32)
def soft_and_stiff(car: Car, end: str, driven: bool = False) -> tuple[Reading, Reading]:
    """Readings with one bar on its softest and on its stiffest hole, the other bar as fitted."""
    places = (1, car.axle(end).positions)
    holes = [(n, car.rear.hole) if end == "front" else (car.front.hole, n) for n in places]
    return tuple(readings(car, holes, driven, corner_for(car)))


def front_moved(car: Car):
    """Setups, corners and each end's change of grip for the front bar's move from softest to stiffest."""
    near, setups = corner_for(car), [setup(car, n, car.rear.hole) for n in (1, car.front.positions)]
    corners = [settled_corner(car, near, *one) for one in setups]
    return setups, corners, {end: grip_change(car, end, near, *setups) for end in ENDS}


def loads_shown(lesson, axle) -> tuple[float, float, float]:
    """Inside wheel, outside wheel and what moved between them, as they add up on the page, [N]."""
    return wheel_loads(float(axle.inside), float(axle.outside), lesson.family)


def grip_shown(lesson, grip: GripChange) -> GripChange:
    """The two causes as they are shown; their sum is then the whole that is shown."""
    return GripChange(*(lesson.rounded(one, "load") for one in (grip.by_load, grip.by_lean)))


def lead(reading: Reading, lesson) -> float:
    """Front limit less rear limit, as the two are shown, [m/s^2]."""
    held = (reading.held(end) for end in ("rear", "front"))
    return change_as_shown(*held, "lateral acceleration", lesson.family)


def moved(first: str, last: str, stress: str = "") -> str:
    """A figure before and after as it stands in a table: with an arrow only where the two differ."""
    return first if first == last else f"{first} → {stress}{last}{stress}"
