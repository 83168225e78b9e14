"""From what somebody typed into the form to the tables of a sheet, and back."""

from __future__ import annotations

import re

from rollmodel.sheets.build import from_values
from rollmodel.sheets.form.layout import ENDS, applies, every_path
from rollmodel.sheets.remarks import remarks
from rollmodel.sheets.schema import TABLES, Field, parts
from rollmodel.sheets.text import to_values
from rollmodel.typed import is_number, numbered
from rollmodel.units import KINDS, label

_SIGN = re.compile(r"±|\+/-|\+-")
_LIST = re.compile(r"\s*,\s*")
_SEVERAL = re.compile(r"\s*;\s*")
_QUOTING = re.compile(r"[\[\]\"']")
_UNIT = re.compile(r"[A-Za-zµ°%(/1]")
_DIGITS = 4  # significant ones of a training car in the other family: a start, to be written over


def unit(kind: str, family: str) -> str:
    """The unit of a kind as a sheet writes it; empty for a ratio."""
    return label(kind, family).replace("·", "*").replace("²", "^2") if kind in KINDS else ""


def complete(text: str, field: Field | None, family: str) -> str:
    """What was typed, with the unit shown beside the box where it has none.

    Parameters
    ----------
    text : str
    field : Field or None
    family : str
        Of the unit shown.

    Examples
    --------
    >>> complete("470 ± 20", TABLES[""][5], "metric")
    '470 mm ± 20 mm'
    >>> complete("9, 8, 7 in", TABLES["bar"][4], "metric")
    '9 in, 8 in, 7 in'
    >>> complete("0.52", TABLES[""][3], "metric")
    '52 %'
    """
    text = text.strip()
    if not text or field is None or field.kind not in KINDS:
        return text
    text = _QUOTING.sub("", text).strip()  # as the sheet itself has it, ["220 mm", "200 mm"]
    if not (field.many or field.one_or_many):
        return _with_unit(text, unit(field.kind, family))
    items = [item for item in (_SEVERAL if ";" in text else _LIST).split(text) if item]
    last = numbered(items[-1]) if items else None
    common = last[2].strip() if last and last[2].strip() and not _SIGN.search(last[2]) else ""
    return ", ".join(_with_unit(item, common or unit(field.kind, family)) for item in items)


def _with_unit(text: str, unit_: str) -> str:
    """A number, or one with its uncertainty, given a unit where it has none."""
    sides = [numbered(side) for side in _SIGN.split(text)]
    units = [side[2].strip() for side in sides if side and side[2].strip()]
    if not all(sides) or len(sides) > 2 or len(units) == len(sides) == 1 or not all(map(_UNIT.match, units)):
        return text  # complete, or the sheet says what is wrong with it
    if unit_ == "%" and not units and abs(float(sides[0][1])) <= 1:
        return " ± ".join(f"{100 * float(side[1]):.12g} %" for side in sides)  # a part of one
    pairs = zip(_SIGN.split(text), [side[2] for side in sides], strict=True)
    return " ± ".join(f"{side.removesuffix(rest).strip()} {rest.strip() or (units or [unit_])[-1]}".strip()
                      for side, rest in pairs)


def to_tables(answers: dict[str, str]) -> dict:
    """The tables of a sheet from the answers, in the sheet's own order; unanswered fields are left out.

    Answers that do not go with the present bars and tyre curve stay behind.
    """
    return _table(answers, "", "")


def _table(answers, key: str, start: str) -> dict:
    found = {}
    for field in TABLES[key]:
        text = answers.get(start + field.name, "").strip()
        if text and applies(start + field.name, answers):
            found[field.name] = _value(field, text)
    if key == "bar" and answers.get(start.rstrip(".")) == "blades":
        found = {"arms": "blade"} | found
    if key == "bar" and answers.get(start.rstrip(".")) == "rates":
        found = {"rates": []} | found  # so that they are asked for, and no size
    for name, inner in parts(key).items():
        table = _table(answers, inner, f"{start}{name}.")
        if table or _wanted(inner, f"{start}{name}", answers):
            found[name] = table
    return found


def _wanted(key: str, path: str, answers) -> bool:
    """Whether a table stands in the sheet even with nothing in it, so that each field is asked for."""
    if key == "damper":
        return False
    if key in ("bar", "blade"):
        kind = answers.get(".".join(path.split(".")[:2]), "")
        return kind == "blades" or (key == "bar" and kind in ("holes", "rates"))
    return True


def _value(field: Field, text: str):
    """An answer as a sheet has it: text, a bare number for a ratio, a list."""
    if field.kind == "whole number":
        return int(text) if re.fullmatch(r"[+-]?[0-9]{1,9}", text) else text
    if field.many or (field.one_or_many and "," in text):
        return [item for item in _LIST.split(text) if item]
    if field.kind == "ratio" and (number := numbered(text)) and not number[2]:
        return float(number[1])
    return text


def to_answers(tables: dict) -> tuple[dict[str, str], list[str]]:
    """A sheet's tables as answers, and the names in it that no sheet has.

    Parameters
    ----------
    tables : dict
        As a TOML reader returns them, whatever stands in them.
    """
    answers, unknown = {}, []
    _gather(tables, "", "", answers, unknown)
    for end in ENDS:
        axle = tables.get(end)
        bar = axle.get("bar") if isinstance(axle, dict) else None
        answers[f"{end}.bar"] = "none" if bar is None else _kind(bar)
    return answers, unknown


def _kind(bar) -> str:
    """Which of the form's bars a sheet has."""
    if isinstance(bar, dict) and "rates" in bar and not {"outer_diameter", "holes", "blade"} & bar.keys():
        return "rates"
    blades = isinstance(bar, dict) and ("blade" in bar or bar.get("arms") == "blade")
    return "blades" if blades else "holes"


def _gather(table: dict, key: str, start: str, answers, unknown) -> None:
    fields = {field.name: field for field in TABLES[key]}
    for name, value in table.items():
        if name in fields:
            answers[start + name] = _text(value, fields[name].kind)
        elif name in parts(key) and isinstance(value, dict):
            _gather(value, parts(key)[name], f"{start}{name}.", answers, unknown)
        else:
            unknown.append(start + name)


def _text(value, kind: str) -> str:
    if isinstance(value, list):
        return ", ".join(_text(item, kind) for item in value)
    return f"{value} 1/kN" if kind == "grip drop" and is_number(value) else str(value)


def car_answers(tables: dict, family: str) -> dict[str, str]:
    """A good sheet's tables as answers in a family: as typed where it is that family's, else rounded."""
    if remarks(tables).family == family:
        return to_answers(tables)[0]
    answers, _ = to_answers(to_values(from_values(tables), family))
    lines = every_path()
    return {path: _rounded(text) if path in lines and lines[path].field and
            lines[path].field.kind in KINDS else text for path, text in answers.items()}


def _rounded(text: str) -> str:
    return ", ".join(_short(item) for item in _LIST.split(text))


def _short(text: str) -> str:
    number, unit_ = numbered(text).groups()
    return f"{float(f'{float(number):.{_DIGITS}g}'):.12g} {unit_}".strip()
