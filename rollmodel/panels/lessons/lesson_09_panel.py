"""Lesson 9's panel: both ends' grip against their own stiffness, and the whole car made softer or stiffer."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from rollmodel.advice import CLASS_FIGURES, Thresholds
from rollmodel.advice.window import factors_for, times_as_stiff, window
from rollmodel.car import Car
from rollmodel.figures import softness
from rollmodel.figures import window as chart
from rollmodel.panels.controls import Hole, Slider, Switch
from rollmodel.panels.ends import ENDS, place
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics.balance import limits
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.reports.choice import place as with_number

G = "lateral acceleration"
MOST_ROLL = 1.3 * CLASS_FIGURES["passenger"][1]  # a car softer still is not looked at


@lru_cache(maxsize=128)
def held_by(car: Car):
    """What each end can hold, worked out once for a setup."""
    return limits(car)


@lru_cache(maxsize=32)
def shown_range(car: Car, end: str) -> tuple[float, float]:
    """The roll stiffnesses of one end that a curve shows: from far softer than the car to far stiffer,
    [N*m/rad]."""
    axle = car.axle(end)
    now, most = (float(axle_stiffness(axle, hole).total_roll) for hole in (None, axle.positions or None))
    return 0.2 * now, min(2.6 * most, 0.85 * float(axle_stiffness(axle).tyre_roll))


@lru_cache(maxsize=128)
def curve_of(car: Car, end: str, reach: tuple[float, float]):
    """One end's curve, worked out once for a setup: a slider comes back to where it was."""
    return softness.regimes_at_limit(car, end, held_by(car), reach)


class SoftnessPanel(Panel):
    """Holes, the whole car's stiffness and camber; each end's top moves, and so does the car in its
    window."""

    name = "softness"
    title = "Too soft, too stiff: where a stiffer end gains grip, and where it loses"

    def __init__(self, lesson=None):
        super().__init__(lesson)
        self.widget.add_class("rm-wide")

    @property
    def size(self):
        return softness.size(self.look)

    @property
    def low(self):
        return {"stiff": self._factors()[0]}

    @property
    def high(self):
        return {"stiff": self._factors()[-1]}

    def controls(self):
        holes = [
            Hole.of(f"{end}_hole", f"{end.capitalize()} {place(self.car.axle(end))}", self.car.axle(end).bar)
            for end in ENDS
            if self.car.axle(end).bar
        ]
        factors = self._factors()
        return [
            *holes,
            Slider(
                "stiff",
                "Springs and bars, times as stiff",
                "ratio",
                factors[0],
                factors[-1],
                1.0,
                steps=(0.05, 0.05),
            ),
            Switch("lean", "Tyres lean with the body", True),
        ]

    def compute(self, values):
        car = self._setup(values)
        now, factors = times_as_stiff(car, values.stiff), self._factors()
        return softness.Scene(
            *(curve_of(now, end, shown_range(self.car, end)) for end in ENDS),
            chart.of_window(window(car, factors), values.stiff, MOST_ROLL),
            {end: softness.limit_of(held_by(now), end) for end in ENDS},
        )

    def draw(self, figure, result):
        return softness.draw(figure, result, self.look, self.family)

    def update(self, artists, result):
        softness.update(artists, result)

    def describe(self, result):
        return softness.describe(result, self.family)

    def prediction(self):
        """One hole at the front, and what it does to the front's own limit."""
        if self._step() is None:
            return None
        end, hole = self._step()
        axle = self.car.axle(end)
        direction = "stiffer" if hole > axle.hole else "softer"
        return Prediction(
            question=f"The {end} bar goes from {with_number(self.car, end, axle.hole)} to "
            f"{with_number(self.car, end, hole)}, one step {direction}. What does the lateral acceleration "
            f"that the {end} itself can hold do?",
            noun=f"limit of the {end}",
            kind=G,
            quantity=lambda scene: scene.limits[end],
            before={},
            after={f"{end}_hole": hole},
            same=Thresholds().own_end_gain,
        )

    def mark(self, artists, guess):
        end = self._step()[0] if self._step() else "front"
        softness.mark(artists, end, None if guess is None else guess * self.car.axle_mass(end))

    def _step(self):
        """The next hole at the end that can be moved, stiffer before softer; None where there is none."""
        free = (
            (end, self.car.axle(end).hole + step)
            for step in (1, -1)
            for end in ENDS
            if self.car.axle(end).bar
        )
        return next(((end, hole) for end, hole in free if 1 <= hole <= self.car.axle(end).positions), None)

    def _factors(self):
        return factors_for(self.car, MOST_ROLL)

    def _setup(self, values):
        """The car on the holes chosen, and with its tyres upright all the way when they do not lean."""
        car = self.car.with_holes(*(getattr(values, f"{end}_hole", None) for end in ENDS))
        if values.lean:
            return car
        return replace(car, **{end: replace(car.axle(end), camber_recovery=None) for end in ENDS})
