"""Lesson 2's panels: numbers by the closed formula, on a bar with rigid arms."""

import numpy as np
import pytest

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_02
from rollmodel.panels.lessons.lesson_02 import BarPanel, BladePanel, holed_axle, last_third
from rollmodel.sheets import training_cars
from tests.panels.panel_checks import check_panel


@pytest.mark.parametrize("car", training_cars())
@pytest.mark.parametrize("panel", [BarPanel, BladePanel])
def test_every_control(panel, car):
    check_panel(panel(Lesson("02", car)))


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


def sweeps(panel):
    """Every control that makes the bar stiffer, moved through its whole range from very different bars."""
    ranges = {name: np.linspace(*ends, 23) for name, ends in lesson_02.RANGES.items()}
    ranges["centre"] = ranges.pop("centre_length")[::-1]
    ranges["diameter"] = ranges.pop("outer_diameter")
    ranges |= {"arms": ("same section", "rigid"), "hole": range(1, 1 + len(holed_axle(panel.car).bar.holes))}
    thin, thick = ({"diameter": d, "wall": w} for d, w in ((0.014, 0.001), (0.036, 0.018)))
    bases = [{}, thin, thick, {**thick, "centre": 0.5}, {"wall": 0.018, "centre": 1.2}]
    for base in (base | {"hole": hole} for base in bases for hole in ranges["hole"]):
        for name, places in ranges.items():
            yield [panel.start_values(**base | {name: one}) for one in places]


def pixels_up(line):
    """Heights in the picture."""
    return line.get_transform().transform(np.column_stack(line.get_data()))[:, 1]


@pytest.mark.parametrize("car", training_cars())
def test_the_marker_never_falls_while_the_rate_rises(car):
    """The scale gives way to stiff bars, so heights are compared; and nothing leaves the scale."""
    panel = BarPanel(Lesson("02", car))
    artists, rises = panel._artists, 0
    curve, top = artists["curve"], artists["curve"].ax.bbox.y1
    for sweep in sweeps(panel):
        rates, heights = [], []
        for values in sweep:
            bench = panel.compute(values)
            panel.update(artists, bench)
            rates.append(bench.rate)
            heights.append(pixels_up(curve["chosen"])[0])
            assert pixels_up(curve["curve"]).max() <= top, vars(values)
        up = np.diff(rates) > 1e-9 * rates[0]
        assert np.all(np.diff(heights)[up] > 0), [vars(values) for values in sweep]
        rises += up.sum()
    assert rises > 500


def test_the_lesson_s_tasks_leave_the_scale_where_it_is():
    panel = BarPanel(Lesson("02"))
    start = panel.start_values()
    tasks = ({"hole": 3}, {"diameter": 1.1 * start.diameter}, {"wall": start.diameter / 2}, {"arms": "rigid"})
    ends = {panel.compute(panel.start_values(**task)).curve.ceiling for task in ({}, *tasks)}
    assert len(ends) == 1
    assert panel.compute(panel.start_values(diameter=0.036)).curve.ceiling > ends.pop()


def test_the_bar_at_the_start_stands_beside_another_at_its_own_rate():
    """And not while the prediction is open: its curve holds the answer."""
    panel = BarPanel(Lesson("02"))
    drawing, scale = panel._artists["curve"], panel._artists["curve"].fixed["rates"]
    assert panel.card.pending
    panel.set(diameter=0.036)
    assert not drawing["first"].get_visible() and not drawing["first word"].get_visible()
    panel.card.skip()
    assert drawing["first"].get_visible() and drawing["first word"].get_visible()
    start = panel.compute(panel.start_values()).curve.rate
    assert scale.span[1] * drawing["first"].get_ydata() == pytest.approx(start / 1000)  # N/mm
    panel.reset()
    assert not drawing["first"].get_visible() and not drawing["first word"].get_visible()
