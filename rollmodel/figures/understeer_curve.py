"""Understeer angle against lateral acceleration, before and after a change, and both ends' limits."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.figures import marks
from rollmodel.physics.balance import limits, understeer_angle, understeer_gradient
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.units import label, show, to_display

ENDS = ("front", "rear")
_POINTS = 1 - (1 - np.linspace(0, 1, 60)) ** 2  # closer together towards the limit, where the curve bends


@dataclass(frozen=True)
class Curve:
    """One setup: the curve up to the car's limit, its slope, and what each end can hold."""

    acceleration: np.ndarray  # m/s^2
    angle: np.ndarray  # rad
    gradient: float  # at 0.3 g, rad/(m/s^2)
    front: float  # limit, m/s^2; nan where the car rolls over first
    rear: float
    end: str  # "front", "rear" or "rollover"

    @property
    def limit(self) -> float:
        return float(self.acceleration[-1])

    def limit_of(self, end: str) -> float:
        return {"front": self.front, "rear": self.rear}[end]


@dataclass(frozen=True)
class Change:
    before: Curve
    after: Curve
    reach: float  # where the scale of lateral acceleration ends, m/s^2
    span: tuple[float, float]  # of the scale of understeer angle, rad


def curve(car: Car, front: AxleStiffness | None = None, rear: AxleStiffness | None = None,
          driven: bool = False) -> Curve:
    """The curve of one setup, up to the smaller of the two limits."""
    held = limits(car, front, rear, driven)
    acceleration = float(held.lower) * _POINTS * (1 - 1e-9)
    return Curve(acceleration, understeer_angle(car, acceleration, front, rear, driven),
                 float(understeer_gradient(car, 0.3 * GRAVITY, front, rear, driven)),
                 float(held.front), float(held.rear), str(held.end))


@lru_cache(maxsize=32)
def room_for(car: Car, driven: bool = False) -> tuple[float, tuple[float, float]]:
    """Scales that hold the curve of every hole of a car: reach [m/s^2] and span [rad]."""
    ends = [{1, axle.positions} if axle.bar else {None} for axle in (car.front, car.rear)]
    curves = [curve(car, axle_stiffness(car.front, front), axle_stiffness(car.rear, rear), driven)
              for front, rear in product(*ends)]
    low, high = min(c.angle.min() for c in curves), max(c.angle.max() for c in curves)
    margin = 0.12 * max(high - low, np.radians(1.0))
    reach = np.nanmax([(c.front, c.rear) for c in curves] + [(c.limit, c.limit) for c in curves])
    return 1.04 * float(reach), (float(low - margin), float(high + margin))


def compare(car: Car, before: tuple, after: tuple, driven: bool = False, room=None) -> Change:
    """Two setups of a car, each as (front, rear) stiffness; scales by :func:`room_for` when left out."""
    return Change(curve(car, *before, driven), curve(car, *after, driven), *(room or room_for(car, driven)))


def draw(ax_or_figure, change: Change, look, family="metric") -> marks.Drawing:
    """Lay out curve and limits one above the other; scales are those of this result and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    marks.frame(drawing.ax, look, left=4.6)
    drawing.ax.set_axis_off()
    tall = marks.size_in_points(drawing.ax)[1] / look.font_size
    part = 3.4 / tall  # two rows of limits
    upper, lower = (marks.inset(drawing.ax, place) for place in ((0, part, 1, 1 - part), (0, 0, 1, part)))
    marks.scales(upper, look, "", f"understeer angle ({label('angle', family)})")
    marks.scales(lower, look, f"lateral acceleration ({label('lateral acceleration', family)})")
    reach = to_display(change.reach, "lateral acceleration", family)
    upper.set(xlim=(0, reach), ylim=np.degrees(change.span), xticklabels=[])
    upper.axhline(0, color=marks.GREY, linewidth=look.line_width / 2, zorder=0.6)
    upper.spines["bottom"].set_visible(False)
    upper.tick_params(bottom=False)
    lower.set(xlim=(0, reach), ylim=(0, 2), yticks=[])
    drawing.fixed.update(upper=upper, lower=lower)
    _add_artists(drawing)
    update(drawing, change)
    return drawing


def _add_artists(drawing):
    look, parts, upper, lower = drawing.look, drawing.parts, drawing.fixed["upper"], drawing.fixed["lower"]
    parts["before"] = marks.stroke(upper, look, thickness=0.7, linestyle=(0, (5, 2)), zorder=3)
    parts["after"] = marks.stroke(upper, look, thickness=1.2, zorder=4)
    for name in ("before", "after"):
        parts[f"{name} word"] = marks.words(upper, look, text=name, ha="right")
        parts[f"{name} end"] = marks.dots(upper, look, hollow=name == "before")
    parts["guess"] = marks.stroke(upper, look, "guess", zorder=3.5, visible=False)
    parts["guess word"] = marks.words(upper, look, role="guess", text="your guess", va="bottom", ground=None,
                                      visible=False)
    for row, end in zip((1.45, 0.5), ENDS, strict=True):
        drawing.fixed[end] = row
        parts[f"{end} before"] = marks.dots(lower, look, end, hollow=True)
        parts[f"{end} after"] = marks.dots(lower, look, end, zorder=5.1)
        parts[f"{end} words"] = marks.words(lower, look, y=row, role=end, small=True, ha="right")


def update(drawing: marks.Drawing, change: Change) -> None:
    """Move curves and limits to another pair of setups; scales stay as drawn."""
    for name, one in (("before", change.before), ("after", change.after)):
        x, y = to_display(one.acceleration, "lateral acceleration", drawing.family), np.degrees(one.angle)
        drawing[name].set_data(x, y)
        drawing[f"{name} end"].set_data(x[-1:], y[-1:])
    _name_curves(drawing)
    _name_guess(drawing)
    for end in ENDS:
        _limit_row(drawing, change, end)


def _name_curves(drawing):
    """The two words beside the curves' ends, moved apart where they would touch; one where they agree."""
    upper, look = drawing.fixed["upper"], drawing.look
    names = sorted(("before", "after"), key=lambda name: drawing[name].get_ydata()[-1])
    ends = [np.array(drawing[name].get_data())[:, -1] for name in names]
    line = marks.up(upper, 1.3 * look.font_size)
    x = min(end[0] for end in ends) - marks.across(upper, 0.4 * look.font_size + 2 * look.line_width)
    wanted = [_clear_of_curve(drawing, name, x, way * line) for name, way in zip(names, (-1, 1), strict=True)]
    for name, y in zip(names, marks.spread(wanted, [line, line], *upper.get_ylim(), 0), strict=True):
        marks.say(drawing[f"{name} word"], name, x, y)
    same = np.allclose(drawing["before"].get_data(), drawing["after"].get_data(), rtol=0, atol=1e-9)
    drawing["before word"].set_visible(not same)
    if same:
        marks.say(drawing["after word"], "before and after", y=_clear_of_curve(drawing, "after", x, line))


def _clear_of_curve(drawing, name, x, step):
    """Height of a curve's end, or a step beside it where the curve comes in too level for a word there."""
    xs, ys = drawing[name].get_data()
    level = abs(np.interp(x - marks.across(drawing.fixed["upper"], drawing.look.font_size), xs, ys) - ys[-1])
    return ys[-1] + (step if level < 0.7 * abs(step) else 0.0)


def _limit_row(drawing, change, end):
    row, family = drawing.fixed[end], drawing.family
    held = [one.limit_of(end) for one in (change.before, change.after)]
    shown = [to_display(value, "lateral acceleration", family) for value in held]
    for name, x in zip(("before", "after"), shown, strict=True):
        drawing[f"{end} {name}"].set_data([x], [row])
    lower, look = drawing.fixed["lower"], drawing.look
    left = np.nanmin([*shown, lower.get_xlim()[1]])
    gap = marks.across(lower, 0.4 * look.font_size + 2 * look.line_width)
    marks.say(drawing[f"{end} words"], f"{end} gives up at {_from_to(held, family)}", left - gap)


def _from_to(held, family):
    texts = [show(v, "lateral acceleration", family) if np.isfinite(v) else "no point" for v in held]
    return texts[0] if texts[0] == texts[1] else f"{texts[0]}, now {texts[1]}"


def mark(drawing: marks.Drawing, gradient: float | None) -> None:
    """Draw a predicted understeer gradient as a straight line from nil, [rad/(m/s^2)]; None hides it."""
    line, word, upper = drawing["guess"], drawing["guess word"], drawing.fixed["upper"]
    for artist in (line, word):
        artist.set_visible(gradient is not None)
    if gradient is not None:
        slope = np.degrees(gradient) * GRAVITY
        low, high = upper.get_ylim()
        far = min(upper.get_xlim()[1], *([(high if slope > 0 else low) / slope] if slope else []))
        line.set_data([0, far], [0, far * slope])
        _name_guess(drawing)


def _name_guess(drawing):
    """The words above the predicted line, clear of both curves."""
    upper, word = drawing.fixed["upper"], drawing["guess word"]
    if not word.get_visible():
        return
    far, end = (values[-1] for values in drawing["guess"].get_data())
    x, half = 0.55 * far, marks.width_of(word) / 2
    if x < half:  # a steep line leaves no room above it: beside its end
        level = end - marks.up(upper, 1.4 * drawing.look.font_size if end > 0 else 0)
        word.set_position((far + half + marks.across(upper, drawing.look.font_size), level))
        return
    tops = [np.max(np.interp([x - half, x, x + half], *drawing[name].get_data()))
            for name in ("guess", "before", "after")]
    word.set_position((x, max(tops) + marks.up(upper, 0.3 * drawing.look.font_size)))


def describe(change: Change, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def one(name, setup):
        first = "the car rolls over first" if setup.end == "rollover" else (
            f"the {setup.end} gives up first at {show(setup.limit, 'lateral acceleration', family)}")
        return f"{name} {show(setup.gradient, 'understeer gradient', family)} at 0.3 g and {first}"

    same = np.allclose([change.before.limit, change.before.gradient],
                       [change.after.limit, change.after.gradient])
    both = one("the slope is", change.after) if same else (
        f"{one('before, the slope is', change.before)}; {one('after,', change.after)}")
    return f"Understeer angle against lateral acceleration: {both}."
