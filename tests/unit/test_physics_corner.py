"""The settled corner: it balances, no load is negative, and wheels that lift hand over without a jump."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given

from rollmodel.car import GRAVITY
from rollmodel.physics.corner import (
    elastic_caps,
    lift_acceleration,
    rollover_acceleration,
    settled_corner,
)
from rollmodel.physics.roll import roll_moment_arm, roll_moments_per_acceleration
from rollmodel.physics.stiffness import axle_stiffness, axle_stiffness_for, stiffness_of_every_hole
from tests.unit.plain_car import CAR, with_ends
from tests.unit.random_cars import cars, numbers

ENDS = ("front", "rear")
NO_BAR = {"bar": None, "tyre_vertical_rate": None}
STIFF = {"spring_rate": 1e9, "spring_motion_ratio": 1.0, **NO_BAR}
LIFTS_REAR = with_ends(front={"bar": None}, rear={"spring_rate": 150e3})
LIFTS_FRONT = with_ends(front={"spring_rate": 250e3}, rear={"bar": None, "spring_rate": 80e3})


def sweep(car, top=0.9999, steps=40):
    """Lateral accelerations from nothing almost to rolling over."""
    return np.linspace(0, top, steps) * min(float(rollover_acceleration(car)), 5 * GRAVITY)


def unbalanced(car, corner):
    """What is left of the overturning moment after both axles have carried theirs, per m g h."""
    gravity = GRAVITY * sum(
        m * corner.axle(end).roll_angle
        for m, end in zip(roll_moments_per_acceleration(car), ENDS, strict=True)
    )
    applied = car.mass * corner.lateral_acceleration * car.cg_height + gravity
    carried = corner.front.roll_moment + corner.rear.roll_moment
    return (carried - applied) / (car.mass * GRAVITY * car.cg_height)


@given(cars())
def test_moments_balance(car):
    corner = settled_corner(car, sweep(car))
    assert not corner.rolls_over.any()
    assert np.abs(unbalanced(car, corner)).max() < 1e-9


@given(cars())
def test_no_load_is_ever_negative_and_each_axle_keeps_its_weight(car):
    corner = settled_corner(car, np.append(sweep(car), [50.0, 500.0]))
    for end in ENDS:
        loads = corner.axle(end)
        assert loads.inside.min() >= 0 and loads.outside.min() >= 0
        assert loads.inside + loads.outside == pytest.approx(
            np.full(loads.inside.shape, car.axle_weight(end))
        )


@given(cars())
def test_the_parts_add_up(car):
    corner = settled_corner(car, sweep(car))
    for end in ENDS:
        loads = corner.axle(end)
        assert loads.elastic + loads.geometric + loads.unsprung == pytest.approx(
            loads.load_transfer, abs=1e-6
        )


@given(cars(), numbers(0.0, 2.0))
def test_a_mirrored_corner_has_the_mirrored_answer(car, acceleration):
    """Turned the other way, while no wheel is up or on its stop: what was outside is inside."""
    car = with_ends(car, front={"bump_travel": None}, rear={"bump_travel": None})
    one, other = settled_corner(car, acceleration), settled_corner(car, -acceleration)
    if any(one.axle(end).lifted for end in ENDS):
        return
    assert other.roll_angle == pytest.approx(-one.roll_angle)
    for end in ENDS:
        assert other.axle(end).outside == pytest.approx(one.axle(end).inside)
        assert other.axle(end).inside == pytest.approx(one.axle(end).outside)


@pytest.mark.parametrize(("car", "end"), [(LIFTS_REAR, "rear"), (LIFTS_FRONT, "front")])
def test_lifting_is_continuous_and_conserves_moments(car, end):
    lifts = float(lift_acceleration(car, end))
    other = "front" if end == "rear" else "rear"
    assert lifts < float(lift_acceleration(car, other)) and lifts < float(rollover_acceleration(car))
    below, at, above = (settled_corner(car, lifts + step) for step in (-1e-6, 0.0, 1e-6))
    assert above.axle(end).lifted and not below.axle(end).lifted
    for e in ENDS:
        assert above.axle(e).load_transfer == pytest.approx(float(below.axle(e).load_transfer), abs=0.01)
    assert above.axle(end).load_transfer == car.axle_weight(end) / 2
    for corner in (below, at, above, settled_corner(car, 1.05 * lifts)):
        assert abs(unbalanced(car, corner)) < 1e-9


@pytest.mark.parametrize(("car", "end"), [(LIFTS_REAR, "rear"), (LIFTS_FRONT, "front")])
def test_past_lifting_the_other_end_takes_all_that_comes(car, end):
    lifts = float(lift_acceleration(car, end))
    one, two = settled_corner(car, 1.02 * lifts), settled_corner(car, 1.04 * lifts)
    other = "front" if end == "rear" else "rear"
    assert two.axle(end).load_transfer == one.axle(end).load_transfer
    more = two.axle(other).roll_moment - one.axle(other).roll_moment
    moments = roll_moments_per_acceleration(car)
    gravity = GRAVITY * sum(moments) * (two.roll_angle - one.roll_angle)
    assert more == pytest.approx(0.02 * lifts * car.mass * car.cg_height + gravity)


@pytest.mark.parametrize(("car", "end"), [(LIFTS_REAR, "rear"), (LIFTS_FRONT, "front")])
def test_a_bar_at_a_lifted_end_does_nothing_more(car, end):
    above = 1.05 * float(lift_acceleration(car, end))
    stiff = {e: axle_stiffness(car.axle(e)) for e in ENDS}
    stiffer = {
        **stiff,
        end: replace(stiff[end], bar_wheel_rate_in_roll=stiff[end].bar_wheel_rate_in_roll + 2e4),
    }
    one, two = settled_corner(car, above, **stiff), settled_corner(car, above, **stiffer)
    assert two.roll_angle == pytest.approx(float(one.roll_angle), rel=1e-12)
    for e in ENDS:
        assert two.axle(e).outside == pytest.approx(float(one.axle(e).outside), rel=1e-12)


def test_lift_acceleration_by_hand():
    """On the straight line before it, the load transfer reaches half the axle's weight there."""
    at_one = settled_corner(LIFTS_REAR, 1.0).rear.load_transfer
    assert lift_acceleration(LIFTS_REAR, "rear") == pytest.approx(LIFTS_REAR.axle_weight("rear") / 2 / at_one)


@given(cars(chassis=numbers(1e10, 1e11)))
def test_very_stiff_springs_roll_over_at_the_stability_factor(car):
    """Equal tracks; whatever the split of stiffness, the roll centres and the order of lifting."""
    track = car.front.track
    stiff = with_ends(car, front=STIFF, rear={**STIFF, "track": track})
    assert rollover_acceleration(stiff) == pytest.approx(GRAVITY * track / (2 * car.cg_height), rel=1e-4)


@given(cars(chassis=numbers(1e10, 1e11)))
def test_unequal_tracks_roll_over_at_the_weighted_stability_factor(car):
    """``sum(W_i t_i) / (2 m h)``: each axle's cap counts with its own track."""
    stiff = with_ends(car, front=STIFF, rear=STIFF)
    caps = sum(car.axle_weight(end) * car.axle(end).track for end in ENDS)
    assert rollover_acceleration(stiff) == pytest.approx(caps / (2 * car.mass * car.cg_height), rel=1e-4)


def test_unequal_tracks_share_the_moment_not_the_load():
    """With roll stiffness alone in play the wider axle moves less load for the same moment."""
    end = {"roll_centre_height": 0.0, "unsprung_mass": 1e-6, **NO_BAR}
    narrow = with_ends(front={**end, "track": 1.6}, rear={**end, "track": 1.3})
    corner = settled_corner(narrow, 3.0)
    per_moment = [axle_stiffness(narrow.axle(e)).total_roll for e in ENDS]
    assert corner.front.roll_moment / corner.rear.roll_moment == pytest.approx(per_moment[0] / per_moment[1])
    share = per_moment[0] / sum(per_moment)
    assert corner.front_share == pytest.approx(share)


def test_rolls_over_when_the_other_axle_cannot_hold_gravity():
    """The rear alone is weaker than gravity's share: the car goes as soon as the front wheel lifts."""
    car = with_ends(front={"spring_rate": 300e3}, rear={"spring_rate": 6e3, "bar": None})
    moment = GRAVITY * car.sprung_mass * roll_moment_arm(car)
    assert axle_stiffness(car.rear).total_roll < moment < axle_stiffness(car.front).total_roll
    lifts, over = float(lift_acceleration(car, "front")), float(rollover_acceleration(car))
    assert over == pytest.approx(lifts, rel=1e-9)
    corner = settled_corner(car, 1.001 * over)
    assert corner.rolls_over and np.isnan(corner.roll_angle)
    assert corner.front.inside == corner.rear.inside == 0


@given(cars())
def test_below_rolling_over_it_stands_and_above_it_does_not(car):
    over = float(rollover_acceleration(car))
    if over < 15 * GRAVITY:
        below, above = settled_corner(car, over * (1 - 1e-6)), settled_corner(car, over * (1 + 1e-6))
        assert not below.rolls_over and above.rolls_over


@given(cars())
def test_load_transfer_grows_with_lateral_acceleration(car):
    corner = settled_corner(car, sweep(car))
    if min(car.front.roll_centre_height, car.rear.roll_centre_height) >= 0 and roll_moment_arm(car) > 0:
        for end in ENDS:
            assert np.all(np.diff(corner.axle(end).load_transfer) > -1e-6)


def test_bump_stop_is_met_without_a_jump_and_stiffens():
    stop = {"bump_travel": 0.015, "bump_stop_rate": 3e5}
    car = with_ends(front=stop, rear={"bump_travel": None})
    angle = float(axle_stiffness(car.front).stop_angle)
    a = np.linspace(0.0, 0.98 * float(lift_acceleration(car, "front")), 2001)
    corner = settled_corner(car, a)
    first = np.argmax(corner.front.on_stop)
    assert 0 < first < a.size and corner.front.roll_angle[first] == pytest.approx(angle, rel=0.01)
    slopes = np.diff(corner.front.elastic) / np.diff(corner.front.roll_angle)
    stiff = axle_stiffness(car.front)
    assert slopes[0] * car.front.track == pytest.approx(stiff.total_roll)
    assert slopes[-1] * car.front.track == pytest.approx(stiff.total_roll_on_stop)
    assert np.diff(corner.front.load_transfer).max() < 3 * np.median(np.diff(corner.front.load_transfer))
    assert np.abs(unbalanced(car, corner)).max() < 1e-9


def test_a_stop_never_met_changes_nothing():
    with_stop = with_ends(front={"bump_travel": 0.5, "bump_stop_rate": 3e5})
    for a in (1.0, 8.0):
        assert settled_corner(with_stop, a).front.outside == settled_corner(CAR, a).front.outside


def test_bump_travel_without_a_stop_rate_is_left_out():
    assert (
        settled_corner(with_ends(front={"bump_travel": 0.01}), 8.0).roll_angle
        == settled_corner(CAR, 8.0).roll_angle
    )


def test_a_soft_chassis_lets_each_end_carry_its_own_moment():
    car = with_ends(chassis_torsion=1.0)
    corner = settled_corner(car, 3.0)
    for moment, end in zip(roll_moments_per_acceleration(car), ENDS, strict=True):
        loads = corner.axle(end)
        own = moment * (3.0 + GRAVITY * loads.roll_angle)
        assert loads.elastic * loads.track == pytest.approx(float(own), rel=1e-3)


def test_cap_is_what_is_left_for_springs_and_bar():
    corner = settled_corner(LIFTS_REAR, 1.05 * float(lift_acceleration(LIFTS_REAR, "rear")))
    cap = elastic_caps(LIFTS_REAR, "rear", corner.lateral_acceleration)[1]
    assert corner.rear.elastic * corner.rear.track == pytest.approx(float(cap))


def test_a_whole_map_equals_point_by_point():
    a = np.linspace(0.0, 11.0, 23)
    front, rear = stiffness_of_every_hole(LIFTS_REAR)
    together = settled_corner(LIFTS_REAR, a, front, rear)
    assert together.roll_angle.shape == (1, 3, 23)
    for j in range(3):
        for k in (0, 7, 22):
            alone = settled_corner(LIFTS_REAR.with_holes(rear=j + 1), a[k])
            for end in ENDS:
                assert together.axle(end).outside[0, j, k] == pytest.approx(
                    float(alone.axle(end).outside), rel=1e-13
                )


def test_no_lateral_acceleration_no_transfer():
    corner = settled_corner(CAR, 0.0)
    assert corner.roll_angle == 0 and corner.front.load_transfer == corner.rear.load_transfer == 0


def test_bars_share_out_the_transfer_and_hardly_change_the_whole():
    """A stiffer front bar: more at the front, less at the rear, in all a little less by gravity's share."""
    stiff = [axle_stiffness(CAR.front), axle_stiffness(CAR.rear)]
    stiffer = axle_stiffness_for(CAR.front, stiff[0].bar_wheel_rate_in_roll + 2e4)
    one, two = settled_corner(CAR, 6.0, *stiff), settled_corner(CAR, 6.0, stiffer, stiff[1])
    assert two.front.load_transfer > one.front.load_transfer
    assert two.rear.load_transfer < one.rear.load_transfer
    whole = [c.front.roll_moment + c.rear.roll_moment for c in (one, two)]
    assert 0 < 1 - whole[1] / whole[0] < 0.02
