"""Wheel loads on uneven ground and with a bar under preload, by energy alone

No paper: a standing car with eight unknowns (heave, pitch, roll of the body at each end, height of each
wheel), springs and bars between points, tyres that only push. Its energy is written row by row in numpy and
made least; a tyre that would pull is let go. No roll stiffness, no series rule and no lever rule is used;
what the bar is worth at its links is the package's, and held against frame elements under B2.

Computed by a second route.
"""

from rollmodel.physics.preload import diagonal_per_link_difference, loads_with_preload
from rollmodel.physics.warp import warp_cost, wheel_loads_on_ground
from tests.unit.physics_extra_car import a_car
from tests.unit.physics_extra_statics import WHEELS, wheel_loads_by_energy
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "W2"
CAR = a_car()  # invented: unequal tracks, a chassis that twists, bars and tyres at both ends
DIAGONAL = (0, 3)  # front left and rear right
CASES = {
    "front left wheel on a 15 mm block": ((0.015, 0, 0, 0), (0, 0)),
    "warp of 20 mm": ((0.01, -0.01, -0.01, 0.01), (0, 0)),
    "front left link 5 mm too long": ((0, 0, 0, 0), (0.005, 0)),
    "front left link 5 mm too long, rear 3 mm too short": ((0, 0, 0, 0), (0.005, -0.003)),
    "warp of 240 mm, far more than a road has, so that a wheel hangs": ((0.12, -0.12, -0.12, 0.12), (0, 0)),
}


def ours(heights, links):
    """The package asks for the ground, or for the links."""
    found = loads_with_preload(CAR, *links) if any(links) else wheel_loads_on_ground(CAR, *heights)
    return found.by_wheel


def test_loads():
    for name, (heights, links) in CASES.items():
        theirs = wheel_loads_by_energy(CAR, heights, links)
        for wheel, load in zip(WHEELS, theirs, strict=True):
            result = f"{name}: load of the {wheel} wheel"
            check(SOURCE, result, f"{load:.3f}", ours(heights, links)[wheel], "N", SECOND_ROUTE)
    assert theirs.min() == 0  # the last case hangs a wheel


def diagonal_gain(heights=(0, 0, 0, 0), links=(0, 0)):
    loads, level = wheel_loads_by_energy(CAR, heights, links), wheel_loads_by_energy(CAR)
    return sum(loads[i] - level[i] for i in DIAGONAL)


def test_slopes():
    for end, links in (("front", (0.001, 0)), ("rear", (0, 0.001))):
        check(SOURCE, f"diagonal load per mm of link difference at the {end}",
              f"{diagonal_gain(links=links):.4f}", diagonal_per_link_difference(CAR, end) / 1000, "N/mm",
              SECOND_ROUTE)  # fmt: skip
    warp = diagonal_gain(heights=(0.0005, -0.0005, -0.0005, 0.0005))
    check(SOURCE, "diagonal load per mm of warp, bars connected", f"{warp:.4f}",
          warp_cost(CAR).diagonal / 1000, "N/mm", SECOND_ROUTE)  # fmt: skip
