"""Lesson 1's axle: the panel's numbers are those of the axle's own equations."""

import pytest

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_01 import LARGEST, AxlePanel
from rollmodel.physics import axle
from rollmodel.units import show
from tests.panels.panel_checks import check_panel


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


def test_arrows_keep_their_scale_while_rates_change(panel):
    tops = [panel.compute(panel.start_values(spring=spring, bar=bar)).top_force
            for spring in (10e3, 30e3) for bar in (0.0, 20e3)]
    assert len(set(tops)) == 1
    most = {name: panel.rows[name].control.high for name in ("spring", "bar")}
    far = panel.compute(panel.start_values(left=LARGEST, right=-LARGEST, **most))
    assert far.force[0] == pytest.approx(tops[0]), "the longest arrow is the largest force of the sliders"


def test_a_small_arrow_stays_under_its_plate(panel):
    """30 N: the head is no longer than the room between the plate and its tip."""
    panel.set(bar=1e3)
    arrow, plate = panel._artists["forces"][1], panel._artists["plates"][1].get_xy()
    assert arrow.get_mutation_scale() < panel.look.font_size
    panel.set(left=0.05, right=-0.05, bar=20e3)
    assert arrow.get_mutation_scale() == panel.look.font_size and len(plate)


def test_the_caption_says_why_the_ends_part_by_less_than_the_wheels(panel, car):
    ratio, bar = car.front.bar.link_motion_ratio, panel.compute(panel.values).bar_apart
    assert bar == pytest.approx(0.03 * ratio)
    assert f"each link moves {show(ratio, 'ratio')} times as far as its wheel" in panel.caption.value
    panel.set(right=0.03)
    assert "each link" not in panel.caption.value and "gives nothing" not in panel.caption.value


def test_a_wheel_without_load_changes_by_nothing(panel):
    panel.set(bar=0.0)
    assert "and nothing. The bar gives nothing of this." in panel.caption.value
    assert "0 N." not in panel.caption.value


def test_presets_move_both_sliders_and_draw_once(panel):
    paints = []
    panel.image.observe(lambda change: paints.append(1), "value")
    panel.buttons[1].click()
    assert (panel.values.left, panel.values.right) == (0.03, -0.03)
    assert panel.rows["right"].slider.value == -30 and len(paints) == 1
