"""From key press to painted picture, in a real browser: a panel beside a plot that is drawn again each time.

    python tests/bench/panel_latency.py
    python tests/bench/panel_latency.py rollmodel.panels.lessons.lesson_01:AxlePanel --presses 200

Both run in one notebook, one after the other. A picture counts as painted at the first task after
the animation frame that follows its ``load`` event. Prints milliseconds; it passes or fails nothing.
"""

import argparse
import platform
import statistics
import sys
import tempfile
import time
from importlib import import_module
from pathlib import Path

import nbformat
from playwright.sync_api import sync_playwright

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / ".dev"))

from lab_harness import lab_server, launch
from lab_page import LabPage

PANEL = "rollmodel.panels.lessons.lesson_01:AxlePanel"

NAIVE = """\
import matplotlib.pyplot as plt
from ipywidgets import FloatSlider, interact
{loader}
_panel = {name}({lesson})
_slider = next(row for row in _panel.rows.values() if hasattr(row, "slider"))

def plot_again(x=FloatSlider(value=0, min=-100, max=100, step=1, description="naive")):
    low, high = _slider.slider.min, _slider.slider.max
    _slider.slider.value = type(_slider.slider.value)(round(low + (high - low) * (x + 100) / 200, 3))
    figure = plt.figure(figsize=_panel.look.size)
    result = _panel.compute(_panel.values)
    _panel.update(_panel.draw(figure, result), result)
    plt.show()

interact(plot_again);
"""

PRESSES = """async ([selector, image, presses]) => {
    const handle = document.querySelector(selector);
    handle.scrollIntoView(); handle.focus();
    const key = k => handle.dispatchEvent(
        new KeyboardEvent('keydown', {key: k, bubbles: true, cancelable: true}));
    const frame = () => new Promise(done => requestAnimationFrame(() => {
        const channel = new MessageChannel();
        channel.port1.onmessage = () => done(performance.now());
        channel.port2.postMessage(0);
    }));
    const area = handle.closest('.jp-OutputArea');
    const loaded = () => new Promise(done => area.addEventListener('load', function seen(event) {
        if (event.target.matches(image)) { area.removeEventListener('load', seen, true); done(frame()); }
    }, true));
    const times = [];
    for (let n = 0; n < presses; n++) {
        const start = performance.now(), painted = loaded();
        key(n % 2 ? 'ArrowLeft' : 'ArrowRight');
        times.push(await painted - start);
        await new Promise(done => setTimeout(done, 40));
    }
    return times;
}"""

BURST = """async ([selector, image, presses]) => {
    const handle = document.querySelector(selector), area = handle.closest('.jp-OutputArea');
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


def main() -> None:
    """Measure, and print a small table with the machine it was made on."""
    args = arguments()
    with tempfile.TemporaryDirectory(prefix="rollmodel-latency-") as temporary:
        folder = Path(temporary) / "work"
        folder.mkdir()
        nbformat.write(notebook(args.panel), folder / "latency.ipynb")
        with lab_server(folder, Path(temporary)) as server, sync_playwright() as playwright:
            browser = launch(playwright)
            lab = LabPage(browser.new_page(viewport={"width": 1366, "height": 768})).open(
                server, "latency.ipynb"
            )
            lab.run_all()
            time.sleep(2)
            print(f"{platform.platform()}, Python {platform.python_version()}, browser {browser.version}")
            print(f"{args.panel}, {args.presses} key presses, milliseconds from key to painted picture")
            for name, handle, image in (
                ("panel", ".rm-root .noUi-handle", "img.widget-image"),
                ("plotted again", ".widget-interact .noUi-handle", ".jp-OutputArea-output img"),
            ):
                report(name, lab.page.evaluate(PRESSES, [handle, image, args.presses]))
            lag, pictures = lab.page.evaluate(BURST, [".rm-root .noUi-handle", "img.widget-image", 60])
            print(
                f"burst of 60 presses 16 ms apart: last picture {lag:.0f} ms after the last press, "
                f"{pictures} pictures on the way"
            )
            browser.close()


def arguments() -> argparse.Namespace:
    """What the command line asks for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument(
        "panel", nargs="?", default=PANEL, help="module:class of a panel that begins with a slider"
    )
    parser.add_argument("--presses", type=int, default=100)
    return parser.parse_args()


def notebook(panel: str):
    """The panel in one cell, the same picture by ``interact`` and ``plt.show`` in the next."""
    module, name = panel.split(":")
    getattr(import_module(module), name)  # a slip in the name shows here, not in the browser
    loader = f"from {module} import {name}\nfrom rollmodel.panels import Lesson"
    cells = [f"{loader}\n{name}(Lesson('01'))", NAIVE.format(loader=loader, name=name, lesson="Lesson('02')")]
    made = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in cells])
    made.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
    return made


def report(name: str, times: list[float]) -> None:
    """One line of the table; the first five presses warm up."""
    warm = sorted(times[5:])
    print(
        f"{name:>14}: median {statistics.median(warm):6.1f}   p95 {warm[int(0.95 * (len(warm) - 1))]:6.1f}   "
        f"largest {warm[-1]:6.1f}"
    )


if __name__ == "__main__":
    main()
