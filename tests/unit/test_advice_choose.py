"""Choosing the change: every branch with a car built to hit it, judged by numbers and reason codes."""

import math
from dataclasses import replace

import pytest

from rollmodel.advice import Thresholds, choose, effect_of, trade_rule
from rollmodel.advice import case as case_module
from rollmodel.advice.rule import opposite, other_end
from rollmodel.car import GRAVITY, CarError
from rollmodel.physics.corner import settled_corner
from tests.unit.advice_asked import OPPOSITE, change, left_out, number
from tests.unit.advice_cars import (
    NM_PER_DEG,
    axle,
    bar,
    car,
    featherweight,
    gravel,
    heavy_nose,
    lifting_hatch,
    mirrored,
    nearly_over,
    single_seater,
    stiff,
    struts_and_beam,
    tail_up,
    tall,
)

DEG_PER_G = math.radians(1) / GRAVITY

# The rule in the middle of the corner


def test_understeer_on_a_car_that_can_bear_more_stiffens_the_rear_first():
    choice = choose(heavy_nose(), "understeer")
    assert choice.verdict == "change a bar"
    assert change(choice.first) == ("rear", "stiffer", 1, 4)
    assert change(choice.second) == ("front", "softer", 2, 1)
    assert {"trade-rule", "can-bear-more", "so-stiffen"} <= choice.codes
    assert number(choice, "can-bear-more", "roll") > number(choice, "can-bear-more", "stiff") == 2 * DEG_PER_G
    for move in choice.moves:  # the front up, the rear down, the gap closer to nil, less steer
        assert move.effect.limit_change("front") > 0 > move.effect.limit_change("rear")
        assert abs(move.effect.after.gap) < abs(move.effect.before.gap)
        assert move.effect.change("near_steer") < 0 and move.effect.change("limit") > 0


def test_a_stiff_car_softens_first():
    choice = choose(stiff(), "understeer")
    assert change(choice.first) == ("front", "softer", 2, 1)
    assert change(choice.second) == ("rear", "stiffer", 1, 4)
    assert number(choice, "already-stiff", "roll") < 2 * DEG_PER_G
    assert "so-soften" in choice.codes


def test_what_counts_as_stiff_may_be_changed():
    easier = Thresholds(already_stiff=1.2 * DEG_PER_G)
    assert choose(stiff(), "understeer", thresholds=easier).first.direction == "stiffer"


def test_an_inside_wheel_left_too_light_is_no_end_to_stiffen():
    fitted = heavy_nose(rear=axle(35e3, bar(20e3, 26e3, 32e3), roll_centre_height=0.12), cg_height=0.55)
    choice = choose(fitted, "understeer")
    assert choice.first.direction == "softer" and "so-soften" in choice.codes
    inside, wanted = (number(choice, "inside-wheel-too-light", name) for name in ("inside", "wanted"))
    assert inside < wanted == pytest.approx(0.1 * fitted.axle_weight("rear") / 2)
    after = choice.second.effect.after
    corner = settled_corner(fitted.with_holes(rear=after.rear_hole), after.limit)
    assert inside == pytest.approx(float(corner.rear.inside), abs=1e-3)
    assert (
        choose(fitted, "understeer", thresholds=Thresholds(inside_load_left=0.0)).first.direction == "stiffer"
    )


def test_the_softer_move_comes_first_where_stiffening_leaves_a_lower_limit():
    fitted = heavy_nose(front=axle(bar=bar(22e3, 60e3)), rear=axle(bar=bar(8e3, 12e3, hole=2)))
    choice = choose(fitted, "oversteer")  # the sheet disagrees, so one step at either end
    assert [change(move)[:2] for move in choice.moves] == [("rear", "softer"), ("front", "stiffer")]
    stiffer, softer = (number(choice, "costs-limit", name) for name in ("stiffer", "softer"))
    assert (softer, stiffer) == tuple(move.effect.after.limit for move in choice.moves)
    assert softer - stiffer >= Thresholds().limit_felt


# How many holes


def test_the_number_of_holes_brings_the_limits_closest_and_one_is_tried_first():
    fitted = heavy_nose()
    choice = choose(fitted, "understeer")
    gaps = {hole: effect_of(fitted, rear_hole=hole).after.gap for hole in (2, 3, 4)}
    assert choice.first.to_hole == min(gaps, key=lambda hole: abs(gaps[hole])) == 4
    assert choice.first.steps == 3 and "go-one-first" in {r.code for r in choice.first.reasons}
    assert choice.first.one_step.after.gap == pytest.approx(gaps[2], abs=1e-9)


def test_it_stops_before_the_hole_that_swaps_the_ends_too_far():
    """Hole 3 would bring the limits nearer together than hole 2, but by carrying the car past equal."""
    fitted = heavy_nose(front=axle(bar=bar(22e3)), rear=axle(bar=bar(8e3, 9e3, 36e3)))
    gaps = {hole: effect_of(fitted, rear_hole=hole).after.gap for hole in (2, 3)}
    assert 0 < Thresholds().swap_margin < gaps[3] < -gaps[2]
    assert choose(fitted, "understeer").first.to_hole == 2
    far = Thresholds(swap_margin=0.1 * GRAVITY)
    assert choose(fitted, "understeer", thresholds=far).first.to_hole == 3


def test_a_single_coarse_step_is_named_as_such():
    fitted = car(front=axle(bar=bar(18e3)), rear=axle(bar=bar(18e3, 60e3)), front_weight_share=0.53)
    choice = choose(fitted, "understeer")
    assert choice.first.to_hole == 2
    over = number(choice, "one-step-is-too-much", "over")
    assert over == pytest.approx(choice.first.effect.after.gap) and over > Thresholds().swap_margin
    assert {"rear-gives-up-first", "lowers-the-limit"} <= choice.codes


def test_a_coarse_step_comes_after_one_that_is_not():
    fitted = heavy_nose(
        front=axle(bar=bar(20e3, 22e3, hole=2)), rear=axle(bar=bar(18e3, 90e3)), front_weight_share=0.54
    )
    choice = choose(fitted, "understeer")
    assert [change(move)[:2] for move in choice.moves] == [("front", "softer"), ("rear", "stiffer")]
    assert "one-step-is-too-much" in {r.code for r in choice.second.reasons} and "so-soften" in choice.codes


def test_one_step_that_cannot_be_told_is_said_so():
    fitted = heavy_nose(chassis_torsion=60 * NM_PER_DEG)
    choice = choose(fitted, "understeer")
    gap, steer = (number(choice, "one-step-hard-to-feel", name) for name in ("gap", "steer"))
    assert abs(gap) < Thresholds().limit_felt and abs(steer) < Thresholds().steer_felt
    assert choice.first.to_hole == 4


# The other end, and the same end again


def test_nothing_left_at_one_end_sends_to_the_other():
    choice = choose(heavy_nose().with_holes(rear=4), "understeer")
    assert left_out(choice) == {"rear": "nothing-left"}
    assert change(choice.first) == ("front", "softer", 2, 1) and "only-this-end" in choice.codes


def test_no_bar_at_one_end_sends_to_the_other():
    choice = choose(heavy_nose(rear=axle(40e3)), "understeer")
    assert left_out(choice) == {"rear": "no-bar"} and choice.first.end == "front"


def test_with_one_end_alone_the_second_choice_is_fewer_or_more_holes_there():
    fewer = choose(heavy_nose(front=axle(bar=bar(22e3))), "understeer")
    assert (fewer.first.steps, fewer.second.steps) == (3, 1) and "first-step-alone" in fewer.codes
    four = axle(bar=bar(16e3, 22e3, 28e3, 34e3, hole=2))
    more = choose(car(front=axle(bar=bar(22e3)), rear=four), "understeer")
    assert (more.first.steps, more.second.steps) == (1, 2) and "one-step-more" in more.codes


def test_no_free_hole_anywhere_is_not_for_the_bars():
    choice = choose(heavy_nose().with_holes(front=1, rear=4), "understeer")
    assert choice.verdict == "not the bars" and choice.first is choice.second is None
    assert left_out(choice) == {"front": "nothing-left", "rear": "nothing-left"}


def test_a_car_without_bars_is_not_for_the_bars():
    assert left_out(choose(car(front=axle(), rear=axle()), "oversteer")) == {
        "front": "no-bar",
        "rear": "no-bar",
    }


# The driver and the sheet


@pytest.mark.parametrize("drive, code", [("front", "sheet-disagrees"), ("rear", "coasting-disagrees")])
def test_when_the_sheet_disagrees_the_driver_is_believed_for_one_step(drive, code):
    fitted = heavy_nose(rear=axle(bar=bar(8e3, 12e3, 16e3, 20e3, hole=4)))
    fitted = replace(fitted, drive=drive)
    choice = choose(fitted, "oversteer")
    assert number(choice, code, "front") < number(choice, code, "rear")
    assert ("drive-turns-it" in choice.codes) == (code == "coasting-disagrees")
    assert "one-step-only" in choice.codes
    assert all(move.steps == 1 for move in choice.moves)
    assert {change(move)[:2] for move in choice.moves} == {("front", "stiffer"), ("rear", "softer")}
    assert all(move.effect.change("gap") < 0 for move in choice.moves)


def test_nearly_even_ends_are_called_even_and_one_step_is_enough():
    choice = choose(car(), "understeer")
    assert abs(choice.fitted.gap) < Thresholds().nearly_even
    assert {"sheet-says-even", "one-step-only"} <= choice.codes and "sheet-disagrees" not in choice.codes
    assert all(move.steps == 1 for move in choice.moves)


# The whole, turned round


@pytest.mark.parametrize(
    "make",
    [
        car,
        heavy_nose,
        stiff,
        lifting_hatch,
        tail_up,
        gravel,
        struts_and_beam,
        featherweight,
        single_seater,
        tall,
        nearly_over,
    ],
)
@pytest.mark.parametrize("symptom", ["understeer", "oversteer"])
@pytest.mark.parametrize("phase", ["entry", "middle"])
def test_a_mirrored_car_with_the_mirrored_complaint_gets_the_mirrored_advice(make, symptom, phase):
    one, two = choose(make(), symptom, phase), choose(mirrored(make()), OPPOSITE[symptom], phase)
    assert one.verdict == two.verdict
    assert [change(move) for move in one.moves] == [(other_end(m.end), *change(m)[1:]) for m in two.moves]
    assert left_out(one) == {other_end(end): code for end, code in left_out(two).items()}
    # said of the rear only: that is the end a driver must be ready for
    tail = {"rear-gives-up-first", "tail-goes-sooner"}
    assert one.codes - tail == two.codes - tail


@pytest.mark.parametrize("make", [car, heavy_nose, stiff, single_seater])
@pytest.mark.parametrize("symptom", ["understeer", "oversteer"])
@pytest.mark.parametrize("drive", ["front", "rear", "all"])
@pytest.mark.parametrize("phase", ["middle", "exit"])
def test_the_direction_is_the_same_for_every_drive_and_the_size_is_not(make, symptom, drive, phase):
    fitted = replace(make(), drive=drive)
    choice = choose(fitted, symptom, phase)
    assert choice.moves
    for move in choice.moves:
        assert move.direction == trade_rule(symptom)[move.end]
        assert (move.effect.change("gap") > 0) == (symptom == "understeer")
    gaps = [
        effect_of(replace(make(), drive=each), front_hole=1, driven=True).change("gap")
        for each in ("front", "rear", "all")
    ]
    assert len({round(gap, 6) for gap in gaps}) == 3


def the_rule_cures(make=heavy_nose):
    """What must hold of any advice: the first choice brings the complaining end's limit up on the other's."""
    for symptom, car_ in (("understeer", make()), ("oversteer", mirrored(make()))):
        choice = choose(car_, symptom)
        assert choice.first is not None
        assert choice.first.effect.limit_change(choice.fitted.limit_end) > 0
        assert abs(choice.first.effect.after.gap) < abs(choice.first.effect.before.gap)


def test_a_rule_with_its_sign_flipped_is_caught(monkeypatch):
    the_rule_cures()
    monkeypatch.setattr(
        case_module,
        "trade_rule",
        lambda symptom: {end: opposite(direction) for end, direction in trade_rule(symptom).items()},
    )
    with pytest.raises(AssertionError):
        the_rule_cures()


def test_a_cure_with_its_sign_flipped_is_caught(monkeypatch):
    monkeypatch.setattr(case_module, "towards_cure", lambda symptom: -1 if symptom == "understeer" else 1)
    with pytest.raises(AssertionError):
        the_rule_cures()


# Input


@pytest.mark.parametrize(
    "arguments, message",
    [
        (("push",), "symptom: wanted one of understeer, oversteer, given 'push'"),
        (("understeer", "apex"), "when: wanted one of entry, middle, exit, given 'apex'"),
        (
            ("understeer", "middle", 20.0),
            r"at: wanted above 0 and below the car's limit of 1.090 g, given 2.039 g",
        ),
        (("understeer", "middle", -1.0), "at: wanted above 0"),
        (("understeer", "middle", math.nan), "at: wanted above 0"),
    ],
)
def test_bad_input_gets_one_message(arguments, message):
    with pytest.raises(ValueError, match=message):
        choose(heavy_nose(), *arguments)


def test_a_car_that_does_not_stand_up_is_refused():
    with pytest.raises(CarError, match="does not stand up"):
        choose(car(front=axle(2e3), rear=axle(2e3)), "understeer")


def test_a_working_acceleration_of_ones_own_is_used():
    choice = choose(heavy_nose(), "understeer", at=6.0)
    assert choice.fitted.near == 6.0
    assert choice.fitted.rear.inside_load == pytest.approx(
        float(settled_corner(heavy_nose(), 6.0).rear.inside)
    )
