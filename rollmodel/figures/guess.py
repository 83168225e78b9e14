"""The learner's guess on a scale: a line where it stands, or, beyond the scale's end, a head and its value.

A guess that the scale cannot hold gets no line at the end, for a line there would pass for a guess of that
value. It gets a head at the end that points on, and words that say what was guessed.
"""

from __future__ import annotations

from dataclasses import dataclass

from matplotlib.markers import CARETDOWN, CARETLEFT, CARETRIGHT, CARETUP

from rollmodel.units import show

PLAIN = "your guess"
HEAD = 5.0  # length of the head, in widths of the line
UP = {-1: CARETDOWN, 1: CARETUP}  # their tips lie on the end of the scale
ACROSS = {-1: CARETLEFT, 1: CARETRIGHT}


@dataclass(frozen=True)
class Place:
    """Where a guess stands on a scale, in the scale's own numbers."""

    at: float  # the end of the scale where the guess lies beyond it
    way: int  # -1 below the scale, 1 above it, 0 on it

    @property
    def beyond(self) -> bool:
        """Whether the scale cannot hold it."""
        return self.way != 0


def place(value: float, ends) -> Place:
    """A guess on a scale that runs between two ends, in the scale's own numbers.

    Examples
    --------
    >>> place(3.0, (0.0, 2.0)), place(1.0, (0.0, 2.0))
    (Place(at=2.0, way=1), Place(at=1.0, way=0))
    """
    low, high = min(ends), max(ends)
    return Place(float(min(max(value, low), high)), int(value > high) - int(value < low))


def words(where: Place, value: float, kind: str, family: str, gap: str = " ") -> str:
    """What stands beside a guess of a value [SI]: the value as well, where the scale cannot hold it.

    Examples
    --------
    >>> words(Place(2.0, 1), 3000.0, "load", "metric")
    'your guess 3000 N, off the scale'
    """
    return f"{PLAIN} {show(value, kind, family)},{gap}off the scale" if where.beyond else PLAIN


def level(line, where: Place, left: float, right: float, head: float | None = None) -> None:
    """A level line on a scale that runs upwards, or the head alone; ``head`` is where across it stands."""
    middle = (left + right) / 2 if head is None else head
    _lay(line, ([left, right], [where.at] * 2), ([middle], [where.at]), UP.get(where.way, "none"))


def upright(line, where: Place, low: float, high: float, head: float | None = None) -> None:
    """An upright line on a scale that runs across, or the head alone; ``head`` is how high it stands."""
    middle = (low + high) / 2 if head is None else head
    _lay(line, ([where.at] * 2, [low, high]), ([where.at], [middle]), ACROSS.get(where.way, "none"))


def _lay(line, whole, tip, marker):
    line.set_data(*(whole if marker == "none" else tip))
    line.set(marker=marker, markersize=HEAD * line.get_linewidth())
