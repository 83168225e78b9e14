"""How many runs it takes to see a change, and how small a change some runs can see."""

from __future__ import annotations

import math

from scipy.optimize import brentq
from scipy.stats import f, ncf, t

from rollmodel.testday.gradients import LEVEL

WANTED = 0.80  # chance of seeing a change that is there (common practice in test planning)
FEWEST_RUNS = 3  # repetitions each way round that ISO 4138 recommends
_CERTAIN = 25.0  # standard errors: certain to more digits than shown; the library fails far beyond
MOST_RUNS = 60  # each way round; nobody drives more in a day


def half_interval(scatter, each: int, freedom: int, level: float = LEVEL):
    """Half the interval of a before-and-after difference, in the unit of the scatter.

    ``t s sqrt(2 / N)``, Student's `t` for the degrees of freedom from which the scatter is known.

    Parameters
    ----------
    scatter : float
        `s`, standard deviation of one run, or of one lap.
    each : int
        `N`, runs before, and as many again after, all ways round together.
    freedom : int
        Degrees of freedom: ``2 N`` less one for each setup and way round, or from earlier runs of the same.
    level : float, optional
        Of the interval, [-].

    Notes
    -----
    Derived here: the difference of two means of `N` each. `compare.compare` comes to the same from the
    runs themselves.

    Examples
    --------
    >>> print(round(half_interval(0.08, 6, 8), 3))
    0.107
    """
    return t.ppf((1 + level) / 2, freedom) * scatter * math.sqrt(2 / each)


def chance_of_seeing(change: float, scatter: float, runs: int, ways: int = 2, level: float = LEVEL) -> float:
    """Chance that the interval of a before-and-after difference leaves out nil, [-].

    Parameters
    ----------
    change : float
        What is really there, in the unit of the scatter.
    scatter : float
        Standard deviation of one run's slope about the others', above zero.
    runs : int
        Repetitions each way round, before and again after; two or more.
    ways : {1, 2}, optional
        Ways round that are driven.
    level : float, optional
        Of the interval, [-].

    Notes
    -----
    Derived here. The standard error of the difference is ``s sqrt(2 / (n w))``, its degrees of freedom
    ``2 w (n - 1)``; the chance is that of a noncentral t
    beyond its two edges, here as its square, a noncentral F.

    Examples
    --------
    >>> print(round(chance_of_seeing(0.10, 0.05, 3), 2))
    0.86
    """
    freedom = 2 * ways * (runs - 1)
    shift = min(abs(change) / (scatter * math.sqrt(2 / (runs * ways))), _CERTAIN)
    return float(ncf.sf(f.ppf(level, 1, freedom), 1, freedom, shift**2))


def runs_needed(change: float, scatter: float, ways: int = 2, wanted: float = WANTED) -> int | None:
    """Repetitions each way round, before and again after, that show a change with the chance wanted.

    Parameters
    ----------
    change, scatter : float
        As for `chance_of_seeing`.
    ways : {1, 2}, optional
    wanted : float, optional
        [-].

    Returns
    -------
    int or None
        At least three, as ISO 4138 recommends; None where 60 would not do.
    """
    return next(
        (
            runs
            for runs in range(FEWEST_RUNS, MOST_RUNS + 1)
            if chance_of_seeing(change, scatter, runs, ways) >= wanted
        ),
        None,
    )


def smallest_change(scatter: float, runs: int, ways: int = 2, wanted: float = WANTED) -> float:
    """The smallest change that so many repetitions show with the chance wanted, in the unit of the scatter.

    Parameters
    ----------
    scatter : float
    runs : int
        Each way round, before and again after; two or more.
    ways : {1, 2}, optional
    wanted : float, optional
        [-].
    """
    return brentq(
        lambda change: chance_of_seeing(change, scatter, runs, ways) - wanted, 1e-6 * scatter, 100 * scatter
    )
