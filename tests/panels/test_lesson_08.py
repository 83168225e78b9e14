"""Lesson 8's panels and sentences: a bar by the roll angle, dampers by the rate of roll."""

from dataclasses import replace

import pytest

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_08
from rollmodel.panels.lessons.lesson_08 import CornerPanel, WhenPanel
from rollmodel.panels.lessons.lesson_08_numbers import STIFFER, USUAL, car_of, peak_of, shifts, usual
from rollmodel.physics.shift import PHASES
from rollmodel.sheets import training_cars
from tests.panels.panel_checks import check_panel, check_shown


@pytest.mark.parametrize("panel", [CornerPanel, WhenPanel])
def test_every_control(panel):
    check_panel(panel(Lesson("08")))


@pytest.mark.parametrize("car", training_cars())
@pytest.mark.parametrize("panel", [CornerPanel, WhenPanel])
def test_every_car_at_both_ends(panel, car):
    shown = panel(Lesson("08", car))
    for values in (shown.low, shown.high, shown.prediction().after):
        shown.reset()
        shown.set(**values)
        assert shown.fault is None, shown.fault
        check_shown(shown)


@pytest.mark.parametrize("car", training_cars())
def test_what_the_lesson_says_holds_for_every_car(car):
    """A bar one way throughout, most in the middle; dampers one way, then nil, then the other way."""
    result = usual(car_of(Lesson("08", car)))
    bar, dampers = ([result.of(change, phase) for phase in PHASES] for change in ("bar", "dampers"))
    assert min(bar) > 5 and max(bar) == bar[1]  # N
    assert dampers[0] > 5 > abs(dampers[1]) and dampers[2] < -5  # N


def test_panels_show_what_the_sentences_say():
    lesson = Lesson("08")
    panel = WhenPanel(lesson)
    panel.set(front_rate=panel.stiff_rate)
    said = lesson_08.belief(lesson)
    for change in ("bar", "dampers"):
        for phase in PHASES:
            value = lesson.show(usual(car_of(lesson)).of(change, phase), "load")
            assert value in panel.caption.value and value in said


def test_a_quicker_corner_asks_more_of_the_dampers():
    car = car_of(Lesson("08"))
    found = [shifts(car, peak_of(car), time, 3, STIFFER * car.front.damper.rate)
             for time in (USUAL, 2 * USUAL)]
    assert found[0].of("dampers", "way in") > 1.5 * found[1].of("dampers", "way in")


def test_a_car_without_dampers_is_stood_in_for(car):
    assert car_of(Lesson("08", replace(car, rear=replace(car.rear, damper=None)))).title == "College coupe"
