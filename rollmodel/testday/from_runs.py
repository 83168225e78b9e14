"""The readings that runs give to learn from, and the model's quick prediction of them."""

from __future__ import annotations

import numpy as np
from scipy.stats import norm

from rollmodel.advice import hole_pair
from rollmodel.car import Car
from rollmodel.testday.analysis import Sheet
from rollmodel.testday.compare import common_range, quantities_of, within
from rollmodel.testday.doubts import Doubt, doubt_is_learnable
from rollmodel.testday.faults import DayError
from rollmodel.testday.gradients import CHANNELS, LEVEL, gradient
from rollmodel.testday.learn import Fit, Observation, learn
from rollmodel.testday.predict import predicted_gradient, roll_of, steer_of
from rollmodel.testday.reach import beyond_limit
from rollmodel.testday.runs import Setup

_POINTS = 7


def learn_from_runs(
    before: Setup,
    after: Setup | None,
    sheet: Sheet,
    low: float | None = None,
    high: float | None = None,
    names: list[str] | None = None,
) -> Fit:
    """Fit a sheet to the gradients of its runs.

    Parameters
    ----------
    before : Setup
    after : Setup, optional
        Both are fitted by the same numbers, each at its own holes.
    sheet : Sheet
        With its doubts, and the car after where there are runs after.
    low, high : float, optional
        Lateral accelerations between which points count, [m/s^2].
    names : list of str, optional
        Numbers to move.

    Raises
    ------
    DayError
        As for `learn.learn`; a model's car that cannot hold the range of the runs; runs
        far beyond its limit.
    """
    beyond_limit([before] if after is None else [before, after], sheet.before)
    if after is not None:
        setups = common_range(before, after, low, high)
    else:
        setups = (within(before, -np.inf if low is None else low, np.inf if high is None else high),)
    observations = [one for setup in setups for one in _observations(setup)]
    return learn(sheet.before, _learnable(sheet.doubts), observations, _model(setups, sheet), names)


def _learnable(doubts) -> list[Doubt]:
    return [doubt for doubt in doubts if doubt_is_learnable(doubt)]


def _observations(setup: Setup) -> list[Observation]:
    """Both gradients; the standard uncertainty is that whose usual interval is as wide as theirs."""
    found = (gradient(setup, quantity) for quantity in quantities_of(setup))
    return [
        Observation(
            f"{one.quantity} {setup.name}",
            one.quantity,
            one.value,
            one.half_width / norm.ppf((1 + LEVEL) / 2),
        )
        for one in found
    ]


def _model(setups, sheet: Sheet):
    """The prediction of every observation by a car: few points, coasting, set right at the sheet's own car.

    Points, drive force and the treatment of runs shift a gradient by the same amount for any car close to
    the sheet's, and are worked out once.
    """
    every = np.concatenate([run.lateral_acceleration for setup in setups for run in setup.runs])
    accel = np.linspace(max(every.min(), 0.1), every.max(), _POINTS)
    cars = [sheet.before] if len(setups) == 1 else [sheet.before, sheet.after]
    holes = [hole_pair(car) for car in cars]
    exact = [
        predicted_gradient(car, setup, quantity)
        for car, setup in zip(cars, setups, strict=True)
        for quantity in quantities_of(setup)
    ]
    shift = np.array(exact) - np.array(_quick(sheet.before, setups, holes, accel))
    if not np.isfinite(shift).all():
        raise DayError(
            "the sheet's car cannot hold the lateral acceleration of these runs; give a lower --to"
        )
    return lambda car: list(np.array(_quick(car, setups, holes, accel)) + shift)


def _quick(car: Car, setups, holes, accel) -> list[float]:
    found = []
    for setup, pair in zip(setups, holes, strict=True):
        there = car.with_holes(*pair)
        curves = {"roll": roll_of(there, accel), "steer": steer_of(there, accel, driven=False)}
        found += [_slope(accel, curves[CHANNELS[quantity]]) for quantity in quantities_of(setup)]
    return found


def _slope(accel, curve) -> float:
    held = np.isfinite(curve)
    return float(np.polyfit(accel[held], curve[held], 1)[0]) if held.sum() > 2 else float("nan")
