"""From the car records back to the text of a sheet, in either family of units."""

from __future__ import annotations

from dataclasses import MISSING, fields

import tomlkit

from rollmodel.car import Bar, Car
from rollmodel.sheets.schema import RATES_REPLACE, TABLES, Field, parts
from rollmodel.units import label, to_display

_DIGITS = 7  # significant ones; far finer than anything measured on a car, and stable from turn to turn
_ALWAYS = ("hole", "arms", "curve", "grip_scale")  # written even where they are the default


def to_sheet(car: Car, family: str = "metric") -> str:
    """A car as the text of a sheet; reading it gives the same car back, to 1 part in a million."""
    return to_text(to_values(car, family))


def to_values(car: Car, family: str = "metric") -> dict:
    """A car as the tables of a sheet: text with units, bare ratios."""
    return _table_values(car, "", family)


def _table_values(record, key: str, family: str) -> dict:
    defaults = {one.name: one.default for one in fields(record)}
    found = {}
    for one in TABLES[key]:
        value = getattr(record, one.target, None)
        missing = value is None or value == "" or (key == "bar" and _replaced(record, one.name))
        if missing or (value == defaults.get(one.target, MISSING) and one.name not in _ALWAYS):
            continue
        found[one.name] = _written(one, value, family)
    for name, table in parts(key).items():
        part = getattr(record, name, None)
        if part is not None:
            found[name] = _table_values(part, table, family)
    if key == "bar" and record.blade and record.holes:
        found["blade"]["lever"] = _number(record.holes[0], "length", family)
    return found


def _replaced(bar: Bar, name: str) -> bool:
    """A field that blades, or rates that are known, leave no place for."""
    return bool(bar.blade and name == "holes") or (bar.rates is not None and name in RATES_REPLACE)


def _written(field: Field, value, family: str):
    if field.kind in ("text", "word", "whole number"):
        return value
    if isinstance(value, tuple):
        return [_number(item, field.kind, family) for item in value]
    return _number(value, field.kind, family)


def _number(value: float, kind: str, family: str):
    """A decimal with its unit; bare for a ratio."""
    text = f"{to_display(value, kind, family):.{_DIGITS}g}"
    if kind == "ratio":
        return float(text)
    plain = f"{float(text):.12f}".rstrip("0").rstrip(".") if "e" in text else text
    return f"{plain} {label(kind, family).replace('·', '*').replace('²', '^2')}"


def to_text(values: dict) -> str:
    """The tables of a sheet as TOML text, each field with a remark where its number is measured."""
    document = tomlkit.document()
    _fill(document, values, "")
    return tomlkit.dumps(document)


def _fill(table, values: dict, key: str) -> None:
    remarks = {one.name: one.where for one in TABLES.get(key, ())}
    inside = {name: value for name, value in values.items() if isinstance(value, dict)}
    for name, value in values.items():
        if name not in inside:
            item = tomlkit.item(value)
            if remarks.get(name):
                item.comment(remarks[name])
            table.add(name, item)
    for name, value in inside.items():
        new = tomlkit.table()
        _fill(new, value, parts(key).get(name, "none"))
        table.add(tomlkit.nl()) if not key else None
        table.add(name, new)
