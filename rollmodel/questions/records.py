"""Questions as data, with code only for what has to be computed: the numbers and the key.

No key is stored anywhere. Each is computed by the model from the numbers that one learner was given.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import SimpleNamespace

from rollmodel.questions.draws import Draw
from rollmodel.questions.misconceptions import Misconception, misconception
from rollmodel.questions.roads import Road
from rollmodel.questions.shown import Given

POOLS = ("recall", "class", "exercise", "assessment")
THREE_FIGURES = "three figures rounded off are at most 0.5 % out, and so may one step in between be"

Numbers = SimpleNamespace


def _nothing(numbers) -> dict:
    return {}


@dataclass(frozen=True)
class Tolerance:
    """How far from the key an answer may lie and still be right, and why that far."""

    reason: str
    relative: float = 0.01
    absolute: float = 0.0  # in SI; for keys that may be nil

    def of(self, value: float) -> float:
        """Half the width of the window about a value, in SI."""
        return max(self.relative * abs(value), self.absolute)


@dataclass(frozen=True, kw_only=True, eq=False)
class Question:
    """What every question has. Two questions are equal only when they are one and the same.

    ``text`` and the other templates name numbers in braces: those in ``given``, and in the worked steps
    also those in ``workings`` (name to value and kind) and ``{answer}``.
    """

    id: str
    lesson: int
    aim: str  # begins with a verb: what it shows that a learner can do
    level: int  # 1 recall and one step, 2 two or three steps, 3 steps that must be found
    minutes: float
    pools: tuple[str, ...]
    text: str
    hint: str
    process: str
    worked: tuple[str, ...]
    version: int = 1
    given: Mapping[str, Given] = field(default_factory=dict)
    draw: Callable[[Draw], dict] = lambda stream: {}
    sound: Callable[[Numbers], bool] = lambda numbers: True  # False: draw again
    workings: Callable[[Numbers], dict[str, tuple[float, str]]] = _nothing


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step of a numeric question, to be checked by itself. Its name joins the id by a stroke."""

    name: str
    text: str
    kind: str
    key: Callable[[Numbers], float]
    hint: str
    process: str
    worked: str
    roads: tuple[Road, ...] = ()


@dataclass(frozen=True, kw_only=True, eq=False)
class Numeric(Question):
    """A number with its unit."""

    kind: str  # a key of rollmodel.units.KINDS
    key: Callable[[Numbers], float]
    roads: tuple[Road, ...]
    tolerance: Tolerance = Tolerance(THREE_FIGURES)
    signed: bool = False  # the sign is part of the question
    steps: tuple[Step, ...] = ()

    def step(self, name: str) -> Numeric:
        """One step as a question of its own, on the same numbers."""
        step = next(step for step in self.steps if step.name == name)
        return Numeric(id=f"{self.id}/{name}", lesson=self.lesson, aim=self.aim, level=1, minutes=1,
                       pools=("exercise",), text=step.text, hint=step.hint, process=step.process,
                       worked=(step.worked,), version=self.version, given=self.given, draw=self.draw,
                       sound=self.sound, workings=self.workings, kind=step.kind, key=step.key,
                       roads=step.roads)


@dataclass(frozen=True)
class Option:
    """One option of a choice; ``belief`` names the misconception, None for a right one."""

    name: str
    text: str
    belief: Misconception | None = None


def wrong(name: str, text: str, belief: str) -> Option:
    """A wrong option with the misconception behind it."""
    return Option(name, text, misconception(belief))


@dataclass(frozen=True, kw_only=True, eq=False)
class Choice(Question):
    """One option of three or four, each with its reason."""

    options: tuple[Option, ...]
    key: Callable[[Numbers], str]  # name of the right option, by the model
    twin: str | None = None  # the same idea in another dress, for after the discussion


@dataclass(frozen=True, kw_only=True, eq=False)
class Ordering(Question):
    """Items to put in order, the smallest first."""

    items: Mapping[str, str]  # name: text
    values: Callable[[Numbers], dict[str, float]]  # by the model; the key is the items sorted by it
    roads: tuple[Road, ...] = ()  # each gives other values
    gap: float = 0.05  # neighbours closer than this, relative, are drawn again: too close to call

    def key(self, numbers: Numbers) -> tuple[str, ...]:
        return in_order(self.values(numbers))


def in_order(values: Mapping[str, float]) -> tuple[str, ...]:
    """Names, the smallest value first."""
    return tuple(sorted(values, key=values.__getitem__))


@dataclass(frozen=True)
class Criterion:
    """One thing an assessor looks for in an open answer."""

    marks: int
    text: str


@dataclass(frozen=True)
class Sample:
    """An answer as a learner might write it, with the marks it earns and the reason."""

    level: str  # "weak", "fair", "good"
    marks: int
    text: str
    reason: str


@dataclass(frozen=True, kw_only=True, eq=False)
class Open(Question):
    """Which change, and why: read by a person, with a rubric; ``workings`` are the model's figures."""

    rubric: tuple[Criterion, ...]
    samples: tuple[Sample, ...]

    @property
    def full_marks(self) -> int:
        return sum(criterion.marks for criterion in self.rubric)
