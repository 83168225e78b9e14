"""Grip that falls with load, fitted to a tyre's own points, with what the points leave open."""

from dataclasses import dataclass

import numpy as np
from scipy import stats

from rollmodel.car import CarError, Tyre
from rollmodel.checked import is_finite
from rollmodel.physics.tyre import falling_grip_peak

FEWEST = 4  # points below which the fit is warned about
NARROWEST = 1.5  # highest over lowest load below which it is warned about
BELIEVABLE_GRIP = (0.3, 3.0)


@dataclass(frozen=True)
class TyreFit:
    """``mu = mu_0 - k Fz`` through the points, by least squares. Loads in N, grip without unit."""

    loads: np.ndarray
    grips: np.ndarray
    peak_grip: float  # mu_0
    grip_drop: float  # k, 1/N
    peak_grip_error: float  # standard error; nan with two points
    grip_drop_error: float  # standard error, 1/N; nan with two points
    warnings: tuple[str, ...]  # plain sentences; empty when nothing is to be said

    @property
    def fitted(self):
        """Grip on the line at each point, [-]."""
        return self.peak_grip - self.grip_drop * self.loads

    @property
    def residuals(self):
        """Point less line, [-]."""
        return self.grips - self.fitted

    @property
    def scatter(self):
        """Standard deviation of the points about the line, ``sqrt(sum r^2 / (n - 2))``, [-]."""
        freedom = self.loads.size - 2
        return float(np.sqrt(np.sum(self.residuals**2) / freedom)) if freedom else np.nan

    def interval(self, level: float = 0.95):
        """Confidence intervals of `mu_0` and `k` at a level between 0 and 1.

        Parameters
        ----------
        level : float, optional
            [-].

        Returns
        -------
        dict of str to (float, float)
            ``peak_grip`` [-] and ``grip_drop`` [1/N]; nan with two points.

        Raises
        ------
        CarError
            When the level is not between 0 and 1.

        Notes
        -----
        Student's t with ``n - 2`` degrees of freedom: points independent, equally uncertain.
        """
        if not (is_finite(level) and 0 < level < 1):
            raise CarError(f"level: wanted a part between 0 and 1, such as 0.95, given {level!r}")
        wide = stats.t.ppf((1 + level) / 2, self.loads.size - 2) if self.loads.size > 2 else np.nan
        return {"peak_grip": _around(self.peak_grip, wide * self.peak_grip_error),
                "grip_drop": _around(self.grip_drop, wide * self.grip_drop_error)}

    def peak_force(self, load):
        """Peak side force on the fitted line, ``(mu_0 - k Fz) Fz``, never below zero, [N].

        Parameters
        ----------
        load : float or array
            [N].

        Returns
        -------
        float or array
            [N].
        """
        return falling_grip_peak(load, self.peak_grip, self.grip_drop)

    def outside_range(self, loads) -> list[str]:
        """One sentence for each side on which loads leave the range of the points.

        Parameters
        ----------
        loads : float or array
            Loads at which the fit is to be used, [N].

        Returns
        -------
        list of str
            Empty while the loads stay within the points.

        Raises
        ------
        CarError
            When there is no load, or one that is not finite.
        """
        loads = np.asarray(loads, dtype=float)
        if not (loads.size and np.isfinite(loads).all()):
            raise CarError(f"loads: wanted at least one load and finite ones, given {loads.tolist()}")
        told = []
        if np.min(loads) < self.loads.min():
            told.append(f"load of {np.min(loads):.0f} N lies below the lowest point "
                        f"({self.loads.min():.0f} N); the line there is a guess")
        if np.max(loads) > self.loads.max():
            told.append(f"load of {np.max(loads):.0f} N lies above the highest point "
                        f"({self.loads.max():.0f} N); the line there is a guess")
        return told

    def tyre(self, cornering_stiffness: float, grip_scale: float = 1.0) -> Tyre:
        """A car's tyre with this falling grip.

        Parameters
        ----------
        cornering_stiffness : float
            Of one tyre at small slip; grip points say nothing about it, [N/rad].
        grip_scale : float, optional
            For another surface than the one the points came from, [-].

        Returns
        -------
        Tyre

        Raises
        ------
        CarError
            When the cornering stiffness is not above zero, or the fitted grip cannot be a tyre's.
        """
        return Tyre(curve="falling grip", grip_scale=grip_scale, peak_grip=self.peak_grip,
                    grip_drop=self.grip_drop, cornering_stiffness=cornering_stiffness)


def _around(value, half):
    return float(value - half), float(value + half)


def fit_falling_grip(loads, grips) -> TyreFit:
    """Fit ``mu = mu_0 - k Fz`` to points of load and grip by least squares.

    Parameters
    ----------
    loads : array
        Vertical loads of one tyre, above zero, [N].
    grips : array
        Peak side force over load at each of them, above zero, [-].

    Returns
    -------
    TyreFit
        With residuals, standard errors and warnings.

    Raises
    ------
    CarError
        When there are fewer than two points or all at one load, when a number is missing, not finite or
        not above zero, and when grip *rises* with load, which this tyre cannot have.

    Notes
    -----
    ``scipy.stats.linregress``: every point counts alike and loads are taken as exact. The line is a
    stand-in for a curve; over more than a factor of three in load expect the residuals to bend.
    Points from different pressures, temperatures or cambers are not one tyre.

    Examples
    --------
    >>> fit = fit_falling_grip([2000.0, 3000.0, 4000.0, 5000.0], [1.25, 1.20, 1.18, 1.12])
    >>> print(round(fit.peak_grip, 3), round(fit.grip_drop * 1e6, 1), fit.warnings)
    1.331 41.0 ()
    >>> print(np.round(fit.residuals, 3))
    [ 0.001 -0.008  0.013 -0.006]
    """
    loads, grips = _checked(loads, grips)
    if loads.size == 2:
        slope = float(np.diff(grips)[0] / np.diff(loads)[0])
        found = (grips[0] - slope * loads[0], -slope, np.nan, np.nan)
    else:
        line = stats.linregress(loads, grips)
        found = (line.intercept, -line.slope, line.intercept_stderr, line.stderr)
    peak_grip, drop, *errors = map(float, found)
    _refuse_rising(drop, loads, grips)
    drop = max(drop, 0.0)
    return TyreFit(loads, grips, peak_grip, drop, *errors,
                   tuple(_warnings(loads, grips, peak_grip, drop, errors[1])))


def _checked(loads, grips):
    loads, grips = (np.asarray(x, dtype=float).ravel() for x in (loads, grips))
    if loads.size != grips.size:
        raise CarError(f"grips: wanted one for each of the {loads.size} loads, given {grips.size}")
    faults = [f"{name}: wanted finite numbers above zero, given {value:g} at point {i + 1}"
              for name, row in (("loads", loads), ("grips", grips))
              for i, value in enumerate(row) if not (np.isfinite(value) and value > 0)]
    if not faults and loads.size < 2:
        faults.append(f"loads: wanted at least two points at different loads, given {loads.size}; "
                      f"measure more")
    elif not faults and np.ptp(loads) < 1e-6 * np.max(loads):
        faults.append(f"loads: wanted at least two different loads, given {loads[0]:g} N every time; "
                      f"measure at another load")
    if faults:
        raise CarError(faults)
    return loads, grips


def _refuse_rising(drop, loads, grips):
    """A rise of rounding size over the whole range counts as level."""
    if drop * np.ptp(loads) < -1e-9 * np.max(grips):
        raise CarError(f"grips: wanted grip that falls or stays as load rises, given points in which it "
                       f"rises by {-drop * 1000:.3g} per kN; check the points, or that loads and grips "
                       f"are not swapped")


def _warnings(loads, grips, peak_grip, drop, drop_error):
    if loads.size < FEWEST:
        yield f"only {loads.size} points: the line can hardly be checked; {FEWEST} or more are wanted"
    if loads.max() < NARROWEST * loads.min():
        yield (f"the loads lie close together ({loads.min():.0f} to {loads.max():.0f} N): "
               f"the drop with load is poorly known; spread them over a factor of {NARROWEST} or more")
    if np.isfinite(drop_error) and drop < 2 * drop_error:
        yield "the drop with load is no larger than twice its own uncertainty: it may be nil"
    low, high = BELIEVABLE_GRIP
    if grips.min() < low or grips.max() > high:
        yield f"grip outside {low:g} to {high:g}: check the units of load and side force"
    if drop > 0 and peak_grip / (2 * drop) < loads.max():
        yield (f"above {peak_grip / (2 * drop):.0f} N the fitted peak force falls as load rises; "
               f"use the line below that load only")
