"""Controls as data: scales in both families, reading what somebody typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rollmodel.panels.controls import Choice, Hole, Slider, Switch, round_number
from rollmodel.units import FAMILIES, KINDS, UnitError, to_display

BAR = Slider("bar", "Bar rate", "rate", 0.0, 60e3, 25e3)


@pytest.mark.parametrize(
    "value, round_up", [(0.6, 1), (1, 1), (1.01, 2), (2.2, 5), (7, 10), (0.034, 0.05), (3.426, 5)]
)
def test_round_steps(value, round_up):
    assert round_number(value) == round_up


@given(st.sampled_from(sorted(KINDS)), st.sampled_from(FAMILIES), st.floats(1e-4, 1e5), st.floats(0, 3))
def test_ends_of_the_scale_lie_inside_the_range(kind, family, low, more):
    slider = Slider("x", "X", kind, low, low * (1.5 + more), low)
    ends, step = slider.bounds(family), slider.step(family)
    shown = [to_display(end, kind, family) for end in (slider.low, slider.high)]
    assert shown[0] - 1e-5 * step <= ends[0] < ends[1] <= shown[1] + 1e-5 * step
    assert ends[0] - shown[0] < step and shown[1] - ends[1] < step  # no more than one step is lost


@given(st.sampled_from(sorted(KINDS)), st.sampled_from(FAMILIES), st.floats(0, 1))
def test_what_the_box_shows_can_be_typed_again(kind, family, part):
    slider = Slider("x", "X", kind, 1.0, 100.0, 1.0)
    value = 1.0 + 99 * part
    again = slider.read(slider.typed(value, family), family)
    assert abs(to_display(again - value, kind, family)) <= slider.step(
        family
    )  # the box rounds to a step at most


def test_a_bare_number_is_in_the_unit_shown_and_any_unit_may_be_written():
    assert BAR.read("30", "metric") == pytest.approx(30e3)
    assert BAR.read("171.3", "US customary") == pytest.approx(30e3, rel=1e-3)
    assert BAR.read("171.3 lbf/in", "metric") == pytest.approx(30e3, rel=1e-3)


@pytest.mark.parametrize(
    "text, words",
    [
        ("", "wanted"),
        ("stiff", "does not start with a number"),
        ("31,5", "comma"),
        ("nan", "not finite"),
        ("60.1", "wanted 0.0 to 60.0 N/mm, given 60.1 N/mm"),
        ("-1", "wanted 0.0 to 60.0 N/mm"),
        ("30 lb/in", "lbf/in was meant"),
        ("1e999", "finite"),
        ("30 mm", "a length"),
        ("1_0", "wanted"),
        ("9" * 400, "wanted"),
    ],
)
def test_nonsense_gets_one_sentence(text, words):
    with pytest.raises(UnitError) as refusal:
        BAR.read(text, "metric")
    assert words in str(refusal.value) and "\n" not in str(refusal.value)


def test_share_and_ratio():
    share = Slider("s", "Share", "share", 0.4, 0.6, 0.5)
    assert share.read("52", "metric") == pytest.approx(0.52) and share.with_unit(0.52, "metric") == "52.0 %"
    ratio = Slider("r", "Ratio", "ratio", 0.5, 1.0, 0.7)
    assert ratio.read("0.62", "metric") == 0.62 and ratio.with_unit(0.62, "metric") == "0.620"


def test_hole(car):
    hole = Hole.of("hole", "Front hole", car.front.bar)
    assert hole.with_unit(3, "metric") == "hole 3 of 3, 180 mm"
    assert hole.read(" 2 ", "metric") == 2
    for text in ("0", "4", "2.5", "two", "", "²", "-1", "9" * 10_000):
        with pytest.raises(UnitError, match="whole number from 1 to 3"):
            hole.read(text, "metric")


def test_words_of_choice_and_switch():
    assert Choice("c", "C", ("a", "b"), "a").with_unit("b", "metric") == "b"
    assert Switch("s", "S").with_unit(True, "metric") == "on"
