"""The browser tests' own tools, tried on a page with one slider."""

import pytest

from lab_harness import watch

SLIDER = "pages/slider.ipynb"


@pytest.mark.parametrize(
    ("keys", "answer"),
    [
        (["ArrowRight"], "three times 4 is 12"),
        (["ArrowLeft", "ArrowLeft"], "three times 1 is 3"),
        (["Home"], "three times 0 is 0"),
        (["End"], "three times 10 is 30"),
    ],
)
def test_a_slider_moves_by_keyboard(open_notebook, keys, answer):
    notebook = open_notebook(SLIDER)
    notebook.run_all()
    notebook.press("Count", *keys)
    notebook.wait_for_change(lambda: answer in notebook.text(), False)


def test_a_button_is_found_by_its_words(open_notebook):
    notebook = open_notebook(SLIDER)
    notebook.run_all()
    notebook.press("Count", "End")
    notebook.wait_for_change(lambda: "30" in notebook.text(), False)
    notebook.press("Reset", "Enter")
    notebook.wait_for_change(lambda: "three times 3 is 9" in notebook.text(), False)


def test_an_unknown_control_is_met_with_those_there_are(open_notebook):
    notebook = open_notebook(SLIDER)
    notebook.run_all()
    with pytest.raises(LookupError, match=r"no visible control named 'Rear'; there are: .*Count, Reset"):
        notebook.press("Rear", "Home")


def test_console_errors_and_requests_to_the_outside_are_noted(chromium):
    complaints = []
    page = chromium.new_page()
    watch(page, complaints)
    page.route("**/*", lambda route: route.abort())  # nothing leaves this machine, not even for this test
    page.evaluate("() => { console.error('seen'); return fetch('http://outside.invalid/x').catch(() => 0); }")
    page.close()
    assert any("console error: seen" in line for line in complaints)
    assert any("request to the outside: http://outside.invalid/x" in line for line in complaints)


def test_jupyterlab_asks_no_newcomer_about_news(open_notebook, window):
    open_notebook(SLIDER)
    window.wait_for_timeout(2000)
    assert window.get_by_text("Jupyter news").count() == 0
