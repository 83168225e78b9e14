"""What is kept of one marked paper for the figures of the class: small, and the same for equal answers."""

from __future__ import annotations

import math
from dataclasses import dataclass
from hashlib import sha256

from rollmodel.marking.scoring import BY_HAND, Item, Marked
from rollmodel.questions.checking import UNREAD
from rollmodel.questions.records import Choice, Numeric, Open, Ordering
from rollmodel.questions.shown import figures

OFF_DIGITS = 2  # figures of "so many times the key": enough to see that many took one unknown road


@dataclass(frozen=True, order=True)
class Outcome:
    """One answer without its learner: equal when two learners answered alike.

    Parameters
    ----------
    status : str
        As in a verdict.
    road : str
        Id of the wrong belief; empty for none.
    what : str
        The option or order chosen, or how far a figure on no known road lies from the key.
    """

    status: str
    road: str = ""
    what: str = ""

    @property
    def right(self) -> bool:
        return self.status in ("right", "near")

    @property
    def wrong(self) -> bool:
        """Read, and not right: what two learners may have in common that is no credit to either."""
        return self.status in ("road", "partly", "wrong")


@dataclass(frozen=True)
class Row:
    """One learner for the class's figures.

    Parameters
    ----------
    shares : tuple of float
        Part of each question's marks, 0 to 1; nan while a person has still to decide.
    outcomes : tuple of Outcome
    figures : tuple of (str, str)
        For each numeric answer the figure in SI and what stands for the learner's numbers; empty otherwise.
    """

    name: str
    code_word: str
    marks: float
    waiting: float
    notes: tuple[str, ...]
    shares: tuple[float, ...]
    outcomes: tuple[Outcome, ...]
    figures: tuple[tuple[str, str], ...]


def row_of_class(marked: Marked) -> Row:
    """What the class's figures need of one marked paper."""
    items = marked.items
    return Row(
        marked.handed.name,
        marked.handed.code_word,
        marked.marks,
        marked.waiting,
        marked.notes,
        tuple(math.nan if item.waits else item.marks / item.most for item in items),
        tuple(map(outcome_of, items)),
        tuple(map(figure_of, items)),
    )


def outcome_of(item: Item) -> Outcome:
    """The answer to one question, without the learner's own numbers."""
    verdict, question = item.verdict, item.question
    if verdict.status in (*UNREAD, *BY_HAND) or isinstance(question, Open):
        return Outcome(verdict.status)
    road = "" if verdict.belief is None else verdict.belief.id
    if isinstance(question, Choice):
        return Outcome(verdict.status, road, verdict.value)
    if isinstance(question, Ordering):
        return Outcome(verdict.status, road, " < ".join(verdict.value))
    return Outcome(verdict.status, road, _off(item) if verdict.status == "wrong" else "")


def _off(item: Item) -> str:
    """How many times the key a figure is."""
    key, value = item.posed.key, item.verdict.value
    ratio = value / key if key else math.nan
    return f"{figures(ratio, OFF_DIGITS)} x key" if math.isfinite(ratio) else ""


def figure_of(item: Item) -> tuple[str, str]:
    """A figure of at least three digits as typed, and what stands for the numbers it was worked from."""
    value = item.verdict.value
    if not isinstance(item.question, Numeric) or not isinstance(value, float):
        return "", ""
    if sum(sign.isdigit() for sign in item.verdict.given.lower().partition("e")[0]) < 3:
        return "", ""  # short figures come together by chance
    numbers = repr(sorted(item.posed.stated.items()))
    return f"{value:.6g}", sha256(numbers.encode()).hexdigest()[:12]
