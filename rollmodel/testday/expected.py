"""What a change should show in constant-radius runs, with what the sheet's own uncertainty leaves of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from rollmodel.advice import hole_pair
from rollmodel.car import Car
from rollmodel.testday.carry import carry
from rollmodel.testday.doubts import Doubt
from rollmodel.testday.gradients import CHANNELS
from rollmodel.testday.predict import roll_of, steer_of

_POINTS = 7  # of the straight line: enough for its slope, few enough to be quick


@dataclass(frozen=True)
class Expected:
    """One quantity before and after the change, SI; uncertainties are what stands behind the sign."""

    before: float
    after: float
    uncertainty: float  # of each
    uncertainty_of_change: float  # smaller: most of what is not known is the same before and after

    @property
    def change(self) -> float:
        """After less before."""
        return self.after - self.before


def expected(before: Car, after: Car, doubts: list[Doubt], low: float, high: float) -> dict[str, Expected]:
    """Gradients and angles that runs between two lateral accelerations should show, before and after.

    Parameters
    ----------
    before, after : Car
        The same sheet at other holes.
    doubts : list of Doubt
        Of the sheet.
    low, high : float
        [m/s^2]; both below either car's limit.

    Returns
    -------
    dict of str to Expected
        ``"roll gradient"`` and ``"understeer gradient"`` [rad/(m/s^2)] as straight lines over the range;
        ``"roll"`` and ``"steer"`` [rad] at its top, steer beyond what the bend itself asks for.

    Notes
    -----
    Driven so that the speed holds, as the runs are. Uncertainty is carried as in `carry.carry`, on the
    coasting car: the force that holds the speed hardly changes how a number bears on the result, and it
    takes ten times as long to work out.
    """
    return dict(_worked_out(before, after, tuple(doubts), low, high))


@lru_cache(maxsize=32)
def _worked_out(before: Car, after: Car, doubts: tuple[Doubt, ...], low: float, high: float):
    """The same, kept: it takes a second, and a plan, its words and its runs ask for one and the same."""
    accel, pair = np.linspace(low, high, _POINTS), hole_pair(after)
    values = _both(before, after, accel, driven=True)
    found = carry(before, list(doubts), lambda car: _both(car, car.with_holes(*pair), accel, driven=False))
    spread = {one.name: one.uncertainty for one in found}
    names = [name for name in (*CHANNELS, *CHANNELS.values()) if np.isfinite(values[f"{name} change"])]
    return {name: _expected(name, values, spread) for name in names}


def _both(before: Car, after: Car, accel, driven: bool) -> dict[str, float]:
    """Every figure before, after, and its change, by names such as "roll gradient change"."""
    found = {when: _figures(car, accel, driven) for when, car in (("before", before), ("after", after))}
    found["change"] = {name: found["after"][name] - value for name, value in found["before"].items()}
    return {f"{name} {when}": value for when, figures in found.items() for name, value in figures.items()}


def _figures(car: Car, accel, driven: bool) -> dict[str, float]:
    curves = {"roll": roll_of(car, accel), "steer": steer_of(car, accel, driven=driven)}
    slopes = {quantity: _slope(accel, curves[channel]) for quantity, channel in CHANNELS.items()}
    return {**slopes, **{channel: float(curve[-1]) for channel, curve in curves.items()}}


def _slope(accel, curve) -> float:
    return float(np.polyfit(accel, curve, 1)[0]) if np.isfinite(curve).all() else float("nan")


def _expected(name: str, values: dict[str, float], spread: dict[str, float]) -> Expected:
    each = max(spread.get(f"{name} {when}", 0.0) for when in ("before", "after"))
    return Expected(
        values[f"{name} before"], values[f"{name} after"], each, spread.get(f"{name} change", 0.0)
    )
