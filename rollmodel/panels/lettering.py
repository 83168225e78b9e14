"""Text that was painted before is copied, not painted again.

Setting type is four fifths of the work of painting a picture full of labels (measured on lesson 10's
panel), and while a control moves to and fro the same words come back in the same places.
"""

from __future__ import annotations

from collections import OrderedDict

import numpy as np
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.text import Text

MOST = 400  # texts kept; one of a panel takes about 10 kB
MARGIN = 6  # px around the text's box, for the strokes of letters and edges that reach beyond it


class Lettering:
    """Paints texts, from memory where it can.

    The key holds all that the look of a text depends on, its place on the canvas included. New words
    go the same way, by a copy, so that a picture does not depend on what was shown before it.

    Parameters
    ----------
    renderer : matplotlib.backends.backend_agg.RendererAgg
        What to paint on.
    """

    def __init__(self, renderer: RendererAgg):
        self._renderer = renderer
        self._scratch = None
        self._seen: OrderedDict = OrderedDict()  # key: place and pixels, the latest used last

    def paint(self, text: Text) -> None:
        """Paint one text where it stands."""
        key = look_of(text)
        if key not in self._seen:
            self._seen[key] = self._pixels(text)
        self._seen.move_to_end(key)
        if len(self._seen) > MOST:
            self._seen.popitem(last=False)
        place, pixels = self._seen[key]
        if pixels.size:
            self._renderer.draw_image(self._renderer.new_gc(), *place, pixels)

    def _pixels(self, text):
        """The text alone on a clear ground, and where its lower left corner lies, [px]."""
        sides = self._renderer.get_canvas_width_height()  # parts of a pixel too, before matplotlib 3.11
        if self._scratch is None:
            self._scratch = RendererAgg(*sides, self._renderer.dpi)
        self._scratch.clear()
        text.draw(self._scratch)
        box = (text.get_bbox_patch() or text).get_window_extent(self._renderer)
        left, low = (max(0, int(np.floor(side)) - MARGIN) for side in (box.x0, box.y0))
        right, high = (int(np.ceil(side)) + MARGIN for side in (box.x1, box.y1))
        whole = np.asarray(self._scratch.buffer_rgba())
        height = int(sides[1])
        high = min(high, height)
        upwards = whole[height - high : height - low, left:right][::-1]  # as ``draw_image`` wants it
        return (left, low), upwards.copy()


def is_plain(artist) -> bool:
    """Whether an artist is text and nothing else: not clipped, no arrow."""
    return type(artist) is Text and not artist.get_clip_on()


def look_of(text: Text) -> tuple:
    """All that a text's look depends on."""
    place = text.get_transform().transform(text.get_unitless_position())
    font = text.get_fontproperties()
    return (
        *(float(side) for side in place),
        text.get_text(),
        str(text.get_color()),
        text.get_alpha(),
        hash(font),
        text.get_rotation(),
        text.get_rotation_mode(),
        text.get_horizontalalignment(),
        text.get_verticalalignment(),
        getattr(text, "_linespacing", None),  # matplotlib has a setter for it and no getter
        tuple(text.get_path_effects() or ()),
        look_of_ground(text.get_bbox_patch()),
    )


def look_of_ground(patch) -> tuple:
    """The same for the patch behind a text; its place and size follow from the text."""
    if patch is None:
        return ()
    style = patch.get_boxstyle()
    shape = type(style).__name__, *sorted(vars(style).items())
    colours = patch.get_facecolor(), patch.get_edgecolor(), patch.get_linewidth(), patch.get_linestyle()
    return *shape, *colours, patch.get_alpha(), patch.get_visible()
