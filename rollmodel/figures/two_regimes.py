"""An axle's grip against its own roll stiffness: where stiffer gains, where it loses, where the car is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.car import Car
from rollmodel.figures import guess, marks
from rollmodel.figures.kind_of_top import KindOfTop
from rollmodel.figures.moving_scale import MovingScale
from rollmodel.physics.regimes import axle_grip_against_stiffness, crossing, hand_axle
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.units import label, show, to_display

_POINTS = 80
_NO_CHANGE = 1e-5  # relative; a smaller change of grip is none


@dataclass(frozen=True)
class Regimes:
    """Grip of one axle over its roll stiffness, the rest of the car left alone."""

    end: str
    stiffness: np.ndarray  # N*m/rad, ascending
    grip: np.ndarray  # most side force of the axle, N; nan where the car rolls over
    top: float | None  # stiffness with the most grip, N*m/rad; None when that is not in the range
    now: float  # the car's own stiffness at this end, N*m/rad
    by_hand: float | None  # stiffness at the top as worked out on paper, N*m/rad
    reach: tuple[float, float]  # scale of stiffness, N*m/rad
    span: tuple[float, float]  # scale of grip, N
    kind: KindOfTop | None = None  # of the top, where that has been looked at

    @property
    def grip_now(self) -> float:
        return float(np.interp(self.now, self.stiffness, self.grip))

    @property
    def gains(self) -> bool:
        """Whether a stiffer setting raises this end's grip where the car is now."""
        step = 0.01 * (self.stiffness[-1] - self.stiffness[0])
        before, after = np.interp([self.now - step, self.now + step], self.stiffness, self.grip)
        return bool(after > before)


def of_car(car: Car, end: str, lateral_acceleration: float, low: float, high: float,
           hole: int | None = None, span=None) -> Regimes:
    """One end of a car with its roll stiffness varied.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float
        At which loads and roll are taken, [m/s^2].
    low, high : float
        The range of roll stiffness, [N*m/rad].
    hole : int, optional
        Where the car is now, counted from 1; the fitted one when left out.
    span : pair of float, optional
        Scale of grip; made to fit when left out, [N].
    """
    stiffness = np.linspace(low, high, _POINTS)
    return of_arrays(end, stiffness, axle_grip_against_stiffness(car, end, lateral_acceleration, stiffness),
                     crossing(car, end, lateral_acceleration, low, high),
                     float(axle_stiffness(car.axle(end), hole).total_roll),
                     hand_axle(car, end, lateral_acceleration).stiffness_at_top, span)


def of_arrays(end: str, stiffness, grip, top: float | None, now: float, by_hand: float | None = None,
              span=None) -> Regimes:
    """Arrays on a scale of their own unless one is given; SI, see :class:`Regimes`."""
    stiffness, grip = np.asarray(stiffness, float), np.asarray(grip, float)
    low, high = float(np.nanmin(grip)), float(np.nanmax(grip))
    room = max(high - low, 0.01 * high)
    return Regimes(end, stiffness, grip, top, now, by_hand, (float(stiffness[0]), float(stiffness[-1])),
                   span or (low - 0.25 * room, high + 0.3 * room))


def draw(ax_or_figure, regimes: Regimes, look, family="metric") -> marks.Drawing:
    """Lay out the curve; the scale of stiffness is that of this result and stays."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=5.4, right=1.6, top=2.4)
    marks.scales(ax, look, f"whole {regimes.end} axle's roll stiffness ({label('roll stiffness', family)})",
                 f"its most side force ({label('load', family)})")
    ax.set_xlim(_stiff(np.array(regimes.reach), family))
    scale = drawing.fixed["grip"] = MovingScale(ax, look)
    parts["grip numbers"], parts["grip ticks"] = scale.numbers, scale.ticks
    parts["curve"] = marks.stroke(ax, look, regimes.end, linestyle="-", zorder=3)
    parts["top line"] = marks.stroke(ax, look, thickness=0.5, zorder=2)
    parts["formula line"] = marks.stroke(ax, look, thickness=0.7, linestyle=(0, (4, 2)), zorder=2.1)
    parts["guess"] = marks.stroke(ax, look, "guess", zorder=2.2, visible=False)
    parts["now"] = marks.dots(ax, look, regimes.end, size=4.5)
    parts["top"] = marks.words(ax, look, y=ax.get_ylim()[1] + marks.up(ax, 1.2 * look.font_size))
    parts["gains"] = marks.words(ax, look, text="stiffer\ngains grip", small=True, zorder=2.5)
    parts["loses"] = marks.words(ax, look, text="stiffer\nloses grip", small=True, zorder=2.5)
    parts["formula word"] = marks.words(ax, look, small=True, va="bottom")
    parts["now word"] = marks.words(ax, look)
    parts["guess word"] = marks.words(ax, look, role="guess", text="your guess", visible=False)
    update(drawing, regimes)
    return drawing


def _stiff(value, family):
    return to_display(value, "roll stiffness", family)


def update(drawing: marks.Drawing, regimes: Regimes) -> None:
    """Another curve of the same end; the scale of stiffness stays as drawn, that of grip follows."""
    family, ax = drawing.family, drawing.ax
    drawing.fixed["grip"].set(*to_display(np.array(regimes.span), "load", family))
    drawing["curve"].set_data(_stiff(regimes.stiffness, family), up_the_scale(drawing, regimes.grip))
    _verticals(drawing, regimes)
    _sides(drawing, regimes)
    x, y = _stiff(regimes.now, family), up_the_scale(drawing, regimes.grip_now)
    drawing["now"].set_data([x], [y])
    left, right = ax.get_xlim()
    marks.say(drawing["now word"], "car now", x, y - marks.up(ax, 1.3 * drawing.look.font_size))
    _keep_inside(drawing["now word"], (left, right))


def up_the_scale(drawing: marks.Drawing, grip):
    """Where a side force stands on the upright scale, from 0 at its bottom to 1 at its top; [N]."""
    return drawing.fixed["grip"].place(to_display(grip, "load", drawing.family))


def _keep_inside(text, limits):
    half = marks.width_of(text) / 2
    text.set_x(float(np.clip(text.get_position()[0], limits[0] + half,
                             max(limits[1] - half, limits[0] + half))))


def _verticals(drawing, regimes):
    """The line at the top of the curve, and the one worked out on paper."""
    ax, family = drawing.ax, drawing.family
    left, right = ax.get_xlim()
    for name, value in (("top line", regimes.top), ("formula line", regimes.by_hand)):
        x = np.nan if value is None else _stiff(value, family)
        drawing[name].set_data([x, x], ax.get_ylim())
        drawing[name].set_visible(bool(left <= x <= right))
    text = "no top in this range" if regimes.top is None else f"most grip at {_words(regimes.top, family)}"
    middle = (left + right) / 2
    marks.say(drawing["top"], text, middle if regimes.top is None else _stiff(regimes.top, family))
    _keep_inside(drawing["top"], (left, right))
    drawing["formula word"].set_visible(regimes.by_hand is not None)
    if regimes.by_hand is not None:
        _name_formula(drawing, _stiff(regimes.by_hand, family), _words(regimes.by_hand, family))


def _name_formula(drawing, x, stiffness):
    ax = drawing.ax
    left, right = ax.get_xlim()
    off = "" if left <= x <= right else ", off the scale"
    marks.say(drawing["formula word"], f"by hand {stiffness}{off}",
              y=ax.get_ylim()[0] + marks.up(ax, 0.4 * drawing.look.font_size))
    _beside(drawing["formula word"], float(np.clip(x, left, right)))


def _beside(text, x):
    """Put a text to the right of an upright line, or to its left where the axes end first."""
    gap, wide = marks.across(text.axes, text.get_fontsize() / 2), marks.width_of(text)
    room = x + gap + wide < text.axes.get_xlim()[1]
    text.set(x=x + gap if room else x - gap, ha="left" if room else "right")


def _words(stiffness, family):
    return show(stiffness, "roll stiffness", family)


def _sides(drawing, regimes):
    """Which way grip goes on either side of the top, where there is room to say it."""
    ax = drawing.ax
    left, right = ax.get_xlim()
    seen = regimes.grip[np.isfinite(regimes.grip)]
    rising = seen[-1] > seen[0]
    border = (right if rising else left) if regimes.top is None else _stiff(regimes.top, drawing.family)
    y = ax.get_ylim()[1] - marks.up(ax, 1.4 * drawing.look.font_size)
    for name, (low, high) in (("gains", (left, border)), ("loses", (border, right))):
        text = drawing[name]
        text.set_position(((low + high) / 2, y))
        room = bool(marks.width_of(text) < 0.9 * (high - low))
        text.set_visible(room and _bends(drawing, regimes, low, high))


def _bends(drawing, regimes, low, high) -> bool:
    """Whether grip changes at all there: not at an end whose inside wheel is up."""
    stiffness = _stiff(regimes.stiffness, drawing.family)
    grip = regimes.grip[(stiffness >= low) & (stiffness <= high) & np.isfinite(regimes.grip)]
    return bool(len(grip) and np.ptp(grip) > _NO_CHANGE * grip[0])


def mark(drawing: marks.Drawing, stiffness: float | None) -> None:
    """Draw a predicted top as an upright line, [N*m/rad]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(stiffness is not None)
    if stiffness is not None:
        where = guess.place(_stiff(stiffness, drawing.family), drawing.ax.get_xlim())
        low, high = drawing.ax.get_ylim()
        guess.upright(drawing["guess"], where, low, high, head=low + 0.2 * (high - low))
        marks.say(drawing["guess word"], guess.words(where, stiffness, "roll stiffness", drawing.family),
                  y=low + 0.3 * (high - low))
        _beside(drawing["guess word"], where.at)


def describe(regimes: Regimes, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    top = regimes.top
    where = "has no top in the range shown" if top is None else f"is largest at {_words(top, family)}"
    hand = "" if regimes.by_hand is None else f" (by hand {_words(regimes.by_hand, family)})"
    goes = "raises" if regimes.gains else "lowers"
    held = show(regimes.grip_now, "load", family)
    return (f"Grip of the {regimes.end} axle against its own roll stiffness {where}{hand}. The car now "
            f"stands at {_words(regimes.now, family)} with {held}: there a stiffer {regimes.end} {goes} its "
            "grip.")
