"""A corner against time: each axle's load transfer in four parts laid on one another.

The dampers lie next to nil, so that they are seen adding on the way in and taking away on the way
out; the others lie on them. What is lost hangs below nil, and the line is the whole.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from matplotlib.ticker import MaxNLocator

from rollmodel.figures import guess, marks
from rollmodel.physics.transient import RollHistory
from rollmodel.units import label, show, to_display

ENDS = ("front", "rear")
ORDER = ("dampers", "unsprung", "links", "springs and bar")  # from nil outwards
PHASES = ("way in", "middle", "way out")


@dataclass(frozen=True)
class InTime:
    """A history with the scales it is drawn to."""

    history: RollHistory
    reach: float  # where the scale of time ends, s
    room: tuple[float, float]  # least and most load transfer that the scales show, N

    def damper_peaks(self, end: str) -> tuple[float, float]:
        """The dampers' largest part on the way in and on the way out, [N]."""
        dampers = self.history.axle(end).dampers
        return float(dampers.max()), float(dampers.min())

    def in_the_middle(self, end: str, part: str) -> float:
        """One part just before the corner is let go, [N]."""
        return float(self.history.axle(end).parts[part][self.history.middle])


def of_history(history: RollHistory, reach: float | None = None, room=None) -> InTime:
    """A history on scales of its own: its whole time, and up to the load that lifts a wheel."""
    most = max(history.front.half_weight, history.rear.half_weight)
    return InTime(history, reach or float(history.time[-1]), room or (-0.25 * most, 1.05 * most))


def draw(ax_or_figure, corner: InTime, look, family="metric") -> marks.Drawing:
    """Lay out front over rear; scales are those of this result and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    marks.frame(drawing.ax, look, left=5.2, top=4.1)
    panels = marks.split(drawing.ax, 2, 1.7 * look.font_size / marks.size_in_points(drawing.ax)[1])
    _key(drawing.ax, look)
    for end, ax in zip(ENDS, panels, strict=True):
        marks.scales(ax, look, f"time ({label('time', family)})" if end == ENDS[-1] else "")
        ax.set(xlim=(0, corner.reach), ylim=to_display(np.array(corner.room), "load", family))
        ax.yaxis.set_major_locator(MaxNLocator(3))
        ax.tick_params(labelbottom=end == ENDS[-1])
        ax.axhline(0, color=marks.GREY, linewidth=look.line_width / 2, zorder=0.6)
        _add_axle(drawing, ax, end)
    marks.outside(drawing.ax, look, f"load transfer ({label('load', family)})", (0, 0.5),
                  (-4.4 * look.font_size, 0), rotation=90)
    drawing.parts["guess"] = [marks.stroke(ax, look, "guess", 1.2, zorder=4.5, visible=False)
                              for ax in panels]
    drawing.parts["guess word"] = [marks.words(ax, look, role="guess", text="your guess", small=True,
                                               ground=None, ha="left", visible=False) for ax in panels]
    drawing.parts["phases"] = [marks.words(panels[0], look, text=name, small=True, ground=None, va="baseline")
                               for name in PHASES]
    update(drawing, corner)
    return drawing


def _key(ax, look):
    """One row over the picture: each part's surface and its name."""
    em = look.font_size / marks.size_in_points(ax)[0]
    row = marks.inset(ax, (0, 1 + 2.5 * look.font_size / marks.size_in_points(ax)[1], 1, 0.08))
    row.set_axis_off()
    row.set(xlim=(0, 1), ylim=(-1, 1))
    x = 0.0
    for name in ("springs and bar", "dampers", "links", "unsprung"):
        marks.path_face(row, look, name).set_xy(marks.box(x + 0.7 * em, 0, 1.4 * em, 1.1))
        text = marks.words(row, look, x + 1.8 * em, 0, name, small=True, ha="left", va="center_baseline")
        x += 2.9 * em + marks.width_of(text)


def _add_axle(drawing, ax, end):
    look, parts = drawing.look, drawing.parts
    for way in ("gains", "losses"):
        parts[f"{end} {way}"] = [marks.path_face(ax, look, name, zorder=2, linewidth=0) for name in ORDER]
    parts[f"{end} whole"] = marks.stroke(ax, look, end, 1.1, linestyle="-", zorder=4)
    parts[f"{end} borders"] = marks.stroke(ax, look, thickness=0.5, linestyle=(0, (3, 2)), zorder=1)
    above = (1.7 if end == ENDS[0] else 0.75) * look.font_size
    parts[f"{end} words"] = marks.outside(ax, look, "", (0, 1), (0, above), ha="left", fontsize=look.small,
                                          color=marks.ink(look.colours[end]))
    drawing.fixed[end] = ax


def update(drawing: marks.Drawing, corner: InTime) -> None:
    """Another corner or car on the same scales."""
    plan = corner.history.build_up
    borders = [plan.rise_time, plan.release_starts, plan.release_ends]
    for end in ENDS:
        _areas(drawing, corner, end)
        low, high = drawing.fixed[end].get_ylim()
        drawing[f"{end} borders"].set_data(np.repeat(borders, 3), np.tile([low, high, np.nan], 3))
        drawing[f"{end} words"].set_text(_words(corner, end, drawing.family))
    _name_phases(drawing, [0.0, *borders])


def _areas(drawing, corner, end):
    """Gains piled up from nil, losses hung down from it, and the line of the whole."""
    axle, time = corner.history.axle(end), corner.history.time
    parts = to_display(np.array([axle.parts[name] for name in ORDER]), "load", drawing.family)
    there_and_back = np.append(time, time[::-1])
    for way, piled in (("gains", np.maximum(parts, 0)), ("losses", np.minimum(parts, 0))):
        sums = np.vstack([np.zeros_like(time), np.cumsum(piled, axis=0)])
        for area, (near, far) in zip(drawing[f"{end} {way}"], pairwise(sums), strict=True):
            area.set_xy(np.column_stack([there_and_back, np.append(near, far[::-1])]))
    drawing[f"{end} whole"].set_data(time, parts.sum(axis=0))


def _name_phases(drawing, borders):
    ax, texts = drawing.fixed["front"], drawing["phases"]
    middles = [(a + b) / 2 for a, b in pairwise(borders)]
    widths = [marks.width_of(text) for text in texts]
    places = marks.spread(middles, widths, *ax.get_xlim(), marks.across(ax, 0.5 * drawing.look.font_size))
    for text, x in zip(texts, places, strict=True):
        text.set_position((x, ax.get_ylim()[1] + marks.up(ax, 0.3 * drawing.look.font_size)))


def _words(corner, end, family):
    most, least = (show(abs(force), "load", family) for force in corner.damper_peaks(end))
    middle = show(corner.in_the_middle(end, "dampers"), "load", family)
    return f"{end}: dampers +{most} in, {middle} in the middle, -{least} out"


def mark(drawing: marks.Drawing, end: str, load: float | None) -> None:
    """Draw a predicted load of one end across the picture, counted from nil, [N]; None hides it."""
    which, ax = ENDS.index(end), drawing.fixed[end]
    line, word = drawing["guess"][which], drawing["guess word"][which]
    for artist in (line, word):
        artist.set_visible(load is not None)
    if load is not None:
        low, high = ax.get_xlim()
        where = guess.place(to_display(load, "load", drawing.family), ax.get_ylim())
        guess.level(line, where, low, high, high - marks.across(ax, drawing.look.font_size))
        marks.say(word, guess.words(where, load, "load", drawing.family))
        step = marks.up(ax, (-0.6 * where.way or 0.8) * drawing.look.font_size)
        right = high - marks.across(ax, 2.0 * drawing.look.font_size) if where.beyond else high
        word.set_position((right - marks.width_of(word), where.at + step))


def describe(corner: InTime, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def one(end):
        most, least = (show(force, "load", family) for force in corner.damper_peaks(end))
        middle, springs = (show(corner.in_the_middle(end, part), "load", family)
                           for part in ("dampers", "springs and bar"))
        return (f"{end} the dampers carry up to {most} on the way in, {middle} in the middle and {least} on "
                f"the way out; springs and bar carry {springs} in the middle")

    return f"A corner against time. At the {one('front')}. At the {one('rear')}."
