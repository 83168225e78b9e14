"""What several panels ask of a car: which end's bar can be moved, and how hard a corner to show."""

from __future__ import annotations

from functools import lru_cache

from rollmodel.car import GRAVITY, Axle, Car
from rollmodel.panels.controls import Hole
from rollmodel.physics.balance import limits
from rollmodel.physics.stiffness import axle_stiffness

ENDS = ("front", "rear")
OTHER = {"front": "rear", "rear": "front"}


def barred_end(car: Car) -> str | None:
    """The end whose bar can be moved: one with a choice of holes, the front before the rear."""
    return next((end for end in ENDS if car.axle(end).positions > 1), None)


def bar_controls(car: Car) -> list[Hole]:
    """A control for each bar that has a choice of holes or angles, named by its end."""
    return [Hole.of(end, f"{end.capitalize()} bar", car.axle(end).bar) for end in ENDS
            if car.axle(end).positions > 1]


def place(axle: Axle) -> str:
    """What the places of a bar's link are called."""
    return "blade position" if axle.bar and axle.bar.blade else "hole"


def setup(car: Car, values) -> list:
    """Front and rear stiffness at the places that the controls say."""
    return [axle_stiffness(car.axle(end), getattr(values, end, None)) for end in ENDS]


@lru_cache(maxsize=32)
def hardest(car: Car) -> float:
    """What the car holds with its bars as fitted, in whole hundredths of g, [m/s^2]."""
    return int(100 * float(limits(car).lower) / GRAVITY) / 100 * GRAVITY
