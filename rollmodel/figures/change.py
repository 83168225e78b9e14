"""One change of a bar in one picture: the four wheel loads, both pairs of tyres, and both limits.

Three pictures that exist on their own, laid out so that they are seen together: the car from above,
below it what each end can hold, beside them the grip-load curve. No car is drawn in a corner that it
cannot hold: then loads and pairs are those of its limit, and both pictures say so.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rollmodel.adding_up import shown_apart
from rollmodel.car import GRAVITY, Car
from rollmodel.figures import before_after, car_above, grip_load, limit_lines, several
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.units import show

ENDS = ("front", "rear")
G = "lateral acceleration"
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
        """Whether the setup can hold the corner that was asked for."""
        return self.loads.asked is None


def in_corner(car: Car, lateral_acceleration: float, holes: tuple, limits: limit_lines.Change) -> Scene:
    """The car on a pair of holes in a corner of a lateral acceleration [m/s^2]; limits found already.

    Where the car cannot hold the corner it is drawn at its limit.
    """
    setup = axle_stiffness(car.front, holes[0]), axle_stiffness(car.rear, holes[1])
    most = limits.after.lower
    at = min(lateral_acceleration, most)
    loads, pairs = (part.in_corner(car, at, *setup) for part in (car_above, grip_load))
    if lateral_acceleration > most:
        loads, pairs = replace(loads, asked=lateral_acceleration), replace(pairs, limit=most)
    return Scene(loads, pairs, limits)


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

    corner = f"In a left-hand corner at {show(scene.loads.lateral_acceleration, G, family)} the wheels carry"
    if not scene.held:
        asked, most, _ = shown_apart(scene.loads.asked, scene.loads.lateral_acceleration, G, family)
        corner = f"It cannot hold {asked}, so the picture is drawn at its limit: at {most} the wheels carry"
    wheels = " and ".join(
        f"{end} {_inside(scene.loads, n, load, family)} inside, "
        f"{load(scene.loads.shown(n, family)[1])} outside"
        for n, end in enumerate(ENDS)
    )
    losses = " and ".join(f"the {end} pair {load(scene.pairs.loss(end))}" for end in ENDS)
    return (
        f"{limit_lines.describe(scene.limits, family)} {corner}, {wheels}. "
        f"Sharing it unevenly costs {losses} of peak side force."
    )


def _inside(loads, n, load, family):
    return "0 (off the ground)" if loads.lifted[n] else load(loads.shown(n, family)[0])
