"""Lesson 9's panel and words: both ends' tops, the window, and two cars that no single rule serves."""

import re
from dataclasses import replace
from html import unescape

import numpy as np
import pytest

from rollmodel.advice.kept import every_reading
from rollmodel.advice.window import window
from rollmodel.car import GRAVITY
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_09
from rollmodel.panels.lessons.lesson_09 import SoftnessPanel
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.regimes import axle_grip_against_stiffness
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.tyre import knows_camber
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import FAMILIES
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
        before, after = (
            round(every[pair].front.limit / GRAVITY, 4) for pair in (here, (here[0] + 1, here[1]))
        )
        assert f"| {before:.4f} g | {after:.4f} g | {sign}{abs(after - before):.4f} g |" in words


def test_paper_and_model_agree_or_the_words_say_that_they_do_not():
    for name in training_cars():
        car = training_car(name)
        said = lesson_09.by_hand(Lesson("09", name)).splitlines()
        words = [line for line in said if line.startswith("- ")]
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
    assert "College coupe:** 48 steps tried. Practice and model part on none of them." in words
    assert "College gravel car:** 28 steps tried. Practice and model part on 28 of them." in words


@pytest.mark.parametrize("without", ["front", "rear"])
def test_a_car_that_lacks_a_bar(without):
    sheet = training_car("coupe")
    sheet = replace(sheet, **{without: replace(sheet.axle(without), bar=None)})
    panel = panel_of(sheet)
    assert panel.fault is None and f"{without}_hole" not in panel.rows
    check_panel(panel, moves_limits=True)


@pytest.mark.parametrize("car", sorted(training_cars()))
@pytest.mark.parametrize("lean", (True, False))
def test_what_a_top_is_by_the_curve_itself(car, lean):
    """A kink where grip turns within a thousandth of the stiffness; a smooth top has no slope there."""
    panel = panel_of(car)
    values = panel.start_values(lean=lean)
    scene, sheet = panel.compute(values), panel._setup(values)
    said = panel.describe(scene)
    for end in ("front", "rear"):
        curve = getattr(scene, end)
        sentence = said.split(f"{end.capitalize()} axle at its limit")[1].split("tyres included.")[0]
        if curve.top is None:
            assert "kink" not in sentence and "smooth" not in sentence
            continue
        near = curve.top * (1 + 1e-3 * np.arange(-2, 3))
        grip = axle_grip_against_stiffness(sheet, end, scene.limits[end], near)
        turn = (grip[1] - grip[0]) - (grip[4] - grip[3])  # at a smooth top the slope hardly alters
        assert ("kink" in sentence) == (turn > 0.01 * abs(grip[4] - grip[3])) == bool(curve.kind.lifting) or (
            "smooth top" in sentence and abs(turn) < 1e-3
        )
        bare = replace(sheet, **{end: replace(sheet.axle(end), bar=None)})
        springs = float(axle_stiffness(bare.axle(end)).total_roll)
        assert ("no bar reaches it" in sentence) == (curve.top < springs)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_numbers_on_paper_give_the_stiffness_on_paper(family):
    """K = a11 W kappa t / (4 a1 dF) from the printed numbers, within the rounding of the printed ones."""
    lesson = Lesson("09", "coupe")
    lesson.family = family
    tyre, *lines = (line for line in lesson_09.by_hand(lesson).splitlines() if line)
    a11, a1 = (float(re.search(rf"{name} = ([\d.]+)", tyre)[1]) for name in ("a11", "a1"))
    for line in lines:
        weight, kappa, track, moved, found = (
            float(one) for one in re.search(
                r"W = ([\d.]+) .*kappa = ([\d.]+), t = ([\d.]+) .*dF = ([\d.]+) .* = \*\*([\d.]+) ", line
            ).groups()
        )
        feet = 12.0 if "t in ft" in tyre else 1.0
        worked = a11 * weight * kappa * (track / feet) / (4 * a1 * moved / 1000)
        assert worked == pytest.approx(found, rel=0.006)  # a11 and a1 are printed to three figures


@pytest.mark.parametrize("car", sorted(training_cars()))
def test_a_lifted_wheel_is_not_called_the_window(car):
    """One gain is called the window only where both inside wheels stay on the ground at either limit."""
    lesson = Lesson("09", "coupe")
    sheet = training_car(car)
    row = next(line for line in lesson_09.five_cars(lesson).splitlines() if f"| {sheet.title}" in line)
    held = limits(sheet)
    up = any(
        settled_corner(sheet, float(getattr(held, at))).axle(end).inside <= 0
        for at in ("front", "rear") for end in ("front", "rear")
    )
    own = Lesson("09", car)
    assert ("wheel up" in row) == up and not (up and "window" in row)
    assert (f"**{sheet.title}:** At the limit the inside" in lesson_09.five_cars(lesson)) == up
    assert ("an inside wheel is up at the limit" in lesson_09.take_away(own)[3]) == up
    assert ("wheel is off the ground. There" in unescape(SoftnessPanel(own).caption.value)) == up


@pytest.mark.parametrize("car", sorted(training_cars()))
def test_the_step_of_bar_is_told_from_what_the_axle_gains(car):
    lesson = Lesson("09", car)
    words = lesson_09.five_cars(lesson).splitlines()[-1]
    step, front, rear, *others = (float(one) for one in re.findall(r"(\d+) N·m/deg", words))
    assert len(others) == 2 and min(others) <= step <= max(others)
    assert front < step and rear < step and "in the bar" in words and "coasting" in words
    axle = axle_stiffness(lesson.car.front)
    inside = float(np.degrees(1.0)) * step  # N*m/rad
    whole = 1 / (1 / (float(axle.suspension_roll) + inside) + 1 / float(axle.tyre_roll))
    gain = (whole - float(axle.total_roll)) / float(np.degrees(1.0))
    assert front == pytest.approx(gain, abs=1.5)  # the step itself is printed to the newton metre
