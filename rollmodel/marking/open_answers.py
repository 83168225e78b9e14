"""What markers need: a page for each open question with rubric, samples and answers, and the form to fill.

Answers are laid by as they come, question by question, and written out at the end one at a time: marking
one question through the whole class keeps one standard, and memory stays flat.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

from rollmodel.marking.pages import write_open_page
from rollmodel.marking.rubric import HEADS, form_lines
from rollmodel.marking.scoring import Item
from rollmodel.marking.tables import Table
from rollmodel.questions import bank

FORM = "open-answers.csv"
PAGES = "open-answers"


@dataclass(frozen=True)
class OpenAnswer:
    """One open answer with all that its marker needs, and nothing that says whose it is."""

    question: str
    row: str
    asked: str
    worked: tuple[str, ...]
    points: tuple[str, ...]
    text: str


def open_answers(items: tuple[Item, ...]) -> list[OpenAnswer]:
    """Those of a marked paper that a person reads."""
    return [
        OpenAnswer(
            item.question.id,
            item.row,
            item.posed.text,
            tuple(item.posed.worked),
            tuple(item.posed.filled(one.text) for one in item.question.rubric),
            item.verdict.given,
        )
        for item in items
        if item.row
    ]


class LaidBy:
    """Open answers on the disk until all are there.

    Parameters
    ----------
    place : Path
        Folder of the results.
    """

    def __init__(self, place: Path):
        self._place, self._files = place, {}
        self.rows: set[str] = set()
        self._folder = place / "laid-by"
        self._folder.mkdir()

    def add(self, answers: list[OpenAnswer]) -> None:
        """Lay some by."""
        for one in answers:
            self.rows.add(one.row)
            if one.question not in self._files:
                self._files[one.question] = open(self._folder / one.question, "w", encoding="utf-8")  # noqa: SIM115
            self._files[one.question].write(json.dumps(asdict(one)) + "\n")

    def write_out(self) -> list[str]:
        """Write pages and form; the questions that have a page, in the order of the bank."""
        for file in self._files.values():
            file.close()
        names = [one.id for one in bank.all_questions() if one.id in self._files]
        if names:
            self._write_form(names)
            (self._place / PAGES).mkdir()
        for name in names:
            write_open_page(bank.question(name), self._answers(name), self._place / PAGES / f"{name}.html")
        shutil.rmtree(self._folder)
        return names

    def _write_form(self, names: list[str]) -> None:
        with Table(self._place / FORM, HEADS) as form:
            for name in names:
                question = bank.question(name)
                for one in self._answers(name):
                    form.add(form_lines(question, one["row"], one["points"], one["text"]))

    def _answers(self, name: str) -> Iterator[dict]:
        """One after the other, in the order in which they came."""
        with open(self._folder / name, encoding="utf-8") as file:
            for line in file:
                yield json.loads(line)

    def close(self) -> None:
        """Let go of the files, whatever happened."""
        for file in self._files.values():
            file.close()
