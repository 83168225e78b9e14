"""One value of a car sheet: from what TOML gave to SI, or one fault that says how to mend it."""

from __future__ import annotations

import re

from rollmodel.sheets.faults import nearest
from rollmodel.sheets.schema import DRIVES_SAID, Field
from rollmodel.typed import holds_several
from rollmodel.units import KINDS, UnitError, as_given, parse, quoted, within

LONGEST_TEXT = 1000
MOST_POSITIONS = 50  # holes or blade angles

_TYPES = {list: "a list", dict: "a table"}


class Fault(ValueError):
    """What is wrong with one value; the caller adds table and field."""


def read(field: Field, value):
    """A field's value in SI (numbers), or as it stands (text, words); tuples for lists."""
    if field.many or (field.one_or_many and isinstance(value, list)):
        return _read_list(field, value)
    if isinstance(value, (list, dict)):
        raise Fault(f"wanted {wanted(field)}, given {given(value)}")
    return _READERS.get(field.kind, _read_number)(field, value)


def wanted(field: Field) -> str:
    """What a field takes, in words."""
    if field.words:
        return "one of " + ", ".join(f'"{word}"' for word in field.words)
    if field.kind in ("text", "whole number"):
        return {"text": "text in quotes", "whole number": "a whole number, counted from 1"}[field.kind]
    noun, example = KINDS[field.kind].noun, field.example or KINDS[field.kind].examples[0]
    if field.many:
        return f"{noun} for each, such as [{example}]"
    return f"{noun} such as {example if field.kind == 'ratio' else quoted(example)}"


def given(value) -> str:
    """What was given, short, for a message."""
    if isinstance(value, (str, int, float)) and not isinstance(value, bool):
        return as_given(value)
    if isinstance(value, bool):
        return str(value).lower()
    return _TYPES.get(type(value), "a date or time")


def _read_list(field: Field, value):
    if not isinstance(value, list):
        raise Fault(f"wanted {wanted(field)}, given {given(value)} alone; put it in square brackets")
    if not value:
        raise Fault(f"wanted {wanted(field)}, given an empty list; list at least one")
    if len(value) > MOST_POSITIONS:
        raise Fault(f"wanted at most {MOST_POSITIONS} of them, given {len(value)}")
    read_items = []
    for number, item in enumerate(value, start=1):
        try:
            if isinstance(item, (list, dict)):
                raise Fault(f"wanted {KINDS[field.kind].noun}, given {given(item)}")
            read_items.append(_read_number(field, item))
        except Fault as fault:
            mend = "; several were meant? Put a comma between each two" if holds_several(item) else ""
            raise Fault(f"number {number} in the list: {fault}{mend}") from None
    return tuple(read_items)


def _read_number(field: Field, value):
    if field.kind == "grip drop" and isinstance(value, (int, float)) and not isinstance(value, bool):
        return _read_number(field, f"{value!r} 1/kN")  # the name says per kN: a bare ratio is enough
    if isinstance(value, bool) or not isinstance(value, (str, int, float)):
        raise Fault(f"wanted {wanted(field)}, given {given(value)}")
    try:
        return within(parse(value, field.kind), value, field.kind, *field.range)
    except UnitError as error:
        said = f"wanted {wanted(field)}, given {given(value)}: {error.mend}" if error.mend else error
        raise Fault(f"{said}{_inverted(field, value)}") from None


def _inverted(field: Field, value) -> str:
    """A motion ratio that would be believable the other way up."""
    if not field.name.endswith("motion_ratio"):
        return ""
    try:
        upside_down = 1 / parse(value, "ratio")
    except (UnitError, ZeroDivisionError):
        return ""
    low, high = field.range
    if not low <= upside_down <= high:
        return ""
    return f". It is component travel over wheel travel; {upside_down:.3g} was meant?"


def _read_text(field: Field, value):
    if not isinstance(value, str):
        raise Fault(f"wanted text in quotes, given {given(value)}")
    if len(value) > LONGEST_TEXT:
        raise Fault(f"wanted at most {LONGEST_TEXT} characters, given {len(value)}")
    spacing = "\n\t" if field.name == "note" else ""
    if not all(letter.isprintable() or letter in spacing for letter in value):
        raise Fault(f"wanted printable text, given {quoted(value)} with a control character in it")
    return value


def _read_word(field: Field, value):
    if value in field.words:
        return value
    near = _meant(field, str(value)) if isinstance(value, (str, int)) else None
    raise Fault(f"wanted {wanted(field)}, given {given(value)}" + (f"; {near} was meant?" if near else ""))


def _meant(field: Field, value: str) -> str:
    """The word that another name for it, or a misspelt one, stands for; each word that it begins."""
    plain = " ".join(value.lower().replace("-", " ").split())
    year = re.search(r"\d{4}", plain)  # "MF2006", or the year alone
    begun = [word for word in field.words if plain and word.startswith(plain) or year and year[0] in word]
    near = DRIVES_SAID.get(plain if field.name == "drive" else "") or nearest(value, field.words)
    return " or ".join(f'"{word}"' for word in begun or [near] if word)


def _read_whole_number(field: Field, value):
    if isinstance(value, int) and not isinstance(value, bool):
        if field.high and not field.low <= value <= field.high:
            raise Fault(f"wanted a whole number from {field.low} to {field.high}, given {value}; count from "
                        "the softest, which is 1")
        return value
    hint = "; write the figure alone, such as 2: 1 is the softest"
    if isinstance(value, str) and value.strip().isdecimal() and int(value) > 0:
        hint = "; write it without quotes"
    if isinstance(value, float) and value.is_integer() and 0 < value < 1000:
        hint = f"; write {value:.0f}, without the point"
    raise Fault(f"wanted {wanted(field)}, given {given(value)}{hint}")


_READERS = {"text": _read_text, "word": _read_word, "whole number": _read_whole_number}
