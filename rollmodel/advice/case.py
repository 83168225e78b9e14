"""What one piece of advice works from: the car, the complaint, and every setup read once."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from rollmodel.advice.numbers import Effect, Reading, hole_pair, readings, stiffness_at
from rollmodel.advice.rule import ENDS, end_that_slides, free_holes, towards_cure, trade_rule
from rollmodel.advice.thresholds import DEFAULTS, Thresholds
from rollmodel.car import Car
from rollmodel.physics.balance import limits
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.physics.tyre import knows_camber


@dataclass(frozen=True)
class Case:
    """One car with one complaint."""

    car: Car
    symptom: str
    phase: str
    thresholds: Thresholds
    near: float | None = None  # working lateral acceleration, m/s^2; None: part of the limit

    @property
    def driven(self) -> bool:
        """Whether the force that holds the speed is counted: on the way out only."""
        return self.phase == "exit"

    @property
    def sliding(self) -> str:
        return end_that_slides(self.symptom)

    @property
    def cure(self) -> int:
        return towards_cure(self.symptom)

    @cached_property
    def rule(self) -> dict[str, str]:
        return trade_rule(self.symptom)

    @cached_property
    def fitted(self) -> Reading:
        return self._read[hole_pair(self.car)]

    @cached_property
    def _read(self) -> dict[tuple, Reading]:
        pairs = [hole_pair(self.car)]
        pairs += [
            self.pair_with(end, hole) for end in ENDS for hole in free_holes(self.car, end, self.rule[end])
        ]
        return dict(
            zip(pairs, readings(self.car, pairs, self.driven, self.near, self.thresholds), strict=True)
        )

    def pair_with(self, end: str, hole: int) -> tuple:
        front, rear = hole_pair(self.car)
        return (hole, rear) if end == "front" else (front, hole)

    def effect(self, end: str, hole: int) -> Effect:
        """Before and after moving one end to another hole that the rule points at."""
        return Effect(self.fitted, self._read[self.pair_with(end, hole)])

    def effect_on_rigid_chassis(self, end: str, hole: int) -> Effect:
        rigid = replace(self.car, chassis_torsion=None)
        pairs = [hole_pair(self.car), self.pair_with(end, hole)]
        return Effect(*readings(rigid, pairs, self.driven, self.fitted.near, self.thresholds))

    @cached_property
    def without_stops(self) -> Reading:
        """The fitted setup as it would be with no bump stop at either end."""
        return self._other_way(self._without_stop_rates, self.driven)

    @property
    def _without_stop_rates(self) -> Car:
        return replace(self.car, **{end: replace(self.car.axle(end), bump_stop_rate=None) for end in ENDS})

    @cached_property
    def coasting(self) -> Reading:
        """The fitted setup without the force that holds the speed."""
        return self._other_way(self.car, driven=False)

    def _other_way(self, car: Car, driven: bool) -> Reading:
        return readings(car, [hole_pair(car)], driven, self.fitted.near, self.thresholds)[0]

    @cached_property
    def own_gain(self) -> dict[str, float]:
        found = own_limit_gains(self.car, [hole_pair(self.car)], self.thresholds)
        return {end: float(gains[0]) for end, gains in found.items()}

    @cached_property
    def too_soft_at(self) -> tuple[str, ...]:
        """Ends whose own limit rises with stiffness, by camber.

        None while an inside wheel is up at the limit: the share of the load is settled then, and
        the question has no meaning. None where the sheet counts no camber loss.
        """
        if not camber_counts(self.car) or any(self.fitted.end(end).lifted_at_limit for end in ENDS):
            return ()
        return tuple(end for end in ENDS if self.own_gain[end] > self.thresholds.own_end_gain)

    @property
    def whole_car_too_soft(self) -> bool:
        """Both ends gain from stiffness, or one does and the roll is beyond the class figures."""
        wallows = self.fitted.roll_gradient > self.thresholds.too_soft
        return len(self.too_soft_at) == 2 or (wallows and bool(self.too_soft_at))


def camber_counts(car: Car) -> bool:
    """Whether the tyres lose side force as the body rolls: the curve knows camber and the sheet gives it."""
    return knows_camber(car.tyre) and any(car.axle(end).camber_recovery is not None for end in ENDS)


def stiffness_step(car: Car, thresholds=DEFAULTS) -> float:
    """The small step that an end's bar is tried with, [N*m/rad]: of bar, so the axle gains less of it."""
    whole = axle_stiffness(car.front).total_roll + axle_stiffness(car.rear).total_roll
    return float(thresholds.stiffness_step * whole)


def with_more_roll_stiffness(stiff: AxleStiffness, extra) -> AxleStiffness:
    """The axle with a stronger bar: ``extra`` more roll stiffness **of bar**, [N*m/rad]; may be an array.

    The tyres are in series with the bar and the springs, so the axle as a whole gains less.
    """
    return replace(
        stiff, bar_wheel_rate_in_roll=stiff.bar_wheel_rate_in_roll + 2 * np.asarray(extra) / stiff.track**2
    )


def own_limit_gains(car: Car, pairs, thresholds=DEFAULTS) -> dict[str, np.ndarray]:
    """How far each end's own limit rises for a small step of roll stiffness at that end, [m/s^2].

    One entry for each pair of holes, coasting: a question of camber against uneven load, not of
    drive. Below zero is the usual case: uneven load costs more than the flatter body gives back.
    nan where the car would roll over first.
    """
    step = stiffness_step(car, thresholds)
    front, rear = stiffness_at(car, pairs)
    front = with_more_roll_stiffness(front, np.array([[0], [step], [0]]))
    rear = with_more_roll_stiffness(rear, np.array([[0], [0], [step]]))
    found = limits(car, front, rear)
    return {"front": found.front[1] - found.front[0], "rear": found.rear[2] - found.rear[0]}
