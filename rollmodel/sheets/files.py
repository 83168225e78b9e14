"""Sheets on disk: reading with every refusal explained, writing without losing what was there."""

from __future__ import annotations

import os
import re
import stat
import tomllib
from pathlib import Path

from rollmodel.car import Car
from rollmodel.disk import other_file, write_whole
from rollmodel.sheets.build import from_values, uncertainties
from rollmodel.sheets.faults import SheetError, nearest
from rollmodel.sheets.remarks import Remarks, remarks
from rollmodel.sheets.text import to_text
from rollmodel.typed import typed_path
from rollmodel.units import quoted

LARGEST = 64 * 1024  # bytes; the fullest sheet with notes has about 6 KiB
LONGEST_LINE = 1500  # characters; the reader's time grows with the square of the dots in one line


def read(path) -> Car:
    """A car from a TOML car sheet.

    Parameters
    ----------
    path : str or os.PathLike

    Raises
    ------
    SheetError
        When the file cannot be read, is not TOML, or holds a car that cannot be used.
    """
    name, text = read_sheet_text(path)
    return read_text(text, name)


def read_uncertainties(path) -> dict[str, float]:
    """How well each value of a car sheet is known, where the sheet says; see `build.uncertainties`.

    Parameters
    ----------
    path : str or os.PathLike

    Raises
    ------
    SheetError
        As for `read`.
    """
    name, text = read_sheet_text(path)
    return uncertainties(parse_toml(text, name), name)


def read_sheet_text(path) -> tuple[str, str]:
    """A file's name as messages give it, and its text, not yet looked at.

    Parameters
    ----------
    path : str or os.PathLike

    Raises
    ------
    SheetError
        It cannot be read, is far too large, or is not UTF-8.
    """
    path = _path(path)
    name, ours = _name(path), "a car sheet, a text file whose name ends in .toml"
    data = _bytes(path, name)
    if other := other_file(data):
        raise SheetError(f"this is {other}; wanted {ours}: give the name of one", name)
    return name, _text(data, name)


def read_remarks(path) -> Remarks:
    """How a car sheet was typed: its family of units, and notes on readings that are not plain.

    Parameters
    ----------
    path : str or os.PathLike

    Raises
    ------
    SheetError
        As for `read`, where the file is no TOML.
    """
    name, text = read_sheet_text(path)
    return remarks(parse_toml(text, name))


def read_text(text: str, name: str = "") -> Car:
    """A car from the text of a car sheet; ``name`` stands at the head of messages."""
    return from_values(parse_toml(text, name), name)


def parse_toml(text: str, name: str = "") -> dict:
    """The tables of a sheet, not yet looked at."""
    if len(text) > LARGEST:
        raise SheetError(_too_large(), name)
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            raise SheetError(f"not a car sheet: line {number} has more than {LONGEST_LINE} characters", name)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise SheetError(f"not TOML: {_plain(str(error))}{_toml_hint(str(error))}", name) from None
    except RecursionError:
        raise SheetError("not a car sheet: lists or tables nested far too deeply", name) from None
    except ValueError:  # Python's own limit on the digits of a whole number
        raise SheetError("not a car sheet: a number in it has more digits than Python reads",
                         name) from None


def _path(path):
    """A path as typed or pasted, as the system knows it."""
    text = os.fspath(path) if isinstance(path, os.PathLike) else path
    return typed_path(text) if isinstance(text, str) else path


def _name(path) -> str:
    return quoted(os.fspath(path).encode("utf-8", "replace").decode() if isinstance(path, (str, os.PathLike))
                  else repr(path), 120)[1:-1]


def _bytes(path, name: str) -> bytes:
    try:
        mode = os.stat(path).st_mode
        if stat.S_ISDIR(mode):
            raise SheetError("wanted a car sheet, given a folder", name)
        if not stat.S_ISREG(mode):
            raise SheetError("wanted a car sheet, given something that is not a plain file", name)
        with open(path, "rb") as file:
            return file.read(LARGEST + 1)
    except FileNotFoundError:
        raise SheetError(_not_there(path), name) from None
    except PermissionError:
        raise SheetError("this file may not be read; check its permissions", name) from None
    except SheetError:
        raise
    except (OSError, ValueError) as error:  # ValueError: a name with a null character in it
        reason = getattr(error, "strerror", None) or error
        raise SheetError(f"this file cannot be read ({reason})", name) from None


def _not_there(path) -> str:
    """What to say of a file that is not there, with one beside it of nearly the same name if there is one."""
    if os.path.islink(path):
        return f"this is a link to a file that is not there, {quoted(os.readlink(path), 120)}"
    try:
        beside = {one.name.lower(): one.name for one in Path(path).parent.glob("*.toml") if one.exists()}
    except OSError:
        beside = {}
    near = nearest(Path(path).name, beside)
    return f'no such file; "{beside[near]}" was meant?' if near else "no such file"


def _text(data: bytes, name: str) -> str:
    if len(data) > LARGEST:
        raise SheetError(_too_large(), name)
    try:
        text = data.decode("utf-8-sig")  # some editors put a mark before the first letter
    except UnicodeDecodeError as error:
        line = data[:error.start].count(b"\n") + 1
        raise SheetError(f"not UTF-8 text, first at line {line}; save it from the editor as UTF-8",
                         name) from None
    if "\0" in text:
        raise SheetError("not UTF-8 text: it holds null characters, as text saved as UTF-16 does; save it "
                         "from the editor as UTF-8", name)
    return text if "\n" in text else text.replace("\r", "\n")  # line ends of an older system


def _too_large() -> str:
    return f"far too large for a car sheet: more than {LARGEST // 1024} KiB"


def _plain(message: str) -> str:
    """The TOML reader's message as a plain sentence: [front.bar] for ('front', 'bar')."""
    message = re.sub(r"\(('[^']*'(?:, *'[^']*')*),?\)",
                     lambda found: f"[{found[1].replace(chr(39), '').replace(', ', '.')}]", message)
    return message[:1].lower() + message[1:]


def _toml_hint(message: str) -> str:
    if "overwrite" in message or "twice" in message:
        return "; this name stands there twice"
    if "Invalid value" in message or "after a statement" in message:
        return "; a value with a unit stands in quotes"
    if "Illegal character '\\n'" in message:
        return "; a quote was opened and not closed on this line"
    return ""


def write(values: dict, path) -> None:
    """Write the tables of a sheet to a file, whole or not at all.

    They are read back first: what could not be read again is not written.

    Raises
    ------
    SheetError
        When the values make no car, or the file cannot be written.
    """
    name, text = _name(path), to_text(values)
    read_text(text, name)
    try:
        write_whole(Path(path), text)
    except OSError as error:
        raise SheetError(f"cannot be written ({error.strerror or error})", name) from None
