"""Notebooks as they lie in the project: what a reader sees before anything runs.

That every cell still gives its stored output is tested by nbval, on each notebook itself.
"""

import re

import nbformat
import pytest

import store_outputs

NOTEBOOKS = store_outputs.all_notebooks()
NAMES = [path.relative_to(store_outputs.ROOT).as_posix() for path in NOTEBOOKS]


@pytest.fixture(params=NOTEBOOKS, ids=NAMES)
def notebook(request):
    """Each notebook of the project in turn."""
    return nbformat.read(request.param, as_version=4)


def outputs(notebook):
    """The stored outputs of every cell."""
    return [output for cell in notebook.cells for output in cell.get("outputs", ())]


def test_is_stored_in_the_stable_form(notebook):
    assert store_outputs.untidy(notebook) == []


def test_is_a_valid_notebook(notebook):
    nbformat.validate(notebook)


def test_every_stored_picture_has_a_text_alternative(notebook):
    for output in outputs(notebook):
        data = output.get("data", {})
        pictures = re.findall(r"<img\b[^>]*>", data.get("text/html", ""))
        alternatives = [match[1] for tag in pictures if (match := re.search(r'\balt="([^"]*)"', tag))]
        assert not ("image/png" in data and not pictures), "a picture without an <img alt> beside it"
        assert len(alternatives) == len(pictures), "an <img> without alt"
        assert all(len(text) >= 40 for text in alternatives), (
            "an alt too short to give a conclusion and a number"
        )


def test_stored_output_asks_nothing_of_the_outside(notebook):
    for output in outputs(notebook):
        for page in (output.get("data", {}).get("text/html", ""),):
            assert not re.search(r'(?:src|href|url)\s*[=(]\s*["\']?(?:https?:)?//', page)


LEARNERS = [path for path in NOTEBOOKS if path.stem != "index"]


@pytest.mark.parametrize("path", LEARNERS, ids=lambda path: path.stem)
def test_the_first_cell_says_what_a_name_error_means(path):
    """Nothing of ours runs in a kernel that was started afresh, so the cure has to be on the page already."""
    cells = nbformat.read(path, as_version=4).cells
    first = next(cell for cell in cells if cell.cell_type == "code")
    said = "# NameError further down? Python was started afresh: run the cells from the top."
    assert first.source.startswith(said)
