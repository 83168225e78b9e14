"""The whole test suite on two processors, beside one process; or what the checks wrote in a file before."""

import os
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from pathlib import Path

from tests.bench.speed.figure import Figure
from tests.bench.speed.machine import ROOT

TITLE = "The test suite"
HOW = """\
By the clock, as the test runner writes it: every test, docstring and notebook, in a browser where one is
needed. Ours is the README's command, four processes that share the files; the other way is one process.
"""
TOGETHER = ("-n", "4", "--dist", "loadfile")


@dataclass(frozen=True)
class Suite:
    """What a file in the usual XML of test runners says."""

    seconds: float
    tests: int
    failed: int


def read(path: Path) -> Suite:
    """The sums over the file's suites."""
    suites = list(ElementTree.parse(path).getroot().iter("testsuite"))

    def total(name):
        return sum(float(one.get(name, 0)) for one in suites)

    return Suite(total("time"), int(total("tests")), int(total("failures") + total("errors")))


def figures(with_two: Path | None, with_one: Path | None, alone: bool) -> list[Figure]:
    """From files where there are files; else run, with one process only when asked."""
    two = read(with_two) if with_two else run(TOGETHER)
    one = read(with_one) if with_one else run(()) if alone else None
    failed = f", {two.failed} failed" if two.failed else ""
    before = ", from before" if with_two else ""
    other = (one.seconds / 60, f"one process{f', {one.failed} failed' if one.failed else ''}") if one else ()
    beside = () if one else (None, "one process: not measured")
    return [Figure(f"{two.tests} tests{failed}{before}", two.seconds / 60, "min", *(other or beside))]


def run(options: tuple[str, ...]) -> Suite:
    """Run every check; its words go to the screen."""
    with tempfile.TemporaryDirectory() as place:
        told = Path(place) / "suite.xml"
        words = ["-q", "-p", "no:cacheprovider", *options, f"--junitxml={told}"]
        environment = os.environ | {"PYTHONDONTWRITEBYTECODE": "1"}
        command = [sys.executable, "-m", "pytest", *words]
        subprocess.run(command, cwd=ROOT, env=environment, stdout=sys.stderr)
        return read(told)
