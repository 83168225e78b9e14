"""What a class gets: exercises or an assessment, with every blank blank and no output stored.

The package that learners install holds the code that works out keys, as it must to give feedback. A pack
adds nothing to that: it holds no key, no worked line, no sample answer and nobody's answers.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterable
from pathlib import Path

import nbformat

from rollmodel.marking.assessment import INSTALL, KERNEL, START, assessment_notebook, start_source
from rollmodel.marking.paper import Paper, paper_text
from rollmodel.disk import check_free, whole_or_not

_ANSWER = re.compile(r'work\.answer\(\s*("[^"\n]+")')
_OWN = re.compile(r'work\.(?:(?:ask|example)\("[\w/-]+"\)|progress\(\))')  # an exercise has no other code
_NUMBER = re.compile(r"lesson-(\d\d)")
LONG_AGO = (1980, 1, 1, 0, 0, 0)  # in a packed file, so that one content makes one file, byte for byte

READ_ME = f"""Exercises on anti-roll bars

{INSTALL}
Start them with:  rollmodel open --folder FOLDER     (FOLDER is where this file lies)
Open a notebook below exercises, and put a code word of your own in its first cell.

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
    files, notes = _assessment(paper, family) if paper else _exercises(exercises, lessons, family)
    if zipped:
        _write_zip(into, files)
    else:
        with whole_or_not(into) as place:
            _write_folder(place, files)
    return notes


def _assessment(paper: Paper, family: str) -> tuple[dict[str, str], list[str]]:
    notebook = assessment_notebook(paper, family)
    return {"assessment.ipynb": nbformat.writes(notebook), "paper.toml": paper_text(paper)}, []


def _exercises(folder: Path, lessons: Iterable[int] | None, family: str) -> tuple[dict[str, str], list[str]]:
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


def _write_folder(place: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        (place / name).parent.mkdir(exist_ok=True)
        (place / name).write_text(text, encoding="utf-8", newline="\n")


def _write_zip(into: Path, files: dict[str, str]) -> None:
    """One packed file, made beside its place and put there in one step."""
    into.parent.mkdir(parents=True, exist_ok=True)
    part = into.with_name(f".{into.name}.part")
    try:
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as packed:
            for name, text in files.items():
                entry = zipfile.ZipInfo(f"{into.stem}/{name}", LONG_AGO)
                entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
                packed.writestr(entry, text.encode())
        part.replace(into)
    finally:
        part.unlink(missing_ok=True)
