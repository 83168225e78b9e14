"""The trade's rule, free holes and the class figures: nothing of the model."""

import math

import pytest

from rollmodel.advice import CLASS_FIGURES, Thresholds, class_by_roll, free_holes, trade_rule, what_now
from rollmodel.advice.rule import opposite, other_end, towards_cure
from rollmodel.car import GRAVITY
from tests.unit.advice_cars import axle, bar, car, single_seater

DEG_PER_G = math.radians(1) / GRAVITY


def test_the_rule_as_the_trade_gives_it():
    assert trade_rule("understeer") == {"front": "softer", "rear": "stiffer"}  # common practice
    assert trade_rule("oversteer") == {"front": "stiffer", "rear": "softer"}


def test_the_rule_is_its_own_mirror():
    understeer, oversteer = trade_rule("understeer"), trade_rule("oversteer")
    assert all(understeer[end] == oversteer[other_end(end)] == opposite(oversteer[end]) for end in understeer)


def test_the_cure_lifts_the_sliding_end():
    assert (towards_cure("understeer"), towards_cure("oversteer")) == (1, -1)


@pytest.mark.parametrize("call", [lambda: trade_rule("push"), lambda: what_now(car(), "left", "softer"),
                                  lambda: what_now(car(), "front", "up")])
def test_an_unknown_word_is_refused_with_the_known_ones(call):
    with pytest.raises(ValueError, match=r"wanted one of \w+, \w+, given '\w+'"):
        call()


def test_free_holes_are_the_nearest_first():
    one = car(front=axle(bar=bar(1e3, 2e3, 3e3, 4e3, hole=3)))
    assert free_holes(one, "front", "softer") == [2, 1]
    assert free_holes(one, "front", "stiffer") == [4]
    assert free_holes(car(rear=axle()), "rear", "stiffer") == []
    assert free_holes(single_seater(), "rear", "stiffer") == [3, 4]


def test_what_now_gives_the_next_hole_of_a_direction():
    answer = what_now(car(), "front", "softer")
    assert (answer.hole, answer.other_end, answer.other_direction, answer.other_hole) == (
        1,
        "rear",
        "stiffer",
        3,
    )
    assert "number 1" in answer.message


def test_at_full_stiff_it_asks_about_the_other_end():
    answer = what_now(car().with_holes(front=3), "front", "stiffer")
    assert answer.hole is None and answer.has_bar
    assert (answer.other_end, answer.other_direction, answer.other_hole) == ("rear", "softer", 1)
    assert "Nothing left here" in answer.message and "What about the other end?" in answer.message


def test_nothing_left_at_either_end_and_no_bar_are_said_so():
    both = what_now(car().with_holes(front=3, rear=1), "front", "stiffer")
    assert both.hole is both.other_hole is None and "nothing for this balance either" in both.message
    without = what_now(car(front=axle()), "front", "stiffer")
    assert not without.has_bar and "No bar at the front" in without.message


def test_class_figures_are_the_study_notes():
    figures = {name: tuple(round(x / DEG_PER_G, 9) for x in pair) for name, pair in CLASS_FIGURES.items()}
    assert figures == {"race": (1, 2), "sports": (2.5, 4), "passenger": (4, 7)}
    assert Thresholds().already_stiff == CLASS_FIGURES["race"][1]
    assert Thresholds().too_soft == CLASS_FIGURES["passenger"][1]


@pytest.mark.parametrize(
    "deg_per_g, name",
    [
        (0.4, "stiffer than race"),
        (1.5, "race"),
        (2.2, "between race and sports"),
        (3.0, "sports"),
        (5.0, "passenger"),
        (7.4, "softer than passenger"),
    ],
)
def test_class_by_roll(deg_per_g, name):
    assert class_by_roll(deg_per_g * DEG_PER_G) == name
