"""Lines of type set from pieces that were set before: words as they are, numbers digit by digit.

While a control moves, the numbers in a picture are new at each step and nearly nothing else is. A digit is as
wide as any other and none leans towards its neighbour, so a number is its digits side by side.
"""

from __future__ import annotations

import math
import re
from collections import OrderedDict

import numpy as np
from matplotlib.backends.backend_agg import RendererAgg

PIECES = re.compile(r"[0-9]|[^0-9]+")
MOST = 1000  # pieces kept; one of a few letters takes about 4 kB
ROOM = 4  # px around a piece, for strokes that reach beyond its own width
UP = 0.5 + 1 / 300  # px; type is measured in 64ths, halved for the middle: no length lies so close to a half
BETWEEN = "0{}0"  # a piece is measured between two digits, which keeps spaces at its ends


def whole_pixel(at: float) -> int:
    """The whole pixel nearest to a place; of two, the upper, wherever on the canvas it is."""
    return math.floor(at + UP)


class Typesetter(RendererAgg):
    """An Agg renderer whose level lines of type start on whole pixels and are put together from pieces."""

    def __init__(self, width: float, height: float, dpi: float):
        super().__init__(width, height, dpi)
        self._slip, self._pixels, self._sizes = None, OrderedDict(), {}

    def draw_text(self, gc, x, y, s, prop, angle, ismath=False, mtext=None):
        """Set a line of type; formulas and slanting lines are left to matplotlib."""
        if ismath or angle:
            super().draw_text(gc, x, y, s, prop, angle, ismath, mtext)
            return
        left, foot = whole_pixel(x), whole_pixel(y)
        along = 0.0
        for piece in PIECES.findall(s):
            if not piece.isspace():
                whole, part = divmod(round(64 * along), 64)
                (aside, above), pixels = self._kept(gc, piece, prop, part)
                self.draw_image(self.new_gc(), left + whole - aside, self.height - foot - above, pixels)
            along += self._size(piece, prop)[0]

    def get_text_width_height_descent(self, s, prop, ismath):
        """Width, height and depth below the line, [px]."""
        if ismath:
            return super().get_text_width_height_descent(s, prop, ismath)
        sizes = [self._size(piece, prop) for piece in PIECES.findall(s)]
        descent = max(below for _, _, below in sizes)
        return sum(width for width, _, _ in sizes), max(above for _, above, _ in sizes) + descent, descent

    def _size(self, piece, prop):
        """How far a piece moves the pen, and how far it reaches above and below the line, [px]."""
        key = piece, hash(prop)
        if key not in self._sizes:
            measured = super().get_text_width_height_descent
            alone, between = (measured(BETWEEN.format(what), prop, False)[0] for what in ("", piece))
            _, height, descent = measured(piece, prop, False)
            if len(self._sizes) > MOST:
                self._sizes.clear()
            self._sizes[key] = between - alone, height - descent, descent
        return self._sizes[key]

    def _kept(self, gc, piece, prop, part):
        """A piece's pixels, and how far it stands from their left and lower edges, [px]."""
        key = piece, hash(prop), part, gc.get_rgb(), gc.get_alpha(), gc.get_antialiased()
        if key not in self._pixels:
            self._pixels[key] = self._set(gc, piece, prop, part / 64)
        self._pixels.move_to_end(key)
        if len(self._pixels) > MOST:
            self._pixels.popitem(last=False)
        return self._pixels[key]

    def _set(self, gc, piece, prop, part):
        """Set a piece by itself on a clear slip."""
        width, above, below = self._size(piece, prop)
        wide, high, low = (int(np.ceil(side)) + ROOM for side in (width + ROOM, above, below))
        if self._slip is None or self._slip.width < wide or self._slip.height < high + low:
            self._slip = RendererAgg(2 * wide, 2 * (high + low), self.dpi)
        self._slip.clear()
        self._slip.draw_text(gc, ROOM + part, high, piece, prop, 0)
        pixels = np.asarray(self._slip.buffer_rgba())[: high + low, :wide]
        return (ROOM, low), pixels[::-1].copy()
