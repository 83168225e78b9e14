"""Lesson 5's panel: what it shows balances, and a stiffer bar takes load off its own inside wheel."""

import pytest
from matplotlib.figure import Figure

from rollmodel.car import GRAVITY
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_05 import LoadsPanel, barred_end
from rollmodel.sheets import training_cars
from tests.panels.panel_checks import check_panel


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


def test_a_step_of_a_slider_does_not_look_for_the_rollover_again(monkeypatch):
    panel, asked = LoadsPanel(Lesson("05", "coupe")), []
    monkeypatch.setattr(
        "rollmodel.panels.lessons.lesson_05.rollover_acceleration", lambda *car: asked.append(car) or 20.0
    )
    panel.set(corner=0.5 * GRAVITY)
    assert panel.fault is None and asked == []
