"""From the columns of a file to lateral acceleration, road-wheel steer and roll."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.car import GRAVITY
from rollmodel.testday.columns import QUANTITIES
from rollmodel.testday.faults import DayError
from rollmodel.testday.run_file import SPARE, RunFile, radius_text
from rollmodel.units import parse, show

AGREES = 0.10  # how far speed and radius may differ from the measured lateral acceleration without a word


MOST = parse(QUANTITIES["lateral acceleration"][2], "lateral acceleration")  # m/s^2, believable


@dataclass(frozen=True, eq=False)  # arrays have no one answer to "equal"
class Channels:
    """Rows of one file with nothing missing; SI, signs as the file has them."""

    name: str
    time: np.ndarray | None  # None: each row is an average already
    lateral_acceleration: np.ndarray
    leans: bool  # whether an accelerometer on the body measured it, which leans with the body
    steer: np.ndarray | None  # at the road wheel
    roll: np.ndarray | None
    label: np.ndarray | None  # of the run, text
    direction: np.ndarray  # +1 left, -1 right, 0 not said
    notes: tuple[str, ...]


def channels_of(file: RunFile, radius: float | None = None, steering_ratio: float | None = None) -> Channels:
    """The channels that the fits need, row by row.

    Parameters
    ----------
    file : RunFile
    radius : float, optional
        Of the circle, [m]; the file's own remark when left out.
    steering_ratio : float, optional
        Steering wheel over road wheel, [-]; the file's own remark when left out.

    Raises
    ------
    DayError
        A number that is needed and that neither the file nor the caller gives; no whole row.

    Notes
    -----
    Lateral acceleration is the column of that name; else an accelerometer's; else ``v^2 / R``.
    """
    notes = list(file.notes)
    accel, leans = _lateral_acceleration(file, radius or file.radius, notes)
    steer, roll = _steer(file, steering_ratio or file.steering_ratio), file.values.get("roll")
    time = file.values.get("time")
    whole = np.isfinite(accel)
    for values in (steer, roll, time):
        whole &= True if values is None else np.isfinite(values)
    if not whole.any():
        raise DayError(
            "no row has every value; the columns that are read are " + ", ".join(file.values), file.name
        )
    if not whole.all():
        notes.append(f"{file.name}: {np.sum(~whole)} of {len(whole)} rows have gaps and are left out.")
    time, accel, steer, roll, label, direction = (
        None if values is None else values[whole]
        for values in (time, accel, steer, roll, file.run, file.direction)
    )
    return Channels(file.name, time, accel, leans, steer, roll, label, direction, tuple(notes))


def _lateral_acceleration(file: RunFile, radius, notes) -> tuple[np.ndarray, bool]:
    """Lateral acceleration, and whether it was felt by something that leans with the body."""
    speed = file.values.get("speed")
    by_speed = None if speed is None or radius is None else from_speed(speed, radius)
    if speed is not None and np.nanmax(speed, initial=-1.0) < 0:
        notes.append(
            f"{file.name}: every speed is negative. Is the sensor turned? Without a direction column such "
            "runs count as right-hand ones."
        )
    for name in ("lateral acceleration", "accelerometer"):
        if name in file.values:
            _compare(file, file.values[name], by_speed, notes)
            return file.values[name], name == "accelerometer"
    if by_speed is None:
        raise DayError(
            "speed alone gives no lateral acceleration; give the radius of the circle "
            '(--radius "30 m", or a line "# radius: 30 m" above the header)',
            file.name,
        )
    return _believable(file, by_speed, radius, notes), False


def _believable(file: RunFile, by_speed, radius: float, notes) -> np.ndarray:
    """Lateral acceleration from speed, held to the same bound as a measured one."""
    wild = np.abs(by_speed) > MOST
    if not wild.any():
        return by_speed
    unit, most = file.units.get("speed", "m/s"), show(MOST, "lateral acceleration")
    reached = show(float(np.nanmax(np.abs(by_speed))), "lateral acceleration", decimals=2)
    if wild.mean() > SPARE:
        raise DayError(
            f"speed in {unit} on a radius of {radius_text(radius)} gives up to {reached}, at most {most} is "
            "believable; check the unit of speed in the header, and the radius",
            file.name,
        )
    notes.append(
        f"{file.name}: {wild.sum()} value(s) of speed set aside: with the radius they give up to {reached}."
    )
    return np.where(wild, np.nan, by_speed)


def from_speed(speed, radius):
    """Lateral acceleration on a circle: ``v^2 / R``, [m/s^2].

    Parameters
    ----------
    speed : float or array
        [m/s].
    radius : float
        [m].

    Examples
    --------
    >>> print(from_speed(15.0, 30.0))
    7.5
    """
    return speed * np.abs(speed) / radius


def level(accelerometer, roll):
    """Lateral acceleration from an accelerometer that leans with the body, [m/s^2].

    It reads ``a cos(phi) + g sin(phi)``, so ``a = (reading - g sin(phi)) / cos(phi)``.

    Parameters
    ----------
    accelerometer : float or array
        Size of the reading, [m/s^2].
    roll : float or array
        `phi`, out of the corner, [rad].

    Notes
    -----
    Derived here. The accelerometer's axis is taken as level when the car stands.
    """
    return (accelerometer - GRAVITY * np.sin(roll)) / np.cos(roll)


def _compare(file, measured, by_speed, notes) -> None:
    if by_speed is None:
        return
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.nanmedian(np.where(np.abs(by_speed) > 1, np.abs(measured) / np.abs(by_speed), np.nan))
    if np.isfinite(ratio) and abs(ratio - 1) > AGREES:
        notes.append(
            f"{file.name}: the measured lateral acceleration is {ratio:.2f} times speed squared over "
            "radius. One of the two, or the radius, is wrong; the measured one is used."
        )


def _steer(file: RunFile, ratio) -> np.ndarray | None:
    if "steer" in file.values:
        return file.values["steer"]
    if "steering wheel" not in file.values:
        return None
    if ratio is None:
        raise DayError(
            "the steer is that of the steering wheel; give the steering ratio (--steering-ratio 15, or a "
            'line "# steering ratio: 15" above the header)',
            file.name,
        )
    return file.values["steering wheel"] / ratio
