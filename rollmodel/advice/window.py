"""A car made softer or stiffer as a whole: where a little more stiffness gains an end grip, and the window.

Far down both ends gain, far up both lose. Between the two lies a window in which one end gains and
the other loses, so that no single rule serves the car. All that is said of four wheels on the ground: with
an inside wheel up the bars share out no more load, only the lean still counts, and nothing is crossed.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.optimize import brentq

from rollmodel.advice.case import stiffness_step, with_more_roll_stiffness
from rollmodel.advice.rule import ENDS, other_end
from rollmodel.advice.thresholds import DEFAULTS
from rollmodel.car import Axle, Car
from rollmodel.physics.balance import limits
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.pair import axle_arguments, largest_axle_force
from rollmodel.physics.regimes import at_roll_stiffness
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness


def times_as_stiff(car: Car, factor: float) -> Car:
    """The car with springs and bars at both ends so many times as stiff at the wheel.

    A bar's rate at the wheel goes with its link's motion ratio squared, so that is what is changed.
    """
    return replace(car, front=_scaled(car.front, factor), rear=_scaled(car.rear, factor))


def _scaled(axle: Axle, factor):
    bar = axle.bar and replace(axle.bar, link_motion_ratio=axle.bar.link_motion_ratio * factor**0.5)
    return replace(axle, spring_rate=axle.spring_rate * factor, bar=bar)


def factors_for(car: Car, most_roll: float, softest=0.4, stiffest=2.5, step=0.05) -> tuple[float, ...]:
    """Times as stiff that are worth looking at: from a car that rolls so much [rad/(m/s^2)], or is as it
    is, up."""
    tries = np.round(np.arange(softest, stiffest + step / 2, step), 6)
    roll = roll_gradient(car, *(_scaled_stiffness(car.axle(end), tries) for end in ENDS))
    return tuple(float(factor) for factor in tries[(tries >= 1) | (roll < most_roll)])


@dataclass(frozen=True)
class Window:
    """Each end's own limit against a small step of bar stiffness there, for a car as a whole softer or
    stiffer."""

    factors: np.ndarray  # times as stiff as the car is now, ascending
    roll: np.ndarray  # roll gradient of each, rad/(m/s^2)
    step: float  # of the bar's roll stiffness, N*m/rad
    gains: dict[str, np.ndarray]  # rise of the end's own limit for one step at that end, m/s^2
    counts: float  # a rise below this is none, m/s^2
    up: dict[str, dict[str, np.ndarray]]  # at one end's own limit: whether each end's inside wheel is up

    def gain_at(self, end: str, factor: float) -> float:
        """The rise at one end of the car made so many times as stiff, [m/s^2]."""
        return float(np.interp(factor, self.factors, self.gains[end]))

    def roll_at(self, factor: float) -> float:
        return float(np.interp(factor, self.factors, self.roll))

    def gaining(self, factor: float) -> tuple[str, ...]:
        """The ends that a little more stiffness would gain grip at."""
        return tuple(end for end in ENDS if self.gain_at(end, factor) > self.counts)

    def up_at(self, end: str, factor: float) -> tuple[str, ...]:
        """The ends whose inside wheel is off the ground at one end's own limit, at the nearest factor."""
        n = int(np.argmin(np.abs(self.factors - factor)))
        return tuple(wheel for wheel in ENDS if self.up[end][wheel][n])

    def any_up(self) -> np.ndarray:
        """For each factor, whether an inside wheel is up at the own limit of either end."""
        return np.any([up for end in ENDS for up in self.up[end].values()], axis=0)

    def crossing(self, end: str) -> float | None:
        """Roll gradient at which stiffness at an end neither gains nor loses, [rad/(m/s^2)]; None where
        it never does with all wheels on the ground."""
        gain, down = self.gains[end], ~self.any_up()
        turns = np.flatnonzero(((gain[:-1] > 0) != (gain[1:] > 0)) & down[:-1] & down[1:])
        if not len(turns) or np.max(np.abs(gain)) < self.counts:
            return None
        n = int(turns[-1])
        part = gain[n] / (gain[n] - gain[n + 1])
        return float(self.roll[n] + part * (self.roll[n + 1] - self.roll[n]))


@lru_cache(maxsize=64)
def window(car: Car, factors: tuple[float, ...], thresholds=DEFAULTS) -> Window:
    """Every stiffness of the car in one solve, coasting.

    Parameters
    ----------
    car : Car
        On the holes in use.
    factors : tuple of float
        Times as stiff, ascending; the car must stand up at each.
    thresholds : Thresholds
        The size of the step, and the rise that counts.
    """
    factors, step = np.array(factors), stiffness_step(car, thresholds)
    front, rear = (_scaled_stiffness(car.axle(end), factors) for end in ENDS)
    found = limits(
        car,
        with_more_roll_stiffness(front, np.array([[0.0], [step], [0.0]])),
        with_more_roll_stiffness(rear, np.array([[0.0], [0.0], [step]])),
    )
    gains = {"front": found.front[1] - found.front[0], "rear": found.rear[2] - found.rear[0]}
    held = {end: np.fmin(getattr(found, end)[0], 0.999 * found.rollover[0]) for end in ENDS}
    up = {end: _up(car, held[end], front, rear) for end in ENDS}
    return Window(factors, roll_gradient(car, front, rear), step, gains, thresholds.own_end_gain, up)


def _up(car, lateral_acceleration, front, rear):
    """Whether each end's inside wheel is off the ground there."""
    corner = settled_corner(car, lateral_acceleration, front, rear)
    return {end: np.asarray(corner.axle(end).lifted) for end in ENDS}


def _scaled_stiffness(axle, factors):
    """Springs and bar together so many times as stiff, as a bar that makes up the difference."""
    stiff = axle_stiffness(axle)
    return with_more_roll_stiffness(stiff, (factors - 1) * stiff.suspension_roll)


def other_stiffness_at_crossing(car: Car, end: str, lateral_acceleration: float) -> float | None:
    """The other end's roll stiffness at which a stiffer `end` neither gains nor loses, by search, [N*m/rad].

    The computed twin of ``HandAxle.other_stiffness_at_crossing``: slope of grip by central difference over a
    hundredth of this end's stiffness, the other end's stiffness searched between a tenth and ten times its
    own. None where the slope keeps its sign.
    """
    own, other = (axle_stiffness(car.axle(each)) for each in (end, other_end(end)))
    totals = float(own.total_roll) * np.array([0.99, 1.01])
    top = min(10 * float(other.total_roll), 0.999 * float(other.tyre_roll))

    def slope(total):
        stiff = {end: at_roll_stiffness(own, totals), other_end(end): at_roll_stiffness(other, total)}
        corner = settled_corner(car, lateral_acceleration, stiff["front"], stiff["rear"])
        grip = largest_axle_force(car.tyre, *axle_arguments(car.axle(end), corner.axle(end)))[0]
        return float(grip[1] - grip[0]) if not np.any(corner.rolls_over) else np.nan

    tries = np.geomspace(0.1 * float(other.total_roll), top, 60)
    slopes = np.array([slope(total) for total in tries])
    turns = np.flatnonzero((slopes[:-1] > 0) & (slopes[1:] < 0))
    return float(brentq(slope, tries[turns[-1]], tries[turns[-1] + 1], xtol=1e-3)) if len(turns) else None
