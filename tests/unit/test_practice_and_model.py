"""The trade's rules on every training car, hole and drive, and the list of moves on which the model differs.

The rules (common practice), for the middle of a corner. Understeer: soften the front bar or stiffen the rear.
Oversteer, the mirror: soften the rear or stiffen the front. A step between two neighbouring holes is a rule's
move one way round and its mirror's move the other way round, so each step stands in the table once.
"""

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from rollmodel.advice import practice_and_model
from rollmodel.advice.rule import SYMPTOMS, towards_cure, trade_rule
from rollmodel.advice.thresholds import DEFAULTS
from rollmodel.car import DRIVES
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import stiffness_of_every_hole
from rollmodel.sheets import training_car, training_cars

ENDS = ("front", "rear")
CONDITIONS = ("coasting", *DRIVES)  # whose force holds the speed

STEPS = {"coupe": 12, "gravel": 7, "hatch": 7, "saloon": 7, "single-seater": 40}  # with one drive
KEEPS = {"coupe", "saloon", "single-seater"}  # not one of their steps parts

# Which hole is changed, softer to stiffer; the hole in use at the other end; and the reason, by drive.
PARTS = """
car     bar    holes  other  coasting               front                  rear                   all
gravel  front  1-2    1      over-soft              over-soft              over-soft              over-soft
gravel  front  1-2    2      over-soft              over-soft              over-soft              over-soft
gravel  front  2-3    1      over-soft              over-soft              over-soft              over-soft
gravel  front  2-3    2      over-soft              over-soft              over-soft              over-soft
gravel  rear   1-2    1      over-soft              over-soft              over-soft              over-soft
gravel  rear   1-2    2      over-soft              over-soft              over-soft              over-soft
gravel  rear   1-2    3      over-soft              over-soft              over-soft              over-soft
hatch   front  1-2    1      other-inside-wheel-up  other-inside-wheel-up  other-inside-wheel-up  other-inside-wheel-up
hatch   front  1-2    2      other-inside-wheel-up  other-inside-wheel-up  other-inside-wheel-up  other-inside-wheel-up
hatch   front  1-2    3      other-inside-wheel-up  other-inside-wheel-up  other-inside-wheel-up  other-inside-wheel-up
hatch   rear   1-2    1      inside-wheel-up        inside-wheel-up        inside-wheel-up        inside-wheel-up
hatch   rear   1-2    2      inside-wheel-up        inside-wheel-up        inside-wheel-up        inside-wheel-up
hatch   rear   2-3    1      inside-wheel-up        inside-wheel-up        inside-wheel-up        inside-wheel-up
hatch   rear   2-3    2      inside-wheel-up        inside-wheel-up        inside-wheel-up        inside-wheel-up
"""  # noqa: E501  one row, one line


def listed():
    """``(car, bar, softer hole, stiffer hole, other hole, drive)`` to reason code."""
    head, *rows = (line.split() for line in PARTS.strip().splitlines())
    return {
        (name, end, *map(int, holes.split("-")), int(other), drive): code
        for name, end, holes, other, *codes in rows
        for drive, code in zip(head[4:], codes, strict=True)
    }


@pytest.fixture(scope="module")
def surveys():
    return {name: practice_and_model(training_car(name)) for name in training_cars()}


def test_the_model_differs_on_these_moves_for_these_reasons_and_on_no_others(surveys):
    found = [
        ((name, part.end, part.from_hole, part.to_hole, part.other_hole, part.drive), part.reason.code)
        for name, survey in surveys.items()
        for part in survey.partings
    ]
    assert dict(found) == listed()
    assert len(found) == len(listed())  # one reason to a move: the table holds them all


def test_the_rest_of_the_cars_keep_the_rules_throughout(surveys):
    tried = {name: survey.steps for name, survey in surveys.items()}
    assert tried == {name: len(CONDITIONS) * steps for name, steps in STEPS.items()}
    assert {name for name, survey in surveys.items() if not survey.partings} == KEEPS
    assert {name for name, *_ in listed()} | KEEPS == set(training_cars())


def test_every_listed_reason_can_be_read_out(surveys):
    for survey in surveys.values():
        for part in survey.partings:
            said = part.reason.sentence(lambda value, kind: f"{value:.4g}")
            assert part.end in said and any(letter.isdigit() for letter in said)


# The same rules by a second road: the trade's own words, and limits of all hole pairs from the physics alone.


def in_the_trades_words(car):
    """Symptom, bar, direction, and the pair of holes before and after: every move that the rules know."""
    count = {end: car.axle(end).positions for end in ENDS}
    for symptom in SYMPTOMS:
        for end, direction in trade_rule(symptom).items():
            for front, rear in product(*(range(1, count[end] + 1) for end in ENDS)):
                before = {"front": front, "rear": rear}
                after = {**before, end: before[end] + (1 if direction == "stiffer" else -1)}
                if 1 <= after[end] <= count[end]:
                    yield symptom, end, direction, before, after


@pytest.fixture(scope="module")
def bounds():
    """Limits of every pair of holes, by car and drive."""
    found = {}
    for name, drive in product(training_cars(), CONDITIONS):
        car = training_car(name)
        driven = drive != "coasting"
        asked = replace(car, drive=drive) if driven else car
        found[name, drive] = limits(asked, *stiffness_of_every_hole(car), driven=driven)
    return found


def at(values, holes):
    """The value of a map of hole pairs at one pair."""
    return float(np.squeeze(values, axis=-1)[holes["front"] - 1, holes["rear"] - 1])


def key(name, end, before, after, drive):
    """The place of a move in the table: its step from the softer hole, whichever way it is made."""
    other = "rear" if end == "front" else "front"
    return (name, end, *sorted((before[end], after[end])), before[other], drive)


@pytest.mark.parametrize(("name", "drive"), [*product(sorted(training_cars()), CONDITIONS)])
def test_each_rule_and_its_mirror_by_the_limits_alone(name, drive, bounds):
    """A move not listed cures and costs its stiffer end grip; a listed one shows what its reason says.

    An end's own grip is read coasting: with all four wheels driven, the drag of the other end counts in it.
    """
    found, coasting, moves, table = bounds[name, drive], bounds[name, "coasting"], 0, listed()
    for symptom, end, direction, before, after in in_the_trades_words(training_car(name)):
        cure = towards_cure(symptom) * (at(found.gap, after) - at(found.gap, before))
        own = at(getattr(coasting, end), after) - at(getattr(coasting, end), before)
        gain = own if direction == "stiffer" else -own  # of that end's own limit, by the stiffer hole
        code, moves = table.get(key(name, end, before, after, drive)), moves + 1
        if code is None:
            assert cure > 0 and gain < 0
        elif code == "over-soft":
            assert gain > 0
        else:
            assert abs(cure) < DEFAULTS.limit_felt and wheel_up(name, found, before) == ["rear"]
    assert moves == 2 * STEPS[name]


def wheel_up(name, found, holes):
    """The ends whose inside wheel is off the ground at the limit."""
    car = training_car(name).with_holes(**holes)
    corner = settled_corner(car, at(found.lower, holes))
    return [end for end in ENDS if bool(corner.axle(end).lifted)]
