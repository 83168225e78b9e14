"""Signs of steer and roll: turned where a file has them the other way, refused where they contradict."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.stats import linregress, t

from rollmodel.testday.faults import DayError

LEVEL = 0.999  # how sure a run's slope of roll must be of its side of nil before it contradicts another
TIMES_SCATTER = 5.0  # and how many times the scatter of the runs' slopes: 1 in 500 such days by chance
_FEWEST = 3  # points: through two any line passes


def settle_signs(runs: list) -> tuple[list, list[str]]:
    """Runs with lateral acceleration, steer and roll as sizes in their own corner, and what was turned.

    Steer is towards the corner and roll out of it in every ordinary run. ISO 8855 has all three
    positive in a left turn and negative in a right one; other files have them the other way round, or
    write sizes alone. Each is understood; two runs the same way round with opposite signs are not.

    The slope of a small roll may come out on the other side of nil by noise alone. Such a run contradicts
    nothing; it has the sign of the other runs the same way round. Where no run tells it, roll is taken to be
    written as steer is, or without steer to grow with lateral acceleration.

    Parameters
    ----------
    runs : list of Run
        Signs as the file has them.

    Returns
    -------
    runs : list of Run
    notes : list of str
        One sentence for each channel that was turned, and for a roll too small to be read.

    Raises
    ------
    DayError
        Two runs the same way round contradict each other by more than noise.
    """
    steer = _one_sign_each_way(runs, "steer", [_by_level(run.steer) for run in runs])
    told = _slopes_told(runs)
    roll = _one_sign_each_way(runs, "roll", [one.sign if one.told else 0 for one in told])
    roll = {way: sign or _together(told, runs, way) for way, sign in roll.items()}
    steered = all(run.steer is not None for run in runs)
    taken = {
        way: sign or (_as_steer(way, steer, roll) if steered else _growing(runs, told, way))
        for way, sign in roll.items()
    }
    signs = {"steer": steer, "roll": taken}
    settled = [
        replace(
            run,
            lateral_acceleration=np.abs(run.lateral_acceleration),
            **{name: _turned(getattr(run, name), signs[name][run.direction]) for name in signs},
        )
        for run in runs
    ]
    return settled, [*_note("steer", steer), *_note("roll", roll), *_unread(runs, told, roll, taken, steered)]


@dataclass(frozen=True)
class _Slope:
    """Roll against the size of lateral acceleration in one run, as the file has it."""

    slope: float  # rad/(m/s^2)
    error: float  # standard error of it; infinite where a run has too few points to tell
    told: bool = True  # whether it lies clear of nil

    @property
    def sign(self) -> int:
        return -1 if self.slope < 0 else 1


def _by_level(values) -> int:
    """Sign of steer: mostly the bend itself, and its slope may have either sign."""
    return 1 if values is None or np.median(values) >= 0 else -1


def _slopes_told(runs) -> list[_Slope]:
    """Each run's slope, and whether it is clear of nil within the run and beside the runs' scatter.

    A sensor's zero may be off by more than a small roll angle, so its level tells nothing.
    """
    found = [_slope(run) for run in runs]
    least = TIMES_SCATTER * _scatter(found)
    return [
        replace(one, told=_clear(one, run.points) and abs(one.slope) > least)
        for one, run in zip(found, runs, strict=True)
    ]


def _scatter(slopes: list[_Slope]) -> float:
    """Standard deviation of the slopes' sizes, [rad/(m/s^2)]; nil where too few runs tell of it."""
    known = [abs(one.slope) for one in slopes if np.isfinite(one.error)]
    return float(np.std(known, ddof=1)) if len(known) >= _FEWEST else 0.0


def _slope(run) -> _Slope:
    if run.roll is None:
        return _Slope(1.0, 0.0)
    size = np.abs(run.lateral_acceleration)
    if run.points < _FEWEST or np.ptp(size) == 0:
        return _Slope(0.0, np.inf)
    fit = linregress(size, run.roll)
    return _Slope(float(fit.slope), float(fit.stderr))


def _clear(one: _Slope, points: int) -> bool:
    """Whether a slope lies beyond the noise of its own points, by Student's test."""
    return bool(abs(one.slope) > one.error * t.ppf((1 + LEVEL) / 2, max(points - 2, 1)))


def _together(slopes: list[_Slope], runs, way: int) -> int:
    """Sign of the mean slope of the runs one way round; 0 where that is not clear of nil either."""
    pairs = zip(slopes, runs, strict=True)
    some = [one for one, run in pairs if run.direction == way and np.isfinite(one.error)]
    whole, scatter = sum(one.slope for one in some), _scatter(slopes)
    error = np.sqrt(sum(one.error**2 + scatter**2 for one in some))
    return int(np.sign(whole)) if abs(whole) > TIMES_SCATTER * error else 0


def _one_sign_each_way(runs, name: str, signs: list[int]) -> dict[int, int]:
    """The sign of each way round, 0 where no run tells it; refused where two runs contradict each other."""
    first: dict[int, int] = {}  # the first run of each way round that tells
    for i, run in enumerate(runs):
        if not signs[i]:
            continue
        other = first.setdefault(run.direction, i)
        if signs[other] != signs[i]:
            raise DayError(
                f"{name} has one sign in {runs[other].name} and the other in {run.name}, the same way "
                f"round. Mend the sign in one of them, or check which way round it was"
            )
    return {run.direction: signs[first[run.direction]] if run.direction in first else 0 for run in runs}


def _as_steer(way: int, steer: dict[int, int], roll: dict[int, int]) -> int:
    """Roll's sign where its runs do not tell it: beside steer's as it is the other way round, or the same."""
    other = next((one for one in roll if roll[one]), None)
    return steer[way] if other is None else roll[other] * steer[other] * steer[way]


def _growing(runs, told: list[_Slope], way: int) -> int:
    """The sign with which roll grows on average the way round, clear of nil or not."""
    slopes = [one.slope for run, one in zip(runs, told, strict=True) if run.direction == way]
    return -1 if sum(slopes) < 0 else 1


def _turned(values, sign: int):
    return None if values is None else values * sign


def _unread(runs, told, roll: dict[int, int], taken: dict[int, int], steered: bool) -> list[str]:
    """That a roll is too small to be read at this noise, where that decided anything."""
    untold = [run.name for run, one in zip(runs, told, strict=True)
              if not one.told and one.slope and one.sign != taken[run.direction]]
    if not untold and all(roll.values()):
        return []
    against = f" In {', '.join(untold)} its slope even came out the other way." if untold else ""
    by = "be written with the sign that steer has" if steered else "grow with lateral acceleration"
    how = "" if all(roll.values()) else f" It was taken to {by}."
    return [
        f"Roll is too small to be read in single runs at this noise.{against}{how} Noise alone "
        "can do that; a sign turned round in a file would look the same. Less noise, or more lateral "
        "acceleration, would tell them apart."
    ]


def _note(name: str, signs: dict[int, int]) -> list[str]:
    """What was done to a channel, in a sentence; nothing where it follows ISO 8855 or where nothing tells."""
    known = {way: sign for way, sign in signs.items() if way and sign}
    if all(sign == way for way, sign in known.items()):
        return []
    if len(known) == 2 and len(set(known.values())) == 1:
        return [f"{name.capitalize()} has the same sign both ways round; it was taken as a size."]
    if list(known.values()) == [1]:
        return []  # one way round, sizes alone
    return [f"{name.capitalize()} has the sign opposite to ISO 8855 (left turns positive); it was turned."]
