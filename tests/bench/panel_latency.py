"""From key press to painted picture, in a real browser: a panel beside a plot that is drawn again each time.

    python -m tests.bench.panel_latency
    python -m tests.bench.panel_latency rollmodel.panels.lessons.lesson_02:BarPanel --presses 200

Both run in one notebook, one after the other. A picture counts as painted at the first task after
the animation frame that follows its ``load`` event. Prints milliseconds; it passes or fails nothing.
"""

import argparse
import platform
import statistics
import sys
import tempfile
import time
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

import nbformat
from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / ".dev"))

from lab_harness import lab_server, launch
from lab_page import LabPage
from rollmodel.panels import Lesson
from rollmodel.panels.controls import Hole, Slider
from tests.bench.speed.plain import HELPER, plain_cell, python_notebook

PANEL = "rollmodel.panels.lessons.lesson_01:AxlePanel"
WARM_UP = 5  # presses that do not count
BURST_OF = 60
OURS = ".rm-root .noUi-handle", "img.widget-image"
PLAIN = ".widget-interact .noUi-handle", ".jp-OutputArea-output img"

PRESSES = """async ([selector, image, place, presses]) => {
    const handle = document.querySelectorAll(selector)[place];
    handle.scrollIntoView(); handle.focus();
    const key = k => handle.dispatchEvent(
        new KeyboardEvent('keydown', {key: k, bubbles: true, cancelable: true}));
    const frame = () => new Promise(done => requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => done(performance.now());
        channel.port2.postMessage(0);
    }));
    const area = handle.closest('.jp-OutputArea');
    const loaded = () => new Promise(done => {
        setTimeout(done, 1500, null);  // nothing moves at this step: the picture is the same as before
        area.addEventListener('load', function seen(event) {
            if (event.target.matches(image)) { area.removeEventListener('load', seen, true); done(frame()); }
        }, true);
    });
    // Values are told to one decimal: where the whole range reads the same, only a picture that stays tells
    // an end.
    const told = what => handle.getAttribute(`aria-value${what}`);
    const stands = end => told('now') === told(end) && told('min') !== told('max');
    let way = 'ArrowRight';  // one step after the other, and back from the end: most values are new ones
    const times = [];
    for (let n = 0; times.length < presses && n < 2 * presses; n++) {
        if (stands('max')) way = 'ArrowLeft'; else if (stands('min')) way = 'ArrowRight';
        const start = performance.now(), painted = loaded();
        key(way);
        const at = await painted;
        if (at === null) way = way === 'ArrowRight' ? 'ArrowLeft' : 'ArrowRight'; else times.push(at - start);
        await new Promise(done => setTimeout(done, 40));
    }
    if (times.length < presses) throw new Error('most steps changed no picture');
    return times;
}"""

BURST = """async ([selector, image, place, presses]) => {
    const handle = document.querySelectorAll(selector)[place], area = handle.closest('.jp-OutputArea');
    handle.focus();
    let last = 0, pictures = 0, pressed = 0;
    const seen = event => { if (event.target.matches(image)) { last = performance.now(); pictures++; } };
    area.addEventListener('load', seen, true);
    for (let n = 0; n < presses; n++) {
        const key = n < presses * 0.7 ? 'ArrowLeft' : 'ArrowRight';
        handle.dispatchEvent(new KeyboardEvent('keydown', {key, bubbles: true, cancelable: true}));
        pressed = performance.now();
        await new Promise(done => setTimeout(done, 16));
    }
    await new Promise(done => setTimeout(done, 2000));
    area.removeEventListener('load', seen, true);
    return [last - pressed, pictures];
}"""


@dataclass(frozen=True)
class Latency:
    """Key press to picture of both, warm, and how a burst on the panel ends; [ms]."""

    panel: list[float]
    plain: list[float]
    settled: float  # from the last press of the burst to the last picture
    pictures: int
    browser: str


def measured(panel: str, presses: int) -> Latency:
    """A server and a browser of its own, the panel and its plain twin in one notebook."""
    place = first_slider(panel)
    with tempfile.TemporaryDirectory(prefix="rollmodel-latency-") as temporary:
        folder = Path(temporary) / "work"
        folder.mkdir()
        nbformat.write(notebook(panel), folder / "latency.ipynb")
        with lab_server(folder, Path(temporary)) as server, sync_playwright() as playwright:
            browser = launch(playwright)
            page = browser.new_page(viewport={"width": 1366, "height": 768})
            LabPage(page).open(server, "latency.ipynb").run_all()
            time.sleep(2)
            ours, plain = (page.evaluate(PRESSES, [*one, place, presses + WARM_UP]) for one in (OURS, PLAIN))
            settled, pictures = page.evaluate(BURST, [*OURS, place, BURST_OF])
            found = Latency(ours[WARM_UP:], plain[WARM_UP:], settled, pictures, browser.version)
            browser.close()
    return found


def p95(times: list[float]) -> float:
    """The time below which 95 of 100 lie."""
    return sorted(times)[int(0.95 * (len(times) - 1))]


def main() -> None:
    """Measure, and print a small table with the machine it was made on."""
    args = arguments()
    found = measured(args.panel, args.presses)
    print(f"{platform.platform()}, Python {platform.python_version()}, browser {found.browser}")
    print(f"{args.panel}, {args.presses} key presses, milliseconds from key to painted picture")
    for name, times in (("panel", found.panel), ("plotted again", found.plain)):
        middle = statistics.median(times)
        print(f"{name:>14}: median {middle:6.1f}   p95 {p95(times):6.1f}   largest {max(times):6.1f}")
    print(
        f"burst of {BURST_OF} presses 16 ms apart: last picture {found.settled:.0f} ms after the last press, "
        f"{found.pictures} pictures on the way"
    )


def arguments() -> argparse.Namespace:
    """What the command line asks for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument(
        "panel", nargs="?", default=PANEL, help="module:class of a panel with a slider"
    )
    parser.add_argument("--presses", type=int, default=100)
    return parser.parse_args()


def first_slider(panel: str) -> int:
    """The place of the first slider that is no row of holes, among all handles of its panel."""
    module, name = panel.split(":")
    rows = getattr(import_module(module), name)(Lesson(module[-2:])).rows.values()
    moving = [one.control for one in rows if isinstance(one.control, (Hole, Slider))]
    return next(place for place, one in enumerate(moving) if isinstance(one, Slider))


def notebook(panel: str):
    """The panel with its controls open in one cell, the same picture plotted by ``interact`` in the next."""
    module, name = panel.split(":")
    number = module[-2:]
    show = [
        f"from {module} import {name}\nfrom rollmodel.panels import Lesson",
        f"lesson = Lesson({number!r})\nlesson.open_at_once = True",
        f"{name}(lesson)",
    ]
    cells = "\n".join(show), f"{HELPER}\n{plain_cell(panel, number)}"
    return python_notebook([nbformat.v4.new_code_cell(cell) for cell in cells])


if __name__ == "__main__":
    main()
