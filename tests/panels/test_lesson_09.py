"""Lesson 9's panel and words: both ends' tops, the window, and two cars that no single rule serves."""

from dataclasses import replace
from html import unescape

import pytest

from rollmodel.advice.kept import every_reading
from rollmodel.advice.window import window
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_09
from rollmodel.panels.lessons.lesson_09 import SoftnessPanel
from rollmodel.physics.tyre import knows_camber
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import show
from tests.panels.panel_checks import check_panel

G = "lateral acceleration"


def panel_of(car):
    return SoftnessPanel(Lesson("09", car))


@pytest.mark.parametrize("car", sorted(training_cars()))
def test_every_control(car):
    panel = panel_of(car)
    quiet = () if knows_camber(panel.car.tyre) else ("lean",)
    check_panel(panel, quiet=quiet, moves_limits=True)


def test_soft_coupe_stands_left_of_its_top_at_the_front_alone():
    panel = panel_of("coupe")
    panel.set(stiff=0.4)
    scene = panel.compute(panel.values)
    assert scene.front.gains and not scene.rear.gains
    assert scene.front.now < scene.front.top and scene.rear.now > scene.rear.top
    panel.set(stiff=1.0)
    scene = panel.compute(panel.values)
    assert not scene.front.gains and not scene.rear.gains


def test_without_lean_nothing_is_won_and_both_ends_lose():
    panel = panel_of("gravel")
    assert all(curve.gains for curve in (panel.compute(panel.values).front, panel.compute(panel.values).rear))
    panel.rows["lean"].box.value = False
    scene = panel.compute(panel.values)
    assert not scene.front.gains and not scene.rear.gains
    assert "front -" in unescape(panel.caption.value) and "rear -" in unescape(panel.caption.value)


def test_prediction_is_of_the_end_s_own_limit_and_of_either_sign():
    for car, sign in (("coupe", -1), ("gravel", 1)):
        panel = panel_of(car)
        asked = panel.prediction()
        before, after = (
            asked.quantity(panel.compute(panel.start_values(**at))) for at in (asked.before, asked.after)
        )
        every, sheet = every_reading(panel.car), panel.car
        here = sheet.front.hole, sheet.rear.hole
        assert before == pytest.approx(every[here].front.limit, rel=1e-6)
        assert after == pytest.approx(every[here[0] + 1, here[1]].front.limit, rel=1e-6)
        assert sign * (after - before) > asked.same


def test_wrong_belief_is_refuted_by_two_cars_of_opposite_sign():
    words = lesson_09.belief(Lesson("09", "coupe"))
    for name, sign in (("coupe", "-"), ("gravel", "+")):
        car = training_car(name)
        every, here = every_reading(car), (car.front.hole, car.rear.hole)
        change = every[here[0] + 1, here[1]].front.limit - every[here].front.limit
        assert f"| {sign}{show(abs(change), G, decimals=4)} |" in words


def test_paper_and_model_agree_or_the_words_say_that_they_do_not():
    for name in training_cars():
        car = training_car(name)
        words = lesson_09.by_hand(Lesson("09", name)).splitlines()
        gains = [window(car, (1.0,)).gain_at(end, 1.0) > 0 for end in ("front", "rear")]
        for line, gain in zip(words, gains, strict=True):
            if "so on paper" not in line:
                continue
            paper = "gains grip" in line
            assert ("paper cannot tell" in line) == (paper != gain), line


def test_paper_is_not_used_where_a_wheel_is_up():
    for said in (lesson_09.two_effects, lesson_09.by_hand):
        assert "off the ground" in said(Lesson("09", "hatch"))


def test_rule_is_tried_on_every_step_of_both_cars():
    words = lesson_09.rule_tried(Lesson("09", "coupe"))
    assert "College coupe:** 48 steps tried. Practice and model part on 0 of them." in words
    assert "College gravel car:** 28 steps tried. Practice and model part on 28 of them." in words


@pytest.mark.parametrize("without", ["front", "rear"])
def test_a_car_that_lacks_a_bar(without):
    sheet = training_car("coupe")
    sheet = replace(sheet, **{without: replace(sheet.axle(without), bar=None)})
    panel = panel_of(sheet)
    assert panel.fault is None and f"{without}_hole" not in panel.rows
    check_panel(panel, moves_limits=True)
