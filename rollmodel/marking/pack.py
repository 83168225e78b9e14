"""What a class gets: exercises or an assessment, with every blank blank and no output stored.

The package that learners install holds the code that works out keys, as it must to give feedback. A pack
adds nothing to that: it holds no key, no worked line, no sample answer and nobody's answers.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

import nbformat

from rollmodel.disk import check_free
from rollmodel.marking.assessment import INSTALL, KERNEL, START, assessment_notebook, start_source
from rollmodel.marking.paper import Paper, paper_text
from rollmodel.marking.placing import put_folder, put_zip

_ANSWER = re.compile(r'work\.answer\(\s*("[^"\n]+")')
_OWN = re.compile(r'work\.(?:(?:ask|example)\("[\w/-]+"\)|progress\(\))')  # an exercise has no other code
_NUMBER = re.compile(r"lesson-(\d\d)")

READ_ME = f"""Exercises on anti-roll bars

{INSTALL}
Start them with:  rollmodel open --folder FOLDER     (FOLDER is where this file lies)
Open a notebook below exercises, and put a code word of your own in its first cell.

Below handouts, where there are any, lies a page for each lesson, to read and to print.

Your answers are kept beside the notebook, in a file called answers-YOUR_CODE_WORD-practice.json.

Before anybody works on a car: support it on stands, use the maker's torque figures, change one thing at a
time, and try it on a closed course. Local rules and a qualified inspection come first.
"""


class PackError(ValueError):
    """A pack that cannot be made; one plain message."""


def make_pack(
    into,
    exercises: Path | None = None,
    lessons: Iterable[int] | None = None,
    paper: Paper | None = None,
    family: str = "metric",
    zipped: bool = False,
) -> list[str]:
    """Make what the class gets, as a folder or a packed file.

    Parameters
    ----------
    into : str or os.PathLike
        Folder or file to be made; it must not be there yet.
    exercises : Path, optional
        Folder of the exercise notebooks; not needed for an assessment.
    lessons : iterable of int, optional
        Which lessons' exercises; all when left out.
    paper : Paper, optional
        Makes an assessment of this paper in place of exercises.
    family : str
        Units to start with.
    zipped : bool
        One packed file in place of a folder.

    Returns
    -------
    list of str
        What a person should know: code of nobody's making that was left out.

    Raises
    ------
    PackError, PlaceTaken
    OSError
        Something cannot be read or written.
    """
    into = Path(into)
    check_free(into)
    files, notes = assessment_files(paper, family) if paper else exercise_files(exercises, lessons, family)
    (put_zip if zipped else put_folder)(into, files)
    return notes


def assessment_files(paper: Paper, family: str) -> tuple[dict[str, str], list[str]]:
    """An assessment's files by their paths in the pack, and the notes: none."""
    notebook = assessment_notebook(paper, family)
    return {"assessment.ipynb": nbformat.writes(notebook), "paper.toml": paper_text(paper)}, []


def exercise_files(
    folder: Path, lessons: Iterable[int] | None, family: str
) -> tuple[dict[str, str], list[str]]:
    """Exercises by their paths in the pack, and what a person should know of them; see :func:`make_pack`."""
    files, notes = {"READ-ME-FIRST.txt": READ_ME}, []
    for path in chosen(folder, lessons):
        notebook, left_out = for_class(_read(path), family)
        files[f"exercises/{path.name}"] = nbformat.writes(notebook)
        if left_out:
            notes.append(f"{path.name}: {left_out} cells left out, whose code is not the exercise's own")
    return files, notes


def chosen(folder: Path, lessons: Iterable[int] | None) -> list[Path]:
    """The exercise notebooks of these lessons.

    Raises
    ------
    PackError
        A lesson without exercises.
    """
    there = {
        int(found[1]): path for path in sorted(folder.glob("*.ipynb")) if (found := _NUMBER.match(path.name))
    }
    wanted = sorted(there if lessons is None else set(lessons))
    missing = [str(number) for number in wanted if number not in there]
    if missing or not there:
        raise PackError(
            f"there are no exercises for lesson {', '.join(missing) or 'any'}; there are for: "
            f"{', '.join(map(str, there)) or 'none'}"
        )
    return [there[number] for number in wanted]


def _read(path: Path) -> nbformat.NotebookNode:
    try:
        return nbformat.read(path, as_version=4)
    except (ValueError, KeyError, AttributeError, nbformat.ValidationError) as error:
        raise PackError(f"{path.name} is not a whole notebook ({type(error).__name__})") from None


def for_class(notebook: nbformat.NotebookNode, family: str = "metric") -> tuple[nbformat.NotebookNode, int]:
    """An exercise as nobody has touched it, and how many cells were left out.

    Outputs go, answers go, the code word goes back to the example's, and so does everything that editors
    write into a notebook besides.
    """
    cells = [_untouched(cell, family) for cell in notebook.cells]
    kept = [cell for cell in cells if cell is not None]
    return nbformat.v4.new_notebook(cells=kept, metadata=KERNEL), len(cells) - len(kept)


def _untouched(cell: nbformat.NotebookNode, family: str) -> nbformat.NotebookNode | None:
    if cell.cell_type == "markdown":
        return nbformat.v4.new_markdown_cell(cell.source, id=cell.id)
    source = _untouched_source(cell.source.strip(), family) if cell.cell_type == "code" else None
    return None if source is None else nbformat.v4.new_code_cell(source, id=cell.id)


def _untouched_source(source: str, family: str) -> str | None:
    """The code as it was before anybody typed in it; None when it is not an exercise's code."""
    if START.search(source):
        return start_source("practice", family)
    names = _ANSWER.findall(source)
    if names:
        return "\n".join(f'work.answer({name}, "")' for name in names)
    return source if _OWN.fullmatch(source) else None
