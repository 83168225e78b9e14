"""Before and after: the difference of each gradient with its interval, and the verdict on it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import block_diag
from statsmodels.regression.linear_model import OLS

from rollmodel.testday.faults import DayError
from rollmodel.testday.gradients import CHANNELS, LEVEL, Gradient, gradient, sides_design
from rollmodel.testday.power import runs_needed, smallest_change
from rollmodel.testday.runs import FEWEST, SPAN, Setup
from rollmodel.units import show

SEEN, NOT_RESOLVED, OPPOSITE = "seen", "not resolved", "opposite to prediction"
VERDICTS = (SEEN, NOT_RESOLVED, OPPOSITE)
_HALF_STEP = 0.25  # m/s^2: how far a run may reach beyond the others (half a step of ISO 4138)


@dataclass(frozen=True)
class Prediction:
    """What the model says of one gradient, SI: rad/(m/s^2)."""

    before: float
    after: float
    uncertainty: float = 0.0  # of the change, what stands behind the plus-or-minus sign
    uncertainty_before: float = 0.0  # of the figure before

    @property
    def change(self) -> float:
        """After less before."""
        return self.after - self.before


@dataclass(frozen=True)
class Difference:
    """One gradient before and after. SI: rad/(m/s^2)."""

    quantity: str
    before: Gradient
    after: Gradient
    value: float  # after less before
    low: float  # of its interval
    high: float
    degrees_of_freedom: int
    scatter: float  # standard deviation of a run's slope, both setups together; nan without repetitions
    predicted: Prediction | None
    verdict: str  # one of VERDICTS
    size: str  # beside the predicted size: "as predicted", "larger", "smaller"; "" where nothing tells

    @property
    def half_width(self) -> float:
        """Half the interval, what stands behind the plus-or-minus sign."""
        return (self.high - self.low) / 2

    @property
    def runs_each_way(self) -> float:
        """Runs each way round in one setup, on average."""
        ways = 2 if self.before.sides and self.after.sides else 1
        return (len(self.before.runs) + len(self.after.runs)) / (2 * ways)

    @property
    def ways(self) -> int:
        """Ways round that were driven."""
        return 2 if self.before.sides and self.after.sides else 1

    @property
    def smallest_seen(self) -> float:
        """The smallest change that so many runs show four times in five; nan without repetitions."""
        runs = int(self.runs_each_way)
        return smallest_change(self.scatter, runs, self.ways) if runs > 1 and self.scatter > 0 else np.nan

    @property
    def runs_for_prediction(self) -> int | None:
        """Runs each way round that show the predicted change; None where none would or nothing tells."""
        if self.predicted is None or not self.scatter > 0 or not self.predicted.change:
            return None
        return runs_needed(self.predicted.change, self.scatter, self.ways)


def common_range(before: Setup, after: Setup, low: float | None = None, high: float | None = None):
    """Both setups over the lateral accelerations that both reached.

    A steer curve bends, so slopes over different ranges differ without any change of the car.

    Parameters
    ----------
    before, after : Setup
    low, high : float, optional
        Narrower bounds, [m/s^2].

    Returns
    -------
    before, after : Setup

    Raises
    ------
    DayError
        Too little is left.
    """
    ends = [
        (run.lateral_acceleration.min(), run.lateral_acceleration.max())
        for setup in (before, after)
        for run in setup.runs
    ]
    bottom = max(first for first, _ in ends) if low is None else low
    top = min(last for _, last in ends) if high is None else high
    slack = _HALF_STEP if low is None else 0.0, _HALF_STEP if high is None else 0.0
    return tuple(within(setup, bottom - slack[0], top + slack[1]) for setup in (before, after))


def within(setup: Setup, low: float, high: float) -> Setup:
    """The setup's points between two lateral accelerations; runs with too few left are set aside and said.

    Parameters
    ----------
    setup : Setup
    low, high : float
        [m/s^2].

    Raises
    ------
    DayError
        No run has enough points left.
    """
    cut = [
        run.taken((run.lateral_acceleration >= low) & (run.lateral_acceleration <= high))
        for run in setup.runs
    ]
    kept = [run for run in cut if run.points >= FEWEST and np.ptp(run.lateral_acceleration) >= SPAN]
    if not kept:
        raise DayError(
            f"no run has {FEWEST} steady points {_range(low, high)} that span {_g(SPAN)}", setup.name
        )
    gone = [f"{run.name}: too few points {_range(low, high)}." for run in cut if run not in kept]
    return replace(setup, runs=tuple(kept), set_aside=(*setup.set_aside, *gone))


def _g(acceleration: float) -> str:
    return show(acceleration, "lateral acceleration", decimals=2)


def _range(low: float, high: float) -> str:
    """Two bounds in words, either of which may be left open."""
    if not np.isfinite(high):
        return f"from {_g(low)} up"
    return f"between {_g(low)} and {_g(high)}" if np.isfinite(low) else f"up to {_g(high)}"


def compare(
    before: Setup, after: Setup, quantity: str, predicted: Prediction | None = None, level: float = LEVEL
) -> Difference:
    """One gradient before and after, with the interval of the difference and the verdict.

    Parameters
    ----------
    before, after : Setup
        Over the same range, see `common_range`.
    quantity : {"roll gradient", "understeer gradient"}
    predicted : Prediction, optional
        What the car sheet says.
    level : float, optional
        Of the interval, [-].

    Returns
    -------
    Difference

    Notes
    -----
    One least-squares fit over the slopes of all runs, each setup with its own mean and its own
    difference of sides, one scatter for all. "Seen" is a change whose interval leaves out nil, on the
    side that was predicted; "opposite to prediction" on the other side. Without repetitions nothing is
    called seen.
    """
    pair = gradient(before, quantity, level), gradient(after, quantity, level)
    fit, contrast = _fit_of_both(pair)
    if fit.df_resid >= 1:
        test = fit.t_test(contrast)
        low, high = (float(x) for x in test.conf_int(1 - level)[0])
        value, scatter = float(test.effect[0]), float(np.sqrt(fit.mse_resid))
    else:
        value, scatter = pair[1].value - pair[0].value, np.nan
        half = np.hypot(pair[0].half_width, pair[1].half_width)
        low, high = value - half, value + half
    verdict = verdict_on(low, high, predicted) if fit.df_resid >= 1 else NOT_RESOLVED
    return Difference(
        quantity,
        *pair,
        value,
        low,
        high,
        int(fit.df_resid),
        scatter,
        predicted,
        verdict,
        size_beside_prediction(low, high, predicted) if verdict == SEEN else "",
    )


def _fit_of_both(pair):
    """The fit over all slopes, and the contrast that takes before from after."""
    designs = [sides_design(one.runs) for one in pair]
    fit = OLS([run.slope for one in pair for run in one.runs], block_diag(*designs)).fit()
    contrast = np.zeros(sum(design.shape[1] for design in designs))
    contrast[0], contrast[designs[0].shape[1]] = -1, 1
    return fit, contrast


def verdict_on(low: float, high: float, predicted: Prediction | None) -> str:
    """The verdict on a difference of known interval; one of VERDICTS.

    Parameters
    ----------
    low, high : float
        The interval, in the unit of the prediction.
    predicted : Prediction or None
        Without one any change that leaves out nil is "seen".
    """
    if low <= 0 <= high:
        return NOT_RESOLVED
    if predicted is None or not predicted.change:
        return SEEN
    return SEEN if (low > 0) == (predicted.change > 0) else OPPOSITE


def size_beside_prediction(low: float, high: float, predicted: Prediction | None) -> str:
    """Whether a change that was seen is as large as predicted, within both uncertainties.

    Parameters
    ----------
    low, high : float
        The interval, in the unit of the prediction.
    predicted : Prediction or None
    """
    if predicted is None or not predicted.change:
        return ""
    middle, half = (low + high) / 2, (high - low) / 2
    if abs(middle - predicted.change) <= np.hypot(half, predicted.uncertainty):
        return "as predicted"
    return "larger" if abs(middle) > abs(predicted.change) else "smaller"


def quantities_of(*setups: Setup) -> list[str]:
    """The gradients that all these setups can give."""
    return [quantity for quantity, channel in CHANNELS.items() if all(setup.has(channel) for setup in setups)]
