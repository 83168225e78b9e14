"""Runs before and after a change: steady points, fitted lines with their intervals, and both changes.

Two graphs of angle against lateral acceleration; beside them the change of each gradient, predicted and
measured, on a scale with nil in it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.car import GRAVITY
from rollmodel.figures import change_scale, marks
from rollmodel.testday.analysis import Analysis
from rollmodel.testday.gradients import CHANNELS, Gradient
from rollmodel.testday.runs import Setup
from rollmodel.units import label, to_display

G, SETUPS = "lateral acceleration", ("before", "after")
ROLES = {"before": "plain", "after": "bar"}
LEAST_REACH = np.radians(0.45) / GRAVITY  # rad/(m/s^2), of the scale of changes either side of nil
LEAST_TOLD = np.radians(0.02) / GRAVITY  # rad/(m/s^2): a smaller change of a gradient counts as none
LEAST_ROOM = np.radians(0.4)  # rad, of a scale of angles
TITLES = {"roll": "roll angle", "steer": "steer at the road wheel"}
PLACES = {"roll": (0.0, 0.0, 0.34, 1.0), "steer": (0.34, 0.0, 0.34, 1.0), "changes": (0.68, 0.0, 0.32, 1.0)}


@dataclass(frozen=True)
class Span:
    """Ends of the scales, SI."""

    accel: float  # m/s^2
    roll: tuple[float, float]  # rad
    steer: tuple[float, float]  # rad
    change: float  # rad/(m/s^2), either side of nil


@dataclass(frozen=True, eq=False)
class Scene:
    """What the runs say, and how much of it is shown."""

    analysis: Analysis
    both: bool  # whether the runs after are shown
    span: Span


def span_of(analysis: Analysis) -> Span:
    """Scales that hold all that was driven, with room for words and for days with more noise."""
    predicted = [one.predicted.change for one in analysis.differences if one.predicted]
    measured = [abs(end) for one in analysis.differences for end in (one.low, one.high)]
    return Span(
        1.08 * analysis.range[1],
        *(_ends(analysis, *pair) for pair in CHANNELS.items()),
        1.15 * max([LEAST_REACH, *(2 * abs(one) for one in predicted), *measured]),
    )


def _ends(analysis: Analysis, quantity: str, channel: str) -> tuple[float, float]:
    found = gradients_of(analysis, quantity)
    if not found:
        return 0.0, 1.0
    every = np.concatenate([points(analysis, name, one, channel)[1] for name, one in found.items()])
    low, high = float(every.min()), float(every.max())
    room = max(high - low, LEAST_ROOM)
    return (min(0.0, low) if channel == "roll" else low - 0.5 * room), high + 0.45 * room


def points(analysis: Analysis, name: str, found: Gradient, channel: str):
    """Steady points of a setup, every run moved to the setup's common zero; slopes stay as they are.

    A sensor's zero is off by the same all the way through a run: it says nothing of the car.
    """
    setup = analysis.before if name == "before" else analysis.after
    accel = np.concatenate([run.lateral_acceleration for run in setup.runs])
    angle = [
        getattr(run, channel) - slope.intercept + found.intercept
        for run, slope in zip(setup.runs, found.runs, strict=True)
    ]
    return accel, np.concatenate(angle)


def size(look) -> tuple[float, float]:
    """Width and height that give every word its room, [inch]."""
    return (15.2, 6.6) if look.projector else (9.55, 4.3)


@dataclass
class Drawing:
    """The two graphs and the changes."""

    parts: dict
    span: Span
    withheld: bool = False  # whether prediction, measured changes and verdicts are kept back

    @property
    def moving(self) -> list:
        """Every artist that ``update`` may touch."""
        return [artist for drawing in self.parts.values() for artist in drawing.moving]


def draw(figure, scene: Scene, look, family="metric") -> Drawing:
    """Lay out all three; the scales are those of this scene and stay."""
    drawing = Drawing(
        {
            **{
                channel: _graph(figure.add_axes(PLACES[channel]), channel, scene.span, look, family)
                for channel in CHANNELS.values()
            },
            "changes": change_scale.draw(figure.add_axes(PLACES["changes"]), scene.span.change, look, family),
        },
        scene.span,
    )
    update(drawing, scene)
    return drawing


def _graph(ax, channel, span, look, family):
    drawing = marks.start(ax, look, family)
    parts = drawing.parts
    marks.frame(ax, look, left=3.9, right=0.6, bottom=3.2, top=0.9)
    marks.scales(ax, look, f"{G} ({label(G)})", f"{TITLES[channel]} (deg)")
    _rescale(ax, channel, span)
    ax.locator_params(axis="both", nbins=5)
    for name in SETUPS:
        role = ROLES[name]
        shade = marks.tint(look.colours[role], 0.22)
        parts[f"{name} band"] = marks.face(ax, look, shade, 0, zorder=2)
        parts[f"{name} line"] = marks.stroke(ax, look, role, zorder=3)
        parts[f"{name} points"] = marks.dots(ax, look, role, hollow=name == "before", size=1.9, zorder=4)
    parts["odd"] = marks.dots(
        ax, look, "rear", marker="o", size=5, fillstyle="none", zorder=5, markeredgewidth=look.line_width
    )
    parts["guess"] = marks.stroke(ax, look, "guess", 1.3, zorder=3.5, visible=False)
    for name, role in (*ROLES.items(), ("odd", "rear"), ("guess", "guess")):
        parts[f"{name} word"] = marks.words(ax, look, role=role, small=True, ha="left", visible=False)
    parts["none"] = marks.words(ax, look, small=True, visible=False)
    return drawing


def _rescale(ax, channel, span):
    ax.set(xlim=(0, to_display(span.accel, G)), ylim=to_display(np.array(getattr(span, channel)), "angle"))


def update(drawing: Drawing, scene: Scene) -> None:
    """Other runs; the scales move only with another car, change or file."""
    if scene.span != drawing.span:
        drawing.span = scene.span
        for channel in CHANNELS.values():
            _rescale(drawing.parts[channel].ax, channel, scene.span)
        change_scale.rescale(drawing.parts["changes"].ax, scene.span.change)
    for quantity, channel in CHANNELS.items():
        _update_graph(drawing.parts[channel], scene, quantity, channel)
    change_scale.update(
        drawing.parts["changes"], scene.analysis.differences, scene.both, drawing.withheld
    )


def withhold(drawing: Drawing, scene: Scene, on: bool) -> None:
    """Keep what the sheet predicts, and what the runs say of it, out of the picture, or show both again."""
    drawing.withheld = on
    update(drawing, scene)


def _update_graph(drawing, scene, quantity, channel):
    found = gradients_of(scene.analysis, quantity)
    for name in SETUPS:
        shown = name in found and (scene.both or name == "before")
        for part in ("band", "line", "points", "word"):
            drawing[f"{name} {part}"].set_visible(shown)
        if shown:
            _show_setup(drawing, name, scene.analysis, found[name], channel)
    _odd(drawing, scene, quantity, channel)
    drawing["none"].set_visible(not found)
    middle = [np.mean(ends) for ends in (drawing.ax.get_xlim(), drawing.ax.get_ylim())]
    marks.say(drawing["none"], f"no {channel}\nin these files", *middle)
    _name_lines(drawing, [name for name in SETUPS if drawing[f"{name} word"].get_visible()])


def gradients_of(analysis: Analysis, quantity: str) -> dict[str, Gradient]:
    """One gradient of each setup by the setup's name."""
    for one in analysis.differences:
        if one.quantity == quantity:
            return {"before": one.before, "after": one.after}
    return {"before": one} if (one := _only(analysis, quantity)) else {}


def _only(analysis, quantity):
    """The one setup's gradient, where there is no other setup to compare with."""
    return next((one for one in analysis.gradients if one.quantity == quantity), None)


def _show_setup(drawing, name, analysis, found: Gradient, channel):
    accel, angle = points(analysis, name, found, channel)
    drawing[f"{name} points"].set_data(to_display(accel, G), to_display(angle, "angle"))
    ends, middle = np.array([0.0, accel.max()]), accel.mean()
    level = found.intercept + found.value * middle
    drawing[f"{name} line"].set_data(
        to_display(ends, G), to_display(level + found.value * (ends - middle), "angle")
    )
    low, high = band(ends, middle, level, found)
    drawing[f"{name} band"].set_xy(
        np.column_stack(
            (
                to_display(np.concatenate((low[:, 0], high[::-1, 0])), G),
                to_display(np.concatenate((low[:, 1], high[::-1, 1])), "angle"),
            )
        )
    )


def band(ends, middle: float, level: float, found: Gradient):
    """Lower and upper edge of the slope's interval, turned about the middle of the points."""
    at = np.array([ends[0], middle, ends[1]])
    both = level + np.outer([found.low, found.high], at - middle)
    return np.column_stack((at, both.min(axis=0))), np.column_stack((at, both.max(axis=0)))


def _odd(drawing, scene, quantity, channel):
    """A ring round every point that lies far from the rest; it counts all the same."""
    gradients, names = gradients_of(scene.analysis, quantity), SETUPS if scene.both else SETUPS[:1]
    found = [
        point_of(setup, gradients[setup.name], one, channel)
        for setup in scene.analysis.setups
        if setup.name in names
        for one in scene.analysis.outliers.get(setup.name, ())
        if one.quantity == quantity and one.point is not None
    ]
    at = np.array(found or np.empty((0, 2)))
    drawing["odd"].set_data(to_display(at[:, 0], G), to_display(at[:, 1], "angle"))
    drawing["odd word"].set_visible(bool(found))
    if found:
        x, y = to_display(at[0, 0], G), to_display(at[0, 1], "angle")
        left = x > 0.6 * drawing.ax.get_xlim()[1]
        gap = marks.across(drawing.ax, drawing.look.font_size) * (-1 if left else 1)
        marks.say(drawing["odd word"], "outlier,\nkept", x + gap, y, ha="right" if left else "left")


def point_of(setup: Setup, found: Gradient, odd, channel: str) -> tuple[float, float]:
    """Where an outlier lies in the picture, [m/s^2] and [rad]."""
    at = next(place for place, run in enumerate(setup.runs) if run.name == odd.run)
    run = setup.runs[at]
    angle = getattr(run, channel)[odd.point] - found.runs[at].intercept + found.intercept
    return float(run.lateral_acceleration[odd.point]), float(angle)


def _name_lines(drawing, names):
    """The words for points and lines, as a key in the upper left corner."""
    ax, look = drawing.ax, drawing.look
    x, top = marks.across(ax, 0.6 * look.font_size), ax.get_ylim()[1]
    for place, name in enumerate(names):
        sign = {"before": "○ before", "after": "▲ after"}[name]
        marks.say(drawing[f"{name} word"], sign, x, top - marks.up(ax, (0.7 + 1.4 * place) * look.font_size))


def mark(drawing: Drawing, scene: Scene, quantity: str, slope: float | None) -> None:
    """Draw a predicted gradient as a line through the same start, [rad/(m/s^2)]; None hides it."""
    for channel in CHANNELS.values():
        for name in ("guess", "guess word"):
            drawing.parts[channel][name].set_visible(slope is not None and channel == CHANNELS[quantity])
    part, found = drawing.parts[CHANNELS[quantity]], gradients_of(scene.analysis, quantity).get("before")
    if slope is None or found is None:
        return
    ends = np.array([0.0, scene.span.accel])
    angle = found.intercept + slope * ends
    part["guess"].set_data(to_display(ends, G), to_display(angle, "angle"))
    ax, look = part.ax, part.look
    marks.say(
        part["guess word"],
        "┄ your guess",
        marks.across(ax, 0.6 * look.font_size),
        ax.get_ylim()[1] - marks.up(ax, 3.5 * look.font_size),
    )
