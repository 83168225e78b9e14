"""Recall, exercise and class question as widgets: answers checked, nothing given away unasked."""

import pytest

from rollmodel.panels import ClassQuestion, Exercise, Lesson, Recall, asking
from rollmodel.panels.hands import DISCUSS, EXPLAIN, GO_ON, Hands, advice
from rollmodel.questions import questions_for, right_answer
from rollmodel.questions.records import Choice, Numeric


@pytest.fixture
def lesson(car):
    return Lesson("01", car, code_word="blue kestrel")


def numeric_question():
    return next(one for one in questions_for(1) if isinstance(one, Numeric))


def choice_question():
    return next(one for one in questions_for(1) if isinstance(one, Choice))


def test_an_untouched_exercise_says_not_answered_yet(lesson):
    assert "Not answered yet." in Exercise(lesson, numeric_question().id).ask.reply.value


def test_a_right_answer_is_taken_in_either_family(lesson):
    exercise = Exercise(lesson, numeric_question().id)
    for family in ("US customary", "metric"):
        lesson.change(family=family)
        exercise.ask.entry.value = right_answer(exercise.ask.posed)
        assert "<strong>Right" in exercise.ask.reply.value


def test_wrong_answers_say_more_each_time_but_the_same_one_does_not_count_twice(lesson):
    ask = Exercise(lesson, numeric_question().id).ask
    unit = right_answer(ask.posed).split(" ", 1)[1]
    ask.entry.value = f"123456 {unit}"
    first = ask.reply.value
    ask.check()
    ask.check()
    assert ask.reply.value == first and "Worked:" not in first
    ask.entry.value = f"123457 {unit}"
    ask.entry.value = f"123458 {unit}"
    assert "Worked:" in ask.reply.value


def test_an_answer_outlives_a_second_run_but_not_another_code_word(lesson, car):
    Exercise(lesson, numeric_question().id).ask.entry.value = "12 N"
    assert Exercise(lesson, numeric_question().id).ask.entry.value == "12 N"
    other = Lesson("01", car, code_word="red heron")
    assert Exercise(other, numeric_question().id).ask.entry.value == ""


def test_what_is_typed_is_harmless(lesson):
    ask = Exercise(lesson, numeric_question().id).ask
    ask.entry.value = "<script>alert(1)</script>"
    assert "<script" not in ask.reply.value


def test_choices_are_picked_and_checked(lesson):
    ask = Exercise(lesson, choice_question().id).ask
    assert ask.entry.value is None and "Not answered yet." in ask.reply.value
    ask.entry.value = right_answer(ask.posed)
    assert "Not answered yet." in ask.reply.value  # picking is not answering
    ask.check()
    assert "<strong>Right" in ask.reply.value


def test_a_choice_that_arrives_just_after_its_check_is_the_one_judged(lesson, monkeypatch):
    """The page holds a changed choice back while an earlier message is under way, but never a press."""
    now = [100.0]
    monkeypatch.setattr(asking.time, "monotonic", lambda: now[0])
    ask = ClassQuestion(lesson).ask
    right = right_answer(ask.posed)
    first = next(letter for letter, _ in ask.posed.options if letter != right)
    ask.entry.value = first
    ask.check()
    now[0] += 0.1
    ask.entry.value = right
    assert "<strong>Right" in ask.reply.value and ask.kept["tries"] == [right]
    now[0] += 2.0
    ask.entry.value = first
    assert "<strong>Right" in ask.reply.value and ask.kept["given"] == right  # picking is not answering


@pytest.mark.parametrize("number", ["01", "02"])
def test_recall_asks_three_with_fresh_numbers(car, number):
    recall = Recall(Lesson(number, car))
    earlier = any(ask.posed.question.lesson for ask in recall.asks)
    assert ("earlier lessons" in recall.title) == earlier == (number != "01")
    first = [ask.posed.text for ask in recall.asks]
    assert len(set(first)) == 3
    recall.again()
    assert all(new.posed.text != old for new, old in zip(recall.asks, first, strict=True) if new.posed.given)
    assert first[0] in recall.stored()["text/plain"]  # what is stored does not depend on the learner


def test_stored_questions_hold_no_answer(lesson):
    shown = Exercise(lesson, numeric_question().id)
    for text in shown.stored().values():
        assert right_answer(shown.ask.posed) not in text
    assert shown.stored() == shown.stored()


@pytest.fixture
def question(lesson):
    return ClassQuestion(lesson)


def give(count, **hands):
    for letter, number in hands.items():
        count.boxes[letter].value = str(number)


def test_hands_lead_to_advice(question):
    count, right = question.count, right_answer(question.count.posed)
    wrong = next(letter for letter in count.boxes if letter != right)
    assert "No hands counted yet." in count.says.value
    for hands, words in (((4, 16), EXPLAIN), ((10, 10), DISCUSS), ((16, 4), GO_ON)):
        give(count, **{right: hands[0], wrong: hands[1]})
        assert count.says.value == f"<strong>{words}.</strong>"


def test_the_limits_are_the_instructors(question):
    count, right = question.count, right_answer(question.count.posed)
    give(count, **{right: 10, next(letter for letter in count.boxes if letter != right): 10})
    count.limits["high"].value = "50"
    assert GO_ON in count.says.value
    count.limits["low"].value = "60"
    assert "first limit below the second" in count.message.value and count.limits["low"].value == "30"


def test_advice_gives_nothing_away_until_asked(question):
    count, right = question.count, right_answer(question.count.posed)
    wrong = next(letter for letter in count.boxes if letter != right)
    give(count, **{right: 12, wrong: 5})
    assert "12 of 17" not in count.says.value and f"Right: {right}" not in count.says.value
    count.reveal.click()
    assert "12 of 17 hands were right (71 %)." in count.says.value and f"Right: {right}." in count.says.value
    belief = next(o.belief for o in count.posed.question.options if o.name == count.posed.letters[wrong])
    assert belief.name in count.says.value


@pytest.mark.parametrize("typed", ["x", "-1", "2.5", "501", "1e2", "²"])
def test_bad_counts_go_back_with_one_message(question, typed):
    give(question.count, A=7)
    question.count.boxes["A"].value = typed
    assert question.count.boxes["A"].value == "7"
    assert question.count.message.value.count("wanted a whole number from 0 to 500") == 1


def test_twin_and_counting_show_when_wanted(question):
    asked = (question.twin.widget, question.count.widget, question.count_twin.widget)
    children = question.widget.children
    assert [one.layout.display for one in asked] == ["none"] * 3
    question.counting.value = True
    assert [one.layout.display for one in asked] == ["none", None, "none"]
    question.with_twin.value = True
    assert [one.layout.display for one in asked] == [None] * 3
    assert question.widget.children == children  # the page keeps its views, and the focus its place
    assert question.ask.posed.text != question.twin.posed.text


def test_two_equal_favourites_are_not_one():
    assert Hands({"A": 5, "B": 3, "C": 3}, "A").favourite_wrong is None
    assert Hands({"A": 5, "B": 4, "C": 3}, "A").favourite_wrong == "B"
    assert Hands({"A": 5, "B": 0}, "A").favourite_wrong is None
    assert Hands({"A": 0, "B": 0}, "A").share is None and advice(None) is None


def test_other_units_do_not_change_the_verdict_on_an_answer_given(lesson):
    """The page rounds its numbers afresh in other units; the answer was to the numbers that stood there."""
    lesson.change(family="metric")
    exercise = Exercise(lesson, numeric_question().id)
    exercise.ask.entry.value = right_answer(exercise.ask.posed)
    said = exercise.ask.reply.value
    lesson.change(family="US customary")
    assert exercise.ask.reply.value == said and "<strong>Right" in said
    assert exercise.ask.wording.value != asking.wording(exercise.ask.kept["answered"])
    exercise.ask.entry.value = right_answer(exercise.ask.posed)  # now to the new numbers
    assert "<strong>Right" in exercise.ask.reply.value != said
