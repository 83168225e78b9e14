"""The factor 2, a negative check

A published exercise (author and title not recorded): a bar of 2200 N*m/rad over its whole twist, lever 0.28
m, link motion ratio 0.85, track 1.60 m. It arrives at 25951 N*m/rad of roll stiffness by putting a rate that
belongs to the *relative* travel of the two links into K t^2/2.

The wrong figure is published; the right one, k (MR t/a)^2 = 51902, is computed from published inputs.
"""

import math

from rollmodel.physics.bar import link_rates_one_end_held
from rollmodel.physics.stiffness import axle_stiffness, roll_stiffness
from tests.validation.build import axle, round_bar
from tests.validation.evidence import COMPUTED, PUBLISHED, check

SOURCE = "L5"
LEVER, LENGTH, TORSIONAL_RATE = 0.28, 1.0, 2200.0
DIAMETER = 0.024
SHEAR_MODULUS = (
    TORSIONAL_RATE * LENGTH / (math.pi / 32 * DIAMETER**4)
)  # any bar of that torsional rate will do
AXLE = axle(1.60, bar=round_bar(DIAMETER, LENGTH, LEVER, link_motion_ratio=0.85, shear_modulus=SHEAR_MODULUS))


def test_right():
    assert math.isclose(link_rates_one_end_held(AXLE.bar)[0] * LEVER**2, TORSIONAL_RATE)
    check(
        SOURCE,
        "bar's roll stiffness, k (MR t/a)^2",
        "51902",
        axle_stiffness(AXLE).bar_roll,
        "N*m/rad",
        COMPUTED,
    )


def test_the_mistake_is_the_rate_with_one_end_held():
    wrong = roll_stiffness(axle_stiffness(AXLE).bar_wheel_rate, AXLE.track)
    check(
        SOURCE,
        "the exercise's slip: K t^2/2 on the rate with one end held",
        "25951",
        wrong,
        "N*m/rad",
        PUBLISHED,
    )
    assert math.isclose(axle_stiffness(AXLE).bar_roll, 2 * wrong)
