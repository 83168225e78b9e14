"""The browser tests' own tools, tried on a page with one slider."""

import pytest

from lab_harness import watch
from lab_measures import STICKS_OUT, too_faint

SLIDER = "pages/slider.ipynb"


def test_controls_are_found_by_name_and_moved_by_keyboard(open_notebook):
    notebook = open_notebook(SLIDER)
    notebook.run_all()
    for name, keys, answer in (
        ("Count", ["ArrowRight"], "three times 4 is 12"),
        ("Count", ["ArrowLeft", "ArrowLeft"], "three times 2 is 6"),
        ("Count", ["Home"], "three times 0 is 0"),
        ("Count", ["End"], "three times 10 is 30"),
        ("Reset", ["Enter"], "three times 3 is 9"),
    ):
        notebook.press(name, *keys)
        notebook.wait_for_text(answer)
    assert len(notebook.sliders()) == 1
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


PALE = """<body style="background:#111; margin:0"><div class="jp-Notebook"><div class="jp-OutputArea-output"
    style="width:200px"><div class="rm-root"><p style="color:#767676">4.16</p><p style="color:#808080">4.8</p>
    <input type="text" style="color:#fff; background:#111; border:1px solid #505050">
    <button style="color:#fff; background:#111; border:1px solid #767676; width:300px">wide</button>
</div></div></div></body>"""


def test_what_is_too_faint_or_too_wide_is_found(chromium):
    """Against the usual contrasts of greys on near-black, worked out by hand from the definition."""
    page = chromium.new_page()
    page.set_content(PALE)
    faint, out = too_faint(page), page.evaluate(STICKS_OUT)
    page.close()
    assert [line.split(" ")[0] for line in faint] == ["4.16:", "2.34:"] and "edge: INPUT" in faint[1]
    assert len(out) == 2 and "scrolls sideways" in out[0] and "BUTTON" in out[1]
