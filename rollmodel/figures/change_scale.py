"""The change of each gradient on a scale with nil in it: predicted and measured, each with its interval."""

from __future__ import annotations

import numpy as np

from rollmodel.figures import marks
from rollmodel.testday.gradients import CHANNELS
from rollmodel.units import label, to_display

HEIGHTS = {"roll gradient": 0.76, "understeer gradient": 0.26}  # of the row's middle, part of the axes
ROWS = {"predicted": 0.055, "measured": -0.055}  # above and below the middle
WORDS = {"seen": "seen", "not resolved": "not resolved", "opposite to prediction": "opposite"}


def draw(ax, reach: float, look, family="metric") -> marks.Drawing:
    """Lay out both rows; ``reach`` is the end of the scale either side of nil, [rad/(m/s^2)]."""
    drawing = marks.start(ax, look, family)
    parts = drawing.parts
    marks.frame(ax, look, left=1.9, right=0.9, bottom=3.2, top=0.9)
    marks.scales(ax, look, f"change of the gradient ({label('roll gradient')})")
    rescale(ax, reach)
    ax.set_yticks([])
    ax.spines["left"].set_visible(False)
    ax.locator_params(axis="x", nbins=4)
    ax.axvline(0, color=marks.GREY, linewidth=look.line_width / 2, zorder=1)
    for quantity in CHANNELS:
        at = HEIGHTS[quantity]
        parts[f"{quantity} title"] = marks.words(ax, look, 0, at + 0.175, quantity, fontweight="bold")
        for name, role in (("predicted", "front"), ("measured", "bar")):
            parts[f"{quantity} {name} bar"] = marks.stroke(
                ax, look, role, 1.6, linestyle="-", solid_capstyle="butt", zorder=3
            )
            parts[f"{quantity} {name}"] = marks.dots(ax, look, role, size=2)
            parts[f"{quantity} {name} word"] = marks.words(ax, look, role=role, small=True, text=name)
        parts[f"{quantity} verdict"] = marks.words(ax, look, 0, at - 0.165)
    return drawing


def rescale(ax, reach: float) -> None:
    """Another end of the scale, [rad/(m/s^2)]."""
    far = to_display(reach, "roll gradient")
    ax.set(xlim=(-far, far), ylim=(0, 1))


def update(drawing: marks.Drawing, differences, both: bool, withheld: bool = False) -> None:
    """Other changes on the same scale; measured ones only where both setups are; none while withheld."""
    found = {one.quantity: one for one in differences}
    for quantity in CHANNELS:
        one = found.get(quantity)
        predicted = one.predicted if one else None
        _interval(
            drawing,
            quantity,
            "predicted",
            None
            if predicted is None or withheld
            else _around(predicted.change, predicted.uncertainty),
        )
        shown = one is not None and both and not withheld
        _interval(drawing, quantity, "measured", (one.low, one.value, one.high) if shown else None)
        marks.say(drawing[f"{quantity} verdict"], _verdict(one, shown, both and withheld))


def _around(value, half):
    return value - half, value, value + half


def _verdict(one, shown, waits):
    if one is None:
        return "no such column in both"
    if waits:
        return "commit first"
    return WORDS[one.verdict] if shown else "not compared yet"


def _interval(drawing, quantity, name, ends):
    """One bar with its point, and its name on the side that has more room."""
    for part in (f"{quantity} {name}", f"{quantity} {name} bar", f"{quantity} {name} word"):
        drawing[part].set_visible(ends is not None)
    if ends is None:
        return
    ax, y = drawing.ax, HEIGHTS[quantity] + ROWS[name]
    low, middle, high = (to_display(end, quantity) for end in ends)
    drawing[f"{quantity} {name} bar"].set_data([low, high], [y, y])
    drawing[f"{quantity} {name}"].set_data([middle], [y])
    gap = marks.across(ax, 0.7 * drawing.look.small)
    right = (low + high) / 2 < 0
    far = ax.get_xlim()[1]
    x = np.clip(high + gap, -far, 0.98 * far) if right else np.clip(low - gap, -0.98 * far, far)
    marks.say(drawing[f"{quantity} {name} word"], name, float(x), y, ha="left" if right else "right")
