"""Each lesson opened in JupyterLab in a browser and run, beside its plain twin."""

import statistics
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

import nbformat
from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parents[3] / ".dev"))

from lab_harness import ROOT, lab_server, launch
from lab_page import COUNTS, LabPage
from rollmodel.course import lessons
from tests.bench.speed.figure import Figure
from tests.bench.speed.plain import plain_twin

TITLE = "Opening and running a lesson"
HOW = """\
JupyterLab is running already, and one lesson was opened before to warm up. From asking for the page to
the first slider with its picture beside it: the page, a new kernel, then every cell run at once. Run-all
is from that command until the last cell has run. The other way is a plain notebook: the same words and
the same pictures, plotted by matplotlib and plotted again by ipywidgets' `interact`, with the same
sliders. It has no stored pictures, questions, predictions, words read out or typed boxes, and its picture
functions come from the package, so both import that. Lesson 11's twin has two of its panels; the other
four have no slider. Median of the repeats, lesson and twin in turn.
"""
SHORT_LESSONS, REPEATS, VIEW = (1, 10), 3, {"width": 1366, "height": 768}
SLIDER, OURS, PLAIN = ".jp-OutputArea .noUi-handle", "img.widget-image", "img"

# The page's clock starts when the page is asked for.
RUN = """async ([slider, image]) => {
    const start = performance.now();
    let first = null;
    const look = () => {
        const handle = document.querySelector(slider), area = handle && handle.closest('.jp-Cell-outputArea');
        const shown = area && [...area.querySelectorAll(image)].some(one => one.complete && one.naturalWidth);
        if (shown) first = performance.now(); else setTimeout(look, 10);
    };
    look();
    await window.jupyterapp.commands.execute('notebook:run-all-cells');
    const kernel = window.jupyterapp.shell.currentWidget.context.sessionContext.session.kernel;
    while (kernel.status !== 'idle') await new Promise(done => setTimeout(done, 10));
    const done = performance.now();
    for (let n = 0; first === null && n < 3000; n++) await new Promise(done => setTimeout(done, 10));
    return [first, done - start];
}"""


@dataclass(frozen=True)
class Opened:
    """To the first slider, and to run all cells; [s]."""

    slider: float
    run_all: float


def opened(browser, server, notebook: str, image: str) -> Opened:
    """One fresh page with a fresh kernel, run to the end."""
    server.end_kernels()
    page = browser.new_page(viewport=VIEW)
    lab = LabPage(page).open(server, notebook)
    slider, run_all = page.evaluate(RUN, [SLIDER, image])
    if slider is None or None in page.evaluate(COUNTS) or lab.errors_shown():
        raise RuntimeError(f"{notebook}: no slider, or a cell that failed: {lab.errors_shown()}")
    page.close()
    return Opened(slider / 1e3, run_all / 1e3)


def figures(short: bool) -> list[Figure]:
    """Two figures a lesson."""
    found = {}
    with tempfile.TemporaryDirectory(prefix="rollmodel-opening-") as temporary:
        folder = Path(temporary) / "work"
        folder.mkdir()
        pairs = list(written(folder, SHORT_LESSONS if short else None))
        with lab_server(folder, Path(temporary)) as server, sync_playwright() as playwright:
            browser = launch(playwright)
            opened(browser, server, *pairs[0][0])
            for _ in range(1 if short else REPEATS):
                for pair in pairs:
                    found.setdefault(pair[0][0], []).append([opened(browser, server, *one) for one in pair])
            browser.close()
    by_lesson = ((f"lesson {int(name[:2])}", zip(*times, strict=True)) for name, times in found.items())
    return [one for name, both in by_lesson for one in of_lesson(name, *both)]


def written(folder: Path, numbers):
    """Each lesson's notebook and its twin in the folder, with the kind of picture that each shows."""
    for lesson in lessons(ROOT / "lessons"):
        if numbers is None or lesson.number in numbers:
            source = ROOT / "lessons" / lesson.file
            nbformat.write(nbformat.read(source, 4), folder / source.name)
            nbformat.write(plain_twin(source), folder / f"plain-{source.name}")
            yield (source.name, OURS), (f"plain-{source.name}", PLAIN)


def of_lesson(name: str, ours, plain) -> list[Figure]:
    """Medians of both."""
    return [
        Figure(
            f"{name}, {words}",
            *(statistics.median(getattr(one, field) for one in ours), "s"),
            *(statistics.median(getattr(one, field) for one in plain), "plain notebook"),
        )
        for words, field in (("open to first slider", "slider"), ("run-all", "run_all"))
    ]
