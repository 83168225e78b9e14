"""Lesson 7's panels and sentences: one change of the front bar, told the same way everywhere."""

from dataclasses import replace

import pytest

from rollmodel.car import GRAVITY
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_07
from rollmodel.panels.lessons.lesson_07 import SteerPanel, TyresPanel
from rollmodel.panels.lessons.lesson_07_numbers import car_of
from rollmodel.physics.balance import limits, understeer_gradient
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_cars
from rollmodel.units import show
from tests.panels.panel_checks import check_panel


@pytest.mark.parametrize("car", training_cars())
@pytest.mark.parametrize("panel", [TyresPanel, SteerPanel])
def test_every_control(panel, car):
    lifted = car == "hatch" and panel is TyresPanel  # inside rear wheel up: that bar is idle
    check_panel(panel(Lesson("07", car)), quiet=("rear",) if lifted else ())


def stiffest_and_softest(car):
    return [(axle_stiffness(car.front, n), axle_stiffness(car.rear)) for n in (1, car.front.positions)]


def test_panels_say_what_the_model_says_of_the_coupe():
    lesson = Lesson("07")
    tyres, steer = TyresPanel(lesson), SteerPanel(lesson)
    before, after = stiffest_and_softest(lesson.car)
    for panel in (tyres, steer):
        panel.set(front=3)
    front = [show(float(limits(lesson.car, *one).front), "lateral acceleration") for one in (before, after)]
    slope = [show(float(understeer_gradient(lesson.car, 0.3 * GRAVITY, *one)), "understeer gradient")
             for one in (before, after)]
    assert all(value in tyres.caption.value for value in front) and front[0] > front[1]
    assert all(value in steer.caption.value for value in slope) and slope[0] < slope[1]
    assert all(value in lesson_07.belief(lesson) for value in front + slope)


@pytest.mark.parametrize("panel", [TyresPanel, SteerPanel])
def test_whoever_only_reads_sees_the_change_large(panel):
    shown = panel(Lesson("07"))
    large = shown.stored()["text/html"].split('alt="')[1].split('"')[0]
    front = [show(float(limits(shown.car, *one).front), "lateral acceleration")
             for one in stiffest_and_softest(shown.car)]
    assert all(value in large for value in front)


def test_stiffer_front_is_more_understeer_on_every_car_with_its_wheels_down():
    for name in training_cars():
        lesson = Lesson("07", name)
        words = lesson_07.belief(lesson)
        assert (" understeer, not " in words) != ("has not changed" in words)
        assert ("has not changed" in words) == ("off the ground" in lesson_07.read_the_chain(lesson))


def test_soft_car_is_told_that_leaning_less_won():
    assert "lesson 9" in lesson_07.read_the_chain(Lesson("07", "gravel"))
    assert "less than uneven load took" in lesson_07.read_the_chain(Lesson("07"))


def test_a_car_without_holes_to_move_is_stood_in_for(car):
    assert car_of(Lesson("07", replace(car, front=replace(car.front, bar=None)))).title == "College coupe"
