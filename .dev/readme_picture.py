"""Take the README's picture of lesson 10 again, as a learner sees it after one press of a button.

    python .dev/readme_picture.py

Writes lessons/pictures/lesson-10.png and prints the picture's text alternative for the README.
"""

import io
import sys
import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright
from shoot import bring_to_top, copy_of_the_notebooks, inside

from lab_harness import ROOT, lab_server, launch, watch
from lab_page import LabPage

LESSON = ROOT / "lessons" / "10-choosing-the-change.ipynb"
TARGET = ROOT / "lessons" / "pictures" / "lesson-10.png"
BUTTON = "Rear one hole stiffer"
SIZE = {"width": 1366, "height": 768}
COLOURS = 128


def main() -> int:
    """Take it; 1 when the browser's console complained."""
    complaints: list[str] = []
    with tempfile.TemporaryDirectory(prefix="rollmodel-picture-") as temporary:
        folder = copy_of_the_notebooks([LESSON], Path(temporary) / "work")
        with lab_server(folder, Path(temporary)) as server, sync_playwright() as playwright:
            browser = launch(playwright)
            page = browser.new_page(viewport=SIZE)
            watch(page, complaints)
            lab = LabPage(page).open(server, inside(LESSON).as_posix())
            lab.run_all()
            lab.press(BUTTON)
            before = words(page)
            lab.press(BUTTON, "Enter")
            lab.wait_for_change(lambda: words(page), before)
            page.evaluate("() => document.activeElement.blur()")
            bring_to_top(lab, "Front hole")
            save(page.screenshot(clip=panel(page)))
            print(words(page))
            browser.close()
    print(*complaints, sep="\n", file=sys.stderr)
    return 1 if complaints else 0


def words(page) -> str:
    """The picture's text alternative as it is now."""
    return page.locator(".rm-wide img.widget-image").get_attribute("alt")


def panel(page) -> dict:
    """The part of the window that the panel's controls, picture and first words fill."""
    controls = page.locator(".rm-wide .rm-controls").bounding_box()
    top = controls["y"] - 8
    bottom = page.locator(".jp-NotebookPanel").bounding_box()
    return {"x": controls["x"] - 8, "y": top, "width": controls["width"] + 16,
            "height": bottom["y"] + bottom["height"] - top}


def save(png: bytes) -> None:
    """The picture in few colours, so that it stays small."""
    picture = Image.open(io.BytesIO(png)).convert("RGB")
    TARGET.parent.mkdir(exist_ok=True)
    picture.quantize(COLOURS, dither=Image.Dither.NONE).save(TARGET, optimize=True)


if __name__ == "__main__":
    sys.exit(main())
