"""Everything that is looked at, in the order in which one thing stands on another."""

from __future__ import annotations

from rollmodel.doctor import python
from rollmodel.doctor.finding import GOOD, Finding, unknown

NEEDS_LIBRARIES = ("Page in the browser", "Kernel", "Pictures")


def examine(folder=None):
    """Look at this installation, one thing after another.

    Parameters
    ----------
    folder : str or os.PathLike, optional
        The learner's own copy of the lessons; the one that ``rollmodel open`` takes when left out.

    Yields
    ------
    Finding
    """
    old = python.version()
    yield old
    if old.state != GOOD:  # nothing below can be trusted in such a Python, nor be mended before it
        yield unknown("Everything else", "not looked at: this Python is too old for the package.")
        return
    yield from _the_rest(folder)


def _the_rest(folder):
    from rollmodel.doctor import files, libraries, loopback, notebooks  # an old Python cannot read these

    found = libraries.look()
    yield from found
    place = files.working_folder(folder)
    yield from files.look(place)
    line = loopback.look()
    yield from line
    if all(one.state == GOOD for one in (*found, *line)):
        yield from notebooks.look(place)
    else:
        yield from map(_not_looked_at, NEEDS_LIBRARIES)


def _not_looked_at(subject: str) -> Finding:
    return unknown(subject, "not looked at: mend what is wrong above first.")
