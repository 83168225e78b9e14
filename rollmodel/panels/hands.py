"""What a show of hands says about how to go on. Plain numbers; no widget.

Common practice with class questions: with few right hands a discussion has nobody to carry it, so
explain again; with most hands right go on; in between let neighbours talk and ask again. The
limits differ from source to source, so the instructor may edit them.
"""

from __future__ import annotations

from dataclasses import dataclass

EXPLAIN, DISCUSS, GO_ON = "Explain again", "Discuss and vote again", "Go on"


@dataclass(frozen=True)
class Hands:
    """Hands counted for each letter, and which letter is right."""

    counts: dict[str, int]
    right: str

    @property
    def total(self) -> int:
        return sum(self.counts.values())

    @property
    def share(self) -> float | None:
        """Right hands of all hands, 0 to 1; None when nobody has voted."""
        return self.counts[self.right] / self.total if self.total else None

    @property
    def favourite_wrong(self) -> str | None:
        """The wrong letter with most hands; None when there are none, or two share the place."""
        wrong = {letter: count for letter, count in self.counts.items() if letter != self.right and count}
        most = [letter for letter, count in wrong.items() if count == max(wrong.values())]
        return most[0] if len(most) == 1 else None


def advice(share: float | None, low: float = 0.30, high: float = 0.70) -> str | None:
    """How to go on.

    Parameters
    ----------
    share : float or None
        Right hands of all hands, 0 to 1.
    low, high : float
        Below ``low`` explain again, from ``high`` on go on.

    Examples
    --------
    >>> advice(0.2), advice(0.5), advice(0.7)
    ('Explain again', 'Discuss and vote again', 'Go on')
    """
    if share is None:
        return None
    return EXPLAIN if share < low else GO_ON if share >= high else DISCUSS
