"""When a bar is not the cure: every reason with a car built to hit it, judged by numbers."""

from dataclasses import replace

import pytest

from rollmodel.advice import SYMPTOMS, Thresholds, choose, class_by_roll, effect_of, practice_and_model
from rollmodel.car import GRAVITY
from rollmodel.physics.roll import roll_moment_arm
from rollmodel.physics.stiffness import axle_stiffness
from tests.unit.advice_asked import change, left_out, number
from tests.unit.advice_cars import (
    NM_PER_DEG,
    axle,
    bar,
    costly,
    featherweight,
    gravel,
    heavy_nose,
    inward,
    lifting_hatch,
    nearly_over,
    nose_up,
    struts_and_beam,
    tail_up,
    tall,
)


def test_a_bar_too_weak_beside_the_springs():
    fitted = heavy_nose(rear=axle(38e3, bar(500, 600, 700)))
    choice = choose(fitted, "understeer")
    assert left_out(choice)["rear"] == "bar-too-weak" and choice.first.end == "front"
    assert number(choice, "bar-too-weak", "bar") == pytest.approx(float(axle_stiffness(fitted.rear).bar_roll))
    assert number(choice, "bar-too-weak", "bar") < 0.02 * number(choice, "bar-too-weak", "springs")
    assert abs(number(choice, "bar-too-weak", "gap")) < number(choice, "bar-too-weak", "limit_felt")


def test_tyres_that_hardly_mind_uneven_load():
    choice = choose(featherweight(), "oversteer")
    assert choice.verdict == "not the bars"
    assert left_out(choice) == {"front": "tyres-hardly-mind", "rear": "tyres-hardly-mind"}
    moved = number(choice, "tyres-hardly-mind", "share_after") - number(
        choice, "tyres-hardly-mind", "share_before"
    )
    assert abs(moved) >= 0.01 and abs(number(choice, "tyres-hardly-mind", "gap")) < Thresholds().limit_felt


def test_a_chassis_that_swallows_the_change():
    fitted = heavy_nose(front=axle(bar=bar(20e3, 22e3, 24e3, hole=2)), chassis_torsion=60 * NM_PER_DEG)
    choice = choose(fitted, "understeer")
    assert left_out(choice) == {"front": "chassis-swallows-it"}
    rigid = effect_of(replace(fitted, chassis_torsion=None), front_hole=1)
    through = effect_of(fitted, front_hole=1)
    assert number(choice, "chassis-swallows-it", "rigid") == pytest.approx(rigid.change("gap"), abs=1e-6)
    # both shares are read at the working lateral acceleration of their own car, 0.1 % apart
    assert number(choice, "chassis-swallows-it", "part") == pytest.approx(
        through.change("front_share") / rigid.change("front_share"), rel=0.02
    )
    assert number(choice, "chassis-swallows-it", "part") < 0.2


def test_a_chassis_that_twists_lets_part_of_the_change_through():
    whole = choose(heavy_nose(), "understeer").first
    twisting = choose(heavy_nose(chassis_torsion=1000 * NM_PER_DEG), "understeer")
    part = number(twisting, "chassis-twists", "part")
    assert 0.3 < part < Thresholds().chassis_passes
    assert 0 < twisting.first.effect.change("gap") < whole.effect.change("gap")
    assert "chassis-twists" not in choose(heavy_nose(chassis_torsion=20000 * NM_PER_DEG), "understeer").codes


def test_a_wheel_that_is_up_leaves_its_bar_and_the_other_nothing_to_do():
    fitted = lifting_hatch()
    choice = choose(fitted, "understeer")
    assert choice.verdict == "not the bars"
    assert choice.fitted.rear.lifted_at_limit and choice.fitted.rear.inside_load_at_limit == 0
    assert left_out(choice) == {"rear": "inside-wheel-up", "front": "other-inside-wheel-up"}
    assert number(choice, "inside-wheel-up", "gap") == pytest.approx(0, abs=1e-8)
    assert left_out(choose(fitted, "oversteer"))["rear"] == "inside-wheel-stays-up"


def test_softening_may_bring_the_wheel_down_again():
    choice = choose(tail_up(), "oversteer")
    assert change(choice.first) == ("rear", "softer", 2, 1)
    assert (
        choice.first.effect.before.rear.lifted_at_limit and not choice.first.effect.after.rear.lifted_at_limit
    )
    assert "brings-wheel-down" in choice.codes and choice.first.effect.change("gap") < 0


def test_a_stiffer_bar_that_lifts_its_wheel_is_warned_of():
    fitted = tail_up().with_holes(rear=1)
    choice = choose(fitted, "understeer")
    assert "lifts-inside-wheel" in choice.codes
    assert effect_of(fitted, rear_hole=2).after.rear.lifted_at_limit


def test_a_car_too_soft_for_bars_wants_roll_stiffness_first():
    choice = choose(gravel(), "understeer")
    assert choice.verdict == "raise roll stiffness first" and choice.first is None
    assert left_out(choice) == {"front": "over-soft"}
    assert (
        number(choice, "over-soft", "gain") > 0
    )  # by itself stiffening the front lifts the front's own limit
    assert choice.springs.change("limit") > 0 and choice.springs.change("roll_gradient") < 0
    assert number(choice, "both-bars-stiffer", "after") > number(choice, "both-bars-stiffer", "before")
    assert choice.second.end == "rear" and "flatter-body" in choice.codes


def test_the_same_car_with_a_linkage_that_gives_the_camber_back_is_not_too_soft():
    upright = replace(
        gravel(),
        front=replace(gravel().front, camber_recovery=1.0),
        rear=replace(gravel().rear, camber_recovery=1.0),
    )
    choice = choose(upright, "understeer")
    assert choice.verdict == "change a bar" and "over-soft" not in choice.codes


def test_the_rule_turned_round_by_camber_at_one_end():
    choice = choose(struts_and_beam(), "oversteer")
    assert left_out(choice)["front"] == "reversed" and choice.verdict == "raise roll stiffness first"
    assert number(choice, "reversed", "after") > number(
        choice, "reversed", "before"
    )  # oversteer wants it lower
    left = next(left for left in choice.left_out if left.end == "front")
    assert "camber" in left.reason.words["cause"] and left.move.effect.limit_change("front") > 0


def test_a_car_that_rolls_over_before_it_slides_gets_no_advice():
    for phase in ("entry", "middle", "exit"):
        choice = choose(tall(), "understeer", phase)
        assert choice.verdict == "no advice" and choice.codes == {"rolls-over"} and not choice.moves
    # with stiff springs close under the static stability factor t / (2 h), less what the roll takes
    assert 0.9 < number(choice, "rolls-over", "rollover") / (GRAVITY * 1.3 / (2 * 0.95)) < 1


def test_a_body_that_leans_inward_gets_no_advice_and_a_bar_works_the_other_way_there():
    for symptom in SYMPTOMS:
        choice = choose(inward(), symptom)
        assert choice.verdict == "no advice" and choice.codes == {"leans-inward"} and not choice.moves
    assert number(choice, "leans-inward", "below") == pytest.approx(-roll_moment_arm(inward()))
    assert class_by_roll(number(choice, "leans-inward", "roll")) == "none, it leans inward"
    for end in ("front", "rear"):  # the sentence's claim: the stiffer end's outside wheel is relieved
        effect = effect_of(inward(), **{f"{end}_hole": 3})
        assert effect.after.end(end).outside_load < effect.before.end(end).outside_load
    (parting,) = {p.reason.words["cause"] for p in practice_and_model(inward()).partings
                  if p.reason.code == "reversed"}
    assert parting == "the body leans inward"


def test_a_change_that_would_roll_the_car_over_is_left_out():
    choice = choose(nearly_over(), "understeer")
    assert left_out(choice)["front"] == "would-roll-over"
    assert effect_of(nearly_over(), front_hole=1).after.limit_end == "rollover"
    assert number(choice, "near-rolling-over", "rollover") < 1.1 * number(
        choice, "near-rolling-over", "limit"
    )


def test_a_shift_of_balance_that_costs_both_ends_is_left_out():
    choice = choose(costly(), "understeer")
    assert choice.fitted.rear.lifted_at_limit
    assert left_out(choice)["front"] == "costs-both-ends"
    move = choice.left_out[0].move
    assert move.effect.change("gap") >= Thresholds().limit_felt
    assert move.effect.limit_change("rear") < move.effect.limit_change("front") < 0


def test_with_a_wheel_up_only_the_roll_counts():
    choice = choose(nose_up(), "understeer")
    assert change(choice.first)[:2] == ("rear", "stiffer") and choice.fitted.front.lifted_at_limit
    codes = {reason.code for reason in choice.first.reasons}
    assert "only-roll-counts" in codes and "takes-more-load-transfer" not in codes
    assert choice.first.effect.limit_change("front") > choice.first.effect.limit_change("rear") > 0


def test_where_the_limits_hardly_move_the_steer_below_them_decides():
    fitted = heavy_nose(rear=axle(35e3, bar(20e3, 26e3, 32e3), roll_centre_height=0.12), cg_height=0.55)
    choice = choose(fitted, "understeer")
    move = choice.first
    assert change(move) == ("front", "softer", 2, 1) and "model-agrees-by-steer" in {
        r.code for r in move.reasons
    }
    assert abs(move.effect.change("gap")) < Thresholds().limit_felt
    assert move.effect.change("near_steer") <= -Thresholds().steer_felt
