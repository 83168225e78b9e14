"""The marks that every picture is made of: axes, text, arrows, springs, filled parts.

A picture's ``draw`` makes each artist once and hands back a :class:`Drawing`; ``update`` sets data
on those artists and nothing else. Drawings of parts are laid out on a *sheet*, axes whose unit is
about one type size, so that text and line work keep clear of each other at every type size.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from itertools import chain

import numpy as np
from matplotlib.colors import to_rgb
from matplotlib.figure import Figure
from matplotlib.patches import FancyArrowPatch, Polygon
from matplotlib.text import Text
from matplotlib.transforms import offset_copy

from rollmodel.figures.look import PAPER

LINES = {"plain": "-", "front": (0, (8, 1.5)), "rear": (0, (4, 1.5, 1, 1.5)), "bar": (0, (3, 1)),
         "guess": (0, (1, 1)), "dampers": (0, (6, 1.5, 1, 1.5, 1, 1.5))}
POINTS = {"plain": "o", "front": "s", "rear": "D", "bar": "^", "guess": "P", "dampers": "v"}
INK, GREY, METAL, SURFACE = "#000000", "#595959", "#c8c8c8", "#f1f1f1"
SHEET = (44.0, 24.0)  # about what the projector's type leaves room for, in type sizes
PATHS = {  # the four paths of load transfer: role that gives the colour, how much of it, hatching
    "springs and bar": ("bar", 0.35, ""), "links": ("plain", 0.07, "\\\\\\"),
    "unsprung": ("plain", 0.45, ""), "dampers": ("dampers", 0.45, "xxx")}


@dataclass
class Drawing:
    """What a picture drew: its axes, how it was asked to look, and the artists that move."""

    ax: object
    look: object
    family: str
    parts: dict = field(default_factory=dict)
    fixed: dict = field(default_factory=dict)  # measures settled by ``draw``

    @property
    def moving(self) -> list:
        """Every artist that ``update`` may touch, in the order in which to paint them."""
        groups = [part if isinstance(part, list) else [part] for part in self.parts.values()]
        return sorted(chain.from_iterable(groups), key=lambda artist: artist.get_zorder())

    def __getitem__(self, name):
        return self.parts[name]


def start(ax_or_figure, look, family="metric") -> Drawing:
    """An empty drawing in the axes given, or in new ones that fill the figure."""
    whole = isinstance(ax_or_figure, Figure)
    return Drawing(ax_or_figure.add_axes((0, 0, 1, 1)) if whole else ax_or_figure, look, family)


def size_in_points(ax) -> tuple[float, float]:
    """Width and height of the axes, [pt]."""
    # Asking for the active place of free-standing axes would mark them as changed.
    place, size = ax.get_position(original=ax.get_axes_locator() is None), ax.figure.get_size_inches()
    return 72 * place.width * size[0], 72 * place.height * size[1]


def sheet(ax, width=SHEET[0], height=SHEET[1]) -> None:
    """Turn axes into a blank sheet of at least this width and height, the same scale both ways.

    The sheet's middle at the bottom is the middle of the axes: x from ``-width / 2``.
    """
    across, up = size_in_points(ax)
    unit = min(across / width, up / height)
    ax.set(xlim=(-across / unit / 2, across / unit / 2), ylim=(0, up / unit))
    ax.set_axis_off()


def frame(ax, look, left=5.0, right=1.2, bottom=3.2, top=1.0) -> None:
    """Shrink the axes inside their own place to leave room for text; margins in type sizes."""
    width, height = size_in_points(ax)
    box_ = ax.get_position()
    across, up = look.font_size * box_.width / width, look.font_size * box_.height / height
    ax.set_position((box_.x0 + left * across, box_.y0 + bottom * up,
                     box_.width - (left + right) * across, box_.height - (bottom + top) * up))


def scales(ax, look, x_label="", y_label="") -> None:
    """Two numbered axes, thin, below every mark whichever is painted first."""
    ax.set_facecolor(PAPER)
    for side, spine in ax.spines.items():
        spine.set(visible=side in ("left", "bottom"), zorder=0.5, color=GREY, linewidth=look.line_width / 2)
    ax.set_axisbelow(True)
    ax.tick_params(labelsize=look.small, color=GREY, width=look.line_width / 2, length=look.small / 3)
    ax.tick_params(axis="x", pad=0.45 * look.small)  # clear of the lowest number beside the other axis
    ax.set_xlabel(x_label, fontsize=look.font_size)
    ax.set_ylabel(y_label, fontsize=look.font_size)


def inset(ax, place):
    """Axes within axes, by left, bottom, width and height in parts of the outer ones; laid out at once."""
    inner = ax.inset_axes(place)
    inner.apply_aspect(inner.get_axes_locator()(inner, None))
    return inner


def split(ax, rows, gap) -> list:
    """Turn axes off and lay equal axes one above the other in their place; gap as part of the height."""
    ax.set_axis_off()
    high = (1 - gap * (rows - 1)) / rows
    return [inset(ax, (0, 1 - (n + 1) * high - n * gap, 1, high)) for n in range(rows)]


def contrast_on_white(shade) -> float:
    """Contrast ratio against white by relative luminance, WCAG 2.1."""
    rgb = np.array(to_rgb(shade))
    linear = np.where(rgb <= 0.04045, rgb / 12.92, ((rgb + 0.055) / 1.055) ** 2.4)
    return 1.05 / (float(linear @ (0.2126, 0.7152, 0.0722)) + 0.05)


@lru_cache(maxsize=64)
def ink(shade: str) -> tuple:
    """A line colour darkened until words in it stand 4.5 to 1 on white (WCAG 2.1)."""
    rgb = np.array(to_rgb(shade))
    while contrast_on_white(rgb) < 4.6:
        rgb = rgb * 0.97
    return tuple(rgb)


def tint(shade: str, part: float) -> tuple:
    """A colour thinned with white, for surfaces."""
    return tuple(1 - part * (1 - np.array(to_rgb(shade))))


def words(ax, look, x=0.0, y=0.0, text="", role="plain", small=False, ground=PAPER, **changes) -> Text:
    """Text on a patch of its own ground, so that a line behind it never hides it."""
    # A halo would read better still, but is drawn with other letter widths than those measured.
    patch = {"facecolor": ground, "edgecolor": "none", "boxstyle": "square,pad=0.08"} if ground else None
    return ax.text(x, y, text, **{
        "ha": "center", "va": "center", "zorder": 6, "linespacing": 1.1, "color": ink(look.colours[role]),
        "fontsize": look.small if small else look.font_size, "bbox": patch, **changes})


def outside(ax, look, text, at, away, **changes) -> Text:
    """A line of type at a place given as parts of the axes, and some points from it to the right and up."""
    place = offset_copy(ax.transAxes, ax.get_figure(root=True), *away, units="points")
    usual = {"ha": "center", "va": "center", "fontsize": look.font_size}
    return ax.text(*at, text, transform=place, **{**usual, **changes})


def say(text: Text, content: str, x=None, y=None, **changes) -> None:
    """Set a text's words and place."""
    text.set(text=content, **changes)
    if x is not None:
        text.set_x(x)
    if y is not None:
        text.set_y(y)


def arrow(ax, look, role="plain", thickness=1.0, style="-|>", **changes) -> FancyArrowPatch:
    """An arrow with a plain filled head; put it in place with :func:`point`."""
    return ax.add_patch(FancyArrowPatch(
        (0, 0), (0, 0), arrowstyle=style, shrinkA=0, shrinkB=0,
        **{"mutation_scale": look.font_size, "color": look.colours[role],
           "linewidth": thickness * look.line_width, "zorder": 5,
           "joinstyle": "miter", **changes}))


def point(mark: FancyArrowPatch, tail, tip, smallest=0.0) -> None:
    """Lay an arrow from tail to tip; one no longer than ``smallest`` is not drawn."""
    mark.set_positions(tail, tip)
    mark.set_visible(bool(np.hypot(tip[0] - tail[0], tip[1] - tail[1]) > smallest))


def face(ax, look, fill=PAPER, thickness=0.5, **changes) -> Polygon:
    """A closed outline, filled; put it in place with ``set_xy``."""
    return ax.add_patch(Polygon([(0, 0)] * 3, **{"facecolor": fill, "edgecolor": INK, "zorder": 3,
                                                 "linewidth": thickness * look.line_width,
                                                 "joinstyle": "round", **changes}))


def path_face(ax, look, path: str, **changes) -> Polygon:
    """A surface in the shade and hatching of one path of load transfer."""
    role, part, hatch = PATHS[path]
    shade = look.colours[role]
    return face(ax, look, tint(shade, part), hatch=hatch, edgecolor=ink(shade), **changes)


def stroke(ax, look, role="plain", thickness=1.0, x=(), y=(), **changes):
    """A line in a role's colour and line style."""
    return ax.plot(x, y, **{"color": look.colours[role], "linestyle": LINES[role], "solid_capstyle": "round",
                            "linewidth": thickness * look.line_width, **changes})[0]


def dots(ax, look, role="plain", x=(), y=(), hollow=False, size=3.5, **changes):
    """Points in a role's colour and shape."""
    shade = look.colours[role]
    return ax.plot(x, y, **{"linestyle": "none", "marker": POINTS[role], "color": shade, "zorder": 5,
                            "markersize": size * look.line_width, "markeredgewidth": 0.8 * look.line_width,
                            "markeredgecolor": shade, "markerfacecolor": PAPER if hollow else shade,
                            **changes})[0]


def box(x, y, width, height) -> np.ndarray:
    """Corners of an upright rectangle about a centre."""
    corners = [(-width, -height), (width, -height), (width, height), (-width, height)]
    return np.array([x, y]) + 0.5 * np.array(corners)


def turned(points, angle, about=(0.0, 0.0)) -> np.ndarray:
    """Points turned anticlockwise about one of them."""
    c, s = np.cos(angle), np.sin(angle)
    return (np.asarray(points, float) - about) @ np.array([[c, s], [-s, c]]) + about


def coil(bottom, top, width, turns=5) -> np.ndarray:
    """A spring as a zigzag between two points."""
    bottom, top = np.asarray(bottom, float), np.asarray(top, float)
    along = top - bottom
    across = np.array([along[1], -along[0]]) / (np.hypot(*along) or 1.0) * width / 2
    steps = np.linspace(0.12, 0.88, 2 * turns + 1)
    sides = np.array([0, *([1, -1] * turns)])
    sides[-1] = 0
    return np.vstack([bottom, bottom + steps[:, None] * along + sides[:, None] * across, top])


def across(ax, points) -> float:
    """A distance in points as a step in x; :func:`up` in y."""
    low, high = ax.get_xlim()
    return points * (high - low) / size_in_points(ax)[0]


def up(ax, points) -> float:
    low, high = ax.get_ylim()
    return points * (high - low) / size_in_points(ax)[1]


def width_of(text: Text) -> float:
    """Width of a text in the units of its axes' x, shown or not."""
    shown = text.get_visible()
    text.set_visible(True)  # a hidden one has no size
    extent = text.get_window_extent()
    text.set_visible(shown)
    (left, _), (right, _) = text.axes.transData.inverted().transform([(extent.x0, 0), (extent.x1, 0)])
    return right - left


def spread(centres, widths, low, high, gap) -> np.ndarray:
    """Move labels sideways in two sweeps until none overlaps its neighbour.

    Parameters
    ----------
    centres, widths : sequence of float
        Wanted centres, in ascending order, and widths.
    low, high : float
        The room there is.
    gap : float
        Least clear space between two labels.
    """
    half, at = np.asarray(widths, float) / 2, np.array(centres, float)
    for n in range(len(at)):
        least = low if n == 0 else at[n - 1] + half[n - 1] + gap
        at[n] = max(at[n], least + half[n])
    for n in reversed(range(len(at))):
        most = high if n == len(at) - 1 else at[n + 1] - half[n + 1] - gap
        at[n] = min(at[n], most - half[n])
    return at
