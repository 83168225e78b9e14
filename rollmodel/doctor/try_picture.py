"""A program of its own: draw every sign that the pictures use, and collect what matplotlib complains of."""

from __future__ import annotations

import json
import logging
import warnings

import matplotlib
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont

SIGNS = "Roll 2.1 deg/g, N·m/deg, m², 45°, −3 ± 1, “hole”"


class Listener(logging.Handler):
    """Keeps what is logged as a warning or worse."""

    def __init__(self):
        super().__init__(logging.WARNING)
        self.heard: list[str] = []

    def emit(self, record):
        self.heard.append(record.getMessage())


def main() -> None:
    """Print complaints, the type in use and the settings file as one line of JSON."""
    listener = Listener()
    logging.getLogger("matplotlib").addHandler(listener)
    with warnings.catch_warnings(record=True) as warned:
        warnings.simplefilter("always")
        draw()
    font = FontProperties(fname=findfont(FontProperties())).get_name()
    complaints = [*(str(one.message) for one in warned), *listener.heard]
    print(json.dumps({"complaints": complaints, "font": font, "settings": matplotlib.matplotlib_fname()}))


def draw() -> None:
    """One picture with ordinary, bold and slanted type."""
    figure = Figure()
    for at, style in enumerate(({}, {"fontweight": "bold"}, {"fontstyle": "italic"})):
        figure.text(0.1, 0.2 + 0.2 * at, SIGNS, **style)
    FigureCanvasAgg(figure).draw()


if __name__ == "__main__":
    main()
