"""What a lesson consists of once it has run: words, pictures with words, questions without answers."""

from __future__ import annotations

from base64 import b64decode
from dataclasses import dataclass

WIDE = 1100  # px; one picture alone is 10.4 inches of 96 dots wide


class LessonFailed(RuntimeError):
    """A lesson that did not come to its end; one plain message."""


@dataclass(frozen=True)
class Words:
    """Prose, in Markdown."""

    text: str


@dataclass(frozen=True)
class Shot:
    """One picture in both looks, each as a data: address; the name of its state, and its words."""

    name: str
    words: str
    desk: str
    projector: str

    @property
    def alt(self) -> str:
        """Its text alternative."""
        return f"{self.name}: {self.words}" if self.name else self.words

    @property
    def size(self) -> tuple[int, int]:
        """Width and height on the projector, [px]; they stand at the head of every PNG (ISO/IEC 15948)."""
        head = b64decode(self.projector.partition("base64,")[2][:32])
        return int.from_bytes(head[16:20], "big"), int.from_bytes(head[20:24], "big")

    @property
    def is_wide(self) -> bool:
        """Several pictures side by side: half a page is too narrow for it."""
        return self.size[0] > WIDE


@dataclass(frozen=True)
class Predict:
    """What is to be committed to before a picture is looked at."""

    question: str
    unit: str


@dataclass(frozen=True)
class Pictures:
    """A panel that does not run: its pictures in the order in which one tells what they show."""

    title: str
    predict: Predict | None
    shots: tuple[Shot, ...]


@dataclass(frozen=True)
class Tasks:
    """What is to be done with a panel that runs, in Markdown; ``panel`` is its title."""

    panel: str
    text: str


@dataclass(frozen=True)
class Item:
    """One question; ``options`` are letters with their texts, none where the answer is written."""

    text: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Questions:
    """Questions that are answered on one's own."""

    title: str
    items: tuple[Item, ...]


@dataclass(frozen=True)
class ClassVote:
    """The class question, and its twin for after the discussion."""

    first: Item
    twin: Item


@dataclass(frozen=True)
class Said:
    """Words of a panel besides its pictures, as HTML of our own making."""

    title: str
    html: str


@dataclass(frozen=True)
class Ran:
    """One lesson, run from top to bottom."""

    number: int
    title: str
    car: str
    units: str
    pieces: tuple

    @property
    def predictions(self) -> list[Predict]:
        """Every prediction of the lesson, in order."""
        return [one.predict for one in self.pieces if isinstance(one, Pictures) and one.predict]

    @property
    def tasks(self) -> list[Tasks]:
        """Everything that is done at the keyboard, in order."""
        return [one for one in self.pieces if isinstance(one, Tasks)]
