"""Lesson 1's axle: the panel's numbers are those of the axle's own equations."""

import pytest
from tests.panels.panel_checks import check_panel

from rollmodel.panels.lessons.lesson_01 import AxlePanel
from rollmodel.panels.lesson import Lesson
from rollmodel.physics import axle


@pytest.fixture
def panel(car):
    return AxlePanel(Lesson("01", car))


def test_every_control(panel):
    check_panel(panel)


def test_bar_does_nothing_when_both_wheels_go_up(panel):
    before = panel.compute(panel.start_values(left=0.03, right=0.03, bar=0.0)).force
    after = panel.compute(panel.start_values(left=0.03, right=0.03, bar=50e3)).force
    assert after == before == pytest.approx((31.85e3 * 0.03,) * 2)


def test_roll_feels_the_bar_twice(panel):
    panel.set(left=0.03, right=-0.03, spring=30e3, bar=10e3)
    scene = panel.compute(panel.values)
    assert scene.force[0] == pytest.approx(0.03 * axle.roll_rate(30e3, 10e3))
    assert "1500 N" in panel.caption.value  # (30 + 2 * 10) N/mm times 30 mm


def test_presets_move_both_sliders_and_draw_once(panel):
    paints = []
    panel.image.observe(lambda change: paints.append(1), "value")
    panel.buttons[1].click()
    assert (panel.values.left, panel.values.right) == (0.03, -0.03)
    assert panel.rows["right"].slider.value == -30 and len(paints) == 1
