"""Bump stops in the advice: named first with their travel, and ahead of a bar where they make the gap."""

from dataclasses import replace

import pytest

from rollmodel.advice import choose
from rollmodel.car import GRAVITY
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.reports.choice import choice_text, choice_values
from rollmodel.sheets import training_car
from tests.unit.advice_asked import number
from tests.unit.advice_cars import car, meets_it_when_softer, mirrored, on_stop


def coupe_on_its_stop():
    coupe = training_car("coupe")
    return replace(coupe, front=replace(coupe.front, bump_travel=0.010, bump_stop_rate=200e3))


@pytest.mark.parametrize("make", [coupe_on_its_stop, on_stop])
@pytest.mark.parametrize("phase", ["entry", "middle", "exit"])
def test_the_stop_is_named_first_with_its_numbers(make, phase):
    choice = choose(make(), "understeer", phase)
    assert choice.reasons[0].code == "on-bump-stop" and choice.reasons[0].end == "front"
    assert number(choice, "on-bump-stop", "there") == pytest.approx(0.010)
    used, at_limit = (number(choice, "on-bump-stop", name) for name in ("used", "at_limit"))
    assert 0.010 < used < at_limit < 0.060
    assert choice.reasons[1].code == "bump-stop-gap"


def test_the_travel_by_another_road():
    """Half the track times the roll that the suspension takes, less the body's rise on the stop."""
    fitted = coupe_on_its_stop()
    choice = choose(fitted, "understeer")
    loads = settled_corner(fitted, choice.fitted.near).front
    on_tyres = loads.elastic * loads.track / axle_stiffness(fitted.front).tyre_roll
    apart = (loads.roll_angle - on_tyres) * fitted.front.track / 2
    spring, stop = axle_stiffness(fitted.front).spring_wheel_rate, fitted.front.bump_stop_rate
    # Both springs and the stop together carry no more than at rest: 2 k (u - apart) + s (u - there) = 0.
    travel = (2 * spring * apart + stop * fitted.front.bump_travel) / (2 * spring + stop)
    assert number(choice, "on-bump-stop", "used") == pytest.approx(float(travel), rel=1e-9)


def test_the_gap_without_the_stop_is_that_of_the_car_without_it():
    choice = choose(coupe_on_its_stop(), "understeer")
    assert number(choice, "bump-stop-gap", "without") == pytest.approx(
        float(limits(training_car("coupe")).gap)
    )
    assert number(choice, "bump-stop-gap", "gap") == pytest.approx(float(limits(coupe_on_its_stop()).gap))


def test_a_stop_that_makes_a_good_part_of_the_gap_comes_before_the_bar():
    choice = choose(coupe_on_its_stop(), "understeer")
    assert choice.verdict == "bump stop first" and choice.first is None and choice.second is choice.moves[0]
    part = number(choice, "stop-first", "part")
    without, gap = (number(choice, "bump-stop-gap", name) for name in ("without", "gap"))
    assert part == pytest.approx(1 - without / gap) and part > 0.2
    text = choice_text(choice)
    assert "FIRST: Look at the travel and the bump stop first" in text
    assert text.index("is on its bump stop") < text.index("The trade's rule")
    assert choice_values(choice)["reasons"][0]["code"] == "on-bump-stop"


def test_a_stop_at_the_other_end_is_named_and_the_bar_still_comes_first():
    """It loads the rear, and so lessens the understeer that the driver feels."""
    rear = replace(training_car("coupe").rear, bump_travel=0.010, bump_stop_rate=20e3)
    choice = choose(replace(training_car("coupe"), rear=rear), "understeer")
    assert choice.reasons[0].code == "on-bump-stop" and choice.reasons[0].end == "rear"
    assert "stop-first" not in choice.codes and choice.verdict == "change a bar"


def test_travel_used_up_without_a_rate_is_said_and_not_reckoned():
    choice = choose(on_stop(stop=None), "understeer")
    assert choice.reasons[0].code == "travel-used-up" and choice.verdict == "bump stop first"
    assert "bump-stop-gap" not in choice.codes
    assert choice.fitted.gap == pytest.approx(choose(car(), "understeer").fitted.gap)


def test_a_change_that_reaches_the_stop_says_so():
    choice = choose(on_stop(travel=meets_it_when_softer()), "understeer")
    assert "on-bump-stop" not in choice.codes
    softer = next(move for move in choice.moves if move.end == "front")
    assert softer.reasons[0].code == "meets-bump-stop"


def test_no_word_of_stops_that_are_not_reached():
    for name in ("coupe", "saloon", "hatch"):
        codes = choose(training_car(name), "understeer").codes
        assert not {"on-bump-stop", "travel-used-up", "meets-bump-stop", "bump-stop-gap"} & codes


def test_a_rear_that_goes_first_and_sooner_after_the_change_is_warned_of():
    tail = mirrored(on_stop(stop=None, travel=0.3))
    choice = choose(tail, "understeer")
    before, after = (number(choice, "tail-goes-sooner", name) for name in ("before", "after"))
    assert after - before >= 0.002 * GRAVITY and before > 0
