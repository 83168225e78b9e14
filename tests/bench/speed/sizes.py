"""What there is to download, to hand out and to keep on the disk."""

import contextlib
import re
import subprocess
import sys
import tempfile
import zipfile
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

import nbformat

from tests.bench.speed.figure import Figure
from tests.bench.speed.machine import ROOT

TITLE = "Size"
HOW = """\
A million bytes to the megabyte. The wheel stands beside itself with the notebooks' stored outputs taken
out: that is what reading without running costs. The handout is what `rollmodel pack` makes, one file with
its pictures; beside it the same lesson exported by nbconvert as it is stored. Installed are all files of
the package and of what it needs, as their lists in this environment say; beside it what a plain notebook
with sliders and plots needs. Files that Python makes when it first runs are not counted.
"""
PLAIN_NOTEBOOK = ("jupyterlab", "ipywidgets", "matplotlib", "numpy")
SHORT_LESSONS, MB = ("01",), 1e6


def figures(short: bool) -> list[Figure]:
    """The wheel, the handouts and what is installed."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        wheel = built_wheel(folder)
        return [
            Figure("wheel", wheel.stat().st_size / MB, "MB", bare(wheel, folder) / MB, "no stored outputs"),
            *handouts(folder, SHORT_LESSONS if short else ()),
            *installed(unpacked(wheel) / MB),
        ]


def built_wheel(folder: Path) -> Path:
    run("hatchling", "build", "-t", "wheel", "-d", str(folder))
    return next(folder.glob("*.whl"))


def run(module: str, *words: str) -> None:
    """Run a module in the checkout; what it prints is for the screen."""
    subprocess.run([sys.executable, "-m", module, *words], cwd=ROOT, check=True, stdout=sys.stderr)


def unpacked(wheel: Path) -> int:
    """Bytes on the disk."""
    with zipfile.ZipFile(wheel) as packed:
        return sum(one.file_size for one in packed.infolist())


def bare(wheel: Path, folder: Path) -> int:
    """Bytes of the wheel packed again with notebooks that hold no outputs."""
    again = folder / "bare.zip"
    with zipfile.ZipFile(wheel) as packed, zipfile.ZipFile(again, "w", zipfile.ZIP_DEFLATED) as smaller:
        for name in packed.namelist():
            held = packed.read(name)
            smaller.writestr(name, without_outputs(held) if name.endswith(".ipynb") else held)
    return again.stat().st_size


def without_outputs(held: bytes) -> str:
    notebook = nbformat.reads(held.decode("utf-8"), 4)
    for cell in notebook.cells:
        if cell.cell_type == "code":
            cell.outputs = []
    return nbformat.writes(notebook)


def handouts(folder: Path, numbers):
    """Each lesson on paper."""
    lessons = ROOT / "lessons"
    every = sorted(lessons.glob("[0-9][0-9]-*.ipynb"))
    stored = [path for path in every if not numbers or path.name[:2] in numbers]
    which = [str(int(path.name[:2])) for path in stored]
    pack, html = folder / "pack", folder / "html"
    run("rollmodel", "pack", "--into", str(pack), "--only", "handouts", "--lessons", *which)
    run("nbconvert", "--to", "html", "--output-dir", str(html), *map(str, stored))
    for path in stored:
        ours, plain = (next(part.rglob(f"{path.stem}.html")).stat().st_size / MB for part in (pack, html))
        yield Figure(f"handout of lesson {int(path.name[:2])}", ours, "MB", plain, "nbconvert's page")


def installed(package: float):
    """What is on the disk after installing, and how many packages that is."""
    ours, plain = needed(["rollmodel"]) - {"rollmodel"}, needed(list(PLAIN_NOTEBOOK))
    beside = f"{', '.join(PLAIN_NOTEBOOK)} and what they need"
    size = package + sum(map(on_disk, ours)) / MB, "MB", sum(map(on_disk, plain)) / MB, beside
    yield Figure("installed, everything it needs", *size)
    yield Figure("packages installed", len(ours) + 1, "", len(plain), beside)
    yield Figure("of that rollmodel itself", package, "MB")


def needed(names: list[str]) -> set[str]:
    """These packages and all that they need, by the names that pip compares; extras followed where asked."""
    seen, todo = set(), list(names)
    while todo:
        asked = todo.pop()
        if asked not in seen:
            seen.add(asked)
            with contextlib.suppress(PackageNotFoundError):
                todo += wanted(*split(asked))
    there = {split(asked)[0] for asked in seen}
    return {name for name in there if is_there(name)}


def split(asked: str) -> tuple[str, set[str]]:
    """``jsonschema[format]`` to its plain name and its extras."""
    name, extras = re.match(r"([\w.-]+)\s*(?:\[([^]]*)\])?", asked).groups()
    return re.sub(r"[-_.]+", "-", name).lower(), set(re.findall(r"[\w.-]+", extras or ""))


def wanted(name: str, extras: set[str]) -> list[str]:
    """What a package asks for, without its versions; what belongs to another extra is left out."""
    found = []
    for line in distribution(name).requires or ():
        ask, _, condition = line.partition(";")
        extra = re.search(r"extra\s*==\s*['\"]([^'\"]+)", condition)
        if extra is None or extra.group(1) in extras:
            other, more = split(ask)
            found.append(f"{other}[{','.join(sorted(more))}]" if more else other)
    return found


def is_there(name: str) -> bool:
    """Whether it is installed; what is only for other systems is not."""
    with contextlib.suppress(PackageNotFoundError):
        return bool(distribution(name))
    return False


def on_disk(name: str) -> int:
    """Bytes of its files."""
    listed = distribution(name).files or ()
    paths = (Path(one.locate()) for one in listed if "__pycache__" not in one.parts)
    return sum(path.stat().st_size for path in paths if path.is_file())
