"""Large classes: a planted bad question in files, work spread over processes, memory by the learner."""

import os
import tracemalloc

import pytest

from rollmodel.marking.paper import paper_of
from rollmodel.marking.run import mark_class
from rollmodel.marking.spread import AHEAD, AT_A_TIME, WorkLost, _in_order, spread
from rollmodel.questions.records import Numeric
from tests.unit.marking_class import InventedClass, chance_right, closed_questions

QUESTIONS = closed_questions(16, without=(8,))  # lesson 8 is worked out against time, which takes long
BAD = next(one.id for one in QUESTIONS[5:] if isinstance(one, Numeric))
WRONG_KEY = {
    "planted": {BAD: lambda ability, hardness: 0.0},
    "common_wrong": {BAD: chance_right},  # those who know give the figure that a wrong key calls a slip
}
ABLE_LOSE = {"planted": {BAD: lambda ability, hardness: 1 - chance_right(ability, hardness)}}


@pytest.mark.parametrize(
    "number, planted", [(200, WRONG_KEY), (200, ABLE_LOSE), (40, ABLE_LOSE)], ids=["key", "able", "small"]
)
def test_a_planted_question_is_pointed_at_and_no_other(tmp_path, number, planted):
    """From files to the report: the one that was planted, and none of the fifteen sound ones."""
    folder = tmp_path / "class"
    folder.mkdir()
    InventedClass(number, QUESTIONS, seed=11, **planted).write(folder)
    report = mark_class(folder, tmp_path / "out", paper=paper_of("test", QUESTIONS), processes=1)
    assert [one.question.id for one in report.questions if one.reasons] == [BAD]
    assert len(report.rows) == number and report.asides == ()


def test_a_sound_class_of_two_hundred_is_pointed_at_nowhere(tmp_path):
    folder = tmp_path / "class"
    folder.mkdir()
    InventedClass(200, QUESTIONS, seed=11).write(folder)
    report = mark_class(folder, tmp_path / "out", paper=paper_of("test", QUESTIONS), processes=1)
    assert not any(one.reasons for one in report.questions) and report.pairs == ()
    assert all(
        0.1 < one.figures["facility"] < 0.95 and one.figures["item_rest"] > 0.1 for one in report.questions
    )


def test_what_is_kept_of_each_learner_is_small(tmp_path):
    """Twice the class takes at most 25 kB more for each learner, page, tables and pairs counted in."""
    asked = QUESTIONS[:8]
    peaks = []
    for number in (60, 120):
        folder = tmp_path / str(number)
        folder.mkdir()
        InventedClass(number, asked, seed=1).write(folder)
        mark_class(folder, tmp_path / f"warm {number}", paper=paper_of("test", asked), processes=1)
        tracemalloc.start()
        mark_class(folder, tmp_path / f"out {number}", paper=paper_of("test", asked), processes=1)
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    assert (peaks[1] - peaks[0]) / 60 < 25_000


# Work spread over processes


def prepare(word):
    os.environ["SPREAD_TEST"] = word


def double(number):
    return 2 * number, os.environ["SPREAD_TEST"]


def die(number):
    if number == 100:
        os._exit(9)
    return number


@pytest.mark.parametrize("processes, number", [(1, 10), (2, 10), (1, 300), (2, 300), (2, 0)])
def test_results_come_in_the_order_of_the_jobs(processes, number, monkeypatch):
    monkeypatch.setenv("SPREAD_TEST", "")
    found = list(spread(double, list(range(number)), prepare, ("ready",), processes))
    assert found == [(2 * one, "ready") for one in range(number)]


def test_only_a_few_lots_are_ahead_of_what_was_taken(monkeypatch):
    """The window is what keeps memory flat: with nothing taken, so many jobs are sent and no more."""
    sent = []

    class Pool:
        def submit(self, work, call, lot):
            sent.extend(lot)
            return type("Done", (), {"result": lambda self: lot, "cancel": lambda self: None})()

    results = _in_order(Pool(), double, list(range(10_000)), 2)
    next(results)
    assert len(sent) == AHEAD * 2 * AT_A_TIME


def test_a_process_that_is_ended_by_the_system_is_said(monkeypatch):
    monkeypatch.setenv("SPREAD_TEST", "")
    with pytest.raises(WorkLost, match="--processes 1"):
        list(spread(die, list(range(300)), prepare, ("",), 2))
