"""Too soft or too stiff in one picture: each end's grip against its own roll stiffness, and the car's
window."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.car import Car
from rollmodel.figures import guess, kind_of_top, marks, several, two_regimes, window
from rollmodel.physics.balance import Limits
from rollmodel.physics.regimes import axle_grip_against_stiffness, crossing, hand_axle
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.units import show

ENDS = ("front", "rear")
PLACES = {"front": (0.0, 0.44, 0.5, 0.56), "rear": (0.5, 0.44, 0.5, 0.56), "window": (0.0, 0.0, 1.0, 0.44)}
PARTS = {"front": two_regimes, "rear": two_regimes, "window": window}
LOOKS = 80  # stiffnesses tried along a curve


@dataclass(frozen=True)
class Scene:
    """Both ends' curves at the limit of each, and the window."""

    front: two_regimes.Regimes
    rear: two_regimes.Regimes
    window: window.Chart
    limits: dict[str, float]  # m/s^2


def limit_of(held: Limits, end: str) -> float:
    """What one end can hold, or the car just before it rolls over, [m/s^2]."""
    return float(np.fmin(getattr(held, end), 0.999 * held.rollover))


def regimes_at_limit(car: Car, end: str, held: Limits, reach: tuple[float, float]) -> two_regimes.Regimes:
    """One end's grip against its own roll stiffness, in the corner that is this end's limit."""
    at = limit_of(held, end)
    stiffness = np.linspace(*reach, LOOKS)
    now = float(axle_stiffness(car.axle(end)).total_roll)
    grip = axle_grip_against_stiffness(car, end, at, stiffness)
    top = crossing(car, end, at, *reach)
    found = two_regimes.of_arrays(
        end,
        stiffness,
        grip,
        top,
        now,
        hand_axle(car, end, at, refined=True).stiffness_at_top,
        _span(stiffness, grip, now),
    )
    return replace(found, kind=None if top is None else kind_of_top.of_top(car, end, at, top))


def _span(stiffness, grip, now):
    """A scale for the part of the curve that is worth seeing: not for a car about to roll over."""
    seen = grip[(stiffness > 0.55 * now) & np.isfinite(grip)]
    low, high = float(seen.min()), float(np.nanmax(grip))
    room = max(high - low, 0.002 * high)
    return low - 0.8 * room, high + 0.5 * room  # room for words below and above the curve


def size(look) -> tuple[float, float]:
    """Width and height that give every word its room, [inch]."""
    return (15.2, 7.6) if look.projector else (9.55, 4.75)


def draw(figure, scene: Scene, look, family="metric") -> several.Drawing:
    """Lay out all three."""
    drawing = several.draw(figure, scene, PLACES, PARTS, look, family)
    for end in ENDS:
        ax = drawing.parts[end].ax
        drawing.parts[end].parts["guess limit"] = marks.stroke(
            ax, look, "guess", thickness=1.2, visible=False
        )
        drawing.parts[end].parts["guess limit word"] = marks.words(
            ax, look, role="guess", text="your guess", small=True, ha="right", visible=False
        )
    return drawing


def update(drawing: several.Drawing, scene: Scene) -> None:
    """Another setup: grip keeps a scale of its own for each, or nothing of the top could be seen."""
    for name, part in PARTS.items():
        part.update(drawing.parts[name], getattr(scene, name))
    for end in ENDS:
        _place_guess(drawing.parts[end])


def mark(drawing: several.Drawing, end: str, force: float | None) -> None:
    """Draw a predicted most side force of one axle, [N]; None hides it."""
    part = drawing.parts[end]
    for name in ("guess limit", "guess limit word"):
        part[name].set_visible(force is not None)
    part.fixed["guess limit"] = force
    _place_guess(part)


def _place_guess(part):
    """The guess where it stands on the present scale of grip, or past its end."""
    force = part.fixed.get("guess limit")
    if force is None:
        return
    where = guess.place(float(two_regimes.up_the_scale(part, force)), (0, 1))
    (left, right), small = part.ax.get_xlim(), part.look.small
    guess.level(part["guess limit"], where, left, right, right - marks.across(part.ax, small))
    beside = where.at + marks.up(part.ax, 0.8 * small) * (1 if where.at < 0.5 else -1)
    # A long text stands between the curve and what was worked out by hand.
    level = marks.up(part.ax, 2.6 * small) if where.beyond else beside
    marks.say(part["guess limit word"], guess.words(where, force, "load", part.family), right, level)


def describe(scene: Scene, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    return " ".join(
        [
            *(_one(getattr(scene, end), scene.limits[end], family) for end in ENDS),
            window.describe(scene.window, family),
        ]
    )


def _one(regimes, limit, family):
    def stiff(value):
        return show(value, "roll stiffness", family)

    top = "has no top in the range shown" if regimes.top is None else f"is largest at {stiff(regimes.top)}"
    hand = "" if regimes.by_hand is None else f" (the {regimes.end}'s own, by hand {stiff(regimes.by_hand)})"
    kind = "" if regimes.kind is None else f", {kind_of_top.describe(regimes.kind, regimes.top, family)}"
    return (
        f"{regimes.end.capitalize()} axle at its limit of {show(limit, 'lateral acceleration', family)}, "
        f"coasting: grip {top}{hand}{kind}. The axle stands at {stiff(regimes.now)}, tyres included."
    )
