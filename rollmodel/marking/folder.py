"""What lies in the class's folder. Links are not followed; hidden files are left alone."""

from __future__ import annotations

import os
from collections.abc import Iterator

from rollmodel.marking.harmless import name_of
from rollmodel.marking.reading import Aside

DEEPEST = 6  # folders below the one given; collected work lies one or two down


def listing(folder) -> Iterator[tuple[str, str] | Aside]:
    """Every file that may hold answers, as path and shown name, in order of name; and what cannot.

    Parameters
    ----------
    folder : str or os.PathLike

    Raises
    ------
    OSError
        The folder itself cannot be read.
    """
    root = os.fspath(folder)
    yield from _below(root, root, os.listdir(root), 0)


def _below(root: str, folder: str, names: list[str], depth: int) -> Iterator:
    for name in sorted(name for name in names if not name.startswith(".")):
        path = os.path.join(folder, name)
        if os.path.islink(path):
            yield Aside(
                name_of(path, root), "link", "it is a link to another place, and links are not followed"
            )
        elif os.path.isdir(path):
            yield from _inside(root, path, depth + 1)
        else:
            yield path, name_of(path, root)


def _inside(root: str, folder: str, depth: int) -> Iterator:
    if depth > DEEPEST:
        yield Aside(name_of(folder, root), "unreadable", f"it lies more than {DEEPEST} folders deep")
        return
    try:
        names = os.listdir(folder)
    except OSError as error:
        yield Aside(
            name_of(folder, root), "unreadable", f"this folder could not be read ({error.strerror or error})"
        )
        return
    yield from _below(root, folder, names, depth)
