"""The understeer angle and its slope in one solve, over setups and lateral accelerations."""

import numpy as np
import pytest

from rollmodel.car import GRAVITY, Axle, Bar, Car, Tyre
from rollmodel.physics.balance import understeer_angle, understeer_angle_and_gradient, understeer_gradient
from rollmodel.physics.stiffness import stiffness_of_every_hole


@pytest.fixture(scope="module")
def car():
    bar = Bar(0.022, 0.95, 0.6, (0.22, 0.20), 1)
    axle = Axle(1.5, 80, 0.3, 0.06, 60e3, 0.7, camber=-0.02, camber_recovery=0.5, bar=bar)
    return Car("test car", "rear", 1250, 0.53, 2.5, 0.47, Tyre(), axle, axle)


def test_a_map_of_setups_equals_one_setup_at_a_time(car):
    accelerations = np.array([0.3, 0.8]) * GRAVITY
    angles, slopes = understeer_angle_and_gradient(car, accelerations, *stiffness_of_every_hole(car))
    assert angles.shape == slopes.shape == (2, 2, 2)
    for i, j, k in np.ndindex(angles.shape):
        alone, a, step = car.with_holes(i + 1, j + 1), accelerations[k], 1e-3 * GRAVITY
        by_hand = (understeer_angle(alone, a + step) - understeer_angle(alone, a - step)) / (2 * step)
        assert angles[i, j, k] == pytest.approx(float(understeer_angle(alone, a)), abs=1e-12)
        # two angles known to 1e-14 rad over 0.02 m/s^2
        assert slopes[i, j, k] == pytest.approx(float(by_hand), abs=1e-11)


def test_a_single_setup_gives_a_single_number(car):
    assert np.ndim(understeer_gradient(car)) == 0


def test_past_the_limit_there_is_no_slope(car):
    assert np.isnan(understeer_gradient(car, 1.5 * GRAVITY))
