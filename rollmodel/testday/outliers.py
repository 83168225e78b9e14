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
    place = np.repeat(np.arange(len(setup.runs)), [run.points for run in setup.runs])
    accel = np.concatenate([run.lateral_acceleration for run in setup.runs])
    values = np.concatenate([getattr(run, CHANNELS[quantity]) for run in setup.runs])
    own = (place[:, None] == np.arange(len(setup.runs))).astype(float)
    scaled = (accel - accel.mean()) / np.ptp(accel)
    degree = min(_MOST_CURVED, min(run.points for run in setup.runs) - 2)
    shared = [scaled**power for power in range(2, degree + 1)]
    design = np.column_stack([own, own * scaled[:, None], *shared])
    if len(values) - design.shape[1] < 3:
        return []
    fit = OLS(values, design).fit()
    first = np.concatenate(([0], np.cumsum([run.points for run in setup.runs])))
    return [
        Outlier(
            quantity,
            setup.runs[place[i]].name,
            int(i - first[place[i]]),
            float(accel[i]),
            float(setup.runs[place[i]].start[i - first[place[i]]]),
            float(fit.resid[i]),
        )
        for i in _unlikely(fit)
    ]


def _runs(setup: Setup, quantity: str) -> list[Outlier]:
    slopes = [run_slope(run, CHANNELS[quantity]) for run in setup.runs]
    fit = OLS([one.slope for one in slopes], sides_design(slopes)).fit()
    if fit.df_resid < 3:
        return []
    return [
        Outlier(quantity, slopes[i].run, None, np.nan, np.nan, float(fit.resid[i])) for i in _unlikely(fit)
    ]


def _unlikely(fit) -> np.ndarray:
    """Places whose residual is unlikely; none where all fit to the last digit."""
    if fit.mse_resid <= 1e-20 * max(1e-30, float(np.mean(fit.model.endog**2))):
        return np.array([], dtype=int)
    with np.errstate(invalid="ignore", divide="ignore"):
        chance = 2 * t.sf(np.abs(studentised(fit)), fit.df_resid - 1) * len(fit.resid)
    return np.flatnonzero(chance < UNLIKELY)


def studentised(fit) -> np.ndarray:
    """Residuals over the scatter that the fit would have without them, [-].

    ``t_i = e_i / sqrt(s_i^2 (1 - h_i))`` with ``s_i^2 = (SSE - e_i^2 / (1 - h_i)) / (nu - 1)``, which is the
    fit without point `i` in closed form: the library fits anew for every point, which takes fifty times as
    long.
    """
    orthonormal, _ = np.linalg.qr(fit.model.exog)
    free = 1 - np.sum(orthonormal**2, axis=1)
    scatter = (fit.ssr - fit.resid**2 / free) / (fit.df_resid - 1)
    return fit.resid / np.sqrt(scatter * free)


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
