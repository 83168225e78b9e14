"""The test day of the README, line by line: from readings to a verdict, a better sheet and a log."""

import contextlib
import io
import re
from pathlib import Path

import pytest

from rollmodel.cli import main

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
DAY = re.search(r"^## A test day\n(.*?)^## ", README, re.MULTILINE | re.DOTALL)[1]
LINES = re.findall(r"^    rollmodel (.*?)(?:  +.*)?$", DAY, re.MULTILINE)


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """What each line of the README prints, in their order, in an empty folder."""
    patch, found = pytest.MonkeyPatch(), {}
    patch.chdir(tmp_path_factory.mktemp("day"))
    for line in LINES:
        out = io.StringIO()
        with contextlib.redirect_stdout(out):
            assert main(line.split()) == 0, line
        found[line] = out.getvalue()
    yield found
    patch.undo()


def of(printed, name):
    return next(text for line, text in printed.items() if line.startswith(name))


def test_the_readme_names_every_step(printed):
    assert [line.split()[0] for line in LINES] == [
        "measure",
        "measure",
        "plan",
        "sample",
        "runs",
        "learn",
        "log",
    ]


def test_the_day_ends_in_a_verdict_and_a_log(printed):
    runs = of(printed, "runs")
    assert "Verdict" in runs and re.search(r"Roll gradient: (Seen|Not resolved|Opposite)", runs)
    log = of(printed, "log")
    assert log.count("Rear bar stiffer: hole 2 to hole 3.") == 2 and "measured" in log and "predicted" in log


def test_what_nobody_drove_says_so_to_the_end(printed):
    assert "nobody drove" in of(printed, "sample")
    assert of(printed, "runs").startswith("SIMULATED") and of(printed, "learn").startswith("SIMULATED")
    assert "simulated: nobody drove" in of(printed, "log")


def test_every_page_carries_its_cautions(printed):
    for name in ("measure readings", "runs", "learn"):
        assert "certif" in of(printed, name)
