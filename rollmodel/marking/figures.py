"""The figures of a class: how hard each question was, and how far it parts those who know from the others.

Sources. Upper and lower 27 %: T. L. Kelley, The selection of upper and lower groups for the validation of
test items, Journal of Educational Psychology 30 (1939) 17-24 (from memory). Item-rest correlation: the
ordinary product-moment correlation of a question's marks with the sum of all others, common practice, so
that a question is not held against itself.
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
    return (settled(shares) * most).sum(axis=1).round(9)  # rounded: equal totals are to be equal


def settled(shares: pd.DataFrame) -> pd.DataFrame:
    """The questions on which no person has still to decide."""
    return shares.dropna(axis="columns")


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
        Marks [marks].
    part : float
        Size of the group as part of the class [-].

    Examples
    --------
    >>> upper_weights(np.array([5.0, 3.0, 3.0, 1.0]), 0.5).tolist()
    [1.0, 0.5, 0.5, 0.0]
    """
    _, place, counts = np.unique(total, return_inverse=True, return_counts=True)
    better = counts[::-1].cumsum()[::-1] - counts
    return np.clip((part * len(total) - better) / counts, 0.0, 1.0)[place]


def end_means(shares: pd.DataFrame, total: pd.Series) -> pd.DataFrame:
    """Mean part of the marks in the upper and in the lower 27 % of the class, question by question [-]."""
    size = UPPER_AND_LOWER * len(total)
    ends = {"upper": total.to_numpy(), "lower": -total.to_numpy()}
    marked = settled(shares)
    return pd.DataFrame(
        {end: upper_weights(values) @ marked.to_numpy() / size for end, values in ends.items()},
        index=marked.columns,
    )


def item_rest(shares: pd.DataFrame, most: pd.Series) -> pd.Series:
    """Correlation of each question's marks with the sum of all others [-]; nan where either does not vary."""
    marks = settled(shares) * most[settled(shares).columns]
    rest = marks.rsub(marks.sum(axis=1), axis=0).round(9)
    with np.errstate(invalid="ignore", divide="ignore"):
        return marks.corrwith(rest).where((marks.std() > 0) & (rest.std() > 0))


def question_figures(shares: pd.DataFrame, most: pd.Series) -> pd.DataFrame:
    """Facility, both ends, discrimination and item-rest correlation, a line for each question [-].

    Questions on which a person has still to decide have no figures yet.
    """
    found = end_means(shares, totals(shares, most))
    found.insert(0, "facility", facility(shares))
    found["discrimination"] = found["upper"] - found["lower"]
    found["item_rest"] = item_rest(shares, most)
    return found.reindex(shares.columns)
