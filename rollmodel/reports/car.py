"""A car in one settled corner and at its limits: the numbers, and the same as one JSON object."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from rollmodel.advice.rule import places_apart
from rollmodel.car import GRAVITY, Axle, Car
from rollmodel.physics.balance import Limits, limits, understeer_gradient
from rollmodel.physics.corner import AxleLoads, SettledCorner, lift_acceleration, settled_corner
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.physics.stress import bar_stress, inside_travel, outside_travel, travel_difference
from rollmodel.units import show, to_display

ENDS = ("front", "rear")
GRADIENT_AT = 0.3 * GRAVITY  # where the understeer gradient is taken, m/s^2


class RollsOver(ValueError):
    """The car has no settled corner at this lateral acceleration."""


@dataclass(frozen=True)
class EndReading:
    """One end of the car, SI; nan where a figure does not exist."""

    hole: int | None
    positions: int
    stiffness: AxleStiffness
    loads: AxleLoads
    limit: float  # m/s^2
    lift: float  # m/s^2, lateral acceleration at which the inside wheel leaves the ground
    roll_before_lift: float  # of the body, just before that wheel leaves the ground, rad
    roll_after_lift: float  # just after
    bump_travel: float  # of the outside wheel at this lateral acceleration, m; below zero in droop
    most_bump: float  # of the wheel in bump: the outside one, or the inside one of a body that leans inward
    bump_travel_there: float  # before the stop, m
    bar_shear: float  # at the surface of the bar's centre section, Pa; nan without a bar
    bar_largest: float  # at the bar's worst place, bending counted, von Mises, Pa


    @property
    def part_of_travel(self) -> float:
        """What the outside wheel uses of its bump travel, [-]; nan in droop, or where none is given."""
        return self.bump_travel / self.bump_travel_there if self.bump_travel >= 0 else math.nan


@dataclass(frozen=True)
class CarReading:
    """The whole car, SI."""

    car: Car
    driven: bool
    corner: SettledCorner
    limits: Limits
    roll_gradient: float
    understeer_gradient: float
    front: EndReading
    rear: EndReading

    def end(self, name: str) -> EndReading:
        return {"front": self.front, "rear": self.rear}[name]

    @property
    def lateral_acceleration(self) -> float:
        return float(self.corner.lateral_acceleration)

    @property
    def held(self) -> bool:
        """Whether both ends can supply the side force that this corner asks for."""
        return all(not self.lateral_acceleration > self.end(name).limit for name in ENDS)

    @property
    def limit_end(self) -> str | None:
        """The end that gives up first; None where the car rolls over before either does."""
        word = str(self.limits.end)
        return word if word in ENDS else None

    @property
    def limit(self) -> float:
        """The smaller of the two limits, [m/s^2]; nan where the car rolls over before either."""
        return float(np.fmin(self.front.limit, self.rear.limit))


def read_car(car: Car, lateral_acceleration: float = GRAVITY, driven: bool = False) -> CarReading:
    """Everything the car report holds, at the holes in use.

    Parameters
    ----------
    car : Car
    lateral_acceleration : float
        [m/s^2].
    driven : bool
        Add the force that holds the speed.

    Raises
    ------
    RollsOver
        With the lateral acceleration at which the car does.
    """
    stiff = {"front": axle_stiffness(car.front), "rear": axle_stiffness(car.rear)}
    found = limits(car, **stiff, driven=driven)
    corner = settled_corner(car, lateral_acceleration, **stiff)
    if corner.rolls_over:
        raise RollsOver(_rolls_over(float(found.rollover), lateral_acceleration))
    ends = {end: _end(car, end, stiff, corner, found) for end in ENDS}
    return CarReading(car, driven, corner, found, float(roll_gradient(car, **stiff)),
                      float(understeer_gradient(car, GRADIENT_AT, **stiff, driven=driven)), **ends)


def _end(car: Car, end: str, stiff, corner: SettledCorner, found: Limits) -> EndReading:
    axle, loads = car.axle(end), corner.axle(end)
    lift = float(lift_acceleration(car, end, **stiff))
    travel = float(travel_difference(stiff[end], loads))
    lift = lift if lift < found.rollover * (1 - 1e-6) else math.nan
    outside, inside = (float(of(stiff[end], loads)) for of in (outside_travel, inside_travel))
    return EndReading(
        axle.hole, axle.positions, stiff[end], loads, float(getattr(found, end)), lift,
        *_roll_at_lift(car, stiff, lift), outside, max(outside, inside),
        math.nan if axle.bump_travel is None else axle.bump_travel, *_stresses(axle, travel))


def _roll_at_lift(car: Car, stiff, lift: float) -> tuple[float, float]:
    """Roll just before and just after an inside wheel lifts, [rad]; nan where it stays down."""
    if math.isnan(lift):
        return lift, lift
    return tuple(settled_corner(car, lift * np.array([1 - 1e-6, 1 + 1e-6]), **stiff).roll_angle.tolist())


def _stresses(axle: Axle, travel: float) -> tuple[float, float]:
    """Surface shear and the largest stress of the bar at the hole in use, [Pa]; nan without its sizes."""
    if axle.bar is None or axle.bar.rates is not None:
        return math.nan, math.nan
    stress = bar_stress(axle.bar, travel)
    return float(stress.shear[axle.bar.hole - 1]), float(stress.largest[axle.bar.hole - 1])


def _rolls_over(at: float, asked: float) -> str:
    below = math.floor(to_display(0.9 * at, "lateral acceleration") * 100) / 100
    places = places_apart(at / GRAVITY, asked / GRAVITY)
    known, wanted = (show(one, "lateral acceleration", decimals=places) for one in (at, asked))
    return (f"the car rolls over at {known}, so it has no settled corner at {wanted}; ask for less, "
            f"for example --at {below:g}g")


def car_values(reading: CarReading, notes=()) -> dict:
    """The reading as plain values, each in the unit that its key names; None where there is no figure.

    Parameters
    ----------
    reading : CarReading
    notes : list of str
        From `rollmodel.reports.car_notes`.
    """
    corner, g = reading.corner, GRAVITY
    values = {
        "title": reading.car.title, "drive": reading.car.drive, "driven": reading.driven,
        "lateral_acceleration_g": reading.lateral_acceleration / g, "corner_held": reading.held,
        "roll_angle_deg": math.degrees(corner.roll_angle),
        "roll_gradient_deg_per_g": to_display(reading.roll_gradient, "roll gradient"),
        "front_load_transfer_share": float(corner.front_share),
        "front_weight_share": reading.car.front_weight_share,
        "limit_g": reading.limit / g, "limit_end": reading.limit_end,
        "front_limit_g": reading.front.limit / g, "rear_limit_g": reading.rear.limit / g,
        "rollover_g": float(reading.limits.rollover) / g,
        "understeer_gradient_deg_per_g": to_display(reading.understeer_gradient, "understeer gradient"),
        **{end: end_values(reading.end(end)) for end in ENDS},
        "notes": list(notes),
    }
    return _plain(values)


def end_values(end: EndReading) -> dict:
    """One end as plain values."""
    stiff, loads = end.stiffness, end.loads
    return {
        "hole": end.hole, "holes": end.positions,
        "spring_wheel_rate_N_per_mm": stiff.spring_wheel_rate / 1000,
        "bar_wheel_rate_in_roll_N_per_mm": stiff.bar_wheel_rate_in_roll / 1000,
        "spring_roll_stiffness_Nm_per_deg": to_display(stiff.spring_roll, "roll stiffness"),
        "bar_roll_stiffness_Nm_per_deg": to_display(stiff.bar_roll, "roll stiffness"),
        "roll_stiffness_Nm_per_deg": to_display(stiff.total_roll, "roll stiffness"),
        "load_transfer_N": loads.load_transfer, "elastic_N": loads.elastic,
        "geometric_N": loads.geometric, "unsprung_N": loads.unsprung,
        "inside_wheel_load_N": loads.inside, "outside_wheel_load_N": loads.outside,
        "inside_wheel_lifted": bool(loads.lifted), "inside_wheel_lifts_at_g": end.lift / GRAVITY,
        "bump_travel_mm": end.bump_travel * 1000,
        "bump_travel_used_share": end.part_of_travel,
        "on_bump_stop": bool(loads.on_stop),
        "bar_surface_shear_stress_MPa": end.bar_shear / 1e6,
        "bar_largest_stress_von_mises_MPa": end.bar_largest / 1e6,
    }


def _plain(value):
    """Numbers of numpy as plain ones; None for a figure that does not exist."""
    if isinstance(value, dict):
        return {name: _plain(item) for name, item in value.items()}
    if value is None or isinstance(value, (str, bool, int, list)):
        return value
    return float(value) if math.isfinite(value) else None
