"""The numbers of a setup that a change is judged by, and the same before and after."""

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.advice.rule import ENDS
from rollmodel.advice.thresholds import DEFAULTS
from rollmodel.car import Axle, Car
from rollmodel.physics.balance import limits, understeer_angle_and_gradient
from rollmodel.physics.corner import AxleLoads, settled_corner
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness_for, bar_wheel_rates_in_roll
from rollmodel.physics.stress import outside_travel


@dataclass(frozen=True)
class EndReading:
    """One end of the car at the working lateral acceleration, and at the car's limit."""

    limit: float  # m/s^2; nan where the car rolls over first
    inside_load: float  # N
    outside_load: float  # N
    lifted: bool  # the inside wheel, at the working lateral acceleration
    inside_load_at_limit: float  # N, at the car's limit
    lifted_at_limit: bool
    bump_travel: float  # of the outside wheel at the working lateral acceleration, m
    bump_travel_at_limit: float  # m
    bump_travel_there: float  # before the stop, m; nan where the sheet does not say
    stop_counted: bool  # whether the sheet gives the stop's rate, so that these figures hold it

    @property
    def stop_reached(self) -> bool:
        """Whether the outside wheel has used up its travel at the working lateral acceleration."""
        return self.bump_travel >= self.bump_travel_there

    @property
    def stop_reached_at_limit(self) -> bool:
        return self.bump_travel_at_limit >= self.bump_travel_there


@dataclass(frozen=True)
class Reading:
    """What the model says of one setup. SI."""

    front_hole: int | None
    rear_hole: int | None
    front: EndReading
    rear: EndReading
    rollover: float  # m/s^2
    slope_at: float  # m/s^2
    near: float  # the working lateral acceleration, m/s^2
    gradient: float  # understeer gradient at slope_at, rad/(m/s^2)
    near_gradient: float  # the same at near; nan past the limit
    near_steer: float  # understeer angle at near, rad; nan past the limit
    roll_gradient: float  # rad/(m/s^2)
    front_share: float  # of the load transfer, at near

    def end(self, name: str) -> EndReading:
        return {"front": self.front, "rear": self.rear}[name]

    def held(self, name: str) -> float:
        """An end's limit, or rolling over where that comes first, [m/s^2]."""
        return float(np.fmin(self.end(name).limit, self.rollover))

    @property
    def gap(self) -> float:
        """Front limit less rear limit: below zero the front gives up first, [m/s^2].

        nan where an end would roll over before it slides, and so has no limit of its tyres.
        """
        return self.front.limit - self.rear.limit

    @property
    def rear_and_front(self) -> tuple[float, float]:
        """Both limits, in the order of which the gap is the second less the first, [m/s^2]."""
        return self.rear.limit, self.front.limit

    @property
    def lead(self) -> float:
        """The gap, with rolling over standing in for a limit that is not there, [m/s^2]."""
        return self.held("front") - self.held("rear")

    @property
    def limit(self) -> float:
        """The car's limit: the lower of the two ends', [m/s^2]."""
        return min(self.held("front"), self.held("rear"))

    @property
    def limit_end(self) -> str:
        """"front" or "rear", whichever gives up first, or "rollover"."""
        if np.isnan(self.front.limit) and np.isnan(self.rear.limit):
            return "rollover"
        return "front" if self.lead <= 0 else "rear"


@dataclass(frozen=True)
class Effect:
    """One change: the setup before and after it."""

    before: Reading
    after: Reading

    def change(self, name: str) -> float:
        """How far one number of the reading moves, ``after - before``."""
        return getattr(self.after, name) - getattr(self.before, name)

    def limit_change(self, end: str) -> float:
        """How far one end's own limit moves, [m/s^2]; nan where it has none."""
        return self.after.end(end).limit - self.before.end(end).limit

    @property
    def wheel_stays_up(self) -> bool:
        """Whether one end's inside wheel is off the ground at the limit both before and after."""
        return any(self.before.end(end).lifted_at_limit and self.after.end(end).lifted_at_limit
                   for end in ("front", "rear"))


def hole_pair(car: Car) -> tuple[int | None, int | None]:
    """The holes in use, front and rear; None without a bar."""
    return car.front.hole, car.rear.hole


def stiffness_at(car: Car, pairs) -> tuple[AxleStiffness, AxleStiffness]:
    """Front and rear stiffness of a list of hole pairs, arrays with one entry per pair."""
    found = []
    for axle, holes in zip((car.front, car.rear), zip(*pairs, strict=True), strict=True):
        rates = bar_wheel_rates_in_roll(axle)
        found.append(axle_stiffness_for(axle, rates[[(hole or 1) - 1 for hole in holes]]))
    return tuple(found)


def working_acceleration(car: Car, driven=False, thresholds=DEFAULTS) -> float:
    """The stated part of the fitted car's limit, [m/s^2]."""
    return thresholds.near_limit * float(limits(car, driven=driven).lower)


def readings(car: Car, pairs, driven=False, near=None, thresholds=DEFAULTS) -> list[Reading]:
    """One reading for each pair of holes, in one solve.

    Parameters
    ----------
    car : Car
    pairs : list of (front hole, rear hole)
        Counted from 1; None at an end without a bar.
    driven : bool
        Add the force that holds the speed.
    near : float, optional
        Working lateral acceleration, [m/s^2]; the stated part of the *first* pair's limit when left out.
    thresholds : Thresholds
    """
    return read_setups(car, pairs, *stiffness_at(car, pairs), driven, near, thresholds)


def read_setups(car: Car, pairs, front: AxleStiffness, rear: AxleStiffness, driven=False, near=None,
                thresholds=DEFAULTS) -> list[Reading]:
    """As `readings`, for stiffnesses that need not belong to a hole; one array entry per setup."""
    found = limits(car, front, rear, driven)
    near = float(thresholds.near_limit * found.lower[0]) if near is None else near
    asked = np.array([[thresholds.slope_at], [near]])
    steer, slope = understeer_angle_and_gradient(car, asked, front, rear, driven)
    corner, edge = (settled_corner(car, a, front, rear) for a in (near, found.lower))
    roll = roll_gradient(car, front, rear)
    ends = {end: _end(car.axle(end), stiff, getattr(found, end), corner.axle(end), edge.axle(end))
            for end, stiff in zip(ENDS, (front, rear), strict=True)}
    return [Reading(
        *pair, *(ends[end][i] for end in ENDS),
        float(found.rollover[i]), thresholds.slope_at, near, float(slope[0, i]), float(slope[1, i]),
        float(steer[1, i]), float(roll[i]), float(corner.front_share[i])) for i, pair in enumerate(pairs)]


def _end(axle: Axle, stiff: AxleStiffness, own_limit, now: AxleLoads, edge: AxleLoads) -> list[EndReading]:
    there = np.nan if axle.bump_travel is None else axle.bump_travel
    used, at_limit = (outside_travel(stiff, loads) for loads in (now, edge))
    columns = (own_limit, now.inside, now.outside, now.lifted, edge.inside, edge.lifted, used, at_limit)
    return [EndReading(*(value.item() for value in row), there, axle.bump_stop_rate is not None)
            for row in zip(*np.broadcast_arrays(*columns), strict=True)]


def effect_of(car: Car, front_hole: int | None = None, rear_hole: int | None = None, driven=False,
              near=None, thresholds=DEFAULTS) -> Effect:
    """What moving to other holes would do, before and after.

    Parameters
    ----------
    car : Car
    front_hole, rear_hole : int, optional
        Counted from 1; the hole in use when left out.
    driven, near, thresholds
        As for `readings`.

    Raises
    ------
    CarError
        When an end has no bar, or no such hole.
    """
    after = hole_pair(car.with_holes(front_hole, rear_hole))
    return Effect(*readings(car, [hole_pair(car), after], driven, near, thresholds))


def effect_of_springs(car: Car, factor: float, driven=False, near=None, thresholds=DEFAULTS) -> Effect:
    """What other springs at both ends would do, the holes as they are; ``factor`` times the rate."""
    stiffer = replace(car, front=replace(car.front, spring_rate=factor * car.front.spring_rate),
                      rear=replace(car.rear, spring_rate=factor * car.rear.spring_rate))
    before, = readings(car, [hole_pair(car)], driven, near, thresholds)
    after, = readings(stiffer, [hole_pair(car)], driven, before.near, thresholds)
    return Effect(before, after)
