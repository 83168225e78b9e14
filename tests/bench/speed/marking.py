"""Marking a class, beside one file at a time."""

import tempfile
from pathlib import Path

from tests.bench.speed.figure import Figure
from tests.benchmarks.marking_scale import FILES, QUESTIONS, classes, measured

TITLE = "Marking a class"
HOW = f"""\
Files of {QUESTIONS} questions of an invented class, by the clock, from starting to the report written.
The other way marks one file after the other in one process and stops at the marks: no pages, no class
figures. Both give the same marks.
"""


def figures(short: bool) -> list[Figure]:
    """Files a second, and memory."""
    number = 40 if short else FILES
    with tempfile.TemporaryDirectory() as place:
        *_, (_, folder) = classes(Path(place), number)
        ours, plain = (measured(way, folder) for way in ("together", "one-at-a-time"))
    if ours[-1] != plain[-1]:
        raise RuntimeError("the two ways give different marks")
    beside, speeds = "one at a time, marks alone", [number / one[0] for one in (ours, plain)]
    return [
        Figure(f"{number} files", speeds[0], "files/s", speeds[1], beside, more_is_better=True),
        Figure("memory of the program", ours[2], "MB", plain[2], beside),
    ]
