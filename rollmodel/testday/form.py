"""The guided entry of a day's readings: what stands in its boxes, and the readings and numbers it gives."""

from __future__ import annotations

import tomllib
from functools import cache

from rollmodel.car import Car
from rollmodel.sheets.plus_minus import apart as number_and_spread
from rollmodel.sheets.values import Fault
from rollmodel.sheets.values import read as read_value
from rollmodel.testday.faults import DayError
from rollmodel.testday.form_steps import LINES, STEPS, Line, Step
from rollmodel.testday.measure import measure
from rollmodel.testday.measured import Measured
from rollmodel.testday.readings import EXAMPLE, Readings, readings_of
from rollmodel.testday.typed_text import apart, with_unit
from rollmodel.units import KINDS, UnitError, label, to_display

EXAMPLE_CAR = "coupe"  # the training car that the example's readings were invented for


@cache
def example_texts() -> dict[str, str]:
    """What the example's readings put into the boxes; nothing where it has no reading."""
    tables = tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))
    return {key: _in_one_line(_dig(tables, key.split("."))) for key in LINES}


def _dig(tables, path):
    for part in path:
        tables = tables.get(part, {}) if isinstance(tables, dict) else {}
    return tables


def _in_one_line(value) -> str:
    """A field as a box has it, the unit of a list once."""
    if not isinstance(value, list):
        return "" if value == {} else str(value)
    unit = value[-1].partition(" ")[2]
    same = all(one.partition(" ")[2] == unit for one in value)
    return ", ".join([*(one.partition(" ")[0] for one in value[:-1]), value[-1]] if same else value)


def explicit(line: Line, text: str, family: str) -> str:
    """A box's text with the unit that a bare number was typed in.

    Examples
    --------
    >>> explicit(LINES["front.track"], "1.52", "metric"), explicit(LINES["front.track"], "60 in", "metric")
    ('1.52 m', '60 in')
    """
    kind, bare = line.field.kind, not any(letter.isalpha() or letter == "%" for letter in text)
    unit = label(kind, family).replace("·", "*") if kind in KINDS else ""
    return f"{text.strip()} {unit}".strip() if bare and text.strip() else text.strip()


def in_family(line: Line, text: str, family: str) -> str:
    """A box's text, its units said, in the units of a family; as it stands where it cannot be read."""
    try:
        value = _typed(line, text, family)
        plain, spread = number_and_spread(line.field, value)
        found = read_value(line.field, plain)
    except (Fault, UnitError):
        return text
    kind = line.field.kind
    if kind not in KINDS:
        return text
    many = found if isinstance(found, tuple) else (found,)
    shown = ", ".join(_short(one, kind, family) for one in many)
    known = "" if spread is None else f" ± {_short(spread, kind, family)}"
    return f"{shown}{known} {label(kind, family)}".strip()


def _short(value: float, kind: str, family: str) -> str:
    """A number without needless noughts: three decimals of a metre or an inch, else two."""
    places = 3 if label(kind, family) in ("m", "in") else 2
    return f"{to_display(value, kind, family):.{places}f}".rstrip("0").rstrip(".")


def checked(line: Line, text: str, family: str = "metric") -> None:
    """Refuse what a box cannot take; an empty box is nothing read.

    Raises
    ------
    DayError
        In one sentence that names the box.
    """
    if not text.strip():
        return
    try:
        plain, _ = number_and_spread(line.field, _typed(line, text, family))
        read_value(line.field, plain)
    except (Fault, UnitError) as fault:
        raise DayError(f"{line.words}: {fault}") from None


def _typed(line: Line, text: str, family: str):
    """A box's text as the readings' file would have it."""
    field, text = line.field, text.strip()
    if field.kind == "whole number":
        return int(text) if text.isascii() and text.isdigit() and len(text) < 6 else text
    if field.kind == "word":
        return text.lower()
    if field.one_or_many:
        return [with_unit(part, field.kind, family) for part in apart(text)]
    return with_unit(text, field.kind, family)


def texts_read(texts: dict[str, str], tables: list[str], family: str = "metric") -> Readings:
    """The readings that some tables' boxes hold.

    Parameters
    ----------
    texts : dict of str to str
        By `Line.key`.
    tables : list of str
        Those wanted; one of which nothing was typed but a limit or a wheelbase is left out.
    family : str, optional
        Units of bare numbers.

    Raises
    ------
    DayError
        With every fault.
    """
    found: dict = {}
    for line in LINES.values():
        if line.table in tables and _begun(texts, line.table) and texts.get(line.key, "").strip():
            place = found
            for part in line.table.split("."):
                place = place.setdefault(part, {})
            place[line.name] = _typed(line, texts[line.key], family)
    try:
        return readings_of(found) if found else Readings()
    except DayError as error:
        raise DayError([_by_box(fault) for fault in error.faults]) from None


def _by_box(fault: str) -> str:
    """A fault that names table and field, with the box's own name instead."""
    for line in LINES.values():
        fault = fault.replace(f"[{line.table}] {line.name}:", f"{line.words}:")
    return fault


def _begun(texts, table: str) -> bool:
    """Whether a reading was typed, not a limit, a hole or a size alone."""
    beside = ("scale", "reading", "tape", "hole", "raised", "wheelbase", "front_wheel_radius",
              "rear_wheel_radius")  # fmt: skip
    return any(
        texts.get(line.key, "").strip()
        for line in LINES.values()
        if line.table == table and line.name not in beside
    )


def found_in(step: Step, texts: dict[str, str], car: Car, family: str = "metric") -> list[Measured]:
    """The numbers of one step.

    Parameters
    ----------
    step : Step
    texts : dict of str to str
    car : Car
        Of the sheet, for the bar's steel.
    family : str, optional

    Raises
    ------
    DayError
    """
    readings = texts_read(texts, step.tables, family)
    if not readings.values:
        return []
    if step.name != "height":
        return measure(readings, car)
    both = texts_read(texts, [*step.tables, "corner_weights"], family)
    return [one for one in measure(both, car) if one.name == "cg_height"]


def all_found(texts: dict[str, str], car: Car, family: str = "metric") -> list[Measured]:
    """The numbers of every step."""
    return [one for step in STEPS for one in found_in(step, texts, car, family)]
