"""Whether the lessons are found, and whether answers, sheets and Jupyter's own files can be written."""

from __future__ import annotations

import json
import os
import shutil
import sys
import tempfile
from pathlib import Path

from rollmodel import course
from rollmodel.course import PACKAGE
from rollmodel.doctor import libraries
from rollmodel.doctor.finding import Finding, good, unknown, wrong
from rollmodel.doctor.programs import run

CHECKOUT, SHIPPED = PACKAGE.parent, PACKAGE / "shipped"
PARTS = ("lessons", "exercises")
LEAST_FREE = 100_000_000  # bytes; a whole course, its notebooks saved and its answers, takes a tenth of that
COPY = "rollmodel-lessons"


def working_folder(wanted=None) -> Path:
    """The folder in which a learner works, there or not: as ``rollmodel open`` chooses it."""
    if wanted is not None:
        return Path(wanted).expanduser().absolute()
    return CHECKOUT if has_lessons(CHECKOUT) else Path(COPY).absolute()


def has_lessons(place: Path) -> bool:
    return (place / "lessons" / "index.ipynb").is_file()


def look(place: Path) -> list[Finding]:
    """Lessons, places to write, room on the disk, names in the way."""
    found = [lessons(place)]
    found += [writing(f"Writing answers and car sheets in {part}", place / part) for part in PARTS]
    found += [temporary(), *jupyters_own(), room(place)]
    return [*found, *in_the_way(place)]


def lessons(place: Path) -> Finding:
    """Whether every lesson can be read: in the learner's folder, or where it would be copied from."""
    subject = "Lessons"
    home = next((one for one in (place, CHECKOUT, SHIPPED) if has_lessons(one)), None)
    again = "Install the package again, or start from a complete copy of the project."
    if home is None:
        return wrong(subject, f"none found, neither in {place} nor in {CHECKOUT} nor in {SHIPPED}.", again)
    try:
        found = course.lessons(home / "lessons")
    except (OSError, ValueError, LookupError, TypeError) as error:
        return wrong(subject, f"one in {home / 'lessons'} cannot be read ({error}).", _fetch_again(place))
    numbers = {one.number for one in found}
    if gaps := sorted(set(range(1, max(numbers, default=1) + 1)) - numbers):
        return wrong(
            subject,
            f"in {home / 'lessons'} number {', '.join(map(str, gaps))} is missing.",
            _fetch_again(place),
        )
    if bare := [one.number for one in found if one.exercises is None]:
        return wrong(
            subject,
            f"in {home / 'exercises'} the exercises of lesson {', '.join(map(str, bare))} are missing.",
            _fetch_again(place),
        )
    return good(subject, f"{len(found)}, in {home / 'lessons'}")


def _fetch_again(place: Path) -> str:
    if place == CHECKOUT:
        return "Fetch that file again from where you got the project."
    return f"Move that file away if it is there, then fetch it again: rollmodel open --folder {place}"


def writing(subject: str, folder: Path) -> Finding:
    """Whether a file can be written and pushed to the disk there; nothing is left behind."""
    place = nearest(folder)
    try:
        try_writing(place)
    except OSError as error:
        return wrong(
            subject,
            f"nothing can be written in {place} ({error.strerror or error}).",
            "Work in a folder of your own: rollmodel open --folder FOLDER, or ask whoever looks "
            "after this machine for the right to write there.",
        )
    said = f"{folder}" if place == folder else f"{folder} can be made in {place}"
    return good(subject, said)


def nearest(folder: Path) -> Path:
    """The folder, or the first above it that is there."""
    return next((one for one in (folder, *folder.parents) if os.path.lexists(one)), folder)


def try_writing(folder) -> None:
    """Write a file of one block, push it to the disk, take it away. Raises OSError where that fails."""
    with tempfile.NamedTemporaryFile(dir=folder, prefix=".rollmodel-doctor-") as file:
        file.write(b"x" * 4096)
        file.flush()
        os.fsync(file.fileno())


def temporary() -> Finding:
    """Whether there is a place for passing files."""
    subject = "Writing passing files"
    try:
        place = tempfile.gettempdir()
        try_writing(place)
    except OSError as error:
        return wrong(
            subject,
            f"there is no folder for them ({error.strerror or error}).",
            "Free some space, or name a folder that you can write in, in the variable TMPDIR "
            "(Windows: TEMP).",
        )
    return good(subject, place)


def jupyters_own() -> list[Finding]:
    """Whether Jupyter can write what it needs: connections of kernels, settings, passing data."""
    subject = "Writing Jupyter's own files"
    ended = run([sys.executable, "-m", "jupyter", "--paths", "--json"], seconds=60)
    try:
        paths = json.loads(ended.out)
        personal = filter(_is_personal, paths["config"] + paths["data"])
        places = {Path(paths["runtime"][0]), *map(Path, personal)}
    except (ValueError, KeyError, IndexError, TypeError):
        why = ended.why or "no answer"
        return [unknown(subject, f"not looked at: Jupyter does not say where they go ({why}).")]
    for place in sorted(places):
        try:
            try_writing(nearest(place))
        except OSError as error:
            return [
                wrong(
                    subject,
                    f"nothing can be written in {nearest(place)}, where Jupyter wants {place} "
                    f"({error.strerror or error}).",
                    "Set the variable HOME (Windows: USERPROFILE) to a folder that you can write in, "
                    "or ask for the right to write there.",
                )
            ]
    return [good(subject, f"{Path(paths['runtime'][0])}")]


def _is_personal(path: str) -> bool:
    """Whether Jupyter would write there for this person: below the home folder."""
    return Path(path).is_relative_to(Path(os.path.expanduser("~")))


def room(place: Path) -> Finding:
    """Whether the disk has room for a course."""
    subject = "Room on the disk"
    free = shutil.disk_usage(nearest(place)).free
    said = f"{free / 1e6:,.0f} MB free at {nearest(place)}"
    if free < LEAST_FREE:
        return wrong(
            subject,
            f"{said}; {LEAST_FREE / 1e6:.0f} MB are wanted.",
            "Empty the bin, or delete what you no longer need.",
        )
    return good(subject, said)


def in_the_way(place: Path) -> list[Finding]:
    """Files beside the notebooks whose names hide a library from every notebook there."""
    names = {*sys.stdlib_module_names, "rollmodel", "ipykernel", *libraries.names()}
    found = sorted(path for part in PARTS for path in (place / part).glob("*.py") if path.stem in names)
    return [
        wrong(
            f"File {path.name}",
            f"{path} has the name of a library; each notebook beside it loads this "
            "file in the library's place.",
            "Give that file another name.",
        )
        for path in found
    ]
