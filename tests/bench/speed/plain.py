"""A lesson's plain twin: the same words and pictures, each picture plotted again by ``interact``.

The picture's functions are the package's own, so both import it. The twin has no panel, no stored picture,
no question and no prediction; its sliders are those of the panel.
"""

import re
from importlib import import_module
from pathlib import Path

import nbformat

from rollmodel.panels.panel import Panel

HELPER = """\
import matplotlib.pyplot as plt
from ipywidgets import FloatSlider, IntSlider, interact
from rollmodel.panels.controls import Hole, Slider
from rollmodel.panels.lesson import Lesson

def slider(control):
    if isinstance(control, Hole):
        return IntSlider(control.start, 1, len(control.places), description=control.text)
    step = (control.high - control.low) / 100
    return FloatSlider(control.start, min=control.low, max=control.high, step=step, description=control.text)

def plain(kind, number):
    bare = kind.__new__(kind)  # its picture alone: the constructor would make the panel's widgets
    bare.lesson, bare.key = Lesson(number), (number, kind.name)
    moving = [one for one in bare.controls() if isinstance(one, (Hole, Slider))]

    def plot_again(**values):
        figure = plt.figure(figsize=bare.size)
        result = bare.compute(bare.start_values(**values))
        bare.update(bare.draw(figure, result), result)
        plt.show()

    interact(plot_again, **{one.name: slider(one) for one in moving})
"""


def panels(notebook: Path) -> list[str]:
    """``module:Class`` of every panel with a picture and sliders in a lesson, in order."""
    made = [panel_of(cell.source) for cell in nbformat.read(notebook, 4).cells if cell.cell_type == "code"]
    return [name for name in made if name]


def panel_of(source: str) -> str | None:
    """The panel that a cell shows; None for any other cell."""
    found = re.match(r"(lesson_\d\d)\.(\w+)\(lesson\)$", source.strip())
    if not found:
        return None
    module, name = f"rollmodel.panels.lessons.{found.group(1)}", found.group(2)
    kind = getattr(import_module(module), name)
    return f"{module}:{name}" if isinstance(kind, type) and issubclass(kind, Panel) else None


def plain_cell(panel: str, number: str) -> str:
    """The code that plots a panel's picture again and again."""
    module, name = panel.split(":")
    return f"from {module} import {name}\nplain({name}, {number!r});"


def plain_twin(notebook: Path):
    """The lesson's words as they are, its panels plotted again, its other code left out."""
    cells, number = [nbformat.v4.new_code_cell(HELPER)], notebook.name[:2]
    for cell in nbformat.read(notebook, 4).cells:
        if cell.cell_type == "markdown":
            cells.append(nbformat.v4.new_markdown_cell(cell.source))
        elif panel := panel_of(cell.source):
            cells.append(nbformat.v4.new_code_cell(plain_cell(panel, number)))
    return python_notebook(cells)


def python_notebook(cells):
    """A notebook for the kernel that the lessons use."""
    made = nbformat.v4.new_notebook(cells=cells)
    made.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
    return made
