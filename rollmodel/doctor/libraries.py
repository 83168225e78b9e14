"""Whether each library that the package counts on is here, new enough, and can be loaded."""

from __future__ import annotations

import importlib.util
import re
import sys
import tomllib
from importlib import metadata
from pathlib import Path
from typing import NamedTuple

from rollmodel.course import PACKAGE
from rollmodel.doctor.finding import Finding, good, wrong
from rollmodel.doctor.programs import one_line, run

SUBJECT = "Libraries"
PROJECT_FILE = PACKAGE.parent / "pyproject.toml"
LOADER = Path(__file__).with_name("load_libraries.py")
LOADED_AS = {  # where a library is loaded under another name than it is installed under
    "beautifulsoup4": "bs4",
    "ipython": "IPython",
    "pillow": "PIL",
    "pyzmq": "zmq",
}
_REQUIREMENT = re.compile(r"\s*([A-Za-z0-9][\w.-]*)\s*(?:\[[^\]]*\])?\s*\(?([^;)]*)\)?\s*(?:;(.*))?")
_BOUND = re.compile(r"(>=|<=|==|!=|>|<)\s*(\d+(?:\.\d+)*)")


class Wanted(NamedTuple):
    """A library and the range of versions asked for, as text."""

    name: str
    bounds: str


def look() -> list[Finding]:
    """One finding, with one command that puts every library right."""
    try:
        wanted = [requirement(line) for line in stated()]
    except metadata.PackageNotFoundError:
        return [_not_installed()]
    faults, options = {one: fault for one in wanted if (fault := version_fault(one))}, ""
    if not faults:  # else a library may fail to load for want of another
        faults, options = load_faults(wanted), "--force-reinstall --no-cache-dir "
    if not faults:
        return [good(SUBJECT, f"all {len(wanted)} are here, new enough, and can be loaded.")]
    told = "; ".join(f"{one.name} {fault}" for one, fault in faults.items())
    return [wrong(SUBJECT, f"{told}.", install(faults, options))]


def stated() -> list[str]:
    """The libraries asked for: by the project's own file in a checkout, else by what was installed."""
    if PROJECT_FILE.is_file():
        return tomllib.loads(PROJECT_FILE.read_text(encoding="utf-8"))["project"]["dependencies"]
    return [line for line in metadata.requires("rollmodel") or [] if "extra ==" not in line]


def names() -> set[str]:
    """Under which names the libraries are loaded; none where nothing says which they are."""
    try:
        return {loaded_as(requirement(line).name) for line in stated()}
    except metadata.PackageNotFoundError:
        return set()


def requirement(line: str) -> Wanted:
    """A line such as ``numpy>=2.1`` taken apart."""
    found = _REQUIREMENT.fullmatch(line)
    return Wanted(found[1], found[2].replace(" ", ""))


def within(version: str, bounds: str) -> bool:
    """Whether a version lies in a range; what follows the figures, such as rc1, does not count.

    Examples
    --------
    >>> within("2.10.0", ">=2.9,<3"), within("2.8.9", ">=2.9,<3"), within("3.0rc1", ">=2.9,<3")
    (True, False, False)
    """
    have = _figures(version)
    return all(_holds(have, sign, _figures(figures)) for sign, figures in _BOUND.findall(bounds))


def _figures(version: str) -> tuple[int, ...]:
    found = re.match(r"[vV]?(\d+(?:\.\d+)*)", version.strip())
    figures = [int(part) for part in found[1].split(".")] if found else []
    while figures and figures[-1] == 0:  # 3.0 and 3 are one
        figures.pop()
    return tuple(figures)


def _holds(have, sign: str, bound) -> bool:
    return {
        ">=": have >= bound,
        "<=": have <= bound,
        ">": have > bound,
        "<": have < bound,
        "==": have == bound,
        "!=": have != bound,
    }[sign]


def in_words(bounds: str) -> str:
    """A range as people say it."""
    signs = {
        ">=": "{} or newer",
        "<": "older than {}",
        "<=": "{} or older",
        ">": "newer than {}",
        "==": "{}",
        "!=": "not {}",
    }
    return ", ".join(signs[sign].format(figures) for sign, figures in _BOUND.findall(bounds)) or "any version"


def version_fault(wanted: Wanted) -> str:
    """What is wrong with the version that is here; empty when nothing is."""
    try:
        have = metadata.version(wanted.name)
    except metadata.PackageNotFoundError:
        return f"is missing ({in_words(wanted.bounds)} is wanted)"
    if have is None or not within(have, wanted.bounds):
        return f"is here as {have} ({in_words(wanted.bounds)} is wanted)"
    return ""


def load_faults(wanted: list[Wanted]) -> dict[Wanted, str]:
    """Load each in another program; when that dies, the one it was loading is to blame."""
    ended = run([sys.executable, str(LOADER), *(loaded_as(one.name) for one in wanted)], seconds=180)
    told = dict(line.split(" ", 1) for line in ended.out.splitlines() if " " in line)
    faults = {}
    for one in wanted:
        said = told.get(loaded_as(one.name))
        if said is None:  # what comes after it was never tried
            return faults | {one: f"stops the program that loads it ({one_line(ended.why)})"}
        if said != "loaded":
            faults[one] = f"cannot be loaded ({one_line(said)})"
    return faults


def loaded_as(name: str) -> str:
    return LOADED_AS.get(name.lower(), name.replace("-", "_"))


def install(wanted, options: str = "") -> str:
    """The command that puts libraries right."""
    first = "" if importlib.util.find_spec("pip") else f"{python_command()} -m ensurepip   and then   "
    names = " ".join(f'"{one.name}{one.bounds}"' for one in wanted)
    return f"{first}{python_command()} -m pip install {options}{names}"


def python_command() -> str:
    """This Python as it is typed in a terminal."""
    return f'"{sys.executable}"' if " " in sys.executable else sys.executable


def _not_installed() -> Finding:
    return wrong(
        "rollmodel",
        f"its files are in {PACKAGE}, but this Python has it not installed, and so none of its libraries.",
        f"In the project's folder: {python_command()} -m pip install -e .",
    )
