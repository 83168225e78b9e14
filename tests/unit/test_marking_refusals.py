"""What marking refuses in words, and what its pages say that a person acts on."""

import os

import pytest

from rollmodel.car import GRAVITY
from rollmodel.cli import main
from rollmodel.marking.comments import comment
from rollmodel.marking.paper import PaperError, paper_of, read_paper
from rollmodel.marking.reading import read
from rollmodel.marking.run import mark_class
from rollmodel.marking.scoring import mark
from rollmodel.questions import bank, check, pose
from tests.unit.marking_class import all_right, answer, closed_questions, write

QUESTIONS = closed_questions(6)
PAPER = paper_of("test", QUESTIONS)
OPEN = bank.question("ruts")


@pytest.fixture
def folder(tmp_path):
    place = tmp_path / "class"
    place.mkdir()
    return place


def test_a_paper_with_what_an_exercise_asks_marks_practice_and_no_assessment(folder, tmp_path, capsys):
    """Exercise 1 asks a class question, and practice keeps the answer; an assessment asks none."""
    kerb = bank.question("class-kerb")
    write(folder, "blue kestrel", all_right("blue kestrel", [kerb], "practice"), "practice")
    paper = tmp_path / "paper.toml"
    paper.write_text("[marks]\nclass-kerb = 2", encoding="utf-8")
    common = ["mark", str(folder), "--paper", str(paper), "--processes", "1"]
    assert main([*common, "--mode", "practice", "--into", str(tmp_path / "out")]) == 0
    assert ",2,2," in (tmp_path / "out" / "learners.csv").read_text(encoding="utf-8")
    capsys.readouterr()
    assert main([*common, "--into", str(tmp_path / "other")]) == 2
    assert "for practice only, not for an assessment: class-kerb" in capsys.readouterr().err


def test_the_table_of_marks_says_of_how_many(folder, tmp_path):
    """One learner's open answer waits, the other left it out: that one is decided on the whole paper."""
    paper = paper_of("with an open one", [*QUESTIONS, OPEN])
    write(folder, "blue kestrel", all_right("blue kestrel", [*QUESTIONS, OPEN]))
    report = mark_class(folder, tmp_path / "one", paper=paper, processes=1)
    assert report.decided == (6, 6)
    page = " ".join((tmp_path / "one" / "class.html").read_text(encoding="utf-8").split())
    assert f"<caption>Marks, of the 6 decided so far; the paper has {paper.most:g}</caption>" in page
    write(folder, "red heron", all_right("red heron", QUESTIONS))
    mark_class(folder, tmp_path / "two", paper=paper, processes=1)
    page = " ".join((tmp_path / "two" / "class.html").read_text(encoding="utf-8").split())
    assert f"Marks, of the 6 to {paper.most:g} decided so far" in page
    mark_class(folder, tmp_path / "three", paper=PAPER, processes=1)
    assert "<caption>Marks, of 6</caption>" in (tmp_path / "three" / "class.html").read_text(encoding="utf-8")


def test_a_page_speaks_of_a_mass_for_a_force_as_practice_does(folder):
    load = bank.question("inside-wheel")
    posed = pose(load, "blue kestrel", "metric", "practice")
    texts = (f"{posed.key / GRAVITY / 0.45359237:.5g} lb", "0.001 lb")
    for text in texts:
        path = write(folder, "blue kestrel", [answer(posed, text)], "practice")
        item = mark(read(path, path.name), paper_of("one", [load])).items[0]
        assert comment(item) == f"{check(posed, text).message} {item.verdict.belief.why}"


def test_hundreds_of_faults_of_a_paper_are_cut_short(tmp_path):
    path = tmp_path / "paper.toml"
    path.write_text("[marks]\n" + "\n".join(f"no-such-{n} = 1" for n in range(500)), encoding="utf-8")
    with pytest.raises(PaperError) as refusal:
        read_paper(path)
    lines = str(refusal.value).splitlines()
    assert len(lines) == 21 and lines[-1] == "and 480 more"


@pytest.mark.parametrize("place", ["", " ", ".", "..", "/"])
def test_a_place_that_names_nothing_is_refused(folder, place, capsys):
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS))
    assert main(["mark", str(folder), "--into", place]) == 2
    assert "--into: wanted the name of a new place" in capsys.readouterr().err


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes of POSIX")
@pytest.mark.parametrize("option", ["--paper", "--form"])
def test_a_pipe_for_a_paper_or_a_form_is_refused_and_not_waited_for(folder, tmp_path, option, capsys):
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS))
    os.mkfifo(tmp_path / "pipe")
    assert main(["mark", str(folder), option, str(tmp_path / "pipe"), "--into", str(tmp_path / "out")]) == 2
    assert "it is no plain file" in capsys.readouterr().err


def test_a_place_that_cannot_be_written_is_named_as_it_was_typed(folder, tmp_path, monkeypatch, capsys):
    write(folder, "blue kestrel", all_right("blue kestrel", QUESTIONS))

    def refused(**names):
        raise PermissionError(13, "Permission denied", f"{names['dir']}/{names['prefix']}x1y2")

    monkeypatch.setattr("rollmodel.disk.tempfile.mkdtemp", refused)
    assert main(["mark", str(folder), "--into", str(tmp_path / "out"), "--processes", "1"]) == 2
    said = capsys.readouterr().err
    assert f"{tmp_path / 'out'}: Permission denied" in said and "x1y2" not in said
