"""Whatever leads to a spanner carries all five parts of the caution, from one source."""

import json
import re
from pathlib import Path

import pytest

from rollmodel.advice import CAUTIONS, SHORT, missing_parts
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_09, lesson_10, lesson_11
from rollmodel.reports.runs import BEFORE
from rollmodel.reports.sheet_fields import sheet_fields

ROOT = Path(__file__).resolve().parents[2]
CLOSE_WITH_IT = {  # what leads to a spanner; lessons 9, 10 and 11 say the whole list instead
    "lessons": ("02", "03", "05", "07", "08"),
    "solutions": ("01", "02", "03", "05", "07", "08", "09", "10", "11"),
    "exercises": ("01", "02", "03", "05", "07", "08", "09", "10", "11"),
}
NOTEBOOKS = [
    next(path for path in (ROOT / folder).glob("*.ipynb") if re.search(rf"\b{number}\b", path.name))
    for folder, numbers in CLOSE_WITH_IT.items()
    for number in numbers
]


def plain(words):
    return " ".join(words.split())


@pytest.mark.parametrize("words", [SHORT, BEFORE, sheet_fields(), " ".join(CAUTIONS.values())])
def test_the_sources_and_the_commands_hold_all_five(words):
    assert missing_parts(words) == []


@pytest.mark.parametrize("module, number", [(lesson_09, "09"), (lesson_10, "10"), (lesson_11, "11")])
def test_the_lessons_that_say_the_list_say_all_of_it(module, number):
    said = module.cautions(Lesson(number))
    assert missing_parts(said) == [] and all(one in said for one in CAUTIONS.values())


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_the_notebooks_close_with_the_very_words(path):
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    said = [plain("".join(cell["source"])) for cell in cells if cell["cell_type"] == "markdown"]
    assert sum(plain(SHORT) in one for one in said) == 1


def test_no_other_notebook_speaks_of_a_spanner_without_it():
    lists = {path for path in (ROOT / "lessons").glob("*.ipynb") if path.name[:2] in ("09", "10", "11")}
    for path in (path for folder in CLOSE_WITH_IT for path in (ROOT / folder).glob("*.ipynb")):
        said = plain(path.read_text(encoding="utf-8")).lower()
        leads = "before you touch" in said or "before you change" in said
        assert not leads or path in {*NOTEBOOKS, *lists}, path


def test_a_part_that_is_left_out_is_named():
    for part, gone in (("torque", "maker's torque"), ("support", "jack alone"), ("rules", "ocal rules"),
                       ("one change", "closed course"), ("certifies nothing", "certif")):  # fmt: skip
        assert missing_parts(SHORT.replace(gone, "")) == [part]
