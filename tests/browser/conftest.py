"""A real JupyterLab and a real browser for the tests in this folder.

Without a Chromium these tests are skipped with the reason; ROLLMODEL_REQUIRE_BROWSER=1 makes that a failure.
ROLLMODEL_CHROMIUM names the program when it is not found by itself.
"""

import os
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright

from lab_harness import ROOT, browser_path, lab_server, launch, watch
from lab_page import LabPage

HERE = Path(__file__).parent
EVERY_LESSON = "test_every_slider_goes_from_its_least_to_its_most"
NO_BROWSER = (
    "no Chromium on this machine: install one (on Debian: apt-get install chromium), "
    "or name it in ROLLMODEL_CHROMIUM"
)


# Looked at closely at every run: a plain lesson, the test day, the index. Lesson 10 has own tests.
# ROLLMODEL_EVERY_LESSON=1 looks at all as closely; the others are opened, run and have their sliders moved.
CLOSELY = ("01-", "11-", "index")


def pytest_collection_modifyitems(config, items):
    """Mark the tests of this folder, so that `-m "not browser"` leaves them out; choose which to dwell on."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker("browser")
    if os.environ.get("ROLLMODEL_EVERY_LESSON") != "1":
        passed_over = [item for item in items if _only_for_all(item)]
        config.hook.pytest_deselected(items=passed_over)
        items[:] = [item for item in items if item not in passed_over]


def _only_for_all(item) -> bool:
    """A close look at a lesson that is not among those of every run."""
    lesson = getattr(item, "callspec", None) and item.callspec.params.get("lesson")
    if item.path.name != "test_lessons.py" or not lesson or item.originalname == EVERY_LESSON:
        return False
    return not Path(lesson).name.startswith(CLOSELY)


@pytest.fixture(scope="session")
def browser_there():
    """Skip without a browser, or fail where one is required."""
    if browser_path() is None:
        required = os.environ.get("ROLLMODEL_REQUIRE_BROWSER") == "1"
        (pytest.fail if required else pytest.skip)(NO_BROWSER)


@pytest.fixture(scope="session")
def lab(browser_there, tmp_path_factory):
    """A JupyterLab server on a copy of the project's notebooks and of this folder's own."""
    folder = tmp_path_factory.mktemp("work")
    for part in ("lessons", "exercises", "solutions"):
        if (ROOT / part).is_dir():
            shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns(".ipynb_checkpoints"))
    shutil.copytree(HERE / "pages", folder / "pages")
    with lab_server(folder, tmp_path_factory.mktemp("home")) as server:
        yield server


# One browser a module, not a session: while it is open it keeps an event loop running in this process, and a
# test elsewhere that runs a notebook needs to start its own.
@pytest.fixture(scope="module")
def chromium(browser_there):
    """A headless browser."""
    with sync_playwright() as playwright:
        browser = launch(playwright)
        yield browser
        browser.close()


@pytest.fixture
def window(chromium):
    """A window of 1366 x 768; the test fails on any console error and any request to another machine."""
    complaints = []
    page = chromium.new_page(viewport={"width": 1366, "height": 768})
    watch(page, complaints)
    yield page
    page.close()
    assert complaints == []


@pytest.fixture
def open_notebook(lab, window):
    """A function that opens a notebook, named from the top of the project, and waits for its kernel."""
    yield lambda name: LabPage(window).open(lab, name)
    window.close()
    lab.end_kernels()
