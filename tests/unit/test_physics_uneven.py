"""What an uneven pair loses: the formula on paper against the curves themselves."""

import numpy as np
import pytest

from rollmodel.car import Tyre
from rollmodel.figures.slip_sum import SlipSum
from rollmodel.physics.tyre import peak_side_force
from rollmodel.physics.uneven import grip_drop_between, peak_grip_at, uneven_pair_loss

FALLING = Tyre("falling grip", 1.1, 1.4, 40e-6, 60e3)


@pytest.mark.parametrize("tyre", [Tyre(), Tyre(grip_scale=1.15), FALLING])
@pytest.mark.parametrize("transfer", [0.0, 900.0, 3000.0])
def test_paper_formula_is_the_gap_under_the_chord(tyre, transfer):
    even = 3000.0
    pair = peak_side_force(tyre, np.array([even - transfer, even + transfer])).sum()
    gap = 2 * peak_side_force(tyre, even) - pair
    drop = grip_drop_between(tyre, 1000.0, 4000.0)
    # Rounding of sums of thousands of newtons.
    assert uneven_pair_loss(drop, transfer) == pytest.approx(gap, abs=1e-8)


def test_drop_is_the_published_coefficient():
    """SAE 870421, a1 = -22.1 with load in kN (second-hand): D/Fz falls by 0.0221 each kN."""
    assert grip_drop_between(Tyre(), 500.0, 7000.0) == pytest.approx(22.1e-6, rel=1e-12)
    assert peak_grip_at(Tyre(), 1000.0) == pytest.approx(1.011 - 0.0221, rel=1e-12)


def test_without_a_drop_nothing_is_lost():
    assert uneven_pair_loss(0.0, 2000.0) == 0.0
    flat = Tyre("falling grip", 1.0, 1.2, 0.0, 60e3)
    uneven = peak_side_force(flat, np.array([1000.0, 5000.0])).sum()
    assert uneven == pytest.approx(2 * peak_side_force(flat, 3000.0))


def test_one_slip_angle_gives_at_most_the_two_peaks():
    """Two tyres that peak at clearly different slip angles fall short of their two best values."""
    pair = SlipSum(Tyre(), "front", 4700.0, 2850.0, np.radians(6.0))
    most, slip = pair.most
    tries = np.radians(np.linspace(0, 30, 3001))
    assert most == pytest.approx(float(np.max(pair.together(tries))), rel=1e-6)  # a hundredth of a degree
    assert 1.0 < pair.sum_of_peaks - most < 100.0
    best = [tries[np.argmax(force)] for force in pair.each(tries)]
    assert min(best) < slip < max(best)
