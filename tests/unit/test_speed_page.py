"""The page of speed and size is made of parts as they were measured; nothing is measured here."""

from dataclasses import replace
from importlib import import_module
from pathlib import Path

import pytest
from ipywidgets import FloatSlider

from rollmodel.panels import Lesson
from tests.bench.panel_latency import first_slider
from tests.bench.speed import page, suite
from tests.bench.speed.figure import Aim, Figure, Part, keep, kept
from tests.bench.speed.machine import Machine
from tests.bench.speed.plain import panels, plain_twin

MACHINE = Machine("1 May 2030, 10:00 UTC", "abc1234", "2 processors", "numpy 2.4", processors=2, load=0.1)
QUICK = Figure("lesson 1, median", 40.0, "ms", 200.0, "plotted again", Aim("below", 60))
SLOW = Figure("lesson 2, median", 75.0, "ms", 60.0, "plotted again", Aim("below", 60))
ALONE = Figure("burst", 90.0, "ms", aim=Aim("below", 150))
PART = Part("Moving a slider", "How.", (QUICK, SLOW, ALONE), load=0.4)
LESSONS = sorted((Path(__file__).parents[2] / "lessons").glob("[0-9][0-9]-*.ipynb"))


def row(text: str, what: str) -> list[str]:
    """The cells of one line of a table."""
    line = next(line for line in text.splitlines() if line.startswith(f"| {what} |"))
    return [cell.strip() for cell in line.strip("|").split("|")]


def test_each_figure_stands_beside_the_other_way_with_ratio_and_target():
    text = page.text(MACHINE, [PART], short=False)
    quick = ["lesson 1, median", "40 ms", "200 ms: plotted again", "5", "below 60 ms: reached"]
    assert row(text, "lesson 1, median") == quick
    slow = ["lesson 2, median", "75 ms", "60 ms: plotted again", "0.8", "below 60 ms: **missed**"]
    assert row(text, "lesson 2, median") == slow
    assert row(text, "burst") == ["burst", "90 ms", "none", "", "below 150 ms: reached"]


def test_missed_targets_stand_at_the_top():
    top = page.text(MACHINE, [PART], short=False).split("## Moving a slider")[0]
    assert "Targets: 2 of 3 reached." in top
    assert "- missed: lesson 2, median, 75 ms (plotted again: 60 ms); wanted below 60 ms" in top


@pytest.mark.parametrize("load, said, unsaid", [(0.1, page.QUIET, page.BUSY), (6.0, page.BUSY, page.QUIET)])
def test_the_page_says_its_machine_and_whether_it_was_busy(load, said, unsaid):
    text = page.text(replace(MACHINE, load=load), [PART], short=False)
    assert said in text and unsaid not in text and page.SHORT not in text
    assert row(text, "measured")[1] == MACHINE.date and row(text, "commit")[1] == "abc1234"
    assert row(text, "load average before the start")[1] == f"{load:.2f}"


def test_a_part_that_failed_says_why_and_has_no_table():
    text = page.text(MACHINE, [Part("Importing", "How.", trouble="took longer than 5 minutes")], short=True)
    assert "**Not measured:** took longer than 5 minutes" in text
    assert "| what |" not in text and "Targets" not in text and page.SHORT in text


def test_a_report_of_a_class_is_shown_as_it_is():
    text = page.text(MACHINE, [], short=False, class_report="20 learners\nFailures in all: 0.\n")
    assert "```text\n20 learners\nFailures in all: 0.\n```" in text


@pytest.mark.parametrize(
    "aim, ours, other, more, met",
    [
        (Aim("below", 60), 60, 100, False, False),
        (Aim("times better", 100), 2, 200, False, True),
        (Aim("times better", 100), 2, 199, False, False),
        (Aim("times better", 2), 50, 20, True, True),
        (Aim("times the other", 1.3), 130, 100, False, True),
        (Aim("times the other", 1.3), 131, 100, False, False),
    ],
)
def test_when_a_target_counts_as_reached(aim, ours, other, more, met):
    assert aim.met(Figure("what", ours, "ms", other, "other", more_is_better=more)) is met


def test_a_part_survives_its_file(tmp_path):
    keep(PART, tmp_path / "part.json")
    assert kept(tmp_path / "part.json") == PART


def test_the_suite_is_read_from_the_runners_file(tmp_path):
    told = tmp_path / "suite.xml"
    told.write_text(
        '<testsuites><testsuite tests="7" failures="1" errors="1" time="90"/>'
        '<testsuite tests="3" failures="0" errors="0" time="30"/></testsuites>'
    )
    two_alone, = suite.figures(told, None, alone=False)
    assert (two_alone.what, two_alone.ours, two_alone.other) == ("10 tests, 2 failed, from before", 2.0, None)
    assert "not measured" in two_alone.beside
    both, = suite.figures(told, told, alone=False)
    assert both.times_better == 1.0 and "2 failed" in both.beside


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda path: path.name[:2])
def test_every_lesson_has_a_plain_twin(lesson):
    """Its pictures are those of the lesson's panels, its words the lesson's words."""
    twin, names = plain_twin(lesson), panels(lesson)
    assert names
    code = [cell.source for cell in twin.cells if cell.cell_type == "code"]
    assert [source.split("import ")[1].split("\n")[0] for source in code[1:]] == [
        name.split(":")[1] for name in names
    ]
    assert any(cell.cell_type == "markdown" for cell in twin.cells)


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda path: path.name[:2])
def test_every_first_panel_has_a_slider_whose_place_is_known(lesson):
    module, name = panels(lesson)[0].split(":")
    rows = getattr(import_module(module), name)(Lesson(lesson.name[:2])).rows.values()
    moving = [one.slider for one in rows if hasattr(one, "slider")]
    assert isinstance(moving[first_slider(f"{module}:{name}")], FloatSlider)
