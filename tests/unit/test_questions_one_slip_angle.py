"""What one slip angle costs an axle is seen in the figures that the answer shows."""

import pytest

from rollmodel.car import Tyre
from rollmodel.physics.pair import axle_side_force
from rollmodel.physics.tyre import peak_side_force
from rollmodel.questions import bank, pose
from rollmodel.units import show


@pytest.mark.parametrize("family", ["metric", "US customary"])
@pytest.mark.parametrize("word", [f"learner {number}" for number in range(12)])
def test_the_two_sums_are_shown_apart_and_the_key_is_less(word, family):
    posed = pose(bank.question("one-slip-angle"), word, family)
    figures = posed.question.workings(posed.numbers)
    shown = {name: show(value, kind, family) for name, (value, kind) in figures.items()}
    assert posed.key == "below" and shown["peaks"] != shown["together"]
    assert float(shown["less"].split()[0]) >= 1
    assert shown["slip_outside"] != shown["slip_inside"]


def test_each_best_slip_angle_is_a_top():
    posed = pose(bank.question("one-slip-angle"), "learner 1")
    figures = posed.question.workings(posed.numbers)
    for side in ("outside", "inside"):
        load, slip = figures[side][0], figures[f"slip_{side}"][0]
        best = float(peak_side_force(Tyre(), load))
        assert float(axle_side_force(Tyre(), slip, load, 1e-9)) == pytest.approx(best, rel=1e-5)
