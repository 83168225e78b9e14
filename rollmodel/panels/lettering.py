"""Text that was painted before is copied, not painted again.

Setting type is four fifths of the work of painting a picture full of labels (measured on lesson 10's
panel), and while a control moves to and fro the same words come back, here or there.
"""

from __future__ import annotations

from collections import OrderedDict
from contextlib import contextmanager

import numpy as np
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.text import Text
from matplotlib.transforms import IdentityTransform

from rollmodel.panels.typesetting import Typesetter

MOST = 400  # texts kept; one of a panel takes about 10 kB
MARGIN = 6  # px around the text's box, for the strokes of letters and edges that reach beyond it


class Lettering:
    """Paints texts, from memory where it can.

    Every text stands on the whole pixel nearest to its place, so that words that move are the same pixels
    elsewhere. The key holds all else that the look of a text depends on. New words go the same way, by a
    copy, so that a picture does not depend on what was shown before it.

    Parameters
    ----------
    renderer : matplotlib.backends.backend_agg.RendererAgg
        What to paint on.
    """

    def __init__(self, renderer: RendererAgg):
        self._renderer = renderer
        self._ground = None
        self._seen: OrderedDict = OrderedDict()  # key: place and pixels, the latest used last

    def paint(self, text: Text) -> None:
        """Paint one text where it stands."""
        place, key = place_of(text), look_of(text)
        if not np.isfinite(place).all():
            return
        if key not in self._seen:
            self._seen[key] = self._pixels(text)
        self._seen.move_to_end(key)
        if len(self._seen) > MOST:
            self._seen.popitem(last=False)
        (left, low), pixels = self._seen[key]
        if pixels.size:
            corner = place[0] + left, place[1] + low
            self._renderer.draw_image(self._renderer.new_gc(), *corner, pixels)

    def _pixels(self, text):
        """The text alone on a clear ground, and its lower left corner from the text's own place, [px]."""
        if self._ground is None:  # wide and high enough for a text that starts or ends in the middle
            sides = (2 * int(np.ceil(side)) for side in self._renderer.get_canvas_width_height())
            self._ground = Typesetter(*sides, self._renderer.dpi)
            self._ground.clear()
        whole = np.asarray(self._ground.buffer_rgba())
        height, width = whole.shape[:2]
        middle = np.array([width // 2, height // 2])
        with standing_at(text, middle):
            text.draw(self._ground)
            box = (text.get_bbox_patch() or text).get_window_extent(self._ground)
        left, low = (max(0, int(np.floor(side)) - MARGIN) for side in (box.x0, box.y0))
        right, high = (max(0, int(np.ceil(side)) + MARGIN) for side in (box.x1, box.y1))
        upwards = whole[height - min(high, height) : height - low, left:right][::-1]  # for ``draw_image``
        pixels = upwards.copy()
        upwards[:] = 0
        return (left - middle[0], low - middle[1]), pixels


def place_of(text: Text):
    """The whole pixel nearest to a text's place, counted from the lower left, [px]."""
    return np.round(text.get_transform().transform(text.get_unitless_position()))


@contextmanager
def standing_at(text: Text, pixel):
    """For a while a text stands at a pixel of the canvas, counted from the lower left."""
    place, transform = text.get_position(), text.get_transform()
    try:
        text.set(position=pixel, transform=IdentityTransform())
        yield
    finally:
        text.set(position=place, transform=transform)


def is_plain(artist) -> bool:
    """Whether an artist is text and nothing else: not clipped, no arrow."""
    return type(artist) is Text and not artist.get_clip_on()


def look_of(text: Text) -> tuple:
    """All that a text's look depends on but its place."""
    font = text.get_fontproperties()
    return (
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
