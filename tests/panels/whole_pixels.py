"""Pictures painted by matplotlib alone, for comparison: words that move stand on whole pixels, as on a canvas."""

from contextlib import ExitStack, contextmanager

from rollmodel.panels import lettering


@contextmanager
def words_on_whole_pixels(artists):
    """For a while every plain text among the artists stands on the pixel nearest to its place."""
    with ExitStack() as all_of_them:
        for text in filter(lettering.is_plain, artists):
            all_of_them.enter_context(lettering.standing_at(text, lettering.place_of(text)))
        yield
