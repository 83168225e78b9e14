"""A full setup map, whole and point by point; same answers to 1e-8. Run by name: see `ratios.py`."""

import numpy as np
import pytest

from tests.benchmarks import point_by_point, whole_map
from tests.unit.plain_car import CAR


@pytest.mark.parametrize("number", [200, 400, 800])
def test_whole_map(benchmark, number):
    at = whole_map.accelerations(number)
    slips, _, limits = benchmark(whole_map.setup_map, CAR, at)
    assert slips.shape == (2, 3, 3, number) and np.all(np.isfinite(limits))


def test_point_by_point_gives_the_same(benchmark):
    at = whole_map.accelerations(200)
    slips, limits = benchmark.pedantic(point_by_point.setup_map, (CAR, at), rounds=1)
    whole, angle, whole_limits = whole_map.setup_map(CAR, at)
    assert whole == pytest.approx(slips, abs=1e-8, nan_ok=True)
    assert angle == pytest.approx(slips[0] - slips[1], abs=1e-8, nan_ok=True)
    assert whole_limits == pytest.approx(limits, abs=1e-8)


def test_one_setup_at_a_time_gives_the_same():
    one_each = np.array(point_by_point.many_setups(CAR, 100)).T.reshape(3, 10, 10)
    assert np.stack(whole_map.many_setups(CAR, 100)) == pytest.approx(one_each, rel=1e-12)


def test_a_million_setups(benchmark):
    gradient, front, rear = benchmark.pedantic(whole_map.many_setups, (CAR, 1_000_000), rounds=3)
    assert gradient.shape == front.shape == rear.shape == (1000, 1000)
    assert np.all(np.isfinite(gradient)) and np.all(front > 0)
