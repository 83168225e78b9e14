"""Drive beside side force: the friction ellipse

No paper: an invented car's loads and tyres worked out again in plain sums (`plain.py`), and each question
turned round. The package looks for the drive at which the best side force is just enough; here, at each slip
angle, the drive that leaves enough side force is found, and the largest over all slip angles taken. What any
differential could pass is found by scipy's general optimiser (SLSQP) over slip angle and both wheels' drive.

Computed by a second route. That the ellipse describes a tyre is common practice and is not checked here.
"""

import math

import numpy as np
from scipy.optimize import minimize

from rollmodel.physics.balance import limits, understeer_angle
from rollmodel.physics.drive_limit import drive_limit, end_drive
from rollmodel.physics.traction import open_differential_drive
from tests.validation import plain
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "H2"
CAR = plain.invented_car()
NOT_QUITE_EQUAL = (
    "0.02 %: where the tyres lean, equal parts are not quite the best sharing; ours takes equal parts"
)


def tyres(end, a):
    """Side force of the outside and the inside tyre against slip, and the most each can drive, [N]."""
    corner = plain.settled(CAR, a)
    loads = corner.outside[end], corner.inside[end]
    lean = plain.leans(CAR.axle(end), corner.roll)
    forces = [
        lambda slip, load=load, angle=angle: plain.side_force(CAR.tyre, slip, load, angle)
        for load, angle in zip(loads, lean, strict=True)
    ]
    return forces, [plain.peak(CAR.tyre, load) for load in loads]


def need(end, a):
    return plain.masses(CAR)[0][end] * a


def kept(drive, most):
    return math.sqrt(max(1 - (drive / most) ** 2, 0.0))


def most_by_open_differential(end, a):
    """At each slip angle the drive that still leaves the side force needed; the best of all slip angles."""
    forces, most = tyres(end, a)

    def spare(drive, slip):
        return sum(f(slip) * kept(drive / 2, m) for f, m in zip(forces, most, strict=True)) - need(end, a)

    def drive(slip):
        if spare(0.0, slip) < 0:
            return 0.0
        top = 2 * min(most)
        return top if spare(top, slip) >= 0 else plain.brentq(spare, 0.0, top, args=(slip,), xtol=1e-9)

    return plain.top_of(drive)[0]


def most_by_any_differential(end, a):
    """Over slip angle and the drive of each wheel, side force enough as a constraint."""
    forces, most = tyres(end, a)

    def left(x):
        parts = zip(forces, most, x[1:], strict=True)
        return sum(f(x[0] * 0.1) * kept(part * m, m) for f, m, part in parts) / need(end, a) - 1

    found = minimize(lambda x: -np.dot(x[1:], most) / sum(most), [0.8, 0.5, 0.5], method="SLSQP",
                     bounds=[(0.1, 3), (0, 0.999), (0, 0.999)],
                     constraints={"type": "ineq", "fun": left}, options={"ftol": 1e-13, "maxiter": 500},
                     )  # fmt: skip
    assert found.success, found.message
    return float(np.dot(found.x[1:], most))


def test_open_differential():
    for end in plain.ENDS:
        for a in (2.0, 5.0, 7.0):
            theirs, ours = most_by_open_differential(end, a), end_drive(CAR, end, a).drive
            result = f"{end} end at {a:g} m/s^2: most drive, open differential"
            check(SOURCE, result, f"{theirs:.2f}", ours, "N", SECOND_ROUTE)


def most_with_equal_parts(end, a):
    """Each wheel at the same part of what it can drive; at each slip angle the part that leaves enough."""
    forces, most = tyres(end, a)

    def drive(slip):
        side = sum(f(slip) for f in forces)
        return sum(most) * kept(need(end, a), side) if side > need(end, a) else 0.0

    return plain.top_of(drive)[0]


def test_any_differential():
    for end in plain.ENDS:
        ours, where = end_drive(CAR, end, 6.0).shared_by_grip, f"{end} end at 6 m/s^2: most drive"
        theirs = most_with_equal_parts(end, 6.0)
        check(SOURCE, f"{where}, shared as each wheel has grip", f"{theirs:.2f}", ours, "N", SECOND_ROUTE)
        theirs = most_by_any_differential(end, 6.0)
        check(SOURCE, f"{where}, shared in whatever way is best", f"{theirs:.1f}", ours, "N", SECOND_ROUTE,
              2e-4 * theirs, NOT_QUITE_EQUAL)  # fmt: skip


def test_all_wheel_drive():
    """Drive shared as the weight lies; the first end to have no more sets the whole."""
    car = plain.invented_car(drive="all")
    shares = {"front": 0.54, "rear": 0.46}
    theirs = min(most_by_open_differential(end, 6.0) / share for end, share in shares.items())
    result = "all wheels driven, 6 m/s^2: most drive of the car"
    check(SOURCE, result, f"{theirs:.2f}", drive_limit(car, 6.0), "N", SECOND_ROUTE)


def test_inside_wheel_begins_to_spin():
    for a in (3.0, 6.0):
        (_, inside), (_, most) = tyres("rear", a)
        slip = plain.slip_for(plain.axle_force(CAR, "rear", plain.settled(CAR, a)), need("rear", a))
        theirs = 2 * math.sqrt(most**2 - inside(slip) ** 2)
        result = f"rear drive at {a:g} m/s^2 at which the inside wheel begins to spin"
        check(SOURCE, result, f"{theirs:.2f}", open_differential_drive(CAR, a), "N", SECOND_ROUTE)


def rear_with_speed_held(a):
    """Rear side force as a function of slip while the rear also drives against both ends' slip drag."""
    corner = plain.settled(CAR, a)
    front = plain.slip_for(plain.axle_force(CAR, "front", corner), need("front", a))
    rear = plain.axle_force(CAR, "rear", corner)
    largest, drag = plain.top_of(rear)[0], need("front", a) * math.sin(front)
    return front, lambda slip: rear(slip) * kept(need("rear", a) * math.sin(slip) + drag, largest)


def test_speed_held_by_rear_drive():
    for a in (4.0, 7.0):
        front, force = rear_with_speed_held(a)
        theirs = (front - plain.slip_for(force, need("rear", a))) / plain.DEG
        ours = float(understeer_angle(CAR, a, driven=True)) / plain.DEG
        result = f"understeer angle at {a:g} m/s^2 while the rear wheels hold the speed"
        check(SOURCE, result, f"{theirs:.5f}", ours, "deg", SECOND_ROUTE)


def test_limit_of_a_rear_that_holds_the_speed():
    theirs = plain.brentq(lambda a: plain.top_of(rear_with_speed_held(a)[1])[0] - need("rear", a), 5.0, 8.8)
    ours = limits(CAR, driven=True).rear
    check(SOURCE, "lateral acceleration at which the driven rear has no more", f"{theirs / plain.G:.5f}",
          ours / plain.G, "g", SECOND_ROUTE)  # fmt: skip
