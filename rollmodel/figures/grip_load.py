"""The grip-load curve: what an uneven pair loses, seen as the gap under a chord.

Both pairs of tyres lie on one curve. The middle of the chord between a pair's two points is what
its tyres give on average; the curve above it is what they would give sharing the load evenly. The
gap is small beside the whole, so each has a magnified view with the same scale both ways. Both tyres
of a pair work at one slip angle, the best for the two together, so a point may lie a hair under the curve.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from rollmodel.car import Car, Tyre
from rollmodel.figures import guess, marks
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.pair import largest_axle_force
from rollmodel.physics.stiffness import AxleStiffness
from rollmodel.physics.tyre import peak_side_force, side_force
from rollmodel.units import label, show, to_display

ENDS = ("front", "rear")
OTHER = {"front": "rear", "rear": "front"}


@dataclass(frozen=True)
class Pairs:
    """Loads of the two pairs on one tyre's curve, [N]. Pairs of numbers are inside and outside."""

    tyre: Tyre
    front: tuple[float, float]
    rear: tuple[float, float]
    limit: float | None = None  # of a car that cannot hold the corner asked for, drawn instead, m/s^2

    def forces(self, end: str) -> np.ndarray:
        """Side force of the inside and the outside tyre at the one slip angle best for both together, [N]."""
        return self._forces[ENDS.index(end)]

    @cached_property
    def _forces(self):
        inside, outside = np.transpose([getattr(self, end) for end in ENDS])
        slip = largest_axle_force(self.tyre, outside, inside)[1]
        return np.stack([side_force(self.tyre, slip, load) for load in (inside, outside)], axis=-1)

    def even(self, end: str) -> tuple[float, float]:
        """Mean load of the pair, and one tyre's peak side force at it, [N]."""
        load = sum(getattr(self, end)) / 2
        return load, float(peak_side_force(self.tyre, load))

    def loss(self, end: str) -> float:
        """What the two at one slip angle fall short of an evenly loaded pair, [N]."""
        return 2 * self.even(end)[1] - float(self.forces(end).sum())


def in_corner(car: Car, lateral_acceleration: float, front: AxleStiffness | None = None,
              rear: AxleStiffness | None = None) -> Pairs:
    """Both pairs in a settled corner; lateral acceleration in [m/s^2], single setups."""
    corner = settled_corner(car, lateral_acceleration, front, rear)
    return Pairs(car.tyre, *((float(corner.axle(e).inside), float(corner.axle(e).outside)) for e in ENDS))


LOUPES = {"front": (0.03, 0.57, 0.34, 0.26), "rear": (0.64, 0.175, 0.34, 0.26)}  # in parts of the axes
# Outside the view, where no leader runs: how high on its own scale, and which side of the words is there.
SAID = {"front": (0.68, "bottom"), "rear": (-1.33, "top")}


def draw(ax_or_figure, pairs: Pairs, look, family="metric") -> marks.Drawing:
    """Lay out curve, chords and magnified views; scales are settled by the heavier axle and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    unit = label("load", family)
    marks.frame(ax, look, left=4.9)
    marks.scales(ax, look, f"load on one tyre ({unit})", f"most side force ({unit})")
    top = 2.04 * max(pairs.even(end)[0] for end in ENDS)
    high = 1.1 * float(np.max(peak_side_force(pairs.tyre, np.linspace(0, top, 50))))
    ax.set(xlim=(0, _shown(top, family)), ylim=(0, _shown(high, family)))
    drawing.fixed.update(top=top, high=high, deep=max(_most_loss(pairs, end) for end in ENDS))
    parts["curve"] = marks.stroke(ax, look, zorder=3)
    for name in ("inside", "outside"):
        parts[name] = marks.words(ax, look, text=f"{name} wheels", small=True, ha="left")
    for end in ENDS:
        _add_pair(drawing, end)
    middle, above = np.mean(ax.get_xlim()), ax.get_ylim()[1] + marks.up(ax, 0.3 * look.font_size)
    parts["limit"] = marks.words(ax, look, middle, above, fontweight="bold")
    update(drawing, pairs)
    return drawing


def _shown(force, family):
    return to_display(force, "load", family)


def _most_loss(pairs, end):
    """What one tyre of a pair loses on average when the inside wheel has just lifted, [N]."""
    load, force = pairs.even(end)
    return force - float(peak_side_force(pairs.tyre, 2 * load)) / 2


def _add_pair(drawing, end):
    ax, look, parts = drawing.ax, drawing.look, drawing.parts
    parts[f"{end} chord"] = marks.stroke(ax, look, end, 0.8, zorder=4)
    parts[f"{end} pair"] = marks.dots(ax, look, end)
    parts[f"{end} leader"] = marks.stroke(ax, look, thickness=0.4, color=marks.GREY, zorder=2)
    loupe = marks.inset(ax, LOUPES[end])
    loupe.set(xticks=[], yticks=[], xlim=(-1, 1), ylim=(-1.25, 0.6))
    for spine in loupe.spines.values():
        spine.set(color=marks.GREY, linewidth=look.line_width / 2, zorder=0.5)
    drawing.fixed[f"{end} wide"] = _window(drawing, end)
    parts[f"{end} near curve"] = marks.stroke(loupe, look)
    parts[f"{end} near chord"] = marks.stroke(loupe, look, end)
    parts[f"{end} mean"] = marks.dots(loupe, look, end)
    parts[f"{end} even"] = marks.dots(loupe, look, hollow=True)
    parts[f"{end} gap"] = marks.arrow(loupe, look, thickness=0.7, style="<|-|>", zorder=5.5)
    parts[f"{end} guess"] = marks.stroke(loupe, look, "guess", zorder=4.5, visible=False)
    parts[f"{end} guess word"] = marks.words(loupe, look, role="guess", small=True, ha="left",
                                             visible=False)
    parts[f"{end} even word"] = marks.words(loupe, look, -0.12, 0.02, "even", small=True, ha="right",
                                            va="bottom")
    parts[f"{end} mean word"] = marks.words(loupe, look, text="this pair", small=True, ha="left", va="top")
    roomy = marks.width_of(parts[f"{end} mean word"]) < 0.85
    drawing.fixed[f"{end} word"] = "this pair" if roomy else "pair"
    side = -1 if end == "front" else 1  # flush with its outer edge: the words may be wider than the view
    level, va = SAID[end]
    parts[f"{end} words"] = marks.words(loupe, look, side, level, role=end, va=va,
                                        ha="left" if side < 0 else "right")


def _window(drawing, end):
    """Half the width of what a magnified view shows, so that it magnifies alike both ways, [N]."""
    _, _, wide, tall = LOUPES[end]
    per_height = 1.85 * drawing.fixed["deep"] / (tall * drawing.fixed["high"])
    return per_height * wide * drawing.fixed["top"] / 2


def update(drawing: marks.Drawing, pairs: Pairs) -> None:
    """Move the points, chords and gaps; scales stay as drawn."""
    loads = np.linspace(0, drawing.fixed["top"], 80)
    drawing["curve"].set_data(_shown(loads, drawing.family),
                              _shown(peak_side_force(pairs.tyre, loads), drawing.family))
    for end in ENDS:
        _move_pair(drawing, pairs, end)
        _move_loupe(drawing, pairs, end)
    _name_wheels(drawing, pairs)
    told = "" if pairs.limit is None else show(pairs.limit, "lateral acceleration", drawing.family)
    marks.say(drawing["limit"], f"Both pairs at the limit, {told}" if told else "")


def _name_wheels(drawing, pairs):
    """Words at the two groups of points, once they are well apart and clear of the magnified views."""
    top, high = drawing.fixed["top"], drawing.fixed["high"]
    inside, outside = (np.array([getattr(pairs, end)[n] for end in ENDS]) for n in range(2))
    peaks = np.array([pairs.forces(end) for end in ENDS])
    # Right of the curve between the two points; further off by half their distance, while that is little.
    off = 0.04 + min(0.05, float(np.ptp(inside)) / top / 2)
    low = (inside.mean() + off * top, max(0.05 * high, peaks[:, 0].mean()))
    far = outside.min() > 0.66 * top  # then there is room above the curve, else below it
    above, below = peaks[:, 1].max() + 0.04 * high, peaks[:, 1].min() - 0.02 * high
    places = {"inside": (*low, "left"), "outside": (outside.min() + (0 if far else 0.04 * top),
                                                    above if far else below, "right" if far else "left")}
    for name, (x, y, align) in places.items():
        marks.say(drawing[name], f"{name} wheels", _shown(x, drawing.family), _shown(y, drawing.family),
                  ha=align, visible=bool(np.min(outside - inside) > 0.25 * top))
        box = drawing[name].get_window_extent().padded(0.5 * drawing.look.small)
        views = [drawing[f"{end} words"] for end in ENDS]
        views += [view.axes.patch for view in views]
        if any(box.overlaps(view.get_window_extent()) for view in views):
            drawing[name].set_visible(False)


def _move_pair(drawing, pairs, end):
    x, y = (_shown(np.asarray(v), drawing.family) for v in (getattr(pairs, end), pairs.forces(end)))
    drawing[f"{end} chord"].set_data(x, y)
    drawing[f"{end} pair"].set_data(x, y)
    left, low, wide, tall = LOUPES[end]
    corner = drawing.ax.transAxes.transform((left + wide * (end == "front"), low + tall * (end == "rear")))
    even = [_shown(v, drawing.family) for v in pairs.even(end)]
    foot = drawing.ax.transData.inverted().transform(corner)
    drawing[f"{end} leader"].set_data(*np.transpose([even, foot]))


def _move_loupe(drawing, pairs, end):
    (inside, outside), peaks, (load, force) = getattr(pairs, end), pairs.forces(end), pairs.even(end)
    wide, deep = drawing.fixed[f"{end} wide"], drawing.fixed["deep"]
    near = np.linspace(-1, 1, 20)
    curve = peak_side_force(pairs.tyre, load + near * wide)
    drawing[f"{end} near curve"].set_data(near, (curve - force) / deep)
    drawing[f"{end} near chord"].set_data((np.array([inside, outside]) - load) / wide, (peaks - force) / deep)
    gap = pairs.loss(end) / 2
    drawing[f"{end} mean"].set_data([0], [-gap / deep])
    drawing[f"{end} even"].set_data([0], [0])
    marks.say(drawing[f"{end} mean word"], drawing.fixed[f"{end} word"], 0.12, -gap / deep)
    marks.point(drawing[f"{end} gap"], (0.0, 0.0), (0.0, -gap / deep), smallest=0.15)
    total, each = (show(v, "load", drawing.family, decimals) for v, decimals in ((2 * gap, None), (gap, 1)))
    marks.say(drawing[f"{end} words"], f"{end} pair loses\n{total} (2 × {each})")


def mark(drawing: marks.Drawing, pairs: Pairs, end: str, force: float | None) -> None:
    """Draw a predicted side force of one end's pair as a level line in its magnified view, [N].

    None hides it.
    """
    for name in ("guess", "guess word"):
        drawing[f"{end} {name}"].set_visible(force is not None)
    if force is None:
        return
    low, high = drawing[f"{end} guess"].axes.get_ylim()
    level = (force / 2 - pairs.even(end)[1]) / drawing.fixed["deep"]
    where = guess.place(float(level), (low, high))
    guess.level(drawing[f"{end} guess"], where, -1, 1, head=-0.85)
    word, words = drawing[f"{end} guess word"], drawing[f"{end} words"]
    if where.beyond:  # outside the view, on the side where its own words are not
        level, va = SAID[OTHER[end]]
        marks.say(word, guess.words(where, force, "load", drawing.family, "\n"), words.get_position()[0],
                  level, va=va, ha=words.get_ha())
    else:
        va = "top" if where.at > low + 0.5 else "bottom"
        marks.say(word, guess.PLAIN, -0.98, where.at, va=va, ha="left")


def describe(pairs: Pairs, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def one(end):
        inside, outside = (show(load, "load", family) for load in getattr(pairs, end))
        return (f"the {end} pair at {inside} and {outside} loses {show(pairs.loss(end), 'load', family)} of "
                f"{show(2 * pairs.even(end)[1], 'load', family)}")

    return ("Grip-load curve: it bends over, so a pair that shares its load unevenly gives less side "
            f"force at its best slip angle than an even pair: {one('front')}, {one('rear')}.")
