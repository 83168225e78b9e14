"""What is odd about the time of a file, in words that name the matter."""

from __future__ import annotations

import numpy as np

from rollmodel.testday.channels import Channels
from rollmodel.testday.faults import DayError

_BACKWARDS = 0.5  # part of the steps in time that go back, from which the rows are taken to be reversed
_MANY = 30  # rows; averages by hand are fewer
_SAME = 0.1  # part of the rows with the time of the row above, from which it is said
_SECOND = (1.0, 1000.0)  # s: steps of whole milliseconds under the header [s] are tens to hundreds


def refuse_odd_clock(channels: Channels, step: float, hold: float) -> None:
    """Refuse a time column that cannot tell a steady stretch, each kind with its own mend.

    Parameters
    ----------
    channels : Channels
        With a time.
    step : float
        The usual step forward, [s]; inf where there is none.
    hold : float
        How long a steady stretch must be, [s].

    Raises
    ------
    DayError
    """
    steps = np.diff(channels.time)
    if not len(steps):
        raise DayError(
            "there is one row of numbers alone; a line needs runs at several speeds, each a row or some "
            "seconds long",
            channels.name,
        )
    if not steps.any():
        raise DayError(
            f"time: every row has the same time, {channels.time[0]:g} s; log the time of each row",
            channels.name,
        )
    if np.mean(steps < 0) > _BACKWARDS:
        raise DayError("time: it runs backwards; sort the rows by time, earliest first", channels.name)
    if step < hold / 3:
        return
    if _SECOND[0] < step < _SECOND[1] and len(steps) > _MANY and _whole(channels.time):
        raise DayError(
            f"time: rows are {step:g} s apart by the header; is it in milliseconds? Then write time [ms]",
            channels.name,
        )
    raise DayError(
        f"rows are {step:g} s apart, too far to tell a steady {hold:g} s; leave the time column out if each "
        "row is an average already",
        channels.name,
    )


def _whole(values) -> bool:
    return bool(np.all(values == np.round(values)))


def clock_notes(channels: Channels) -> list[str]:
    """What is odd about a time that can be read all the same, in sentences."""
    if channels.time is None or len(channels.time) < 2:
        return []
    same = float(np.mean(np.diff(channels.time) == 0))
    if same < _SAME:
        return []
    return [
        f"{channels.name}: {same:.0%} of the rows have the time of the row above; are rows written twice, or "
        "time rounded too far?"
    ]
