"""Which questions somebody should look at: said only of classes of 30 or more, and only beyond chance.

The first two signs are each held to a chance of 5 % that they show in any question of a sound paper, shared
among its questions (Bonferroni). Fixed limits alone would flag sound questions in small classes. The third,
that hardly anybody is right, has a fixed limit.
"""

from __future__ import annotations

import numpy as np
import pandas as pd
from scipy import stats

from rollmodel.marking.figures import upper_weights
from rollmodel.marking.outcome import Outcome
from rollmodel.marking.scoring import BY_HAND

ENOUGH = 30  # learners; below, figures are given without a word on what they mean
CHANCE = 0.05  # of a false flag in the whole paper
LOW = 0.1  # item-rest correlation; common practice looks below 0.1 to 0.2
ENOUGH_QUESTIONS = 6  # fewer say too little about what is usual on this paper
HARDLY = 0.05  # part of the class with the question right

ABLE_LOSE = "learners who do well elsewhere do no better here"
ONE_WRONG = "in the upper 27 % one wrong answer is given more often than the right one"
NOBODY = "hardly anybody has it right, the upper 27 % not either"


def flags(
    figures: pd.DataFrame, outcomes: pd.DataFrame, total: pd.Series, binary: pd.Series
) -> dict[str, list[str]]:
    """Reasons to look at a question, for those that have any.

    Parameters
    ----------
    figures : DataFrame
        From :func:`rollmodel.marking.figures.question_figures`.
    outcomes : DataFrame
        Learners by questions, of Outcome.
    total : Series
        Marks of each learner [marks].
    binary : Series
        Whether a question has only full marks or none.
    """
    if total.count() < ENOUGH:
        return {}
    chance = CHANCE / max(1, figures["facility"].count())
    upper = upper_weights(total.to_numpy())
    tests = {
        ABLE_LOSE: _able_lose(figures, binary, chance),
        ONE_WRONG: {name for name in figures.index if _one_wrong(outcomes[name], upper, chance)},
        NOBODY: set(figures.index[(figures["facility"] < HARDLY) & (figures["upper"] < 2 * HARDLY)]),
    }
    found = {name: [reason for reason, names in tests.items() if name in names] for name in figures.index}
    return {name: reasons for name, reasons in found.items() if reasons}


def _able_lose(figures: pd.DataFrame, binary: pd.Series, chance: float) -> set[str]:
    """Questions whose item-rest correlation is low, and lower than is usual on this paper beyond chance."""
    known = figures[(figures["counted"] >= ENOUGH)].dropna(subset="item_rest")
    if len(known) < ENOUGH_QUESTIONS:
        return set()
    spread = stats.norm.isf(chance) / np.sqrt(known["counted"] - 3)
    below = np.arctanh(expected_correlation(known, binary)) - spread
    low = (known["item_rest"] < LOW) & (np.arctanh(known["item_rest"]) < below)
    return set(known.index[low])


def expected_correlation(known: pd.DataFrame, binary: pd.Series) -> pd.Series:
    """The item-rest correlation that the paper's usual question would have at this facility [-].

    A very easy or very hard question correlates less because it varies less. The biserial correlation
    (that of the leaning behind right and wrong, taken as normal) does not depend on that: its median over
    the paper is turned back to the facility of each question. Textbook relation, common practice.
    """
    spread = _point_over_biserial(known["facility"], binary[known.index])
    usual = (known["item_rest"] / spread).median()
    return (usual * spread).clip(-0.99, 0.99)


def _point_over_biserial(facility: pd.Series, binary: pd.Series) -> pd.Series:
    """phi(z) / sqrt(p q) for questions right or wrong; 1 for those marked in parts."""
    p = facility.clip(1e-6, 1 - 1e-6)
    ratio = stats.norm.pdf(stats.norm.ppf(p)) / np.sqrt(p * (1 - p))
    return ratio.where(binary, 1.0)


def _one_wrong(outcomes: pd.Series, upper: np.ndarray, chance: float) -> bool:
    """Whether one wrong answer beats the right one in the upper group, by the sign test."""
    weight = pd.Series(upper).groupby(outcomes.to_numpy(), sort=False).sum()
    right = sum(value for outcome, value in weight.items() if outcome.right)
    wrong = max((value for outcome, value in weight.items() if _is_an_error(outcome)), default=0.0)
    both = round(right) + round(wrong)
    return wrong > right and stats.binom.sf(round(wrong) - 1, both, 0.5) < chance


def _is_an_error(outcome: Outcome) -> bool:
    return not outcome.right and outcome.status not in ("not answered", "noted", *BY_HAND)
