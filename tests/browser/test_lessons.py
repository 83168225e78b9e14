"""Every lesson in a real JupyterLab: it runs, its controls move by keyboard, and nothing complains."""

import pytest

from lab_harness import ROOT

LESSONS = sorted(path.relative_to(ROOT).as_posix() for path in (ROOT / "lessons").glob("*.ipynb"))


@pytest.mark.parametrize("lesson", LESSONS)
def test_runs_and_its_sliders_move_by_keyboard(open_notebook, lesson):
    notebook = open_notebook(lesson)
    notebook.run_all()
    assert notebook.errors_shown() == []
    for handle in notebook.sliders():
        handle.focus()
        values = []
        for key in ("Home", "End"):
            notebook.page.keyboard.press(key)
            values.append(float(handle.get_attribute("aria-valuenow")))
        assert values[0] < values[1], "a slider that does not go from its least to its most"
    notebook.wait_ready()
    assert notebook.errors_shown() == []
