"""What a learner types in an exercise notebook, and what comes back."""

import errno
import json

import pytest

from rollmodel.questions import answers, bank, right_answer, start
from rollmodel.questions.work import Refusal

RATE = "rate-in-roll"
AIM = bank.question(RATE).aim.rstrip(".")


@pytest.fixture
def work(tmp_path):
    return start("blue kestrel", folder=tmp_path)


def kept(tmp_path, mode="practice"):
    path = tmp_path / f"answers-blue_kestrel-{mode}.json"
    if not path.exists():
        return []
    return [row["text"] for row in json.loads(path.read_text(encoding="utf-8"))["answers"]]


def test_an_untouched_notebook_says_not_answered_and_writes_nothing(work, tmp_path):
    said = work.answer(RATE, "")
    assert "Not answered yet" in said.plain and work.posed(RATE).wanted in said.plain
    assert list(tmp_path.iterdir()) == []


def test_a_question_shows_its_text_and_what_an_answer_looks_like(work):
    said = work.ask(RATE)
    posed = work.posed(RATE)
    assert posed.text in said.plain and posed.wanted in said.plain
    assert right_answer(posed) not in said.plain
    assert all(f"{letter}. {text}" in work.ask("class-ridge").plain
               for letter, text in work.posed("class-ridge").options)


def test_right_answer_is_kept_and_said(work, tmp_path):
    text = right_answer(work.posed(RATE))
    said = work.answer(RATE, text)
    assert said.verdict.right and said.plain.startswith("Right: ")
    assert kept(tmp_path) == [text]


def test_help_grows_with_different_wrong_answers_only(work):
    """Running a cell again brings no further help; another wrong answer does."""
    stages = [bool("How to go about it" in work.answer(RATE, text).plain)
              for text in ("1 N/mm", "1 N/mm", "2 N/mm", "2 N/mm")]
    assert stages == [False, False, True, True]
    assert "Worked:" in work.answer(RATE, "3 N/mm").plain


def test_an_answer_that_cannot_be_read_is_kept_but_costs_no_try(work, tmp_path):
    work.answer(RATE, "93")
    assert "How to go about it" not in work.answer(RATE, "1 N/mm").plain
    assert kept(tmp_path) == ["93", "1 N/mm"]


def test_coming_back_later_goes_on_where_it_was(work, tmp_path):
    work.answer(RATE, "1 N/mm")
    again = start("Blue  Kestrel", folder=tmp_path)
    assert "How to go about it" in again.answer(RATE, "2 N/mm").plain
    assert again.progress().plain == f"Answered so far: 1.\n{AIM}: wrong."


def test_progress_says_how_each_question_stands_by_its_aim(work):
    other = "bar-force-in-roll"
    work.ask(RATE)
    work.answer(other, "")
    aims = [bank.question(name).aim.rstrip(".") for name in (RATE, other)]
    assert work.progress().plain.splitlines() == [
        "Answered so far: 0.", f"{aims[0]}: not answered.", f"{aims[1]}: not answered."]
    work.answer(RATE, "stiff")
    assert f"{AIM}: not yet in a form that can be read." in work.progress().plain
    work.answer(RATE, right_answer(work.posed(RATE)))
    said = work.progress().plain
    assert f"{AIM}: right." in said and "Answered so far: 1." in said and RATE not in said
    work.answer(RATE, "1 N/mm")
    assert f"{AIM}: wrong." in work.progress().plain


def test_progress_in_an_assessment_tells_nothing_of_right_or_wrong(tmp_path):
    for text in ("1 N/mm", None):
        work = start("blue kestrel", mode="assessment", folder=tmp_path)
        name = next(one.id for one in bank.all_questions() if "assessment" in one.pools)
        text = text or right_answer(work.posed(name))
        work.ask(name)
        work.answer(name, text)
        aim = bank.question(name).aim.rstrip(".")
        assert work.progress().plain == f"Answered so far: 1.\n{aim}: answered."


def test_an_answer_to_a_question_that_is_gone_is_still_counted(work, monkeypatch):
    work.answer(RATE, "1 N/mm")

    def gone(name):
        raise bank.UnknownQuestion(name)

    monkeypatch.setattr(bank, "question", gone)
    assert f"A question that this version does not have ({RATE}): answered." in work.progress().plain


def test_the_first_cell_says_what_another_code_word_asks_for(work):
    assert "run all cells below again" in repr(work) and "run all cells below again" in repr(start())


def test_the_last_answer_counts_even_when_it_was_given_before(work, tmp_path):
    for text in ("1 N/mm", "2 N/mm", "1 N/mm"):
        work.answer(RATE, text)
    assert kept(tmp_path) == ["1 N/mm", "2 N/mm", "1 N/mm"]


def test_assessment_reveals_nothing(tmp_path):
    work = start("blue kestrel", mode="assessment", folder=tmp_path)
    text = right_answer(work.posed(RATE))
    right, wrong = work.answer(RATE, text), work.answer(RATE, "1 N/mm")
    assert (right.plain, wrong.plain) == (f"Noted: {text}", "Noted: 1 N/mm")
    assert right.verdict is None and wrong.verdict is None
    assert kept(tmp_path, "assessment") == [text, "1 N/mm"] and kept(tmp_path) == []


@pytest.mark.parametrize("text", ["88 n/mm", "88 N/MM", "88 N/mm in roll", "88,1 N/mm", "88 flurbs"])
def test_an_assessment_says_at_once_what_cannot_be_read(tmp_path, text):
    """Whoever typed the figure well and its unit badly can still mend it."""
    work = start("blue kestrel", mode="assessment", folder=tmp_path)
    said = work.answer(RATE, text).plain
    assert said.startswith("This could not be read: ") and "Noted" not in said
    assert kept(tmp_path, "assessment") == [text]
    assert work.progress().plain.endswith(": not yet in a form that can be read.")


@pytest.mark.parametrize("text", ["88 newtons", "88 mm", "88 lb/in", "88 N/mm.", "88 Newton/mm"])
def test_an_assessment_says_no_word_on_a_unit_of_another_kind(tmp_path, text):
    """That would be a word on what the answer is worth."""
    work = start("blue kestrel", mode="assessment", folder=tmp_path)
    assert work.answer(RATE, text).plain == f"Noted: {text}"
    assert work.progress().plain.endswith(": answered.")


def test_assessment_has_numbers_of_its_own(work, tmp_path):
    assessed = start("blue kestrel", mode="assessment", folder=tmp_path)
    assert assessed.posed(RATE).given != work.posed(RATE).given


def test_assessment_refuses_what_would_help(tmp_path):
    work = start("blue kestrel", mode="assessment", folder=tmp_path)
    for ask in (lambda: work.example("tube-in-roll"), lambda: work.ask("tube-in-roll/held"),
                lambda: work.ask("bar-force-in-roll")):
        with pytest.raises(Refusal, match="practice"):
            ask()


def test_an_example_is_worked_in_full_with_other_numbers(work):
    said = work.example("tube-in-roll")
    mine = work.posed("tube-in-roll")
    assert all(line not in said.plain for line in mine.worked[1:])
    assert "J = pi/32" in said.plain and mine.text not in said.plain


def test_a_step_shows_what_comes_before_it_once_that_is_right_and_no_more(work):
    whole = work.posed("tube-in-roll")
    first, second = whole.step("bore"), whole.step("held")
    assert first.worked[0] not in work.ask("tube-in-roll/held").plain
    work.answer("tube-in-roll/bore", "1 mm")
    assert first.worked[0] not in work.ask("tube-in-roll/held").plain
    work.answer("tube-in-roll/bore", right_answer(first))
    said = work.ask("tube-in-roll/held").plain
    assert first.worked[0] in said and second.text in said
    assert right_answer(second) not in said and right_answer(whole) not in said
    assert work.answer("tube-in-roll/held", right_answer(second)).verdict.right


def test_the_example_code_word_keeps_nothing(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    work = start()
    assert "Nothing is kept" in repr(work)
    assert work.answer(RATE, right_answer(work.posed(RATE))).verdict.right
    assert "How to go about it" in [work.answer(RATE, f"{n} N/mm").plain for n in (1, 2)][1]
    assert list(tmp_path.iterdir()) == []
    assert f"{AIM}: right." not in work.progress().plain and f"{AIM}: wrong." in work.progress().plain


def test_the_figures_are_those_shown(work):
    figures = work.numbers(RATE)
    assert set(figures) == {"spring_rate", "bar_rate"}
    assert all(f"{figure:g} N/mm" in work.ask(RATE).plain for figure in figures.values())


def test_us_units(tmp_path):
    work = start("blue kestrel", units="US customary", folder=tmp_path)
    assert "lbf/in" in work.ask(RATE).plain and "N/mm" not in work.ask(RATE).plain
    assert work.answer(RATE, right_answer(work.posed(RATE))).verdict.right


def test_a_full_disk_is_said_and_the_check_still_answers(work, tmp_path, monkeypatch):
    work.answer(RATE, "1 N/mm")

    def full(*arguments):
        raise OSError(errno.ENOSPC, "No space left on device")
    monkeypatch.setattr(answers.os, "fsync", full)
    said = work.answer(RATE, right_answer(work.posed(RATE))).plain
    assert said.startswith("Right: ") and "No space left" in said and "given before are safe" in said
    assert kept(tmp_path) == ["1 N/mm"]


def test_a_damaged_file_is_said_once(work, tmp_path):
    work.answer(RATE, "1 N/mm")
    (tmp_path / "answers-blue_kestrel-practice.json").write_text("damaged")
    assert "damaged-1.json" in work.answer(RATE, "2 N/mm").plain
    assert "damaged-1.json" not in work.answer(RATE, "3 N/mm").plain
    assert kept(tmp_path) == ["2 N/mm", "3 N/mm"]


@pytest.mark.parametrize("wrong, says", [
    (lambda: start("x"), "3 to 40 plain letters"),
    (lambda: start("kestrel", mode="exam"), "wanted 'practice' or 'assessment', given 'exam'"),
    (lambda: start("kestrel", units="imperial"), "wanted 'metric' or 'US customary'"),
    (lambda: start().ask("no-such"), "no question is called 'no-such'"),
    (lambda: start().ask("tube-in-roll/nothing"), "its steps: bore, held"),
    (lambda: start().ask("one-tyre/first"), "its steps: none"),
])
def test_what_cannot_be_used_is_refused_in_one_sentence(wrong, says):
    with pytest.raises(Refusal, match=says) as refused:
        wrong()
    assert refused.value._render_traceback_() == [str(refused.value)]


def test_markup_typed_by_a_learner_stays_text(work):
    said = work.answer(RATE, "<img src=x onerror=alert(1)>")
    assert "<img" not in said._repr_markdown_()


@pytest.mark.parametrize("arguments, words", [
    ({"code_word": 5}, "given 5 without quotes"),
    ({"folder": 5}, "folder: wanted the name of a folder in quotes"),
    ({"folder": None}, "given None"),
    ({"folder": "/nowhere"}, "folder: there is no folder /nowhere, and none is made at the root"),
    ({"folder": "/nowhere/at/all"}, "there is no folder /nowhere/at, so none can be made inside it"),
    ({"folder": __file__}, "wanted a folder, given a file"),
    ({"units": 5}, "units: wanted"),
    ({"mode": None}, "mode: wanted"),
])
def test_what_cannot_be_started_with_is_refused_in_one_line(arguments, words):
    with pytest.raises(Refusal) as caught:
        start(**{"code_word": "blue kestrel", **arguments})
    assert words in str(caught.value) and "\n" not in str(caught.value)
    assert caught.value._render_traceback_() == [str(caught.value)]


@pytest.mark.parametrize("typed", ["{0}/new", '"{0}/new"', "~/new"])
def test_a_new_folder_is_made_inside_one_that_is_there_with_the_first_answer(tmp_path, monkeypatch, typed):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    work = start("blue kestrel", folder=typed.format(tmp_path))
    assert list(tmp_path.iterdir()) == []
    work.answer(RATE, "1 N/mm")
    assert kept(tmp_path / "new") == ["1 N/mm"]
