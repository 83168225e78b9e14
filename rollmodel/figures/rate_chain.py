"""From rates at the wheels to the roll stiffness of the axle: springs, bar, both, and both on their tyres."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.figures import guess, marks
from rollmodel.figures.moving_scale import end_for
from rollmodel.physics.stiffness import AxleStiffness
from rollmodel.units import label, show, to_display

ROWS = ("springs", "bar", "both", "axle")


@dataclass(frozen=True)
class Chain:
    """One axle's stiffness and where the scale ends."""

    end: str
    stiff: AxleStiffness
    reach: float  # N*m/rad
    usual: float  # where the scale ends as long as it stays, N*m/rad

    @property
    def tyres_give(self) -> bool:
        return bool(np.isfinite(self.stiff.tyre_vertical_rate))


def of_axle(end: str, stiff: AxleStiffness, first: AxleStiffness | None = None,
            most: AxleStiffness | None = None) -> Chain:
    """An axle on a scale that holds it.

    Parameters
    ----------
    end : str
        "front" or "rear".
    stiff : AxleStiffness
        Single numbers.
    first, most : AxleStiffness, optional
        As it was at first, and as stiff as it will ever be: then the scale gives way to stiffer axles so that
        what is stiffer also reaches further.
    """
    needed, start, top = (1.2 * float(one.suspension_roll) for one in (stiff, first or stiff, most or stiff))
    top = max(needed, start, top)
    return Chain(end, stiff, end_for(needed, start, top), end_for(start, start, top))


def draw(ax_or_figure, chain: Chain, look, family="metric") -> marks.Drawing:
    """Lay out the four rows."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=5.4, right=1.6, top=3.0)
    marks.scales(ax, look, _scale(chain, family))
    ax.set(ylim=(3.6, -0.6), yticks=range(4))
    ax.set_yticklabels(("springs", "bar", "both", "on tyres"), fontsize=look.font_size)
    ax.tick_params(axis="y", length=0)
    ax.set_xlim(0, _stiff(chain.reach, family))
    for name in ("springs", "both springs"):
        parts[name] = marks.face(ax, look, marks.METAL, zorder=2)
    for name in ("bar", "both bar"):
        parts[name] = marks.face(ax, look, marks.tint(look.colours["bar"], 0.35), zorder=2)
    parts["axle"] = marks.face(ax, look, marks.tint(look.colours[chain.end], 0.45), zorder=2)
    parts["guess"] = marks.stroke(ax, look, "guess", zorder=3, visible=False)
    parts["guess word"] = marks.words(ax, look, y=3.0, role="guess", text="your guess", small=True,
                                      visible=False)
    for name in ROWS:
        parts[f"{name} word"] = marks.words(ax, look, y=ROWS.index(name), ha="left", small=True)
    parts["title"] = marks.outside(ax, look, "", (0.5, 1), (0, 1.6 * look.font_size))
    update(drawing, chain)
    return drawing


def _scale(chain, family):
    """What the scale shows; a row that has not changed is shorter on one that reaches further."""
    moved = chain.reach > chain.usual * (1 + 1e-9)
    return f"roll stiffness ({label('roll stiffness', family)})" + moved * ", the scale now reaches further"


def _stiff(value, family):
    return to_display(value, "roll stiffness", family)


def update(drawing: marks.Drawing, chain: Chain) -> None:
    """Other stiffnesses; the scale moves only when they outgrow it or shrink back, and says so."""
    family, stiff = drawing.family, chain.stiff
    reach = _stiff(chain.reach, family)
    if drawing.ax.get_xlim()[1] != reach:
        drawing.ax.set_xlim(0, reach)
        drawing.ax.set_xlabel(_scale(chain, family))
    springs, bar, both, axle = (_stiff(float(value), family) for value in
                                (stiff.spring_roll, stiff.bar_roll, stiff.suspension_roll, stiff.total_roll))
    parts = (("springs", 0, 0, springs), ("bar", 1, 0, bar), ("both springs", 2, 0, springs),
             ("both bar", 2, springs, both), ("axle", 3, 0, axle))
    for name, row, start, stop in parts:
        drawing[name].set_xy(marks.box((start + stop) / 2, row, stop - start, 0.56))
    gap = marks.across(drawing.ax, 0.5 * drawing.look.font_size)
    for name, value, stop in zip(ROWS, _values(stiff), (springs, bar, both, axle), strict=True):
        marks.say(drawing[f"{name} word"], show(value, "roll stiffness", family), stop + gap)
        _keep_inside(drawing[f"{name} word"], reach)
    _place_guess(drawing)
    drawing["title"].set_text(_headline(chain, family))


def _values(stiff):
    return [float(getattr(stiff, f"{name}_roll")) for name in ("spring", "bar", "suspension", "total")]


def _keep_inside(text, right):
    text.set_x(min(text.get_position()[0], right - marks.width_of(text)))


def _headline(chain, family):
    spring, bar = (show(float(value), "rate", family) for value in
                   (chain.stiff.spring_wheel_rate, chain.stiff.bar_wheel_rate_in_roll))
    return (f"at each {chain.end} wheel in roll: spring {spring}, bar {bar}\n"
            f"track {show(chain.stiff.track, 'long length', family)}")


def mark(drawing: marks.Drawing, stiffness: float | None) -> None:
    """Draw a predicted roll stiffness of the whole axle as an upright line, [N*m/rad]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(stiffness is not None)
    drawing.fixed["guess"] = stiffness
    _place_guess(drawing)


def _place_guess(drawing):
    """The guess where it stands on the present scale, or past its end."""
    stiffness = drawing.fixed.get("guess")
    if stiffness is None:
        return
    word, right = drawing["guess word"], drawing.ax.get_xlim()[1]
    where = guess.place(_stiff(stiffness, drawing.family), (0, right))
    guess.upright(drawing["guess"], where, 2.4, 3.6)
    marks.say(word, guess.words(where, stiffness, "roll stiffness", drawing.family))
    half = marks.width_of(word) / 2
    word.set_position((float(np.clip(where.at, half, right - half)), 2.5))


def describe(chain: Chain, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    springs, bar, both, axle = (show(value, "roll stiffness", family) for value in _values(chain.stiff))
    spring_rate, bar_rate = (show(float(value), "rate", family) for value in
                             (chain.stiff.spring_wheel_rate, chain.stiff.bar_wheel_rate_in_roll))
    ends = (f"The tyres give as well, so the axle comes to {axle}." if chain.tyres_give else
            f"The tyres are taken as rigid, so the axle has {axle}.")
    return (f"{chain.end.capitalize()} axle: springs of {spring_rate} at the wheel make {springs}, a bar of "
            f"{bar_rate} at "
            f"each wheel in roll makes {bar}, together {both}. {ends}")
