"""A committed guess in every picture: where it stands, and what is said of one that the scale cannot hold."""

from itertools import combinations

import pytest
from matplotlib.transforms import Bbox

from rollmodel.figures import guess
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_01 import AxlePanel
from rollmodel.panels.lessons.lesson_02 import BarPanel, BladePanel
from rollmodel.panels.lessons.lesson_03 import ChainPanel, LeverPanel
from rollmodel.panels.lessons.lesson_04 import BalancePanel, LeanPanel
from rollmodel.panels.lessons.lesson_05 import LoadsPanel
from rollmodel.panels.lessons.lesson_06 import PairsPanel, SlipPanel
from rollmodel.panels.lessons.lesson_07 import SteerPanel, TyresPanel
from rollmodel.panels.lessons.lesson_08 import CornerPanel, WhenPanel
from rollmodel.panels.lessons.lesson_09_panel import SoftnessPanel
from rollmodel.panels.predicting import MOST
from rollmodel.units import parse
from tests.unit.test_figures import readable

ON_A_SCALE = {AxlePanel: "01", BarPanel: "02", BladePanel: "02", LeverPanel: "03", ChainPanel: "03",
              LeanPanel: "04", BalancePanel: "04", LoadsPanel: "05", PairsPanel: "06", SlipPanel: "06",
              TyresPanel: "07", CornerPanel: "08", WhenPanel: "08", SoftnessPanel: "09"}
BEYOND = ("off the scale", "off the\nscale", "above the axle's load", "less than nothing")


def committed(panel, direction, size):
    panel.card.direction.value, panel.card.size.value = direction, size
    panel.card.commit()
    assert panel.card.guess_value() is not None, panel.card.message.value
    return panel.card.guess_value()


def told(panel):
    """The words of the picture, each with its place."""
    panel.canvas.figure.canvas.draw()
    texts = list(readable(panel.canvas.figure))
    for text in texts:
        text.draw(panel.canvas.figure.canvas.get_renderer())
    return [(text.get_text(), text.get_window_extent()) for text in texts]


@pytest.mark.parametrize("projector", [False, True], ids=("desk", "projector"))
@pytest.mark.parametrize("direction", ["It rises", "It falls"])
@pytest.mark.parametrize("kind", ON_A_SCALE, ids=lambda kind: kind.__name__)
def test_a_guess_beyond_the_scale_says_so_with_its_value(kind, direction, projector):
    lesson = Lesson(ON_A_SCALE[kind])
    panel = kind(lesson)
    lesson.change(projector=projector)
    asked = panel.prediction()
    most = parse(MOST[asked.kind], asked.kind)
    value = committed(panel, direction, panel.card._shown(0.5 * most))
    panel.set(**asked.after)
    assert panel.fault is None, panel.fault
    shown = kind is SoftnessPanel and panel.lesson.show(value * panel.car.axle_mass("front"), "load")
    words, whole = told(panel), panel.canvas.figure.bbox
    said = " ".join(text for text, _ in words)
    assert (shown or panel.card._shown(value)) in said and any(one in said for one in BEYOND), said
    for text, box in words:
        if guess.PLAIN in text or text in BEYOND:
            assert Bbox.intersection(box, whole).width > box.width - 1, text
    for (one, first), (other, second) in combinations(words, 2):
        if guess.PLAIN in one + other:
            across, up = (min(getattr(first, f"{axis}1"), getattr(second, f"{axis}1"))
                          - max(getattr(first, f"{axis}0"), getattr(second, f"{axis}0")) for axis in "xy")
            assert across <= 0.5 or up <= 3.0, (one, other)  # a box is a whole line, with its air


@pytest.mark.parametrize("kind", ON_A_SCALE, ids=lambda kind: kind.__name__)
def test_a_guess_that_the_scale_holds_is_a_line_without_more_words(kind):
    panel = kind(Lesson(ON_A_SCALE[kind]))
    committed(panel, "It stays about the same", "")
    said = [text for text, _ in told(panel)]
    assert [text for text in said if guess.PLAIN in text and any(one in text for one in BEYOND)] == []
    assert [text for text in said if text.startswith(guess.PLAIN)] and "off the\nscale" not in said


def test_a_steep_guess_keeps_its_words_in_the_picture():
    """A slope has no end of a scale: its line leaves the picture where it must."""
    for direction in ("It rises", "It falls"):
        panel = SteerPanel(Lesson("07"))
        panel.card.again()
        committed(panel, direction, "25 deg/g")
        (box,) = [box for text, box in told(panel) if text == guess.PLAIN]
        assert Bbox.intersection(box, panel._artists.fixed["upper"].bbox).width > box.width - 1


def test_a_guess_follows_the_scale_on_which_it_stands():
    """Lesson 9's scale of grip moves with the setup, and the mark with it."""
    panel = SoftnessPanel(Lesson("09"))
    value = committed(panel, "It falls", "0.001 g") * panel.car.axle_mass("front")
    part, seen = panel._artists.parts["front"], set()
    for stiff in (1.0, 0.8, 1.3):
        panel.set(stiff=stiff)
        low, high = part.fixed["grip"].span
        line = part["guess limit"]
        place = (value - low) / (high - low)
        assert line.get_ydata()[0] == pytest.approx(min(max(place, 0.0), 1.0))
        assert (line.get_marker() == "none") == (0 <= place <= 1)
        seen.add(round(place, 6))
    assert len(seen) == 3
