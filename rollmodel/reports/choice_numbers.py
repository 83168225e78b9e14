"""A setup's numbers for a reader: rows of text in a display family, and keys with their units."""

import math

from rollmodel import units
from rollmodel.adding_up import change_as_shown
from rollmodel.advice import Reading
from rollmodel.car import GRAVITY

_MORE_DIGITS = {"change": True, "fine": False}  # kinds with one more digit; whether the sign is shown


def shower(family: str = "metric"):
    """``show(value, kind)`` for the sentences of the advice.

    A kind with " change" behind it is shown with its sign, and with one more digit; with " fine",
    with the digit alone. With " gap" two numbers are given: shown as a change is the second less the
    first, as the two stand beside it with " fine".
    """
    def show(value, kind):
        name, _, manner = kind.rpartition(" ")
        if manner == "gap":
            value, manner = change_as_shown(*value, name, family, more=1), "change"
        if manner not in _MORE_DIGITS:
            return units.show(value, kind, family)
        text = units.show(value, name, family, units.KINDS[name].unit(family).decimals + 1)
        return f"+{text}" if _MORE_DIGITS[manner] and value > 0 and float(text.split()[0]) else text

    return show


def rows(family: str = "metric"):
    """The lines of the table of setups: a label with its unit, and what to show of a reading."""
    def number(value, kind, decimals=None):
        text = units.show(value, kind, family, decimals)
        return text.removesuffix(units.label(kind, family)).strip()

    def gap(reading):
        return change_as_shown(*reading.rear_and_front, "lateral acceleration", family, more=1)

    force = units.label("load", family)
    yield "Front limit, g", lambda r: number(r.front.limit, "lateral acceleration", 4)
    yield "Rear limit, g", lambda r: number(r.rear.limit, "lateral acceleration", 4)
    yield "Gap: front limit less rear, g", lambda r: number(gap(r), "lateral acceleration", 4)
    yield "The car's limit, g", lambda r: number(r.limit, "lateral acceleration", 4)
    yield "End that gives up first", lambda r: r.limit_end
    yield "Understeer gradient at {slope_at}, deg/g", lambda r: number(r.gradient, "understeer gradient")
    yield "Understeer gradient at {near}, deg/g", lambda r: number(r.near_gradient, "understeer gradient")
    yield "Extra steer at {near}, deg", lambda r: number(r.near_steer, "angle")
    yield "Roll gradient, all wheels down, deg/g", lambda r: number(r.roll_gradient, "roll gradient")
    yield "Front share of overturning moment at {near}, %", lambda r: number(r.front_share, "share")
    for end in ("front", "rear"):
        for side in ("inside", "outside"):
            yield (f"{side.capitalize()} {end} wheel at {{near}}, {force}",
                   lambda r, end=end, side=side: number(getattr(r.end(end), f"{side}_load"), "load"))


def reading_values(reading: Reading) -> dict:
    """A reading with the unit in each key, for JSON; None where the model has no number."""
    per_g = math.degrees(1) * GRAVITY
    values = {
        "front_hole": reading.front_hole,
        "rear_hole": reading.rear_hole,
        "front_limit_g": reading.front.limit / GRAVITY,
        "rear_limit_g": reading.rear.limit / GRAVITY,
        "limit_gap_g": reading.gap / GRAVITY,
        "limit_g": reading.limit / GRAVITY,
        "limit_end": reading.limit_end,
        "rollover_g": reading.rollover / GRAVITY,
        "understeer_gradient_deg_per_g": per_g * reading.gradient,
        "at_g": reading.near / GRAVITY,
        "understeer_gradient_at_deg_per_g": per_g * reading.near_gradient,
        "extra_steer_at_deg": math.degrees(reading.near_steer),
        "roll_gradient_deg_per_g": per_g * reading.roll_gradient,
        "front_load_transfer_share": reading.front_share,
        **{end: _end_values(reading.end(end)) for end in ("front", "rear")},
    }
    return {
        key: None if isinstance(value, float) and not math.isfinite(value) else value
        for key, value in values.items()
    }


def _end_values(end) -> dict:
    return {
        "inside_wheel_load_N": end.inside_load,
        "outside_wheel_load_N": end.outside_load,
        "inside_wheel_lifted": end.lifted,
        "inside_wheel_lifted_at_limit": end.lifted_at_limit,
    }
