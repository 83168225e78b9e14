"""The limit with the force that holds the speed, both wheels of a driven axle pushing alike.

Second route: the settled corner as one list of equations (derived here; friction ellipse of each tyre, common
practice). Scipy's general optimiser (SLSQP) looks for the largest lateral acceleration that meets all.
Unknown are that, the slip angle of each end, and the push of one wheel of each end:

- each end: the two tyres' side forces, each less what its push takes, are mass times lateral acceleration;
- along the car: all pushes together are both ends' side forces times the sine of their slip angles;
- no wheel pushes more than its grip.

Loads and tyres are those of `tests/validation/plain.py`, in plain sums; none of them are the package's.
"""

import math

import numpy as np
import pytest
from scipy.optimize import brentq, minimize

from rollmodel.car import Tyre
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.driven import force_beside_drive, force_beside_equal_drive, slip_beside_drive
from rollmodel.physics.stiffness import axle_stiffness, stiffness_of_every_hole
from rollmodel.physics.tyre import peak_side_force, side_force
from rollmodel.sheets import training_car, training_cars
from tests.unit.physics_extra_car import a_car
from tests.validation import plain

ENDS = ("front", "rear")
PARTS = {"front": (1.0, 0.0), "rear": (0.0, 1.0), "all": (0.54, 0.46)}  # of the push; all: as the weight lies


def state(car, unknown):
    """What is left over in each equation, and the grip to spare of each inside wheel, all over a weight."""
    a, slips, pushes = unknown[0], dict(zip(ENDS, unknown[1:3], strict=True)), unknown[3:]
    corner, mass = plain.settled(car, a), plain.masses(car)[0]
    left, spare = [], []
    for end, push in zip(ENDS, pushes, strict=True):
        lean = plain.leans(car.axle(end), corner.roll)
        side = 0.0
        for load, angle in zip((corner.outside[end], corner.inside[end]), lean, strict=True):
            top = plain.peak(car.tyre, load)
            part = math.sqrt(max(1 - (1e3 * push / top) ** 2, 0.0))
            side += plain.side_force(car.tyre, slips[end], load, angle) * part
        left.append(side - mass[end] * a)
        spare.append(plain.peak(car.tyre, corner.inside[end]) - 1e3 * push)
    drag = sum(mass[end] * a * math.sin(slips[end]) for end in ENDS)
    left += [2e3 * push - share * drag for push, share in zip(pushes, PARTS[car.drive], strict=True)]
    return np.array(left) / 1e3, np.array(spare) / 1e3


def most_by_optimiser(car):
    """The largest lateral acceleration at which every equation holds, [m/s^2]; pushes in kN."""
    tries = [
        minimize(
            lambda x: -x[0],
            [a, slip, slip, 0.4, 0.4],
            method="SLSQP",
            bounds=[(5.0, 9.5), (0.02, 0.4), (0.02, 0.4), (0, 3), (0, 3)],
            constraints=[
                {"type": "eq", "fun": lambda x: state(car, x)[0]},
                {"type": "ineq", "fun": lambda x: state(car, x)[1]},
            ],
            options={"ftol": 1e-13, "maxiter": 400},
        )
        for a, slip in ((7.0, 0.1), (8.0, 0.15), (6.5, 0.07))
    ]
    good = [one.x[0] for one in tries if np.abs(state(car, one.x)[0]).max() < 1e-6]
    assert good, [one.message for one in tries]
    return max(good)


@pytest.mark.parametrize("drive", PARTS)
def test_against_an_optimiser_over_the_whole_corner(drive):
    car = plain.invented_car(drive=drive)
    found = float(limits(car, driven=True, open_differential=True).lower)
    # All wheels: what the other end drags is worked out once, not until neither moves; that costs 1e-4.
    assert found == pytest.approx(most_by_optimiser(car), rel=2e-4 if drive == "all" else 1e-6)
    assert found < float(limits(car, driven=True).lower) * (1 - 1e-3), "or the two could not be told apart"


def test_two_wheels_that_carry_the_same_push_alike_anyway():
    """Then the two ways of sharing are one, at every slip angle."""
    slips, one = np.radians(np.linspace(0.0, 12.0, 25)), float(peak_side_force(Tyre(), 3000.0))
    loads = (3000.0, 3000.0, 0.0, 0.0)
    alike = force_beside_equal_drive(Tyre(), slips, 1.0, 5200.0, 600.0, one, one, *loads)
    assert alike == pytest.approx(force_beside_drive(Tyre(), slips, 1.0, 5200.0, 600.0, 2 * one, *loads))


def test_one_slip_angle_by_hand():
    """5000 N and 1500 N of load at 6 deg, 1200 N of push in all: two ellipses."""
    slip = np.radians(6.0)
    most = [float(peak_side_force(Tyre(), load)) for load in (5000.0, 1500.0)]
    side = [float(side_force(Tyre(), slip, load)) for load in (5000.0, 1500.0)]
    expected = sum(f * (1 - (600.0 / m) ** 2) ** 0.5 for f, m in zip(side, most, strict=True))
    other = 1200.0 - 5500.0 * np.sin(slip)
    found = force_beside_equal_drive(Tyre(), slip, 1.0, 5500.0, other, *most, 5000.0, 1500.0, 0.0, 0.0)
    assert float(found) == pytest.approx(expected, rel=1e-12)


def test_no_more_slip_than_the_inside_wheel_can_drive_against():
    most = [float(peak_side_force(Tyre(), load)) for load in (5000.0, 300.0)]
    spins = np.arcsin((2 * most[1] - 100.0) / 5500.0)  # half the push is all that the inside wheel has
    arguments = (1.0, 5500.0, 100.0, *most, 5000.0, 300.0, 0.0, 0.0)
    at, beyond = (float(force_beside_equal_drive(Tyre(), slip, *arguments)) for slip in (spins, 3 * spins))
    outside = float(side_force(Tyre(), spins, 5000.0)) * (1 - (most[1] / most[0]) ** 2) ** 0.5
    assert at == pytest.approx(outside, rel=1e-5) and beyond == at
    too_much = (1.0, 5500.0, 2 * most[1] + 1.0, *arguments[3:])
    assert float(force_beside_equal_drive(Tyre(), spins, *too_much)) == 0.0


@pytest.mark.parametrize("inside", [0.0, 900.0])
def test_an_axle_that_is_not_driven_gives_its_side_force_with_an_inside_wheel_in_the_air_too(inside):
    """It pushes nothing, so how a differential shares says nothing of it."""
    loads, need, drag = (5000.0, inside, 0.02, -0.02), 4300.0, 300.0
    alike, by_grip = (
        float(slip_beside_drive(Tyre(), 0.0, need, drag, *loads, open_differential=on))
        for on in (True, False)
    )
    pair = sum(side_force(Tyre(), alike, load, lean) for load, lean in zip(loads[:2], loads[2:], strict=True))
    assert alike == pytest.approx(by_grip, rel=1e-9) and float(pair) == pytest.approx(need, rel=1e-9)


def test_a_front_driven_car_with_its_inside_rear_wheel_up():
    """The rear's drag is what it needs at its own slip angle, found here by a plain root of its tyres."""
    car = training_car("hatch")
    at = float(limits(car, driven=True, open_differential=True).front)
    corner = settled_corner(car, at)
    assert corner.rear.lifted
    need = {end: car.axle_mass(end) * at for end in ENDS}

    def side(end, slip, push=0.0):
        axle, total = corner.axle(end), 0.0
        leans = plain.leans(car.axle(end), float(corner.roll_angle))
        for load, lean in zip((float(axle.outside), float(axle.inside)), leans, strict=True):
            part = math.sqrt(1 - (push / float(peak_side_force(car.tyre, load))) ** 2) if push else 1.0
            total += float(side_force(car.tyre, slip, load, lean)) * part
        return total

    rear = brentq(lambda slip: side("rear", slip) - need["rear"], 0.0, np.radians(10.0))
    slips, drag = np.radians(np.linspace(2.0, 20.0, 1000)), need["rear"] * math.sin(rear)
    most = max(side("front", slip, (drag + need["front"] * math.sin(slip)) / 2) for slip in slips)
    assert most == pytest.approx(need["front"], rel=2e-5)  # steps of 0.018 deg near a flat top


def test_a_driven_end_gives_up_before_its_inside_wheel_hangs():
    """A hanging wheel passes nothing, so that an open differential holds no speed with it."""
    car = a_car(rear={"spring_rate": 220e3}, cg_height=0.6, tyre=Tyre(grip_scale=1.2))
    alike, by_grip = (limits(car, driven=True, open_differential=on) for on in (True, False))
    assert settled_corner(car, by_grip.rear).rear.lifted
    assert not settled_corner(car, alike.rear).rear.lifted
    inside = peak_side_force(car.tyre, settled_corner(car, alike.rear).rear.inside)
    front_drag = car.axle_mass("front") * float(alike.rear) * np.sin(np.radians(2.0))  # at the very least
    assert 2 * float(inside) > front_drag


@pytest.mark.parametrize("name", training_cars())
def test_it_never_holds_more_than_the_best_sharing(name):
    car = training_car(name)
    setups = stiffness_of_every_hole(car)
    alike, by_grip, coasting = (
        limits(car, *setups, *how) for how in ((True, True), (True, False), (False, True))
    )
    for end in ENDS:
        held, most = getattr(alike, end), getattr(by_grip, end)
        assert np.all(held <= most * (1 + 2e-4))  # where tyres lean, equal parts are not quite the best
        if car.drive not in (end, "all"):
            assert held == pytest.approx(most)
    assert np.all(alike.lower < by_grip.lower) or car.drive == "rear"  # where the free front sets it
    assert coasting.lower == pytest.approx(limits(car, *setups).lower), "without drive it says nothing"


def test_setups_broadcast():
    car = a_car()
    together = limits(car, *stiffness_of_every_hole(car), driven=True, open_differential=True).rear
    for i, j in ((0, 1), (2, 0)):
        setup = axle_stiffness(car.front, i + 1), axle_stiffness(car.rear, j + 1)
        alone = limits(car, *setup, driven=True, open_differential=True).rear
        assert together[i, j, 0] == pytest.approx(float(alone), rel=1e-8)
