"""A measured number with its uncertainty, and the statistics that all measurements share."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.stats import linregress, t
from uncertainties import ufloat

from rollmodel.testday.gradients import LEVEL

COVERAGE = 2.0  # what stands behind the plus-or-minus sign over the standard uncertainty, about 95 %
FEWEST_STEPS = 3  # of a straight line, so that its scatter can be seen


@dataclass(frozen=True)
class Measured:
    """One number from the workshop. SI."""

    name: (
        str  # where it belongs in the car sheet, "front.spring_motion_ratio"; with a space: not in the sheet
    )
    words: str  # what it is
    kind: str  # a key of units.KINDS
    value: float | tuple[float, ...]  # several for a list of the sheet
    uncertainty: float | tuple[float, ...]  # behind the plus-or-minus sign, about 95 %
    how: str = ""  # where it comes from, for the sheet's remark
    notes: tuple[str, ...] = ()
    by: str = "measured"  # or "learned"

    @property
    def in_sheet(self) -> bool:
        """Whether the car sheet has a field of this name."""
        return " " not in self.name


def of(quantity, name: str, words: str, kind: str, how: str = "", notes=()) -> Measured:
    """A `Measured` from a number of the uncertainties library."""
    return Measured(
        name,
        words,
        kind,
        float(quantity.nominal_value),
        COVERAGE * float(quantity.std_dev),
        how,
        tuple(notes),
    )


def within_limits(value: float, limit: float, tag: str = ""):
    """A number of which nothing is known but that it lies within plus-or-minus a limit.

    Its standard uncertainty is ``limit / sqrt(3)`` (JCGM 100:2008, 4.3.7, from memory).

    Parameters
    ----------
    value, limit : float
        In one unit.
    tag : str, optional
        What to call it among the contributions.
    """
    return ufloat(value, limit / np.sqrt(3), tag)


def repeated(values, limit: float, tag: str = ""):
    """The mean of repeated readings, with their scatter and the limit of the instrument.

    ``u^2 = (s / sqrt(n))^2 + limit^2 / 3``, the scatter widened as Student's t asks for so few readings.

    Parameters
    ----------
    values : sequence of float
        One reading or more.
    limit : float
        Of the instrument, plus or minus, in their unit.
    tag : str, optional
    """
    values, count = np.asarray(values, dtype=float), len(values)
    scatter = 0.0 if count < 2 else _widened(values.std(ddof=1) / np.sqrt(count), count - 1)
    return ufloat(float(values.mean()), float(np.hypot(scatter, limit / np.sqrt(3))), tag)


def _widened(standard: float, freedom: int) -> float:
    """The standard uncertainty whose double is Student's 95 % interval."""
    return standard * t.ppf((1 + LEVEL) / 2, freedom) / COVERAGE


@dataclass(frozen=True)
class Line:
    """A straight line through readings."""

    slope: float
    intercept: float
    slope_uncertainty: float  # standard, from the scatter, widened for few readings; nan with two
    scatter: float  # standard deviation of the readings about the line
    bends: bool  # a curve fits better than chance explains

    @property
    def starts_late(self) -> float:
        """Where the line meets nil of the second quantity, in the unit of the first."""
        return -self.intercept / self.slope


def straight_line(x, y) -> Line:
    """Least squares of y on x with its scatter.

    Parameters
    ----------
    x, y : sequence of float
        Two readings or more.
    """
    x, y = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    fit, freedom = linregress(x, y), len(x) - 2
    residual = y - fit.intercept - fit.slope * x
    if freedom < 1:
        return Line(float(fit.slope), float(fit.intercept), np.nan, 0.0, False)
    return Line(
        float(fit.slope),
        float(fit.intercept),
        float(_widened(fit.stderr, freedom)),
        float(np.sqrt(np.sum(residual**2) / freedom)),
        _bends(x, y, residual),
    )


def _bends(x, y, residual) -> bool:
    """Whether a parabola takes away more of the scatter than chance does, at 1 %."""
    freedom = len(x) - 3
    if freedom < 1 or np.allclose(residual, 0, atol=1e-9 * np.ptp(y)):
        return False
    curved = y - np.polyval(np.polyfit(x, y, 2), x)
    left = np.sum(curved**2)
    gain = (np.sum(residual**2) - left) / max(left / freedom, 1e-30)
    return bool(np.sqrt(max(gain, 0)) > t.ppf(0.995, freedom))
