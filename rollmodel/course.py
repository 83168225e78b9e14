"""The course as it lies in a folder: which lessons there are, what each teaches, how long it takes."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


@dataclass(frozen=True)
class Entry:
    """One lesson, by what its own first cell says."""

    file: str
    title: str
    aims: tuple[str, ...]  # what the learner can do afterwards
    minutes: int
    exercises: str | None  # path from the lessons' folder; None where there are none

    @property
    def number(self) -> int:
        return int(self.file[:2])


def lessons_folder() -> Path:
    """The folder of the lessons: the one that is open, else the one that came with the package."""
    places = (Path.cwd(), PACKAGE.parent / "lessons", PACKAGE / "shipped" / "lessons")
    return next(place for place in places if (place / "index.ipynb").is_file())


def lessons(folder: Path) -> list[Entry]:
    """Every lesson in a folder, in order.

    Raises
    ------
    ValueError
        A lesson whose first cell does not give title, aims and minutes as the others do.
    """
    return [entry(path) for path in sorted(folder.glob("[0-9][0-9]-*.ipynb"))]


def entry(path: Path) -> Entry:
    """What the first cell of a lesson says of it."""
    text = "".join(json.loads(path.read_text(encoding="utf-8"))["cells"][0]["source"])
    title, minutes = (
        re.search(pattern, text) for pattern in (r"^# Lesson \d+\. (.+)", r"\*\*Time:\*\*\s+(\d+)")
    )
    aims = re.findall(r"^- (.+(?:\n  .+)*)", text, re.MULTILINE)
    if not (title and minutes and aims):
        raise ValueError(f"{path.name}: its first cell wants a title, a list of aims and the minutes")
    exercises = path.parent.parent / "exercises" / f"lesson-{path.name[:2]}.ipynb"
    return Entry(
        path.name,
        title[1].strip(),
        tuple(" ".join(aim.rstrip(";.").split()) for aim in aims),
        int(minutes[1]),
        f"../exercises/{exercises.name}" if exercises.is_file() else None,
    )


def table(folder: Path) -> str:
    """The lessons as a table in Markdown, with links that hold from inside the folder."""
    rows = [
        f"| [{one.number}. {one.title}]({one.file}) | {'<br>'.join(one.aims)} | {one.minutes} | "
        f"{_link(one)} |"
        for one in lessons(folder)
    ]
    return "\n".join(["| lesson | after it you can | minutes | exercises |", "|:--|:--|--:|:--|", *rows])


def _link(one: Entry) -> str:
    return f"[exercises {one.number}]({one.exercises})" if one.exercises else "none yet"
