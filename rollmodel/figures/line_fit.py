"""Readings, the straight line through them, and below it how far each reading lies off the line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.figures import marks
from rollmodel.testday.measured import Line, straight_line
from rollmodel.testday.readings import Readings
from rollmodel.units import label, show, to_display

ROLES = ("front", "rear")


@dataclass(frozen=True, eq=False)
class Series:
    """One row of readings, SI."""

    name: str
    x: np.ndarray
    y: np.ndarray
    limit: float  # what each y is right to, plus or minus
    line: Line

    @property
    def off(self) -> np.ndarray:
        """How far each reading lies off the line, in y."""
        return self.y - self.line.intercept - self.line.slope * self.x


@dataclass(frozen=True, eq=False)
class Scene:
    """What is plotted against what."""

    title: str
    x: tuple[str, str]  # words and kind
    y: tuple[str, str]
    series: tuple[Series, ...]


def series(name: str, x, y, limit: float) -> Series:
    """Readings with the line through them."""
    x, y = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    return Series(name, x, y, limit, straight_line(x, y))


def of_jacking(end: str, readings: Readings) -> Scene:
    """Travel of spring and link against that of the wheel."""
    tables = {part: readings.of(f"{end}.{part}") for part in ("spring", "link")}
    rows = [series(part, one["wheel"], one["part"], one["reading"]) for part, one in tables.items() if one]
    title = f"{end.capitalize()} wheel jacked in steps"
    return Scene(title, ("wheel height", "length"), ("travel", "length"), tuple(rows))


def of_raising(readings: Readings) -> Scene:
    """Load on the end that stays down against the lift; the level car is the first point."""
    table, pads = readings.of("cg_height"), readings.of("corner_weights")
    rows = []
    if table and pads:
        down = "rear" if table["raised"] == "front" else "front"
        level = sum(float(np.mean(pads[f"{down}_{side}"])) for side in ("left", "right"))
        rows = [series(f"both\n{down} pads", [0.0, *table["lift"]], [level, *table["load"]], table["scale"])]
    raised = f"The {table['raised']} raised" if table else "One end raised"
    return Scene(f"{raised} in steps", ("lift", "length"), ("load", "mass"), tuple(rows))


def of_bench(readings: Readings) -> Scene:
    """Deflection of a link against the load on it."""
    tables = {end: readings.of(f"{end}.bar") for end in ("front", "rear")}
    rows = [
        series(f"{end} bar", one["load"], one["deflection"], one["reading"])
        for end, one in tables.items()
        if one
    ]
    return Scene("Bar on the bench, one end held", ("load", "load"), ("deflection", "length"), tuple(rows))


def size(look) -> tuple[float, float]:
    """Width and height that give every word its room, [inch]."""
    return (14.2, 7.2) if look.projector else (8.4, 4.6)


def draw(figure, scene: Scene, look, family="metric") -> marks.Drawing:
    """Two axes on one scale of x: readings and line, and the distance from the line."""
    drawing = marks.start(figure.add_axes((0.0, 0.36, 1.0, 0.64)), look, family)
    low = figure.add_axes((0.0, 0.0, 1.0, 0.38))
    marks.frame(drawing.ax, look, left=5.6, right=6.0, bottom=1.2, top=2.0)
    marks.frame(low, look, left=5.6, right=6.0, bottom=3.0, top=1.0)
    (x_words, x_kind), (y_words, y_kind) = scene.x, scene.y
    unit = label(y_kind, family)
    marks.scales(drawing.ax, look, "", f"{y_words} ({unit})")
    marks.scales(low, look, f"{x_words} ({label(x_kind, family)})", f"off ({unit})")
    drawing.ax.tick_params(labelbottom=False)
    drawing.fixed["low"] = low
    _fill(drawing, low, scene)
    return drawing


def _fill(drawing, low, scene):
    """Everything here is drawn once: another row of readings is another picture."""
    ax, look, family = drawing.ax, drawing.look, drawing.family
    drawing.parts["title"] = marks.words(ax, look, 0.5, 0, scene.title, transform=ax.transAxes)
    drawing.parts["title"].set_y(1 + 1.1 * look.font_size / marks.size_in_points(ax)[1])
    if not scene.series:
        marks.words(ax, look, 0.5, 0.5, "no readings yet", transform=ax.transAxes)
        return
    for role, one in zip(ROLES, scene.series, strict=False):
        x, y, off = (
            to_display(values, kind, family)
            for values, kind in ((one.x, scene.x[1]), (one.y, scene.y[1]), (one.off, scene.y[1]))
        )
        ends = np.array([x.min(), x.max()])
        marks.stroke(ax, look, role, x=ends, y=_on_line(one, ends, scene, family), zorder=3)
        marks.dots(ax, look, role, x, y, size=2.6)
        low.vlines(x, 0, off, color=look.colours[role], linewidth=look.line_width, zorder=3)
        marks.dots(low, look, role, x, off, size=2.6)
    low.axhline(0, color=marks.GREY, linewidth=look.line_width / 2, zorder=2)
    _limits(low, scene, family)
    low.set_xlim(ax.get_xlim())
    _name(ax, scene, look, family)


def _on_line(one, ends, scene, family):
    """The line's two ends in display units, from ends that are."""
    each = to_display(1.0, scene.x[1], family)
    return to_display(one.line.intercept + one.line.slope * ends / each, scene.y[1], family)


def _limits(low, scene, family):
    """The band within which each reading is right, and a scale that holds it."""
    limit = to_display(max(one.limit for one in scene.series), scene.y[1], family)
    far = to_display(max(float(np.abs(one.off).max()) for one in scene.series), scene.y[1], family)
    low.axhspan(-limit, limit, color=marks.SURFACE, zorder=0)
    low.set_ylim(-1.3 * max(limit, far), 1.3 * max(limit, far))
    low.locator_params(axis="y", nbins=4)


def _name(ax, scene, look, family):
    """Each line's name at its right end."""
    ends = sorted(
        (float(_on_line(one, np.array([ax.get_xlim()[1]]), scene, family)[0]), role, one.name)
        for role, one in zip(ROLES, scene.series, strict=False)
    )
    step = marks.up(ax, 1.4 * look.font_size)
    for place, (y, role, name) in enumerate(ends):
        y = y if place == 0 else max(y, ends[0][0] + step)
        x = ax.get_xlim()[1] + marks.across(ax, 0.4 * look.font_size)
        marks.words(ax, look, x, y, name, role=role, small=True, ha="left", ground=None)


def describe(scene: Scene, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    if not scene.series:
        return f"{scene.title}: no readings yet, so there are 0 points and no line through them."
    kind = scene.y[1]
    told = (
        f"{' '.join(one.name.split())}: {len(one.x)} readings, scatter about the straight line "
        f"{_fine(one.line.scatter, kind, family)}, the furthest "
        f"{_fine(float(np.abs(one.off).max()), kind, family)} off, each read to plus or minus "
        f"{_fine(one.limit, kind, family)}"
        for one in scene.series
    )
    return f"{scene.title}. {'; '.join(told)}."


def _fine(value, kind, family):
    places = 3 if label(kind, family) == "in" else 2
    return show(value, kind, family, places)
