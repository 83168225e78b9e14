"""Steady stretches: where a run holds its lateral acceleration and its steer long enough to be averaged."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

import numpy as np


@dataclass(frozen=True)
class Steady:
    """What counts as steady; SI.

    Notes
    -----
    ISO 4138 asks for the steady state to be held; 3 s is from memory. The limits of drift are starting
    figures of our own: half a step of the standard (0.5 m/s^2), and what a calm hand holds.
    """

    hold: float = 3.0  # s
    drift: float = 0.25  # m/s^2, between the averages of the first, second and last third
    steer_drift: float = radians(0.6)  # rad at the road wheel, the same
    least: float = 0.5  # m/s^2; below this the car is hardly cornering


DEFAULTS = Steady()


def clock(time: np.ndarray, breaks: np.ndarray, hold: float) -> tuple[np.ndarray, float]:
    """Time that never goes back and jumps far where the record breaks, and the usual step of it.

    Parameters
    ----------
    time : array
        As logged, [s].
    breaks : array of bool
        Whether something other than time begins anew at a row, such as another run.
    hold : float
        How long a stretch must be, [s].

    Returns
    -------
    clock : array
        [s].
    step : float
        The median time between rows, [s].
    """
    steps = np.diff(time, prepend=time[:1])
    forward = steps[steps > 0]
    step = float(np.median(forward)) if forward.size else np.inf
    broken = breaks | (steps < 0) | (steps > max(3 * step, 0.1 * hold))
    return np.cumsum(np.where(broken, 10 * hold, np.maximum(steps, 0.0))), step


def steady_windows(when: np.ndarray, step: float, channels, hold: float) -> list[tuple[int, int]]:
    """Windows one after another in which no channel drifts by more than its limit.

    A window is cut into thirds; the averages of the thirds may differ by the limit at most, so noise
    that averages out does not count and a slow change does.

    Parameters
    ----------
    when : array
        From `clock`, [s].
    step : float
        Time between rows, [s].
    channels : list of (array, float)
        Values and the most that they may drift, in one unit each.
    hold : float
        Length of a window, [s].

    Returns
    -------
    list of (first row, row after the last)
    """
    edges = [np.searchsorted(when, when + part * hold / 3 - 0.5 * step) for part in range(4)]
    edges[0] = np.arange(len(when))
    whole = when[edges[3] - 1] - when >= hold - 1.6 * step
    for first, last in zip(edges, edges[1:], strict=False):
        whole &= last > first
    for values, limit in channels:
        whole &= _drift(values, edges) <= limit
    return _one_after_another(np.flatnonzero(whole), edges[3])


def _drift(values: np.ndarray, edges) -> np.ndarray:
    """Largest difference between the averages of a window's thirds, for the window from each row on."""
    sums = np.concatenate(([0.0], np.cumsum(values - values.mean())))
    thirds = np.stack(
        [
            (sums[last] - sums[first]) / np.maximum(last - first, 1)
            for first, last in zip(edges, edges[1:], strict=False)
        ]
    )
    return np.ptp(thirds, axis=0)


def _one_after_another(starts: np.ndarray, end: np.ndarray) -> list[tuple[int, int]]:
    found, free = [], 0
    while (at := np.searchsorted(starts, free)) < len(starts):
        first = int(starts[at])
        free = int(end[first])
        found.append((first, free))
    return found


def joined(windows, when: np.ndarray, values: np.ndarray, limit: float, hold: float) -> list[tuple[int, int]]:
    """Windows that follow each other on the same level as one stretch.

    The level is that of the stretch's first window, so a slow drift is cut into pieces.

    Parameters
    ----------
    windows : list of (first row, row after the last)
    when : array
        [s].
    values : array
        Lateral acceleration, [m/s^2].
    limit : float
        How far the average of a window may lie from that of the first, [m/s^2].
    hold : float
        Length of a window; a pause of less than that does not part two, [s].
    """
    found: list[tuple[int, int]] = []
    level = np.nan
    for first, last in windows:
        mean = values[first:last].mean()
        near = found and when[first] - when[found[-1][1] - 1] < hold
        if near and abs(mean - level) <= limit:
            found[-1] = (found[-1][0], last)
        else:
            found.append((first, last))
            level = mean
    return found
