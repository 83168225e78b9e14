"""Load transfer at each end by the path it takes, end on end, and where the inside wheel lifts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.adding_up import as_shown, parts_as_shown, wheel_loads
from rollmodel.car import Car
from rollmodel.figures import marks
from rollmodel.physics.corner import AxleLoads, settled_corner
from rollmodel.physics.stiffness import AxleStiffness
from rollmodel.units import label, show, to_display

ENDS = ("front", "rear")
NAMES = ("springs and bar", "links", "unsprung")


@dataclass(frozen=True)
class Paths:
    """Load transfer of one axle, [N]: its parts in the order of ``NAMES``, and where it is capped."""

    parts: tuple[float, float, float]
    total: float
    cap: float  # half the axle's load: there the inside wheel lifts
    lifted: bool
    beside_wheels: bool = False  # whether both wheels' loads are printed beside it

    def total_shown(self, family: str) -> float:
        """The total as it is printed: beside both wheels' loads as it adds up with them, [N]."""
        if self.beside_wheels:
            return wheel_loads(self.cap - self.total, self.cap + self.total, family)[2]
        return as_shown(self.total, "load", family)

    def shown(self, family: str) -> tuple[float, ...]:
        """The parts rounded so that as printed they add up to the total as printed, [N].

        What the total is off by its own rounding goes to the part that is then nearest to itself.
        """
        printed = list(parts_as_shown(self.parts, "load", family))
        missing = self.total_shown(family) - sum(printed)
        off = [(true - shown) * missing for true, shown in zip(self.parts, printed, strict=True)]
        printed[off.index(max(off))] += missing
        return tuple(printed)


@dataclass(frozen=True)
class BothEnds:
    lateral_acceleration: float  # m/s^2
    front: Paths
    rear: Paths
    room: tuple[float, float]  # least and most that the scale shows, N

    def end(self, name: str) -> Paths:
        return {"front": self.front, "rear": self.rear}[name]


def in_corner(car: Car, lateral_acceleration: float, front: AxleStiffness | None = None,
              rear: AxleStiffness | None = None, room: tuple[float, float] | None = None,
              beside_wheels: bool = False) -> BothEnds:
    """Both axles in a settled corner.

    Parameters
    ----------
    car : Car
    lateral_acceleration : float
        [m/s^2].
    front, rear : AxleStiffness, optional
        Other setups than the car's own; single numbers.
    room : pair of float, optional
        What the scale shows; enough for both axles' caps when left out, [N].
    beside_wheels : bool, optional
        Whether the picture from above stands beside this one: the two print one load transfer.
    """
    corner = settled_corner(car, lateral_acceleration, front, rear)
    ends = [_paths(corner.axle(end), car.axle_weight(end) / 2, beside_wheels) for end in ENDS]
    most = max(end.cap for end in ends)
    least = min(0.0, *(part for end in ends for part in end.parts))
    return BothEnds(lateral_acceleration, *ends, room or (1.3 * least - 0.03 * most, 1.06 * most))


def _paths(loads: AxleLoads, cap: float, beside_wheels: bool) -> Paths:
    parts = tuple(float(part) for part in (loads.elastic, loads.geometric, loads.unsprung))
    return Paths(parts, float(loads.load_transfer), cap, bool(loads.lifted), beside_wheels)


def draw(ax_or_figure, both: BothEnds, look, family="metric") -> marks.Drawing:
    """Lay out two rows; the scale is the ``room`` of this result and stays."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=1.6, right=1.8, top=2.4)
    unit = label("load", family)
    marks.scales(ax, look, f"load from the inside to the outside wheel ({unit})")
    tall = marks.size_in_points(ax)[1] / look.font_size  # up is measured in type sizes
    ax.set(xlim=to_display(np.array(both.room), "load", family), ylim=(0, tall), yticks=[])
    ax.spines["left"].set_visible(False)
    drawing.fixed["rows"] = {"front": 0.5 * tall + 0.2, "rear": 0.2}
    drawing.fixed["bar"] = min(0.5 * tall - 5.2, 2.6)
    parts["title"] = marks.outside(ax, look, "", (0.5, 1), (0, 1.5 * look.font_size))
    for end in ENDS:
        _add_row(drawing, end)
        _make_room(drawing, both.end(end), end)
    update(drawing, both)
    return drawing


def _add_row(drawing, end):
    ax, look, parts = drawing.ax, drawing.look, drawing.parts
    parts[f"{end} bars"] = [marks.path_face(ax, look, name) for name in NAMES]
    parts[f"{end} leaders"] = [marks.stroke(ax, look, thickness=0.4, color=marks.GREY) for _ in NAMES]
    parts[f"{end} names"] = [marks.words(ax, look, small=True, va="top") for _ in NAMES]
    parts[f"{end} total"] = marks.stroke(ax, look, end, 1.6, linestyle="-", zorder=5)
    parts[f"{end} words"] = marks.words(ax, look, role=end, ha="left", va="bottom")
    parts[f"{end} cap"] = marks.stroke(ax, look, thickness=0.8, linestyle=(0, (2, 1)), zorder=4)
    parts[f"{end} cap words"] = marks.words(ax, look, small=True, ha="right", va="bottom")


def _make_room(drawing, paths, end):
    """Total and cap share a line: where it is too short, the cap's words go right of their mark, or the total
    says less."""
    total, words, family = drawing[f"{end} words"], drawing[f"{end} cap words"], drawing.family
    marks.say(words, f"lifts at {show(paths.cap, 'load', family)}", 0, 0)
    marks.say(total, _total(end, show(paths.cap, "load", family), True), 0, 0)
    gap, cap = marks.across(drawing.ax, 0.5 * drawing.look.font_size), to_display(paths.cap, "load", family)
    fits = marks.width_of(total) + marks.width_of(words) + gap < cap
    room = cap + gap + marks.width_of(words) < drawing.ax.get_xlim()[1] and marks.width_of(total) + gap < cap
    drawing.fixed[f"{end} roomy"] = bool(fits or room)
    beside = bool(room and not fits)
    words.set_ha("left" if beside else "right")
    drawing.fixed[f"{end} off"] = gap if beside else 0.0


def _total(end, load, roomy):
    return f"{end}: {load} in all" if roomy else f"{end}: {load}"


def update(drawing: marks.Drawing, both: BothEnds) -> None:
    """Move bars and words to another corner or setup."""
    for end in ENDS:
        _move_row(drawing, both.end(end), end)
    at = show(both.lateral_acceleration, "lateral acceleration", drawing.family, 2)
    drawing["title"].set_text(f"Load transfer by its three paths at {at}")


def _stacked(parts):
    """Start and end of each part: gains to the right of nil, a loss to its left."""
    parts = np.asarray(parts, float)
    ends = np.where(parts >= 0, np.cumsum(np.maximum(parts, 0)), np.cumsum(np.minimum(parts, 0)))
    return np.column_stack([ends - parts, ends])


def _move_row(drawing, paths, end):
    base, high = drawing.fixed["rows"][end] + 2.6, drawing.fixed["bar"]
    low, top = base + 0.4, base + 0.4 + high
    spans = to_display(_stacked(paths.parts), "load", drawing.family)
    for bar, (left, right) in zip(drawing[f"{end} bars"], spans, strict=True):
        bar.set_xy(marks.box((left + right) / 2, (low + top) / 2, right - left, high))
    _name_parts(drawing, paths, end, spans.mean(axis=1), low)
    total, cap = (to_display(v, "load", drawing.family) for v in (paths.total, paths.cap))
    drawing[f"{end} total"].set_data([total, total], [low - 0.2, top + 0.2])
    drawing[f"{end} cap"].set_data([cap, cap], [low - 0.2, top + 0.4])
    whole = show(paths.total_shown(drawing.family), "load", drawing.family)
    marks.say(drawing[f"{end} words"], _total(end, whole, drawing.fixed[f"{end} roomy"]), 0, top + 0.3)
    lifts = "wheel is up" if paths.lifted else f"lifts at {show(paths.cap, 'load', drawing.family)}"
    marks.say(drawing[f"{end} cap words"], lifts, cap + drawing.fixed[f"{end} off"], top + 0.4)


def _name_parts(drawing, paths, end, centres, low):
    """Names under the bars, moved apart where they would touch, each led to its own part."""
    names, leaders = drawing[f"{end} names"], drawing[f"{end} leaders"]
    for text, name, value in zip(names, NAMES, paths.shown(drawing.family), strict=True):
        text.set_text(f"{name}\n{show(value, 'load', drawing.family)}")
    least, most = drawing.ax.get_xlim()
    order = np.argsort(centres, kind="stable")
    widths = np.array([marks.width_of(text) for text in names])
    gap = 0.015 * (most - least)
    places = np.empty(len(NAMES))
    places[order] = marks.spread(centres[order], widths[order], least, most, gap)
    for text, leader, centre, place in zip(names, leaders, centres, places, strict=True):
        text.set_position((place, low - 0.65))
        leader.set_data([centre, place], [low - 0.05, low - 0.6])


def describe(both: BothEnds, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def one(end):
        paths = both.end(end)
        springs, links, unsprung = (show(value, "load", family) for value in paths.shown(family))
        parts = f"{springs} through springs and bar, {links} through links, {unsprung} from unsprung mass"
        state = "; its inside wheel is off the ground" if paths.lifted else ""
        return f"{end} {show(paths.total_shown(family), 'load', family)} ({parts}){state}"

    at = show(both.lateral_acceleration, "lateral acceleration", family, 2)
    return f"Load transfer at {at}: {one('front')}; {one('rear')}. Bars act on the first part alone."
