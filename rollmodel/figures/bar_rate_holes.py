"""Bar rate against lever length or blade angle: the curve, the positions there are, the one in use."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.car import Axle, Bar
from rollmodel.figures import guess, marks
from rollmodel.figures.moving_scale import MovingScale
from rollmodel.physics.bar import link_rates_in_roll
from rollmodel.physics.stiffness import bar_wheel_rates_in_roll
from rollmodel.units import label, show, to_display

_POINTS = 60


@dataclass(frozen=True)
class RateCurve:
    """Bar rate in roll over every lever or blade angle, and at the positions there are."""

    blade: bool
    at: str  # "link" or "wheel"
    setting: np.ndarray  # lever [m] or blade angle from flat [rad]
    rate: np.ndarray  # N/m
    settings: np.ndarray  # of the positions there are, softest first
    rates: np.ndarray
    chosen: int  # counted from 1
    ceiling: float  # where the scale of rates ends, N/m
    first: np.ndarray | None = None  # the same bar's rate at first, to compare with, N/m

    @property
    def kind(self) -> str:
        return "angle" if self.blade else "length"


def of_axle(axle: Axle, hole: int | None = None, at: str = "wheel",
            ceiling: float | None = None) -> RateCurve:
    """The bar of an axle.

    Parameters
    ----------
    axle : Axle
        With a bar.
    hole : int, optional
        Position in use, counted from 1; the axle's own when left out.
    at : {"wheel", "link"}
        Where the rate is taken; in roll either way.
    ceiling : float, optional
        Where the scale of rates ends, [N/m]; just above the curve when left out.
    """
    bar = axle.bar
    setting, fine = _every_setting(bar)
    rate, rates = (_rates(replace(axle, bar=one), at) for one in (fine, bar))
    return RateCurve(bar.blade is not None, at, setting, rate,
                     np.array(bar.blade.angles if bar.blade else bar.holes), rates, hole or bar.hole,
                     ceiling or 1.1 * float(rate.max()))


def _rates(axle: Axle, at: str) -> np.ndarray:
    return bar_wheel_rates_in_roll(axle) if at == "wheel" else link_rates_in_roll(axle.bar)


def _every_setting(bar: Bar):
    """Levers or angles in small steps, softest first, and the bar that has a position at each."""
    if bar.blade:
        angles = np.linspace(0, np.pi / 2, _POINTS)
        return angles, replace(bar, hole=1, blade=replace(bar.blade, angles=tuple(angles)))
    levers = np.linspace(1.08 * bar.holes[0], 0.92 * bar.holes[-1], _POINTS)
    along = None
    if bar.arm_lengths is not None:  # a swept arm: lengths in the same proportion between the holes
        ratio = np.interp(levers, bar.holes[::-1], np.divide(bar.arm_lengths, bar.holes)[::-1])
        along = tuple(levers * ratio)
    return levers, replace(bar, hole=1, holes=tuple(levers), arm_lengths=along)


def draw(ax_or_figure, curve: RateCurve, look, family="metric") -> marks.Drawing:
    """Lay out the curve; the scales are those of this result and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=4.8, top=2.4)
    where = f"rate at the {curve.at} in roll ({label('rate', family)})"
    what = "blade angle from flat" if curve.blade else "lever: bar axis to link"
    marks.scales(ax, look, f"{what} ({label(curve.kind, family)})", where)
    x = to_display(curve.setting, curve.kind, family)
    margin = 0.04 * np.ptp(x)
    ax.set_xlim(x.min() - margin, x.max() + margin)
    scale = drawing.fixed["rates"] = MovingScale(ax, look)
    parts["rate numbers"], parts["rate ticks"] = scale.numbers, scale.ticks
    parts["first"] = marks.stroke(ax, look, "bar", 0.5, linestyle=(0, (5, 2)), zorder=2.2)
    parts["first word"] = marks.words(ax, look, text="bar at the start", small=True, zorder=2.3)
    parts["curve"] = marks.stroke(ax, look, "bar", linestyle="-", zorder=3)
    parts["reading"] = marks.stroke(ax, look, thickness=0.4, linestyle=(0, (4, 2)), zorder=2)
    parts["positions"] = marks.dots(ax, look, "bar", hollow=True)
    parts["chosen"] = marks.dots(ax, look, "bar", size=4.5, zorder=5.1)
    parts["numbers"] = [marks.words(ax, look, small=True) for _ in curve.settings]
    parts["title"] = marks.outside(ax, look, "", (0.5, 1), (0, 1.3 * look.font_size))
    parts["guess"] = marks.stroke(ax, look, "guess", zorder=2.5, visible=False)
    parts["guess word"] = marks.words(ax, look, role="guess", text="your guess", visible=False)
    update(drawing, curve)
    return drawing


def update(drawing: marks.Drawing, curve: RateCurve) -> None:
    """Another bar or position, with as many positions as drawn; the scale of rates follows its ceiling."""
    drawing.fixed["rates"].set(0.0, to_display(curve.ceiling, "rate", drawing.family))
    x, at_x = (to_display(v, curve.kind, drawing.family) for v in (curve.setting, curve.settings))
    y, at_y = (up_the_scale(drawing, v) for v in (curve.rate, curve.rates))
    drawing["curve"].set_data(x, y)
    drawing["positions"].set_data(at_x, at_y)
    here = at_x[curve.chosen - 1], at_y[curve.chosen - 1]
    drawing["chosen"].set_data([here[0]], [here[1]])
    drawing["reading"].set_data([here[0], here[0], drawing.ax.get_xlim()[0]], [0, here[1], here[1]])
    _number(drawing, curve, at_x, at_y)
    _compare(drawing, curve, x, y)
    _place_guess(drawing)
    drawing["title"].set_text(_headline(curve, drawing.family))


def up_the_scale(drawing: marks.Drawing, rate):
    """Where a rate [N/m] stands on the upright scale, from 0 at its bottom to 1 at its top; broadcasts."""
    return drawing.fixed["rates"].place(to_display(rate, "rate", drawing.family))


def _number(drawing, curve, xs, ys):
    """Each position's number above the curve: to the right of a falling one, the left of a rising one."""
    ax, size = drawing.ax, drawing.look.font_size
    side = -1 if curve.blade else 1
    for n, (text, x, y) in enumerate(zip(drawing["numbers"], xs, ys, strict=True)):
        chosen = n == curve.chosen - 1
        marks.say(text, str(n + 1), x + side * marks.across(ax, 0.5 * size), y + marks.up(ax, 0.9 * size),
                  fontweight="bold" if chosen else "normal")


def _compare(drawing, curve, x, y):
    """The bar at first beside the present one: where the scale has moved, that shows it."""
    moved = curve.first is not None and not np.allclose(curve.first, curve.rate)
    drawing.fixed.update(moved=moved, roomy=False)
    if moved:
        first = up_the_scale(drawing, curve.first)
        drawing["first"].set_data(x, first)
        _name_first(drawing, x, first, y)
    _show_first(drawing)


def _name_first(drawing, x, first, y):
    """The words above or below their line, between two positions, where nothing else runs."""
    step, text = marks.up(drawing.ax, 0.9 * drawing.look.small), drawing["first word"]
    at = np.sort(drawing["positions"].get_xdata())
    middle = x.mean() if len(at) < 2 else at[np.argmax(np.diff(at))] + np.diff(at).max() / 2
    near = np.abs(x - middle) < marks.width_of(text) / 2
    reading = drawing["chosen"].get_ydata()[0]
    for level in (first[near].max() + step, first[near].min() - step):
        clear = np.abs(np.append(y[near], reading) - level).min() > 1.1 * step and step < level < 1 - step
        if clear:
            marks.say(text, "bar at the start", middle, level)
            drawing.fixed["roomy"] = True
            return


def _show_first(drawing):
    shown = drawing.fixed["moved"] and not drawing.fixed.get("withheld", False)
    drawing["first"].set_visible(shown)
    drawing["first word"].set_visible(shown and drawing.fixed["roomy"])


def _headline(curve, family):
    name = "angle" if curve.blade else "hole"
    setting, rate = curve.settings[curve.chosen - 1], curve.rates[curve.chosen - 1]
    whole = curve.blade and abs(np.degrees(setting) - round(np.degrees(setting))) < 1e-6
    places = 0 if whole else None
    return (f"bar at {name} {curve.chosen}, {show(setting, curve.kind, family, places)}: "
            f"{show(rate, 'rate', family)}")


def mark(drawing: marks.Drawing, rate: float | None) -> None:
    """Draw a predicted rate as a level line, [N/m]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(rate is not None)
    drawing.fixed["guess"] = rate
    _place_guess(drawing)


def _place_guess(drawing):
    """The guess where it stands on the present scale, or past its end."""
    rate = drawing.fixed.get("guess")
    if rate is None:
        return
    where, (left, right) = guess.place(float(up_the_scale(drawing, rate)), (0, 1)), drawing.ax.get_xlim()
    word, look, middle = drawing["guess word"], drawing.look, (left + right) / 2
    marks.say(word, guess.words(where, rate, "rate", drawing.family), middle,
              where.at - where.way * marks.up(drawing.ax, 0.7 * look.small),
              fontsize=look.small if where.beyond else look.font_size)
    beside = middle - marks.width_of(word) / 2 - marks.across(drawing.ax, look.small)
    guess.level(drawing["guess"], where, left, right, beside)


def withhold(drawing: marks.Drawing, on: bool) -> None:
    """Leave the point in use alone in the picture, or show the curve and the other positions again."""
    for artist in (drawing["curve"], drawing["positions"], *drawing["numbers"]):
        artist.set_visible(not on)
    drawing.fixed["withheld"] = on
    _show_first(drawing)


def describe_now(curve: RateCurve, family: str = "metric") -> str:
    """The position in use in words, and no other."""
    return f"Rate at the {curve.at} in roll: {_headline(curve, family)}."


def describe(curve: RateCurve, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    soft, stiff = (show(rate, "rate", family) for rate in (curve.rates[0], curve.rates[-1]))
    if len(curve.rates) == 1:
        return f"Rate at the {curve.at} in roll: {_headline(curve, family)}; there is no other position."
    if not curve.blade:
        return (f"Rate at the {curve.at} in roll: {_headline(curve, family)}. From hole 1 to hole "
                f"{len(curve.rates)} it goes from {soft} to {stiff}: a shorter lever is stiffer.")
    half = np.degrees(np.interp((curve.rate[0] + curve.rate[-1]) / 2, curve.rate, curve.setting))
    return (f"Rate at the {curve.at} in roll: {_headline(curve, family)}. From {soft} at the first angle "
            f"to {stiff} at the last; turned from flat, half of the change is reached at {half:.0f} deg.")
