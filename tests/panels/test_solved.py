"""The figures beside worked solutions: drawn from the question's numbers, with words that say the answer."""

import pytest

from rollmodel.panels.solved import picture
from rollmodel.panels.solved_scenes import SCENES
from rollmodel.questions import start
from rollmodel.questions.records import Numeric
from rollmodel.units import FAMILIES, show

NOT_IN_WORDS = {"jacked-steps"}  # a slope: the figure shows it, its words tell how straight the line is


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("question_id", SCENES)
def test_a_picture_shows_the_question_as_it_was_solved(question_id, family):
    work = start("example", units=family)
    posed, found = work.posed(question_id), picture(work, question_id)
    assert found.png.startswith(b"\x89PNG") and len(found.words) >= 40
    if isinstance(posed.question, Numeric) and question_id not in NOT_IN_WORDS:
        assert show(posed.key, posed.question.kind, family) in found.words


def test_the_picture_follows_the_code_word():
    code_words = "example", "blue kestrel", "red kite"
    assert len({picture(start(word), "roll-angle").words for word in code_words}) == 3


def test_what_a_notebook_keeps_of_it():
    bundle = picture(start("example"), "jacked-steps")._repr_mimebundle_()
    assert set(bundle) == {"text/html", "text/plain", "image/png"}
    assert 'alt="The wheel jacked in steps' in bundle["text/html"]
    assert f"data:image/png;base64,{bundle['image/png']}" in bundle["text/html"]
