"""Tables for a spreadsheet or a program: UTF-8 text parted by commas; no cell in them can start a formula."""

from __future__ import annotations

import csv
import math
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from rollmodel.marking.agreement import Agreement
from rollmodel.marking.class_report import ClassReport
from rollmodel.marking.comments import comment, right
from rollmodel.marking.harmless import cell
from rollmodel.marking.pages import PAIR_WORDS
from rollmodel.marking.scoring import Marked

ANSWERS = (
    "file",
    "code_word",
    "question",
    "version",
    "marks",
    "of",
    "status",
    "road",
    "given",
    "right_answer",
    "comment",
    "form_row",
)
AGREEMENT = (
    "question",
    "answers",
    "same",
    "within_one",
    "linear_kappa",
    "linear_low",
    "linear_high",
    "quadratic_kappa",
    "quadratic_low",
    "quadratic_high",
)
FIGURES = ("facility", "upper", "lower", "discrimination", "item_rest")


class Table:
    """A table that is written line by line."""

    def __init__(self, path: Path, heads: Sequence[str]):
        self._file = open(path, "w", encoding="utf-8", errors="backslashreplace", newline="")  # noqa: SIM115
        self._writer = csv.writer(self._file)
        self._writer.writerow(heads)

    def add(self, lines: Iterable[Sequence]) -> None:
        """Lines of values, each made harmless."""
        self._writer.writerows([_cell(value) for value in line] for line in lines)

    def __enter__(self) -> Table:
        return self

    def __exit__(self, *trouble) -> None:
        self._file.close()


def _cell(value):
    """An empty cell for a figure that there is not; no more digits than mean something."""
    if isinstance(value, float):
        return f"{value:.6g}" if math.isfinite(value) else ""
    return cell(value)


def answer_lines(marked: Marked) -> list[tuple]:
    """A line for each question of one learner."""
    handed = marked.handed
    return [
        (
            handed.name,
            handed.code_word,
            item.question.id,
            item.question.version,
            item.marks,
            item.most,
            item.verdict.status,
            item.verdict.belief.name if item.verdict.belief else "",
            item.verdict.given,
            right(item),
            comment(item),
            item.row,
        )
        for item in marked.items
    ]


def write_class_tables(report: ClassReport, sheets: Sequence[str], into: Path) -> None:
    """Every table but the one of all answers, which is written as the files are marked."""
    for name, heads, lines in _class_tables(report, sheets):
        with Table(into / name, heads) as table:
            table.add(lines)


def _agreement_line(one: Agreement) -> tuple:
    return (
        one.question,
        one.answers,
        one.same,
        one.near,
        *(value for ends in one.kappa.values() for value in ends),
    )


def _class_tables(report: ClassReport, sheets: Sequence[str]) -> Iterator[tuple[str, tuple, Iterable]]:
    yield "class.csv", _class_heads(report), (_class_line(one, report.speaks) for one in report.questions)
    yield (
        "given.csv",
        ("question", "answer", "road", "right", "learners", "in_upper", "in_lower"),
        (
            (one.question.id, given.what, given.road, int(given.right), given.count, given.upper, given.lower)
            for one in report.questions
            for given in one.given
        ),
    )
    yield (
        "roads.csv",
        ("belief", "answers", "learners", "questions"),
        ((road.name, road.count, road.learners, " ".join(road.questions)) for road in report.roads),
    )
    yield (
        "learners.csv",
        ("file", "code_word", "marks", "of", "to_be_decided", "marked_paper", "to_be_looked_at"),
        (
            (row.name, row.code_word, row.marks, report.paper.most, row.waiting, sheet, "; ".join(row.notes))
            for row, sheet in zip(report.rows, sheets, strict=True)
        ),
    )
    yield (
        "alike.csv",
        ("one", "other", "what", "shared", "expected_by_chance", "chance"),
        (
            (
                report.rows[pair.one].name,
                report.rows[pair.other].name,
                PAIR_WORDS[pair.what],
                pair.shared,
                pair.expected,
                pair.chance,
            )
            for pair in report.pairs
        ),
    )
    if report.agreement:
        yield "agreement.csv", AGREEMENT, map(_agreement_line, report.agreement)
    yield (
        "set-aside.csv",
        ("file", "sort", "reason"),
        ((one.name, one.kind, one.reason) for one in (*report.asides, *report.left_alone)),
    )


def _class_heads(report: ClassReport) -> tuple[str, ...]:
    heads = ("question", "version", "lesson", "aim", "level", "marks", "answered", *FIGURES, "unused_options")
    return (*heads, "look_at_it_because") if report.speaks else heads


def _class_line(one, speaks: bool) -> tuple:
    question = one.question
    line = (
        question.id,
        question.version,
        question.lesson,
        question.aim,
        question.level,
        one.most,
        one.answered,
        *(one.figures[name] for name in FIGURES),
        " ".join(one.unused),
    )
    return (*line, "; ".join(one.reasons)) if speaks else line
