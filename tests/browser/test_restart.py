"""A kernel that ends in mid-lesson, and a reopened page: no dead panel looks alive, no answer is lost."""

from lab_harness import watch
from lab_page import LabPage

LESSON, EXERCISE = "lessons/01-a-spring-only-in-roll.ipynb", "exercises/lesson-01.ipynb"
BLANK, FILLED = (
    [f'answer("bar-force-in-roll/difference", "{text}")'] for text in ("", "7.5 mm")
)
SAVE = "() => window.jupyterapp.commands.execute('docmanager:save')"
# The kernel ends itself as if the machine had killed it; nobody is asked, nothing is tidied up.
KILL = """() => window.jupyterapp.shell.currentWidget.context.sessionContext.session.kernel.requestExecute(
    {code: 'import os, signal; os.kill(os.getpid(), signal.SIGKILL)', silent: true})
    .done.catch(() => null) && null"""
RUN_ONE = """part => {
    const notebook = window.jupyterapp.shell.currentWidget.content;
    notebook.activeCellIndex = notebook.widgets.findIndex(
        cell => cell.model.type === 'code' && cell.model.sharedModel.getSource().includes(part));
    return window.jupyterapp.commands.execute('notebook:run-cell');
}"""
WRITE = """([part, text]) => {
    const cells = window.jupyterapp.shell.currentWidget.content.widgets;
    const found = cells.find(
        cell => cell.model.type === 'code' && cell.model.sharedModel.getSource().includes(part));
    found.model.sharedModel.setSource(found.model.sharedModel.getSource().replace(part, text));
}"""
ASLEEP = ".rm-root > .rm-asleep"
LIVE_CONTROLS = ".rm-root :is(.noUi-handle, select, button, input:not([type=text])):not([inert])"
REST = ".rm-rest"
NOT_FOUND = "widget model not found"  # the widgets' own word for a stored panel; the page hides that line


def kill(notebook):
    """End the kernel by force and wait until the server has started another."""
    notebook.page.evaluate(KILL)
    notebook.page.get_by_text("appears to have died").wait_for()
    notebook.page.get_by_role("button", name="Ok").click()
    notebook.wait_ready()


def test_a_panel_whose_kernel_was_killed_says_so_and_wakes_when_run_again(open_notebook, window):
    notebook = open_notebook(LESSON)
    notebook.run_all()
    panels = window.locator(".rm-root").count()
    assert panels >= 4 and window.locator(ASLEEP).count() == 0
    kill(notebook)
    window.wait_for_function(f"() => document.querySelectorAll('{ASLEEP}').length === {panels}")
    assert window.locator(ASLEEP).first.text_content().startswith("This panel is asleep: Python has stopped")
    assert window.locator(LIVE_CONTROLS).count() == 0
    window.evaluate(RUN_ONE, "AxlePanel")
    notebook.wait_for_change(lambda: len(notebook.errors_shown()), 0)
    assert "NameError" in notebook.errors_shown()[0]
    assert "NameError further down?" in window.locator(".jp-CodeCell").first.text_content()
    notebook.run_all()
    assert notebook.errors_shown() == [] and window.locator(ASLEEP).count() == 0
    pictures = notebook.pictures()
    notebook.press("Left wheel travel", "End")
    notebook.wait_for_change(notebook.pictures, pictures)


def progress(notebook):
    """What the exercise says of the answers so far, its last output."""
    return "Answered so far" + notebook.text().rpartition("Answered so far")[2]


def test_no_answer_is_lost_when_the_kernel_is_killed(lab, open_notebook, window):
    notebook = open_notebook(EXERCISE)
    window.evaluate(WRITE, ['start("example")', 'start("brass lantern")'])
    window.evaluate(WRITE, BLANK + FILLED)
    notebook.run_all()
    assert progress(notebook).startswith("Answered so far: 1.")
    kept = lab.folder / "exercises/answers-brass_lantern-practice.json"
    written, said = kept.read_bytes(), progress(notebook)
    assert b"7.5 mm" in written
    kill(notebook)
    window.evaluate(WRITE, FILLED + BLANK)  # as if the page had been lost too: only the file still has it
    notebook.run_all()
    assert kept.read_bytes() == written and progress(notebook) == said


def test_opened_again_the_panel_lives_while_its_kernel_does_and_is_a_stored_picture_after(lab, chromium):
    complaints, page = [], chromium.new_page()
    watch(page, complaints)
    notebook = LabPage(page).open(lab, LESSON)
    notebook.run_all()
    page.evaluate(SAVE)
    notebook.open(lab, LESSON)
    page.locator(".rm-root .noUi-handle").first.wait_for()
    pictures = notebook.pictures()
    notebook.press("Left wheel travel", "Home")
    notebook.wait_for_change(notebook.pictures, pictures)
    assert page.locator(REST).count() == 0 or not page.locator(REST).first.is_visible()
    assert complaints == []
    lab.end_kernels()
    notebook.open(lab, LESSON)
    stored = page.locator(".jp-OutputArea-child:has(.rm-still figure)").first
    stored.locator("figure img").first.wait_for()
    words = [one.get_attribute("alt") for one in stored.locator("figure img").all()]
    assert len(words) == 4 and all(len(one) >= 40 for one in words)  # the picture, and low, start, high
    assert all(one.evaluate("picture => picture.naturalWidth > 100") for one in stored.locator("img").all())
    assert "Stored, not running. To use it, run the cells from the top." in stored.inner_text()
    assert page.locator(".rm-root, .noUi-handle").count() == 0 and "not found" not in notebook.text()
    page.close()
    lab.end_kernels()
    assert [line for line in complaints if NOT_FOUND not in line] == []
