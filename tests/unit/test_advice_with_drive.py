"""The middle of a corner with and without drive: where the verdict turns round, the advice says so."""

import pytest

from rollmodel.advice import choose
from rollmodel.advice.kept import every_reading
from rollmodel.advice.numbers import hole_pair
from rollmodel.advice.with_drive import turned_by_drive
from rollmodel.physics.balance import limits
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.reports.choice_numbers import shower
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import show

G = "lateral acceleration"


@pytest.mark.parametrize("name", training_cars())
@pytest.mark.parametrize("symptom", ("understeer", "oversteer"))
def test_said_where_the_two_verdicts_differ_and_nowhere_else(name, symptom):
    car = training_car(name)
    coasting, driven = (limits(car, driven=d) for d in (False, True))
    differ = (coasting.front <= coasting.rear) != (driven.front <= driven.rear)
    assert ("drive-turns-it" in choose(car, symptom).codes) == bool(differ)
    for when in ("entry", "exit"):
        assert "drive-turns-it" not in choose(car, symptom, when).codes


def test_both_answers_are_met_among_the_training_cars():
    """Or the test above could not fail."""
    said = {"drive-turns-it" in choose(training_car(name), "understeer").codes for name in training_cars()}
    assert said == {True, False}


@pytest.mark.parametrize("symptom, says", [("understeer", "The driver says the front."),
                                           ("oversteer", "The driver says so too.")])  # fmt: skip
def test_numbers_are_those_of_both_limits_and_the_driver_is_compared(symptom, says):
    car = training_car("coupe")
    reasons = {reason.code: reason.sentence(shower()) for reason in choose(car, symptom).reasons}
    words = reasons["drive-turns-it"]
    assert says in words
    for driven in (False, True):
        held = limits(car, driven=driven)
        front, rear = (show(float(one), G, decimals=4) for one in (held.front, held.rear))
        assert f"front {front}, rear {rear}" in words


def test_the_first_change_with_drive_is_the_model_s():
    choice = choose(training_car("coupe"), "oversteer")
    words = {reason.code: reason.sentence(shower()) for reason in choice.reasons}["drive-and-change"]
    after = choice.car.with_holes(**{choice.first.end: choice.first.to_hole})
    for car in (choice.car, after):
        held = limits(car, axle_stiffness(car.front), axle_stiffness(car.rear), driven=True)
        assert show(float(held.lower), G, decimals=4) in words


def test_a_difference_that_nobody_feels_turns_nothing():
    car = training_car("coupe")
    coasting, driven = (every_reading(car, d)[hole_pair(car)] for d in (False, True))
    assert turned_by_drive(coasting, driven) and not turned_by_drive(coasting, coasting)


@pytest.mark.parametrize("name", training_cars())
def test_the_rule_s_own_moves_stay_as_they_were(name):
    """The caveat is a reason beside the rule; it takes no change away."""
    for symptom in ("understeer", "oversteer"):
        choice = choose(training_car(name), symptom)
        for move in choice.moves:
            assert move.direction == {"front": {"understeer": "softer", "oversteer": "stiffer"},
                                      "rear": {"understeer": "stiffer", "oversteer": "softer"},
                                      }[move.end][symptom]  # fmt: skip
