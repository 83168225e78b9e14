"""The canvas: what is shown is the figure as it stands, painted in part or in whole."""

import io

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.patheffects import withStroke
from PIL import Image

from rollmodel.panels import lettering
from rollmodel.panels.canvas import Canvas, moving_artists
from tests.panels.whole_pixels import words_on_whole_pixels


def pixels(png):
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"))


@pytest.fixture
def scene():
    canvas = Canvas((4, 3))
    axes = canvas.figure.add_axes((0.15, 0.15, 0.8, 0.8))
    axes.set_xlim(0, 10)
    axes.set_ylim(0, 10)
    axes.fill_between([0, 10], 2, 3)  # background
    (line,) = axes.plot([0, 10], [0, 5], zorder=3)  # above the axes, as it is painted last
    word = axes.text(5, 8, "word")
    canvas.hold({"line": line, "words": [word]})
    return canvas, axes, line, word


def drawn_anew(canvas):
    """The same figure painted by matplotlib alone, moving artists and all, words on whole pixels."""
    for artist in canvas._moving:
        artist.set_animated(False)
    agg = FigureCanvasAgg(canvas.figure)
    with words_on_whole_pixels(canvas._moving):
        agg.draw()
    whole = np.asarray(agg.buffer_rgba())[..., :3].copy()
    for artist in canvas._moving:
        artist.set_animated(True)
    return whole


def test_part_by_part_gives_what_painting_all_gives(scene):
    canvas, axes, line, word = scene
    canvas.png()
    line.set_ydata([9, 1])
    word.set_text("other")
    shown = pixels(canvas.png())
    assert canvas.full_paints == 1
    assert np.array_equal(shown, drawn_anew(canvas))


def test_no_ghost_of_an_earlier_state(scene):
    canvas, _, line, _ = scene
    first = canvas.png()
    line.set_ydata([9, 1])
    assert canvas.png() != first
    line.set_ydata([0, 5])
    assert canvas.png() == first and canvas.full_paints == 1


@pytest.mark.parametrize(
    "change",
    [
        lambda axes: axes.set_xlim(0, 20),
        lambda axes: axes.set_xlabel("more"),
        lambda axes: axes.set_title("more"),
        lambda axes: axes.set_position((0.3, 0.3, 0.5, 0.5)),
        lambda axes: axes.collections[0].set_color("red"),
    ],
)
def test_a_change_of_the_background_is_seen(scene, change):
    canvas, axes, _, _ = scene
    first = canvas.png()
    change(axes)
    assert canvas.png() != first and canvas.full_paints == 2
    canvas.png()
    assert canvas.full_paints == 2  # and only once


def test_hidden_artists_are_not_shown(scene):
    canvas, _, line, _ = scene
    first = canvas.png()
    line.set_visible(False)
    assert canvas.png() != first and canvas.full_paints == 1


def test_the_stored_picture_is_small_and_close(scene):
    canvas = scene[0]
    exact, small = canvas.png(), canvas.small_png()
    assert len(small) < len(exact)
    assert np.abs(pixels(small).astype(int) - pixels(exact)).mean() < 2  # of 255, by eye the same


def test_clearing_keeps_the_figure(scene):
    canvas = scene[0]
    figure = canvas.figure
    canvas.clear((8, 6))
    assert canvas.figure is figure and not figure.axes
    assert pixels(canvas.png()).shape[:2] == (6 * 96, 8 * 96)


def test_artists_are_found_wherever_they_lie(scene):
    _, _, line, word = scene

    class Drawing:
        moving = [line, word]

    for drawn in (Drawing(), [line, [word]], (line, {"a": word}), {"a": line, "b": (word, None)}):
        assert moving_artists(drawn) == [line, word]
    assert moving_artists(line) == [line] and moving_artists(None) == []


def letters_anew(canvas):
    """The same moving artists, with every text set by matplotlib."""
    canvas._agg.restore_region(canvas._fixed)
    with words_on_whole_pixels(canvas._moving):
        for artist in canvas._moving:
            canvas.figure.draw_artist(artist)
    return np.asarray(canvas._agg.buffer_rgba())[..., :3].copy()


CHANGES = [
    {"text": "two\nlines"},
    {"position": (2.25, 4.75)},
    {"color": "red"},
    {"alpha": 0.4},
    {"fontsize": 17},
    {"fontweight": "bold"},
    {"rotation": 30},
    {"ha": "right", "va": "top"},
    {"text": "two\nlines", "linespacing": 2.0},
    {"bbox": {"facecolor": "white", "edgecolor": "red"}},
    {"bbox": {"facecolor": "yellow", "edgecolor": "none", "boxstyle": "round,pad=1.5"}},
    {"bbox": {"facecolor": "yellow", "alpha": 0.3}},
    {"path_effects": [withStroke(linewidth=5, foreground="yellow")]},
    {"visible": False},
    {"text": ""},
    {"position": (9.9, 9.9), "fontsize": 40},
    {"position": (0.0, -1.0)},
    {"position": (50, 50)},
]


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: "-".join(change))
def test_a_copied_text_is_the_same(scene, change):
    canvas, _, line, word = scene
    canvas.png()
    word.set(**change)
    for height in (5, 6, 5):
        line.set_ydata([0, height])
        off = np.abs(pixels(canvas.png()).astype(int) - letters_anew(canvas))
        assert off.max() <= 3  # of 255: half-covered pixels over a line are rounded twice


def test_words_cut_by_the_edge_are_whole_elsewhere(scene):
    canvas, _, _, word = scene
    word.set(text="most grip", position=(-3, 9), fontsize=20)
    canvas.png()
    word.set_position((4, 6))
    assert np.array_equal(pixels(canvas.png()), letters_anew(canvas))


def test_words_that_move_are_set_once(scene):
    canvas, _, _, word = scene
    for x in np.linspace(0, 9, 40):
        word.set_position((x, x / 2))
        canvas.png()
    assert len(canvas._lettering._seen) == 1


def test_what_is_remembered_is_bounded(scene, monkeypatch):
    monkeypatch.setattr(lettering, "MOST", 5)
    canvas, _, _, word = scene
    for number in range(40):
        word.set_text(str(number // 2))
        canvas.png()
        assert len(canvas._lettering._seen) <= 5
