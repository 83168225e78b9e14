"""The picture of too soft and too stiff: its parts stay apart, update as drawn afresh, and tell the truth."""

from dataclasses import replace
from math import radians

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from rollmodel.advice.window import factors_for, times_as_stiff
from rollmodel.advice.window import window as window_of
from rollmodel.car import GRAVITY
from rollmodel.figures import softness, window
from rollmodel.figures.look import DPI, Look
from rollmodel.physics.balance import limits
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import FAMILIES, show
from tests.unit.test_figures import pixels, readable

LOOKS = (Look(), Look(projector=True))
MOST = radians(9) / GRAVITY


def scene(name, factor):
    """A training car so many times as stiff."""
    car = training_car(name)
    now, factors = times_as_stiff(car, factor), factors_for(car, MOST)
    held = limits(now)
    reach = {
        end: (
            0.2 * float(axle_stiffness(car.axle(end)).total_roll),
            2.4 * float(axle_stiffness(car.axle(end)).total_roll),
        )
        for end in softness.ENDS
    }
    curves = (softness.regimes_at_limit(now, end, held, reach[end]) for end in softness.ENDS)
    return softness.Scene(
        *curves,
        window.of_window(window_of(car, factors), factor, MOST),
        {end: softness.limit_of(held, end) for end in softness.ENDS},
    )


def scenes(name):
    softest = factors_for(training_car(name), MOST)[0]
    return [scene(name, factor) for factor in (softest, 1.0, 1.6, 2.5)]


def drawn(one, look, family="metric"):
    figure = Figure(figsize=softness.size(look), dpi=DPI, facecolor="white")
    FigureCanvasAgg(figure)
    return figure, softness.draw(figure, one, look, family)


@pytest.mark.parametrize("look", LOOKS, ids=("desk", "projector"))
@pytest.mark.parametrize("name", training_cars())
def test_words_lie_inside_apart_and_are_large_enough(name, look):
    for family in FAMILIES:
        first, *others = scenes(name)
        figure, drawing = drawn(first, look, family)
        width, height = figure.canvas.get_width_height()
        for one in (first, *others):
            softness.update(drawing, one)
            figure.canvas.draw()
            found = [(text.get_text(), text.get_window_extent()) for text in readable(figure)]
            assert min(text.get_fontsize() for text in readable(figure)) >= look.small
            for n, (text, box) in enumerate(found):
                assert box.x0 >= 0 and box.y0 >= 0 and box.x1 <= width and box.y1 <= height, (text, box)
                for other, second in found[n + 1 :]:
                    across = min(box.x1, second.x1) - max(box.x0, second.x0)
                    up = min(box.y1, second.y1) - max(box.y0, second.y0)
                    assert across <= 0.5 or up <= 2.5, (text, other)  # a box is a whole line, with its air


def test_update_equals_a_fresh_drawing():
    first, *others = scenes("coupe")
    figure, drawing = drawn(first, LOOKS[0])
    pixels(figure)
    seen = set()
    for one in (*others, first):
        softness.update(drawing, one)
        shown = pixels(figure)
        assert np.array_equal(shown, pixels(drawn(one, LOOKS[0])[0]))
        seen.add(shown.tobytes())
    assert len(seen) == len(others) + 1


@pytest.mark.parametrize("name", training_cars())
@pytest.mark.parametrize("family", FAMILIES)
def test_words_hold_the_model_s_numbers(name, family):
    one, car = scene(name, 1.0), training_car(name)
    words = softness.describe(one, family)
    for end in softness.ENDS:
        held = float(getattr(limits(car), end))
        limit = show(held, "lateral acceleration", family)
        assert f"{end.capitalize()} axle at its limit of {limit}, coasting" in words
        assert show(float(axle_stiffness(car.axle(end)).total_roll), "roll stiffness", family) in words
    assert "nan" not in words and "None" not in words


def test_regions_say_how_many_ends_gain():
    def said(name):
        _, drawing = drawn(scene(name, 1.0), LOOKS[0])
        return [text.get_text() for text in drawing.parts["window"]["kinds"] if text.get_visible()]

    assert said("coupe")[0].startswith("neither end gains") and said("coupe")[-1].startswith(
        ("the window", "window")
    )
    assert said("gravel")[-1].startswith("both") and said("single-seater") == [window.KINDS[0][0]]


def test_a_wheel_that_is_up_has_a_region_and_a_sentence_of_its_own():
    """The inside rear wheel of the hatch is up at the limit: only lean counts, and no two effects cross."""
    for name, up in (("hatch", True), ("coupe", False)):
        _, drawing = drawn(scene(name, 1.0), LOOKS[0])
        said = [text.get_text() for text in drawing.parts["window"]["kinds"] if text.get_visible()]
        words = softness.describe(scene(name, 1.0))
        assert (said == [window.KINDS[window.WHEEL_UP][0]]) == up
        assert ("At the limit the inside rear wheel is off the ground." in words) == up


def test_the_region_with_a_wheel_up_ends_where_the_wheel_comes_down():
    hatch = training_car("hatch")
    car = replace(hatch, cg_height=0.8 * hatch.cg_height)
    chart = window.of_window(window_of(car, factors_for(car, MOST)), 1.0, MOST)
    stiff, soft = (chart.gaining_at(roll) for roll in chart.reach)
    assert stiff in (0, 1, 2) and soft == window.WHEEL_UP and len(chart.borders()) == 1
    told = [window.wheel_up(chart.window, factor) for factor in (0.4, 1.4, 2.5)]
    assert "At the limit the inside rear" in told[0] and "At the limit of the rear the inside" in told[1]
    assert told[2] == ""


def test_a_guess_is_drawn_on_its_end_kept_on_the_scale_and_taken_away():
    figure, drawing = drawn(scene("coupe", 1.0), LOOKS[0])
    before = pixels(figure)
    front = drawing.parts["front"]
    low, high = front.fixed["grip"].span
    for force, kept in ((6850.0, (6850.0 - low) / (high - low)), (1e5, 1.0)):
        softness.mark(drawing, "front", force)
        assert front["guess limit"].get_ydata()[0] == pytest.approx(kept)
        assert not np.array_equal(pixels(figure), before)
    softness.mark(drawing, "front", None)
    assert np.array_equal(pixels(figure), before)


def test_the_numbers_beside_the_grip_stand_at_their_values_and_follow_another_setup():
    _, drawing = drawn(scene("coupe", 1.0), LOOKS[0])
    seen = []
    for factor in (1.0, 1.4):
        one = scene("coupe", factor)
        softness.update(drawing, one)
        front = drawing.parts["front"]
        numbers = [text for text in front["grip numbers"] if text.get_visible()]
        low, high = one.front.span
        values = np.array([float(text.get_text()) for text in numbers])
        assert len(numbers) >= 3 and np.all((low <= values) & (values <= high))
        heights = [text.get_position()[1] for text in numbers]
        assert heights == pytest.approx((values - low) / (high - low))
        assert front["grip ticks"].get_ydata() == pytest.approx(heights)
        top = front["curve"].get_ydata().max() * (high - low) + low
        assert top == pytest.approx(np.nanmax(one.front.grip))
        seen.append(list(values))
    assert seen[0] != seen[1]
