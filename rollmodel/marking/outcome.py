"""What is kept of one marked paper for the figures of the class: small, and the same for equal answers."""

from __future__ import annotations

import math
from array import array
from collections.abc import Sequence
from dataclasses import dataclass, replace
from hashlib import sha256

from rollmodel.marking.scoring import BY_HAND, Item, Marked
from rollmodel.questions.checking import UNREAD
from rollmodel.questions.records import Choice, Numeric, Open, Ordering
from rollmodel.questions.shown import figures

OFF_DIGITS = 2  # figures of "so many times the key": enough to see that many took one unknown road


@dataclass(frozen=True, order=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Row:
    """One learner for the class's figures.

    Parameters
    ----------
    shares : sequence of float
        Part of each question's marks, 0 to 1; nan while a person has still to decide.
    outcomes : tuple of Outcome
    figures, numbers : sequence of int
        What stands for the figure that was typed and for the learner's numbers; 0 where there is no figure.
    """

    name: str
    code_word: str
    marks: float
    waiting: float
    notes: tuple[str, ...]
    shares: Sequence[float]
    outcomes: tuple[Outcome, ...]
    figures: Sequence[int]
    numbers: Sequence[int]


def row_of_class(marked: Marked) -> Row:
    """What the class's figures need of one marked paper."""
    items = marked.items
    figures = [figure_of(item) for item in items]
    return Row(
        marked.handed.name,
        marked.handed.code_word,
        marked.marks,
        marked.waiting,
        marked.notes,
        array("d", (math.nan if item.waits else item.marks / item.most for item in items)),
        tuple(map(outcome_of, items)),
        array("q", map(_stands_for, figures)),
        array(
            "q",
            (
                _stands_for(figure and repr(sorted(item.posed.stated.items())))
                for figure, item in zip(figures, items, strict=True)
            ),
        ),
    )


def shared_outcomes(row: Row, known: dict[Outcome, Outcome]) -> Row:
    """The row with equal outcomes as one and the same object: a class gives few different answers."""
    return replace(row, outcomes=tuple(known.setdefault(one, one) for one in row.outcomes))


def _stands_for(text: str) -> int:
    """A number for a text; 0 for none."""
    return int.from_bytes(sha256(text.encode()).digest()[:8], "big", signed=True) if text else 0


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


def figure_of(item: Item) -> str:
    """A figure as typed, in SI; empty when there is none or it has fewer than three digits."""
    value = item.verdict.value
    if not isinstance(item.question, Numeric) or not isinstance(value, float):
        return ""
    digits = sum(sign.isdigit() for sign in item.verdict.given.lower().partition("e")[0])
    return f"{value:.6g}" if digits >= 3 else ""  # short figures come together by chance
