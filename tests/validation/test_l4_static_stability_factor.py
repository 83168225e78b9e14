"""The static stability factor

US National Highway Traffic Safety Administration: static stability factor T/(2h), the lateral acceleration
in g at which both inside wheels of a rigid car are unloaded. Passenger cars in the agency's measured
inertia data (SAE paper 1999-01-1336): mean 1.341, from 1.220 to 1.435.

The factors are printed, but here each is put in and got back: track and height are chosen as h = T/(2f), and
the package must roll over at f when its springs are stiff, whatever the roll centres and the split of
stiffness. That shows that loads and lifting close to statics. It says nothing about the cars measured.
"""

from dataclasses import replace

import numpy as np

from rollmodel.car import GRAVITY
from rollmodel.physics.corner import rollover_acceleration
from tests.validation.build import axle, car, stiffness
from tests.validation.evidence import ROUND_TRIP, check

SOURCE = "L4"
FACTORS = {"mean of the cars": "1.341", "lowest of the cars": "1.220", "highest of the cars": "1.435"}


def rigid_car(factor, track, roll_centres=(0.05, 0.12)):
    """A car of that factor, unsprung masses and all."""
    ends = [axle(track, height, 80.0, 0.3) for height in roll_centres]
    whole = car(*ends, 1100.0, 0.55, 0.6)
    return replace(whole, cg_height=track / (2 * factor))


def rolls_over_at(one, front_share, stiff=1e9):
    ends = stiffness(one.front, front_share * stiff), stiffness(one.rear, (1 - front_share) * stiff)
    return float(rollover_acceleration(one, *ends)) / GRAVITY


def test_factor():
    for name, figure in FACTORS.items():
        check(
            SOURCE,
            f"stability factor, {name}: rolls over on stiff springs",
            figure,
            rolls_over_at(rigid_car(float(figure), 1.5), 0.6),
            "g",
            ROUND_TRIP,
        )


def test_whatever_the_split_and_the_roll_centres():
    for share in (0.2, 0.5, 0.9):
        for centres in ((0.0, 0.0), (0.02, 0.25)):
            over = rolls_over_at(rigid_car(1.341, 1.45, centres), share)
            assert abs(over - 1.341) < 1e-4  # the car still rolls by some 1e-5 rad


def test_softer_springs_roll_over_sooner():
    one = rigid_car(1.341, 1.5)
    over = [rolls_over_at(one, 0.6, stiff) for stiff in (3e4, 6e4, 1e5, 1e6)]
    assert np.all(np.diff(over) > 0) and over[-1] < 1.341
