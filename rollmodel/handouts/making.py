"""Run lessons side by side, and make each one's pages."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory

HANDOUTS, SLIDES = "handouts", "slides"
MOST_AT_ONCE = 4  # each takes a processor and about 200 MB


def lesson_pages(
    lessons: Iterable[Path], family: str = "metric", code_word: str = "example"
) -> Iterator[dict[str, str]]:
    """The handout and the slides of each lesson, as soon as they are made.

    Parameters
    ----------
    lessons : iterable of pathlib.Path
        The notebooks.
    family : {"metric", "US customary"}
    code_word : str
        Decides the numbers of the warm-up questions.

    Yields
    ------
    dict
        "handouts" and "slides", each the text of a page in HTML.

    Raises
    ------
    LessonFailed
        A lesson did not run.
    """
    lessons = list(lessons)
    at_once = max(1, min(len(lessons), MOST_AT_ONCE, os.cpu_count() or 1))
    with (
        TemporaryDirectory(ignore_cleanup_errors=True) as scratch,
        ProcessPoolExecutor(at_once, get_context("spawn"), _begin, (scratch,)) as workers,
    ):
        jobs = [workers.submit(_pages_of, path, family, code_word) for path in lessons]
        try:
            yield from (job.result() for job in jobs)
        finally:
            workers.shutdown(wait=False, cancel_futures=True)


# What follows happens in the processes that run lessons; they alone load widgets and drawing.


def _begin(scratch: str) -> None:
    from rollmodel.handouts.running import begin

    begin(scratch)


def _pages_of(path: Path, family: str, code_word: str) -> dict[str, str]:
    from rollmodel.handouts.pages import deck, handout
    from rollmodel.handouts.running import run_lesson

    ran = run_lesson(path, family, code_word)
    return {HANDOUTS: handout(ran), SLIDES: deck(ran)}
