"""From a day's readings to measured numbers with uncertainties, and from those into a car sheet."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from uncertainties import ufloat

from rollmodel.car import Bar, Car, CarError
from rollmodel.testday.bench import bar_rate, calculated_rate, steel_factor
from rollmodel.testday.faults import DayError
from rollmodel.testday.jacking import motion_ratio
from rollmodel.testday.measured import COVERAGE, Measured
from rollmodel.testday.readings import Readings
from rollmodel.testday.tilt import Raising, cg_height
from rollmodel.testday.weights import CORNERS, corners, from_corners

APART = 0.10  # part of a corner's weight between its readings; a settled car repeats to one (our own figure)
MANY_HOLES = 5  # in one arm; more are rare
_KINDS = {"track": ("long length", "track"), "roll_centre_height": ("length", "roll centre height")}


def measure(readings: Readings, car: Car | None = None) -> list[Measured]:
    """Every number that the readings give.

    Parameters
    ----------
    readings : Readings
    car : Car, optional
        For what needs a sheet: the steel's working moduli from a bar's rate.

    Returns
    -------
    list of Measured

    Raises
    ------
    DayError
        Readings that need others, that tell nothing, or that fit no car; with the file's name.
    """
    try:
        return _all(readings, car)
    except DayError as error:
        raise DayError(error.faults, error.name or readings.name) from None


def _all(readings: Readings, car: Car | None) -> list[Measured]:
    found, pads = [], _pads(readings)
    if pads is not None:
        found += from_corners(pads)
    if readings.of("cg_height"):
        found.append(_height(readings, pads))
    for end in ("front", "rear"):
        for part in ("spring", "damper", "link"):
            found += _ratio(readings, end, part)
        found += _bar(readings, end, car)
        found += _given(readings, end)
    return found


def _pads(readings: Readings):
    table = readings.of("corner_weights")
    if table is None:
        return None
    for corner in CORNERS:
        low, high = min(table[corner]), max(table[corner])
        if high - low > APART * low:
            raise DayError(
                f"[corner_weights] {corner}: readings from {low:.0f} kg to {high:.0f} kg are no repeats of "
                "one weight; look for a slip of the pen, and settle the car before each reading"
            )
    return corners(table, table["scale"])


def _height(readings: Readings, pads) -> Measured:
    table = readings.of("cg_height")
    if pads is None:
        raise DayError("[cg_height] needs the level weights as well: add [corner_weights]")
    down = "rear" if table["raised"] == "front" else "front"
    level = pads[f"{down}_left"] + pads[f"{down}_right"]
    raising = Raising(
        table["raised"],
        tuple(table["lift"]),
        tuple(table["load"]),
        table["wheelbase"],
        (table[f"{down}_wheel_radius"], table[f"{table['raised']}_wheel_radius"]),
        table["tape"],
        table["scale"],
    )
    if max(raising.lift) > 0.5 * raising.wheelbase:
        raise DayError(
            f"[cg_height] lift: wanted at most half the wheelbase, given {1000 * max(raising.lift):.0f} mm"
        )
    found = cg_height(raising, sum(pads.values()), level)
    if not 0.1 < found.value < 1.5:
        raise DayError(
            f"[cg_height] the readings put the centre of gravity at {1000 * found.value:.0f} mm: not "
            f"believable; the load on the {down} pads must rise when the {table['raised']} is raised and "
            "the centre of gravity lies above the hubs"
        )
    return found


def _ratio(readings: Readings, end: str, part: str) -> list[Measured]:
    table = readings.of(f"{end}.{part}")
    if table is None:
        return []
    found = motion_ratio(end, part, table["wheel"], table["part"], table["reading"])
    return [_telling(found, f"[{end}.{part}] part", "move with the wheel's")]


def _telling(one: Measured, where: str, wanted: str) -> Measured:
    """A slope that the readings tell; refused where it is no larger than what it may be off."""
    if one.value > one.uncertainty:
        return one
    raise DayError(
        f"{where}: wanted readings that {wanted}, step by step; these do not, so they tell nothing of the "
        f"{one.words}. Are they in the same order, and was each read?"
    )


def _bar(readings: Readings, end: str, car: Car | None) -> list[Measured]:
    table = readings.of(f"{end}.bar")
    if table is None:
        return []
    where = f"[{end}.bar] deflection"
    if len(set(table["deflection"])) < 2:
        raise DayError(f"{where}: wanted readings that grow with the loads; these are all the same")
    rate = bar_rate(end, table["hole"], table["load"], table["deflection"], table["reading"])
    _telling(rate, where, "grow with the loads")
    bar = None if car is None else car.axle(end).bar
    if bar is None:
        far = f"Hole {table['hole']}: nobody can say without the car's sheet whether there is one."
        return [replace(rate, notes=(*rate.notes, far)) if table["hole"] > MANY_HOLES else rate]
    if not 1 <= table["hole"] <= bar.positions:
        raise DayError(
            f"[{end}.bar] hole: wanted a whole number from 1 to {bar.positions}, given {table['hole']}"
        )
    if bar.rates is not None:
        return [_beside_the_sheet(end, bar, table["hole"], rate)]
    return [rate, *_steel(end, bar, table["hole"], rate)]


def _beside_the_sheet(end: str, bar: Bar, hole: int, rate: Measured) -> Measured:
    """A sheet that gives rates has no steel to fit: the bench's figure goes into it as it is."""
    apart = 100 * (rate.value / calculated_rate(bar, hole) - 1)
    said = (f"The sheet gives this bar's rates and no sizes, so there is no steel to fit. This rate is "
            f"{apart:+.0f} % on the sheet's; to count on it, write it into [{end}.bar] rates, number {hole}.")
    return replace(rate, notes=(*rate.notes, said))


def _steel(end: str, bar: Bar, hole: int, rate: Measured) -> list[Measured]:
    """Working moduli that make the sheet's bar as stiff as the one on the bench."""
    factor = steel_factor(bar, hole, rate.value)
    if not np.isfinite(factor):
        return []
    softer = 100 * (rate.value / calculated_rate(bar, hole) - 1)
    how = f"so that hole {hole} has the rate of the bench, {softer:+.0f} % on the sizes alone"
    relative = rate.uncertainty / rate.value
    return [
        Measured(
            f"{end}.bar.{name}",
            f"{end} bar, working {words}",
            "modulus",
            factor * getattr(bar, name),
            factor * getattr(bar, name) * relative,
            how,
        )
        for name, words in (("shear_modulus", "shear modulus"), ("youngs_modulus", "Young's modulus"))
    ]


def _given(readings: Readings, end: str) -> list[Measured]:
    """What was read off a tape or a drawing, with the uncertainty that came with it."""
    table = readings.of(end) or {}
    return [
        Measured(
            f"{end}.{name}",
            f"{end} {words}",
            kind,
            table[name],
            readings.uncertainty.get(f"{end}.{name}", 0.0),
            "as given",
        )
        for name, (kind, words) in _KINDS.items()
        if name in table
    ]


def with_measured(car: Car, found: list[Measured]) -> Car:
    """The car with the measured numbers in place of the sheet's.

    Parameters
    ----------
    car : Car
    found : list of Measured

    Raises
    ------
    DayError
        A number for a part that the sheet lacks, such as a bar, or that makes a car that cannot be.
    """
    for one in found:
        if one.in_sheet:
            car = _fitted(car, one)
    return car


def _fitted(car: Car, one: Measured) -> Car:
    """The car with one measured number; one that fits no car is refused by its table and field."""
    *table, name = one.name.split(".")
    where = f"[{'.'.join(table)}] " if table else ""
    try:
        return _placed(car, [*table, name], one)
    except CarError as error:
        raise DayError(f"{where}{error}, as measured") from None


def _placed(record, path: list[str], one: Measured):
    first, *rest = path
    if rest and getattr(record, first) is None:
        raise DayError(
            f"{one.words}: the sheet has no [{'.'.join(one.name.split('.')[:-1])}] table to put it in"
        )
    return replace(record, **{first: _placed(getattr(record, first), rest, one) if rest else one.value})


def stated_by(found: list[Measured]) -> dict[str, float]:
    """Uncertainties of what was measured, as `doubts.doubts_of` takes them."""
    return {one.name: one.uncertainty for one in found if one.in_sheet and one.uncertainty > 0}


def as_ufloat(one: Measured):
    """The number for the uncertainties library."""
    return ufloat(one.value, one.uncertainty / COVERAGE, one.name)
