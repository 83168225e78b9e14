"""The map of hole pairs: what the car can hold at each, which end gives up first, and where it is now."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.adding_up import shown_apart
from rollmodel.car import Car
from rollmodel.figures import marks
from rollmodel.physics.balance import Limits, limits
from rollmodel.physics.stiffness import stiffness_of_every_hole
from rollmodel.units import show, to_display

ENDS = ("front", "rear")
G = "lateral acceleration"
HEAD, DIVIDED = "Grip in g. Frame: fitted. Dashed: most.", " Line: first end changes."


@dataclass(frozen=True)
class HoleMap:
    """Limits of every pair, front position down the first axis, rear along the second."""

    grip: np.ndarray  # the lower limit, m/s^2
    gap: np.ndarray  # front limit less rear limit, m/s^2: below nil the front gives up first; nan: rolls over
    chosen: tuple[int, int]  # positions in use, counted from 1; 1 at an end without a bar
    bars: tuple[bool, bool]
    blades: tuple[bool, bool] = (False, False)
    driven: bool = False  # whether the force that holds the speed is counted

    @property
    def best(self) -> tuple[int, int]:
        """The pair with the highest lower limit, counted from 1."""
        return tuple(int(n) + 1 for n in np.unravel_index(np.argmax(self.grip), self.grip.shape))

    def at(self, values: np.ndarray, pair=None) -> float:
        front, rear = pair or self.chosen
        return float(values[front - 1, rear - 1])

    def word(self, n: int) -> str:
        return "angle" if self.blades[n] else "hole"


def of_car(car: Car, front: int | None = None, rear: int | None = None, driven: bool = False) -> HoleMap:
    """The map of a car with its fitted positions, or others; one call for all pairs."""
    return from_limits(car, limits(car, *stiffness_of_every_hole(car), driven), front, rear, driven)


def from_limits(car: Car, held: Limits, front: int | None = None, rear: int | None = None,
                driven: bool = False) -> HoleMap:
    """The same from limits already found, shaped (front, rear, 1)."""
    axles = (car.front, car.rear)
    chosen = tuple(hole or axle.hole or 1 for hole, axle in zip((front, rear), axles, strict=True))
    return HoleMap(held.lower[..., 0], held.gap[..., 0], chosen,
                   tuple(axle.bar is not None for axle in axles),
                   tuple(axle.bar is not None and axle.bar.blade is not None for axle in axles), driven)


def draw(ax_or_figure, chart: HoleMap, look, family="metric") -> marks.Drawing:
    """Lay out one cell for each pair; the length of the balance bars keeps the scale of this result."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    rows, columns = chart.grip.shape
    marks.frame(ax, look, left=4.6, right=1.0, bottom=4.3, top=1.8)
    ax.set(xlim=(0.5, columns + 0.5), ylim=(0.5, rows + 0.5))
    _name_positions(drawing, chart, rows, columns)
    finite = np.abs(chart.gap[np.isfinite(chart.gap)])
    drawing.fixed["gap"] = float(finite.max()) if finite.size and finite.max() > 0 else 1.0
    for n, end in enumerate(ENDS):
        parts[end] = marks.stroke(ax, look, end, 2.2, linestyle="-", solid_capstyle="butt", zorder=3)
        _note(ax, look, f"{('left', 'right')[n]}: {end} first", n, -3.7, color=marks.ink(look.colours[end]))
    apart = show(drawing.fixed["gap"], G, family)
    _note(ax, look, f"longest strip {apart}", 0.5, -3.7)
    parts["numbers"] = [marks.words(ax, look, c + 1, r + 0.95, ground=None, va="baseline")
                        for r in range(rows) for c in range(columns)]
    parts["divide"] = marks.stroke(ax, look, thickness=0.8, zorder=4)
    parts["best"] = marks.stroke(ax, look, thickness=0.6, linestyle=(0, (3, 2)), zorder=4.5)
    parts["here"] = marks.stroke(ax, look, thickness=1.8, zorder=5)
    update(drawing, chart)
    return drawing


def _note(ax, look, text, x, drop, above=0, **changes):
    """A line of type outside the axes: at the left or right end of their foot, or over their head."""
    side = {0: "left", 1: "right"}.get(x, "center")
    return marks.outside(ax, look, text, (x, above), (0, drop * look.font_size), ha=side,
                         **changes)


def _name_positions(drawing, chart, rows, columns):
    ax, look = drawing.ax, drawing.look
    marks.scales(ax, look)
    for spine in ax.spines.values():
        spine.set_visible(False)
    ax.tick_params(length=0, labelsize=look.font_size)
    for n, (axis, count) in enumerate(((ax.yaxis, rows), (ax.xaxis, columns))):
        axis.set_ticks(range(1, count + 1), range(1, count + 1) if chart.bars[n] else ["no bar"])
        axis.set_label_text(f"{ENDS[n]} {chart.word(n)}, 1 softest" if chart.bars[n] else ENDS[n],
                            fontsize=look.font_size)
    ax.yaxis.labelpad = 0.5 * look.font_size
    lines = {"color": marks.METAL, "linewidth": look.line_width / 3, "zorder": 1}
    ax.vlines(np.arange(columns + 1) + 0.5, 0.5, rows + 0.5, **lines)
    ax.hlines(np.arange(rows + 1) + 0.5, 0.5, columns + 0.5, **lines)
    drawing.parts["head"] = _note(ax, look, HEAD, 0.5, 0.9, 1)


def update(drawing: marks.Drawing, chart: HoleMap) -> None:
    """Other limits or another fitted pair, on as many positions as drawn."""
    for text, value in zip(drawing["numbers"], chart.grip.flat, strict=True):
        text.set_text(f"{to_display(value, G, drawing.family):.3f}")
    _balance_bars(drawing, chart)
    x, y = _divide(np.nan_to_num(chart.gap) < 0)
    drawing["divide"].set_data(x, y)
    drawing["head"].set_text(HEAD + (DIVIDED if x else ""))
    inner = 0.84 if chart.best == chart.chosen else 0.94
    for name, (front, rear), size in (("here", chart.chosen, 0.94), ("best", chart.best, inner)):
        corners = marks.box(rear, front, size, size)
        drawing[name].set_data(*np.vstack([corners, corners[:2]]).T)


def _balance_bars(drawing, chart):
    """In each cell a bar towards the end that gives up first, as long as the limits are apart."""
    rows, columns = np.indices(chart.gap.shape) + 1
    reach = 0.4 * np.clip(np.nan_to_num(chart.gap) / drawing.fixed["gap"], -1.1, 1.1)
    for end, part in (("front", np.minimum(reach, 0)), ("rear", np.maximum(reach, 0))):
        x = np.stack([columns, columns + part, np.full(part.shape, np.nan)], axis=-1)
        y = np.repeat(rows[..., None] - 0.26, 3, axis=-1)
        drawing[end].set_data(x.ravel(), y.ravel())


def _divide(front_first):
    """The line between cells where the front gives up first and cells where the rear does."""
    x, y = [], []
    for row, column in np.argwhere(front_first[:, 1:] != front_first[:, :-1]):
        x += [column + 1.5, column + 1.5, np.nan]
        y += [row + 0.5, row + 1.5, np.nan]
    for row, column in np.argwhere(front_first[1:] != front_first[:-1]):
        x += [column + 0.5, column + 1.5, np.nan]
        y += [row + 1.5, row + 1.5, np.nan]
    return x, y


def describe(chart: HoleMap, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def g(value):
        return show(value, G, family)

    def name(pair):
        return " and ".join(f"{end} {chart.word(n)} {pair[n]}" if chart.bars[n] else f"no {end} bar"
                            for n, end in enumerate(ENDS))

    def first(pair):
        gap = chart.at(chart.gap, pair)
        if not np.isfinite(gap):
            return "one end never gives up before the car rolls over"
        if g(abs(gap)) == g(0.0):
            return "both ends give up together"
        return f"the {'front' if gap < 0 else 'rear'} gives up {g(abs(gap))} before the other end"

    drive = "With the force that holds the speed" if chart.driven else "With no drive, coasting"
    held, most, _ = shown_apart(chart.at(chart.grip), chart.at(chart.grip, chart.best), G, family)
    holds = f"the car holds {held}, {first(chart.chosen)}"
    here = f"{drive}. Fitted, {name(chart.chosen)}: {holds}."
    if chart.grip.size == 1:
        return f"{here} There is no other hole to try."
    if chart.best == chart.chosen:
        return f"{here} No other of the {chart.grip.size} pairs holds more."
    best = f"Most grip of the {chart.grip.size} pairs: {name(chart.best)}"
    return f"{here} {best}, {most}, {first(chart.best)}."
