"""An upright scale whose numbers move with the picture, so that the rest of it need not be painted again.

And where such a scale may end, so that what rises never stands lower.
"""

from __future__ import annotations

import numpy as np
from matplotlib.ticker import MaxNLocator

from rollmodel.figures import marks

MOST = 6  # numbers at most
STILL = 1.47  # times what is shown at first: so far the scale does not move (1.1 to the fourth is 1.464)
PACE = 0.85  # of the logarithm of what is shown: so fast the scale grows beyond that


class MovingScale:
    """Numbers and tick marks beside axes that run from 0 to 1 upwards, for values from low to high.

    Parameters
    ----------
    ax : matplotlib.axes.Axes
        Its own numbers are taken away; its label stays.
    look
        Type sizes and colours.

    Attributes
    ----------
    span : tuple of float
        The values at the bottom and at the top, in the unit shown.
    numbers, ticks : artists
        Those that move.
    """

    def __init__(self, ax, look):
        ax.set_ylim(0, 1)
        ax.set_yticks([])
        ax.yaxis.labelpad = 3.6 * look.small  # room for five digits
        side = ax.get_yaxis_transform()  # across in parts of the axes, up in its values
        self.span, self._locator = None, MaxNLocator(nbins=MOST - 1, steps=[1, 2, 2.5, 5, 10])
        gap = -0.55 * look.small / marks.size_in_points(ax)[0]
        self.numbers = [
            marks.words(ax, look, gap, small=True, ha="right", color=marks.INK, ground=None, transform=side)
            for _ in range(MOST)
        ]
        self.ticks = marks.stroke(ax, look, thickness=0.5, color=marks.GREY, linestyle="none", marker=0,
                                  markersize=look.small / 3, transform=side, clip_on=False, zorder=0.6)

    def set(self, low: float, high: float) -> None:
        """The values at the bottom and at the top."""
        if (low, high) == self.span:
            return
        self.span = low, high
        at = [value for value in self._locator.tick_values(low, high) if low <= value <= high][:MOST]
        words = alike(at)
        for n, text in enumerate(self.numbers):
            text.set_visible(n < len(at))
            if n < len(at):
                marks.say(text, words[n], y=float(self.place(at[n])))
        self.ticks.set_data(np.zeros(len(at)), self.place(np.array(at)))

    def place(self, value):
        """How far up a value stands, 0 at the bottom and 1 at the top; broadcasts."""
        low, high = self.span
        return (value - low) / (high - low)


def end_for(needed: float, first: float, most: float) -> float:
    """Where a scale from nil ends, so that a value that rises also stands higher.

    It does not move until ``needed`` is :data:`STILL` times what it was at first. Then it grows, but always
    more slowly than what it shows, until at the most it just holds that:
    ``end = most * (needed / most)**PACE``. Derived here.

    Parameters
    ----------
    needed : float
        The value that the scale must hold, above nil.
    first, most : float
        The same at first, and the most that it will ever be; in any one unit.

    Returns
    -------
    float
        In the same unit, at least ``needed``.

    Examples
    --------
    >>> [round(end_for(needed, 1.0, 8.0), 2) for needed in (0.1, 1.0, 1.47, 4.0, 8.0)]
    [1.9, 1.9, 1.9, 4.44, 8.0]
    """
    return most * (max(needed, min(STILL * first, most)) / most) ** PACE


def alike(values) -> list[str]:
    """Numbers in words, all with the same and the least number of decimals."""
    places = next((n for n in range(9) if np.allclose(np.round(values, n), values, rtol=1e-9, atol=0)), 9)
    return [f"{value:.{places}f}" for value in values]
