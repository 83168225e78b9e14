"""Every reason in the catalogue: reached by a car, said with its numbers, in plain words."""

import re
from dataclasses import replace

import pytest

from rollmodel.advice import CAUTIONS, SENTENCES, SYMPTOMS, VERDICTS, WHEN_NOT, Thresholds, choose
from rollmodel.car import Damper
from rollmodel.reports.choice import shower
from rollmodel.units import KINDS
from tests.unit.advice_cars import (
    NM_PER_DEG,
    axle,
    bar,
    car,
    costly,
    featherweight,
    gravel,
    heavy_nose,
    inward,
    lifting_hatch,
    meets_it_when_softer,
    nearly_over,
    nose_up,
    on_stop,
    single_seater,
    stiff,
    struts_and_beam,
    tail_up,
    tall,
)


def cars():
    """Together they reach every branch; the tests of `choose` judge them one by one."""
    one_front = axle(bar=bar(22e3))
    yield from (
        car(),
        heavy_nose(),
        stiff(),
        lifting_hatch(),
        tail_up(),
        tail_up().with_holes(rear=1),
        gravel(),
        struts_and_beam(),
        featherweight(),
        single_seater(),
        tall(),
        nearly_over(),
        costly(),
        nose_up(),
    )
    yield heavy_nose(rear=axle(38e3, bar(500, 600, 700)))
    yield heavy_nose().with_holes(rear=4)
    yield heavy_nose(rear=axle(40e3))
    yield heavy_nose(front=one_front)
    yield car(front=one_front, rear=axle(bar=bar(16e3, 22e3, 28e3, 34e3, hole=2)))
    yield heavy_nose(front=axle(bar=bar(22e3, 60e3)), rear=axle(bar=bar(8e3, 12e3, hole=2)))
    yield heavy_nose(chassis_torsion=1000 * NM_PER_DEG)
    yield heavy_nose(chassis_torsion=60 * NM_PER_DEG)
    yield heavy_nose(front=axle(bar=bar(20e3, 22e3, 24e3, hole=2)), chassis_torsion=60 * NM_PER_DEG)
    yield car(front=axle(bar=bar(18e3)), rear=axle(bar=bar(18e3, 60e3)), front_weight_share=0.53)
    yield heavy_nose(rear=axle(35e3, bar(20e3, 26e3, 32e3), roll_centre_height=0.12), cg_height=0.55)
    yield inward()
    yield on_stop()
    yield on_stop(stop=None)
    yield on_stop(travel=meets_it_when_softer())
    yield replace(lifting_hatch(), drive="rear")
    yield replace(lifting_hatch(), drive="rear", rear=axle(90e3, bar(20e3, 40e3, 60e3, hole=2)))
    yield heavy_nose(front=axle(bar=bar(16e3, 22e3), damper=None))


@pytest.fixture(scope="module")
def choices():
    """The middle of the corner for every car; the way in and out for those that have a word to say there."""
    found = [choose(one, symptom) for one in cars() for symptom in SYMPTOMS]
    for one in [heavy_nose(), lifting_hatch(), tall(), *list(cars())[-3:]]:
        found += [choose(one, symptom, phase) for symptom in SYMPTOMS for phase in ("entry", "exit")]
    return [*found, choose(thrown_in(), "understeer", "entry", thresholds=Thresholds(build_time=0.0)),
            choose(too_quick(), "understeer", "entry")]


def too_quick():
    front = axle(bar=bar(16e3, 22e3, 28e3, hole=2), tyre_vertical_rate=230e3, damper=Damper(1e-8, 1.0))
    return car(front=front)


def thrown_in():
    return replace(
        nearly_over(),
        **{end: replace(nearly_over().axle(end), damper=Damper(30.0, 1.0)) for end in ("front", "rear")},
    )


def reasons(choice):
    return [
        *choice.reasons,
        *(left.reason for left in choice.left_out),
        *(reason for move in choice.moves for reason in move.reasons),
    ]


def test_every_code_is_reached_and_none_is_unknown(choices):
    assert sorted(set().union(*(choice.codes for choice in choices))) == sorted(SENTENCES)


@pytest.mark.parametrize("family", ["metric", "US customary"])
def test_every_sentence_takes_its_numbers_and_leaves_none_out(choices, family):
    show = shower(family)
    for choice in choices:
        for reason in reasons(choice):
            said = reason.sentence(show)
            assert "{" not in said and "None" not in said and "nan" not in said and said[-1] in ".?"
            assert said[0].isupper()
            for name, (value, kind) in reason.numbers.items():
                assert "{" + name + "}" not in SENTENCES[reason.code] or show(value, kind) in said


def test_every_number_in_a_reason_is_used_by_its_sentence(choices):
    for choice in choices:
        for reason in reasons(choice):
            assert all("{" + name + "}" in SENTENCES[reason.code] for name in reason.numbers), reason.code


def test_kinds_of_the_numbers_are_known(choices):
    kinds = {kind for choice in choices for reason in reasons(choice) for _, kind in reason.numbers.values()}
    assert {re.sub(" (change|fine|gap)$", "", kind) for kind in kinds} <= set(KINDS)


def test_each_verdict_is_met(choices):
    assert {choice.verdict for choice in choices} == set(VERDICTS)


def test_a_change_is_shown_with_its_sign_and_one_more_digit():
    show = shower("metric")
    assert show(0.0981, "lateral acceleration") == "0.010 g"
    assert show(0.0981, "lateral acceleration change") == "+0.0100 g"
    assert show(-0.0981, "lateral acceleration change") == "-0.0100 g"
    assert show(1e-9, "lateral acceleration change") == "0.0000 g"
    assert show(0.0981, "lateral acceleration fine") == "0.0100 g"
    assert show(float("nan"), "lateral acceleration change") == "none"


def test_the_cautions_that_go_with_every_advice():
    said = " ".join(CAUTIONS.values())
    for words in (
        "torque figures",
        "support the car",
        "same hole on both sides",
        "whole travel by hand",
        "touch nothing",
        "bushings at ride height",
        "One change at a time",
        "closed course",
        "qualified inspection",
        "certifies nothing",
    ):
        assert words in said
    assert all(sentence.endswith(".") for sentence in WHEN_NOT.values())
