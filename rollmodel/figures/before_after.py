"""Two posts, front and rear, with the level that each end can hold before and after a change."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np

from rollmodel.adding_up import as_shown, change_as_shown, more_digits
from rollmodel.car import GRAVITY, Car
from rollmodel.figures import guess, marks
from rollmodel.physics.balance import Limits, limits
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.units import KINDS, label, show, to_display

ENDS = ("front", "rear")
POSTS = {"front": 1.0, "rear": 3.0}
G = "lateral acceleration"


@dataclass(frozen=True)
class Levels:
    """What one setup can hold, [m/s^2]; an end is nan where the car rolls over first."""

    front: float
    rear: float
    lower: float
    end: str  # "front", "rear" or "rollover"

    def of(self, end: str) -> float:
        return {"front": self.front, "rear": self.rear}[end]


@dataclass(frozen=True)
class Change:
    before: Levels
    after: Levels
    span: tuple[float, float]  # of the scale, m/s^2

    def more(self, family: str) -> int:
        """Digits more than usual, where two of the limits would print alike though they differ."""
        was, now = self.before, self.after
        pairs = [(one.front, one.rear) for one in (was, now)]
        pairs += [(was.front, now.front), (was.rear, now.rear), (was.lower, now.lower)]
        return max(more_digits(*pair, G, family) for pair in pairs)

    def shown(self, value: float, family: str) -> str:
        """One of the limits as text, to the digit in which they differ."""
        more = self.more(family)
        return show(as_shown(value, G, family, more), G, family, KINDS[G].unit(family).decimals + more)


def levels(held: Limits) -> Levels:
    """The levels of one setup from its limits."""
    return Levels(float(held.front), float(held.rear), float(held.lower), str(held.end))


@lru_cache(maxsize=32)
def span_for(car: Car, driven: bool = False) -> tuple[float, float]:
    """A scale that holds the limits of a car on its softest and stiffest holes, [m/s^2]."""
    ends = [{1, axle.positions} if axle.bar else {None} for axle in (car.front, car.rear)]
    found = [limits(car, axle_stiffness(car.front, f), axle_stiffness(car.rear, r), driven)
             for f, r in product(*ends)]
    values = [float(v) for one in found for v in (one.front, one.rear, one.lower) if np.isfinite(v)]
    margin = max(0.3 * (max(values) - min(values)), 0.01 * GRAVITY)
    return min(values) - margin, max(values) + margin


def compare(car: Car, before: tuple, after: tuple, driven: bool = False, span=None) -> Change:
    """Two setups of a car, each as (front, rear) stiffness; the scale by :func:`span_for` when left out."""
    return Change(*(levels(limits(car, *setup, driven)) for setup in (before, after)),
                  span or span_for(car, driven))


def draw(ax_or_figure, change: Change, look, family="metric") -> marks.Drawing:
    """Lay out both posts; the scale is that of this result and stays."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=5.4, right=1.0, bottom=2.4, top=3.6)
    unit = label(G, family)
    marks.scales(ax, look, "", f"what it can hold ({unit})")
    ax.set(xlim=(0, 4), ylim=to_display(np.array(change.span), G, family))
    ax.set_xticks(list(POSTS.values()), ENDS)
    ax.tick_params(axis="x", length=0, labelsize=look.font_size)
    ax.vlines(list(POSTS.values()), *ax.get_ylim(), color=marks.METAL, linewidth=2 * look.line_width,
              zorder=1)
    parts["car"] = marks.stroke(ax, look, thickness=0.5, linestyle=(0, (2, 2)), zorder=2)
    for end in ENDS:
        parts[f"{end} before"] = marks.stroke(ax, look, end, 1.0, linestyle=(0, (1.5, 1)), zorder=3,
                                              solid_capstyle="butt")
        parts[f"{end} after"] = marks.stroke(ax, look, end, 2.2, linestyle="-", solid_capstyle="butt",
                                             zorder=4)
        parts[f"{end} move"] = marks.arrow(ax, look, end, 1.0)
        parts[f"{end} before word"] = marks.words(ax, look, small=True, ha="right")
        parts[f"{end} after word"] = marks.words(ax, look, role=end, ha="left")
    parts["guess"] = marks.stroke(ax, look, "guess", zorder=2.5, visible=False)
    parts["guess word"] = marks.words(ax, look, x=2, role="guess", text="your guess", visible=False)
    top = ax.get_ylim()[1]
    parts["verdict"] = marks.words(ax, look, 2, top + marks.up(ax, 2.5 * look.font_size), fontweight="bold")
    parts["earlier"] = marks.words(ax, look, 2, top + marks.up(ax, 1.1 * look.font_size))
    update(drawing, change)
    return drawing


def update(drawing: marks.Drawing, change: Change) -> None:
    """Other limits on the same scale."""
    for end in ENDS:
        _post(drawing, change, end)
    low = to_display(change.after.lower, G, drawing.family)
    drawing["car"].set_data([0, 4], [low, low])
    drawing["verdict"].set_text(verdict(change, change.after, drawing.family))
    drawing["earlier"].set_text(earlier(change, drawing.family))


def unmoved(change):
    return np.allclose([change.before.of(end) for end in ENDS], [change.after.of(end) for end in ENDS],
                       rtol=0, atol=1e-9, equal_nan=True)


def earlier(change, family):
    """What held before the change."""
    return "as before" if unmoved(change) else f"before: {verdict(change, change.before, family).lower()}"


def verdict(change, one, family):
    """Which end of one of the two setups gives up first, and where."""
    held = change.shown(one.lower, family)
    if one.end == "rollover":
        return f"The car rolls over at {held}"
    return f"The {one.end} gives up first, at {held}"


def _post(drawing, change, end):
    """One post's two levels, the arrow between them, and their values on either side."""
    at, family = POSTS[end], drawing.family
    values = [one.of(end) for one in (change.before, change.after)]
    before, after = (to_display(value, G, family) for value in values)
    drawing[f"{end} before"].set_data([at - 0.3, at], [before, before])
    drawing[f"{end} after"].set_data([at, at + 0.3], [after, after])
    marks.point(drawing[f"{end} move"], (at, before), (at, after),
                marks.up(drawing.ax, 0.4 * drawing.look.font_size))
    texts = [change.shown(value, family) if np.isfinite(value) else "" for value in values]
    moved = texts[0] != texts[1]
    marks.say(drawing[f"{end} before word"], f"before\n{texts[0]}" if texts[0] else "", at - 0.36,
              before if np.isfinite(before) else 0.0, visible=moved and bool(texts[0]))
    marks.say(drawing[f"{end} after word"], texts[1], at + 0.36, after if np.isfinite(after) else 0.0,
              visible=bool(texts[1]))
    drawing[f"{end} before"].set_visible(moved)


def mark(drawing: marks.Drawing, limit: float | None) -> None:
    """Draw a predicted limit of the car as a level line, [m/s^2]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(limit is not None)
    if limit is not None:
        family = drawing.family
        where = guess.place(to_display(limit, G, family), drawing.ax.get_ylim())
        guess.level(drawing["guess"], where, 0, 4)
        away = where.way * marks.up(drawing.ax, 1.6 * drawing.look.font_size)
        marks.say(drawing["guess word"], guess.words(where, limit, G, family, "\n"), y=where.at - away)


def describe(change: Change, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def ends(one):
        return " and ".join(f"{end} {change.shown(one.of(end), family)}" for end in ENDS
                            if np.isfinite(one.of(end))) or "neither end gives up before that"

    if unmoved(change):
        return f"{verdict(change, change.after, family)} ({ends(change.after)}); nothing has changed."
    gain = change_as_shown(change.before.lower, change.after.lower, G, family, change.more(family))
    moved = change.shown(abs(gain), family)
    way = f"{'gains' if gain > 0 else 'loses'} {moved}"
    if float(moved.split()[0]) == 0:
        way = "neither gains nor loses"
    return (f"Before: {verdict(change, change.before, family).lower()} ({ends(change.before)}). After: "
            f"{verdict(change, change.after, family).lower()} ({ends(change.after)}). The car {way}.")
