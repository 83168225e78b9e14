"""Pages for people: self-contained, with no script, and whatever strangers wrote made harmless.

Jinja2 escapes every value that is put into a page; nothing is marked as safe by hand. The pages also
tell the browser to load nothing and to run nothing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, PackageLoader, StrictUndefined

import rollmodel
from rollmodel.marking.class_report import ClassReport
from rollmodel.marking.comments import comment, over_all, right
from rollmodel.marking.flags import ENOUGH
from rollmodel.marking.harmless import plain
from rollmodel.marking.paper import Paper
from rollmodel.marking.scoring import Marked
from rollmodel.questions import pose
from rollmodel.questions.draws import EXAMPLE
from rollmodel.questions.records import Open

LISTED = 12  # answers to one question on the page; all of them are in the table file
PAIR_WORDS = {
    "wrong alike": "wrong in the same way",
    "same figure": "the same figure, though their numbers differ",
}


@lru_cache(maxsize=1)
def _pages() -> Environment:
    pages = Environment(
        loader=PackageLoader("rollmodel.marking"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    pages.filters |= {"plain": plain, "figure": figure, "marks": marks}
    pages.globals |= {"version": rollmodel.__version__}
    return pages


def figure(value: float, places: int) -> str:
    """A figure for a page; a dash where there is none."""
    return "\N{EN DASH}" if not math.isfinite(value) else f"{value + 0.0:.{places}f}"


def marks(value: float) -> str:
    """Marks, with a fraction only where there is one."""
    return f"{round(value, 2):g}"


def class_page(report: ClassReport, sheets: Sequence[str], open_pages: Sequence[str] = ()) -> str:
    """The class report.

    Parameters
    ----------
    report : ClassReport
    sheets : sequence of str
        Name of each learner's marked paper, in the order of the report.
    open_pages : sequence of str
        Open questions that have a page for their markers.
    """
    return (
        _pages()
        .get_template("class.html")
        .render(
            report=report,
            sheets=sheets,
            open_pages=open_pages,
            enough=ENOUGH,
            listed=LISTED,
            pair_words=PAIR_WORDS,
        )
    )


def learner_page(marked: Marked, paper: Paper) -> str:
    """One learner's marked paper."""
    return (
        _pages()
        .get_template("learner.html")
        .render(marked=marked, paper=paper, over_all=over_all(marked), comment=comment, right=right)
    )


def write_open_page(question: Open, answers: Iterable[Mapping], path: Path) -> None:
    """The page for those who mark one open question; answers are written as they come.

    Parameters
    ----------
    question : Open
    answers : iterable of Mapping
        The fields of OpenAnswer.
    path : Path
    """
    sample = pose(question, EXAMPLE)
    points = [sample.filled(one.text) for one in question.rubric]
    page = (
        _pages()
        .get_template("open.html")
        .stream(question=question, answers=answers, sample_text=sample.text, sample_points=points)
    )
    page.enable_buffering(100)
    with open(path, "w", encoding="utf-8", errors="backslashreplace") as file:
        file.writelines(page)
