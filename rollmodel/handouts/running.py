"""Run a lesson in this process, and take down what it shows in both looks.

The pictures come from the panels themselves, so that they say what the notebook says. One process runs one
lesson at a time; the command gives each its own.
"""

from __future__ import annotations

from base64 import b64encode
from pathlib import Path

import nbformat
from bs4 import BeautifulSoup, Tag
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output
from traitlets.config import Config

from rollmodel.course import entry
from rollmodel.handouts.pieces import (
    ClassVote,
    Item,
    LessonFailed,
    Pictures,
    Predict,
    Questions,
    Ran,
    Said,
    Shot,
    Words,
)
from rollmodel.handouts.telling import AT_THE_SCREEN, divided, predicted_states
from rollmodel.panels import session
from rollmodel.panels.asking import Exercise, Recall
from rollmodel.panels.classroom import ClassQuestion
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.shown import Shown
from rollmodel.units import label


def begin(folder: str) -> None:
    """Set up the process that runs lessons; what IPython keeps goes to a folder that is thrown away."""
    InteractiveShell.instance(ipython_dir=folder, config=Config({"HistoryAccessor": {"enabled": False}}))


def run_lesson(path: Path, family: str = "metric", code_word: str = "example") -> Ran:
    """A lesson as somebody sees it who opens it afresh and runs every cell.

    Parameters
    ----------
    path : pathlib.Path
        The lesson's notebook.
    family : {"metric", "US customary"}
    code_word : str
        Decides the numbers of the warm-up questions.

    Raises
    ------
    LessonFailed
        A cell did not run, or the first one begins no lesson.
    """
    session.forget_all()
    session.remembered(path.name[:2], "lesson").update(family=family)
    shell, notebook = InteractiveShell.instance(), nbformat.read(path, as_version=4)
    shell.reset(new_session=False)
    found = []  # words, and what was shown
    for cell in notebook.cells:
        if AT_THE_SCREEN in cell.metadata.get("tags", ()):
            continue
        found += [Words(cell.source)] if cell.cell_type == "markdown" else _shown_by(shell, cell.source, path)
        if isinstance(begun := shell.user_ns.get("lesson"), Lesson):
            begun.code_word = code_word
    lesson = shell.user_ns.get("lesson")
    if not isinstance(lesson, Lesson):
        raise LessonFailed(f"{path.name}: its first code cell does not begin a lesson")
    about = entry(path)
    return Ran(about.number, about.title, lesson.car.title, family, tuple(_pieces(found, lesson)))


def _shown_by(shell: InteractiveShell, source: str, path: Path) -> list:
    """What one cell shows: its prose, and the panel or question that it ends with."""
    with capture_output() as captured:
        ran = shell.run_cell(source)
    if not ran.success:
        fault = ran.error_before_exec or ran.error_in_exec
        raise LessonFailed(f"{path.name}: a cell does not run ({type(fault).__name__}: {fault})")
    prose = [output.data["text/markdown"] for output in captured.outputs if "text/markdown" in output.data]
    return [*map(Words, prose), *([ran.result] if isinstance(ran.result, Shown) else [])]


def _pieces(found: list, lesson: Lesson):
    """Each piece in turn; panels are looked at twice, on the desk's screen and on the projector."""
    shown = [one for one in found if isinstance(one, Shown)]
    desk, panel = {one: _pictures_of(one) for one in shown}, ""
    with capture_output():  # prose that is already taken down would be shown once more
        lesson.change(projector=True)
    for one in found:
        if isinstance(one, Words):
            yield from divided(one.text, panel)
        elif isinstance(one, ClassQuestion):
            yield ClassVote(_item(one.ask.posed), _item(one.twin.posed))
        elif isinstance(one, Recall):
            yield Questions(one.title, tuple(_item(ask.posed) for ask in one.asks))
        elif isinstance(one, Exercise):
            yield Questions(one.title, (_item(one.ask.posed),))
        else:
            panel = one.title
            yield from _looked_at(one, desk[one])


def _item(posed) -> Item:
    return Item(posed.text, tuple(posed.options))


def _looked_at(panel: Shown, desk: list):
    """A panel's pictures, and whatever words it adds."""
    still = _still(panel)
    pairs = zip(desk, _pictures_of(panel, still), strict=True)
    shots = tuple(Shot(name, words, small, large) for (name, words, small), (_, _, large) in pairs)
    if shots:
        yield Pictures(panel.title, _predict(panel), shots)
    for group in still.select(".rm-still"):
        if not group.find("img"):
            yield Said(group["aria-label"], _body(group))


def _still(panel: Shown) -> BeautifulSoup:
    return BeautifulSoup(panel.stored()["text/html"], "html.parser")


def _pictures_of(panel: Shown, still: BeautifulSoup | None = None) -> list[tuple[str, str, str]]:
    """Name, words and picture of each state: the predicted change, else what the notebook stores.

    ``still`` is what it stores, where that was drawn already.
    """
    if _predict(panel):
        found = panel.pictures(predicted_states(panel))
        return [
            (name, words, f"data:image/png;base64,{b64encode(png).decode()}") for name, png, words in found
        ]
    return _start_first((still or _still(panel)).find_all("img"))


def _start_first(images: list[Tag]) -> list[tuple[str, str, str]]:
    """Each stored picture once. The large one repeats one of the strip, or sums it up and is the last."""
    if not images:
        return []
    large, *strip = images
    named = [(*one["alt"].split(": ", 1), one["src"]) for one in strip]
    if large["alt"] not in [words for _, words, _ in named]:
        named.append(("", large["alt"], large["src"]))
    return sorted(named, key=lambda one: one[0] != "Start")


def _predict(panel: Shown) -> Predict | None:
    asked = getattr(getattr(panel, "card", None), "asked", None)
    return Predict(asked.question, label(asked.kind, panel.family)) if asked else None


def _body(group: Tag) -> str:
    """What stands below the group's title."""
    group.find("p").extract()
    return group.decode_contents()
