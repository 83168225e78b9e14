"""Learners whose wrong answers are the same, or who share a figure though their numbers differ.

Two counts for each pair. *Wrong alike*: both wrong in the same way, by the same road, option or order,
or with a figure equally far off. *Same figure*: the same figure of three digits or more from different
numbers, wrong for at least one of them. Each count is held against what chance would bring if learners
slipped independently, each kind of slip as often as in this class: a Poisson law with the sum of the
questions' chances as its mean. For counts above that mean the law overstates chance, as a test works out
question by question (after W. Hoeffding, On the distribution of the number of successes in independent
trials, Annals of Mathematical Statistics 27 (1956) 713-721, from memory).
A pair is listed when its count would come up by chance in fewer than one class in a hundred.

Neither count proves anything: two learners with one wrong belief slip alike, again and again.
"""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from scipy import sparse, stats

from rollmodel.marking.outcome import Row

FEWEST_WRONG = 3  # shared wrong answers before a pair is looked at
FEWEST_FIGURES = 2
CHANCE = 0.01  # of a pair listed by chance, in a whole class
PAIRS = 200_000  # at a time: all pairs of a large class never stand in memory together
MOST_LISTED = 200


@dataclass(frozen=True)
class Pair:
    """Two learners by their place in the list, how much they share, and how much chance would bring."""

    one: int
    other: int
    what: str
    shared: int
    expected: float
    chance: float


def pairs_alike(rows: Sequence[Row]) -> list[Pair]:
    """Pairs of learners with more in common than chance brings, the least likely first.

    Parameters
    ----------
    rows : sequence of Row
        In the order of the report.
    """
    found = [*_wrong_alike(rows), *_same_figures(rows)]
    return sorted(found, key=lambda pair: (pair.chance, pair.one, pair.other))[:MOST_LISTED]


def _wrong_alike(rows: Sequence[Row]) -> Iterator[Pair]:
    """Both wrong in the same way; chance over the questions that both have wrong."""
    wrong = [[outcome if outcome.wrong else None for outcome in row.outcomes] for row in rows]
    same, questions = incidence(wrong), answered(wrong)
    by_chance = chance_of_same(wrong)
    for block in _blocks(len(rows)):
        shared = (same[block] @ same.T).toarray()
        expected = (questions[block].multiply(by_chance) @ questions.T).toarray()
        yield from _beyond_chance("wrong alike", block.start, shared, expected, FEWEST_WRONG)


def _same_figures(rows: Sequence[Row]) -> Iterator[Pair]:
    """The same figure from other numbers, not right for both."""
    figure = [[figure or None for figure in row.figures] for row in rows]
    with_numbers = [
        [both if both[0] else None for both in zip(row.figures, row.numbers, strict=True)] for row in rows
    ]
    questions, by_chance = answered(figure), chance_of_same(figure)
    every, own, right, own_right = map(
        incidence,
        (
            figure,
            with_numbers,
            [_only(line, row, right=True) for line, row in zip(figure, rows, strict=True)],
            [_only(line, row, right=True) for line, row in zip(with_numbers, rows, strict=True)],
        ),
    )
    for block in _blocks(len(rows)):
        shared = (
            every[block] @ every.T
            - right[block] @ right.T
            - own[block] @ own.T
            + own_right[block] @ own_right.T
        )
        expected = (questions[block].multiply(by_chance) @ questions.T).toarray()
        yield from _beyond_chance("same figure", block.start, shared.toarray(), expected, FEWEST_FIGURES)


def _only(line, row: Row, right: bool) -> list:
    return [
        value if outcome.right == right else None for value, outcome in zip(line, row.outcomes, strict=True)
    ]


def _blocks(number: int) -> Iterator[slice]:
    size = max(1, PAIRS // number)
    return (slice(start, min(start + size, number)) for start in range(0, number, size))


def incidence(table: Sequence[Sequence]) -> sparse.csr_array:
    """Learners by different answers: 1 where a learner gave that answer; None is no answer."""
    places: dict = {}

    def column(question: int, value) -> int:
        return places.setdefault((question, value), len(places))

    return _ones(table, column, lambda: len(places))


def answered(table: Sequence[Sequence]) -> sparse.csr_array:
    """Learners by questions: 1 where there is an answer."""
    return _ones(table, lambda question, value: question, lambda: len(table[0]) if table else 0)


def _ones(table: Sequence[Sequence], column: Callable, width: Callable) -> sparse.csr_array:
    """1 for each answer, in its learner's row and the column that it belongs to."""
    rows, columns = array("q"), array("q")
    for learner, line in enumerate(table):
        for question, value in enumerate(line):
            if value is not None:
                rows.append(learner)
                columns.append(column(question, value))
    at = np.frombuffer(rows, dtype=np.int64), np.frombuffer(columns, dtype=np.int64)
    return sparse.csr_array((np.ones(len(rows)), at), shape=(len(table), max(1, width())))


def chance_of_same(table: Sequence[Sequence]) -> np.ndarray:
    """For each question the part of all pairs of answers that are the same [-]."""
    columns = zip(*table, strict=True)
    return np.array([_part_of_pairs([value for value in column if value is not None]) for column in columns])


def _part_of_pairs(values: list) -> float:
    """Pairs alike over all pairs; one pair more is added to each, so that a first meeting is not certain."""
    counts = np.array(list(Counter(values).values()), dtype=float)
    return float(((counts * (counts - 1)).sum() + 2) / (len(values) * (len(values) - 1) + 2))


def _beyond_chance(what: str, start: int, shared, expected, fewest: int) -> Iterator[Pair]:
    """The pairs of one block that share more than chance brings; each pair once."""
    number = shared.shape[1]
    first, second = np.nonzero(shared > fewest - 0.5)
    later = second > first + start
    first, second = first[later], second[later]
    counts, means = shared[first, second], expected[first, second]
    chances = stats.poisson.sf(counts - 1, means)
    listed = chances * number * (number - 1) / 2 < CHANCE
    for i, j, count, mean, chance in zip(
        *(x[listed] for x in (first, second, counts, means, chances)), strict=True
    ):
        yield Pair(int(i) + start, int(j), what, int(count), float(mean), float(chance))
