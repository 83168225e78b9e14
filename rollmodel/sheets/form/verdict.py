"""What the sheet says to the answers so far: each fault beside its own field, what is missing, the car."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from rollmodel.car import Car
from rollmodel.sheets.build import from_values
from rollmodel.sheets.faults import SheetError
from rollmodel.sheets.form.layout import ENDS, asked
from rollmodel.sheets.form.typed import to_tables
from rollmodel.sheets.remarks import remarks

_PLACE = re.compile(r"(?:\[([\w.]+)\] |top of the sheet, |(?=\w+: ))(\w+): (.*)", re.DOTALL)
_NOTE = re.compile(r"\[([\w.]+)\] (\w+) (is .*)", re.DOTALL)
_NO_KIND = "missing; wanted whether this end has a bar, and of which kind"
_NO_RATES = ", given an empty list; list at least one"  # a bar of known rates, none of them typed yet
_NO_ARMS = 'missing; wanted "rigid" or "same section"'  # blades are a kind of bar of their own here


@dataclass(frozen=True)
class Verdict:
    """The answers as the sheet's reader takes them.

    Attributes
    ----------
    car : Car or None
        None while anything is missing or refused.
    refused : dict of str to list of str
        Path to what the sheet says of it.
    missing : dict of str to str
        Path to what is wanted there.
    whole : tuple of str
        Faults of the car as a whole.
    notes : tuple of str
        What is believable and still worth a second look, of the car as a whole.
    odd : dict of str to str
        The same of one field: path to what the sheet asks.
    """

    car: Car | None = None
    refused: dict[str, list[str]] = field(default_factory=dict)
    missing: dict[str, str] = field(default_factory=dict)
    whole: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    odd: dict[str, str] = field(default_factory=dict)


def judge(answers: dict[str, str]) -> Verdict:
    """Read the answers as a sheet would be read.

    Examples
    --------
    >>> judge({"mass": "1290 lb/in"}).refused["mass"][0][-37:]
    'mass per length; write it in kg or lb'
    """
    paths = asked(answers)
    missing = {f"{end}.bar": _NO_KIND for end in ENDS if not answers.get(f"{end}.bar")}
    tables = to_tables(answers)
    odd, notes = _second_looks(remarks(tables).notes, paths)
    try:
        car = from_values(tables)
    except SheetError as error:
        refused, whole = {}, []
        for fault in error.faults:
            path, words = place(fault)
            if path not in paths:
                whole.append(fault)
            elif words.startswith("missing"):
                missing[path] = _NO_ARMS if path.endswith(".arms") else words
            elif words.endswith(_NO_RATES):
                missing[path] = f"missing; {words.removesuffix(_NO_RATES)}"
            else:
                refused.setdefault(path, []).append(words)
        in_order = {path: missing[path] for path in paths if path in missing}
        return Verdict(None, refused, in_order, tuple(whole), notes, odd)
    return Verdict(None if missing else car, missing=missing, notes=notes, odd=odd)


def _second_looks(notes, paths) -> tuple[dict[str, str], tuple[str, ...]]:
    """Notes that belong to a field, by its path, and the others."""
    odd, others = {}, []
    for note in notes:
        found = _NOTE.fullmatch(note)
        path = f"{found[1]}.{found[2]}" if found else ""
        if path in paths:
            odd[path] = found[3]
        else:
            others.append(note)
    return odd, tuple(others)


def place(fault: str) -> tuple[str, str]:
    """The path that a fault belongs to, and its words without it; no path where it is the whole car's.

    Examples
    --------
    >>> place("[front.bar] wall: wanted a length")
    ('front.bar.wall', 'wanted a length')
    """
    found = _PLACE.fullmatch(fault)
    if not found:
        return "", fault
    table, name, words = found.groups()
    return f"{table}.{name}" if table else name, words
