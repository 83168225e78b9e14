"""A class marked from beginning to end: marks, roads, papers, copies, results whole or not at all."""

import csv
import errno
import json
import re
from dataclasses import replace

import pytest

from rollmodel import units
from rollmodel.cli import main
from rollmodel.marking import run
from rollmodel.marking.class_report import class_report
from rollmodel.marking.duplicates import look, shared
from rollmodel.marking.paper import Paper, PaperError, paper_of, paper_text, read_paper
from rollmodel.marking.reading import read
from rollmodel.marking.rubric import Judged
from rollmodel.marking.run import mark_class
from rollmodel.marking.scoring import mark
from rollmodel.questions import bank, pose, right_answer, start
from rollmodel.questions.records import Choice, Numeric
from tests.unit.marking_class import (
    TEXT,
    InventedClass,
    all_right,
    answer,
    closed_questions,
    figure,
    file_text,
    write,
)

QUESTIONS = closed_questions(6)
PAPER = paper_of("test", QUESTIONS)
NUMERIC = next(one for one in QUESTIONS if isinstance(one, Numeric))
CHOICE = bank.question("bench-to-roll")
OPEN = bank.question("ruts")
VERDICT_WORDS = ("look at it", "do no better", "hardly anybody", "more often than")


@pytest.fixture
def folder(tmp_path):
    place = tmp_path / "class"
    place.mkdir()
    return place


def handed_in(folder, word, answers, mode="assessment"):
    path = write(folder, word, answers, mode)
    return read(path, path.name)


def lines_of(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_what_a_learner_typed_in_the_notebook_is_what_is_marked(folder):
    """Through the very door that learners use, to the marks."""
    work = start("blue kestrel", mode="assessment", folder=folder)
    for question in QUESTIONS:
        work.answer(question.id, right_answer(work.posed(question.id)))
    path = next(folder.glob("answers-*.json"))
    marked = mark(read(path, path.name), PAPER)
    assert [item.verdict.status for item in marked.items] == ["right"] * len(QUESTIONS)
    assert marked.marks == PAPER.most and marked.notes == ()


@pytest.mark.parametrize("family", units.FAMILIES)
def test_every_road_is_marked_under_its_own_name(folder, family):
    """A wrong answer by each road of a question, in both unit families: 0 marks and the road's name."""
    posed = pose(NUMERIC, "blue kestrel", family, "assessment")
    paper = paper_of("one", [NUMERIC])
    for belief, value in posed.wrong_answers:
        handed = handed_in(folder, "blue kestrel", [answer(posed, figure(posed, value))])
        (item,) = mark(handed, paper).items
        assert (item.marks, item.verdict.belief) == (0.0, belief)


def test_the_key_belongs_to_the_code_word(folder):
    """Somebody else's right answer is not right here."""
    other = all_right("red fox", [NUMERIC])
    marked = mark(handed_in(folder, "blue kestrel", other), paper_of("one", [NUMERIC]))
    assert marked.marks == 0


def test_the_latest_answer_counts_in_an_assessment_and_the_first_readable_in_practice(folder):
    texts = ["no idea", "0.001 N/mm", None]
    for mode, counts in (("assessment", "right"), ("practice", "wrong")):
        posed = pose(bank.question("rate-in-roll"), "blue kestrel", "metric", mode)
        answers = [answer(posed, text or right_answer(posed), n) for n, text in enumerate(texts)]
        marked = mark(handed_in(folder, "blue kestrel", answers, mode), paper_of("one", [posed.question]))
        assert marked.items[0].verdict.status == counts


def test_no_answer_is_nought_and_an_answer_that_cannot_be_read_is_for_a_person_to_look_at(folder):
    posed = pose(NUMERIC, "blue kestrel", "metric", "assessment")
    marked = mark(handed_in(folder, "blue kestrel", [answer(posed, "93")]), PAPER)
    statuses = {item.question.id: item.verdict.status for item in marked.items}
    assert (
        statuses[NUMERIC.id] == "no unit"
        and list(statuses.values()).count("not answered") == len(QUESTIONS) - 1
    )
    assert marked.marks == 0 and any(NUMERIC.id in note for note in marked.notes)


def test_another_version_of_a_question_waits_for_a_person(folder):
    old = [replace(one, question_version=99) for one in all_right("blue kestrel", QUESTIONS[:3])]
    marked = mark(handed_in(folder, "blue kestrel", old), paper_of("three", QUESTIONS[:3]))
    assert marked.waiting == marked.items[0].most * 3 and marked.items[0].waits
    assert "cannot work out that key" in marked.items[0].verdict.message
    assert len(marked.notes) == 1 and "with that package" in marked.notes[0]
    assert all(question.id in marked.notes[0] for question in QUESTIONS[:3])


def test_answers_to_unknown_questions_change_nothing_and_are_said(folder):
    answers = all_right("blue kestrel", QUESTIONS)
    strange = replace(answers[0], question="no-such-question")
    marked = mark(handed_in(folder, "blue kestrel", [*answers, strange]), PAPER)
    assert marked.marks == PAPER.most and "no-such-question" in marked.notes[-1]


def test_open_answers_wait_for_a_person(folder):
    posed = pose(OPEN, "blue kestrel", "metric", "assessment")
    handed = handed_in(folder, "blue kestrel", [answer(posed, TEXT)])
    marked = mark(handed, paper_of("open", [OPEN]))
    assert (marked.marks, marked.waiting) == (0, OPEN.full_marks)
    given = mark(handed, paper_of("open", [OPEN]), {marked.items[0].row: Judged(0.6, ("Well put.",))})
    assert (given.marks, given.waiting) == (3.0, 0)


def test_part_marks_are_the_papers(folder):
    near = pose(NUMERIC, "blue kestrel", "metric", "assessment")
    off = near.key * (1 + 2 * NUMERIC.tolerance.relative)
    handed = handed_in(folder, "blue kestrel", [answer(near, figure(near, off))])
    for part in (1.0, 0.5, 0.0):
        paper = Paper("parts", {NUMERIC.id: 4.0}, near=part)
        assert mark(handed, paper).marks == 4 * part


# A class


def invented(folder, number=20, **planted):
    return InventedClass(number, QUESTIONS, seed=3, **planted).write(folder)


def test_marks_and_tables_of_a_class_are_what_each_file_gets_alone(folder, tmp_path):
    invented(folder)
    report = mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    alone = {path.name: mark(read(path, path.name), PAPER).marks for path in folder.iterdir()}
    assert {row.name: row.marks for row in report.rows} == alone
    assert {
        line["file"]: float(line["marks"]) for line in lines_of(tmp_path / "out" / "learners.csv")
    } == alone
    answers = lines_of(tmp_path / "out" / "answers.csv")
    assert len(answers) == 20 * len(QUESTIONS)
    for name, marks in alone.items():
        assert sum(float(line["marks"]) for line in answers if line["file"] == name) == marks


def test_two_processes_give_what_one_gives(folder, tmp_path):
    invented(folder, 70)
    for processes in (1, 2):
        mark_class(folder, tmp_path / f"out {processes}", paper=PAPER, processes=processes)
    one, two = (
        {path.relative_to(place): path.read_bytes() for path in place.rglob("*") if path.is_file()}
        for place in (tmp_path / "out 1", tmp_path / "out 2")
    )
    assert one == two and len(one) == 70 + 8


def test_below_thirty_learners_no_word_is_said_on_what_figures_mean(folder, tmp_path):
    bad = {NUMERIC.id: lambda ability, hardness: 0.0}
    invented(folder, 29, planted=bad)
    report = mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    page = (tmp_path / "out" / "class.html").read_text(encoding="utf-8")
    assert not any(one.reasons for one in report.questions)
    assert not any(word in page for word in VERDICT_WORDS) and "without a word on what they mean" in page
    assert "look_at_it_because" not in lines_of(tmp_path / "out" / "class.csv")[0]


def test_from_thirty_learners_on_a_question_may_be_pointed_at(folder, tmp_path):
    bad = {NUMERIC.id: lambda ability, hardness: 0.0}
    invented(folder, 40, planted=bad)
    report = mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    assert [one.question.id for one in report.questions if one.reasons] == [NUMERIC.id]
    assert "hardly anybody" in (tmp_path / "out" / "class.html").read_text(encoding="utf-8")


def test_options_that_nobody_chose_are_named(folder, tmp_path):
    unused = next(option.name for option in CHOICE.options if option.belief)
    for number in range(5):
        posed = pose(CHOICE, f"learner {number}", "metric", "assessment")
        others = [letter for letter, name in posed.letters.items() if name != unused]
        write(folder, f"learner {number}", [answer(posed, others[number % len(others)])])
    report = mark_class(folder, tmp_path / "out", processes=1)
    assert report.questions[0].unused == (unused,)
    assert f"Options that nobody chose: {unused}." in (tmp_path / "out" / "class.html").read_text(
        encoding="utf-8"
    )


def test_roads_are_counted_over_the_paper(folder, tmp_path):
    invented(folder)
    report = mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    plainly = [line["road"] for line in lines_of(tmp_path / "out" / "answers.csv") if line["road"]]
    assert {road.name: road.count for road in report.roads} == {
        name: plainly.count(name) for name in set(plainly)
    }
    counts = [road.count for road in report.roads]
    assert counts == sorted(counts, reverse=True) and len(counts) > 3


def test_a_learners_page_says_what_was_typed_the_road_and_the_right_answer(folder, tmp_path):
    posed = pose(NUMERIC, "blue kestrel", "metric", "assessment")
    belief, value = posed.wrong_answers[0]
    write(folder, "blue kestrel", [answer(posed, figure(posed, value))])
    mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    page = (tmp_path / "out" / "learners" / "0001-blue_kestrel.html").read_text(encoding="utf-8")
    assert figure(posed, value) in page and right_answer(posed) in page
    assert belief.name in page.replace("&#39;", "'") and "0 of\n" in page
    assert page.count("Not answered.") == len(QUESTIONS) - 1


def test_the_same_slip_in_several_answers_is_said_once_over_all(folder, tmp_path):
    asked = [bank.question(name) for name in ("rate-in-roll", "tube-in-roll")]
    posed = [pose(one, "blue kestrel", "metric", "assessment") for one in asked]
    values = [
        next(value for belief, value in one.wrong_answers if belief.id == "factor 2 taken twice")
        for one in posed
    ]
    write(
        folder,
        "blue kestrel",
        [answer(one, figure(one, value)) for one, value in zip(posed, values, strict=True)],
    )
    mark_class(folder, tmp_path / "out", processes=1)
    page = (tmp_path / "out" / "learners" / "0001-blue_kestrel.html").read_text(encoding="utf-8")
    assert "The same slip in 2 answers (rate-in-roll, tube-in-roll)" in page


# Without a paper


def test_without_a_paper_the_class_decides_and_one_learner_alone_cannot_add_a_question(folder, tmp_path):
    invented(folder, 20)
    alone = all_right("learner 0", [*QUESTIONS, OPEN])
    write(folder, "learner 0", alone)
    report = mark_class(folder, tmp_path / "out", processes=1)
    assert set(report.paper.marks) == {one.id for one in QUESTIONS} and not report.paper.given
    assert "No paper was given" in (tmp_path / "out" / "class.html").read_text(encoding="utf-8")


# Papers


def test_a_paper_comes_back_as_it_was_written(tmp_path):
    paper = Paper('Bars, "first" test', {"rate-in-roll": 1.5, "ruts": 5.0}, near=0.5)
    path = tmp_path / "paper.toml"
    path.write_text(paper_text(paper), encoding="utf-8")
    assert read_paper(path) == paper


@pytest.mark.parametrize(
    "text, words",
    [
        ("", "wanted a table"),
        ("[marks]", "wanted a table"),
        ("marks = 3", "wanted a table"),
        ("[marks]\nno-such = 1", "no question is called 'no-such'"),
        ('title = "a\\u202eb"\n[marks]\nrate-in-roll = 1', "given U+202E in it"),
        ("[marks]\nrate-in-roll = 0", "above 0"),
        ("[marks]\nrate-in-roll = true", "above 0"),
        ("[marks]\nrate-in-roll = nan", "above 0"),
        ("near = 2\n[marks]\nrate-in-roll = 1", "near: wanted a number from 0 to 1"),
        ("pass = 40\n[marks]\nrate-in-roll = 1", "pass: a paper has no such field"),
        ("title = 3\n[marks]\nrate-in-roll = 1", "title"),
        ("[marks", "not TOML"),
    ],
)
def test_a_wrong_paper_is_refused_in_words(tmp_path, text, words, capsys):
    path = tmp_path / "paper.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(PaperError, match=re.escape(words)):
        read_paper(path)
    (tmp_path / "class").mkdir()
    assert main(["mark", str(tmp_path / "class"), "--paper", str(path), "--into", str(tmp_path / "out")]) == 2
    assert words in capsys.readouterr().err


def test_every_fault_of_a_paper_is_told_at_once(tmp_path):
    path = tmp_path / "paper.toml"
    path.write_text("near = 2\n[marks]\nno-such = 1\nrate-in-roll = 0", encoding="utf-8")
    with pytest.raises(PaperError) as refusal:
        read_paper(path)
    assert len(str(refusal.value).splitlines()) == 3


# Copies and shared code words


def test_of_two_alike_one_is_marked_and_an_earlier_stage_is_set_aside(folder, tmp_path):
    answers = all_right("blue kestrel", QUESTIONS)
    for name, part in (("b", answers), ("a copy", answers), ("c early", answers[:2])):
        write(folder, "blue kestrel", part, name=f"{name}.json")
    report = mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    assert [row.name for row in report.rows] == ["a copy.json"]
    reasons = {one.name: one.reason for one in report.asides}
    assert set(reasons) == {"b.json", "c early.json"} and "earlier copy" in reasons["c early.json"]
    assert {one.kind for one in report.asides} == {"duplicate"} and "a copy.json" in reasons["b.json"]


def test_two_learners_with_one_code_word_are_both_marked_and_named(folder, tmp_path):
    """Nobody loses marks because another chose the same word; a person is told."""
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS), name="anna.json")
    later = [
        replace(one, given_at="2025-03-04T11:00:00+00:00") for one in all_right("blue kestrel", QUESTIONS[:3])
    ]
    write(folder, "blue kestrel", later, name="ben.json")
    report = mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    assert {row.name: row.marks for row in report.rows} == {"anna.json": 6, "ben.json": 3}
    assert all("same code word" in row.notes[0] for row in report.rows) and report.asides == ()


def test_a_copy_under_another_code_word_is_named(folder):
    answers = all_right("blue kestrel", QUESTIONS)
    paths = [write(folder, word, answers) for word in ("blue kestrel", "red fox", "green owl")]
    paths[2].write_text(file_text("green owl", all_right("green owl", QUESTIONS)), encoding="utf-8")
    notes = shared([look(str(path), read(path, path.name)) for path in paths])
    assert set(notes) == {paths[0].name, paths[1].name}
    assert "same answers at the same seconds" in notes[paths[1].name][0]


def test_a_file_that_goes_on_with_other_answers_is_marked_and_named(folder, tmp_path):
    """Somebody writes a wrong answer behind each of another's: the rule stays, and a person is told."""
    true = all_right("red heron", QUESTIONS)
    forged = [replace(one, text="1 N", given_at="2025-03-04T12:00:00+00:00") for one in true]
    write(folder, "red heron", true, name="red heron.json")
    write(folder, "red heron", [*true, *forged], name="zz.json")
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS), name="kestrel.json")
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS)[:2], name="kestrel early.json")
    report = mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    notes = {row.name: row.notes for row in report.rows}
    assert set(notes) == {"kestrel.json", "zz.json"} and notes["kestrel.json"] == ()
    assert "in place of red heron.json" in notes["zz.json"][0]
    assert all(question.id in notes["zz.json"][0] for question in QUESTIONS)
    assert "Ask the learner" in (tmp_path / "out" / "class.html").read_text(encoding="utf-8")
    reasons = {one.name: one.reason for one in report.asides}
    assert "changed in that" in reasons["red heron.json"] and "changed" not in reasons["kestrel early.json"]


# The command


def test_exit_codes(folder, tmp_path, capsys):
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS))
    assert main(["mark", str(folder), "--into", str(tmp_path / "one")]) == 0
    assert capsys.readouterr().err == ""
    (folder / "broken.json").write_text("{", encoding="utf-8")
    assert main(["mark", str(folder), "--into", str(tmp_path / "two")]) == 3
    assert capsys.readouterr().err.startswith("set aside: broken.json: it is not whole JSON text")


@pytest.mark.parametrize(
    "arguments, words",
    [
        (["nowhere"], "wanted a folder"),
        (["class"], "no file at all"),
        (["class", "--into", "class/out"], "inside the class's folder"),
        (["class", "--into", "taken"], "is there already"),
        (["class", "--processes", "0"], "--processes"),
        (["class", "--mode", "exam"], "--mode"),
        (["class", "--paper", "nothing.toml"], "cannot be read"),
    ],
)
def test_refusals(folder, tmp_path, monkeypatch, capsys, arguments, words):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "taken").mkdir()
    (tmp_path / "taken" / "mine.txt").write_text("mine", encoding="utf-8")
    assert main(["mark", *arguments]) == 2
    said = capsys.readouterr().err
    assert words in said and "Traceback" not in said
    assert sorted(path.name for path in tmp_path.iterdir()) == ["class", "taken"]


def test_results_never_cover_earlier_ones(folder, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS))
    for _ in range(3):
        assert main(["mark", "class"]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "class",
        "marks-class",
        "marks-class-2",
        "marks-class-3",
    ]


def test_a_full_disk_leaves_nothing_behind(folder, tmp_path, monkeypatch, capsys):
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS))

    def full(*arguments):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(run, "write_class_tables", full)
    assert main(["mark", str(folder), "--into", str(tmp_path / "out")]) == 2
    assert "No space left" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["class"]


def test_a_report_of_nobody(tmp_path):
    report = class_report(PAPER, "assessment", [], [])
    assert report.questions == () and report.pairs == () and report.roads == ()


def test_the_json_of_the_package_is_what_is_read(folder):
    """The reader's list of fields is that of the file that the package writes."""
    work = start("blue kestrel", mode="assessment", folder=folder)
    work.answer("rate-in-roll", "60 N/mm")
    content = json.loads(next(folder.glob("*.json")).read_text(encoding="utf-8"))
    from rollmodel.marking.reading import ANSWER_FIELDS, TOP_FIELDS

    assert tuple(content) == TOP_FIELDS and tuple(content["answers"][0]) == ANSWER_FIELDS


def test_a_choice_is_read_by_the_letters_of_its_own_learner(folder):
    for word in ("blue kestrel", "red fox", "green owl"):
        posed = pose(CHOICE, word, "metric", "assessment")
        for letter, name in posed.letters.items():
            marked = mark(handed_in(folder, word, [answer(posed, letter)]), paper_of("one", [CHOICE]))
            assert marked.marks == (name == posed.key) and isinstance(posed.question, Choice)
