"""What the figure beside a worked solution shows: from the numbers of a question to a figure's scene."""

from __future__ import annotations

from rollmodel.car import Axle, Bar, Tyre
from rollmodel.figures import (
    axle_behind,
    axle_scene,
    bar_section,
    before_after,
    corner_in_time,
    line_fit,
    rate_chain,
    roll_balance,
    slip_sum,
    softness,
    transfer_paths,
    two_regimes,
    understeer_curve,
)
from rollmodel.physics.axle import roll_rate
from rollmodel.physics.balance import limits
from rollmodel.physics.pair import largest_axle_force
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness, axle_stiffness_for, wheel_rate
from rollmodel.questions.bank import in_time, lesson_04, lesson_07, lesson_10
from rollmodel.questions.bank.cars import car_of, stiffness_of
from rollmodel.questions.bank.test_day import READING
from rollmodel.sheets import training_car

TRACK = 1.5  # m, where the question gives none: the picture needs two wheels
ROOM = 1.3  # of the largest moment, for the words beside it
AROUND = 0.5, 4.0  # times the car's own roll stiffness: the range of a curve


def lifting_plates(n):
    """One wheel up, one down."""
    bar = Bar(outer_diameter=0.02, centre_length=1.0, link_motion_ratio=1.0, holes=(0.2,))
    axle = Axle(track=TRACK, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.05,
                spring_rate=n.spring_rate, spring_motion_ratio=1.0, bar=bar)  # fmt: skip
    stiff = axle_stiffness_for(axle, roll_rate(0.0, n.bar_rate))
    return axle_behind, axle_scene.by_travel(axle, n.travel, -n.travel, stiff, n.travel)


def tube(n):
    """The tube from above with its section."""
    bar = Bar(n.outer_diameter, n.centre_length, 1.0, holes=(n.lever,), wall=n.wall, arms="rigid",
              shear_modulus=n.shear_modulus)  # fmt: skip
    return bar_section, bar_section.of_bar(bar)


def chain(n):
    """From rates to the axle's roll stiffness, on rigid tyres."""
    springs = float(wheel_rate(n.spring_rate, n.spring_ratio))
    stiff = AxleStiffness(springs, float(wheel_rate(roll_rate(0.0, n.bar_rate), n.bar_ratio)), n.track)
    return rate_chain, rate_chain.of_axle("front", stiff, stiff)


def resting(n):
    """Where the leaning body comes to rest."""
    whole, without = lesson_04.rolls(n), lesson_04.rolls(n, gravity=0.0)
    side = without * (n.front + n.rear)
    taken = n.front + n.rear - side / whole
    return roll_balance, roll_balance.Balance(n.a, n.front + n.rear, side, taken, whole, without, ROOM * side)


def paths(n):
    """Load transfer by its three paths."""
    car = car_of(n)
    return transfer_paths, transfer_paths.in_corner(car, n.a, *stiffness_of(n, car))


def both_tyres(n):
    """Both tyres at the slip angle that is best for the two together."""
    slip = largest_axle_force(Tyre(), n.load + n.transfer, n.load - n.transfer)[1]
    return slip_sum, slip_sum.SlipSum(Tyre(), "front", n.load, n.transfer, float(slip))


def stiffer_front(n):
    """Understeer before and after a stiffer hole at the front."""
    car, (front, rear) = training_car(n.car), n.pair
    before, after = (
        (axle_stiffness(car.front, hole), axle_stiffness(car.rear, rear)) for hole in (front, front + 1)
    )
    return understeer_curve, understeer_curve.compare(car, before, after)


def in_and_out(n):
    """A corner against time."""
    return corner_in_time, corner_in_time.of_history(in_time.history(n.car, n.time))


def soft_or_stiff(n):
    """The front's grip against its own roll stiffness."""
    car = training_car(n.car).with_holes(*n.pair)
    now = float(axle_stiffness(car.front).total_roll)
    reach = tuple(times * now for times in AROUND)
    return two_regimes, softness.regimes_at_limit(car, "front", limits(car), reach)


def ends_before_and_after(n):
    """What each end holds before load transfer is moved, and after."""
    found = [_levels(n), _levels(lesson_10.moved(n))]
    held = [one.of(end) for one in found for end in ("front", "rear")]
    margin = 0.3 * (max(held) - min(held))
    return before_after, before_after.Change(*found, (min(held) - margin, max(held) + margin))


def _levels(n):
    held = {end: lesson_07.hold(n, end) for end in ("front", "rear")}
    end = min(held, key=held.__getitem__)
    return before_after.Levels(**held, lower=held[end], end=end)


def jacked(n):
    """Spring travel against wheel travel, and what lies off the line."""
    steps = ("first", "second", "third")
    wheel = [getattr(n, f"wheel_{name}") for name in steps]
    travel = [n.spring_first - getattr(n, f"spring_{name}") for name in steps]
    rows = (line_fit.series("spring", wheel, travel, READING),)
    scene = line_fit.Scene(
        "The wheel jacked in steps", ("wheel height", "length"), ("travel of the spring", "length"), rows
    )
    return line_fit, scene


SCENES = {
    "bar-force-in-roll": lifting_plates,
    "tube-in-roll": tube,
    "whole-chain": chain,
    "roll-angle": resting,
    "three-paths": paths,
    "one-slip-angle": both_tyres,
    "class-stiff-front": stiffer_front,
    "three-moments": in_and_out,
    "class-soft-front": soft_or_stiff,
    "limit-after": ends_before_and_after,
    "jacked-steps": jacked,
}
