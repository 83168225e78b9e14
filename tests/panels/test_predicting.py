"""What a prediction's size may be: above nothing, believable, and nothing typed is lost."""

import pytest

from rollmodel.panels import Lesson
from rollmodel.panels.lessons import lesson_10
from rollmodel.panels.predicting import MOST
from rollmodel.units import KINDS, parse
from tests.panels.example_panel import example_panel_class


def commit(panel, size):
    """Commit to a rise by a size as typed; returns the message."""
    panel.card.direction.value, panel.card.size.value = "It rises", size
    panel.card.commit()
    return panel.card.message.value


@pytest.mark.parametrize("typed", ["-5", "-5 N*m/deg", "0"])
def test_a_size_has_no_sign_of_its_own(car, typed):
    panel = example_panel_class()(Lesson("02", car))
    said = commit(panel, typed)
    assert "By about: wanted a size above 0" in said and "chosen beside it" in said
    assert panel.card.size.value == typed and panel.card.guess_value() is None
    assert commit(panel, "5") == "" and panel.card.guess_value() is not None


def test_no_change_of_grip_is_five_g():
    panel = lesson_10.ChangePanel(Lesson("10", "coupe"))
    said = commit(panel, "5")
    assert "By about: wanted a lateral acceleration from 0 to 3 g" in said and "not believable" in said
    assert panel.card.guess_value() is None
    assert commit(panel, "0.05") == ""


def test_the_largest_size_of_each_kind_can_be_read():
    assert all(parse(text, kind) > 0 for kind, text in MOST.items()) and set(MOST) < set(KINDS)
