"""Lesson 2's panels: numbers by the closed formula, on a bar with rigid arms."""

import numpy as np
import pytest

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_02
from rollmodel.panels.lessons.lesson_02 import BarPanel, BladePanel, last_third
from rollmodel.sheets import training_cars
from tests.panels.panel_checks import check_panel


@pytest.mark.parametrize("car", training_cars())
@pytest.mark.parametrize("panel", [BarPanel, BladePanel])
def test_every_control(panel, car):
    check_panel(panel(Lesson("02", car)), moves_limits=panel is BarPanel)


def test_rate_is_the_torsion_formula_with_rigid_arms():
    panel = BarPanel(Lesson("02"))
    panel.set(arms="rigid", diameter=0.020, wall=0.010, centre=1.0, hole=1)
    by_hand = 2 * 79.3e9 * np.pi / 32 * 0.020**4 / (1.0 * 0.230**2)
    assert panel.compute(panel.values).rate == pytest.approx(by_hand, rel=1e-9)


def test_a_wall_beyond_half_the_diameter_is_a_solid_bar():
    panel = BarPanel(Lesson("02"))
    rates = [panel.compute(panel.start_values(diameter=0.016, wall=wall)).rate for wall in (0.008, 0.018)]
    assert rates[0] == rates[1]


def test_blade_ends_are_flat_and_on_edge():
    panel = BladePanel(Lesson("02", "single-seater"))
    curve = panel.compute(panel.start_values())
    assert np.all(np.diff(curve.rate) > 0)
    assert 0 < last_third(curve) < 1


@pytest.mark.parametrize("car", training_cars())
def test_picture_and_table_speak_of_the_same_bar(car):
    """Also where the sheet puts the bushings in from the arms."""
    lesson = Lesson("02", car)
    panel = BarPanel(lesson)
    shown = panel.compute(panel.values).curve
    rate = lesson.show(float(shown.rates[shown.chosen - 1]), "rate")
    row = lesson_02.parts(lesson).splitlines()[1 + shown.chosen]
    assert row.endswith(f"| {rate} |") and rate in panel.caption.value
