"""One change of a bar in one picture: the four wheel loads, both pairs of tyres, and both limits.

Three pictures that exist on their own, laid out so that they are seen together: the car from above,
below it what each end can hold, beside them the grip-load curve.
"""

from __future__ import annotations

from dataclasses import dataclass

from rollmodel.car import GRAVITY, Car
from rollmodel.figures import before_after, car_above, grip_load, limit_lines, several
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.units import show

ENDS = ("front", "rear")
PLACES = {"loads": (0.0, 0.473, 0.5, 0.527), "limits": (0.0, 0.0, 0.5, 0.473), "pairs": (0.5, 0.0, 0.5, 1.0)}
PARTS = {"loads": car_above, "limits": limit_lines, "pairs": grip_load}


@dataclass(frozen=True)
class Scene:
    """A setup in a corner, and what it can hold beside the setup before the change."""

    loads: car_above.CarScene
    pairs: grip_load.Pairs
    limits: limit_lines.Change

    @property
    def held(self) -> bool:
        """Whether the setup can hold the corner that is shown."""
        return self.loads.lateral_acceleration <= self.limits.after.lower


def in_corner(car: Car, lateral_acceleration: float, holes: tuple, limits: limit_lines.Change) -> Scene:
    """The car on a pair of holes in a corner of a lateral acceleration [m/s^2]; limits found already."""
    setup = axle_stiffness(car.front, holes[0]), axle_stiffness(car.rear, holes[1])
    return Scene(
        car_above.in_corner(car, lateral_acceleration, *setup),
        grip_load.in_corner(car, lateral_acceleration, *setup),
        limits,
    )


def limits_of(before, now, every) -> limit_lines.Change:
    """What two readings can hold, on a scale that holds every reading given."""
    held = [value for one in every for value in (one.held("front"), one.held("rear"))]
    margin = max(0.2 * (max(held) - min(held)), 0.01 * GRAVITY)
    levels = (
        before_after.Levels(one.front.limit, one.rear.limit, one.limit, one.limit_end)
        for one in (before, now)
    )
    return limit_lines.Change(*levels, (min(held) - margin, max(held) + margin))


def size(look) -> tuple[float, float]:
    """Width and height that give every word its room, [inch]."""
    return (15.2, 7.4) if look.projector else (9.55, 4.65)


def draw(figure, scene: Scene, look, family="metric") -> several.Drawing:
    """Lay out all three; scales are those of this scene and stay."""
    return several.draw(figure, scene, PLACES, PARTS, look, family)


def update(drawing: several.Drawing, scene: Scene) -> None:
    """Another setup of the same car, or another corner."""
    for name, part in PARTS.items():
        part.update(drawing.parts[name], getattr(scene, name))


def mark(drawing: several.Drawing, end: str, limit: float | None) -> None:
    """Draw a predicted limit of one end, [m/s^2]; None hides it."""
    limit_lines.mark(drawing.parts["limits"], end, limit)


def describe(scene: Scene, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""

    def load(value):
        return show(value, "load", family)

    speed = show(scene.loads.lateral_acceleration, "lateral acceleration", family)
    beyond = "" if scene.held else " That is more than it can hold."
    wheels = " and ".join(
        f"{end} {_inside(scene.loads, n, load, family)} inside, "
        f"{load(scene.loads.shown(n, family)[1])} outside"
        for n, end in enumerate(ENDS)
    )
    losses = " and ".join(f"the {end} pair {load(scene.pairs.loss(end))}" for end in ENDS)
    return (
        f"{limit_lines.describe(scene.limits, family)} In a left-hand corner at {speed} the wheels carry, "
        f"{wheels}.{beyond} Sharing it unevenly costs {losses} of peak side force."
    )


def _inside(loads, n, load, family):
    return "0 (off the ground)" if loads.lifted[n] else load(loads.shown(n, family)[0])
