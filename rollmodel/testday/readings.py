"""A day's readings in the workshop: a TOML file, every reading as text with its unit."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from rollmodel.sheets import SheetError
from rollmodel.sheets.faults import nearest
from rollmodel.sheets.files import parse_toml, read_sheet_text
from rollmodel.sheets.plus_minus import apart, fits
from rollmodel.sheets.schema import Field
from rollmodel.sheets.values import MOST_POSITIONS, Fault
from rollmodel.sheets.values import read as read_value
from rollmodel.testday.faults import DayError
from rollmodel.units import UnitError, quoted

EXAMPLE = Path(__file__).with_name("readings.toml")


def _many(name, kind, low, high, required=True, example=""):
    return Field(name, kind, low, high, required, one_or_many=True, example=example)


def _one(name, kind, low, high, required=False, example=""):
    return Field(name, kind, low, high, required, example=example)


_SCALE = _one("scale", "mass", "1 g", "20 kg", example="0.5 kg")
_READING = _one("reading", "length", "0.01 mm", "10 mm", example="0.5 mm")
_STEPS = (_many("wheel", "length", "-500 mm", "1000 mm", example="10 mm"),
          _many("part", "length", "-500 mm", "1000 mm", example="7 mm"), _READING)  # fmt: skip
TABLES: dict[str, tuple[Field, ...]] = {
    "corner_weights": (*(_many(f"{end}_{side}", "mass", "20 kg", "1500 kg", example="320 kg")
                         for end in ("front", "rear") for side in ("left", "right")), _SCALE),
    "cg_height": (
        Field("raised", "word", words=("front", "rear"), required=True),
        _many("lift", "length", "20 mm", "1500 mm", example="400 mm"),
        _many("load", "mass", "50 kg", "3000 kg", example="684 kg"),
        _one("wheelbase", "long length", "1.2 m", "3.9 m", True, example="2.48 m"),
        _one("front_wheel_radius", "length", "100 mm", "600 mm", True, example="305 mm"),
        _one("rear_wheel_radius", "length", "100 mm", "600 mm", True, example="305 mm"),
        _one("tape", "length", "0.1 mm", "50 mm", example="3 mm"), _SCALE),
    **{f"{end}.{part}": _STEPS for end in ("front", "rear") for part in ("spring", "damper", "link")},
    **{f"{end}.bar": (Field("hole", "whole number", 1, MOST_POSITIONS, required=True),
                      _many("load", "load", "0 N", "20 kN", example="200 N"),
                      _many("deflection", "length", "-500 mm", "500 mm", example="2.1 mm"), _READING)
       for end in ("front", "rear")},
    **{end: (_one("track", "long length", "0.8 m", "2.1 m", example="1.52 m ± 4 mm"),
             _one("roll_centre_height", "length", "-300 mm", "600 mm", example="55 mm ± 15 mm"))
       for end in ("front", "rear")},
}  # fmt: skip
DEFAULTS = {"scale": 0.5, "reading": 0.0005, "tape": 0.003}  # SI; plus or minus, where the file does not say
_OF_A_SHEET = {"drive", "mass", "front_weight_share", "wheelbase", "tyre"}
_IS_A_SHEET = (
    "this is a car sheet; wanted a file of readings, with tables such as [corner_weights] or [front.spring]. "
    "rollmodel measure --example my-readings.toml writes one to copy; the car sheet goes behind --sheet"
)


@dataclass(frozen=True)
class Readings:
    """What a file of readings holds, SI."""

    values: dict[str, dict] = field(default_factory=dict)  # by table; lists for what is read more than once
    uncertainty: dict[str, float] = field(
        default_factory=dict
    )  # "front.track" to what stands behind its sign
    name: str = field(default="", compare=False)  # of the file, for messages

    def of(self, table: str) -> dict | None:
        """One table with its defaults; None where the file lacks it."""
        if table not in self.values:
            return None
        defaults = {one.name: DEFAULTS[one.name] for one in TABLES[table] if one.name in DEFAULTS}
        return {**defaults, **self.values[table]}


def read_readings(path) -> Readings:
    """Read a file of readings.

    Parameters
    ----------
    path : str or os.PathLike

    Raises
    ------
    DayError
        With every fault found, each naming table, field, what was wanted and what was given.
    """
    try:
        name, text = read_sheet_text(path)
        tables = parse_toml(text, name)
    except SheetError as error:
        raise DayError(
            [fault.replace("car sheet", "file of readings") for fault in error.faults], error.name
        ) from None
    return readings_of(tables, name)


def readings_of(tables: dict, name: str = "") -> Readings:
    """The same from tables already in hand, as a form has them.

    Parameters
    ----------
    tables : dict
        As a TOML reader returns them.
    name : str
        For messages.
    """
    if len(_OF_A_SHEET & tables.keys()) > 1:
        raise DayError(_IS_A_SHEET, name)
    faults: list[str] = []
    flat = _flat(tables, faults)
    values, uncertainty = {}, {}
    for table, fields in flat.items():
        values[table] = _table(table, fields, uncertainty, faults)
    faults += [] if faults else _lengths_that_differ(values)
    if not flat and not faults:
        faults.append(f"no readings; wanted a table such as [{'], ['.join(list(TABLES)[:3])}]")
    if faults:
        raise DayError(faults, name)
    return Readings(values, uncertainty, name)


def _flat(tables: dict, faults: list[str], start: str = "") -> dict[str, dict]:
    """Tables by their dotted names, without those that only hold other tables."""
    found = {}
    for key, value in tables.items():
        name = f"{start}{key}"
        inside = any(known.startswith(f"{name}.") for known in TABLES)
        if not isinstance(value, dict) or not (name in TABLES or inside):
            faults.append(_unknown(name, value))
            continue
        own = {k: v for k, v in value.items() if not (inside and isinstance(v, dict))}
        if own:
            found[name] = own
        found |= _flat({k: v for k, v in value.items() if k not in own}, faults, f"{name}.")
    return found


def _unknown(name: str, value) -> str:
    known = {table.replace(".", "_"): table for table in TABLES}
    near = nearest(name.replace(".", "_"), known)
    what = "table" if isinstance(value, dict) else "line"
    return f"unknown {what} {quoted(name)}" + (
        f"; [{known[near]}] was meant?" if near else f"; there are [{'], ['.join(TABLES)}]"
    )


def _table(table: str, given: dict, uncertainty: dict, faults: list[str]) -> dict:
    fields, found = {one.name: one for one in TABLES[table]}, {}
    for name, value in given.items():
        if name not in fields:
            near = nearest(name, fields)
            faults.append(
                f"[{table}]: unknown field {quoted(name)}"
                + (f'; "{near}" was meant?' if near else f"; there are {', '.join(fields)}")
            )
            continue
        try:
            plain, spread = apart(fields[name], value)
            found[name] = _read(fields[name], plain)
            if spread is not None:
                read = found[name]
                read = tuple(read) if isinstance(read, list) else read
                uncertainty[f"{table}.{name}"] = fits(fields[name], read, spread, value)
        except (Fault, UnitError) as fault:
            faults.append(f"[{table}] {name}: {fault}")
    faults += [
        f"[{table}] {one.name}: missing" for one in TABLES[table] if one.required and one.name not in given
    ]
    return found


def _read(one: Field, value):
    found = read_value(one, value)
    return list(found) if isinstance(found, tuple) else [found] if one.one_or_many else found


_TOGETHER = (("wheel", "part"), ("load", "deflection"), ("lift", "load"))


def _lengths_that_differ(values: dict) -> list[str]:
    """Lists that belong together and differ in length, and lists too short for a line."""
    faults = []
    for table, found in values.items():
        for first, second in _TOGETHER:
            if first in found and second in found:
                counts = len(found[first]), len(found[second])
                if counts[0] != counts[1]:
                    faults.append(
                        f"[{table}] {second}: wanted as many as {first} has ({counts[0]}), given {counts[1]}"
                    )
                elif first != "lift" and (counts[0] < 3 or len(set(found[first])) < 3):
                    faults.append(
                        f"[{table}] {first}: wanted at least three different steps, so that the scatter can "
                        f"be seen, given {len(set(found[first]))}"
                    )
    return faults
