"""Load transfer of a grand-touring car at 1.5 g, part by part

Study notes on vehicle dynamics (author and title not recorded). Sprung weight 6900 N, 450 N unsprung at each
end; sprung centre of gravity 0.315 m, unsprung 0.32 m; roll centres 0.040/0.070 m; track 1.58 m; wheelbase
2.70 m; 45 % in front; 44 and 38 kN*m/rad; 1.5 g; gravity's share of the roll moment left out.

Second-hand, author not recorded: nobody can look the figures up from this page. Their sum over both ends
meets statics exactly.
"""

from rollmodel.car import GRAVITY
from rollmodel.physics.corner import settled_corner
from tests.validation.build import axle, car, stiffness
from tests.validation.evidence import NO_AUTHOR, check

SOURCE = "L3"
UNSPRUNG = 450 / GRAVITY
CAR = car(
    axle(1.58, 0.040, UNSPRUNG, 0.32), axle(1.58, 0.070, UNSPRUNG, 0.32), 6900 / GRAVITY, 0.45, 0.315, 2.70
)
STIFFER = 1e6  # without gravity's share only the ratio of the stiffnesses counts: at no roll it has no arm
CORNER = settled_corner(
    CAR, 1.5 * GRAVITY, stiffness(CAR.front, STIFFER * 44e3), stiffness(CAR.rear, STIFFER * 38e3)
)
COARSE_STIFFNESS = (
    "0.1 N: the notes' stiffnesses, 44 and 38, have two digits, and 0.1 N is 0.01 % of their ratio; "
    "statics gives the same sum for theirs and ours"
)
FIGURES = {"front": ("117.9", "908.7", "136.7", "1163.3"), "rear": ("252.2", "784.7", "136.7", "1173.6")}


def test_parts():
    for end, (links, springs, unsprung, whole) in FIGURES.items():
        loads = CORNER.axle(end)
        check(SOURCE, f"{end} load transfer through the links", links, loads.geometric, "N", NO_AUTHOR)
        check(
            SOURCE,
            f"{end} load transfer through springs and bars",
            springs,
            loads.elastic,
            "N",
            NO_AUTHOR,
            tolerance=0.1,
            because=COARSE_STIFFNESS,
        )
        check(SOURCE, f"{end} load transfer of the unsprung mass", unsprung, loads.unsprung, "N", NO_AUTHOR)
        check(
            SOURCE,
            f"{end} load transfer in all",
            whole,
            loads.load_transfer,
            "N",
            NO_AUTHOR,
            tolerance=0.1,
            because=COARSE_STIFFNESS,
        )


def test_statics():
    whole = 1.5 * (6900 * 0.315 + 2 * 450 * 0.32) / 1.58
    assert abs(CORNER.front.load_transfer + CORNER.rear.load_transfer - whole) < 1e-3
