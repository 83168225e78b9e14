"""A car's reading as a table for people, 80 columns wide."""

from __future__ import annotations

import math
import textwrap

from rollmodel.car import GRAVITY, Car
from rollmodel.reports.car import ENDS, GRADIENT_AT, CarReading, EndReading
from rollmodel.units import label, show

WIDTH = 80
_LABEL, _COLUMN, _FACT = 54, 13, 35
_SQUASH = ", tyres' squash in it"
_FREE = "(all wheels down, off the stops)"
_PRINTED = 0.0005 * GRAVITY  # limits closer than this print alike, m/s^2
_DRIVES = {"front": "front-wheel drive", "rear": "rear-wheel drive", "all": "all-wheel drive"}

# Rows of the table of both ends: name, kind of quantity, value of one end. No kind: a heading.
_STIFFNESS = (
    ("Rate at one wheel", None, None),
    ("  spring", "rate", lambda end: end.stiffness.spring_wheel_rate),
    ("  bar in roll, both ends moving", "rate", lambda end: end.stiffness.bar_wheel_rate_in_roll),
    ("Roll stiffness of the axle", None, None),
    ("  springs", "roll stiffness", lambda end: end.stiffness.spring_roll),
    ("  bar", "roll stiffness", lambda end: end.stiffness.bar_roll),
    ("  in all, tyres in series where given", "roll stiffness", lambda end: end.stiffness.total_roll),
)
_LOADS = (
    ("Load transfer, inside wheel to outside", "load", lambda end: end.loads.load_transfer),
    ("  through springs and bar", "load", lambda end: end.loads.elastic),
    ("  through the links, by the roll centre", "load", lambda end: end.loads.geometric),
    ("  from the unsprung mass", "load", lambda end: end.loads.unsprung),
    ("Inside wheel load", "load", lambda end: "0, lifted" if end.loads.lifted else end.loads.inside),
    ("Outside wheel load", "load", lambda end: end.loads.outside),
    ("Outside wheel's bump travel", "length", lambda end: end.bump_travel),
    ("  of the travel there is", "share", lambda end: _part_of_travel(end)),
    ("Bar's surface shear stress, at that travel", "stress", lambda end: _stress(end, end.bar_shear)),
    ("  with bending, worst place, von Mises", "stress", lambda end: _stress(end, end.bar_largest)),
)
_LIMITS = (
    ("Inside wheel lifts at", "lateral acceleration", lambda end: _or(end.lift, "stays down")),
    ("This end gives up at", "lateral acceleration", lambda end: _or(end.limit, "rolls over")),
)


def _or(value: float, words: str):
    return words if math.isnan(value) else value


def _stress(end: EndReading, value: float):
    return _or(value, "no sizes" if end.positions else "no bar")


def _part_of_travel(end: EndReading):
    return _or(end.part_of_travel, "not given" if math.isnan(end.bump_travel_there) else "in droop")


def car_table(reading: CarReading, family: str = "metric", notes=()) -> str:
    """The whole report as text.

    Parameters
    ----------
    reading : CarReading
    family : str
        One of ``units.FAMILIES``.
    notes : list of str
        From `rollmodel.reports.car_notes`.
    """
    return "\n".join([*_head(reading), "", *_both_ends(reading, family), "", *_whole_car(reading), "",
                      *(line for note in notes for line in _wrap(note, "* "))]).rstrip() + "\n"


def _wrap(text: str, first: str = "") -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=" " * len(first),
                         break_on_hyphens=False)


def _g(value: float, decimals: int = 3) -> str:
    return show(value, "lateral acceleration", decimals=decimals)


def _head(reading: CarReading) -> list[str]:
    wheels = "driven just to hold the speed" if reading.driven else "wheels coasting"
    return [*_wrap(reading.car.title), *_wrap(reading.car.note),
            f"Settled corner at {_g(reading.lateral_acceleration)}; {_DRIVES[reading.car.drive]}, {wheels}."]


def _row(name: str, cells) -> str:
    return (name.ljust(_LABEL) + "".join(cell.rjust(_COLUMN) for cell in cells)).rstrip()


def _both_ends(reading: CarReading, family: str) -> list[str]:
    lines = [_row("", ENDS), "-" * WIDTH, *_fitted(reading.car)]
    for name, kind, value in (*_STIFFNESS, *_LOADS, *_LIMITS):
        if kind is None:
            lines.append(name)
            continue
        if name == _LIMITS[1][0]:
            lines += _lifts_too_late(reading)
        unit = label(kind, family)
        lines.append(_row(f"{name} [{unit}]", [_cell(value(reading.end(end)), kind, family) for end in ENDS]))
    return lines


def _lifts_too_late(reading: CarReading) -> list[str]:
    """A line that says of which inside wheels the tyres let go before they lift; none where they do not."""
    late = [reading.end(end).lift > reading.limit for end in ENDS]
    return [_row("  (beyond the tyres: slides first)", ["beyond" if one else "-" for one in late])] if any(
        late) else []


def _cell(value, kind: str, family: str) -> str:
    if isinstance(value, str):
        return value
    return show(value, kind, family).removesuffix(label(kind, family)).strip()


def _fitted(car: Car) -> list[str]:
    """What is fitted: the hole or blade angle in use."""
    bars = [car.axle(end).bar for end in ENDS]
    lines = [_row("Bar position in use, 1 the softest",
                  [f"{bar.hole} of {bar.positions}" if bar else "no bar" for bar in bars])]
    if any(bar and bar.blade for bar in bars):
        lines.append(_row("  blade angle, from lying flat [deg]",
                          [f"{math.degrees(bar.blade.angles[bar.hole - 1]):.0f}" if bar and bar.blade else "-"
                           for bar in bars]))
    return lines


def _whole_car(reading: CarReading) -> list[str]:
    share = show(float(reading.corner.front_share), "share")
    weight = show(reading.car.front_weight_share, "share")
    roll = show(float(reading.corner.roll_angle), "angle")
    squash = any(reading.car.axle(end).tyre_vertical_rate is not None for end in ENDS)
    facts = (
        ("Body roll", f"{roll} at {_g(reading.lateral_acceleration)}{_SQUASH if squash else ''}"),
        ("Roll gradient", f"{show(reading.roll_gradient, 'roll gradient')}, gravity's share counted {_FREE}"),
        ("Front share of overturning moment", f"{share}; front share of weight {weight}"),
        ("Understeer gradient", _gradient_words(reading)),
        ("Limit", limit_words(reading)),
        ("Rolls over at", _g(float(reading.limits.rollover))),
    )
    return [line for name, words in facts for line in _wrap(words, f"{name:<{_FACT}}")]


def _gradient_words(reading: CarReading) -> str:
    at = _g(GRADIENT_AT, 1)
    if math.isnan(reading.understeer_gradient):
        return f"none: {at} is past the limit"
    shown = show(reading.understeer_gradient, "understeer gradient")
    word = "understeer" if reading.understeer_gradient > 0 else "oversteer"
    return f"{shown} at {at}, {'neutral' if shown.startswith('0.00 ') else word}"


def limit_words(reading: CarReading) -> str:
    """The lower limit, and which end gives up there."""
    if reading.limit_end is None:
        return "none: it rolls over before either end slides"
    word = {"front": "understeer", "rear": "oversteer"}[reading.limit_end]
    if abs(reading.front.limit - reading.rear.limit) < _PRINTED:
        return f"{_g(reading.limit)}, both ends nearly together, the {reading.limit_end} a hair sooner"
    return f"{_g(reading.limit)}, the {reading.limit_end} gives up first: {word}"
