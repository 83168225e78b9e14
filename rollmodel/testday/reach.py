"""How far runs reach, beside the car's limit and beside each other: a wrong unit of speed shows there.

Lateral acceleration from speed goes with its square, so km/h read as mph come out 2.6 times too large, m/s
read as km/h thirteen times too small. Ordinary runs of one day reach alike, and none beyond the car's grip.
"""

from __future__ import annotations

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.balance import limits
from rollmodel.testday.faults import DayError
from rollmodel.testday.runs import Run, Setup
from rollmodel.testday.simulate import CAREFUL
from rollmodel.units import show

REFUSED = 1.5  # times the sheet's limit: no grip that a sheet has wrong explains it (our own figure)
DOUBTED = 1.1  # the same, from which it is said: beyond what a sheet's grip is usually wrong by
USUAL = 1.5 * GRAVITY  # m/s^2: tyres of cars without wings hold less (common practice)
UNLIKE = 1.6  # ratio of two tops that no ordinary day brings; km/h for mph brings 2.6 (our own figure)
SLOPES_UNLIKE = 1.5  # ratio of two runs' roll gradients; from run to run it repeats to a few per cent
_ERRORS_APART = 6.0  # standard errors between two slopes, so that noise and usual scatter do not count


def top(setup: Setup) -> float:
    """What the middle one of a setup's runs reaches, [m/s^2]."""
    return float(np.median([_top(run) for run in setup.runs]))


def _top(run: Run) -> float:
    return float(run.lateral_acceleration.max())


def beyond_limit(setups, car: Car) -> tuple[float, float] | None:
    """Top and the sheet's limit where runs go beyond it, [m/s^2]; None where they do not.

    Raises
    ------
    DayError
        They go so far beyond that something must be wrong.
    """
    limit = float(limits(car, driven=True).lower)
    for setup in setups:
        if top(setup) > REFUSED * limit:
            raise DayError(
                f"the runs reach {_g(top(setup))}, the sheet's car slides at {_g(limit)}; check the unit of "
                "speed in the header (km/h, mph, m/s), the radius and the sheet",
                setup.name,
            )
    most = max(map(top, setups))
    return (most, limit) if most > DOUBTED * limit else None


def _g(acceleration: float) -> str:
    return show(acceleration, "lateral acceleration", decimals=2)


def unlike_setups(before: Setup, after: Setup) -> tuple[float, float] | None:
    """Tops of two setups that reach very differently far, [m/s^2]; None where they reach alike."""
    tops = top(before), top(after)
    return tops if max(tops) > UNLIKE * min(tops) else None


def unlike_runs(setup: Setup) -> tuple[Run, Run] | None:
    """Two runs of one setup that cannot be the same test, by their tops or by how they roll; else None."""
    low, high = (pick(setup.runs, key=_top) for pick in (min, max))
    if _top(high) > UNLIKE * _top(low) and _split(setup):
        return low, high
    if not setup.has("roll"):
        return None
    lines = [_line(run) for run in setup.runs]
    least, most = (int(pick([slope for slope, _ in lines])) for pick in (np.argmin, np.argmax))
    (small, its_error), (large, error) = lines[least], lines[most]
    apart = large - small > _ERRORS_APART * np.hypot(its_error, error)
    return (setup.runs[least], setup.runs[most]) if apart and large > SLOPES_UNLIKE * abs(small) else None


def _split(setup: Setup) -> bool:
    """Whether at least two runs stop short: one alone was broken off."""
    most = max(map(_top, setup.runs))
    return sum(UNLIKE * _top(run) < most for run in setup.runs) > 1


def _line(run: Run) -> tuple[float, float]:
    """Slope of roll and its standard error with what runs differ by anyway, [rad/(m/s^2)]."""
    accel = run.lateral_acceleration - run.lateral_acceleration.mean()
    spread = float(accel @ accel)
    slope = float(accel @ run.roll) / spread
    left = run.roll - run.roll.mean() - slope * accel
    error = np.sqrt(left @ left / max(run.points - 2, 1) / spread)
    return slope, float(np.hypot(error, CAREFUL.roll_run))
