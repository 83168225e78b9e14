"""A file of runs before its numbers are read: is it text, how are its columns parted, where is its header."""

from __future__ import annotations

import codecs
import csv
import io
import os
import re
import stat
from dataclasses import dataclass

from rollmodel.disk import other_file
from rollmodel.testday.columns import MOST_COLUMNS
from rollmodel.testday.faults import DayError
from rollmodel.units import quoted

LARGEST = 400_000_000  # bytes; a million rows of eight columns have a fifth of that
HEAD = 65_536  # bytes looked at before the file is read
_SPREADSHEETS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")  # the first bytes of zipped and of older spreadsheets
_REMARK = re.compile(r"#\s*([A-Za-z][A-Za-z ]{0,40}?)\s*:\s*(.{0,200})")

_ONCE = ("radius", "steering ratio", "direction", "front hole", "rear hole")  # remarks that the fits rest on


@dataclass(frozen=True)
class Layout:
    """How a file is written."""

    path: str
    name: str  # for messages
    encoding: str
    separator: str
    decimal: str
    header: tuple[str, ...]
    header_line: int  # counted from 1
    remarks: dict[str, str]  # lines such as "# radius: 30 m" above the header


def layout_of(path) -> Layout:
    """How a file of runs is written, from its first 64 KiB.

    Parameters
    ----------
    path : str or os.PathLike

    Raises
    ------
    DayError
        It cannot be read, is far too large, is no text, or has no header.
    """
    name = quoted(os.path.basename(os.fspath(path).rstrip("/")) or os.fspath(path), 80)[1:-1]
    head = _first_bytes(path, name)
    encoding = _encoding(head, name)
    lines = lines_of(head.decode(encoding, "replace"))
    lines = lines[:-1] if len(head) == HEAD and len(lines) > 1 else lines  # the last one may be cut in two
    remarks, at = _remarks(lines, name)
    if at == len(lines):
        raise DayError(
            "no header line; the first line names the columns, such as "
            '"time [s],speed [km/h],steer [deg],roll [deg]"',
            name,
        )
    separator = _separator(lines[at])
    header = _cells(lines[at], separator)
    _check_header(header, name)
    body = [_cells(line, separator) for line in lines[at + 1 : at + 201]]
    header = _widened(header, body, separator, at + 2, name)
    return Layout(
        os.fspath(path), name, encoding, separator, _decimal(body, separator), header, at + 1, remarks
    )


def lines_of(text: str) -> list[str]:
    """The lines as a reader of CSV parts them: at line feed and carriage return alone.

    Python's own splitting also parts at form feeds, separators of files and the like.

    Examples
    --------
    >>> lines_of("a,b\\r\\n1,2\\x1c3\\n")
    ['a,b', '1,2\\x1c3']
    """
    lines = io.StringIO(text, newline=None).read().split("\n")
    return lines[:-1] if lines[-1] == "" else lines


def _first_bytes(path, name: str) -> bytes:
    try:
        found = os.stat(path)
        if stat.S_ISDIR(found.st_mode):
            raise DayError("wanted a file of runs, such as before.csv in it, given a folder", name)
        if not stat.S_ISREG(found.st_mode):
            raise DayError("wanted a file of runs, given something that is not a plain file", name)
        if found.st_size > LARGEST:
            raise DayError(
                f"far too large: {found.st_size / 1e6:.0f} MB, at most {LARGEST / 1e6:.0f} MB are "
                "read; log at a lower rate or give the runs in several files",
                name,
            )
        with open(path, "rb") as file:
            return file.read(HEAD)
    except FileNotFoundError:
        raise DayError("no such file", name) from None
    except (OSError, ValueError) as error:
        if isinstance(error, DayError):
            raise
        raise DayError(
            f"this file cannot be read ({getattr(error, 'strerror', None) or error})", name
        ) from None


def _encoding(head: bytes, name: str) -> str:
    """UTF-8 where the start of the file is; else the one in which older programs write a degree sign."""
    if head.startswith(_SPREADSHEETS):
        raise DayError("this is a spreadsheet's own file; save it as CSV text first", name)
    if (other := other_file(head)) and other != "no text":
        raise DayError(f"this is {other}; wanted a file of runs, CSV text such as before.csv", name)
    if head.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        raise DayError("this text is in UTF-32; save it as UTF-8", name)
    if head.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return "utf-16"
    if b"\0" in head:
        raise DayError("this is no text; wanted a CSV file", name)
    whole = len(head) < HEAD
    try:
        head.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return (
            "cp1252" if whole or error.start < HEAD - 4 else "utf-8-sig"
        )  # the last letter may be cut in two
    return "utf-8-sig"


def _remarks(lines: list[str], name: str) -> tuple[dict[str, str], int]:
    """What the lines above the header say, and where the header is, counted from 0."""
    remarks: dict[str, str] = {}
    for at, line in enumerate(lines):
        if line.strip().strip(",;") and not line.startswith("#"):
            return remarks, at
        found = _REMARK.match(line)
        if found:
            key, value = found[1].lower(), found[2].strip().rstrip(",;")
            if key in _ONCE and remarks.setdefault(key, value) != value:
                raise DayError(
                    f"# {key}: given twice, {quoted(remarks[key])} and {quoted(value)}; keep the right one",
                    name,
                )
            remarks[key] = value
    return remarks, len(lines)


def _separator(header: str) -> str:
    bare = re.sub(r'"[^"]*"|\[[^\]]*\]', "", header)
    return next((sign for sign in (";", "\t") if sign in bare), ",")


def _cells(line: str, separator: str) -> tuple[str, ...]:
    try:
        return tuple(next(csv.reader([line], delimiter=separator, skipinitialspace=True), ()))
    except csv.Error:
        return (line,)


def _check_header(header, name: str) -> None:
    if len(header) > MOST_COLUMNS:
        raise DayError(f"the header names {len(header)} columns; at most {MOST_COLUMNS} are read", name)
    if all(re.fullmatch(r"\s*-?[\d.,]+\s*", cell) for cell in header if cell.strip()):
        raise DayError(
            "no header line: the first line holds numbers; name the columns above them, such as "
            '"time [s],speed [km/h],steer [deg],roll [deg]"',
            name,
        )
    if len(header) < 2:
        raise DayError(
            f"only one column, {quoted(header[0])}; part the columns with commas or semicolons", name
        )


def _widened(header, body, separator: str, first: int, name: str) -> tuple[str, ...]:
    """The header with a nameless column where every line ends in a separator; a longer line is refused."""
    widest = max((len(row) for row in body), default=0)
    if widest == len(header) + 1 and all(not row[-1].strip() for row in body if len(row) == widest):
        return (*header, "")
    long = next((number for number, row in enumerate(body) if len(row) > len(header)), None)
    if long is None:
        return header
    comma = separator == "," and len(body[long]) > 1.7 * len(header)
    raise DayError(
        f"line {first + long} has {len(body[long])} values, the header names {len(header)}"
        + ("; with decimal commas, part the columns with semicolons" if comma else ""),
        name,
    )


def _decimal(body, separator: str) -> str:
    """A comma where the columns are not parted by it and numbers in them have one."""
    cells = (cell for row in body for cell in row)
    return "," if separator != "," and any(re.fullmatch(r"\s*-?\d*,\d+\s*", cell) for cell in cells) else "."
