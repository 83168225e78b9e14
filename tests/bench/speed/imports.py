"""How long an import takes, in a program of its own."""

import subprocess
import sys
import time

from tests.bench.speed.figure import Aim, Figure

TITLE = "Importing"
HOW = """\
By the clock, the interpreter's own start included, the shortest of the repeats, all of them in turn. The
model stands beside what any program that calculates with units imports first: numpy, and pint with its
registry made. A lesson stands beside what a plain notebook with sliders and plots imports besides.
`rollmodel` alone is nearly empty, so nothing stands beside it.
"""
UNITS = "import numpy, pint; pint.UnitRegistry()"
PLOTS = "; import matplotlib.pyplot, ipywidgets"
UNITS_IN_WORDS, AIM = "numpy and pint's registry", Aim("times the other", 1.3)
MODEL = "from rollmodel.physics import balance"
SHEET = "; from rollmodel.sheets import training_car; training_car('coupe')"
LESSON = "from rollmodel.panels import start; from rollmodel.panels.lessons import lesson_01"


def figures(short: bool) -> list[Figure]:
    """The model, a car's sheet with it, a lesson."""
    codes = "import rollmodel", MODEL, MODEL + SHEET, LESSON, UNITS, UNITS + PLOTS
    alone, model, sheet, lesson, units, plots = fastest(codes, 3 if short else 9)
    return [
        Figure("rollmodel.physics, every module", model, "ms", units, UNITS_IN_WORDS, AIM),
        Figure("the same, and a car read from its sheet", sheet, "ms", units, UNITS_IN_WORDS),
        Figure("a lesson's first cell", lesson, "ms", plots, f"{UNITS_IN_WORDS}, matplotlib and ipywidgets"),
        Figure("rollmodel alone", alone, "ms"),
    ]


def fastest(codes: tuple[str, ...], times: int) -> list[float]:
    """The shortest run of each, [ms]; one more round before them fills the system's cache of files."""
    rounds = [[spent(code) for code in codes] for _ in range(times + 1)][1:]
    return [min(times_) for times_ in zip(*rounds, strict=True)]


def spent(code: str) -> float:
    """Milliseconds of a program that runs this code."""
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True)
    return 1e3 * (time.perf_counter() - start)
