"""Points and runs that lie far from the rest: shown and kept, and what it would be without them beside it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.stats import t
from statsmodels.regression.linear_model import OLS

from rollmodel.testday.faults import DayError
from rollmodel.testday.gradients import CHANNELS, Gradient, gradient, run_slope, sides_design
from rollmodel.testday.runs import FEWEST, SPAN, Setup
from rollmodel.units import quoted

UNLIKELY = 0.01  # chance, over all points together, below which one is called an outlier
_MOST_CURVED = 4  # degree of the bend that all runs share


@dataclass(frozen=True)
class Outlier:
    """One point, or one whole run where ``point`` is None."""

    quantity: str
    run: str
    point: int | None  # counted from 0
    lateral_acceleration: float  # m/s^2; nan for a run
    start: float  # s, or the row; nan for a run
    away: float  # from where the others put it, rad for a point, rad/(m/s^2) for a run


def outliers(setup: Setup, quantity: str) -> list[Outlier]:
    """Points, and whole runs, that are unlikely beside the others.

    Parameters
    ----------
    setup : Setup
    quantity : {"roll gradient", "understeer gradient"}

    Notes
    -----
    Externally studentised residuals with Bonferroni's correction, 1 % over all points together. Points
    are held against their own run's straight line and a bend that all runs share: a steer curve that
    bends near the limit makes no outliers, nor does a run that lies beside the others.
    """
    return [*_points(setup, quantity), *_runs(setup, quantity)]


def _points(setup: Setup, quantity: str) -> list[Outlier]:
    sizes = np.array([run.points for run in setup.runs])
    first, place = np.concatenate(([0], np.cumsum(sizes)[:-1])), np.repeat(np.arange(len(sizes)), sizes)
    accel = np.concatenate([run.lateral_acceleration for run in setup.runs])
    chance = _chances(setup, CHANNELS[quantity], accel, sizes, first)
    if chance is None:
        return []
    away, unlikely = chance
    return [
        Outlier(
            quantity,
            setup.runs[place[i]].name,
            int(i - first[place[i]]),
            float(accel[i]),
            float(setup.runs[place[i]].start[i - first[place[i]]]),
            float(away[i]),
        )
        for i in unlikely
    ]


def _chances(setup: Setup, channel: str, accel, sizes, first):
    """Residual of each point and which are unlikely; None where there are too few points to tell.

    The straight line of each run is taken out first, out of the values and of the bend that all share; what
    is left is fitted by the bend alone. Residuals and leverage are those of one fit of everything (Frisch,
    Waugh and Lovell), whose work would grow with the cube of the number of runs.
    """
    values = np.concatenate([getattr(run, channel) for run in setup.runs])
    scaled = (accel - accel.mean()) / np.ptp(accel)
    degree = min(_MOST_CURVED, int(sizes.min()) - 2)
    freedom = len(values) - 2 * len(sizes) - max(degree - 1, 0)
    if freedom < 3:
        return None
    powers = [scaled**power for power in range(2, degree + 1)]
    rest, *shared = (_less_lines(one, scaled, sizes, first) for one in (values, *powers))
    leverage = _leverage_of_lines(scaled, sizes, first)
    if shared:
        basis, _ = np.linalg.qr(np.column_stack(shared))
        rest, leverage = rest - basis @ (basis.T @ rest), leverage + np.sum(basis**2, axis=1)
    return rest, _unlikely(rest, leverage, freedom, values)


def _less_lines(values, scaled, sizes, first):
    """The values less the straight line of each run."""
    x, y = (_less_means(one, sizes, first) for one in (scaled, values))
    slope = np.add.reduceat(x * y, first) / np.add.reduceat(x * x, first)
    return y - np.repeat(slope, sizes) * x


def _leverage_of_lines(scaled, sizes, first):
    """Leverage of each point on the straight line of its own run, [-]."""
    x = _less_means(scaled, sizes, first)
    return 1 / np.repeat(sizes, sizes) + x * x / np.repeat(np.add.reduceat(x * x, first), sizes)


def _less_means(values, sizes, first):
    return values - np.repeat(np.add.reduceat(values, first) / sizes, sizes)


def _runs(setup: Setup, quantity: str) -> list[Outlier]:
    slopes = [run_slope(run, CHANNELS[quantity]) for run in setup.runs]
    fit = OLS([one.slope for one in slopes], sides_design(slopes)).fit()
    if fit.df_resid < 3:
        return []
    return [
        Outlier(quantity, slopes[i].run, None, np.nan, np.nan, float(fit.resid[i])) for i in _unlikely_of(fit)
    ]


def _unlikely_of(fit) -> np.ndarray:
    orthonormal, _ = np.linalg.qr(fit.model.exog)
    return _unlikely(fit.resid, np.sum(orthonormal**2, axis=1), fit.df_resid, fit.model.endog)


def _unlikely(residual, leverage, freedom: int, values) -> np.ndarray:
    """Places whose residual is unlikely; none where all fit to the last digit."""
    if np.sum(residual**2) / freedom <= 1e-20 * max(1e-30, float(np.mean(values**2))):
        return np.array([], dtype=int)
    with np.errstate(invalid="ignore", divide="ignore"):
        away = np.abs(studentised(residual, leverage, freedom))
        chance = 2 * t.sf(away, freedom - 1) * len(residual)
    return np.flatnonzero(chance < UNLIKELY)


def studentised(residual, leverage, freedom: int) -> np.ndarray:
    """Residuals over the scatter that the fit would have without them, [-].

    ``t_i = e_i / sqrt(s_i^2 (1 - h_i))`` with ``s_i^2 = (SSE - e_i^2 / (1 - h_i)) / (nu - 1)``, which is the
    fit without point `i` in closed form: the library fits anew for every point, which takes fifty times as
    long.

    Parameters
    ----------
    residual, leverage : array
        `e` and `h` of each point.
    freedom : int
        Degrees of freedom `nu`.
    """
    free = 1 - leverage
    scatter = (residual @ residual - residual**2 / free) / (freedom - 1)
    return residual / np.sqrt(scatter * free)


def without(setup: Setup, found: list[Outlier]) -> Setup:
    """The setup without those points and runs, and without runs that then have too few points."""
    runs = []
    for run in setup.runs:
        mine = [one for one in found if one.run == run.name]
        keep = ~np.isin(np.arange(run.points), [one.point for one in mine if one.point is not None])
        left = run.taken(keep)
        if (
            any(one.point is None for one in mine)
            or left.points < FEWEST
            or (np.ptp(left.lateral_acceleration) < SPAN)
        ):
            continue
        runs.append(left)
    return replace(setup, runs=tuple(runs))


def gradient_without(setup: Setup, quantity: str, found: list[Outlier]) -> Gradient | None:
    """The gradient without those points and runs; None where nothing is left or nothing was found."""
    rest = without(setup, found) if found else replace(setup, runs=())
    return gradient(rest, quantity) if rest.runs else None


def leave_out(setup: Setup, names: list[str]) -> Setup:
    """The setup without the runs of these names, because a person said so.

    Parameters
    ----------
    setup : Setup
    names : list of str
        Names of runs as the report prints them, or the end of a name such as ``"run 3 left"``.

    Raises
    ------
    DayError
        A name that several runs have; nothing left.
    """
    gone = {_named(setup, name) for name in names} - {None}
    kept = tuple(run for run in setup.runs if run.name not in gone)
    if not kept:
        raise DayError("every run was left out", setup.name)
    return replace(
        setup,
        runs=kept,
        set_aside=(*setup.set_aside, *(f"{name}: left out as asked." for name in sorted(gone))),
    )


def _named(setup: Setup, name: str) -> str | None:
    wanted = name.strip().lower()
    found = [run.name for run in setup.runs if run.name.lower().endswith(wanted)]
    if len(found) > 1:
        raise DayError(f"{quoted(name)} could be {' or '.join(found)}; give the whole name", setup.name)
    return found[0] if found else None
