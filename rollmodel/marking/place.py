"""A new folder for results: it appears whole or not at all, and covers nothing."""

from __future__ import annotations

import os
import shutil
import tempfile
from contextlib import contextmanager
from pathlib import Path


class PlaceTaken(ValueError):
    """The place for the results cannot be taken; one plain message."""


def check_free(into: Path) -> None:
    """Refuse a name that is taken.

    Raises
    ------
    PlaceTaken
    """
    if os.path.lexists(into):
        raise PlaceTaken(f"{into} is there already and is not written over; give another name with --into")


@contextmanager
def whole_or_not(into: Path):
    """A place to write in that becomes the results in one step; on failure nothing is left of it."""
    into.parent.mkdir(parents=True, exist_ok=True)
    place = Path(tempfile.mkdtemp(prefix=f".{into.name}.", dir=into.parent))
    try:
        yield place
        _as_others(place)
        os.rename(place, into)
    except BaseException:
        shutil.rmtree(place, ignore_errors=True)
        raise


def _as_others(place: Path) -> None:
    """The permissions that a new folder has; a temporary one has fewer."""
    mask = os.umask(0)
    os.umask(mask)
    os.chmod(place, 0o777 & ~mask)
