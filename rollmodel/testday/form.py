"""The guided entry of a day's readings: which boxes there are, step by step, and what stands in them."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache

from rollmodel.car import Car
from rollmodel.sheets.plus_minus import apart as number_and_spread
from rollmodel.sheets.schema import Field
from rollmodel.sheets.values import Fault
from rollmodel.sheets.values import read as read_value
from rollmodel.testday.faults import DayError
from rollmodel.testday.measure import measure
from rollmodel.testday.measured import Measured
from rollmodel.testday.readings import EXAMPLE, TABLES, Readings, readings_of
from rollmodel.testday.typed_text import apart, with_unit
from rollmodel.units import KINDS, UnitError, label, to_display

EXAMPLE_CAR = "coupe"  # the training car that the example's readings were invented for


@dataclass(frozen=True)
class Line:
    """One box: a field of one table of the readings."""

    table: str
    name: str
    words: str

    @property
    def field(self) -> Field:
        """What the box takes."""
        return next(one for one in TABLES[self.table] if one.name == self.name)

    @property
    def key(self) -> str:
        """"front.spring.wheel"."""
        return f"{self.table}.{self.name}"


@dataclass(frozen=True)
class Step:
    """One job of the day and its boxes."""

    name: str
    title: str
    guide: str
    lines: tuple[Line, ...]

    @property
    def tables(self) -> list[str]:
        """The tables that the boxes fill."""
        return list(dict.fromkeys(line.table for line in self.lines))


def _jacking(end: str, number: int) -> Step:
    lines = [
        Line(f"{end}.{part}", name, words.format(end=end.capitalize(), part=part))
        for part in ("spring", "link")
        for name, words in (
            ("wheel", "{end} wheel height at each step, for the {part}"),
            ("part", "{end} {part}'s travel at the same steps"),
            ("reading", "{end} {part} steps, each reading right to plus or minus"),
        )
    ]
    return Step(
        f"{end} jacking",
        f"{number}. Motion ratios, {end}",
        f"Bar unhooked, damper off, the car on its stands. Jack one {end} wheel in steps of 10 mm about ride "
        "height. At each step read the wheel's height, the spring's length and the end of the link. Any zero "
        "will do. The slope of the line is the motion ratio; how far the steps lie off it is its scatter.",
        tuple(lines),
    )


def _bench() -> Step:
    lines = [
        Line(f"{end}.bar", name, f"{end.capitalize()} bar: {words}")
        for end in ("front", "rear")
        for name, words in (
            ("hole", "hole on the bench, from the softest"),
            ("load", "loads hung on one link"),
            ("deflection", "deflections of that link"),
            ("reading", "each deflection right to plus or minus"),
        )
    ]
    return Step(
        "bench",
        "5. Bar rate on the bench",
        "Bar in its own bushings and links. Hold one link, hang loads on the other, read how far it goes. "
        "That is the rate with one end held; in roll each link feels twice as much.",
        tuple(lines),
    )


STEPS = (
    Step(
        "weights",
        "1. Corner weights",
        "Level floor, driver aboard, half fuel, brakes off, bar unhooked on one side. Roll the car to and fro, "
        "let it settle, read all four pads. Do that three times: the scatter is part of the answer.",
        (
            *(
                Line("corner_weights", name, f"{name.replace('_', ' ').capitalize()} pad")
                for name in ("front_left", "front_right", "rear_left", "rear_right")
            ),
            Line("corner_weights", "scale", "Each pad right to plus or minus"),
        ),
    ),
    Step(
        "height",
        "2. Height of the centre of gravity",
        "Suspension locked with solid struts, tank full or empty, brakes off. Raise one end on a level support "
        "rated for it, never on a jack, nobody under it. Lay chocks a finger's width from the wheels that stay "
        "down: they catch the car and do not push. Read both pads there. Little load moves, so the "
        "uncertainty is large.",
        (
            Line("cg_height", "raised", "End that is raised, front or rear"),
            Line("cg_height", "lift", "Lifts of its support"),
            Line("cg_height", "load", "Load at each lift, both pads that stay down"),
            Line("cg_height", "wheelbase", "Wheelbase"),
            Line("cg_height", "front_wheel_radius", "Front wheel radius, loaded"),
            Line("cg_height", "rear_wheel_radius", "Rear wheel radius, loaded"),
            Line("cg_height", "tape", "Each length right to plus or minus"),
            Line("cg_height", "scale", "Each axle load right to plus or minus"),
        ),
    ),
    _jacking("front", 3),
    _jacking("rear", 4),
    _bench(),
    Step(
        "given",
        "6. As given, and what it all means",
        "The roll centres come from a drawing of the pick-up points, the tracks from a tape. Say how well you "
        "know each, behind a plus-or-minus sign. Then read what all of it means for the car, and what to "
        "measure better first.",
        tuple(
            Line(end, name, f"{end.capitalize()} {words}")
            for end in ("front", "rear")
            for name, words in (("roll_centre_height", "roll centre height"), ("track", "track"))
        ),
    ),
)
LINES = {line.key: line for step in STEPS for line in step.lines}


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
