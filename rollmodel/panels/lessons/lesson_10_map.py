"""Lesson 10's map: every pair of holes at once, and where the car stands on it."""

from __future__ import annotations

from functools import lru_cache

from rollmodel.car import Car
from rollmodel.figures import hole_map
from rollmodel.panels.controls import Hole, Switch
from rollmodel.panels.panel import Panel
from rollmodel.physics.balance import Limits, limits
from rollmodel.physics.stiffness import stiffness_of_every_hole

ENDS = ("front", "rear")


@lru_cache(maxsize=16)
def _limits(car: Car, driven: bool) -> Limits:
    """The limits of every pair: asked for again at each press, worked out once."""
    return limits(car, *stiffness_of_every_hole(car), driven)


class MapPanel(Panel):
    """What the car holds at every pair of holes; the frame moves with the holes chosen."""

    name = "map"
    title = "Every pair of holes: what the car holds, and which end gives up first"

    @property
    def low(self):
        """Both bars at their softest."""
        return dict.fromkeys(self._bars(), 1)

    @property
    def high(self):
        """Both at their stiffest."""
        return {end: self.car.axle(end).positions for end in self._bars()}

    def _bars(self):
        return [end for end in ENDS if self.car.axle(end).bar]

    def controls(self):
        holes = [Hole.of(end, f"{end.capitalize()} bar", self.car.axle(end).bar) for end in self._bars()]
        return [*holes, Switch("driven", "Count the force that holds the speed")]

    def compute(self, values):
        fitted = (getattr(values, end, None) for end in ENDS)
        return hole_map.from_limits(self.car, _limits(self.car, values.driven), *fitted, values.driven)

    def draw(self, figure, chart):
        return hole_map.draw(figure, chart, self.look, self.family)

    def update(self, artists, chart):
        hole_map.update(artists, chart)

    def describe(self, chart):
        return f"{self.car.title}. {hole_map.describe(chart, self.family)}"
