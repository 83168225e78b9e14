"""Pictures painted by matplotlib alone, for comparison: words that move stand on whole pixels, as on ours."""

from contextlib import ExitStack, contextmanager
from unittest.mock import patch

from matplotlib.backends.backend_agg import RendererAgg

from rollmodel.panels import lettering, typesetting

SET = RendererAgg.draw_text


def on_whole_pixels(renderer, gc, x, y, words, font, angle, ismath=False, mtext=None):
    """A level line of type in one go, from the whole pixel nearest to its start."""
    if not (angle or ismath):
        x, y = typesetting.whole_pixel(x), typesetting.whole_pixel(y)
    SET(renderer, gc, x, y, words, font, angle, ismath, mtext)


def drawn_so(text):
    """The text's own ``draw``, each of its lines from a whole pixel."""
    draw = text.draw

    def draw_so(renderer):
        with patch.object(RendererAgg, "draw_text", on_whole_pixels):
            draw(renderer)

    return draw_so


@contextmanager
def words_on_whole_pixels(artists):
    """For a while every plain text among the artists stands on the pixel nearest to its place."""
    with ExitStack() as all_of_them:
        for text in filter(lettering.is_plain, artists):
            all_of_them.enter_context(lettering.standing_at(text, lettering.place_of(text)))
            all_of_them.enter_context(patch.object(text, "draw", drawn_so(text)))
        yield
