"""The most a pair of tyres gives, against scipy's scalar minimiser, and the rollover search."""

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from rollmodel.car import GRAVITY, Tyre
from rollmodel.physics.corner import highest_before
from rollmodel.physics.pair import axle_side_force, largest_axle_force, slip_for_force

TYRES = [Tyre(), Tyre(grip_scale=0.6), Tyre(grip_scale=1.8), Tyre("magic formula 2006")]


def random_pairs(count):
    draw = np.random.default_rng(4)
    total = draw.uniform(2000, 12000, count)
    transfer = draw.uniform(0, 0.5, count) * total
    lean = draw.uniform(-0.1, 0.1, (2, count))
    return total / 2 + transfer, total / 2 - transfer, lean[0], lean[1]


@pytest.mark.parametrize("tyre", TYRES, ids=lambda t: f"{t.curve}, grip {t.grip_scale}")
def test_force_and_slip_match_scipy(tyre):
    pairs = random_pairs(60)
    force, slip = largest_axle_force(tyre, *pairs)
    for i, loads in enumerate(zip(*pairs, strict=True)):
        near = np.radians(np.linspace(0, 60, 6001))
        start = near[np.argmax(axle_side_force(tyre, near, *loads))]
        best = minimize_scalar(
            lambda s, loads=loads: -axle_side_force(tyre, s, *loads),
            method="bounded",
            bounds=(max(start - 0.002, 0), min(start + 0.002, np.radians(60))),
            options={"xatol": 1e-10},
        )
        # the top is flat: rounding of the force hides slips closer than about 1e-7 rad
        assert force[i] == pytest.approx(-best.fun, rel=1e-12)
        assert slip[i] == pytest.approx(best.x, abs=2e-7)


def test_many_axles_are_done_in_pieces_with_the_same_answer():
    pairs = random_pairs(45_000)
    together = largest_axle_force(TYRES[0], *pairs)
    assert together[0].shape == (45_000,)
    for i in (0, 19_999, 20_000, 44_999):
        alone = largest_axle_force(TYRES[0], *(x[i] for x in pairs))
        assert [float(x) for x in alone] == [float(x[i]) for x in together]


def test_shapes_broadcast_and_an_empty_array_stays_empty():
    force, slip = largest_axle_force(TYRES[0], np.full((3, 1), 4000.0), np.full(2, 2000.0))
    assert force.shape == slip.shape == (3, 2)
    assert largest_axle_force(TYRES[0], np.zeros(0), 1.0)[0].shape == (0,)


def test_more_than_the_largest_has_no_slip_angle():
    force, _ = largest_axle_force(TYRES[0], 4000.0, 2000.0)
    assert np.isnan(slip_for_force(TYRES[0], force * 1.001, 4000.0, 2000.0))
    assert np.isfinite(slip_for_force(TYRES[0], force * 0.999, 4000.0, 2000.0))


@pytest.mark.parametrize("shape", [(), (3, 2), (1001,)])
def test_highest_before_finds_each_threshold_to_the_last_digit(shape):
    wanted = np.random.default_rng(1).uniform(0.1, 15 * GRAVITY, shape)
    found = highest_before(lambda a: a < wanted, shape)
    assert np.shape(found) == shape
    assert found == pytest.approx(wanted, rel=1e-14)
