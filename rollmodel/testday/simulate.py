"""Simulated runs, to practise on and to test the fits with: nobody drove them, and every file says so."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import radians

import numpy as np
from scipy.signal import lfilter

from rollmodel.car import GRAVITY

_DEG_PER_G = radians(1) / GRAVITY


@dataclass(frozen=True)
class Noise:
    """What spoils a test, SI. Starting figures of our own, for a careful day with plain sensors.

    Steer is at the road wheel. The slow parts wander with a time constant of half a second and pass
    through the averages; the fast part is each reading's own.
    """

    speed: float = 0.15  # m/s, how the driver holds the speed; slow
    steer: float = radians(0.10)  # rad, corrections at the wheel; slow
    roll: float = radians(0.10)  # rad, the road; slow
    reading: float = radians(0.05)  # rad, each reading of either angle; fast
    zero: float = radians(0.2)  # rad, where each sensor's zero lies, the same all day
    steer_run: float = 0.03 * _DEG_PER_G  # rad/(m/s^2), spread of the understeer gradient from run to run
    roll_run: float = 0.04 * _DEG_PER_G  # rad/(m/s^2), the same of the roll gradient


CAREFUL = Noise()


@dataclass(frozen=True)
class Plan:
    """How the simulated runs are driven."""

    radius: float = 30.0  # m
    lowest: float = 1.0  # m/s^2
    highest: float = 7.0  # m/s^2
    step: float = 0.5  # m/s^2 (ISO 4138: at most)
    hold: float = 4.0  # s at each step
    change: float = 2.0  # s from one step to the next
    repetitions: int = 3  # each way round
    rate: float = 20.0  # rows a second

    @property
    def levels(self) -> np.ndarray:
        """Lateral acceleration of each step, [m/s^2]."""
        count = int(round((self.highest - self.lowest) / self.step)) + 1
        return np.linspace(self.lowest, self.highest, max(count, 3))


USUAL = Plan()


@dataclass(frozen=True, eq=False)  # arrays have no one answer to "equal"
class Driven:
    """Simulated rows, both ways round, signs after ISO 8855."""

    time: np.ndarray  # s, beginning anew with each run
    run: np.ndarray  # whole numbers from 1
    direction: np.ndarray  # +1 left, -1 right
    speed: np.ndarray  # m/s
    steer: np.ndarray  # rad at the road wheel
    roll: np.ndarray  # rad


def simulate(
    roll_at: Callable, steer_at: Callable, plan: Plan = USUAL, noise: Noise = CAREFUL, seed: int = 1
) -> Driven:
    """Runs of a car whose roll and steer are known, with noise.

    Parameters
    ----------
    roll_at, steer_at : callable
        From lateral acceleration [m/s^2] to roll angle and to steer at the road wheel [rad].
    plan : Plan
    noise : Noise
    seed : int
        The same seed gives the same rows.

    Returns
    -------
    Driven
    """
    draw = np.random.default_rng(seed)
    zeros = draw.normal(0, noise.zero, 2)
    runs = [
        _one_run(roll_at, steer_at, plan, noise, zeros, way, draw)
        for _ in range(plan.repetitions)
        for way in (1, -1)
    ]
    number = np.repeat(np.arange(1, len(runs) + 1), [len(run[0]) for run in runs])
    time, direction, speed, steer, roll = (np.concatenate(parts) for parts in zip(*runs, strict=True))
    return Driven(time, number, direction, speed, steer, roll)


def _one_run(roll_at, steer_at, plan, noise, zeros, way, draw):
    time, wanted = _profile(plan)
    speed = np.sqrt(wanted * plan.radius) + noise.speed * _wander(len(time), plan.rate, draw)
    accel = speed**2 / plan.radius
    steer = steer_at(accel) + draw.normal(0, noise.steer_run) * accel
    roll = roll_at(accel) + draw.normal(0, noise.roll_run) * accel
    return (
        time,
        np.full(len(time), way),
        speed,
        way * steer + zeros[0] + _spoiled(noise.steer, noise, len(time), plan, draw),
        way * roll + zeros[1] + _spoiled(noise.roll, noise, len(time), plan, draw),
    )


def _profile(plan) -> tuple[np.ndarray, np.ndarray]:
    """Time, and the lateral acceleration wanted: each level held, then a straight climb to the next."""
    each = plan.hold + plan.change
    corners = [(i * each + late, level) for i, level in enumerate(plan.levels) for late in (0.0, plan.hold)]
    time = np.arange(0, corners[-1][0] + 0.5 / plan.rate, 1 / plan.rate)
    return time, np.interp(time, *zip(*corners, strict=True))


def _spoiled(slow: float, noise, count: int, plan, draw):
    return slow * _wander(count, plan.rate, draw) + draw.normal(0, noise.reading, count)


def _wander(count: int, rate: float, draw, time_constant: float = 0.5) -> np.ndarray:
    """Noise of standard deviation 1 that forgets itself within half a second."""
    kept = np.exp(-1 / (rate * time_constant))
    fresh = draw.normal(0, np.sqrt(1 - kept**2), count)
    fresh[0] = draw.normal()
    return lfilter([1.0], [1.0, -kept], fresh)
