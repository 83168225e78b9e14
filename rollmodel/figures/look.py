"""How every picture looks: sizes, line widths and colours, for a desk or for a projector.

A picture has its own white ground and a border that shows on a light and on a dark page, so no
theme has to be guessed. Sizes are real ones: at :data:`DPI` dots an inch one typographic point of
the picture is one point on the screen.

Each role has one colour wherever it appears, with a line style of its own (``figures.marks``) and
its name written beside the line.

Examples
--------
>>> Look().colours["front"], Look(projector=True).small
('#0072B2', 18.0)
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

DPI = 96  # CSS counts 96 px to the inch
PAPER, BORDER = "#FFFFFF", "#767676"  # the border keeps 3:1 on white and on near-black
COLOURS = MappingProxyType({"plain": "#000000", "front": "#0072B2", "rear": "#D55E00", "bar": "#009E73",
                            "guess": "#CC79A7",  # what the learner predicted
                            "dampers": "#5A2D00"})


@dataclass(frozen=True)
class Look:
    """One way of drawing.

    Parameters
    ----------
    projector : bool
        Type of at least 18 pt and thicker lines.
    """

    projector: bool = False

    @property
    def colours(self):
        """Line colour of each role."""
        return COLOURS

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of a panel's picture, [inch]."""
        return (10.4, 5.0) if self.projector else (7.6, 4.3)

    @property
    def font_size(self) -> float:
        """Of ordinary type in the picture, [pt]."""
        return 20.0 if self.projector else 11.5

    @property
    def small(self) -> float:
        """The smallest type used, [pt]."""
        return 18.0 if self.projector else 10.0

    @property
    def line_width(self) -> float:
        """Of a line that carries meaning, [pt]."""
        return 3.4 if self.projector else 2.0
