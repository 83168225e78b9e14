"""Any believable car gets advice that can be printed, or a plain refusal; never a change the wrong way."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rollmodel.advice import DIRECTIONS, PHASES, SYMPTOMS, VERDICTS, Thresholds, choose, trade_rule, what_now
from rollmodel.advice.moves import balance_moves
from rollmodel.advice.rule import ENDS, towards_cure
from rollmodel.reports.choice import choice_text, choice_values
from tests.unit.random_cars import cars


@given(
    cars(), st.sampled_from(SYMPTOMS), st.sampled_from(PHASES), st.sampled_from(("metric", "US customary"))
)
@settings(max_examples=40)  # a choice costs up to half a second
def test_advice_for_any_car(car, symptom, phase, family):
    choice = choose(car, symptom, phase)
    text = choice_text(choice, family)
    json.dumps(choice_values(choice, family), allow_nan=False)
    assert max(map(len, text.splitlines())) <= 80 and "nan" not in text and "{" not in text
    assert choice.verdict in VERDICTS
    assert (choice.first is not None) == (choice.verdict == "change a bar")
    for move in choice.moves:
        assert move.direction == trade_rule(symptom)[move.end]
        assert 1 <= move.to_hole <= car.axle(move.end).positions and move.to_hole != move.from_hole
        assert move.effect.after.limit_end != "rollover"
    for move in (choice.moves if choice.verdict == "change a bar" else ())[:1]:
        assert balance_moves(move.effect, Thresholds()) == towards_cure(symptom)


@given(cars(), st.sampled_from(ENDS), st.sampled_from(DIRECTIONS))
@settings(max_examples=60)
def test_what_now_for_any_car(car, end, direction):
    answer = what_now(car, end, direction)
    axle = car.axle(end)
    if answer.hole is not None:
        assert abs(answer.hole - axle.hole) == 1 and (answer.hole > axle.hole) == (direction == "stiffer")
    else:
        assert axle.bar is None or axle.hole == (axle.positions if direction == "stiffer" else 1)
    assert answer.message.endswith(".")


@pytest.mark.parametrize("symptom", SYMPTOMS)
def test_one_end_never_stands_among_the_moves_and_the_left_out(symptom):
    from rollmodel.sheets import training_car, training_cars

    for name in training_cars():
        choice = choose(training_car(name), symptom)
        assert not {m.end for m in choice.moves} & {left.end for left in choice.left_out}
