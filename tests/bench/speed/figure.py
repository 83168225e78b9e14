"""One measured figure, what it stands beside, and what was aimed at."""

import json
from dataclasses import asdict, dataclass
from pathlib import Path

# What is held against the limit, and how a limit reads on the page.
AIMS = {
    "below": "below {limit:g} {unit}",
    "times better": "at least {limit:g} times",
    "times the other": "within {limit:g} times the other",
}


@dataclass(frozen=True)
class Aim:
    """A target: one of `AIMS` and its limit."""

    kind: str
    limit: float

    def met(self, figure: "Figure") -> bool:
        """Whether a figure reaches it."""
        if self.kind == "below":
            return figure.ours < self.limit
        if self.kind == "times better":
            return figure.times_better >= self.limit
        return figure.ours <= self.limit * figure.other

    def words(self, unit: str) -> str:
        return AIMS[self.kind].format(limit=self.limit, unit=unit)


@dataclass(frozen=True)
class Figure:
    """A measured number and the number of the other way, in one unit; ``other`` None: nothing to compare."""

    what: str
    ours: float
    unit: str
    other: float | None = None
    beside: str = ""
    aim: Aim | None = None
    more_is_better: bool = False

    @property
    def times_better(self) -> float:
        """Above 1 the package is the better one."""
        return self.ours / self.other if self.more_is_better else self.other / self.ours


@dataclass(frozen=True)
class Part:
    """What one program measured, or why it did not."""

    title: str
    how: str
    figures: tuple[Figure, ...] = ()
    load: float | None = None  # of the machine when this part began
    trouble: str = ""


def keep(part: Part, path: Path) -> None:
    """Write a part to a file."""
    path.write_text(json.dumps(asdict(part)), encoding="utf-8")


def kept(path: Path) -> Part:
    """The part that a file holds."""
    told = json.loads(path.read_text(encoding="utf-8"))
    figures = (one | {"aim": Aim(**one["aim"]) if one["aim"] else None} for one in told["figures"])
    return Part(**told | {"figures": tuple(Figure(**one) for one in figures)})
