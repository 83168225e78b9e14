"""The main numbers of a car in one line: how far it rolls, who takes the load, what gives up first."""

from __future__ import annotations

from rollmodel.car import GRAVITY, Car
from rollmodel.reports.car import CarReading, RollsOver, read_car
from rollmodel.reports.car_table import limit_words
from rollmodel.units import show

_TRIED = (1.0, 0.5, 0.2)  # g; the first in which the car stays on its wheels


def car_line(car: Car) -> str:
    """A car in three short sentences.

    Examples
    --------
    >>> from rollmodel.sheets import training_car
    >>> car_line(training_car("saloon")).split(". ")[0]
    'It rolls 3.27 deg/g'
    """
    reading = _reading(car)
    if isinstance(reading, RollsOver):
        return str(reading).partition(";")[0][:1].upper() + str(reading).partition(";")[0][1:] + "."
    at = show(reading.lateral_acceleration, "lateral acceleration", decimals=1)
    return (f"It rolls {show(reading.roll_gradient, 'roll gradient')}. The front axle takes "
            f"{show(float(reading.corner.front_share), 'share')} of the load transfer at {at}. "
            f"Limit: {limit_words(reading)}.")


def _reading(car: Car) -> CarReading | RollsOver:
    for lateral_acceleration in _TRIED:
        try:
            return read_car(car, lateral_acceleration * GRAVITY)
        except RollsOver as error:
            found = error
    return found
