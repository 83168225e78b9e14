"""Signs of steer and roll: turned where a file has them the other way, refused where they contradict."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from rollmodel.testday.faults import DayError


def settle_signs(runs: list) -> tuple[list, list[str]]:
    """Runs with lateral acceleration, steer and roll as sizes in their own corner, and what was turned.

    Steer is towards the corner and roll out of it in every ordinary run. ISO 8855 has all three
    positive in a left turn and negative in a right one; other files have them the other way round, or
    write sizes alone. Each is understood; two runs the same way round with opposite signs are not.

    Parameters
    ----------
    runs : list of Run
        Signs as the file has them.

    Returns
    -------
    runs : list of Run
    notes : list of str
        One sentence for each channel that was turned.

    Raises
    ------
    DayError
        Two runs the same way round contradict each other.
    """
    notes: list[str] = []
    signs = {name: [_sign(run, name) for run in runs] for name in ("steer", "roll")}
    for name, of_runs in signs.items():
        _refuse_contradiction(runs, name, of_runs)
        notes += _note(name, {run.direction: sign for run, sign in zip(runs, of_runs, strict=True)})
    settled = [
        replace(
            run,
            lateral_acceleration=np.abs(run.lateral_acceleration),
            **{name: _turned(getattr(run, name), signs[name][i]) for name in signs},
        )
        for i, run in enumerate(runs)
    ]
    return settled, notes


def _sign(run, name: str) -> int:
    """Sign of a channel in its run: roll by how it grows with lateral acceleration, steer by its level.

    A sensor's zero may be off by more than a small roll angle; steer is mostly the bend itself, and may
    fall with lateral acceleration.
    """
    values = getattr(run, name)
    if values is None:
        return 1
    if name == "roll" and run.points > 1 and np.ptp(run.lateral_acceleration) > 0:
        return -1 if np.polyfit(np.abs(run.lateral_acceleration), values, 1)[0] < 0 else 1
    return -1 if np.median(values) < 0 else 1


def _turned(values, sign: int):
    return None if values is None else values * sign


def _refuse_contradiction(runs, name: str, signs: list[int]) -> None:
    first: dict[int, int] = {}  # the first run of each way round
    for i, run in enumerate(runs):
        other = first.setdefault(run.direction, i)
        if signs[other] != signs[i]:
            raise DayError(
                f"{name} has one sign in {runs[other].name} and the other in {run.name}, the same way "
                f"round. Mend the sign in one of them, or check which way round it was"
            )


def _note(name: str, signs: dict[int, int]) -> list[str]:
    """What was done to a channel, in a sentence; nothing where it follows ISO 8855 or where nothing tells."""
    known = {way: sign for way, sign in signs.items() if way}
    if all(sign == way for way, sign in known.items()):
        return []
    if len(known) == 2 and len(set(known.values())) == 1:
        return [f"{name.capitalize()} has the same sign both ways round; it was taken as a size."]
    if list(known.values()) == [1]:
        return []  # one way round, sizes alone
    return [f"{name.capitalize()} has the sign opposite to ISO 8855 (left turns positive); it was turned."]
