"""Every word of a picture stands 4.5 to 1 on its ground, every line and mark 3 to 1 on paper (WCAG 2.2)."""

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgba
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.text import Text

from rollmodel.figures.look import DPI, Look
from rollmodel.figures.marks import contrast_on_white
from tests.unit.figure_states import tried

NOTHING = ("None", "none", " ", "", None)


def on_paper(colour, alpha=None):
    """Contrast against white of a colour that may let the paper through."""
    *rgb, part = to_rgba(colour, alpha)
    return contrast_on_white(1 - part * (1 - np.array(rgb)))


def faint(artist):
    """Whether an artist that is shown is a word or a line too faint to be seen by everybody."""
    if isinstance(artist, Text) and artist.get_text().strip():
        patch = artist.get_bbox_patch()
        ground = contrast_on_white(to_rgba(patch.get_facecolor())[:3]) if patch else 1.0
        return on_paper(artist.get_color(), artist.get_alpha()) / ground < 4.5
    if not isinstance(artist, Line2D) or not len(artist.get_xdata()):
        return False
    line = artist.get_linestyle() not in NOTHING and on_paper(artist.get_color(), artist.get_alpha()) < 3
    mark = artist.get_marker() not in NOTHING and on_paper(artist.get_markeredgecolor()) < 3
    return line or mark


@pytest.mark.parametrize("one", tried(), ids=lambda one: one.name)
def test_words_and_lines_can_be_seen(one):
    figure = Figure(figsize=Look().size, dpi=DPI)
    FigureCanvasAgg(figure)
    one.picture.draw(figure, one.states[-1], Look(), "metric")
    figure.canvas.draw()
    shown = [artist for artist in figure.findobj() if artist.get_visible()]
    assert [artist for artist in shown if faint(artist)] == []
    assert sum(isinstance(artist, Text) for artist in shown) > 3


def test_what_is_too_faint_is_found():
    assert faint(Text(text="pale", color="#808080")) and not faint(Text(text="dark", color="#767676"))
    pale = {"color": "#a0a0a0"}, {"color": "black", "alpha": 0.3}
    lines = [Line2D([0, 1], [0, 1], **look) for look in pale]
    assert all(map(faint, lines)) and not faint(Line2D([0, 1], [0, 1], color="#CC79A7"))
