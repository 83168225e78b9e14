"""Where stiffening one end stops helping that end

No paper: two tyres whose grip falls in a straight line with load and that lose side force in proportion to
load and lean, set down one wheel at a time in `sympy` (tests only), the body on two roll stiffnesses. The top
of the axle's grip against its own stiffness, and the other end's stiffness at which it neither gains nor
loses, are solved there by symbols; the package's paper calculation (`hand_axle`) must give the same.

Then the whole model: the stiffness at which the grip of one end of an invented car is largest, searched by
the package, against a search by scipy's Brent method on loads and tyres worked out in plain sums
(`plain.py`).

Computed by a second route.
"""

import functools

import sympy as sp
from scipy.optimize import minimize_scalar

from rollmodel.physics.regimes import HandAxle, crossing
from tests.validation import plain
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "H3"
W, t, K_o, K, M, F_0, mu, k, c, kappa, gamma = sp.symbols(
    "W t K_o K M F_0 mu_0 k c kappa gamma", positive=True
)
HAND = HandAxle(6800.0, 1.5, 38e3, 2900.0, 520.0, 1.011, 22.1e-6, 0.848, 0.4, 0.02)
VALUES = dict(zip((W, t, K_o, M, F_0, mu, k, c, kappa, gamma), vars(HAND).values(), strict=True))


@functools.cache
def grip():
    """Side force of the outside and the inside wheel together."""
    roll = M / (K + K_o)
    gain = F_0 + K * roll / t
    sides = ((W / 2 + gain, gamma - kappa * roll), (W / 2 - gain, -gamma - kappa * roll))
    return sum(load * (mu - k * load + c * lean) for load, lean in sides)


def test_stiffness_at_the_top_of_grip():
    tops = sp.solve(sp.numer(sp.together(sp.diff(grip(), K).subs(VALUES))), K)
    (top,) = [float(one) for one in tops if one.is_real and one > 0]
    check(SOURCE, "on paper: roll stiffness at which the end's own grip is largest", f"{top:.2f}",
          HAND.stiffness_at_top, "N*m/rad", SECOND_ROUTE)  # fmt: skip


def test_other_ends_stiffness_at_which_nothing_is_gained():
    """The slope of grip against stiffness is nil; the load transfer is kept as a number of its own."""
    gain = sp.Symbol("dF", positive=True)
    slope = sp.diff(grip(), K).subs(F_0, gain - K * M / (K + K_o) / t)
    (other,) = sp.solve(sp.numer(sp.together(sp.simplify(slope))), K_o)
    for load in (1200, 1800):
        theirs = float(other.subs({gain: load, K: 30000}).subs(VALUES))
        result = f"on paper: the other end's stiffness at the crossing, load transfer {load} N"
        ours = HAND.other_stiffness_at_crossing(float(load))
        check(SOURCE, result, f"{theirs:.2f}", ours, "N*m/rad", SECOND_ROUTE)


def test_grip_itself():
    theirs = float(grip().subs({K: 30000}).subs(VALUES))
    check(SOURCE, "on paper: side force of the axle at 30 kN*m/rad", f"{theirs:.4f}", HAND.grip(30e3), "N",
          SECOND_ROUTE)  # fmt: skip


def test_whole_model():
    car = plain.invented_car()
    rear = plain.roll_stiffness(car.rear)
    for a in (7.0, 8.0):

        def lost(stiffness, a=a):
            corner = plain.settled(car, a, {"front": stiffness, "rear": rear})
            return -plain.top_of(plain.axle_force(car, "front", corner))[0]

        theirs = minimize_scalar(lost, bounds=(12e3, 99e3), method="bounded", options={"xatol": 1e-3}).x
        ours = crossing(car, "front", a, 12e3, 99e3)
        result = f"whole model at {a:g} m/s^2: front roll stiffness at which front grip is largest"
        check(SOURCE, result, f"{theirs / 1000:.2f}", ours / 1000, "kN*m/rad", SECOND_ROUTE)
