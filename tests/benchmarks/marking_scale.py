"""Marking a large class, with its growth and its memory, beside one file at a time.

    python -m tests.benchmarks.marking_scale            2,000 files of 30 questions, and its parts
    python -m tests.benchmarks.marking_scale 200        a smaller class

Each measurement is a program of its own, so that memory is that of one class. Memory is the largest
resident size of the program and of the largest of its helpers, as the system counts it. On a machine that
does other work meanwhile look at the seconds of processors.
"""

import os
import platform
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from rollmodel.marking.paper import paper_of
from rollmodel.marking.reading import read
from rollmodel.marking.run import mark_class
from rollmodel.marking.scoring import mark
from tests.unit.marking_class import InventedClass, closed_questions

QUESTIONS = 30
FILES = 2000


def paper():
    return paper_of("scale", closed_questions(QUESTIONS))


def together(folder, out):
    """As the command does it: two passes, streaming, as many processes as there are processors."""
    return [row.marks for row in mark_class(folder, out, paper=paper()).rows]


def one_at_a_time(folder, out):
    """The plain way: one file after the other in one process; marks alone, no pages, no class figures."""
    asked = paper()
    return [mark(read(path, path.name), asked).marks for path in sorted(Path(folder).iterdir())]


WAYS = {"together": together, "one-at-a-time": one_at_a_time}


def measured(way, folder):
    """Seconds by the clock and of processors, megabytes of program and helper, the sum of the marks."""
    command = [sys.executable, "-m", __spec__.name if __spec__ else __name__, "--measure", way, str(folder)]
    said = subprocess.run(command, check=True, capture_output=True, text=True).stdout.split()
    return tuple(map(float, said))


def measure(way, folder):
    """What one of those programs prints."""
    with tempfile.TemporaryDirectory() as place:
        start = time.perf_counter()
        marks = WAYS[way](folder, Path(place) / "out")
        seconds = time.perf_counter() - start
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    processors = sum(one.ru_utime + one.ru_stime for one in used)
    print(seconds, processors, *(one.ru_maxrss / 1024 for one in used), sum(marks))


def classes(place, largest):
    """Classes of an eighth, a quarter, a half and the whole; the smaller hold files of the largest."""
    folder = place / str(largest)
    folder.mkdir()
    InventedClass(largest, closed_questions(QUESTIONS), seed=9).write(folder)
    files = sorted(folder.iterdir())
    for number in (largest // 8, largest // 4, largest // 2):
        part = place / str(number)
        part.mkdir()
        for path in files[:number]:
            os.link(path, part / path.name)
        yield number, part
    yield largest, folder


def lines(largest):
    with tempfile.TemporaryDirectory() as place:
        before = None
        for number, folder in classes(Path(place), largest):
            seconds, processors, own, helper, marks = measured("together", folder)
            growth = f", {processors / before:.2f} times the half" if before else ""
            yield (
                f"{number} files: {seconds:.1f} s by the clock, {processors:.1f} s of processors{growth}; "
                f"{own:.0f} MB, each helper {helper:.0f} MB"
            )
            before = processors
        seconds, processors, own, _, plain_marks = measured("one-at-a-time", folder)
        assert plain_marks == marks
        yield (
            f"{number} files one at a time: {seconds:.1f} s by the clock, {processors:.1f} s of processors; "
            f"{own:.0f} MB; marks alone, and the same"
        )


def main():
    largest = int(sys.argv[1]) if sys.argv[1:] else FILES
    machine = f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}"
    print(f"{machine}; {QUESTIONS} questions", flush=True)
    for line in lines(largest):
        print(line, flush=True)


if __name__ == "__main__":
    if sys.argv[1:2] == ["--measure"]:
        measure(*sys.argv[2:])
    else:
        main()
