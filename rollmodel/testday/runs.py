"""Runs of one setup: steady points from low to high lateral acceleration, every sign settled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from rollmodel.testday.channels import Channels, channels_of, level
from rollmodel.testday.faults import DayError
from rollmodel.testday.odd_files import clock_notes, refuse_odd_clock
from rollmodel.testday.run_file import RunFile, read_run_file
from rollmodel.testday.signs import settle_signs
from rollmodel.testday.steady import DEFAULTS, Steady, clock, joined, steady_windows
from rollmodel.units import show

WAYS = {1: "left", -1: "right", 0: "way round not said"}
FEWEST = 3  # steady points that a run must have to give a slope
SPAN = 1.0  # m/s^2 that they must cover at least
LITTLE = 2.0  # m/s^2: runs that reach less have a wrong radius or unit more often than a timid driver
FALLS_BACK = 1.0  # m/s^2: a fall of this much from one point to the next begins a new run


@dataclass(frozen=True, eq=False)  # arrays have no one answer to "equal"
class Run:
    """One series of steady points, one way round. Arrays of one length, SI.

    Lateral acceleration, steer and roll are counted into the corner and out of it, so that both ways
    round give the same: positive in an ordinary corner.
    """

    name: str
    direction: int  # +1 left, -1 right, 0 not said
    lateral_acceleration: np.ndarray
    steer: np.ndarray | None  # at the road wheel
    roll: np.ndarray | None
    start: np.ndarray  # s from the start of the file, or the row
    rows: np.ndarray  # how many rows each point averages
    leans: bool = False  # whether lateral acceleration was read from an accelerometer on the leaning body

    @property
    def points(self) -> int:
        """How many steady points there are."""
        return len(self.lateral_acceleration)

    def taken(self, keep: np.ndarray | slice) -> Run:
        """The run with some of its points alone, ``keep`` saying which."""
        arrays = {
            name: getattr(self, name) for name in ("lateral_acceleration", "steer", "roll", "start", "rows")
        }
        return replace(
            self, **{name: None if values is None else values[keep] for name, values in arrays.items()}
        )


@dataclass(frozen=True)
class Setup:
    """All runs of the car as it was set up one way."""

    name: str
    runs: tuple[Run, ...]
    notes: tuple[str, ...] = ()  # what was taken for granted
    set_aside: tuple[str, ...] = ()  # runs that could not be used, each with the reason
    simulated: bool = False
    radius: float | None = None  # m, where known
    holes: dict[str, int] = field(default_factory=dict)  # in use, by end, where the files say

    def has(self, channel: str) -> bool:
        """Whether every run has this channel, "steer" or "roll"."""
        return all(getattr(run, channel) is not None for run in self.runs)

    @property
    def directions(self) -> list[int]:
        """Which ways round were driven."""
        return sorted({run.direction for run in self.runs}, reverse=True)


def read_setup(
    paths: Sequence,
    name: str = "",
    radius: float | None = None,
    steering_ratio: float | None = None,
    steady: Steady = DEFAULTS,
) -> Setup:
    """The runs of one setup from one or more CSV files.

    Parameters
    ----------
    paths : sequence of path
        Each as `run_file.read_run_file` takes it.
    name : str
        What to call the setup, for example "before".
    radius : float, optional
        [m]; the files' own remarks when left out.
    steering_ratio : float, optional
        [-]; the files' own remarks when left out.
    steady : Steady
        What counts as steady.

    Raises
    ------
    DayError
        A file that cannot be used; no run with enough steady points.
    """
    files = [read_run_file(path) for path in paths]
    found = [channels_of(file, radius, steering_ratio) for file in files]
    runs, told = settled_runs(found, steady)
    notes = [note for channels in found for note in (*channels.notes, *clock_notes(channels))]
    leaning = [run for run in runs if run.leans]
    setup = Setup(
        name,
        tuple(map(_levelled, runs)),
        (*notes, *told, *_lean_notes(leaning)),
        (),
        any(file.simulated for file in files),
        _one_radius(files, radius),
        _one_set_of_holes(files, name),
    )
    return _usable(setup)


def settled_runs(found: Sequence[Channels], steady: Steady = DEFAULTS) -> tuple[list[Run], list[str]]:
    """Every run in some files' channels, signs settled, and what was done to the signs.

    Parameters
    ----------
    found : sequence of Channels
    steady : Steady
        What counts as steady.

    Raises
    ------
    DayError
        No steady stretch anywhere.
    """
    runs = [run for channels in found for run in _runs_of(channels, steady)]
    if not runs:
        raise DayError(
            f"no steady stretch of {steady.hold:g} s found; hold each speed for {steady.hold:g} s or more, "
            "or leave the time column out where each row is an average already",
            ", ".join(channels.name for channels in found),
        )
    return settle_signs(runs)


def _one_radius(files: list[RunFile], radius: float | None) -> float | None:
    """The radius asked for, or the one that all files name."""
    named = {file.radius for file in files}
    return radius or (named.pop() if len(named) == 1 else None)


def _one_set_of_holes(files: list[RunFile], name: str) -> dict[str, int]:
    """The holes that the files name; refused where they name different ones for one setup."""
    holes: dict[str, int] = {}
    for file in files:
        for end, hole in file.holes.items():
            if holes.setdefault(end, hole) != hole:
                raise DayError(
                    f"its files name {end} hole {holes[end]} and {hole}; runs of one setup have one", name
                )
    return holes


def _runs_of(channels: Channels, steady: Steady) -> list[Run]:
    """Steady points of one file, cut into runs."""
    pieces, start = _stretches(channels, steady)
    means = {
        name: _means(getattr(channels, name), pieces) for name in ("lateral_acceleration", "steer", "roll")
    }
    rows = np.array([last - first for first, last in pieces], dtype=int)
    at = np.array([first for first, _ in pieces], dtype=int)
    cornering = np.abs(means["lateral_acceleration"]) >= steady.least
    whole = Run(channels.name, 0, **means, start=start, rows=rows, leans=channels.leans).taken(cornering)
    return _cut(whole, channels, at[cornering])


def _stretches(channels: Channels, steady: Steady) -> tuple[list[tuple[int, int]], np.ndarray]:
    if channels.time is None:
        count = len(channels.lateral_acceleration)
        return [(row, row + 1) for row in range(count)], np.arange(1.0, count + 1)
    when, step = clock(channels.time, _breaks(channels), steady.hold)
    refuse_odd_clock(channels, step, steady.hold)
    watched = [(channels.lateral_acceleration, steady.drift)]
    watched += [] if channels.steer is None else [(channels.steer, steady.steer_drift)]
    windows = steady_windows(when, step, watched, steady.hold)
    pieces = joined(windows, when, channels.lateral_acceleration, steady.drift, steady.hold)
    return pieces, channels.time[[first for first, _ in pieces]]


def _breaks(channels: Channels) -> np.ndarray:
    """Rows at which another run or another way round begins."""
    marks = [channels.direction] + ([] if channels.label is None else [channels.label])
    breaks = np.zeros(len(channels.direction), bool)
    for mark in marks:
        breaks[1:] |= mark[1:] != mark[:-1]
    return breaks


def _means(values, pieces) -> np.ndarray | None:
    if values is None:
        return None
    return np.array([values[first:last].mean() for first, last in pieces])


def _cut(points: Run, channels: Channels, at: np.ndarray) -> list[Run]:
    """One run for each label and way round; without labels, a fall back to low speed begins a new one."""
    if points.points == 0:
        return []
    ways = _ways(points, channels.direction[at])
    labels = np.full(points.points, "") if channels.label is None else channels.label[at]
    size = np.abs(points.lateral_acceleration)
    new = (ways[1:] != ways[:-1]) | (labels[1:] != labels[:-1])
    if channels.label is None:
        new |= (np.diff(size) < -FALLS_BACK) | (np.diff(points.start) < 0)
    edges = [0, *(np.flatnonzero(new) + 1).tolist(), points.points]
    pieces = zip(edges, edges[1:], strict=False)
    return [_one(points, first, last, ways, labels, i) for i, (first, last) in enumerate(pieces)]


def _one(points: Run, first: int, last: int, ways, labels, i: int) -> Run:
    name = f"{points.name}, run {labels[first] or i + 1} {WAYS[int(ways[first])]}"
    return replace(points.taken(slice(first, last)), name=name, direction=int(ways[first]))


def _ways(points: Run, said: np.ndarray) -> np.ndarray:
    """Which way round each point goes: as said, else by the sign of lateral acceleration or of steer."""
    if said.all():
        return said
    for values in (points.lateral_acceleration, points.steer):
        if values is not None and values.min() < 0:
            return np.where(said == 0, np.sign(values).astype(int), said)
    return said


def _levelled(run: Run) -> Run:
    if run.roll is None or not run.leans:
        return run
    return replace(run, lateral_acceleration=level(run.lateral_acceleration, run.roll))


def _lean_notes(runs: list[Run]) -> list[str]:
    if not runs:
        return []
    if any(run.roll is None for run in runs):
        return [
            "The accelerometer leans with the body and reads about g times the roll angle too much. Without "
            "a roll column that stays in: gradients come out a few per cent low, before and after alike."
        ]
    return ["The accelerometer leans with the body; g times the sine of the roll angle was taken out."]


def _usable(setup: Setup) -> Setup:
    """The setup with runs that are too short set aside, each with the reason."""
    good, aside = [], []
    for run in setup.runs:
        span = float(np.ptp(run.lateral_acceleration))
        if run.points < FEWEST or span < SPAN:
            aside.append(
                f"{run.name}: {run.points} steady point(s) over {span:.1f} m/s^2; a slope needs {FEWEST} "
                f"over {SPAN:g} m/s^2."
            )
        else:
            good.append(run)
    if not good:
        raise DayError(_none_usable(setup, aside), setup.name)
    return replace(setup, runs=tuple(good), set_aside=tuple(aside))


def _none_usable(setup: Setup, aside: list[str]) -> list[str]:
    """Why no run can be used: one line for what they share, and the first of what each lacks."""
    most = max(float(run.lateral_acceleration.max()) for run in setup.runs)
    shared = f"no run has enough steady points; they reach {show(most, 'lateral acceleration', decimals=2)}"
    if most < LITTLE and setup.radius is not None:
        shared += f"; check the radius of {setup.radius:g} m and the unit of speed"
    more = [f"and {len(aside) - 1} more runs in the same way"] if len(aside) > 1 else []
    return [shared, aside[0], *more]
