"""What a little more stiffness does to each end's own limit, on a car made softer or stiffer as a whole."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.ticker import MaxNLocator

from rollmodel.advice.window import Window
from rollmodel.figures import marks
from rollmodel.units import label, show, to_display

ENDS = ("front", "rear")
MOST_BORDERS = 4  # each end turns at most once and lifts at most one wheel
ROLL, G = "roll gradient", "lateral acceleration"
WHEEL_UP = -1  # instead of how many ends gain
KINDS = {
    2: (
        "both ends gain: stiffen the whole car first",
        "both ends gain",
        "both gain",
    ),  # the longest that fits
    1: ("the window between: one end gains", "window: one gains", "window"),
    0: ("neither end gains: the trade's rule holds", "neither end gains", "rule holds"),
    WHEEL_UP: ("an inside wheel is up: only the lean still counts", "an inside wheel is up", "wheel up"),
}


@dataclass(frozen=True)
class Chart:
    """The window of a car, and where the car stands in it."""

    window: Window
    factor: float  # times as stiff as on the sheet
    reach: tuple[float, float]  # scale of roll gradient, rad/(m/s^2)
    span: float  # scale of gain, either way, m/s^2

    def borders(self) -> list[float]:
        """Roll gradients at which one end turns from losing to gaining or a wheel lifts, ascending."""
        roll, up = self.window.roll, self.window.any_up()
        lifts = np.flatnonzero(up[:-1] != up[1:])
        found = [*(self.window.crossing(end) for end in ENDS), *(roll[lifts] + roll[lifts + 1]) / 2]
        seen = (float(one) for one in found if one is not None and self.reach[0] < one < self.reach[1])
        return sorted(seen)[:MOST_BORDERS]

    def gaining_at(self, roll: float) -> int:
        """How many ends gain at a roll gradient; WHEEL_UP where an inside wheel is off the ground."""
        if self.window.any_up()[np.argmin(np.abs(self.window.roll - roll))]:
            return WHEEL_UP
        order = np.argsort(self.window.roll)
        gains = (np.interp(roll, self.window.roll[order], self.window.gains[end][order]) for end in ENDS)
        return sum(gain > self.window.counts for gain in gains)


def of_window(window: Window, factor: float, highest: float | None = None) -> Chart:
    """The chart of a window on scales of its own; roll beyond ``highest`` [rad/(m/s^2)] is left out."""
    high = min(float(window.roll.max()), highest or np.inf)
    shown = window.roll <= high
    gains = np.concatenate([window.gains[end][shown] for end in ENDS])
    if np.isnan(gains).all():
        raise ValueError(
            "this car rolls over before its tyres slide, so no end has a limit to gain or to lose; "
            "if that is not so, check grip_scale, cg_height and track in its sheet"
        )
    span = max(float(np.nanmax(np.abs(gains))), 3 * window.counts)
    margin = 0.02 * (high - float(window.roll.min()))
    return Chart(window, factor, (float(window.roll.min()) - margin, high + margin), 1.15 * span)


def draw(ax_or_figure, chart: Chart, look, family="metric") -> marks.Drawing:
    """Lay out both lines; the scales are those of this result and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=6.4, right=4.2, bottom=3.1, top=1.8)
    unit = label(ROLL, family)
    marks.scales(
        ax,
        look,
        f"how far the car rolls ({unit}): stiff on the left, soft on the right",
        f"limit gained ({label(G, family)})",
    )
    ax.set(
        xlim=to_display(np.array(chart.reach), ROLL, family),
        ylim=to_display(np.array([-1, 1]) * chart.span, G, family),
    )
    ax.yaxis.set_major_locator(MaxNLocator(nbins=4))
    ax.axhline(0, color=marks.GREY, linewidth=look.line_width / 2, zorder=1)
    for end in ENDS:
        parts[end] = marks.stroke(ax, look, end, zorder=3)
        parts[f"{end} word"] = marks.words(ax, look, text=end, role=end, ha="left", ground=None)
        parts[f"{end} now"] = marks.dots(ax, look, end, size=4)
    parts["here"] = marks.stroke(ax, look, thickness=0.7, zorder=2)
    dashes = {"thickness": 0.5, "linestyle": (0, (2, 2)), "zorder": 2}
    parts["borders"] = [marks.stroke(ax, look, **dashes) for _ in range(MOST_BORDERS)]
    parts["kinds"] = [marks.words(ax, look, small=True) for _ in range(MOST_BORDERS + 1)]
    update(drawing, chart)
    return drawing


def update(drawing: marks.Drawing, chart: Chart) -> None:
    """The car elsewhere in its window, or another window on the same scales."""
    ax, family, window = drawing.ax, drawing.family, chart.window
    roll = to_display(window.roll, ROLL, family)
    here = to_display(window.roll_at(chart.factor), ROLL, family)
    low, high = ax.get_ylim()
    at = []
    for end in ENDS:
        gain = to_display(window.gains[end], G, family)
        drawing[end].set_data(roll, gain)
        now = to_display(window.gain_at(end, chart.factor), G, family)
        drawing[f"{end} now"].set_data([here], [float(np.clip(now, low, high))])
        at.append(float(np.clip(np.interp(ax.get_xlim()[1], roll[::-1], gain[::-1]), low, high)))
    _name_lines(drawing, at)
    drawing["here"].set_data([here, here], [low, high])
    _name_regions(drawing, chart)


def _name_lines(drawing, at):
    """The two ends' names right of their lines, kept apart."""
    ax = drawing.ax
    room, x = (
        marks.up(ax, 1.25 * drawing.look.font_size),
        ax.get_xlim()[1] + marks.across(ax, 0.3 * drawing.look.font_size),
    )
    order = np.argsort(at)
    places = marks.spread(np.array(at)[order], [room, room], *ax.get_ylim(), 0.0)
    for n, y in zip(order, places, strict=True):
        marks.say(drawing[f"{ENDS[n]} word"], ENDS[n], x, float(y))


def _name_regions(drawing, chart):
    """What holds left of, between and right of the borders, where there is room to say it."""
    ax, borders = drawing.ax, chart.borders()
    left, right = chart.reach
    for line, roll in zip(drawing["borders"], [*borders, *MOST_BORDERS * [None]], strict=False):
        line.set_visible(roll is not None)
        if roll is not None:
            line.set_data([to_display(roll, ROLL, drawing.family)] * 2, ax.get_ylim())
    ends = [left, *borders, right]
    y = ax.get_ylim()[1] + marks.up(ax, 0.9 * drawing.look.small)
    for n, text in enumerate(drawing["kinds"]):
        if n >= len(ends) - 1:
            text.set_visible(False)
            continue
        low, high = (to_display(value, ROLL, drawing.family) for value in ends[n : n + 2])
        for words in KINDS[chart.gaining_at((ends[n] + ends[n + 1]) / 2)]:
            marks.say(text, words, (low + high) / 2, y)
            text.set_visible(bool(marks.width_of(text) < high - low))
            if text.get_visible():
                break


def describe(chart: Chart, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    window = chart.window
    rolls = show(window.roll_at(chart.factor), ROLL, family)
    step = show(window.step, "roll stiffness", family)  # of bar: with the tyres in series the axle gains less
    gains = "; ".join(f"at the {end} {_move(window, end, chart.factor, family)}" for end in ENDS)
    turns = (
        "; ".join(
            f"the {end} turns at {show(window.crossing(end), ROLL, family)}"
            for end in ENDS
            if window.crossing(end) is not None
        )
        or "neither end turns from loss to gain"
    )
    return (
        f"The car rolls {rolls}. What {step} more in the bar does to an end's own limit: {gains}. "
        f"In the range shown {turns}.{wheel_up(window, chart.factor)}"
    )


def wheel_up(window: Window, factor: float) -> str:
    """That an inside wheel is up at a limit and what still counts then, after a space; nothing if none is."""
    up = {end: window.up_at(end, factor) for end in ENDS}
    wheels = [wheel for wheel in ENDS if any(wheel in found for found in up.values())]
    if not wheels:
        return ""
    lifting = [end for end in ENDS if up[end]]
    where = "the limit" if len(lifting) == len(ENDS) else f"the limit of the {lifting[0]}"
    return (
        f" At {where} the inside {' and '.join(wheels)} wheel is off the ground. There the bars share out no "
        "more load; only the lean still counts. That is not the window between the two effects."
    )


def _move(window, end, factor, family):
    gain = window.gain_at(end, factor)
    if abs(gain) < window.counts:
        return "next to nothing"
    return f"{'+' if gain > 0 else '-'}{show(abs(gain), G, family, 4)}"
