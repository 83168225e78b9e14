"""Where a leaning body comes to rest: what springs and bars push back against what tips it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.car import Car
from rollmodel.figures import guess, marks
from rollmodel.physics.roll import (
    least_roll_stiffness,
    roll_gradient_for,
    roll_gradient_without_gravity,
    roll_moments_per_acceleration,
)
from rollmodel.units import label, show, to_display

REACH = np.radians(12.0)


@dataclass(frozen=True)
class Balance:
    """Moments on the body about its roll axis, both axles together."""

    lateral_acceleration: float  # m/s^2
    stiffness: float  # of both axles on their tyres, N*m/rad
    side: float  # moment of the side force, N*m
    weight: float  # moment of the leaning weight for each radian, N*m/rad
    roll: float  # where the body comes to rest, rad; nan where it does not stand up
    without: float  # the same with the leaning weight left out, rad
    most: float  # where the scale of moments ends, N*m

    @property
    def stands(self) -> bool:
        return bool(np.isfinite(self.roll))


def of_car(car: Car, lateral_acceleration: float, stiffness: float, front_share: float, most: float,
           cg_height: float | None = None) -> Balance:
    """A car with other roll stiffness or another height of its centre of gravity.

    Parameters
    ----------
    car : Car
    lateral_acceleration : float
        [m/s^2].
    stiffness : float
        Of both axles together, on their tyres, [N*m/rad].
    front_share : float
        The front's part of it, [-].
    most : float
        Where the scale of moments ends, [N*m].
    cg_height : float, optional
        Of the whole car, [m].
    """
    car = car if cg_height is None else replace(car, cg_height=cg_height)
    ends = front_share * stiffness, (1 - front_share) * stiffness
    return Balance(lateral_acceleration, stiffness,
                   sum(roll_moments_per_acceleration(car)) * lateral_acceleration, least_roll_stiffness(car),
                   lateral_acceleration * float(roll_gradient_for(car, *ends)),
                   lateral_acceleration * float(roll_gradient_without_gravity(car, *ends)), most)


def draw(ax_or_figure, balance: Balance, look, family="metric") -> marks.Drawing:
    """Lay out the lines; both scales stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.frame(ax, look, left=5.4, top=2.4)
    marks.scales(ax, look, f"the body's roll angle ({label('angle', family)})",
                 f"moment on the body ({label('moment', family)})")
    ax.set(xlim=(0, np.degrees(REACH)), ylim=(0, _moment(balance.most, family)))
    parts["side"] = marks.stroke(ax, look, thickness=0.6, linestyle=(0, (5, 2)), zorder=3)
    parts["tips"] = marks.stroke(ax, look, zorder=3.2)
    parts["back"] = marks.stroke(ax, look, "bar", 1.3, linestyle="-", zorder=3.4)
    parts["drop"] = marks.stroke(ax, look, thickness=0.4, linestyle=(0, (2, 2)), zorder=2)
    parts["guess"] = marks.stroke(ax, look, "guess", zorder=2.5, visible=False)
    parts["without"] = marks.dots(ax, look, hollow=True)
    parts["rest"] = marks.dots(ax, look, size=4.5)
    parts["guess word"] = marks.words(ax, look, role="guess", text="your guess", ha="left", va="bottom",
                                      visible=False)
    for name, role in (("side", "plain"), ("tips", "plain"), ("back", "bar")):
        parts[f"{name} word"] = marks.words(ax, look, role=role, small=True)
    parts["title"] = marks.words(ax, look, np.degrees(REACH) / 2,
                                 ax.get_ylim()[1] + marks.up(ax, 1.2 * look.font_size))
    update(drawing, balance)
    return drawing


def _moment(value, family):
    return to_display(value, "moment", family)


def update(drawing: marks.Drawing, balance: Balance) -> None:
    """Another corner, stiffness or height; scales stay as drawn."""
    family, ends = drawing.family, np.array([0.0, REACH])
    lines = {"side": balance.side + 0 * ends, "tips": balance.side + balance.weight * ends,
             "back": balance.stiffness * ends}
    for name, moments in lines.items():
        drawing[name].set_data(np.degrees(ends), _moment(moments, family))
    _points(drawing, balance)
    _names(drawing, balance)
    drawing["title"].set_text(_headline(balance, family))


def _points(drawing, balance):
    family = drawing.family
    for name, roll in (("rest", balance.roll), ("without", balance.without)):
        drawing[name].set_data([np.degrees(roll)], [_moment(balance.stiffness * roll, family)])
        drawing[name].set_visible(bool(roll <= REACH))
    x, y = np.degrees(balance.roll), _moment(balance.stiffness * balance.roll, family)
    drawing["drop"].set_data([x, x], [0, y])
    drawing["drop"].set_visible(bool(balance.roll <= REACH))


def _names(drawing, balance):
    """Words at the lines: the steep one where it leaves the picture, the flat ones at the right."""
    ax, family, size = drawing.ax, drawing.family, drawing.look.small
    top, right = ax.get_ylim()[1], np.degrees(REACH)
    side, tips = (_moment(value, family) for value in (balance.side, balance.side + balance.weight * REACH))
    step = marks.up(ax, 0.9 * size)
    marks.say(drawing["side word"], "the corner alone tips", 0.99 * right, max(side - step, step), ha="right")
    marks.say(drawing["tips word"], "with the leaning weight", 0.99 * right, min(tips + step, top - step),
              ha="right")
    drawing["side word"].set_visible(bool(tips - side > 0.6 * step or balance.side > 2 * step))
    at = min(0.62 * right, np.degrees(0.86 * balance.most / balance.stiffness))
    steep = _moment(balance.stiffness * np.radians(at), family)
    flat = steep < side
    marks.say(drawing["back word"], "springs and bars\npush back", at + marks.across(ax, 0.8 * size),
              steep - (step if not flat else 0), ha="left", va="top" if flat else "center")
    _clear(drawing, balance, flat)


def _clear(drawing, balance, flat):
    """A flat line's name goes under it, near the right."""
    if not flat:
        return
    ax, right = drawing.ax, np.degrees(REACH)
    low = _moment(balance.stiffness * 0.75 * REACH, drawing.family)
    marks.say(drawing["back word"], "springs and bars push back", 0.75 * right,
              max(low - marks.up(ax, 1.4 * drawing.look.small), marks.up(ax, drawing.look.small)),
              ha="center", va="center")


def _headline(balance, family):
    at = show(balance.lateral_acceleration, "lateral acceleration", family, 2)
    if not balance.stands:
        return f"at {at}: the lines part. This car does not stand up"
    rolls = show(balance.roll, "angle", family)
    if balance.roll > REACH:
        return f"at {at} the lines meet at {rolls}: on its stops long before"
    without = show(balance.without, "angle", family)
    return f"at {at} it rolls {rolls}; without its leaning weight {without}"


def mark(drawing: marks.Drawing, roll: float | None) -> None:
    """Draw a predicted roll angle as an upright line, [rad]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(roll is not None)
    if roll is not None:
        where = guess.place(float(np.degrees(roll)), (0.0, np.degrees(REACH)))
        up = marks.up(drawing.ax, 0.4 * drawing.look.font_size)
        guess.upright(drawing["guess"], where, *drawing.ax.get_ylim(), head=2.5 * up)
        x = np.degrees(REACH) if where.beyond else where.at  # a long text on the right, clear of the lines
        late = x > 0.8 * np.degrees(REACH)
        gap = marks.across(drawing.ax, (1.2 if where.beyond else 0.4) * drawing.look.font_size)
        drawing["guess word"].set(text=guess.words(where, roll, "angle", drawing.family),
                                  ha="right" if late else "left", position=(x - gap if late else x + gap, up))


def describe(balance: Balance, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    stiff, takes = (show(value, "roll stiffness", family) for value in (balance.stiffness, balance.weight))
    at = show(balance.lateral_acceleration, "lateral acceleration", family, 2)
    if not balance.stands:
        return (f"Springs and bars push back with {stiff}; the leaning weight tips with {takes}. That is as "
                f"much or more, "
                "so the two lines never meet: this car does not stand up.")
    rolls, without = (show(value, "angle", family) for value in (balance.roll, balance.without))
    stops = " It would be on its bump stops long before." if balance.roll > REACH else ""
    return (f"At {at} springs and bars push back with {stiff}, of which the leaning weight takes {takes}. "
            f"The body comes "
            f"to rest at {rolls}; with its leaning weight left out it would be {without}.{stops}")
