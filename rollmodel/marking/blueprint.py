"""The blueprint of the bank: which aim is asked for by which question, how hard, how long, how exactly."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from rollmodel.marking.paper import usual_marks
from rollmodel.questions.records import Numeric, Question
from rollmodel.questions.shown import computed

KINDS = {"Numeric": "figure", "Choice": "choice", "Ordering": "order", "Open": "open"}
LEVELS = (1, 2, 3)


def blueprint(questions: Sequence[Question]) -> str:
    """Three tables in Markdown: how many by lesson and level, aim by question, and the tolerances."""
    tables = (counts_table(questions), aims_table(questions), tolerance_table(questions))
    return "\n\n".join(tables) + "\n"


def _table(heads: Sequence[str], lines: Iterable[Sequence]) -> str:
    rows = [heads, ["---"] * len(heads), *lines]
    return "\n".join("| " + " | ".join(map(str, row)) + " |" for row in rows)


def counts_table(questions: Sequence[Question]) -> str:
    """Questions to be had for an assessment, by lesson and level, with minutes and marks."""
    assessed = [one for one in questions if "assessment" in one.pools]
    heads = ("lesson", *(f"level {level}" for level in LEVELS), "questions", "minutes", "marks")
    groups = {
        lesson: [one for one in assessed if one.lesson == lesson]
        for lesson in sorted({one.lesson for one in assessed})
    }
    lines = [_counts_line(lesson, group) for lesson, group in groups.items()]
    return _table(heads, [*lines, _counts_line("all", assessed)])


def _counts_line(name, group: Sequence[Question]) -> tuple:
    by_level = [sum(one.level == level for one in group) for level in LEVELS]
    minutes, marks = sum(one.minutes for one in group), sum(map(usual_marks, group))
    return name, *by_level, len(group), f"{minutes:g}", f"{marks:g}"


def aims_table(questions: Sequence[Question]) -> str:
    """One line for each aim, lesson by lesson, with the questions that ask for it."""
    aims: dict[tuple, list[Question]] = defaultdict(list)
    for one in sorted(questions, key=lambda one: one.lesson):
        aims[one.lesson, one.aim].append(one)
    heads = ("lesson", "aim", "question", "kind", "level", "minutes", "asked in")
    lines = [_aim_line(lesson, aim, one) for (lesson, aim), group in aims.items() for one in group]
    return _table(heads, lines)


def _aim_line(lesson: int, aim: str, one: Question) -> tuple:
    name = f"`{one.id}`" + ("" if one.version == 1 else f", version {one.version}")
    return lesson, aim, name, KINDS[type(one).__name__], one.level, f"{one.minutes:g}", ", ".join(one.pools)


def tolerance_table(questions: Sequence[Question]) -> str:
    """How far from the key a figure is still right, and why so far."""
    groups: dict[tuple, list[str]] = defaultdict(list)
    for one in questions:
        if isinstance(one, Numeric):
            groups[_window(one), one.tolerance.reason].append(f"`{one.id}`")
    lines = [
        (window, reason, _names(names)) for (window, reason), names in sorted(groups.items(), key=_most_first)
    ]
    return _table(("right within", "because", "questions"), lines)


def _window(one: Numeric) -> str:
    words = [f"{100 * one.tolerance.relative:g} %"] if one.tolerance.relative else []
    words += [computed(one.tolerance.absolute, one.kind, "metric")] if one.tolerance.absolute else []
    return ", at least ".join(words)


def _most_first(entry) -> tuple:
    return -len(entry[1]), entry[0]


def _names(names: list[str], most: int = 12) -> str:
    return ", ".join(names) if len(names) <= most else f"the other {len(names)}"
