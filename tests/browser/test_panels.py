"""A panel in a real page: by keyboard alone, with names, nothing lost, the stored picture out of the way."""

import nbformat
from nbclient import NotebookClient

PAGE = "pages/panel.ipynb"
FOCUSED = (
    "() => document.activeElement.getAttribute('aria-label') || document.activeElement.textContent.trim()"
)
CELLS = "() => window.jupyterapp.shell.currentWidget.content.widgets.length"


def test_every_control_has_a_name_and_follows_the_keyboard(open_notebook, window):
    open_notebook(PAGE).run_all()
    slider, box = (window.get_by_role(role, name="Front spring rate") for role in ("slider", "textbox"))
    slider.focus()
    for key, shown in (
        ("ArrowUp", "66.0"),
        ("PageUp", "71.0"),
        ("Home", "20.0"),
        ("ArrowRight", "21.0"),
        ("End", "120.0"),
    ):
        window.keyboard.press(key)
        window.wait_for_function("([box, text]) => box.value === text", arg=[box.element_handle(), shown])
        assert slider.get_attribute("aria-valuetext") is not None
    window.keyboard.press("Tab")
    assert window.evaluate("() => document.activeElement.tagName") == "INPUT"
    hole = window.get_by_role("slider", name="Front hole")
    hole.focus()
    window.keyboard.press("End")
    window.locator(".rm-c-hole").get_by_text("hole 3 of 3").wait_for()


def test_picture_and_words_change_together(open_notebook, window):
    open_notebook(PAGE).run_all()
    image, caption = window.locator("img.widget-image"), window.locator(".rm-caption")
    source, words = image.get_attribute("src"), caption.inner_text()
    window.get_by_role("slider", name="Front hole").focus()
    window.keyboard.press("Home")
    window.wait_for_function("([image, old]) => image.src !== old", arg=[image.element_handle(), source])
    window.wait_for_function(
        "([image, old]) => image.alt.trim() !== old", arg=[image.element_handle(), words.strip()]
    )
    assert image.get_attribute("alt").strip() == caption.inner_text().strip() != words.strip()
    assert window.locator(".rm-still").first.is_hidden()


def test_keys_in_a_control_are_not_taken_for_commands(open_notebook, window):
    """Without care "d" twice deletes the cell and an arrow key leaves it."""
    open_notebook(PAGE).run_all()
    cells = window.evaluate(CELLS)
    window.get_by_label("It rises").focus()
    for key in ("d", "d", "ArrowDown", "a", "Space"):
        window.keyboard.press(key)
    assert window.evaluate(CELLS) == cells
    assert window.get_by_label("It falls").is_checked()


def test_bad_typing_gets_one_message_beside_the_box(open_notebook, window):
    open_notebook(PAGE).run_all()
    box = window.get_by_role("textbox", name="Front spring rate")
    for typed in ("stiff", "9000"):
        box.fill(typed)
        window.keyboard.press("Enter")
        window.wait_for_function("box => box.value === '65.0'", arg=box.element_handle())
        assert (
            window.locator(".rm-c-spring [role=alert]").inner_text().startswith("Front spring rate: wanted")
        )


def test_cell_by_cell_the_controls_wait_for_the_prediction(open_notebook, window):
    notebook = open_notebook(PAGE)
    window.locator(".jp-MarkdownCell").first.click()
    for _ in range(window.evaluate(CELLS)):
        window.keyboard.press("Shift+Enter")
        window.wait_for_timeout(200)  # the kernel is busy by now
        notebook.wait_ready()
        window.wait_for_timeout(1000)  # as long as a quick reader takes to read what came out
    box = window.get_by_role("textbox", name="Front spring rate")
    box.wait_for()
    handle = window.get_by_role("slider", name="Front spring rate", include_hidden=True)
    assert box.is_disabled() and handle.evaluate("one => one.inert")
    window.get_by_label("It rises").focus()
    window.keyboard.press("Space")
    window.keyboard.press("Tab")
    window.keyboard.type("300")
    window.keyboard.press("Tab")
    assert window.evaluate(FOCUSED) == "Commit"
    window.keyboard.press("Enter")
    window.get_by_text("You said: it rises by about 300 N·m/deg.").wait_for()
    assert box.is_enabled() and not handle.evaluate("one => one.inert")
    window.wait_for_function(f"() => ({FOCUSED})() === 'Predict again'")


def test_a_burst_of_keys_ends_on_the_right_picture(open_notebook, window):
    notebook = open_notebook(PAGE)
    notebook.run_all()
    image, slider = window.locator("img.widget-image"), window.get_by_role("slider", name="Front spring rate")
    slider.focus()
    for _ in range(40):
        window.keyboard.press("ArrowLeft")
    window.wait_for_function(
        "slider => slider.getAttribute('aria-valuetext') === '25.0 N/mm'", arg=slider.element_handle()
    )
    notebook.settle()
    words = window.locator(".rm-caption").inner_text().strip()
    box = window.get_by_role("textbox", name="Front spring rate")
    window.get_by_role("button", name="Reset").click()
    notebook.settle()  # the box has its new text before another is typed
    box.fill("25")
    window.keyboard.press("Enter")
    notebook.settle()
    assert window.locator(".rm-caption").inner_text().strip() == words == image.get_attribute("alt").strip()


def test_not_running_the_stored_picture_is_there(lab, open_notebook, window):
    page = nbformat.read(lab.folder / PAGE, as_version=4)
    NotebookClient(page, kernel_name="python3").execute()
    page.metadata.pop("widgets", None)
    nbformat.write(page, lab.folder / "pages/stored.ipynb")
    open_notebook("pages/stored.ipynb")
    pictures = window.locator(".rm-still figure img")
    pictures.first.wait_for()
    assert pictures.count() == 4
    assert all(len(picture.get_attribute("alt")) >= 40 for picture in pictures.all())
    assert window.get_by_text("model not found").count() == 0
    assert window.locator(".noUi-handle").count() == 0


SECOND_THREADS = """async () => {
    const kernel = window.jupyterapp.shell.currentWidget.context.sessionContext.session.kernel;
    await kernel.requestExecute({code: ''}).done;  // a thread that was asked for is there by now
    return [kernel.supportsSubshells, [...kernel._comms.values()].map(comm => comm.subshellId)];
}"""


def test_controls_are_dealt_with_in_the_order_in_which_they_were_moved(open_notebook, window):
    """All by one thread of the kernel: a typed answer never comes after the button that checks it."""
    notebook = open_notebook(PAGE)
    notebook.run_all()
    notebook.settle()
    able, threads = window.evaluate(SECOND_THREADS)
    assert able is not None and len(threads) > 10
    assert set(threads) == {None}
