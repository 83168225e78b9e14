"""Lesson 6's panels: the gap under the chord, the sum at one slip angle, and the drawn prediction."""

import re

import numpy as np
import pytest

from rollmodel.car import GRAVITY
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_06
from rollmodel.panels.lessons.lesson_06 import PairsPanel, SlipPanel
from tests.panels.panel_checks import check_panel

# The usual one, one on three wheels, one with blades and a paper tyre.
CARS = ("coupe", "hatch", "single-seater")


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("panel", [PairsPanel, SlipPanel])
def test_every_control(panel, car):
    on_three_wheels = ("rear",) if car == "hatch" else ()  # wheel up: its rear bar does nothing
    check_panel(panel(Lesson("06", car)), quiet=on_three_wheels)


def test_loss_is_worked_out_by_hand():
    """On the coupe: 2 k dF^2 with k = 1.15 x 22.1e-6 per newton, at any setting.

    The paper sums the two tyres' separate bests; at one slip angle the pair loses a little more, up to 5 %.
    """
    panel = PairsPanel(Lesson("06"))
    for changes in ({}, {"front": 3, "rear": 1}, {"corner": 0.5 * GRAVITY}):
        pairs = panel.compute(panel.start_values(**changes))
        for end in ("front", "rear"):
            inside, outside = getattr(pairs, end)
            transfer = (outside - inside) / 2
            by_hand = 2 * 1.15 * 22.1e-6 * transfer**2
            assert by_hand - 1e-6 <= pairs.loss(end) <= 1.05 * by_hand


def test_the_stiffer_end_loses_and_the_other_gains():
    panel = PairsPanel(Lesson("06"))
    soft, stiff = (panel.compute(panel.start_values(front=hole)) for hole in (1, 3))
    assert stiff.forces("front").sum() < soft.forces("front").sum() - 10
    assert stiff.forces("rear").sum() > soft.forces("rear").sum() + 10


def test_predicted_force_stands_at_its_level():
    panel = PairsPanel(Lesson("06"))
    panel.card.direction.value, panel.card.size.value = "It falls", "30"
    panel.card.commit()
    drawing, guess = panel._artists, panel.card.guess_value()
    level = drawing["front guess"].get_ydata()[0] * drawing.fixed["deep"]
    even = panel.compute(panel.values).even("front")[1]
    assert drawing["front guess"].get_visible() and not drawing["rear guess"].get_visible()
    assert 2 * (even + level) == pytest.approx(guess)


def test_axle_at_one_slip_angle_gives_the_sum_of_both_tyres():
    panel = SlipPanel(Lesson("06"))
    pair = panel.compute(panel.start_values(transfer=1500.0, slip=np.radians(4.0)))
    assert pair.now == pytest.approx(sum(float(one) for one in pair.each(np.radians(4.0))))
    assert pair.now < float(pair.of_even_pair(np.radians(4.0)))


def by_trying(pair):
    """Most at one slip angle, sum of the two bests, and the angle of each, tried every 0.005 deg."""
    slips = np.radians(np.linspace(0.0, 30.0, 6001))
    each = pair.each(slips)
    return sum(each).max(), sum(one.max() for one in each), [np.degrees(slips[one.argmax()]) for one in each]


@pytest.mark.parametrize("car", ["coupe", "gravel", "hatch", "saloon"])
def test_the_words_tell_the_axle_s_best_from_the_sum_of_the_two(car):
    """Also where both are one number as printed: how little it is, and the angle best for each tyre."""
    lesson = Lesson("06", car)
    panel = SlipPanel(lesson)
    most, both, angles = by_trying(panel.compute(panel.start_values()))
    panel.card.skip()
    for words in (panel.caption.value, lesson_06.one_angle(lesson), lesson_06.on_paper(lesson)):
        alike = lesson.show(most, "load") == lesson.show(both, "load")
        told = "less than 1 N" if alike else f"{both - most:.0f} N"
        assert re.search(rf"costs {told}|comes {told} short", words), words
    outside, inside = (float(one) for one in re.search(r"best at (\S+) deg, the inside one at (\S+) deg",
                                                       panel.caption.value).groups())
    assert (outside, inside) == pytest.approx(angles, abs=0.01)


def test_where_the_coupe_s_two_numbers_agree_another_car_s_do_not():
    """The saloon's, worked out a second way."""
    pair = SlipPanel(Lesson("06", "saloon"))
    most, both, (outside, inside) = by_trying(pair.compute(pair.start_values()))
    found = re.search(r"On the College saloon, at (\S+) deg and (\S+) deg, sharing one angle costs (\d+) N",
                      lesson_06.one_angle(Lesson("06")))
    assert [float(one) for one in found.groups()] == pytest.approx([outside, inside, both - most], abs=0.6)
    assert both - most > 5


def test_at_the_ends_of_the_transfer_the_words_say_why_nothing_is_lost():
    panel = SlipPanel(Lesson("06"))
    panel.card.skip()
    for transfer, why in ((0.0, "Both are alike"), (panel.even(), "The inside tyre carries nothing")):
        panel.set(transfer=transfer)
        assert why in panel.caption.value
