"""The whole of what is said of a class, as tables; how they look is another file's affair."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from rollmodel.marking.agreement import Agreement
from rollmodel.marking.alike import Pair, pairs_alike
from rollmodel.marking.figures import question_figures, settled, totals, upper_weights
from rollmodel.marking.flags import ENOUGH, flags
from rollmodel.marking.outcome import Outcome, Row
from rollmodel.marking.paper import Paper
from rollmodel.marking.reading import Aside
from rollmodel.marking.scoring import BY_HAND
from rollmodel.questions.misconceptions import every_misconception
from rollmodel.questions.records import Choice, Question

LEFT_ALONE = ("other mode", "another sort of file")  # not marked, and nothing is amiss with them


@dataclass(frozen=True)
class Given:
    """One answer to one question, and how often it was given: in all, in the upper and in the lower 27 %."""

    what: str
    road: str  # name of the belief; empty for none
    right: bool
    count: int
    upper: float
    lower: float


@dataclass(frozen=True)
class AboutQuestion:
    """One question for the class."""

    question: Question
    most: float
    answered: int
    figures: dict[
        str, float
    ]  # facility, upper, lower, discrimination, item_rest [-], counted [learners]; nan where there is none
    given: tuple[Given, ...]  # the most frequent first
    unused: tuple[str, ...]  # options that nobody chose
    reasons: tuple[str, ...]  # why somebody should look at it; never any below 30 learners


@dataclass(frozen=True)
class Road:
    """One wrong belief over the whole paper."""

    name: str
    count: int  # answers
    learners: int
    questions: tuple[str, ...]


@dataclass(frozen=True)
class ClassReport:
    """Everything that the report says."""

    paper: Paper
    mode: str
    rows: Sequence[Row]
    asides: tuple[Aside, ...]  # with something amiss
    left_alone: tuple[Aside, ...]
    questions: tuple[AboutQuestion, ...]
    roads: tuple[Road, ...]
    pairs: tuple[Pair, ...]
    agreement: tuple[Agreement, ...] = ()  # of two markers, question by question
    strange_rows: int = 0  # of markers' forms, that belong to no answer here

    @property
    def speaks(self) -> bool:
        """Whether the class is large enough for a word on what its figures mean."""
        return len(self.rows) >= ENOUGH

    @property
    def summary(self) -> dict[str, float]:
        """Mean, median, spread, lowest and highest of the marks [marks]."""
        marks = pd.Series([row.marks for row in self.rows], dtype=float)
        return {
            "mean": marks.mean(),
            "median": marks.median(),
            "standard deviation": marks.std(),
            "lowest": marks.min(),
            "highest": marks.max(),
        }

    @property
    def decided(self) -> tuple[float, float]:
        """Marks that are decided, for the learner with fewest and for the one with most of them."""
        waiting = [row.waiting for row in self.rows] or [0.0]
        return self.paper.most - max(waiting), self.paper.most - min(waiting)

    @property
    def waiting(self) -> float:
        """Marks in the whole class on which a person has still to decide."""
        return sum(row.waiting for row in self.rows)


def class_report(
    paper: Paper,
    mode: str,
    rows: Sequence[Row],
    asides: Sequence[Aside],
    agreement: Sequence[Agreement] = (),
    strange_rows: int = 0,
) -> ClassReport:
    """Put the report together.

    Parameters
    ----------
    paper : Paper
    mode : {"assessment", "practice"}
    rows : sequence of Row
        One for each marked file.
    asides : sequence of Aside
    agreement : sequence of Agreement, optional
        Of two markers on open answers.
    strange_rows : int, optional
        Rows of their forms that belong to no answer here.
    """
    amiss = tuple(one for one in asides if one.kind not in LEFT_ALONE)
    alone = tuple(one for one in asides if one.kind in LEFT_ALONE)
    about = _questions(paper, rows) if rows else ()
    pairs = tuple(pairs_alike(rows)) if rows else ()
    return ClassReport(
        paper, mode, rows, amiss, alone, about, _roads(paper, rows), pairs, tuple(agreement), strange_rows
    )


def _questions(paper: Paper, rows: Sequence[Row]) -> tuple[AboutQuestion, ...]:
    names = list(paper.marks)
    outcomes = pd.DataFrame([row.outcomes for row in rows], columns=names, dtype=object)
    shares = without_waiting(pd.DataFrame([row.shares for row in rows], columns=names), outcomes)
    most = pd.Series(dict(paper.marks), dtype=float)
    total = totals(shares, most)
    figures = question_figures(shares, most)
    binary = (shares.isin((0.0, 1.0)) | shares.isna()).all() & shares.columns.isin(settled(shares).columns)
    reasons = flags(figures, outcomes, total, binary)
    ends = upper_weights(total.to_numpy()), upper_weights(-total.to_numpy())
    return tuple(
        _about(
            question,
            paper.marks[question.id],
            figures.loc[question.id],
            outcomes[question.id],
            ends,
            reasons.get(question.id, ()),
        )
        for question in paper.questions
    )


def without_waiting(shares: pd.DataFrame, outcomes: pd.DataFrame) -> pd.DataFrame:
    """No share for anybody of a question that markers have still to read.

    An answer that no marker is asked about, to another version for one, takes only its own learner out: one
    file could otherwise take a question's figures from the whole class.
    """
    aside = outcomes.map(lambda outcome: outcome.status in BY_HAND)
    waiting = (shares.isna() & ~aside).any()
    return shares.assign(**dict.fromkeys(shares.columns[waiting], float("nan")))


def _about(
    question: Question, most: float, figures: pd.Series, outcomes: pd.Series, ends, reasons: Sequence[str]
) -> AboutQuestion:
    counts = Counter(outcomes)
    weights = [_weight_of(outcomes, end) for end in ends]
    given = tuple(
        _given(outcome, count, *(weight[outcome] for weight in weights))
        for outcome, count in counts.most_common()
    )
    answered = sum(count for outcome, count in counts.items() if outcome.status != "not answered")
    return AboutQuestion(
        question, most, answered, figures.to_dict(), given, _unused(question, counts), tuple(reasons)
    )


def _weight_of(outcomes: pd.Series, weights: np.ndarray) -> dict[Outcome, float]:
    """How much of one end of the class gave each answer [learners]."""
    return pd.Series(weights).groupby(outcomes.to_numpy(), sort=False).sum().to_dict()


def _given(outcome: Outcome, count: int, upper: float, lower: float) -> Given:
    road = every_misconception()[outcome.road].name if outcome.road else ""
    return Given(words_for(outcome), road, outcome.right, count, upper, lower)


_WORDS = {
    "near": "right, rounded too early",
    "road": "a known road",
    "partly": "right in places",
    "wrong": "on no known road",
    "noted": "read by a person",
}


def words_for(outcome: Outcome) -> str:
    """An answer in a few words."""
    words = _WORDS.get(outcome.status, outcome.status)
    return f"{words}: {outcome.what}" if outcome.what else words


def _unused(question: Question, counts: Counter) -> tuple[str, ...]:
    if not isinstance(question, Choice):
        return ()
    chosen = {outcome.what for outcome in counts}
    return tuple(option.name for option in question.options if option.name not in chosen)


def _roads(paper: Paper, rows: Sequence[Row]) -> tuple[Road, ...]:
    """Every road that was taken, the most frequent first."""
    taken = pd.DataFrame(
        [
            (number, question, outcome.road)
            for number, row in enumerate(rows)
            for question, outcome in zip(paper.marks, row.outcomes, strict=True)
            if outcome.road
        ],
        columns=["learner", "question", "road"],
    )
    roads = [
        Road(
            every_misconception()[road].name,
            len(group),
            group["learner"].nunique(),
            tuple(question for question in paper.marks if question in set(group["question"])),
        )
        for road, group in taken.groupby("road")
    ]
    return tuple(sorted(roads, key=lambda road: (-road.count, road.name)))
