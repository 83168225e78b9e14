"""What the picture of the axle is made from: the axle on lifting plates, or in a settled corner."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from rollmodel.car import GRAVITY, Axle, Car
from rollmodel.physics.axle import wheel_loads
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.physics.stress import travel_difference

MOST_LEAN = np.radians(12)  # further, and the body would touch the wheels as drawn


@dataclass(frozen=True)
class AxleScene:
    """What the picture shows. Pairs are left and right as seen from behind, looking forward."""

    end: str
    lateral_acceleration: float | None  # m/s^2; None: wheels moved under a level body
    roll: float  # of the body, towards the right, rad; what the picture has room for when it rolls over
    travel: tuple[float, float]  # of each wheel above its resting place, m
    force: tuple[float, float]  # load on each tyre, or its change when the wheels are moved, N
    second_force: tuple[float, float]  # change of load in the corner; the bar's part when moved, N
    bar_apart: float | None  # travel of the left link above the right one, m; None without a bar
    track: float
    factor: float  # how many times roll and travel are enlarged
    top_force: float  # the force that fills the longest arrow, N
    lifted: bool = False
    rolls_over: bool = False

    @property
    def on_ground(self) -> bool:
        """Whether this is the car in a corner, not an axle on lifting plates."""
        return self.lateral_acceleration is not None


def by_travel(axle: Axle, left: float, right: float, stiff: AxleStiffness | None = None,
              largest: float = 0.06, factor: float = 2.0, top_force: float | None = None) -> AxleScene:
    """The axle on two lifting plates with its body held level: what travel does to each wheel's load.

    Parameters
    ----------
    axle : Axle
    left, right : float
        Wheel travel, positive up (bump), [m].
    stiff : AxleStiffness, optional
        Another setup than the axle's own; single numbers.
    largest : float
        Largest travel that will be asked for, [m].
    factor : float
        How many times the travel is enlarged.
    top_force : float, optional
        The force that fills the longest arrow, [N]; that of the largest travel in roll when left out.
        Give it where the rates can change, so that arrows of different rates compare.
    """
    stiff = stiff or axle_stiffness(axle)
    springs, bar = float(stiff.spring_wheel_rate), float(stiff.bar_wheel_rate)
    return AxleScene("", None, 0.0, (left, right), _pair(wheel_loads(springs, bar, left, right)),
                     _pair(wheel_loads(0.0, bar, left, right)), _apart(axle, left - right), axle.track,
                     factor, top_force or float(wheel_loads(springs, bar, largest, -largest)[0]))


def in_corner(car: Car, end: str, lateral_acceleration: float, front: AxleStiffness | None = None,
              rear: AxleStiffness | None = None, factor: float | None = None) -> AxleScene:
    """One axle in a settled left-hand corner: roll, the loads on its tyres, a wheel off the ground.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float
        [m/s^2].
    front, rear : AxleStiffness, optional
        Other setups than the car's own; single numbers.
    factor : float, optional
        How many times the roll is enlarged; :func:`tidy_factor` of the car when left out.
    """
    corner, axle = settled_corner(car, lateral_acceleration, front, rear), car.axle(end)
    loads = corner.axle(end)
    stiff = {"front": front, "rear": rear}[end] or axle_stiffness(axle)
    factor, transfer = factor or tidy_factor(car), float(loads.load_transfer)
    roll = MOST_LEAN / factor if corner.rolls_over else float(loads.roll_angle)
    suspension, held = _held(loads, stiff, roll)
    return AxleScene(end, lateral_acceleration, roll, (axle.track * (roll - held), 0.0),
                     (float(loads.inside), float(loads.outside)), (-transfer, transfer),
                     _apart(axle, -axle.track * suspension), axle.track, factor, car.axle_weight(end),
                     bool(loads.lifted), bool(corner.rolls_over))


@lru_cache(maxsize=32)
def tidy_factor(car: Car) -> float:
    """How many times to enlarge the roll so that the car on its softest holes fits the picture at 1 g."""
    softest = car.with_holes(*(1 if car.axle(end).bar else None for end in ("front", "rear")))
    corner = settled_corner(softest, np.linspace(0, 1, 21) * GRAVITY)
    roll = np.nanmax(np.abs([corner.front.roll_angle, corner.rear.roll_angle]))
    most = MOST_LEAN / roll if roll else np.inf
    return max((f for f in (1, 2, 3, 4, 5) if f <= most), default=1)


def _held(loads, stiff: AxleStiffness, roll):
    """The roll across the suspension, and with the tyres' part; the rest turns a lifted axle as a whole."""
    across = np.nan_to_num(travel_difference(stiff, loads) / loads.track, nan=roll).item()  # nan: rolls over
    on_tyres = np.nan_to_num(loads.elastic * loads.track / stiff.tyre_roll).item()
    return across, across + on_tyres if loads.lifted else roll


def _pair(values):
    return tuple(float(value) for value in values)


def _apart(axle: Axle, wheels_apart):
    return None if axle.bar is None else axle.bar.link_motion_ratio * wheels_apart
