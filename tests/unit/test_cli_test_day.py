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


def test_the_samples_are_as_many_runs_as_the_plan_asks_for_and_both_changes_are_seen(printed):
    asked = max(map(int, re.findall(r"gradient: (\d+) runs", of(printed, "plan"))))
    assert f"--runs {asked}" in next(line for line in LINES if line.startswith("sample"))
    runs = of(printed, "runs")
    assert f"({asked} left, {asked} right)" in runs and runs.count(": Seen.") == 2
    assert "over its own steps, may differ" in " ".join(runs.split())


def test_more_or_fewer_runs_than_can_be_driven_are_refused(capsys):
    for many in ("2", "61", "-3", "1e9", "999999999999999"):
        assert main(["sample", "coupe", "--runs", many]) == 2
        said = capsys.readouterr().err
        assert f'wanted runs each way round from 3 to 60, given "{many}"; write a whole number' in said


def test_what_the_fit_holds_as_exact_is_counted(printed):
    said = " ".join(of(printed, "learn").split())
    held = int(re.search(r"(\d+) more numbers of the sheet are uncertain too and are held as exact", said)[1])
    assert held > 10


def test_what_nobody_drove_says_so_to_the_end(printed):
    assert "nobody drove" in of(printed, "sample")
    assert of(printed, "runs").startswith("SIMULATED") and of(printed, "learn").startswith("SIMULATED")
    assert "simulated: nobody drove" in of(printed, "log")


def test_every_page_carries_its_cautions(printed):
    for name in ("measure readings", "runs", "learn"):
        assert "certif" in of(printed, name)
