"""Roll stiffness and load-transfer split of a whole car, before and after

An open case study with complete inputs (2021, revised 2022; its author and title are not recorded). 1288 kg,
61 % in front, tracks 1482/1481 mm, springs 48.9/80.2 N/mm, spring motion ratios 0.92/0.59, solid bars 23/19
mm of 1008/1026 mm, G 80 GPa, bars turned by 0.096/0.201 deg per mm of wheel travel; no tyre rate, no
unsprung mass. Then springs 65.7/113.8 N/mm, motion ratios 0.96/0.56, rear bar 24 mm turned by 0.184 deg per
mm, centre of gravity 480 mm, roll centres -64/120 mm.

Second-hand, author not recorded: nobody can look the figures up from this page. That the inputs were complete
lets anybody work them out again.
"""

import math

from rollmodel.car import GRAVITY
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import axle_stiffness
from tests.validation.build import axle, car, round_bar, stiffness
from tests.validation.evidence import NO_AUTHOR, check

SOURCE = "L2"
COARSE_RATIOS = (
    "0.1 %: the motion ratios are printed to two and three digits, 0.5 % of the spring's 0.92 and of the "
    "bar's 0.096, and count squared"
)
STIFFER = 1e6  # the study leaves gravity's share out: at no roll it has no arm


def bar(diameter, length, degrees_per_mm):
    """Turn of one end per wheel travel is link motion ratio over lever; the lever itself drops out."""
    lever = 0.2
    return round_bar(
        diameter,
        length,
        lever,
        link_motion_ratio=math.radians(1e3 * degrees_per_mm) * lever,
        shear_modulus=80e9,
    )


def study(springs, ratios, rear_bar, roll_centres, height):
    front = axle(
        1.482,
        roll_centres[0],
        spring_rate=springs[0],
        spring_motion_ratio=ratios[0],
        bar=bar(0.023, 1.008, 0.096),
    )
    rear = axle(1.481, roll_centres[1], spring_rate=springs[1], spring_motion_ratio=ratios[1], bar=rear_bar)
    return car(front, rear, 1288, 0.61, height)


BEFORE = study((48.9e3, 80.2e3), (0.92, 0.59), bar(0.019, 1.026, 0.201), (0.096, 0.168), 0.533)
AFTER = study((65.7e3, 113.8e3), (0.96, 0.56), bar(0.024, 1.026, 0.184), (-0.064, 0.120), 0.480)


def rear_share(one):
    """Rear part of the load transferred at both ends without gravity's share, %."""
    ends = [stiffness(end, STIFFER * axle_stiffness(end).total_roll) for end in (one.front, one.rear)]
    corner = settled_corner(one, 0.5 * GRAVITY, *ends)
    return 100 * corner.rear.load_transfer / (corner.front.load_transfer + corner.rear.load_transfer)


def test_roll_stiffness():
    for name, one, figures in (("before", BEFORE, ("1027", "1004")), ("after", AFTER, ("1395", "1686"))):
        for end, figure in zip(("front", "rear"), figures, strict=True):
            coarse = {"tolerance": 1.0, "because": COARSE_RATIOS} if figure == "1027" else {}
            check(
                SOURCE,
                f"{end} roll stiffness {name}",
                figure,
                math.radians(axle_stiffness(one.axle(end)).total_roll),
                "N*m/deg",
                NO_AUTHOR,
                **coarse,
            )


def test_share_of_load_transfer():
    for name, one, figure in (("before", BEFORE, "50.2"), ("after", AFTER, "63.6")):
        check(SOURCE, f"rear share of load transfer {name}", figure, rear_share(one), "%", NO_AUTHOR)


def test_gravity_takes_a_little_off_the_stiffer_end():
    with_gravity = 100 * (1 - settled_corner(AFTER, 0.5 * GRAVITY).front_share)
    assert 0.2 < rear_share(AFTER) - with_gravity < 0.4
