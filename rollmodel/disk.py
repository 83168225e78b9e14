"""Files and folders written whole or not at all, and programs that take turns at one file."""

from __future__ import annotations

import errno
import glob
import os
import re
import shutil
import stat
import tempfile
import time
from contextlib import contextmanager, suppress
from pathlib import Path

STALE = 600.0  # age of a file's unfinished successor left by a killed program [s]; a write takes moments


class FileStands(Exception):
    """A file of that name is there and was not to be written over."""


def read_plain(path, most: int) -> bytes:
    """The bytes of a plain file, at most so many; a pipe is not waited for.

    Raises
    ------
    OSError
        It cannot be read, or is no plain file.
    """
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    try:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "it is no plain file", os.fspath(path))
        with open(handle, "rb", closefd=False) as file:
            return file.read(most)
    finally:
        os.close(handle)


_FIRST_BYTES = (  # how files that people give by mistake begin
    (rb'\s*\{\s*"(cells|metadata|nbformat)"', "a notebook"),
    (rb"\s*[{]", "a file for programs (JSON)"),
    (rb"PK\x03\x04|\xd0\xcf\x11\xe0", "a spreadsheet's or a word processor's own file, or a packed one"),
    (rb"%PDF|\x89PNG|\xff\xd8\xff|GIF8", "a printed page or a picture"),
)


def other_file(data: bytes) -> str:
    """What a file's first bytes show it to be, where it is no plain text of ours; else empty.

    Examples
    --------
    >>> other_file(b'{"cells": []}'), other_file(b"\\x7fELF\\x02\\x00"), other_file(b"mass = 1")
    ('a notebook', 'no text', '')
    """
    data = data[:4096].removeprefix(b"\xef\xbb\xbf")
    for begin, words in _FIRST_BYTES:
        if re.match(begin, data):
            return words
    few, many = sorted(data[at::2].count(0) for at in (0, 1))
    utf_16 = data[:2] in (b"\xff\xfe", b"\xfe\xff") or (many > len(data) // 4 and few < len(data) // 8)
    return "no text" if b"\0" in data and not utf_16 else ""


class PlaceTaken(ValueError):
    """The place for a folder of results cannot be taken; one plain message."""


def write_whole(path: Path, text: str, replace: bool = True) -> None:
    """Write beside, push to the disk, put in place in one step; on failure the old file stands.

    Parameters
    ----------
    path : Path
    text : str
    replace : bool, optional
        Whether an old file may go.

    Raises
    ------
    FileStands
        There is one, and it may not.
    OSError
        It cannot be written.
    """
    if not replace and os.path.lexists(path):
        raise FileStands(path)
    with naming(path):
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".new", dir=path.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        _as_others(name, path)
        os.replace(name, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(name)
        raise
    _push_folder(path.parent)
    _sweep(path)


@contextmanager
def naming(place: Path):
    """What cannot be written is named as the person named it, not by a hidden name of ours."""
    try:
        yield
    except OSError as error:
        error.filename, error.filename2 = os.fspath(place), None
        raise


def _sweep(path: Path) -> None:
    """Remove what killed programs left of this file, once it is too old to be another's work in hand."""
    for name in glob.glob(f".{glob.escape(path.name)}.*.new", root_dir=path.parent):
        with suppress(OSError):
            if time.time() - (path.parent / name).lstat().st_mtime > STALE:
                os.unlink(path.parent / name)


def _as_others(name: str, path: Path) -> None:
    """The permissions of the file it replaces, or those of any new file; a temporary one has fewer."""
    with suppress(OSError):
        os.chmod(name, path.stat().st_mode & 0o777 if path.exists() else _usual(0o666))


def _usual(mode: int) -> int:
    """The permissions that a new file or folder has on this system."""
    mask = os.umask(0)
    os.umask(mask)
    return mode & ~mask


def _push_folder(folder: Path) -> None:
    """The new name reaches the disk as well, where the system lets a folder be pushed."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


@contextmanager
def taking_turns(path: Path):
    """Two programs that write one file take turns; the system frees the lock when one is killed."""
    with open(path.with_name(f".{path.name}.lock"), "a+b") as file:
        _take_turn(file)
        yield


def _take_turn(file) -> None:
    """Wait for the lock; a system without one goes on, for a single program needs none."""
    with suppress(OSError, ImportError):
        if os.name == "nt":
            import msvcrt

            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_LOCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX)


def named_place(text: str) -> Path:
    """A place for results as somebody typed it.

    Raises
    ------
    PlaceTaken
        It names nothing that could be made: no words, a disk's root, this folder or the one above.
    """
    place = Path(text)
    if not text.strip() or place.name in ("", ".."):
        raise PlaceTaken(f'--into: wanted the name of a new place, such as results, given "{text[:80]}"')
    return place


def check_free(into: Path) -> None:
    """Refuse a name that is taken.

    Raises
    ------
    PlaceTaken
    """
    if os.path.lexists(into):
        raise PlaceTaken(f"{into} is there already and is not written over; give another name with --into")


@contextmanager
def whole_or_not(into: Path, replace: bool = False):
    """A folder to write in that becomes the results in one step; on failure nothing is left of it.

    With `replace` an older folder of that name makes way.
    """
    into.parent.mkdir(parents=True, exist_ok=True)
    with naming(into):
        place = Path(tempfile.mkdtemp(prefix=f".{into.name}.", dir=into.parent))
    try:
        yield place
        os.chmod(place, _usual(0o777))
        with naming(into):
            _put_in_place(place, into, replace)
    except BaseException:
        shutil.rmtree(place, ignore_errors=True)
        raise


def _put_in_place(place: Path, into: Path, replace: bool) -> None:
    """Rename; an older folder of that name comes back when the new one cannot be put there."""
    older = place.with_name(f"{place.name}.older")
    if replace and into.is_dir():
        os.rename(into, older)
    try:
        os.rename(place, into)
    except OSError:
        if older.is_dir():
            os.rename(older, into)
        raise
    shutil.rmtree(older, ignore_errors=True)
