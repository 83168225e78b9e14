"""The figures of a class: how hard each question was, and how far it parts those who know from the others.

Sources. Upper and lower 27 %: T. L. Kelley, The selection of upper and lower groups for the validation of
test items, Journal of Educational Psychology 30 (1939) 17-24 (from memory). Item-rest correlation: the
ordinary product-moment correlation of a question's marks with the sum of all others, common practice, so
that a question is not held against itself.

A share of nan is an answer that cannot be marked here: the figures leave that learner out of that question,
and put the learner's marks on the others in proportion.
"""

from __future__ import annotations

import numpy as np
import pandas as pd

UPPER_AND_LOWER = 0.27  # part of the class at each end (Kelley 1939)


def totals(shares: pd.DataFrame, most: pd.Series) -> pd.Series:
    """Marks of each learner over the questions that are marked for the whole class.

    Parameters
    ----------
    shares : DataFrame
        Learners by questions: part of the marks, 0 to 1 [-].
    most : Series
        Marks to be had for each question [marks].
    """
    marked = settled(shares)
    most = most[marked.columns]
    return _in_proportion(marked * most, marked.notna() * most).round(9)  # equal totals are to be equal


def _in_proportion(marks: pd.DataFrame, to_be_had: pd.DataFrame) -> pd.Series:
    """Each learner's sum as it would be out of all the marks; nan for one with no answer marked."""
    had = to_be_had.sum(axis=1)
    return marks.sum(axis=1) * (had.max() / had.where(had > 0))


def settled(shares: pd.DataFrame) -> pd.DataFrame:
    """The questions with marks for anybody."""
    return shares.dropna(axis="columns", how="all")


def facility(shares: pd.DataFrame) -> pd.Series:
    """Mean part of the marks that was had, question by question [-]: 1 where all were right."""
    return settled(shares).mean()


def upper_weights(total: np.ndarray, part: float = UPPER_AND_LOWER) -> np.ndarray:
    """How far each learner belongs to the best part of the class, 0 to 1 [-].

    Learners with the total at the edge share the places left between them, so the figure depends on no
    order of names.

    Parameters
    ----------
    total : array
        Marks [marks]; nan for a learner who belongs to neither end.
    part : float
        Size of the group as part of the class [-].

    Examples
    --------
    >>> upper_weights(np.array([5.0, 3.0, 3.0, 1.0]), 0.5).tolist()
    [1.0, 0.5, 0.5, 0.0]
    """
    weights, known = np.zeros(len(total)), np.isfinite(total)
    _, place, counts = np.unique(total[known], return_inverse=True, return_counts=True)
    better = counts[::-1].cumsum()[::-1] - counts
    weights[known] = np.clip((part * known.sum() - better) / counts, 0.0, 1.0)[place]
    return weights


def end_means(shares: pd.DataFrame, total: pd.Series) -> pd.DataFrame:
    """Mean part of the marks in the upper and in the lower 27 % of the class, question by question [-]."""
    ends = {"upper": total.to_numpy(), "lower": -total.to_numpy()}
    marked = settled(shares)
    return pd.DataFrame(
        {end: _weighted_mean(marked.to_numpy(), upper_weights(values)) for end, values in ends.items()},
        index=marked.columns,
    )


def _weighted_mean(shares: np.ndarray, weights: np.ndarray) -> np.ndarray:
    """Of each question over those who have marks for it [-]; nan where none of this end has."""
    size = weights @ np.isfinite(shares)
    return np.divide(weights @ np.nan_to_num(shares), size, out=np.full(len(size), np.nan), where=size > 0)


def item_rest(shares: pd.DataFrame, most: pd.Series) -> pd.Series:
    """Correlation of each question's marks with the sum of all others [-]; nan where either does not vary."""
    marks = settled(shares) * most[settled(shares).columns]
    to_be_had = marks.notna() * most[marks.columns]
    rest_had = to_be_had.rsub(to_be_had.sum(axis=1), axis=0)
    rest = marks.rsub(marks.sum(axis=1), axis=0) * (rest_had.max() / rest_had.where(rest_had > 0))
    rest = rest.round(9)  # equal rests are to be equal
    with np.errstate(invalid="ignore", divide="ignore"):
        return marks.corrwith(rest).where((marks.std() > 0) & (rest.std() > 0))


def question_figures(shares: pd.DataFrame, most: pd.Series) -> pd.DataFrame:
    """Facility, both ends, discrimination and item-rest correlation, a line for each question [-].

    Questions without any mark have no figures yet. ``counted`` is how many learners the figures rest on.
    """
    found = end_means(shares, totals(shares, most))
    found.insert(0, "facility", facility(shares))
    found["discrimination"] = found["upper"] - found["lower"]
    found["item_rest"] = item_rest(shares, most)
    found["counted"] = settled(shares).count()
    return found.reindex(shares.columns)
