"""The way in and the way out: dampers first, and what an open differential makes of a bar."""

from dataclasses import replace

import numpy as np
import pytest

from rollmodel.advice import Thresholds, choose, effect_of
from rollmodel.advice.phases import damper_parts
from rollmodel.car import Damper
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.drive_limit import drive_limit, end_drive
from rollmodel.physics.stiffness import axle_stiffness, stiffness_of_every_hole
from rollmodel.physics.traction import open_differential_drive
from rollmodel.sheets import training_car
from tests.unit.advice_asked import number
from tests.unit.advice_cars import axle, bar, car, gravel, heavy_nose, lifting_hatch, nearly_over


@pytest.mark.parametrize("phase", ["entry", "exit"])
@pytest.mark.parametrize("symptom", ["understeer", "oversteer"])
def test_dampers_come_first_on_the_way_in_and_out(phase, symptom):
    choice = choose(heavy_nose(drive="front"), symptom, phase)  # a driven rear has a test of its own
    assert choice.verdict == "dampers first" and choice.first is None
    assert {"dampers-first", "damper-numbers", "same-in-the-middle"} <= choice.codes
    assert choice.second is choice.moves[0]  # the bar is what is left for later


@pytest.mark.parametrize("phase", ["entry", "exit"])
def test_the_dampers_share_is_large_while_the_roll_changes_and_nil_in_the_middle(phase):
    choice = choose(heavy_nose(), "understeer", phase)
    for end in ("front", "rear"):
        there, back, middle = (
            number(choice, "damper-numbers", f"{end}_{when}") for when in ("in", "out", "mid")
        )
        assert there > 50 > -50 > back  # N a wheel; a tenth of what a bar hole moves here, or more
        assert abs(middle) < 1e-3 * there


def test_the_dampers_share_by_hand():
    """``C phi'/t``: a slow rise leaves the roll in step, so its mean rate is the roll over the time."""
    fitted, a, time = heavy_nose(), 3.0, 4.0
    parts = damper_parts(fitted, a, time)
    roll = effect_of(fitted, near=a).before.roll_gradient * a
    for end in ("front", "rear"):
        stiff, one = axle_stiffness(fitted.axle(end)), fitted.axle(end)
        mean = one.damper.rate * one.track**2 / 2 * roll / time / one.track
        # half a cosine peaks at pi/2 of its mean; 4 s is slow beside a roll period of half a second
        assert parts[end, "in"] == pytest.approx(np.pi / 2 * mean, rel=0.02)
        assert parts[end, "out"] == pytest.approx(-np.pi / 2 * mean, rel=0.02)
        assert np.isinf(stiff.tyre_roll)  # rigid tyres here, so the damper sees all of the roll


def test_which_way_the_dampers_go_turns_round_between_the_way_in_and_out():
    said = {
        phase: next(
            r
            for r in choose(heavy_nose(), "understeer", phase).reasons
            if r.code.startswith("damper-direction")
        )
        for phase in ("entry", "exit")
    }
    assert said["entry"].end == said["exit"].end == "front"
    assert "less damping in roll at the front, or more at the rear" in said["entry"].sentence(str)
    assert "more damping in roll at the front, or less at the rear" in said["exit"].sentence(str)


@pytest.mark.parametrize("ends", [("front",), ("rear",), ("front", "rear")])
def test_a_sheet_without_dampers_gives_no_newtons(ends):
    fitted = heavy_nose()
    fitted = replace(fitted, **{end: replace(fitted.axle(end), damper=None) for end in ends})
    choice = choose(fitted, "oversteer", "entry")
    assert "no-damper-numbers" in choice.codes and "damper-numbers" not in choice.codes
    reason = next(r for r in choice.reasons if r.code == "no-damper-numbers")
    assert all(end in reason.words["ends"] for end in ends)


def test_a_car_that_rolls_over_when_thrown_in_is_named():
    loose = replace(
        nearly_over(),
        **{end: replace(nearly_over().axle(end), damper=Damper(30.0, 1.0)) for end in ("front", "rear")},
    )
    assert (
        "rolls-over-on-the-way-in"
        in choose(loose, "understeer", "entry", thresholds=Thresholds(build_time=0.0)).codes
    )
    assert "damper-numbers" in choose(loose, "understeer", "entry").codes


# The way out and the drive


@pytest.mark.parametrize("drive", ["front", "rear", "all"])
def test_the_inside_driven_wheel_limits_the_drive(drive):
    fitted = heavy_nose(drive=drive)
    choice = choose(fitted, "understeer", "exit")
    near = Thresholds().on_exit * choice.fitted.limit
    assert number(choice, "open-differential", "near") == pytest.approx(near)
    assert number(choice, "open-differential", "most") == pytest.approx(float(drive_limit(fitted, near)))
    assert number(choice, "open-differential", "begins") == pytest.approx(
        float(open_differential_drive(fitted, near))
    )
    reason = next(r for r in choice.reasons if r.code == "open-differential")
    if drive == "all":
        each = {
            end: float(end_drive(fitted, end, near).drive) / share
            for end, share in (("front", 0.56), ("rear", 0.44))
        }
        assert reason.end == min(each, key=each.get)
    else:
        assert reason.end == drive


@pytest.mark.parametrize(
    "drive, cure, code",
    [
        ("rear", "understeer", "costs-traction"),
        ("rear", "oversteer", "keeps-traction"),
        ("front", "understeer", "keeps-traction"),
        ("front", "oversteer", "costs-traction"),
    ],
)
def test_load_moved_on_to_the_driven_end_costs_traction(drive, cure, code):
    """Understeer's cure moves load transfer to the rear, oversteer's to the front."""
    fitted = heavy_nose(drive=drive, rear=axle(bar=bar(8e3, 12e3, 16e3, 20e3, hole=2)))
    choice = choose(fitted, cure, "exit")
    assert len(choice.moves) == 2
    for move in choice.moves:
        (reason,) = (r for r in move.reasons if r.code.endswith("traction"))
        assert reason.code == code
        before, after = reason.numbers["before"][0], reason.numbers["after"][0]
        assert (after < before) == (code == "costs-traction")


def test_on_the_way_out_the_move_with_more_drive_comes_first():
    for drive in ("front", "rear", "all"):
        for symptom in ("understeer", "oversteer"):
            fitted = heavy_nose(drive=drive, rear=axle(bar=bar(8e3, 12e3, 16e3, 20e3, hole=2)))
            choice = choose(fitted, symptom, "exit")
            a = Thresholds().on_exit * choice.fitted.limit
            map_ = drive_limit(fitted, a, *stiffness_of_every_hole(fitted))[..., 0]
            drives = [map_[m.effect.after.front_hole - 1, m.effect.after.rear_hole - 1] for m in choice.moves]
            assert drives == sorted(drives, reverse=True)


def test_an_inside_driven_wheel_in_the_air_passes_nothing():
    fitted = replace(lifting_hatch(), drive="rear", rear=axle(90e3, bar(20e3, 40e3, 60e3, hole=2)))
    choice = choose(fitted, "understeer", "exit")
    assert "inside-driven-wheel-up" in choice.codes
    assert float(drive_limit(fitted, number(choice, "inside-driven-wheel-up", "near"))) < 1


def test_an_inside_driven_wheel_that_has_spent_its_grip():
    fitted = replace(lifting_hatch(), drive="rear")
    choice = choose(fitted, "understeer", "exit")
    near, most = (number(choice, "inside-driven-wheel-spent", name) for name in ("near", "most"))
    assert (
        float(open_differential_drive(fitted, near))
        < 1
        < most
        == pytest.approx(float(drive_limit(fitted, near)))
    )


def test_the_force_that_holds_the_speed_is_counted_on_the_way_out_only():
    fitted = heavy_nose()
    limits = {
        phase: choose(fitted, "oversteer", phase).fitted.rear.limit for phase in ("entry", "middle", "exit")
    }
    assert limits["entry"] == limits["middle"] > limits["exit"]


def test_a_car_too_soft_still_hears_of_dampers_on_the_way_in():
    assert choose(gravel(), "understeer", "entry").verdict == "dampers first"
    assert choose(car(), "understeer", "entry").verdict == "dampers first"


# Power and the driven rear


def test_power_that_makes_the_oversteer_comes_before_the_dampers():
    fitted = heavy_nose()
    choice = choose(fitted, "oversteer", "exit")
    assert choice.verdict == "traction first" and choice.first is None
    assert choice.reasons[0].code == "power-takes-grip"
    for name, driven in (("coasting", False), ("driven", True)):
        found = number(choice, "power-takes-grip", name)
        assert found == pytest.approx(float(limits(fitted, driven=driven).rear))


def test_both_bars_stand_behind_the_throttle_with_what_they_do_to_the_drive():
    choice = choose(training_car("coupe"), "oversteer", "exit")
    assert choice.verdict == "traction first"
    moves = (choice.second, choice.third)
    assert {(move.end, move.direction) for move in moves} == {("front", "stiffer"), ("rear", "softer")}
    assert all(move.reasons[-1].code == "keeps-traction" for move in moves)


@pytest.mark.parametrize("symptom, phase, drive", [
    ("understeer", "exit", "rear"), ("oversteer", "entry", "rear"), ("oversteer", "exit", "front")])
def test_power_is_no_reason_elsewhere(symptom, phase, drive):
    choice = choose(heavy_nose(drive=drive), symptom, phase)
    assert choice.verdict == "dampers first" and "power-takes-grip" not in choice.codes


@pytest.mark.parametrize("phase, factor, when", [("entry", 0.8, "in"), ("exit", 1.2, "out")])
def test_the_size_of_a_damper_change_stands_beside_that_of_a_hole(phase, factor, when):
    fitted = heavy_nose()
    choice = choose(fitted, "understeer", phase)
    near = choice.fitted.near
    damper = replace(fitted.front.damper, rate=factor * fitted.front.damper.rate)
    other = replace(fitted, front=replace(fitted.front, damper=damper))
    change = damper_parts(other, near, 0.5)["front", when] - damper_parts(fitted, near, 0.5)["front", when]
    assert number(choice, "damper-size", "part") == pytest.approx(abs(change))
    assert 10 < abs(change) < 100  # N: a fifth of a part that is of the order of 100 N
    step = choice.moves[0].one_step
    hole = settled_corner(fitted.with_holes(step.after.front_hole, step.after.rear_hole), near).front.outside
    hole = hole - settled_corner(fitted, near).front.outside
    assert number(choice, "damper-size-hole", "hole") == pytest.approx(abs(float(hole)))


def test_fore_and_aft_load_transfer_is_said_to_be_left_out():
    assert "fore-and-aft" in choose(heavy_nose(), "understeer", "exit").codes
    assert "fore-and-aft" not in choose(heavy_nose(), "understeer", "entry").codes
