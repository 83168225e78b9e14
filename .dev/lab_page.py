"""One notebook open in JupyterLab: run it, find its controls by the names people read, press keys, look."""

import contextlib
import time
from collections.abc import Callable

from playwright.sync_api import Locator, Page

from lab_harness import Server

READY = """async () => {
    const app = window.jupyterapp, panel = app && app.shell.currentWidget;
    const session = panel && panel.context && panel.context.sessionContext;
    if (!session) return false;
    await panel.context.ready; await session.ready;
    const kernel = session.session && session.session.kernel;
    return !!kernel && kernel.connectionStatus === 'connected' && kernel.status === 'idle';
}"""
# The kernel answers in turn: when it has answered this, it has dealt with all that was sent before. A control
# that was moved while one message was under way sends the rest after it; hence twice.
ASK_TWICE = """async () => {
    const kernel = window.jupyterapp.shell.currentWidget.context.sessionContext.session.kernel;
    for (const turn of [1, 2])
        await kernel.requestExecute({code: '', silent: true, store_history: false}).done;
}"""
RUN_ALL = "() => window.jupyterapp.commands.execute('notebook:run-all-cells')"
COUNTS = """() => window.jupyterapp.shell.currentWidget.content.widgets
    .filter(cell => cell.model.type === 'code' && cell.model.sharedModel.getSource().trim())
    .map(cell => cell.model.executionCount)"""
# A cell out of the window is not laid out, and what is not laid out has no text; so lay it out first.
TEXT = """() => [...document.querySelectorAll('.jp-Notebook .jp-CodeCell')].map(cell => {
    cell.style.contentVisibility = 'visible';
    return [...cell.querySelectorAll('.jp-Cell-outputArea')].map(area => area.innerText).join('\\n');
}).join('\\n')"""
# The name that a person reads beside a control stands in the control's own row, not on its handle.
ROW = "xpath=ancestor-or-self::*[contains(concat(' ', @class, ' '), ' jupyter-widgets ')][1]"
PARTS = ".noUi-handle, input:not([type=hidden]), select, textarea, button"


class LabPage:
    """A notebook in the browser."""

    def __init__(self, page: Page, patience: float = 120_000):
        self.page, self.patience = page, patience

    def open(self, server: Server, notebook: str) -> "LabPage":
        """Open a notebook and wait until its kernel is connected and idle."""
        self.page.goto(server.page(notebook), timeout=self.patience)
        self.page.wait_for_selector(".jp-Notebook .jp-Cell", timeout=self.patience)
        self.wait_ready()
        return self

    def wait_ready(self) -> None:
        """Wait for a ready session whose kernel is connected and idle."""
        self.page.wait_for_function(READY, timeout=self.patience)

    def settle(self) -> None:
        """Wait until the kernel has dealt with all that the page has sent, and the page with the answer."""
        self.page.evaluate(ASK_TWICE)
        self.page.wait_for_timeout(100)

    def run_all(self) -> None:
        """Run every cell; returns when all have run and the kernel is idle again."""
        self.wait_ready()
        self.page.evaluate(RUN_ALL)
        self.wait_ready()
        missed = [number for number, count in enumerate(self.page.evaluate(COUNTS)) if count is None]
        assert not missed, (
            f"code cells that did not run, counted from 0: {missed}; an earlier one may have failed"
        )

    def control(self, label: str) -> Locator:
        """The control that carries this accessible name, or stands beside this text in its own row."""
        notebook = self.page.locator(".jp-Notebook")
        tries = (
            notebook.get_by_label(label, exact=True),
            notebook.get_by_role("button", name=label, exact=True),
            notebook.locator(".widget-label").get_by_text(label, exact=True).locator(ROW).locator(PARTS),
        )
        for found in tries:
            with contextlib.suppress(IndexError):
                return [one for one in found.all() if one.is_visible()][0]
        raise LookupError(f"no visible control named {label!r}; there are: {', '.join(self.names())}")

    def names(self) -> list[str]:
        """The names of the visible controls, for messages."""
        labels = self.page.locator(".jp-Notebook .widget-label, .jp-Notebook .jupyter-button").all()
        named = self.page.locator(".jp-Notebook .jp-OutputArea [aria-label]").all()
        texts = [one.inner_text().strip() for one in labels] + [
            one.get_attribute("aria-label") for one in named
        ]
        return sorted({text for text in texts if text})

    def press(self, label: str, *keys: str) -> None:
        """Put the focus on a control and press keys there, for example "ArrowRight", "Home", "Enter"."""
        target = self.control(label)
        target.scroll_into_view_if_needed()
        target.focus()
        for key in keys:
            self.page.keyboard.press(key)

    def sliders(self) -> list[Locator]:
        """The handles of the visible sliders that are in use."""
        handles = self.page.locator(".jp-Notebook .jp-OutputArea .noUi-target:not([disabled]) .noUi-handle")
        return [one for one in handles.all() if one.is_visible()]

    def pictures(self) -> list[str]:
        """The source of every picture in the outputs, as it is now."""
        return [
            one.get_attribute("src") for one in self.page.locator(".jp-Notebook .jp-OutputArea img").all()
        ]

    def text(self) -> str:
        """What the outputs say as a person reads it, also those that are scrolled out of the window."""
        return self.page.evaluate(TEXT)

    def wait_for_change(self, look: Callable[[], object], before: object, seconds: float = 30) -> object:
        """Look again until something else is seen than before; returns it."""
        end = time.monotonic() + seconds
        while (now := look()) == before:
            assert time.monotonic() < end, f"nothing changed within {seconds} s; still: {str(before)[:500]}"
            self.page.wait_for_timeout(50)
        return now

    def wait_for_text(self, wanted: str, seconds: float = 30) -> None:
        """Wait until the outputs say something."""
        self.wait_for_change(lambda: wanted in self.text(), False, seconds)

    def errors_shown(self) -> list[str]:
        """The text of every error output on the page."""
        kinds = "error", "stderr"
        places = ", ".join(f'[data-mime-type="application/vnd.jupyter.{kind}"]' for kind in kinds)
        return [one.inner_text() for one in self.page.locator(places).all()]

    def outputs(self) -> list[Locator]:
        """The visible output areas, one for each cell that has any."""
        areas = self.page.locator(
            ".jp-Notebook .jp-CodeCell:has(.jp-OutputArea-child) .jp-Cell-outputWrapper"
        )
        return [area for area in areas.all() if area.is_visible()]
