"""What each end can hold before and after a change, on two lines one above the other.

The same as ``before_after`` for a place that is wide and low: small changes show better lying down.
"""

from __future__ import annotations

import numpy as np

from rollmodel.figures import before_after, guess, marks
from rollmodel.figures.before_after import ENDS, Change, G, compare
from rollmodel.units import label, to_display

__all__ = ["Change", "compare", "describe", "draw", "mark", "update"]

LINES = {"front": 1.0, "rear": 0.0}
describe = before_after.describe


def draw(ax_or_figure, change: Change, look, family="metric") -> marks.Drawing:
    """Lay out both lines; the scale is that of this result and stays."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=3.4, right=1.0, bottom=3.0, top=4.0)
    marks.scales(ax, look, f"what each end can hold ({label(G, family)})")
    ax.set(xlim=to_display(np.array(change.span), G, family), ylim=(-0.6, 1.6))
    ax.set_yticks(list(LINES.values()), ENDS)
    ax.tick_params(axis="y", length=0, labelsize=look.font_size)
    for end, text in zip(ENDS, ax.get_yticklabels(), strict=True):
        text.set_color(marks.ink(look.colours[end]))
    ax.spines["left"].set_visible(False)
    ax.hlines(
        list(LINES.values()), *ax.get_xlim(), color=marks.METAL, linewidth=2 * look.line_width, zorder=1
    )
    parts["car"] = marks.stroke(ax, look, thickness=0.5, linestyle=(0, (2, 2)), zorder=2)
    for end in ENDS:
        _add_line(drawing, end)
    parts["guess"] = marks.stroke(ax, look, "guess", thickness=1.2, zorder=2.5, visible=False)
    parts["guess word"] = marks.words(
        ax, look, role="guess", text="your guess", small=True, ground=None, visible=False
    )
    top = ax.get_ylim()[1]
    middle = np.mean(ax.get_xlim()) - marks.across(ax, 1.2 * look.font_size)
    parts["verdict"] = marks.words(
        ax, look, middle, top + marks.up(ax, 3.2 * look.font_size), fontweight="bold"
    )
    parts["earlier"] = marks.words(ax, look, middle, top + marks.up(ax, 1.85 * look.font_size))
    update(drawing, change)
    return drawing


def _add_line(drawing, end):
    ax, look, parts = drawing.ax, drawing.look, drawing.parts
    parts[f"{end} before"] = marks.stroke(
        ax, look, end, 1.0, linestyle=(0, (1.5, 1)), zorder=3, solid_capstyle="butt"
    )
    parts[f"{end} after"] = marks.stroke(ax, look, end, 2.2, linestyle="-", solid_capstyle="butt", zorder=4)
    parts[f"{end} move"] = marks.arrow(ax, look, end, 1.0)
    parts[f"{end} before word"] = marks.words(ax, look, small=True, va="top")
    parts[f"{end} after word"] = marks.words(ax, look, role=end, va="bottom")


def update(drawing: marks.Drawing, change: Change) -> None:
    """Other limits on the same scale."""
    for end in ENDS:
        _line(drawing, change, end)
    held = to_display(change.after.lower, G, drawing.family)
    drawing["car"].set_data([held, held], drawing.ax.get_ylim())
    drawing["verdict"].set_text(before_after.verdict(change, change.after, drawing.family))
    drawing["earlier"].set_text(before_after.earlier(change, drawing.family))


def _line(drawing, change, end):
    """One end's two levels, the arrow between them, the value after above and the value before below."""
    at, family, ax = LINES[end], drawing.family, drawing.ax
    values = [one.of(end) for one in (change.before, change.after)]
    before, after = (to_display(value, G, family) for value in values)
    drawing[f"{end} before"].set_data([before, before], [at - 0.42, at])
    drawing[f"{end} after"].set_data([after, after], [at - 0.05, at + 0.42])
    marks.point(
        drawing[f"{end} move"], (before, at), (after, at), marks.across(ax, 0.4 * drawing.look.font_size)
    )
    texts = [change.shown(value, family) if np.isfinite(value) else "" for value in values]
    moved = texts[0] != texts[1]
    drawing[f"{end} before"].set_visible(moved)
    places = (
        ("before", before, at - 0.08, moved and bool(texts[0])),
        ("after", after, at + 0.1, bool(texts[1])),
    )
    for when, x, y, shown in places:
        text = drawing[f"{end} {when} word"]
        side = 1 if after >= before else -1
        _beside(text, texts[when == "after"], x, y, -side if when == "before" else side, shown)


def _beside(text, words, x, y, side, shown):
    """The words just beyond their level, on the side away from the other one, or where there is room."""
    low, high = text.axes.get_xlim()
    x, gap = (x if np.isfinite(x) else low), marks.across(text.axes, 0.5 * text.get_fontsize())
    marks.say(text, words, x, y, visible=shown)
    room = low < x + side * (gap + marks.width_of(text)) < high
    side = side if room else -side
    text.set(x=x + side * gap, ha="left" if side > 0 else "right")


def mark(drawing: marks.Drawing, end: str, limit: float | None) -> None:
    """Draw a predicted limit of one end as a short upright line, [m/s^2]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(limit is not None)
    if limit is not None:
        ax, family = drawing.ax, drawing.family
        where = guess.place(to_display(limit, G, family), ax.get_xlim())
        guess.upright(drawing["guess"], where, LINES[end] - 0.6, LINES[end] + 0.6)
        # Above all that stands on the lines or below it: the words of a guess off the scale are long.
        over = end == "front" or where.beyond
        y = ax.get_ylim()[1] + marks.up(ax, 0.6 * drawing.look.font_size) if over else LINES[end] - 0.48
        whose = f"{end}: " if where.beyond else ""
        _beside(drawing["guess word"], whose + guess.words(where, limit, G, family), where.at, y, 1, True)
