"""Open answers: the form that an assessor fills, read back and turned into marks.

A form has a line for each point of the rubric of each answer. Markers see neither name nor code word. Two
markers fill a copy each, without looking at the other's; where their sums differ by more than one mark,
the answer waits until they have talked it over.
"""

from __future__ import annotations

import csv
import io
import math
import os
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rollmodel.disk import read_plain
from rollmodel.marking.harmless import plain
from rollmodel.questions import bank
from rollmodel.questions.records import Open

HEADS = ("question", "row", "point", "look_for", "most", "marks", "remark", "answer")
NEEDED = ("question", "row", "point", "marks")
LARGEST = 200_000_000  # bytes of a form
MOST_FAULTS = 20  # told at once
STEP = 0.5  # marks are given in halves
APART = 1.0  # marks that two markers may differ by
_MARKS = re.compile(r"\d{1,3}(?:[.,]\d{1,3})?")


class FormError(ValueError):
    """A form that cannot be used; one message with its faults, line by line."""


@dataclass(frozen=True)
class Form:
    """What one marker gave.

    Parameters
    ----------
    name : str
        Of the file.
    given : Mapping
        Row to the marks of each of its points, in order; only rows that are filled.
    remarks : Mapping
        Row to remarks.
    questions : Mapping
        Row to the id of its question.
    """

    name: str
    given: Mapping[str, tuple[float, ...]]
    remarks: Mapping[str, tuple[str, ...]]
    questions: Mapping[str, str]

    def total(self, row: str) -> float:
        """Marks of one answer, before the paper's own worth of the question."""
        return sum(self.given[row])


@dataclass(frozen=True)
class Judged:
    """One open answer as people judged it: part of the marks, None while unsettled, and what was said."""

    part: float | None
    said: tuple[str, ...]


def form_lines(question: Open, row: str, points: Sequence[str], answer: str) -> Iterator[tuple]:
    """The lines of one answer in an empty form; ``points`` are filled with the learner's own figures."""
    for number, (criterion, text) in enumerate(zip(question.rubric, points, strict=True), start=1):
        yield question.id, row, number, text, criterion.marks, "", "", answer


def read_form(path) -> Form:
    """Read a form that a marker has filled.

    Raises
    ------
    FormError
        It cannot be read, or a cell in it is not what was asked for.
    """
    name = plain(os.path.basename(os.fspath(path)), 80)
    lines = _lines(_text(path, name), name)
    faults: list[str] = []
    cells: dict[str, dict[int, float]] = {}
    remarks: dict[str, list[str]] = {}
    questions: dict[str, str] = {}
    for at, line in lines:
        try:
            _take(line, cells, remarks, questions)
        except ValueError as fault:
            faults.append(f"{name}, line {at}: {fault}")
    faults += [f"{name}, {fault}" for fault in _half_filled(cells, questions)]
    if faults:
        more = [f"and {len(faults) - MOST_FAULTS} more"] if len(faults) > MOST_FAULTS else []
        raise FormError("\n".join(faults[:MOST_FAULTS] + more))
    given = {
        row: tuple(points[number] for number in sorted(points)) for row, points in cells.items() if points
    }
    return Form(name, given, {row: tuple(said) for row, said in remarks.items()}, questions)


def _text(path, name: str) -> str:
    """UTF-8, or the older encoding in which some spreadsheets save."""
    try:
        data = read_plain(path, LARGEST + 1)
    except OSError as error:
        raise FormError(f"{name}: this form cannot be read ({error.strerror or error})") from None
    if len(data) > LARGEST:
        raise FormError(f"{name}: far too large for a form")
    if data.startswith(b"PK"):
        raise FormError(f"{name}: this is a spreadsheet's own file; save it as CSV first")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


def _lines(text: str, name: str) -> list[tuple[int, dict]]:
    """Each line with its number, its cells by the head of their column."""
    head = text.splitlines()[0] if text.strip() else ""
    separator = max(",;\t", key=head.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator))
    except csv.Error as error:
        raise FormError(f"{name}: this is no CSV table ({error})") from None
    heads = [cell.strip().lower() for cell in rows[0]] if rows else []
    missing = [one for one in NEEDED if one not in heads]
    if missing:
        raise FormError(f"{name}: no column {', '.join(missing)}; fill the open-answers.csv that mark wrote")
    return [(at, dict(zip(heads, row, strict=False))) for at, row in enumerate(rows[1:], start=2) if any(row)]


def _take(line: dict, cells: dict, remarks: dict, questions: dict) -> None:
    """One line of the form; raises ValueError with what is wrong in it."""
    row, question, point = line.get("row", "").strip(), _question(line), _whole(line.get("point", ""))
    if not re.fullmatch(r"r[0-9a-f]{15}", row):
        raise ValueError(f'row: "{plain(row, 40)}" is not one that mark wrote; leave that column as it is')
    if not 1 <= point <= len(question.rubric):
        raise ValueError(f"point: {question.id} has points 1 to {len(question.rubric)}, given {point}")
    if questions.setdefault(row, question.id) != question.id:
        raise ValueError(f"question: row {row} stands under {questions[row]} above, here under {question.id}")
    if point in cells.setdefault(row, {}):
        raise ValueError(f"point {point} of row {row} stands in the form twice")
    if line.get("remark", "").strip():
        remarks.setdefault(row, []).append(plain(line["remark"].strip().removeprefix("'"), 500))
    if line["marks"].strip():
        cells[row][point] = _marks(line["marks"], question.rubric[point - 1].marks)


def _question(line: dict) -> Open:
    name = line.get("question", "").strip()
    try:
        question = bank.question(name)
    except bank.UnknownQuestion:
        question = None
    if not isinstance(question, Open):
        raise ValueError(f'question: "{plain(name, 40)}" is no open question of the bank')
    return question


def _whole(text: str) -> int:
    text = text.strip()
    if not re.fullmatch(r"\d{1,3}", text, re.ASCII):
        raise ValueError(f'point: wanted a whole number, given "{plain(text, 40)}"')
    return int(text)


def _marks(text: str, most: int) -> float:
    text = text.strip()
    value = float(text.replace(",", ".")) if _MARKS.fullmatch(text) else math.nan
    if not 0 <= value <= most or value / STEP != round(value / STEP):
        raise ValueError(f'marks: wanted 0 to {most} in steps of {STEP}, given "{plain(text, 40)}"')
    return value


def _half_filled(cells: dict, questions: dict) -> list[str]:
    """Answers with marks for some points and none for others: a blank is no nought."""
    return [
        f"row {row} ({questions[row]}): {len(points)} of {count} points have marks; write 0 where none is due"
        for row, points in cells.items()
        if 0 < len(points) < (count := len(bank.question(questions[row]).rubric))
    ]


def judged(forms: Sequence[Form]) -> dict[str, Judged]:
    """What one or two markers together come to, row by row."""
    rows = dict.fromkeys(row for form in forms for row in form.given)
    return {row: _judged(row, [form for form in forms if row in form.given], len(forms)) for row in rows}


def _judged(row: str, forms: Sequence[Form], wanted: int) -> Judged:
    totals = [form.total(row) for form in forms]
    said = _points(row, forms) + [
        f"Marker: {remark}" for form in forms for remark in form.remarks.get(row, ())
    ]
    if len(forms) < wanted:
        return Judged(None, ("The second marker has still to read it.",))
    if max(totals) - min(totals) > APART:
        return Judged(None, ("The two markers differ; they have still to talk it over.",))
    full = bank.question(forms[0].questions[row]).full_marks
    return Judged(sum(totals) / len(totals) / full, tuple(said))


def _points(row: str, forms: Sequence[Form]) -> list[str]:
    rubric = bank.question(forms[0].questions[row]).rubric
    means = [sum(form.given[row][at] for form in forms) / len(forms) for at in range(len(rubric))]
    marks = ", ".join(f"{mean:g} of {one.marks}" for mean, one in zip(means, rubric, strict=True))
    return [f"Marks point by point: {marks}."]
