"""Height of the centre of gravity by raising one end

No paper: the rigid car is turned point by point about the wheels that stay down and moments are taken about
the raised wheels' contact, with wheels of equal and of unequal radius. The height that went in must come out
of the loads by the tilt formula, which is derived in `rollmodel.testday.tilt`: put in and got back, the loads
on the way being computed by a second route.
"""

from rollmodel.testday.tilt import Raising, cg_height
from tests.unit.test_testday_measure import exact, load_when_raised
from tests.validation.evidence import ROUND_TRIP, check

SOURCE = "D2"
MASS, SHARE, BASE, LIFT = 1290.0, 0.52, 2.48, 0.4
CASES = {"equal wheels": (0.305, 0.305), "larger wheels at the rear": (0.28, 0.33)}


def test_height():
    for raised in ("front", "rear"):
        for name, radii in CASES.items():
            for figure in ("0.300", "0.470", "0.650"):
                load = load_when_raised(raised, LIFT, float(figure), SHARE, MASS, BASE, radii)
                down, up = radii[::-1] if raised == "front" else radii
                level = MASS * (SHARE if raised == "rear" else 1 - SHARE)
                found = cg_height(
                    Raising(raised, (LIFT,), (load,), BASE, (down, up), 1e-9, 1e-9), exact(MASS), exact(level)
                )
                check(
                    SOURCE,
                    f"{figure} m, {raised} raised by {LIFT} m, {name}",
                    figure,
                    found.value,
                    "m",
                    ROUND_TRIP,
                )
