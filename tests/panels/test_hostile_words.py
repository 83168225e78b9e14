"""What a sheet or a learner types is shown, never run and never turned into layout."""

from dataclasses import replace

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_05
from rollmodel.questions import start
from rollmodel.questions.feedback import literal
from rollmodel.sheets import training_car


def test_a_title_with_script_in_it_is_only_words():
    car = replace(training_car("coupe"), title="<script>alert(1)</script> *My* | `car` $x$")
    lesson = Lesson("05", car)
    assert lesson.car.title == "script alert(1) /script My car x"
    said = lesson_05.whole(lesson)
    assert "<script" not in said and "`car`" not in said


def test_a_title_of_nothing_but_marks_still_reads():
    assert Lesson("05", replace(training_car("coupe"), title="<<>>")).car.title == "car without a title"


def test_plain_titles_stay_as_they_are():
    assert Lesson("05", "coupe").car == training_car("coupe")


def test_answers_come_back_letter_for_letter(tmp_path):
    work = start("a word", folder=tmp_path)
    said = work.answer("solid-bar-held", "9**9**9 __import__('os') $x$")
    assert "**9" not in said.markdown and "__" not in said.markdown and "$" not in said.markdown
    assert "&#42;&#42;9" in said.markdown


def test_units_with_a_star_survive():
    assert literal("850 N*m") == "850 N&#42;m"
