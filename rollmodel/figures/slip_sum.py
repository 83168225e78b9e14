"""Both tyres of an axle at one slip angle: what each gives, both together, and an even pair."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.adding_up import change_as_shown, parts_as_shown
from rollmodel.car import Tyre
from rollmodel.figures import guess, marks
from rollmodel.physics.pair import axle_side_force, largest_axle_force
from rollmodel.physics.tyre import peak_side_force, side_force
from rollmodel.units import from_display, label, show, to_display

REACH = np.radians(15.0)  # the tyre was measured up to about here
_SLIPS = np.linspace(0, REACH, 80)
_LABELS = np.radians(10.5)  # slip angle at which the curves are named


@dataclass(frozen=True)
class SlipSum:
    """Two upright tyres on one axle at one slip angle."""

    tyre: Tyre
    end: str
    even: float  # load of each when nothing is moved, N
    transfer: float  # N, at most the even load
    slip: float  # rad

    @property
    def loads(self) -> tuple[float, float]:
        """Outside and inside, [N]."""
        return self.even + self.transfer, self.even - self.transfer

    def each(self, slip):
        """Side force of the outside and of the inside tyre at a slip angle, [N]."""
        return tuple(side_force(self.tyre, slip, load) for load in self.loads)

    def shown(self, family: str) -> tuple[float, ...]:
        """What each gives now, rounded so that as printed they add up to both together as printed, [N]."""
        return parts_as_shown(self.each(self.slip), "load", family)

    def together(self, slip):
        """Side force of both at one slip angle, [N]."""
        return axle_side_force(self.tyre, slip, *self.loads)

    def of_even_pair(self, slip):
        """The same with nothing moved, [N]."""
        return axle_side_force(self.tyre, slip, self.even, self.even)

    @property
    def now(self) -> float:
        """Both together at the present slip angle, [N]."""
        return float(self.together(self.slip))

    @property
    def most(self) -> tuple[float, float]:
        """The most both give at one slip angle [N], and that angle [rad]."""
        force, slip = largest_axle_force(self.tyre, *self.loads)
        return float(force), float(slip)

    @property
    def sum_of_peaks(self) -> float:
        """Each at its own best slip angle, [N]: more than the axle can give."""
        return float(np.sum(peak_side_force(self.tyre, np.array(self.loads))))

    @property
    def own_slips(self) -> tuple[float, float]:
        """Slip angles at which outside and inside tyre would give their most alone, [rad]."""
        return tuple(float(largest_axle_force(self.tyre, load, 0.0)[1]) for load in self.loads)


def draw(ax_or_figure, pair: SlipSum, look, family="metric") -> marks.Drawing:
    """Lay out the curves; scales are settled by the even pair and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=4.9, top=3.4)
    marks.scales(ax, look, f"slip angle of the axle ({label('angle', family)})",
                 f"side force ({label('load', family)})")
    high = 1.2 * 2 * float(peak_side_force(pair.tyre, pair.even))
    ax.set(xlim=(0, 1.02 * np.degrees(REACH)), ylim=(0, _force(high, family)))
    parts["even pair"] = marks.stroke(ax, look, thickness=0.6, linestyle=(0, (5, 2)), zorder=3)
    parts["together"] = marks.stroke(ax, look, zorder=3.5)
    parts["outside"] = marks.stroke(ax, look, pair.end, linestyle="-", zorder=3)
    parts["inside"] = marks.stroke(ax, look, pair.end, zorder=3)
    parts["slip"] = marks.stroke(ax, look, thickness=0.5, zorder=2, color=marks.GREY)
    parts["guess"] = marks.stroke(ax, look, "guess", zorder=2.5, visible=False)
    parts["now"] = marks.dots(ax, look)
    parts["each now"] = marks.dots(ax, look, pair.end, size=3)
    parts["most"] = marks.dots(ax, look, hollow=True, size=4.5)
    for name, words in (("even pair", "two even tyres"), ("together", "both together")):
        parts[f"{name} word"] = marks.words(ax, look, np.degrees(_LABELS), text=words, small=True)
    for name in ("outside", "inside"):
        parts[f"{name} word"] = marks.words(ax, look, np.degrees(_LABELS), role=pair.end, small=True)
    parts["guess word"] = marks.words(ax, look, 0.015 * np.degrees(REACH), role="guess", text="your guess",
                                      ha="left", visible=False)
    top = ax.get_ylim()[1]
    for name, lines in (("sum", 2.4), ("even sum", 1.0)):
        parts[name] = marks.words(ax, look, np.degrees(REACH) / 2, top + marks.up(ax, lines * look.font_size))
    update(drawing, pair)
    return drawing


def _force(value, family):
    return to_display(value, "load", family)


def update(drawing: marks.Drawing, pair: SlipSum) -> None:
    """Another transfer or slip angle of the same axle; scales stay as drawn."""
    outside, inside = pair.each(_SLIPS)
    curves = {"outside": outside, "inside": inside, "together": outside + inside,
              "even pair": pair.of_even_pair(_SLIPS)}
    for name, curve in curves.items():
        drawing[name].set_data(np.degrees(_SLIPS), _force(curve, drawing.family))
    _points(drawing, pair)
    _names(drawing, pair)
    _sums(drawing, pair)


def _points(drawing, pair):
    family, at = drawing.family, np.degrees(pair.slip)
    drawing["slip"].set_data([at, at], drawing.ax.get_ylim())
    drawing["now"].set_data([at], [_force(pair.now, family)])
    drawing["each now"].set_data([at, at], _force(np.array(pair.each(pair.slip)), family))
    force, slip = pair.most
    drawing["most"].set_data([np.degrees(slip)], [_force(force, family)])


def _names(drawing, pair):
    """Words beside the curves; two alike get one name."""
    ax, family = drawing.ax, drawing.family
    step = marks.up(ax, 1.1 * drawing.look.small)
    outside, inside = (_force(float(one), family) for one in pair.each(_LABELS))
    together, even = (_force(float(one(_LABELS)), family) for one in (pair.together, pair.of_even_pair))
    drawing["even pair word"].set_y(even + step)
    alone = together - outside < 1.6 * step
    marks.say(drawing["together word"], "both together" + (" = outside tyre" if alone else ""),
              y=together - (1.4 if alone else 1.0) * step)
    apart = outside - inside > 2.4 * step
    marks.say(drawing["outside word"], "outside tyre" if apart else "each tyre", y=outside - step,
              visible=not alone)
    low = inside < 1.6 * step
    marks.say(drawing["inside word"], "inside tyre", y=inside + step if low else inside - step,
              visible=bool(apart))


def _sums(drawing, pair):
    family = drawing.family
    outside, inside = (show(one, "load", family) for one in pair.shown(family))
    drawing["sum"].set_text(f"at {show(pair.slip, 'angle', family, 1)}: outside {outside} + inside {inside} "
                            f"= "
                            f"{show(pair.now, 'load', family)}")
    even = show(float(pair.of_even_pair(pair.slip)), "load", family)
    drawing["even sum"].set_text(f"two even tyres: {even}")


def mark(drawing: marks.Drawing, force: float | None) -> None:
    """Draw a predicted side force of both tyres as a level line, [N]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(force is not None)
    if force is not None:
        where = guess.place(_force(force, drawing.family), drawing.ax.get_ylim())
        right, em = np.degrees(REACH), drawing.look.font_size
        guess.level(drawing["guess"], where, 0, right, marks.across(drawing.ax, 1.2 * em))
        left = marks.across(drawing.ax, 2.2 * em) if where.beyond else 0.015 * right
        above, small = where.way > 0, drawing.look.small
        words = guess.words(where, force, "load", drawing.family, "\n" if above else " ")
        off = where.way * marks.up(drawing.ax, (0.2 if above else 0.8) * em)
        marks.say(drawing["guess word"], words, left, where.at - off, va="top" if above else "center",
                  fontsize=small if where.beyond else em)


def describe(pair: SlipSum, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    outside, inside = (show(one, "load", family) for one in pair.shown(family))
    force, slip = (show(one, kind, family) for one, kind in zip(pair.most, ("load", "angle"), strict=True))
    return (f"At a slip angle of {show(pair.slip, 'angle', family, 1)} the {pair.end} tyres push {outside} "
            f"outside and "
            f"{inside} inside, together {show(pair.now, 'load', family)}; two evenly loaded ones would push "
            f"{show(float(pair.of_even_pair(pair.slip)), 'load', family)}. The most at one slip angle is "
            f"{force}, at {slip}. {_alone(pair, family)}")


def _alone(pair, family):
    """What the two would give, each at its own best slip angle."""
    if pair.transfer <= 1e-6 * pair.even:
        return "Both are alike, so each is at its own best there."
    if pair.loads[1] <= 1e-6 * pair.even:
        return "The inside tyre carries nothing, so that is the outside tyre's best as well."
    outside, inside = (show(one, "angle", family) for one in pair.own_slips)
    return (f"Alone the outside tyre is best at {outside}, the inside one at {inside}: "
            f"{shortfall(pair, family)}.")


def shortfall(pair: SlipSum, family: str = "metric") -> str:
    """How far one slip angle for both falls short of each one's own best, in words; also below a digit."""
    short = pair.sum_of_peaks - pair.most[0]
    if short <= 1e-7 * pair.sum_of_peaks:
        return "sharing one angle costs nothing"
    told = change_as_shown(pair.most[0], pair.sum_of_peaks, "load", family)
    least = show(from_display(1.0, "load", family), "load", family)
    return f"sharing one angle costs {show(told, 'load', family) if told > 0 else f'less than {least}'}"
