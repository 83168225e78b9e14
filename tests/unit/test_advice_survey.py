"""Where practice and model part: the trade's rule on every hole and drive, each parting with its reason."""

from dataclasses import replace

import pytest

from rollmodel.advice import Thresholds, practice_and_model
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.sheets import training_car, training_cars
from tests.unit.advice_cars import (
    axle,
    bar,
    car,
    featherweight,
    gravel,
    heavy_nose,
    lifting_hatch,
    struts_and_beam,
    tall,
)

CODES = {"reversed", "over-soft", "inside-wheel-up", "other-inside-wheel-up", "would-roll-over",
         "chassis-swallows-it", "tyres-hardly-mind", "bar-too-weak"}


def test_every_step_is_tried_coasting_and_with_every_drive():
    survey = practice_and_model(heavy_nose())  # 3 front and 4 rear holes
    assert survey.steps == 4 * (2 * 4 + 3 * 3)
    assert survey.partings == () and survey.by_code() == {}


def test_a_car_without_bars_has_nothing_to_try():
    assert practice_and_model(car(front=axle(), rear=axle())).steps == 0
    assert practice_and_model(car(rear=axle())).steps == 4 * 2


@pytest.mark.parametrize(
    "make, code",
    [
        (gravel, "over-soft"),
        (lifting_hatch, "inside-wheel-up"),
        (lifting_hatch, "other-inside-wheel-up"),
        (struts_and_beam, "reversed"),
        (featherweight, "tyres-hardly-mind"),
        (tall, "would-roll-over"),
        (lambda: heavy_nose(rear=axle(38e3, bar(500, 600, 700))), "bar-too-weak"),
        (
            lambda: heavy_nose(front=axle(bar=bar(20e3, 22e3, 24e3)), chassis_torsion=3000.0),
            "chassis-swallows-it",
        ),
    ],
)
def test_each_reason_to_part_is_found(make, code):
    survey = practice_and_model(make())
    assert survey.by_code()[code] > 0 and set(survey.by_code()) <= CODES


def test_a_reversed_step_is_reversed_by_the_model_alone():
    fitted = struts_and_beam()
    parting = next(
        p
        for p in practice_and_model(fitted).partings
        if p.reason.code == "reversed" and p.drive == "coasting" and p.end == "front"
    )
    gaps = [
        float(limits(fitted.with_holes(hole, parting.other_hole)).gap)
        for hole in (parting.from_hole, parting.to_hole)
    ]
    assert gaps[1] > gaps[0]  # the rule: a stiffer front lowers the front limit against the rear's


def test_an_over_soft_step_lifts_its_own_limit_by_the_model_alone():
    fitted = gravel()
    for parting in practice_and_model(fitted).partings:
        if parting.reason.code == "over-soft" and parting.drive == "coasting":
            pairs = [{parting.end: hole} for hole in (parting.from_hole, parting.to_hole)]
            other = "rear" if parting.end == "front" else "front"
            own = [
                float(getattr(limits(fitted.with_holes(**pair, **{other: parting.other_hole})), parting.end))
                for pair in pairs
            ]
            assert own[1] > own[0]


def test_steps_by_drive_are_that_drives():
    drives = {parting.drive for parting in practice_and_model(gravel()).partings}
    assert drives == {"coasting", "front", "rear", "all"}


# The training cars


@pytest.fixture(scope="module")
def surveys():
    return {name: practice_and_model(training_car(name)) for name in training_cars()}


def test_most_training_cars_follow_the_rule_and_the_rest_say_why(surveys):
    """Over every hole and drive; each parting has a reason of the catalogue and numbers to show."""
    for survey in surveys.values():
        assert survey.steps >= 8
        for parting in survey.partings:
            assert parting.reason.code in CODES and parting.reason.numbers
    agree = [name for name, survey in surveys.items() if not survey.partings]
    assert len(agree) >= 2


def test_where_the_model_keeps_the_rule_the_balance_moves_as_the_trade_says(surveys):
    """Every step not listed moves the gap the rule's way, by limits worked out afresh."""
    for name, survey in surveys.items():
        fitted = survey.car
        listed = {
            (p.end, p.from_hole, p.other_hole)
            for p in survey.partings
            if p.drive == "coasting" and p.reason.code != "over-soft"
        }
        for front in range(1, fitted.front.positions + 1):
            for rear in range(1, fitted.rear.positions + 1):
                here = float(limits(fitted.with_holes(front, rear)).gap)
                if front < fitted.front.positions and ("front", front, rear) not in listed:
                    assert float(limits(fitted.with_holes(front + 1, rear)).gap) < here + 1e-9, name
                if rear < fitted.rear.positions and ("rear", rear, front) not in listed:
                    assert float(limits(fitted.with_holes(front, rear + 1)).gap) > here - 1e-9, name


def test_the_gravel_car_is_too_soft_and_the_hatch_has_a_wheel_up(surveys):
    assert surveys["gravel"].by_code().get("over-soft", 0) > 0
    hatch = surveys["hatch"]
    assert {"inside-wheel-up", "other-inside-wheel-up"} <= set(hatch.by_code())
    corner = settled_corner(hatch.car, float(limits(hatch.car).lower))
    assert bool(corner.rear.lifted) and not bool(corner.front.lifted)


def test_thresholds_may_be_changed():
    wide = replace(Thresholds(), limit_felt=1.0, steer_felt=1.0)  # nobody feels anything
    survey = practice_and_model(heavy_nose(), wide)
    assert set(survey.by_code()) == {"tyres-hardly-mind"} and len(survey.partings) == survey.steps
