"""Take pictures of notebooks as JupyterLab shows them.

    python .dev/shoot.py lessons/10-choosing.ipynb --into /tmp/shots
    python .dev/shoot.py lessons/01-*.ipynb --into /tmp/shots --size 1366x768 --theme light --cells
    python .dev/shoot.py lessons/10-choosing.ipynb --into /tmp/shots --press "Front hole=End,ArrowLeft"

Every notebook is run from top to bottom first. Names of the controls are printed when a name is not found.
"""

import argparse
import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from lab_harness import ROOT, lab_server, launch, watch
from lab_page import LabPage

THEMES = {"light": "JupyterLab Light", "dark": "JupyterLab Dark"}
SCROLLER = ".jp-NotebookPanel .jp-WindowedPanel-outer"


def main() -> int:
    """Take the pictures asked for; 1 when the console complained or a cell showed an error."""
    args = arguments()
    args.into.mkdir(parents=True, exist_ok=True)
    complaints: list[str] = []
    with tempfile.TemporaryDirectory(prefix="rollmodel-shoot-") as temporary:
        folder = copy_of_the_notebooks(args.notebooks, Path(temporary) / "work")
        with lab_server(folder, Path(temporary)) as server, sync_playwright() as playwright:
            browser = launch(playwright)
            for notebook in args.notebooks:
                shoot(browser, server, notebook, args, complaints)
            browser.close()
    for complaint in complaints:
        print(complaint, file=sys.stderr)
    return 1 if complaints else 0


def arguments() -> argparse.Namespace:
    """What the command line asks for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("notebooks", nargs="+", type=Path)
    parser.add_argument(
        "--into", type=Path, required=True, help="folder for the PNG files, outside the project"
    )
    parser.add_argument(
        "--size", action="append", help="1366x768 and 1920x1080 when left out; may be repeated"
    )
    parser.add_argument(
        "--theme", action="append", choices=THEMES, help="both when left out; may be repeated"
    )
    parser.add_argument("--zoom", type=float, default=1.0, help="browser zoom; a projector often gets 1.25")
    parser.add_argument(
        "--press",
        action="append",
        default=[],
        metavar="NAME=KEY,KEY",
        help="focus the control with this name and press these keys; may be repeated",
    )
    parser.add_argument(
        "--type",
        action="append",
        default=[],
        metavar="NAME=TEXT",
        help="replace the text of a typed box and press Enter, before any --press",
    )
    parser.add_argument(
        "--cells", action="store_true", help="one picture for each cell's output, not the whole page"
    )
    parser.add_argument(
        "--at", metavar="NAME", help="one picture alone, with the control of this name at the top"
    )
    parser.add_argument("--no-run", action="store_true", help="show the stored outputs; run nothing")
    parser.add_argument("--no-sidebar", action="store_true", help="fold the file list away")
    args = parser.parse_args()
    args.size, args.theme = args.size or ["1366x768", "1920x1080"], args.theme or list(THEMES)
    return args


def copy_of_the_notebooks(notebooks: list[Path], folder: Path) -> Path:
    """Copy the project's notebook folders and the notebooks asked for: nothing is written in place."""
    for part in ("lessons", "exercises", "solutions"):
        if (ROOT / part).is_dir():
            shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns(".ipynb_checkpoints"))
    for notebook in notebooks:
        place = folder / inside(notebook)
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(notebook, place)
    return folder


def inside(notebook: Path) -> Path:
    """The notebook's place in the copied folder."""
    whole = notebook.resolve()
    return whole.relative_to(ROOT) if whole.is_relative_to(ROOT) else Path(whole.name)


def shoot(browser, server, notebook: Path, args: argparse.Namespace, complaints: list[str]) -> None:
    """Pictures of one notebook in every size and theme."""
    for size in args.size:
        width, height = map(int, size.split("x"))
        page = browser.new_page(
            viewport={"width": int(width / args.zoom), "height": int(height / args.zoom)},
            device_scale_factor=args.zoom,
        )
        watch(page, complaints)
        lab = LabPage(page).open(server, inside(notebook).as_posix())
        prepare(lab, args)
        complaints += [f"{notebook}: error shown: {text[:400]}" for text in lab.errors_shown()]
        for theme in args.theme:
            page.evaluate(
                "theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})", THEMES[theme]
            )
            page.wait_for_timeout(600)
            take = shoot_at(args.at) if args.at else shoot_cells if args.cells else shoot_scrolling
            take(lab, args.into, f"{notebook.stem}-{size}-{theme}")
        page.close()
        server.end_kernels()


def prepare(lab: LabPage, args: argparse.Namespace) -> None:
    """Run the notebook and bring its controls where the command line wants them."""
    if args.no_sidebar:
        lab.page.evaluate("() => window.jupyterapp.shell.collapseLeft()")
    if not args.no_run:
        lab.run_all()
    for name, text in (wish.split("=", 1) for wish in args.type):
        lab.press(name, "ControlOrMeta+a")
        lab.page.keyboard.type(text)
        lab.page.keyboard.press("Enter")
    for name, keys in (wish.rsplit("=", 1) for wish in args.press):
        lab.press(name, *keys.split(","))
    lab.page.wait_for_timeout(800)


def shoot_scrolling(lab: LabPage, into: Path, name: str) -> None:
    """The whole page, a screenful at a time, each overlapping the last a little."""
    scroller = lab.page.locator(SCROLLER).first
    scroller.evaluate("element => element.scrollTo(0, 0)")
    for number in range(1, 60):
        lab.page.wait_for_timeout(250)
        save(lab.page, into / f"{name}-{number:02}.png")
        moved = scroller.evaluate("""element => {
            const before = element.scrollTop;
            const cells = element.querySelectorAll('.jp-Cell');
            const end = cells[cells.length - 1].getBoundingClientRect();
            if (end.bottom <= element.getBoundingClientRect().bottom) return false;
            element.scrollTo(0, before + 0.9 * element.clientHeight);
            return element.scrollTop > before + 1;
        }""")
        if not moved:
            return


def shoot_at(name: str):
    """A way of taking pictures: one, with a control at the top of the window."""
    def take(lab: LabPage, into: Path, stem: str) -> None:
        bring_to_top(lab, name)
        save(lab.page, into / f"{stem}-at.png")
    return take


def bring_to_top(lab: LabPage, name: str) -> None:
    """Scroll until the control of this name stands a little below the top of the notebook."""
    scroller = lab.page.locator(SCROLLER).first
    lab.control(name).evaluate(
        """(element, selector) => {
            const scroller = document.querySelector(selector);
            const top = scroller.getBoundingClientRect().top;
            scroller.scrollBy(0, element.getBoundingClientRect().top - top - 40);
        }""", SCROLLER)
    scroller.evaluate("() => new Promise(done => setTimeout(done, 500))")


def shoot_cells(lab: LabPage, into: Path, name: str) -> None:
    """One picture for each cell that shows something."""
    for number, area in enumerate(lab.outputs(), start=1):
        area.scroll_into_view_if_needed()
        lab.page.wait_for_timeout(200)
        area.screenshot(path=into / f"{name}-cell{number:02}.png")
        print(into / f"{name}-cell{number:02}.png")


def save(page, path: Path) -> None:
    """One picture of the window as it is; its name is printed."""
    page.screenshot(path=path)
    print(path)


if __name__ == "__main__":
    sys.exit(main())
