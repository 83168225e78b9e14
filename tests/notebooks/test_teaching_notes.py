"""Teaching notes: what every one holds, and every computed part as the model says it now."""

import re

import fill_notes
import pytest

NOTES = [path for path in fill_notes.notes() if not path.name.startswith("00-")]
PARTS = ("Before class", "45 minutes", "90 minutes", "On the board", "Controls to move", "Answers to expect",
         "Class question", "Re-teach")


@pytest.mark.parametrize("path", fill_notes.notes(), ids=lambda path: path.stem)
def test_computed_parts_are_fresh(path):
    text = path.read_text(encoding="utf-8")
    assert fill_notes.filled(text) == text, "run: python .dev/fill_notes.py"
    assert text.count("<!-- end -->") == len(fill_notes.PART.findall(text)), "a part that nothing fills"


def test_a_wrong_figure_is_noticed():
    path = next(path for path in NOTES if path.name.startswith("07"))
    text = path.read_text(encoding="utf-8")
    figure = re.search(r"\d+ N\b", text)[0]
    wrong = text.replace(figure, "1 N")
    assert wrong != text and fill_notes.filled(wrong) == text


@pytest.mark.parametrize("path", NOTES, ids=lambda path: path.stem)
def test_every_note_has_its_parts(path):
    """In this order, with plans that add up to their minutes."""
    headings = re.findall(r"^## (.+)$", path.read_text(encoding="utf-8"), re.MULTILINE)
    places = [next(n for n, heading in enumerate(headings) if heading.startswith(part)) for part in PARTS]
    assert places == sorted(places)


@pytest.mark.parametrize("path", NOTES, ids=lambda path: path.stem)
@pytest.mark.parametrize("minutes", [45, 90])
def test_minute_plans_add_up(path, minutes):
    text = path.read_text(encoding="utf-8").split(f"## {minutes} minutes")[1].split("\n## ")[0]
    spans = [tuple(map(int, span)) for span in re.findall(r"^\| (\d+)–(\d+) \|", text, re.MULTILINE)]
    assert spans[0][0] == 0 and spans[-1][1] == minutes
    assert all(end == start for (_, end), (start, _) in zip(spans, spans[1:], strict=False))


@pytest.mark.parametrize("path", NOTES, ids=lambda path: path.stem)
def test_every_wrong_option_has_a_re_teach_move(path):
    """Each slip that the class question can show is named again under "Re-teach", with what to do."""
    text = path.read_text(encoding="utf-8")
    question, moves = text.split("## Class question")[1].split("## Re-teach")
    slips = {slip.strip() for slip in re.findall(r"\*Slip: ([^.]+)\.", question)}
    assert slips and not [slip for slip in slips if slip not in moves]
