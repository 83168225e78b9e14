"""The axle matrix: its two modes, what one wheel feels, and the mirror image."""

import numpy as np
import pytest
from hypothesis import given

from rollmodel.physics.axle import (
    axle_matrix,
    heave_rate,
    one_wheel_rate_other_free,
    one_wheel_rate_other_held,
    roll_rate,
    wheel_loads,
)
from tests.unit.random_cars import numbers

RATES = numbers(1e3, 3e5)
TRAVELS = numbers(-0.1, 0.1)


@given(RATES, RATES)
def test_modes_are_heave_and_roll(spring, bar):
    rates, modes = np.linalg.eigh(axle_matrix(spring, bar))
    assert rates == pytest.approx([heave_rate(spring, bar), roll_rate(spring, bar)])
    assert np.abs(modes) == pytest.approx(np.full((2, 2), np.sqrt(0.5)))
    assert np.sign(modes[0] * modes[1]) == pytest.approx([1, -1])  # together, then apart


@given(RATES, RATES)
def test_one_wheel_with_the_other_held_or_free(spring, bar):
    matrix = axle_matrix(spring, bar)
    assert one_wheel_rate_other_held(spring, bar) == pytest.approx((matrix @ [1.0, 0.0])[0])
    left = np.linalg.solve(matrix, [1.0, 0.0])[0]  # the other wheel's load does not change
    assert one_wheel_rate_other_free(spring, bar) == pytest.approx(1 / left)
    assert spring < one_wheel_rate_other_free(spring, bar) < one_wheel_rate_other_held(spring, bar)


def test_no_bar_and_a_locked_bar():
    assert one_wheel_rate_other_free(20e3, 0.0) == one_wheel_rate_other_held(20e3, 0.0) == 20e3
    assert one_wheel_rate_other_free(20e3, 1e12) == pytest.approx(40e3)  # the bump lifts both wheels


@given(RATES, RATES, TRAVELS, TRAVELS)
def test_loads_are_the_matrix_times_the_travels(spring, bar, left, right):
    assert wheel_loads(spring, bar, left, right) == pytest.approx(axle_matrix(spring, bar) @ [left, right])


@given(RATES, RATES, TRAVELS, TRAVELS)
def test_mirrored_travels_give_mirrored_loads(spring, bar, left, right):
    assert wheel_loads(spring, bar, right, left) == wheel_loads(spring, bar, left, right)[::-1]


def test_arrays_broadcast():
    springs, bars = np.array([20e3, 30e3])[:, None], np.array([0.0, 5e3, 10e3])
    assert roll_rate(springs, bars).shape == heave_rate(springs, bars).shape == (2, 3)
    assert roll_rate(springs, bars)[1, 2] == 50e3
    assert np.all(heave_rate(springs, bars) == springs)  # the bar adds nothing in heave
