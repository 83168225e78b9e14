"""Lesson 10's panel over every training car: picture, words and advice follow the holes and agree with the model."""

import pytest
from tests.panels.panel_checks import check_panel

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_10 import ChangePanel
from rollmodel.sheets import training_cars

CARS = sorted(training_cars())
QUIET = ("symptom", "when")  # words alone, except that "exit" adds drive


@pytest.mark.parametrize("car", CARS)
def test_every_control(car):
    check_panel(ChangePanel(Lesson("10", car)), quiet=QUIET)
