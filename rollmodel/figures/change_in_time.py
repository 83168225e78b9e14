"""Two changes at one end against time: what a bar and what a damper move from the rear axle to the front."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from rollmodel.figures import guess, marks
from rollmodel.physics.shift import PHASES, instants, shifted_to_front
from rollmodel.physics.transient import RollHistory
from rollmodel.units import label, show, to_display

CHANGES = ("bar", "dampers")
NAMES = {"bar": "bar alone", "dampers": "dampers alone"}


@dataclass(frozen=True)
class Shifts:
    """Load transfer moved to the front by each change alone, [N], with the scales it is drawn to."""

    time: np.ndarray  # s
    bar: np.ndarray
    dampers: np.ndarray
    at: dict[str, int]  # instant at which each phase is read
    borders: tuple[float, float, float]  # end of the way in, start and end of the way out, s
    reach: float  # where the scale of time ends, s
    room: tuple[float, float]  # of the scale of load, N

    def of(self, change: str, phase: str) -> float:
        """What a change moves at the instant by which a phase is read, [N]."""
        return float(getattr(self, change)[self.at[phase]])


def of_histories(before: RollHistory, bar: RollHistory, dampers: RollHistory, reach=None,
                 room=None) -> Shifts:
    """The same corner as the car stands, with the bar changed alone, and with the dampers changed alone."""
    plan = before.build_up
    shifts = [shifted_to_front(before, after) for after in (bar, dampers)]
    low, high = (float(reach_of(shifts)) for reach_of in (np.min, np.max))
    margin = 0.2 * max(high - low, 1.0)
    return Shifts(before.time, *shifts, instants(before),
                  (plan.rise_time, plan.release_starts, plan.release_ends),
                  reach or float(before.time[-1]), room or (low - margin, high + margin))


def draw(ax_or_figure, shifts: Shifts, look, family="metric") -> marks.Drawing:
    """Lay out both lines over one nil line; scales are those of this result and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=5.2, top=2.6)
    marks.scales(ax, look, f"time ({label('time', family)})",
                 f"moved to the front ({label('load', family)})")
    ax.set(xlim=(0, shifts.reach), ylim=to_display(np.array(shifts.room), "load", family))
    ax.axhline(0, color=marks.GREY, linewidth=look.line_width / 2, zorder=0.6)
    parts["borders"] = marks.stroke(ax, look, thickness=0.5, linestyle=(0, (3, 2)), zorder=1)
    parts["phases"] = [marks.words(ax, look, text=name, ground=None, va="baseline") for name in PHASES]
    for change in CHANGES:
        parts[change] = marks.stroke(ax, look, change, 1.3)
        parts[f"{change} read"] = marks.dots(ax, look, change, hollow=change == "dampers")
        parts[f"{change} values"] = [marks.words(ax, look, role=change, small=True) for _ in PHASES]
        parts[f"{change} values"][1].set_ha("right")  # clear of the way out
        parts[f"{change} word"] = marks.words(ax, look, role=change, ha="right")
    parts["guess"] = marks.stroke(ax, look, "guess", 1.2, zorder=3.5, visible=False)
    parts["guess word"] = marks.words(ax, look, role="guess", text="your guess", small=True, ground=None,
                                      ha="left", visible=False)
    update(drawing, shifts)
    return drawing


def update(drawing: marks.Drawing, shifts: Shifts) -> None:
    """Other changes or another corner on the same scales."""
    ax, look = drawing.ax, drawing.look
    low, high = ax.get_ylim()
    borders = [0.0, *shifts.borders]
    drawing["borders"].set_data(np.repeat(borders[1:], 3), np.tile([low, high, np.nan], 3))
    middles = [(a + b) / 2 for a, b in pairwise(borders)]
    places = marks.spread(middles, [marks.width_of(text) for text in drawing["phases"]], *ax.get_xlim(),
                          marks.across(ax, 0.7 * look.font_size))
    for text, x in zip(drawing["phases"], places, strict=True):
        text.set_position((x, high + marks.up(ax, 0.6 * look.font_size)))
    for change in CHANGES:
        values = to_display(getattr(shifts, change), "load", drawing.family)
        drawing[change].set_data(shifts.time, values)
        read = list(shifts.at.values())
        drawing[f"{change} read"].set_data(shifts.time[read], values[read])
        _name(drawing, shifts, change)


def _name(drawing, shifts, change):
    """The values at the three points, and the change's name beside the middle one."""
    ax, look, other = drawing.ax, drawing.look, CHANGES[1 - CHANGES.index(change)]
    for text, phase in zip(drawing[f"{change} values"], PHASES, strict=True):
        value, beside = shifts.of(change, phase), shifts.of(other, phase)
        up = 1 if value > beside or (value == beside and change == CHANGES[0]) else -1
        steep = phase == PHASES[0]  # both lines rise there: the lower value stands below nil
        foot = min(value, 0.0) if up < 0 and steep else value
        x, y = shifts.time[shifts.at[phase]], to_display(foot, "load", drawing.family)
        marks.say(text, signed(value, drawing.family), x, y + up * marks.up(ax, 1.1 * look.font_size))
    middle = drawing[f"{change} values"][1]
    x, y = middle.get_position()
    middle.set_x(x + marks.across(ax, 0.3 * look.font_size))
    above = y > to_display(shifts.of(change, "middle"), "load", drawing.family)
    drop = 0.0 if above else marks.up(ax, 1.2 * look.font_size)  # clear of a value below nil on the way in
    marks.say(drawing[f"{change} word"], NAMES[change], x - marks.width_of(middle) - marks.across(
        ax, 0.6 * look.font_size), y - drop)


def signed(value: float, family: str) -> str:
    """A load with its sign; nil has none."""
    shown = show(value, "load", family)
    return shown if shown.startswith("-") or float(shown.split()[0]) == 0 else f"+{shown}"


def mark(drawing: marks.Drawing, load: float | None) -> None:
    """Draw a predicted load across the middle of the corner, [N]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(load is not None)
    if load is not None:
        ax = drawing.ax
        where = guess.place(to_display(load, "load", drawing.family), ax.get_ylim())
        start, end = drawing["borders"].get_xdata()[[0, 3]]
        guess.level(drawing["guess"], where, start, end, start + marks.across(ax, drawing.look.font_size))
        step = marks.up(ax, (-0.6 * where.way or 0.8) * drawing.look.font_size)
        gap = marks.across(ax, (2.0 if where.beyond else 0.4) * drawing.look.font_size)
        marks.say(drawing["guess word"], guess.words(where, load, "load", drawing.family), start + gap,
                  where.at + step)


def describe(shifts: Shifts, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def one(change):
        return ", ".join(f"{signed(shifts.of(change, phase), family)} on the {phase}".replace(
            "on the middle", "in the middle") for phase in PHASES)

    return (f"Load transfer moved from the rear axle to the front. By the bar change alone: {one('bar')}. "
            f"By the damper change alone: {one('dampers')}.")
