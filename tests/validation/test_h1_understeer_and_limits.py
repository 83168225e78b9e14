"""Understeer gradient and the limit of each end

J. Y. Wong, Theory of Ground Vehicles, the worked example of steady handling: a passenger car of 20.105 kN,
53.5 % of it in front; each front tyre 38.92 kN/rad, each rear tyre 38.25 kN/rad, then front tyres of 47.82
kN/rad. The example is from memory, inputs and answers; they agree with each other, and they are not the only
check here.

The rest is computed by a second route: loads, tyres, slip angles and limits of an invented car worked out
again in plain sums with scipy's root finders (`plain.py`), on the 1987 formula with camber and on falling
grip.
"""

from rollmodel.car import Axle, Car, Tyre
from rollmodel.physics.balance import limits, slip_angles, understeer_gradient
from tests.validation import plain
from tests.validation.evidence import MEMORY, SECOND_ROUTE, check

SOURCE = "H1"
TYRES = {"1987 formula": None, "falling grip": plain.falling_grip()}


def wong(stiffness):
    """The example's car on four tyres that stay on the straight part of their curve; the rest drops out."""
    end = Axle(1.5, 1e-6, 0.3, 0.0, 30e3, 1.0)
    tyre = Tyre("falling grip", 1.0, 1e4, 0.0, stiffness)
    return Car("example", "rear", 20105 / plain.G, 0.535, 2.8, 0.5, tyre, end, end)


def test_textbook_example():
    """The package puts one tyre on all corners, so each end's slip is taken from a car of its own."""
    a = 0.01 * plain.G
    rear = slip_angles(wong(38.25e3), a)[1]
    for name, stiffness, figure in (("first", 38.92e3, "0.016"), ("second", 47.82e3, "-0.010")):
        ours = (slip_angles(wong(stiffness), a)[0] - rear) / 0.01
        check(SOURCE, f"understeer coefficient, {name} set of front tyres", figure, ours, "rad", MEMORY)


def slips(car, a):
    corner, (whole, *_) = plain.settled(car, a), plain.masses(car)
    return [plain.slip_for(plain.axle_force(car, end, corner), whole[end] * a) for end in plain.ENDS]


def gradient(car, a, step=1e-3 * plain.G):
    angles = [front - rear for front, rear in (slips(car, a - step), slips(car, a + step))]
    return (angles[1] - angles[0]) / (2 * step)


def limit(car, end):
    whole, *_ = plain.masses(car)

    def spare(a):
        return plain.top_of(plain.axle_force(car, end, plain.settled(car, a)))[0] - whole[end] * a

    return plain.brentq(spare, 0.5 * plain.G, 1.4 * plain.G, xtol=1e-9)


def test_understeer_gradient():
    for name, tyre in TYRES.items():
        car = plain.invented_car(tyre)
        for g in (0.3, 0.6):
            theirs = gradient(car, g * plain.G) * plain.G / plain.DEG
            ours = understeer_gradient(car, g * plain.G) * plain.G / plain.DEG
            result = f"{name}: understeer gradient at {g} g"
            check(SOURCE, result, f"{theirs:.5f}", ours, "deg/g", SECOND_ROUTE)


def test_limit_of_each_end():
    for name, tyre in TYRES.items():
        car = plain.invented_car(tyre)
        ours = limits(car)
        for end in plain.ENDS:
            theirs = limit(car, end) / plain.G
            result = f"{name}: lateral acceleration at which the {end} has no more"
            check(SOURCE, result, f"{theirs:.6f}", getattr(ours, end) / plain.G, "g", SECOND_ROUTE)
