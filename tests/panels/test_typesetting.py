"""Lines put together from pieces look as matplotlib sets them in one go, and are as long."""

import numpy as np
import pytest
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.font_manager import FontProperties

from rollmodel.panels import typesetting
from rollmodel.panels.typesetting import PIECES, Typesetter, whole_pixel

SIZE, DPI, AT = (900, 90), 96, (30.0, 60.0)
LINES = [
    "172 N",
    "0123456789",
    "front: 173.4 N in all",
    "From above, turning left at 0.08 g",
    "1 N (2 × 0.6 N)",
    "−12.5 deg/g, hole 3 of 5",
    "T1.7V 4,11 A1 1A f1 1f",
    "one line without a number, fi fl AV To",
    "  7  ",
    "60 000 N·m/deg",
]
FONTS = [FontProperties(size=size, weight=weight) for size in (10, 11.5, 18) for weight in ("normal", "bold")]
EVERY = [(line, font) for line in LINES for font in FONTS]


def painted(kind, line, font, **how):
    """The line alone, by one renderer, over white."""
    renderer = kind(*SIZE, DPI)
    gc = renderer.new_gc()
    gc.set_foreground((0.1, 0.2, 0.6, 1.0), isRGBA=True)
    renderer.draw_text(gc, *AT, line, font, how.get("angle", 0), how.get("ismath", False))
    pixels = np.asarray(renderer.buffer_rgba()).astype(float)
    share = pixels[..., 3:] / 255
    return pixels[..., :3] * share + 255 * (1 - share), renderer


@pytest.mark.parametrize("line, font", EVERY)
def test_a_line_looks_as_if_set_in_one_go(line, font):
    """Where two letters meet in one pixel it may be rounded once more: two steps of 255 are not seen."""
    ours, whole = (painted(kind, line, font)[0] for kind in (Typesetter, RendererAgg))
    assert (whole < 128).any()
    assert np.abs(ours - whole).max() <= 2


@pytest.mark.parametrize("line, font", EVERY)
def test_a_line_is_as_long_and_as_high(line, font):
    """Within two 64ths of a pixel, the smallest step that type is measured in."""
    ours, whole = (
        kind(*SIZE, DPI).get_text_width_height_descent(line, font, False)
        for kind in (Typesetter, RendererAgg)
    )
    assert ours == pytest.approx(whole, abs=2 / 64)


@pytest.mark.parametrize("how", [{"angle": 30}, {"ismath": True}], ids=["slanting", "a formula"])
def test_what_is_left_to_matplotlib(how):
    ours, whole = (painted(kind, "$k_{12}$", FONTS[0], **how)[0] for kind in (Typesetter, RendererAgg))
    assert np.array_equal(ours, whole)
    sizes = [
        kind(*SIZE, DPI).get_text_width_height_descent("$k_{12}$", FONTS[0], True)
        for kind in (Typesetter, RendererAgg)
    ]
    assert sizes[0] == sizes[1]


def test_another_number_is_set_from_the_same_digits(monkeypatch):
    """Once all ten were set, a new number asks nothing of matplotlib's type."""
    _, renderer = painted(Typesetter, "0123456789 N", FONTS[0])
    kept = len(renderer._pixels)

    def never(*_, **__):
        raise AssertionError("set afresh")

    monkeypatch.setattr(RendererAgg, "draw_text", never)
    monkeypatch.setattr(RendererAgg, "get_text_width_height_descent", never)
    gc = renderer.new_gc()
    gc.set_foreground((0.1, 0.2, 0.6, 1.0), isRGBA=True)
    renderer.draw_text(gc, *AT, "90210 N", FONTS[0], 0)
    assert len(renderer._pixels) == kept
    assert renderer.get_text_width_height_descent("86420 N", FONTS[0], False)[0] > 0


def test_what_is_remembered_is_bounded(monkeypatch):
    monkeypatch.setattr(typesetting, "MOST", 5)
    renderer = Typesetter(*SIZE, DPI)
    for number in range(40):
        renderer.draw_text(renderer.new_gc(), *AT, f"{number} {'a' * number}", FONTS[0], 0)
        assert len(renderer._pixels) <= 5 and len(renderer._sizes) <= 6


def test_half_a_pixel_goes_up_wherever_it_is():
    for base in (0, 1, 2, 728, 729):
        assert [whole_pixel(base + part) for part in (0, 0.49, 0.5, 0.5 - 1e-9, 0.51)] == [
            base,
            base,
            base + 1,
            base + 1,
            base + 1,
        ]


def test_pieces_are_single_digits_and_what_lies_between():
    assert PIECES.findall("front: 17.5 N") == ["front: ", "1", "7", ".", "5", " N"]
