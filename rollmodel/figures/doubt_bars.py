"""Where the uncertainty of each prediction comes from: one bar a result, cut by the numbers behind it."""

from __future__ import annotations

from dataclasses import dataclass

from rollmodel.figures import marks

SHOWN = 3  # numbers cut out of each bar
SHADES = (0.75, 0.45, 0.2)


@dataclass(frozen=True)
class Bar:
    """One result and where its uncertainty comes from, in words and as parts of the squared whole."""

    result: str  # with its value, "Roll gradient: 2.21 ± 0.13 deg/g"
    shares: tuple[float, ...]  # largest first
    sources: str


def draw(figure, bars: list[Bar], look, family="metric") -> marks.Drawing:
    """A bar for each result; the whole is drawn once."""
    drawing = marks.start(figure, look, family)
    ax = drawing.ax
    ax.set(xlim=(0, 1), ylim=(len(bars), -0.45))
    ax.set_axis_off()
    drawing.parts["title"] = marks.words(
        ax, look, 0.5, -0.26, "Where the doubt comes from", fontweight="bold", ground=None
    )
    for row, one in enumerate(bars):
        _row(ax, row, one, look)
    return drawing


def _row(ax, row, one, look):
    marks.words(ax, look, 0.02, row + 0.13, one.result, ha="left", ground=None)
    left, wide = 0.02, 0.96
    ax.barh(row + 0.42, wide, left=left, height=0.22, color=marks.PAPER, edgecolor=marks.INK, zorder=2)
    for shade, share in zip(SHADES, one.shares[:SHOWN], strict=False):
        ax.barh(row + 0.42, wide * share, left=left, height=0.22, zorder=3, edgecolor=marks.INK,
                color=marks.tint(look.colours["front"], shade))  # fmt: skip
        left += wide * share
    marks.words(ax, look, 0.02, row + 0.7, one.sources, ha="left", small=True, ground=None)


def describe(bars: list[Bar]) -> str:
    """The conclusion and the key numbers in words."""
    return " ".join(f"{one.result}, mostly from {one.sources}." for one in bars)
