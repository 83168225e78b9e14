"""How far two markers agree on open answers, by weighted kappa.

J. Cohen, Weighted kappa: nominal scale agreement with provision for scaled disagreement or partial credit,
Psychological Bulletin 70 (1968) 213-220. The sum is that of statsmodels; tests hold it against Cohen's own
example.
"""

from __future__ import annotations

import math
import warnings
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from statsmodels.stats.inter_rater import cohens_kappa

from rollmodel.marking.rubric import APART, STEP, Form
from rollmodel.questions import bank

WEIGHTS = ("linear", "quadratic")


@dataclass(frozen=True)
class Agreement:
    """Two markers on one question.

    Parameters
    ----------
    question : str
    answers : int
        Marked by both.
    same, near : float
        Part with the same marks, and with marks no more than one apart [-].
    kappa : dict
        Weights ("linear", "quadratic") to weighted kappa and the ends of its 95 % interval [-]; nan where
        there is none, as when a marker gave the same marks to all.
    """

    question: str
    answers: int
    same: float
    near: float
    kappa: dict[str, tuple[float, float, float]]


def agreement(first: Form, second: Form) -> list[Agreement]:
    """Question by question, in the order of the bank."""
    both = [row for row in first.given if row in second.given]
    names = [one.id for one in bank.all_questions() if any(first.questions[row] == one.id for row in both)]
    return [
        _on(name, [(first.total(row), second.total(row)) for row in both if first.questions[row] == name])
        for name in names
    ]


def _on(name: str, pairs: Sequence[tuple[float, float]]) -> Agreement:
    apart = np.abs(np.subtract(*np.array(pairs).T))
    table = table_of(pairs, bank.question(name).full_marks)
    return Agreement(
        name,
        len(pairs),
        float((apart == 0).mean()),
        float((apart <= APART).mean()),
        {weights: weighted_kappa(table, weights) for weights in WEIGHTS},
    )


def table_of(pairs: Sequence[tuple[float, float]], full: int) -> np.ndarray:
    """How many answers got which marks from the one and from the other, in steps of half a mark."""
    steps = round(full / STEP) + 1
    table = np.zeros((steps, steps))
    for one, other in pairs:
        table[round(one / STEP), round(other / STEP)] += 1
    return table


def weighted_kappa(table: np.ndarray, weights) -> tuple[float, float, float]:
    """Weighted kappa and the ends of its 95 % interval [-].

    Parameters
    ----------
    table : array
        Square: how many got category i from the one marker and j from the other.
    weights : {"linear", "quadratic"} or array
        How much a disagreement counts: as its distance, as its square, or by a table of its own.

    Examples
    --------
    >>> round(weighted_kappa(np.array([[8, 1, 0], [1, 8, 1], [0, 1, 8]]), "linear")[0], 3)
    0.836
    """
    used = np.asarray(table, dtype=float)
    with warnings.catch_warnings(), np.errstate(all="ignore"):
        warnings.simplefilter("ignore", RuntimeWarning)
        chosen = {"wt": weights} if isinstance(weights, str) else {"weights": np.asarray(weights)}
        found = cohens_kappa(used, **chosen)
    if not math.isfinite(found.kappa):
        return math.nan, math.nan, math.nan
    return float(found.kappa), float(found.kappa_low), float(found.kappa_upp)
