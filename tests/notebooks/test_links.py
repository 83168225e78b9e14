"""Links of every notebook lead to something that is there, and the index lists every lesson."""

import re

import nbformat
import pytest

import store_outputs
from rollmodel import course

NOTEBOOKS = store_outputs.all_notebooks()
LESSONS = store_outputs.ROOT / "lessons"
LINK = re.compile(r"\]\(([^)\s]+)\)")


def words(path):
    """Markdown that a reader of the notebook sees, typed or computed."""
    for cell in nbformat.read(path, as_version=4).cells:
        if cell.cell_type == "markdown":
            yield cell.source
        for output in cell.get("outputs", ()):
            yield output.get("data", {}).get("text/markdown", "")


def links(path):
    return [link for text in words(path) for link in LINK.findall(text)]


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.relative_to(store_outputs.ROOT).as_posix())
def test_links_lead_to_a_file(path):
    for link in links(path):
        assert not re.match(r"[a-z]+:", link), f"a link to the outside: {link}"
        assert (path.parent / link.split("#")[0]).is_file(), link


@pytest.mark.parametrize("path", sorted(LESSONS.glob("[0-9]*.ipynb")), ids=lambda path: path.stem[:2])
def test_every_lesson_links_to_its_exercises(path):
    assert f"../exercises/lesson-{path.name[:2]}.ipynb" in links(path)
    for text in words(path):
        assert not re.search(r"(?<!\[)`?exercises/lesson-\d\d\.ipynb(?!\]|\))", text.replace("../", "")), text


def test_index_lists_every_lesson_and_its_exercises():
    found = links(LESSONS / "index.ipynb")
    there = course.lessons(LESSONS)
    assert there and [one.file for one in there] == [link for link in found if re.match(r"\d\d-", link)]
    exercises = sorted((store_outputs.ROOT / "exercises").glob("lesson-*.ipynb"))
    assert sorted(link for link in found if "exercises" in link) == [
        f"../exercises/{path.name}" for path in exercises
    ]
