"""Uncertainty carried from the car sheet to what it predicts, and which number to measure better first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from uncertainties import ufloat

from rollmodel.advice import hole_pair, readings, working_acceleration
from rollmodel.car import Car, CarError
from rollmodel.testday.doubts import Doubt, moved
from rollmodel.testday.measured import COVERAGE

RESULTS = {  # what is carried: its kind of quantity, what it is called
    "roll gradient": ("roll gradient", "roll gradient"),
    "front share": ("share", "front share of the load transfer"),
    "limit gap": ("lateral acceleration", "gap of the limits, front less rear"),
    "understeer gradient": ("understeer gradient", "understeer gradient at 0.3 g"),
    "limit": ("lateral acceleration", "limit of the car"),
}


@dataclass(frozen=True)
class Carried:
    """One result with its uncertainty and where that comes from. SI."""

    name: str
    value: float
    uncertainty: float  # behind the plus-or-minus sign, about 95 %
    shares: dict[str, float]  # part of the squared uncertainty by each number of the sheet, largest first

    @property
    def first(self) -> str | None:
        """The number that brings most of it; None where nothing does."""
        return next(iter(self.shares), None)

    def left_without(self, name: str) -> float:
        """The uncertainty left if that number were known exactly, [SI]."""
        return self.uncertainty * np.sqrt(max(0.0, 1 - self.shares.get(name, 0.0)))


def results_of(car: Car, near: float) -> dict[str, float]:
    """What a sheet predicts of the car, by the names of `RESULTS`, [SI].

    Parameters
    ----------
    car : Car
        At the holes in use.
    near : float
        Lateral acceleration at which the front share is taken, [m/s^2].
    """
    (found,) = readings(car, [hole_pair(car)], near=near)
    return {
        "roll gradient": found.roll_gradient,
        "front share": found.front_share,
        "limit gap": found.gap,
        "understeer gradient": found.gradient,
        "limit": found.limit,
    }


def carry(
    car: Car, doubts: list[Doubt], results: Callable[[Car], dict[str, float]] | None = None
) -> list[Carried]:
    """Uncertainty of every result, from that of every number.

    Parameters
    ----------
    car : Car
    doubts : list of Doubt
        From `doubts.doubts_of`.
    results : callable, optional
        From a car to its results by name; `results_of` at the working lateral acceleration when left out.

    Returns
    -------
    list of Carried
        A result that the car does not have (nan) is left out.

    Notes
    -----
    ``u^2 = sum((df/dx_i)^2 u_i^2)`` (JCGM 100:2008, 5.1.2, from memory), by the uncertainties library. The
    slopes are central differences over one standard uncertainty either side, so that a curve counts as it
    runs there. Numbers of a sheet are taken as independent.
    """
    results = results or _at_working_acceleration(car)
    middle = results(car)
    slopes = {doubt: _slopes(car, doubt, results, middle) for doubt in doubts}
    inputs = {doubt: ufloat(0.0, doubt.standard, doubt.name) for doubt in doubts}
    return [
        _carried(name, value, {doubt: slopes[doubt][name] * inputs[doubt] for doubt in doubts})
        for name, value in middle.items()
        if np.isfinite(value)
    ]


def _at_working_acceleration(car: Car):
    near = working_acceleration(car)
    return lambda other: results_of(other, near)


def _slopes(car: Car, doubt: Doubt, results, middle) -> dict[str, float]:
    """Change of every result per change of one number; one-sided where a car that far off cannot be."""
    ends = []
    for sign in (-1, 1):
        try:
            found = results(moved(car, doubt.name, sign * doubt.standard))
            ends.append((found, sign * doubt.standard))
        except CarError:
            ends.append((middle, 0.0))
    (low, below), (high, above) = ends
    width = above - below
    if width == 0:
        return dict.fromkeys(middle, 0.0)
    return {name: float(np.nan_to_num((high[name] - low[name]) / width)) for name in middle}


def _carried(name: str, value: float, parts) -> Carried:
    whole = value + sum(parts.values())
    standard = whole.std_dev if parts else 0.0
    shares = {
        doubt.name: (part.std_dev / standard) ** 2 if standard else 0.0 for doubt, part in parts.items()
    }
    ordered = dict(sorted(shares.items(), key=lambda item: -item[1]))
    return Carried(
        name, float(value), COVERAGE * float(standard), {n: s for n, s in ordered.items() if s > 0}
    )
