"""The reusable wrong roads: each works the answer again, and comes to its factor on paper."""

import math
from types import SimpleNamespace

import pytest

from rollmodel.physics.bar import torsion_rate_one_end_held
from rollmodel.physics.sections import round_polar_second_moment
from rollmodel.physics.stiffness import roll_stiffness, wheel_rate
from rollmodel.questions import roads
from rollmodel.questions.misconceptions import every_misconception

N = SimpleNamespace(rate=50e3, motion_ratio=0.62, track=1.5, diameter=0.024, lever=0.2, along=0.25,
                    mass=500.0,
                    a=7.0, angle=0.04, length=0.9, load_front=4000.0, load_rear=3000.0)


def at_wheel(n):
    return float(wheel_rate(n.rate, n.motion_ratio))


def in_roll(n):
    return float(roll_stiffness(n.rate, n.track))


def bar(n):
    return float(torsion_rate_one_end_held(79e9, round_polar_second_moment(n.diameter), n.length, n.lever))


def force(n):
    return n.mass * n.a


def travel(n):
    return n.track / 2 * n.angle


def difference(n):
    return n.load_front - n.load_rear


@pytest.mark.parametrize("road, key, factor", [
    (roads.motion_ratio_not_squared(), at_wheel, 1 / 0.62),
    (roads.motion_ratio_squared_twice(), at_wheel, 0.62**2),
    (roads.motion_ratio_inverted(), at_wheel, 0.62**-4),
    (roads.motion_ratio_left_out(), at_wheel, 0.62**-2),
    (roads.radius_for_diameter("diameter"), bar, 1 / 16),
    (roads.diameter_for_radius("diameter"), bar, 16),
    (roads.full_track_for_half(), travel, 2),
    (roads.half_track_for_full(), in_roll, 1 / 4),
    (roads.per_wheel_for_per_axle("mass"), force, 1 / 2),
    (roads.per_axle_for_per_wheel("mass"), force, 2),
    (roads.mass_for_weight("a"), force, 1 / 9.80665),
    (roads.weight_for_mass("a"), force, 9.80665),
    (roads.degree_for_radian("angle"), travel, 180 / math.pi),
    (roads.lever_slanted("lever", "along"), bar, (0.2 / 0.25) ** 2),
    (roads.front_for_rear("load"), difference, -1),
    (roads.exchanged("sign", ("load_front", "load_rear")), difference, -1),
], ids=lambda value: value.belief.id if hasattr(value, "belief") else "")
def test_factor_on_paper(road, key, factor):
    assert road.answer(key, N) == pytest.approx(factor * key(N), rel=1e-12)


def test_a_road_leaves_the_numbers_alone():
    before = dict(vars(N))
    for road in (roads.motion_ratio_inverted(), roads.front_for_rear("load"),
                 roads.lever_slanted("lever", "along")):
        road.answer(difference, N)
    assert vars(N) == before


def test_unit_slips_are_the_conversions_themselves():
    """lbf 4.4482216 N, inch 25.4 mm, foot 0.3048 m exactly or to the digits given (NIST SP 811)."""
    def factors(kind, name):
        return sorted(factor for found, factor in roads.UNIT_SLIPS[kind] if found == name)
    assert factors("rate", "N/m for N/mm") == [0.001, 1000.0]
    assert factors("rate", "other family's unit")[0] == pytest.approx(4.4482216 / 25.4, rel=1e-7)
    assert factors("load", "other family's unit")[1] == pytest.approx(4.4482216, rel=1e-7)
    assert factors("load", "lb for lbf")[1] == pytest.approx(9.80665 / 0.3048, rel=1e-12)
    assert factors("angle", "degree for radian")[1] == pytest.approx(57.29578, rel=1e-7)
    assert factors("lateral acceleration", "g for m/s²")[1] == 9.80665


WANTED = ["held used in roll", "roll used for held", "motion ratio not squared", "motion ratio squared twice",
          "motion ratio inverted", "diameter for radius", "radius for diameter", "full track for half",
          "per wheel for per axle", "mass for weight", "degree for radian", "lb for lbf", "N/m for N/mm",
          "sign",
          "front for rear", "gravity's share left out", "stiffnesses added", "lever slanted"]


def test_every_road_that_marking_must_know_has_its_words():
    assert set(WANTED) <= set(every_misconception())


def test_a_sign_is_a_slip_only_where_no_sign_is_asked_for():
    assert ("sign" in [belief.id for belief, _ in roads.slips("load", signed=False)]
            and "sign" not in [belief.id for belief, _ in roads.slips("load", signed=True)])
