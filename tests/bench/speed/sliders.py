"""From key press to painted picture, panel by panel."""

import statistics

from rollmodel.course import lessons
from tests.bench.panel_latency import BURST_OF, Latency, measured, p95
from tests.bench.speed.figure import Aim, Figure
from tests.bench.speed.machine import ROOT
from tests.bench.speed.plain import panels

TITLE = "Moving a slider"
HOW = f"""\
The first panel of each lesson in a real browser, its first slider that is no row of holes, from the key
press to the painted picture; then {BURST_OF} presses 16 ms apart, from the last press to the last
picture. The other way is the same picture plotted again by `interact`, in the same notebook, right after.
For the burst nothing was measured beside it.
"""
SHORT_LESSONS, PRESSES, SHORT_PRESSES = (1,), 100, 20


def figures(short: bool) -> list[Figure]:
    """Three figures a panel."""
    found = []
    for lesson in lessons(ROOT / "lessons"):
        if not short or lesson.number in SHORT_LESSONS:
            panel = panels(ROOT / "lessons" / lesson.file)[0]
            latency = measured(panel, SHORT_PRESSES if short else PRESSES)
            found += of_panel(f"lesson {lesson.number}", latency)
    return found


def of_panel(name: str, found: Latency) -> list[Figure]:
    """Median and 95 % of a panel and of plotting again, and how the burst ends."""
    beside = "plotted again"
    middles = statistics.median(found.panel), "ms", statistics.median(found.plain), beside
    late = p95(found.panel), "ms", p95(found.plain), beside
    return [
        Figure(f"{name}, median", *middles, Aim("below", 60)),
        Figure(f"{name}, 95 of 100 within", *late, Aim("below", 120)),
        Figure(f"{name}, after a burst of {BURST_OF}", found.settled, "ms", aim=Aim("below", 150)),
    ]
