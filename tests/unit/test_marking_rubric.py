"""Open answers: from the form that markers fill to marks; agreement of two against published examples."""

import csv
import io
import itertools
import math
import re

import numpy as np
import pytest

from rollmodel.cli import main
from rollmodel.marking.agreement import agreement, table_of, weighted_kappa
from rollmodel.marking.paper import Paper, paper_text
from rollmodel.marking.rubric import FormError, judged, read_form
from rollmodel.marking.run import mark_class
from rollmodel.questions import bank, pose
from rollmodel.questions.records import Open
from tests.unit.marking_class import answer, write

RUTS, WHICH = bank.question("ruts"), bank.question("which-change")
PAPER = Paper("open", {"ruts": 10.0, "which-change": 6.0})
SAMPLES = {sample.text: sample for question in (RUTS, WHICH) for sample in question.samples}


@pytest.fixture
def folder(tmp_path):
    """Six learners who answer two open questions with the samples of the bank, weak to good and back."""
    place = tmp_path / "class"
    place.mkdir()
    for number in range(6):
        word = f"learner {number}"
        level = (number % 3, 2 - number % 3)
        write(
            place,
            word,
            [
                answer(pose(question, word, "metric", "assessment"), question.samples[at].text)
                for question, at in zip((RUTS, WHICH), level, strict=True)
            ],
        )
    return place


@pytest.fixture
def empty_form(folder, tmp_path):
    mark_class(folder, tmp_path / "first", paper=PAPER, processes=1)
    return tmp_path / "first" / "open-answers.csv"


def read_lines(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def fill(empty, path, marks, separator=",", encoding="utf-8"):
    """Fill a form as a marker would; ``marks`` is a function of a line."""
    lines = read_lines(empty)
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, list(lines[0]), delimiter=separator)
    writer.writeheader()
    writer.writerows({**line, "marks": marks(line)} for line in lines)
    path.write_bytes(text.getvalue().encode(encoding, "replace"))
    return path


def by_sample(line):
    """Points from the first on until the marks of the sample are used up."""
    sample, rubric = SAMPLES[line["answer"]], bank.question(line["question"]).rubric
    before = sum(one.marks for one in rubric[: int(line["point"]) - 1])
    return str(max(0, min(int(line["most"]), sample.marks - before)))


def full(line):
    return line["most"]


def test_the_form_has_a_line_for_each_point_and_says_nobodys_name(empty_form):
    lines = read_lines(empty_form)
    assert len(lines) == 6 * (len(RUTS.rubric) + len(WHICH.rubric))
    assert {line["question"] for line in lines[: 6 * len(RUTS.rubric)]} == {
        "ruts"
    }  # one question through the class
    assert len({line["row"] for line in lines}) == 12 and all(line["marks"] == "" for line in lines)
    assert "learner" not in empty_form.read_text(encoding="utf-8")
    assert all(
        re.fullmatch("r[0-9a-f]{15}", line["row"]) for line in lines
    )  # no spreadsheet takes it for a number


def test_the_page_for_markers_has_rubric_samples_figures_and_answers(folder, tmp_path):
    mark_class(folder, tmp_path / "out", paper=PAPER, processes=1)
    page = (tmp_path / "out" / "open-answers" / "which-change.html").read_text(encoding="utf-8")
    for sample in WHICH.samples:
        assert page.count(sample.reason) >= 1 and f"<td>{sample.level}</td>" in page
    posed = pose(WHICH, "learner 0", "metric", "assessment")
    assert posed.worked[0] in page.replace("&#39;", "'") and page.count("<h3>Row ") == 6
    assert "learner 0" not in page


@pytest.mark.parametrize("separator, encoding", [(",", "utf-8"), (";", "utf-8-sig"), ("\t", "cp1252")])
def test_a_filled_form_gives_the_marks_of_the_samples(folder, empty_form, tmp_path, separator, encoding):
    form = read_form(fill(empty_form, tmp_path / "form.csv", by_sample, separator, encoding))
    report = mark_class(folder, tmp_path / "out", paper=PAPER, forms=[form], processes=1)
    wanted = [2 * RUTS.samples[n % 3].marks + WHICH.samples[2 - n % 3].marks for n in range(6)]
    assert [row.marks for row in report.rows] == wanted and report.waiting == 0
    assert [row.waiting for row in report.rows] == [0] * 6 and report.strange_rows == 0


def test_remarks_and_points_reach_the_learner(folder, empty_form, tmp_path):
    path = change_first_line(fill(empty_form, tmp_path / "form.csv", by_sample), "remark", "Say <b>why</b>")
    mark_class(folder, tmp_path / "out", paper=PAPER, forms=[read_form(path)], processes=1)
    pages = [page.read_text(encoding="utf-8") for page in sorted((tmp_path / "out" / "learners").iterdir())]
    said = [page for page in pages if "Marker: Say &lt;b&gt;why&lt;/b&gt;" in page]
    assert len(said) == 1 and all("Marks point by point: " in page for page in pages)


def change_first_line(path, column, value):
    """The form with one cell of its first line changed."""
    rows = read_lines(path)
    rows[0][column] = value
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)
    return path


def test_two_markers_mean_and_what_waits(folder, empty_form, tmp_path):
    """One mark apart: the mean. More: the answer waits until they have talked it over."""
    rows = list(dict.fromkeys(line["row"] for line in read_lines(empty_form)))
    near, far = rows[0], rows[1]

    def second(line):
        marks = float(full(line))
        if line["row"] == near and line["point"] == "1":
            return str(marks - 1)
        return "0" if line["row"] == far else str(marks)

    forms = [
        read_form(fill(empty_form, tmp_path / "a.csv", full)),
        read_form(fill(empty_form, tmp_path / "b.csv", second)),
    ]
    found = judged(forms)
    assert found[near].part == pytest.approx((5 + 4) / 2 / 5) and found[far].part is None
    assert "talk it over" in found[far].said[0]
    report = mark_class(folder, tmp_path / "out", paper=PAPER, forms=forms, processes=1)
    assert sum(row.waiting for row in report.rows) == 10 and len(report.agreement) == 2
    assert "Two markers" in (tmp_path / "out" / "class.html").read_text(encoding="utf-8")
    assert len(read_lines(tmp_path / "out" / "agreement.csv")) == 2


def test_what_the_second_marker_has_not_read_waits(empty_form, tmp_path):
    first = read_lines(empty_form)[0]["row"]
    forms = [
        read_form(fill(empty_form, tmp_path / "a.csv", full)),
        read_form(
            fill(empty_form, tmp_path / "b.csv", lambda line: "" if line["row"] == first else full(line))
        ),
    ]
    assert judged(forms)[first].part is None and "second marker" in judged(forms)[first].said[0]


def test_marks_for_an_answer_that_was_changed_since_are_not_used(folder, empty_form, tmp_path, capsys):
    form = fill(empty_form, tmp_path / "form.csv", full)
    posed = pose(RUTS, "learner 0", "metric", "assessment")
    write(folder, "learner 0", [answer(posed, RUTS.samples[2].text + " And more.")])
    (tmp_path / "paper.toml").write_text(paper_text(PAPER), encoding="utf-8")
    code = main(
        [
            "mark",
            str(folder),
            "--paper",
            str(tmp_path / "paper.toml"),
            "--form",
            str(form),
            "--into",
            str(tmp_path / "out"),
        ]
    )
    assert code == 0 and "2 rows of the forms belong to no answer" in capsys.readouterr().err
    marks = {
        line["code_word"]: float(line["to_be_decided"])
        for line in read_lines(tmp_path / "out" / "learners.csv")
    }
    assert marks["learner 0"] == 10 and marks["learner 1"] == 0


@pytest.mark.parametrize(
    "column, value, words",
    [
        ("marks", "2", 'wanted 0 to 1 in steps of 0.5, given "2"'),
        ("marks", "-1", "wanted 0 to 1"),
        ("marks", "0.3", "in steps of 0.5"),
        ("marks", "=1+0", "wanted 0 to 1"),
        ("marks", "nan", "wanted 0 to 1"),
        ("marks", "one", "wanted 0 to 1"),
        ("marks", "", "3 of 4 points have marks; write 0 where none is due"),
        ("point", "9", "points 1 to 4, given 9"),
        ("point", "x", "wanted a whole number"),
        ("point", "2", "stands in the form twice"),
        ("row", "1.2E+15", "is not one that mark wrote"),
        ("question", "rate-in-roll", "no open question"),
        ("question", "which-change", "stands under which-change above, here under ruts"),
    ],
)
def test_a_slip_in_a_form_is_told_with_its_line(empty_form, tmp_path, column, value, words):
    path = change_first_line(fill(empty_form, tmp_path / "form.csv", full), column, value)
    with pytest.raises(FormError) as refusal:
        read_form(path)
    said = str(refusal.value)
    assert words in said and "form.csv, " in said and len(said.splitlines()) <= len(RUTS.rubric)


@pytest.mark.parametrize(
    "content, words",
    [
        (b"", "no column question, row, point, marks"),
        (b"PK\x03\x04 a spreadsheet", "save it as CSV first"),
        (b"question,row\nruts,r1", "no column point, marks"),
        (b'question,row,point,marks\n"' + b"x" * 200_000, "no CSV table"),
    ],
)
def test_what_is_no_form_is_refused(tmp_path, content, words):
    path = tmp_path / "form.csv"
    path.write_bytes(content)
    with pytest.raises(FormError, match=words):
        read_form(path)
    with pytest.raises(FormError, match="cannot be read"):
        read_form(tmp_path / "none.csv")


def test_one_form_given_twice_is_no_second_marker(folder, empty_form, tmp_path, capsys):
    form = tmp_path / "first.csv"
    fill(empty_form, form, full)
    other = tmp_path / "." / "first.csv"
    assert main(["mark", str(folder), "--form", str(form), "--form", f"{other}"]) == 2
    assert "given one file twice" in capsys.readouterr().err


def test_hundreds_of_faults_of_a_form_are_cut_short(empty_form, tmp_path):
    form = tmp_path / "first.csv"
    fill(empty_form, form, lambda line: "many")
    head, *lines = form.read_text(encoding="utf-8").splitlines()
    form.write_text("\n".join([head, *lines * 40]), encoding="utf-8")
    with pytest.raises(FormError) as refusal:
        read_form(form)
    said = str(refusal.value).splitlines()
    assert len(said) == 21 and said[-1].startswith("and ") and said[-1].endswith(" more")


def test_three_markers_are_one_too_many(folder, empty_form, tmp_path, capsys):
    arguments = itertools.chain.from_iterable(["--form", str(empty_form)] for _ in range(3))
    assert main(["mark", str(folder), "--into", str(tmp_path / "out"), *arguments]) == 2
    assert "one marker or of two, given 3" in capsys.readouterr().err


def test_commas_for_points_in_marks(empty_form, tmp_path):
    form = read_form(fill(empty_form, tmp_path / "form.csv", lambda line: "0,5", separator=";"))
    assert set(itertools.chain(*form.given.values())) == {0.5}


def test_samples_at_three_levels_are_in_the_bank():
    """Every open question has them, and their marks can be given point by point."""
    questions = [one for one in bank.all_questions() if isinstance(one, Open)]
    assert len(questions) >= 7
    for question in questions:
        assert [sample.level for sample in question.samples] == ["weak", "fair", "good"]
        assert all(0 < sample.marks <= question.full_marks for sample in question.samples)


# Weighted kappa

COHEN = np.array([[44, 5, 1], [7, 20, 3], [9, 5, 6]])  # per cent of 200 patients
COHENS_WEIGHTS = np.array([[0, 1, 3], [1, 0, 6], [3, 6, 0]])
COUPLES = np.array([[7, 7, 2, 3], [2, 8, 3, 7], [1, 5, 4, 9], [2, 8, 9, 14]])


def test_cohens_own_example():
    """J. Cohen, Psychological Bulletin 70 (1968) 213-220: weighted kappa .348; .492 without weights.

    Table, weights and both results from memory; that three from one hand fit each other bears them out.
    """
    assert weighted_kappa(COHEN, COHENS_WEIGHTS)[0] == pytest.approx(0.348, abs=5e-4)
    assert weighted_kappa(COHEN, 1 - np.eye(3))[0] == pytest.approx(0.492, abs=5e-4)


def test_answers_of_couples():
    """A. Agresti, Categorical Data Analysis (1990), husbands' and wives' answers: linear weights .2374,
    standard error .0783; without weights .1293 (from memory)."""
    kappa, low, high = weighted_kappa(COUPLES, "linear")
    assert kappa == pytest.approx(0.2374, abs=5e-5)
    assert (high - low) / 2 / 1.959964 == pytest.approx(0.0783, abs=5e-5)
    assert weighted_kappa(COUPLES, 1 - np.eye(4))[0] == pytest.approx(0.1293, abs=5e-5)


def kappa_by_hand(table, power):
    """One less observed over expected disagreement, as the definition says."""
    table = np.asarray(table, float) / np.sum(table)
    i, j = np.indices(table.shape)
    weights = np.abs(i - j) ** power
    return 1 - (weights * table).sum() / (weights * np.outer(table.sum(1), table.sum(0))).sum()


@pytest.mark.parametrize("weights, power", [("linear", 1), ("quadratic", 2)])
def test_the_definition_on_tables_drawn_at_random(weights, power):
    stream = np.random.default_rng(1)
    for _ in range(20):
        table = stream.integers(0, 9, (6, 6))
        assert weighted_kappa(table, weights)[0] == pytest.approx(kappa_by_hand(table, power), abs=1e-12)


def test_no_kappa_where_both_always_give_the_same_marks():
    table = np.zeros((4, 4))
    table[2, 2] = 9
    assert all(math.isnan(value) for value in weighted_kappa(table, "linear"))


def test_half_marks_have_a_place_in_the_table():
    table = table_of([(0, 0.5), (5, 5), (2.5, 2.5)], 5)
    assert table.shape == (11, 11) and table[0, 1] == table[10, 10] == table[5, 5] == 1 and table.sum() == 3


def test_agreement_question_by_question(empty_form, tmp_path):
    one = read_form(fill(empty_form, tmp_path / "a.csv", by_sample))
    same = agreement(one, one)
    assert [found.question for found in same] == ["ruts", "which-change"]
    assert all(
        found.same == found.near == found.kappa["linear"][0] == 1 and found.answers == 6 for found in same
    )
    other = read_form(fill(empty_form, tmp_path / "b.csv", full))
    (ruts, _) = agreement(one, other)
    assert ruts.same == pytest.approx(2 / 6) and ruts.near == pytest.approx(
        2 / 6
    )  # the good ones; 1 and 3 of 5
    pairs = [(one.total(row), other.total(row)) for row in one.given if one.questions[row] == "ruts"]
    assert ruts.kappa["quadratic"][0] == pytest.approx(kappa_by_hand(table_of(pairs, 5), 2), abs=1e-12)
