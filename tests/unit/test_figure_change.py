"""The picture of a change: its parts stay apart, update as drawn afresh, and show the model's numbers."""

import re
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from rollmodel.advice.kept import every_reading
from rollmodel.car import GRAVITY, Tyre
from rollmodel.figures import change, limit_lines
from rollmodel.figures.look import DPI, Look
from rollmodel.panels.canvas import Canvas
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import FAMILIES, show, to_display
from tests.unit.test_figures import pixels, readable

LOOKS = (Look(), Look(projector=True))


def scenes(name):
    """Every pair of holes beside the one on the sheet, in corners from none to past the limit."""
    car = training_car(name)
    every = every_reading(car)
    fitted = next(iter(every))
    most = max(reading.limit for reading in every.values())
    for n, (pair, now) in enumerate(every.items()):
        part = (0.0, 0.5, 0.9, 1.05)[n % 4]
        yield change.in_corner(car, part * most, pair, change.limits_of(every[fitted], now, every.values()))


def drawn(scene, look, family="metric"):
    figure = Figure(figsize=change.size(look), dpi=DPI, facecolor="white")
    FigureCanvasAgg(figure)
    return figure, change.draw(figure, scene, look, family)


@pytest.mark.parametrize("look", LOOKS, ids=("desk", "projector"))
@pytest.mark.parametrize("name", training_cars())
def test_words_lie_inside_apart_and_are_large_enough(name, look):
    for family in FAMILIES:
        first, *others = scenes(name)
        figure, drawing = drawn(first, look, family)
        width, height = figure.canvas.get_width_height()
        for scene in (first, *others):
            change.update(drawing, scene)
            figure.canvas.draw()
            found = [(text.get_text(), text.get_window_extent()) for text in readable(figure)]
            assert min(text.get_fontsize() for text in readable(figure)) >= look.small
            for n, (text, box) in enumerate(found):
                assert box.x0 >= 0 and box.y0 >= -1 and box.x1 <= width and box.y1 <= height, (text, box)
                for other, second in found[n + 1 :]:
                    across = min(box.x1, second.x1) - max(box.x0, second.x0)
                    up = min(box.y1, second.y1) - max(box.y0, second.y0)
                    assert across <= 0.5 or up <= 2.5, (text, other)  # a box is a whole line, with its air


def grounded(figure):
    """Words on a patch of ground, which hides what lies under it, and the place of that patch."""
    for text in readable(figure):
        if text.get_bbox_patch() is not None:
            yield text, text.get_bbox_patch().get_window_extent()


@pytest.mark.parametrize("look", LOOKS, ids=("desk", "projector"))
@pytest.mark.parametrize("name", training_cars())
def test_no_words_hide_a_dashed_box_a_leader_or_the_edge_of_a_magnified_view(name, look):
    first, *others = scenes(name)
    figure, drawing = drawn(first, look)
    above, pairs = drawing.parts["loads"], drawing.parts["pairs"]
    leaders = [pairs[f"{end} leader"] for end in ("front", "rear")]
    edges = [pairs[f"{end} guess"].axes.patch for end in ("front", "rear")]
    looked = 0
    for scene in (first, *others):
        change.update(drawing, scene)
        figure.canvas.draw()
        for line in (*above["even"], *leaders, *edges):
            path = line.get_transform().transform_path(line.get_path())
            for text, patch in grounded(figure):
                assert not path.intersects_bbox(patch, filled=False), (text.get_text(), scene.loads)
                looked += 1
    assert looked > 100


def test_update_equals_a_fresh_drawing():
    first, *others = scenes("coupe")
    figure, drawing = drawn(first, LOOKS[0])
    pixels(figure)
    seen = set()
    for scene in (*others, first):
        change.update(drawing, scene)
        shown = pixels(figure)
        assert np.array_equal(shown, pixels(drawn(scene, LOOKS[0])[0]))
        seen.add(shown.tobytes())
    assert len(seen) == len(others) + 1


def test_only_moving_artists_move():
    first, *others = scenes("hatch")
    canvas = Canvas(change.size(LOOKS[0]))
    drawing = change.draw(canvas.figure, first, LOOKS[0])
    canvas.hold(drawing)
    canvas.png()
    for scene in others:
        change.update(drawing, scene)
        again = Canvas(change.size(LOOKS[0]))
        again.hold(change.draw(again.figure, scene, LOOKS[0]))
        assert canvas.png() == again.png()
    assert canvas.full_paints == 1


@pytest.mark.parametrize("family", FAMILIES)
def test_words_and_scene_hold_the_model_s_numbers(family):
    car, at = training_car("coupe"), 0.9 * GRAVITY
    every = every_reading(car)
    scene = change.in_corner(car, at, (1, 3), change.limits_of(every[2, 2], every[1, 3], every.values()))
    corner = settled_corner(car, at, axle_stiffness(car.front, 1), axle_stiffness(car.rear, 3))
    words = change.describe(scene, family)
    for end in ("front", "rear"):
        inside, outside = (float(one) for one in (corner.axle(end).inside, corner.axle(end).outside))
        assert f"{end} {show(inside, 'load', family)} inside" in words
        told = float(re.search(rf"{end} \S+ \w+ inside, (\d+) \w+ outside", words)[1])
        # both add up to the axle's load as printed, so that the second may be one off in the last digit
        assert abs(told - to_display(outside, "load", family)) <= 1.0
        whole = to_display(inside + outside, "load", family)
        assert told + round(to_display(inside, "load", family)) == round(whole)
        for pair in ((2, 2), (1, 3)):
            assert f"{end} {show(every[pair].end(end).limit, 'lateral acceleration', family, 4)}" in words
    assert not re.search(r"nan|None", words)


def beyond(name, part, family="metric"):
    """A car asked for part of what it can hold, as drawn, and what all words in the picture say."""
    car, every = training_car(name), every_reading(training_car(name))
    pair, here = next(iter(every.items()))
    scene = change.in_corner(car, part * here.limit, pair, change.limits_of(here, here, every.values()))
    figure, drawing = drawn(scene, LOOKS[0], family)
    return scene, drawing, [text.get_text() for text in readable(figure)], here.limit


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("name", training_cars())
def test_no_car_is_drawn_in_a_corner_that_it_cannot_hold(name, family):
    """Past the limit loads and pairs are those of the limit, by the physics, and both pictures say so."""
    scene, drawing, said, limit = beyond(name, 1.02, family)
    assert not scene.held
    corner = settled_corner(training_car(name), limit)
    for n, end in enumerate(("front", "rear")):
        for out, side in enumerate(("inside", "outside")):
            load = float(getattr(corner.axle(end), side))
            assert scene.loads.load(n, bool(out)) == pytest.approx(load, abs=1e-6)
            x = drawing.parts["pairs"][f"{end} pair"].get_xdata()[out]
            assert x == pytest.approx(to_display(load, "load", family), abs=1e-6)
    asked, most = (f"{one / GRAVITY:.3f} g" for one in (1.02 * limit, limit))
    assert f"It cannot hold {asked}: drawn at {most}" in said
    assert f"Both pairs at the limit, {most}" in said
    words = change.describe(scene, family)
    assert f"It cannot hold {asked}, so the picture is drawn at its limit: at {most}" in words
    assert not any("turning left" in words for words in said)


def test_up_to_the_limit_the_corner_asked_for_is_drawn():
    for part in (0.5, 0.999):
        scene, drawing, said, limit = beyond("coupe", part)
        assert scene.held and scene.loads.lateral_acceleration == part * limit
        assert f"From above, turning left at {part * limit / GRAVITY:.2f} g" in said
        assert not any("limit" in words or "cannot" in words for words in said)
        assert "cannot hold" not in change.describe(scene)


def test_a_hair_past_the_limit_the_two_numbers_differ_in_print():
    _, _, said, limit = beyond("coupe", 1.0004)
    asked, most = (f"{one / GRAVITY:.4f} g" for one in (1.0004 * limit, limit))
    assert asked != most and f"It cannot hold {asked}: drawn at {most}" in said


def test_a_car_that_rolls_over_is_drawn_no_further_than_that():
    """A tall car on grippy tyres, invented: it comes to its wheels' lifting before they slide."""
    car = replace(training_car("gravel"), cg_height=0.95, tyre=Tyre(grip_scale=2.0))
    every = every_reading(car)
    pair, here = next(iter(every.items()))
    assert here.limit_end == "rollover"
    scene = change.in_corner(car, 1.05 * here.limit, pair, change.limits_of(here, here, every.values()))
    figure, drawing = drawn(scene, LOOKS[0])
    said = [text.get_text() for text in readable(figure)]
    assert not scene.held and any(words.startswith("It cannot hold") for words in said)
    assert f"The car rolls over at {here.limit / GRAVITY:.3f} g" in said
    assert not re.search(r"nan|None", change.describe(scene))


@pytest.mark.parametrize("end", ["front", "rear"])
def test_no_line_runs_through_a_value(end):
    """The guess and the car's limit pass behind the words: their place looks the same without them."""
    scene = next(scenes("coupe"))
    figure, drawing = drawn(scene, LOOKS[0])
    strip = drawing.parts["limits"]
    word = strip[f"{end} after word"]
    figure.canvas.draw()
    box = word.get_window_extent()
    rows = slice(*(int(figure.canvas.get_width_height()[1] - y) for y in (box.y1 - 4, box.y0 + 1)))
    place = rows, slice(int(box.x0) + 1, int(box.x1) - 1)
    before = pixels(figure)[place]
    middle = strip.ax.transData.inverted().transform(((box.x0 + box.x1) / 2, 0))[0]
    strip["guess"].set(xdata=[middle] * 2, ydata=strip.ax.get_ylim(), visible=True)
    strip["car"].set_xdata([middle] * 2)
    assert np.array_equal(pixels(figure)[place], before)
    word.set_bbox(None)
    assert not np.array_equal(pixels(figure)[place], before), "the lines did cross the words"


def test_inside_wheels_are_named_beside_their_points():
    """Even where one is off the ground and the other is not: near both, in parts of the scales."""
    limits = next(scenes("hatch")).limits
    scene = change.in_corner(training_car("hatch"), 0.88 * GRAVITY, (1, 1), limits)
    assert scene.loads.lifted[1]
    drawing = drawn(scene, LOOKS[0])[1].parts["pairs"]
    x, y = drawing["inside"].get_position()
    across, up = (np.ptp(ends) for ends in (drawing.ax.get_xlim(), drawing.ax.get_ylim()))
    for end in ("front", "rear"):
        load, force = (values[0] for values in drawing[f"{end} pair"].get_data())
        assert np.hypot((x - load) / across, (y - force) / up) < 0.28, end


def test_a_guess_is_drawn_on_its_own_line_and_taken_away():
    scene = next(scenes("coupe"))
    figure, drawing = drawn(scene, LOOKS[0])
    before = pixels(figure)
    change.mark(drawing, "rear", 1.05 * GRAVITY)
    strip = drawing.parts["limits"]
    assert np.mean(strip["guess"].get_ydata()) == limit_lines.LINES["rear"]
    assert strip["guess"].get_xdata()[0] == pytest.approx(1.05)
    assert not np.array_equal(pixels(figure), before)
    change.mark(drawing, "rear", None)
    assert np.array_equal(pixels(figure), before)


@pytest.mark.parametrize("look", LOOKS, ids=("desk", "projector"))
@pytest.mark.parametrize("end, limit", [("front", 1.9), ("rear", 1.9), ("front", 0.4), ("rear", 0.4)])
def test_a_guess_off_the_scale_says_so_clear_of_every_other_word(end, limit, look):
    """For every pair of holes, so wherever the values on the two lines stand."""
    first, *others = scenes("coupe")
    figure, drawing = drawn(first, look)
    change.mark(drawing, end, limit * GRAVITY)
    strip = drawing.parts["limits"]
    assert strip["guess"].get_marker() != "none" and strip["guess"].get_ydata() == [limit_lines.LINES[end]]
    assert strip["guess"].get_xdata()[0] in strip.ax.get_xlim()
    assert strip["guess word"].get_text() == f"{end}: your guess {limit:.3f} g, off the scale"
    for scene in (first, *others):
        change.update(drawing, scene)
        box = strip["guess word"].get_window_extent(figure.canvas.get_renderer())
        assert strip.ax.bbox.x0 <= box.x0 and box.x1 <= strip.ax.bbox.x1
        for text in set(readable(figure)) - {strip["guess word"]}:
            other = text.get_window_extent()
            across = min(box.x1, other.x1) - max(box.x0, other.x0)
            up = min(box.y1, other.y1) - max(box.y0, other.y0)
            assert across <= 0.5 or up <= 2.5, text
