"""Roll gradient and understeer gradient of a setup, with the interval that its repetitions give.

Two steps. Each run gives one slope by least squares. The slopes of the runs are then what repeats: their
scatter carries what changes from run to run (line, tyres, wind), which the scatter of the points within a
run does not show. Both ways round count alike, however many runs each has.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from statsmodels.regression.linear_model import OLS

from rollmodel.testday.runs import Run, Setup

LEVEL = 0.95  # of every interval
SIDES_UNLIKELY = 0.01  # chance below which a difference between left and right is called one
CHANNELS = {"roll gradient": "roll", "understeer gradient": "steer"}


@dataclass(frozen=True)
class RunSlope:
    """What one run gives."""

    run: str
    direction: int
    points: int
    slope: float  # rad/(m/s^2)
    intercept: float  # rad, at no lateral acceleration


@dataclass(frozen=True)
class Gradient:
    """One gradient of one setup. SI: rad/(m/s^2)."""

    quantity: str  # a key of CHANNELS
    value: float
    low: float  # of the interval
    high: float
    degrees_of_freedom: int
    scatter: float  # standard deviation of the runs' slopes, the same way round
    repeated: bool  # whether the interval comes from repetitions; else from the points within the runs
    intercept: float  # rad; mean of both ways round
    sides: tuple[float, float] | None  # left and right on their own, where both were driven
    sides_differ: bool  # more than their scatter explains
    runs: tuple[RunSlope, ...]

    @property
    def half_width(self) -> float:
        """Half the interval, what stands behind the plus-or-minus sign."""
        return (self.high - self.low) / 2

    def is_far_from(self, figure: float, times: float) -> bool:
        """Whether nil and every figure up to so many times another one lie outside the interval.

        A gradient near nil may by noise alone be many times what was predicted; that is not far.
        """
        near, far = sorted((abs(float(np.clip(figure, self.low, self.high))), abs(figure)))
        return bool(self.low * self.high > 0 and far > times * near)


def run_slope(run: Run, channel: str) -> RunSlope:
    """Slope of steer or roll against lateral acceleration in one run, by least squares.

    Parameters
    ----------
    run : Run
    channel : {"steer", "roll"}
    """
    slope, intercept = np.polyfit(run.lateral_acceleration, getattr(run, channel), 1)
    return RunSlope(run.name, run.direction, run.points, float(slope), float(intercept))


def gradient(setup: Setup, quantity: str, level: float = LEVEL) -> Gradient:
    """One gradient of a setup with its interval.

    Parameters
    ----------
    setup : Setup
    quantity : {"roll gradient", "understeer gradient"}
    level : float, optional
        Of the interval, [-].

    Returns
    -------
    Gradient

    Notes
    -----
    With ``n`` runs over ``d`` ways round, the interval is Student's with ``n - d`` degrees of freedom.
    Constant radius, both ways round and at least three repetitions after ISO 4138; the steady values and
    their slope are the standard's, the treatment of repetitions is derived here. The understeer gradient
    is that at the road wheel; at constant radius it needs no correction for the bend itself.
    """
    slopes = tuple(run_slope(run, CHANNELS[quantity]) for run in setup.runs)
    fit = OLS([one.slope for one in slopes], sides_design(slopes)).fit()
    intercepts = OLS([one.intercept for one in slopes], sides_design(slopes)).fit()
    repeated = fit.df_resid >= 1
    if repeated:
        low, high = fit.conf_int(1 - level)[0]
        freedom, scatter = int(fit.df_resid), float(np.sqrt(fit.mse_resid))
    else:
        (low, high), freedom = _within_runs(setup, CHANNELS[quantity], level)
        scatter = np.nan
    return Gradient(
        quantity,
        float(fit.params[0]),
        float(low),
        float(high),
        freedom,
        scatter,
        repeated,
        float(intercepts.params[0]),
        _sides(slopes),
        _sides_differ(fit) if repeated else False,
        slopes,
    )


def sides_design(slopes) -> np.ndarray:
    """One column of ones, and where both ways round were driven one with +1/2 for left and -1/2 for right.

    The first coefficient is then the mean of left and right, each counted once.
    """
    ways = np.array([one.direction for one in slopes], dtype=float)
    ones = np.ones((len(ways), 1))
    return np.column_stack((ones, ways / 2)) if {1, -1} <= set(ways) else ones


def _within_runs(setup: Setup, channel: str, level: float):
    """Interval of a common slope from the scatter of the points alone, each run with a level of its own."""
    place = np.repeat(np.arange(len(setup.runs)), [run.points for run in setup.runs])
    design = np.column_stack(
        (
            np.concatenate([run.lateral_acceleration for run in setup.runs]),
            place[:, None] == np.arange(len(setup.runs)),
        )
    )
    fit = OLS(np.concatenate([getattr(run, channel) for run in setup.runs]), design.astype(float)).fit()
    return fit.conf_int(1 - level)[0], int(fit.df_resid)


def _sides(slopes) -> tuple[float, float] | None:
    left, right = ([one.slope for one in slopes if one.direction == way] for way in (1, -1))
    return (float(np.mean(left)), float(np.mean(right))) if left and right else None


def _sides_differ(fit) -> bool:
    if len(fit.params) < 2:
        return False
    low, high = fit.conf_int(SIDES_UNLIKELY)[1]
    return bool(low > 0 or high < 0)
