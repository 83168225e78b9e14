"""Files written whole or not at all."""

from __future__ import annotations

import os
import tempfile
from contextlib import contextmanager, suppress
from pathlib import Path


class FileStands(Exception):
    """A file of that name is there and was not to be written over."""


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


def _as_others(name: str, path: Path) -> None:
    """The permissions of the file it replaces, or those of any new file; a temporary one has fewer."""
    with suppress(OSError):
        if path.exists():
            os.chmod(name, path.stat().st_mode & 0o777)
        else:
            mask = os.umask(0)
            os.umask(mask)
            os.chmod(name, 0o666 & ~mask)


@contextmanager
def taking_turns(path: Path):
    """Two programs that write one file take turns; the system frees the lock when one is killed."""
    with open(path.with_name(f".{path.name}.lock"), "a+b") as file:
        _take_turn(file)
        yield


def _take_turn(file) -> None:
    """Wait for the lock; a system without one goes on."""
    with suppress(OSError, ImportError):
        if os.name == "nt":
            import msvcrt

            file.seek(0)
            msvcrt.locking(file.fileno(), msvcrt.LK_LOCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX)
