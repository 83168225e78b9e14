"""The answers as a car sheet on disk, and a sheet on disk as answers."""

from __future__ import annotations

import os
import re
import unicodedata
from pathlib import Path

from rollmodel.disk import FileStands, write_whole
from rollmodel.sheets.build import from_values
from rollmodel.sheets.faults import SheetError
from rollmodel.sheets.files import parse_toml, read_sheet_text
from rollmodel.sheets.form.typed import to_answers, to_tables
from rollmodel.sheets.names import refused_name
from rollmodel.sheets.text import to_text
from rollmodel.sheets.training import FOLDER
from rollmodel.typed import quoted, typed_path

ENDING = ".toml"
_HEAD = "# Car sheet, written by the form in the index of the lessons.\n\n"
_LONGEST_NAME = 40  # letters of a title in the file name offered


def offered_file(title: str) -> str:
    """A file name made from a car's name.

    Examples
    --------
    >>> offered_file("Bob's old Coupé!"), offered_file("")
    ('bob-s-old-coupe.toml', 'my-car.toml')
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    words = re.findall(r"[a-z0-9]+", plain)
    name = ("-".join(words)[:_LONGEST_NAME].strip("-") or "my-car") + ENDING
    return f"my-{name}" if refused_name(Path(name)) else name


def sheet_text(answers: dict[str, str]) -> str:
    """The answers as the text of a car sheet, read back before it is given.

    Raises
    ------
    SheetError
        They make no car yet.
    """
    tables = to_tables(answers)
    from_values(tables)
    return _HEAD + to_text(tables)


def save(answers: dict[str, str], typed: str, replace: bool = False) -> Path:
    """Write the answers as a car sheet, whole or not at all.

    Parameters
    ----------
    answers : dict of str to str
    typed : str
        Where to, as typed; ".toml" is added where it is left out.
    replace : bool, optional
        Whether a file of that name may go.

    Raises
    ------
    SheetError
        They make no car, the place cannot be used, or a file stands there that may not go.
    """
    text = sheet_text(answers)
    path = place(typed)
    try:
        write_whole(path, text, replace)
    except FileStands:
        raise SheetError(f"{path} is there already. Give another name, or tick the box to replace it") \
            from None
    except (OSError, ValueError) as error:
        raise SheetError(f"{path} cannot be written ({getattr(error, 'strerror', None) or error})") from None
    return path


def place(typed: str) -> Path:
    """Where a sheet goes, from a name as typed; beside the lessons where the name alone is given.

    Raises
    ------
    SheetError
        No sheet can be kept there, with the reason.
    """
    name = typed_path(typed.strip())
    bare = re.split(r"[/\\]", name)[-1].lower()
    if bare in ("", ".", "..", ENDING) or not all(letter.isprintable() for letter in name):
        raise SheetError(f'wanted a file name such as "my-car.toml", given {quoted(name)}')
    if refused := refused_name(Path(name)):
        raise SheetError(refused)
    path = Path(name if bare.endswith(ENDING) else name + ENDING)
    if not os.path.isdir(path.absolute().parent):
        raise SheetError(f"there is no folder {path.absolute().parent}; choose one that is there")
    if os.path.isdir(path):
        raise SheetError(f"{path} is a folder; wanted the name of a file")
    if path.absolute().parent.resolve() == FOLDER:
        raise SheetError("that folder holds the college's training cars; choose another place")
    return path


def outside(path: Path) -> bool:
    """Whether a place is not in the folder of the lessons, nor in one inside it."""
    return not path.absolute().parent.resolve().is_relative_to(Path.cwd().resolve())


def open_sheet(typed: str) -> tuple[dict[str, str], list[str]]:
    """A sheet on disk as answers, right or not, and the names in it that no sheet has.

    Raises
    ------
    SheetError
        It cannot be read, or is not TOML.
    """
    name, text = read_sheet_text(typed.strip())
    return to_answers(parse_toml(text, name))


def here(path: Path) -> str:
    """A path as a lesson in the same folder is given it."""
    whole = path.absolute()
    return whole.name if whole.parent == Path(os.getcwd()) else str(whole)
