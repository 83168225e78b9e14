"""One persistent picture: drawn once, its moving artists painted again over a kept background.

No pyplot and no window. The figure belongs to its panel for the panel's whole life, so the picture
that is shown is always made from the artists that were last updated.
"""

import io

from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

from rollmodel.figures.look import DPI, PAPER
from rollmodel.panels.lettering import Lettering, is_plain


class Canvas:
    """A figure on an Agg canvas that turns into PNG bytes quickly.

    Parameters
    ----------
    size : tuple of float
        Width and height, [inch].

    Attributes
    ----------
    figure : matplotlib.figure.Figure
    full_paints : int
        How often everything was painted, not the moving artists alone; for tests and benchmarks.
    """

    def __init__(self, size):
        self.figure = Figure(figsize=size, dpi=DPI, facecolor=PAPER)
        self._agg = FigureCanvasAgg(self.figure)
        self._moving, self._fixed, self.full_paints = [], None, 0

    def clear(self, size) -> None:
        """Empty the figure, for another look or other units; the figure itself stays."""
        self.figure.clear()
        self.figure.set_size_inches(size)
        self._moving, self._fixed = [], None

    def hold(self, artists) -> None:
        """Take what ``draw`` returned: every artist in it may move, all others are background."""
        self._moving = sorted(moving_artists(artists), key=lambda artist: artist.get_zorder())
        for artist in self._moving:
            artist.set_animated(True)
        self._fixed = None

    def png(self) -> bytes:
        """The picture as it is now.

        The background is painted again only when something in it changed: matplotlib marks the
        figure as stale for any artist that is not animated, limits and labels among them.
        """
        if self._fixed is None or self.figure.stale:
            self._paint_background()
        self._agg.restore_region(self._fixed)
        for artist in self._moving:
            self._paint(artist)
        return encode(self._picture(), compress_level=1)

    def small_png(self) -> bytes:
        """The picture in few bytes, for storing in a notebook; slower to make."""
        self.png()
        return encode(self._picture().quantize(64, dither=Image.Dither.NONE), optimize=True)

    def _paint(self, artist):
        if not is_plain(artist):
            self.figure.draw_artist(artist)
        elif artist.get_visible() and artist.get_text():
            self._lettering.paint(artist)

    def _paint_background(self):
        self._agg.draw()
        self._lettering = Lettering(self._agg.get_renderer())
        self._fixed = self._agg.copy_from_bbox(self.figure.bbox)
        self.full_paints += 1

    def _picture(self) -> Image.Image:
        size = self._agg.get_width_height()
        return Image.frombuffer("RGBA", size, self._agg.buffer_rgba(), "raw", "RGBA", 0, 1).convert("RGB")


def encode(picture: Image.Image, **options) -> bytes:
    """PNG bytes without date or program name: the same picture gives the same bytes."""
    out = io.BytesIO()
    picture.save(out, "PNG", **options)
    return out.getvalue()


def moving_artists(drawn) -> list[Artist]:
    """Every artist in what a figure's ``draw`` returned.

    That is an artist, an object with an attribute ``moving``, or lists, tuples and dicts of these.
    """
    if hasattr(drawn, "moving"):
        drawn = drawn.moving
    if isinstance(drawn, Artist):
        return [drawn]
    parts = drawn.values() if isinstance(drawn, dict) else drawn if isinstance(drawn, (list, tuple)) else ()
    return [artist for part in parts for artist in moving_artists(part)]
