"""How far the body rolls, and how much load moves at each end, as two rows side by side with their scales."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.car import Car
from rollmodel.figures import guess, marks
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import AxleStiffness
from rollmodel.units import label, show, to_display

ENDS = ("front", "rear")


@dataclass(frozen=True)
class RollAndLoad:
    """A settled corner."""

    lateral_acceleration: float  # m/s^2
    roll: float  # rad
    moved: tuple[float, float]  # front and rear, N
    most_roll: float  # where its scale ends, rad
    most_load: float  # where its scale ends, N

    @property
    def total(self) -> float:
        """Load moved at both ends together, [N]."""
        return sum(self.moved)


def in_corner(car: Car, lateral_acceleration: float, front: AxleStiffness, rear: AxleStiffness,
              most_roll: float, most_load: float) -> RollAndLoad:
    """A car in a settled corner; lateral acceleration in [m/s^2], single setups, scales in [rad] and [N]."""
    corner = settled_corner(car, lateral_acceleration, front, rear)
    return RollAndLoad(lateral_acceleration, float(corner.roll_angle),
                       tuple(float(corner.axle(end).load_transfer) for end in ENDS), most_roll, most_load)


def draw(ax_or_figure, scene: RollAndLoad, look, family="metric") -> marks.Drawing:
    """Lay out both rows; their scales stay."""
    drawing = marks.start(ax_or_figure, look, family)
    marks.frame(drawing.ax, look, left=6.4, right=1.6, bottom=1.8, top=0.6)
    upper, lower = marks.split(drawing.ax, 2, 0.4)
    for ax, kind, most, words in ((upper, "angle", scene.most_roll, "body roll"),
                                  (lower, "load", scene.most_load, "load moved")):
        marks.scales(ax, look)
        ax.set(xlim=(0, to_display(most, kind, family)), ylim=(0, 1), yticks=[0.5])
        ax.set_yticklabels([f"{words}\n({label(kind, family)})"], fontsize=look.font_size)
        ax.tick_params(axis="y", length=0)
    drawing.fixed.update(upper=upper, lower=lower)
    parts = drawing.parts
    parts["roll"] = marks.face(upper, look, marks.tint(look.colours["plain"], 0.35), zorder=2)
    for end in ENDS:
        parts[end] = marks.face(lower, look, marks.tint(look.colours[end], 0.45), zorder=2)
    parts["guess"] = marks.stroke(lower, look, "guess", zorder=3, visible=False)
    parts["roll word"] = marks.words(upper, look, y=0.5, ha="left")
    for end in ENDS:
        parts[f"{end} word"] = marks.words(lower, look, y=0.5, small=True, ground=None)
    parts["total word"] = marks.words(lower, look, y=0.5, ha="left")
    parts["guess word"] = marks.words(lower, look, y=1.12, role="guess", text="your guess", small=True,
                                      visible=False)
    update(drawing, scene)
    return drawing


def update(drawing: marks.Drawing, scene: RollAndLoad) -> None:
    """Another corner or setup; scales stay as drawn."""
    family, upper, lower = drawing.family, drawing.fixed["upper"], drawing.fixed["lower"]
    gap = 0.5 * drawing.look.font_size
    roll = to_display(scene.roll, "angle", family)
    drawing["roll"].set_xy(marks.box(roll / 2, 0.5, roll, 0.8))
    marks.say(drawing["roll word"], show(scene.roll, "angle", family), roll + marks.across(upper, gap))
    start = 0.0
    for end, load in zip(ENDS, scene.moved, strict=True):
        wide = to_display(load, "load", family)
        drawing[end].set_xy(marks.box(start + wide / 2, 0.5, wide, 0.8))
        marks.say(drawing[f"{end} word"], f"{end} {show(load, 'load', family)}", start + wide / 2)
        drawing[f"{end} word"].set_visible(bool(marks.width_of(drawing[f"{end} word"]) < 0.94 * wide))
        start += wide
    marks.say(drawing["total word"], show(scene.total, "load", family), start + marks.across(lower, gap))


def mark(drawing: marks.Drawing, total: float | None) -> None:
    """Draw a predicted total of the load moved as an upright line, [N]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(total is not None)
    if total is not None:
        lower = drawing.fixed["lower"]
        right = lower.get_xlim()[1]
        where = guess.place(to_display(total, "load", drawing.family), (0, right))
        guess.upright(drawing["guess"], where, 0, 1)
        marks.say(drawing["guess word"], guess.words(where, total, "load", drawing.family))
        half = marks.width_of(drawing["guess word"]) / 2
        drawing["guess word"].set_x(float(np.clip(where.at, half, right - half)))


def describe(scene: RollAndLoad, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    front, rear, total = (show(value, "load", family) for value in (*scene.moved, scene.total))
    at = show(scene.lateral_acceleration, "lateral acceleration", family, 2)
    return (f"At {at} the body rolls {show(scene.roll, 'angle', family)}, and {total} of load moves from the "
            f"inside to the "
            f"outside wheels: {front} at the front and {rear} at the rear.")
