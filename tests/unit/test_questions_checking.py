"""What is said to an answer: each fault its own message, feedback in stages, nothing in an assessment."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rollmodel import units
from rollmodel.questions import bank, check, feedback, pose
from rollmodel.questions.checking import LONGEST, judge, right_answer
from rollmodel.questions.misconceptions import misconception

RATE = pose(bank.question("tube-in-roll"), "blue kestrel")
LOAD = pose(bank.question("inside-wheel"), "blue kestrel")
SIGNED = pose(bank.question("other-wheel"), "blue kestrel")
RIDGE = pose(bank.question("class-ridge"), "blue kestrel")
WAYS = pose(bank.question("four-ways"), "blue kestrel")
OPEN = pose(bank.question("ruts"), "blue kestrel")


def typed(posed, value, figures=4, family="metric"):
    kind = posed.question.kind
    return f"{units.to_display(value, kind, family):.{figures}g} {units.label(kind, family)}"


def test_right_in_any_unit_of_force_per_length():
    for text in (typed(RATE, RATE.key), typed(RATE, RATE.key, 3, "US customary"), f"{RATE.key:.1f} N/m",
                 f"{RATE.key / 1000:.2f} kN/m"):
        assert check(RATE, text).status == "right", text


@pytest.mark.parametrize("text, status, says", [
    ("", "not answered", "Not answered yet"),
    ("   ", "not answered", "Not answered yet"),
    (None, "not answered", "Not answered yet"),
    ("90.9", "no unit", "The unit is missing"),
    ("90.9 mm", "wrong unit", "a length"),
    ("90.9 lb/in", "wrong unit", "lbf/in was meant"),
    ("90,9 N/mm", "unreadable", "comma"),
    ("stiff", "not a number", "does not start with a number"),
    ("nan N/mm", "not a number", "not finite"),
    ("90.9 flurbs", "unreadable", "no unit is known by the name"),
    ("__import__('os')", "not a number", "does not start with a number"),
    ("9" * (LONGEST + 1), "too long", "at most"),
])
def test_each_fault_has_its_own_message(text, status, says):
    verdict = check(RATE, text)
    assert (verdict.status, verdict.right, verdict.read) == (status, False, False)
    assert says in verdict.message
    assert "\n" not in verdict.message and "Traceback" not in verdict.message


@pytest.mark.parametrize("family", units.FAMILIES)
def test_a_missing_unit_is_shown_by_an_example_in_the_unit_of_the_page(family):
    """Angles are in degrees in both families: nobody is sent to radians."""
    asked = [one for one in bank.all_questions() if getattr(one, "kind", "ratio") != "ratio"]
    assert {"angle", "rate", "lateral acceleration"} <= {one.kind for one in asked}
    for question in asked:
        posed = pose(question, "blue kestrel", family)
        shown = f"{units.example(question.kind, family)}".split()[-1].replace("*", "·")
        assert shown == units.label(question.kind, family) or question.kind == "damper rate", question.id
        assert f'like "{units.example(question.kind, family)}"' in check(posed, "90.9").message
        assert f'like "{units.example(question.kind, family)}"' in posed.wanted


def test_rounded_too_early_is_near_and_said():
    verdict = judge(RATE, RATE.key * 1.02)
    assert verdict.status == "near" and verdict.right and "rounded" in verdict.message


def test_a_load_in_kg_or_lb():
    right = check(LOAD, f"{LOAD.key / 9.80665:.2f} kg")
    assert right.belief.id == "mass for weight" and "figure is right" in right.message
    assert check(LOAD, f"{LOAD.key / 9.80665 / 0.45359237:.1f} lb").belief.id == "lb for lbf"
    assert check(LOAD, "17 kg").status == "wrong unit"


@pytest.mark.parametrize("factor, id", [
    (0.5, "held used in roll"), (2.0, "factor 2 taken twice"), (1 / 16, "radius for diameter"),
    (16.0, "diameter for radius"), (1000.0, "N/m for N/mm"), (0.001, "N/m for N/mm"), (-1.0, "sign"),
    (0.175127, "other family's unit"), (5.71015, "other family's unit"),
])
def test_roads_by_plain_factors(factor, id):
    """Held against the factors that the roads come to on paper, not against the roads themselves."""
    verdict = check(RATE, typed(RATE, RATE.key * factor))
    assert (verdict.status, verdict.belief.id) == ("road", id)
    assert misconception(id).name in verdict.message


def test_the_sign_is_part_of_a_signed_answer():
    assert SIGNED.key < 0
    assert check(SIGNED, typed(SIGNED, SIGNED.key)).right
    assert check(SIGNED, typed(SIGNED, -SIGNED.key)).belief.id == "sign"
    assert check(SIGNED, "0 N").belief.id == "bar reaches one wheel"


def test_wrong_alone_is_never_the_feedback():
    verdict = judge(RATE, RATE.key * 3.3)
    assert verdict.status == "wrong" and verdict.belief is None
    assert "too large" in verdict.message
    said = feedback(RATE, verdict)
    assert said.lines and RATE.question.hint in said.lines[0]


def test_feedback_comes_in_stages():
    verdict = judge(RATE, RATE.key / 2)
    first, second, third = (feedback(RATE, verdict, attempt) for attempt in (1, 2, 3))
    assert [one.stage for one in (first, second, third)] == ["hint", "process", "worked"]
    belief, answer = verdict.belief, right_answer(RATE)
    assert belief.hint in str(first) and belief.why not in str(first)
    assert belief.why in str(second) and RATE.question.process in str(second)
    assert answer not in str(first) and answer not in str(second)
    assert answer in str(third) and all(line in str(third) for line in RATE.worked)
    assert feedback(RATE, verdict, 7) == third


def test_an_answer_that_cannot_be_read_gives_nothing_away_however_often():
    for attempt in (1, 5):
        said = feedback(RATE, check(RATE, "90.9"), attempt)
        assert said.stage == "" and RATE.wanted in said.lines


@pytest.mark.parametrize("posed, texts", [
    (RATE, (typed(RATE, RATE.key), typed(RATE, RATE.key / 2), "1 N/mm", "5 mm")),
    (RIDGE, tuple(RIDGE.letters)),
    (WAYS, ("A B C D", "D C B A", right_answer(WAYS))),
    (OPEN, ("One link off, because it twists in the ruts.",)),
], ids=lambda value: getattr(value, "id", ""))
def test_in_assessment_right_and_wrong_look_alike(posed, texts):
    said = [feedback(posed, check(posed, text), attempt, "assessment") for text in texts for attempt in (1,
                                                                                                         3)]
    assert all(one.lines == () and one.stage == "" for one in said)
    assert [one.headline for one in said] == [f"Noted: {text}" for text in texts for _ in (1, 3)]


def test_in_assessment_the_form_is_still_spoken_of():
    assert "unit is missing" in feedback(RATE, check(RATE, "90.9"), 1, "assessment").headline
    assert "Not answered yet" in feedback(RATE, check(RATE, ""), 1, "assessment").headline


def test_a_mode_that_does_not_exist():
    with pytest.raises(ValueError, match="practice, assessment"):
        feedback(RATE, check(RATE, "1 N/mm"), 1, "exam")


@pytest.mark.parametrize("text", ["b", " B ", "B.", "(b)"])
def test_a_choice_takes_the_letter_as_people_write_it(text):
    assert check(RIDGE, text).value == RIDGE.letters["B"]


@pytest.mark.parametrize("text", ["E", "AB", "1", "nothing"])
def test_a_choice_refuses_the_rest(text):
    verdict = check(RIDGE, text)
    assert verdict.status == "not an option" and "A, B, C, D" in verdict.message


def test_a_wrong_option_names_its_belief_and_the_right_one_its_reason():
    for letter, name in RIDGE.letters.items():
        verdict = check(RIDGE, letter)
        if verdict.right:
            assert feedback(RIDGE, verdict).lines == tuple(RIDGE.worked)
        else:
            belief = next(option.belief for option in RIDGE.question.options if option.name == name)
            assert belief.name in verdict.message and belief.hint in feedback(RIDGE, verdict).lines[0]


@pytest.mark.parametrize("write",
                         [" ".join, ", ".join, "".join, " > ".join, lambda order: " ".join(order).lower()])
def test_an_order_as_people_write_it(write):
    assert check(WAYS, write(right_answer(WAYS).split())).right


@pytest.mark.parametrize("text", ["A B C", "A A B C", "A B C D E", "1 2 3 4", "together, free"])
def test_an_order_that_is_none(text):
    assert check(WAYS, text).status == "not an order"


def test_orders_half_right_and_back_to_front():
    order = right_answer(WAYS).split()
    assert "back to front" in check(WAYS, " ".join(order[::-1])).message
    others = {name: list(order) for name in ("first", "last")}
    others["first"][:2] = order[1::-1]
    swapped = check(WAYS, " ".join(others["first"]))
    assert swapped.status == "partly" and "2 of 4" in swapped.message


def test_an_open_answer_is_noted_and_held_against_the_list():
    verdict = check(OPEN, "Take one link off, because the bar twists in the ruts.")
    assert verdict.status == "noted" and not verdict.right
    said = str(feedback(OPEN, verdict))
    assert all(OPEN.filled(criterion.text) in said for criterion in OPEN.question.rubric)
    assert "very short" in check(OPEN, "Link off.").message


def test_what_a_learner_typed_cannot_become_markup():
    text = "<script>alert(1)</script> mm"
    said = feedback(RATE, check(RATE, text))
    assert "<script>" not in said.as_markdown() and "&lt;script&gt;" in said.as_markdown()


@settings(max_examples=300)
@given(text=st.text(max_size=80)
       | st.from_regex(r"[-+]?[0-9.,eE]{1,12} ?[a-zA-Z/*^()·²]{0,12}", fullmatch=True))
@pytest.mark.parametrize("posed", [RATE, LOAD, SIGNED, RIDGE, WAYS, OPEN], ids=lambda posed: posed.id)
def test_nothing_that_can_be_typed_breaks_the_check(posed, text):
    """One plain sentence for whatever was typed, in both modes, and never a right answer by luck of form."""
    verdict = check(posed, text)
    assert verdict.message and "\n" not in verdict.message
    for mode in ("practice", "assessment"):
        assert feedback(posed, verdict, 3, mode).headline
