"""Lesson 5's panel: what it shows balances, and a stiffer bar takes load off its own inside wheel."""

import numpy as np
import pytest
from matplotlib.figure import Figure

from rollmodel.car import GRAVITY
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_05 import LoadsPanel, barred_end, steepest
from rollmodel.sheets import training_cars
from rollmodel.units import FAMILIES
from tests.panels.panel_checks import check_panel
from tests.unit.test_figures import readable


@pytest.mark.parametrize("car", training_cars())
def test_every_control(car):
    check_panel(LoadsPanel(Lesson("05", car)))


@pytest.mark.parametrize("car", training_cars())
def test_four_loads_are_the_cars_weight(car):
    panel = LoadsPanel(Lesson("05", car))
    for corner in (0.0, 0.4 * GRAVITY, GRAVITY):
        panel.set(corner=corner)
        scene = panel.compute(panel.values).above
        assert sum(scene.inside) + sum(scene.outside) == pytest.approx(panel.car.mass * GRAVITY)
        assert min(scene.inside) >= 0


def test_a_stiffer_bar_lightens_its_own_inside_wheel():
    panel = LoadsPanel(Lesson("05", "coupe"))
    end = barred_end(panel.car)
    inside = [panel.compute(panel.start_values(**{end: hole})).above.inside for hole in (1, 3)]
    assert inside[1][0] < inside[0][0] and inside[1][1] > inside[0][1]


@pytest.mark.parametrize("projector", [False, True])
def test_bars_of_the_load_stay_taller_than_their_names(projector):
    lesson = Lesson("05", "coupe")
    lesson.change(projector=projector)
    panel = LoadsPanel(lesson)
    figure = Figure(panel.size)
    drawn = panel.draw(figure, panel.compute(panel.start_values()))
    assert drawn["paths"].fixed["bar"] > 1.3  # in type sizes: one line of words


@pytest.mark.parametrize("projector", [False, True])
@pytest.mark.parametrize("car", training_cars())
def test_words_lie_inside_and_apart_at_every_step(car, projector):
    """Total and cap of one end share a line: on the hatch the rear's cap lies in the middle of the scale."""
    for family in FAMILIES:
        lesson = Lesson("05", car)
        lesson.change(family=family, projector=projector)
        panel = LoadsPanel(lesson)
        figure = panel.canvas.figure
        wide, high = figure.canvas.get_width_height()
        for corner in np.linspace(0, steepest(panel.car), 9):
            panel.set(corner=float(corner))
            found = [(text.get_text(), text.get_window_extent()) for text in readable(figure)]
            for n, (text, box) in enumerate(found):
                assert box.x0 >= 0 and box.y0 >= -1 and box.x1 <= wide and box.y1 <= high, text
                for other, second in found[n + 1 :]:
                    across = min(box.x1, second.x1) - max(box.x0, second.x0)
                    up = min(box.y1, second.y1) - max(box.y0, second.y0)
                    assert across <= 0.5 or up <= 2.5, (text, other)  # a box is a whole line, with its air


def test_a_step_of_a_slider_does_not_look_for_the_rollover_again(monkeypatch):
    panel, asked = LoadsPanel(Lesson("05", "coupe")), []
    monkeypatch.setattr(
        "rollmodel.panels.lessons.lesson_05.rollover_acceleration", lambda *car: asked.append(car) or 20.0
    )
    panel.set(corner=0.5 * GRAVITY)
    assert panel.fault is None and asked == []
