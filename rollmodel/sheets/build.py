"""From the tables of a sheet to the car records."""

from __future__ import annotations

import math
from itertools import pairwise

from rollmodel.car import GRAVITY, Axle, Bar, Blade, Car, CarError, Damper, Tyre
from rollmodel.physics.bar import link_rates_in_roll
from rollmodel.physics.roll import roll_moment_arm, stands_up
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.sheets import checks
from rollmodel.sheets.faults import SheetError
from rollmodel.sheets.schema import TABLES
from rollmodel.sheets.tables import Table, read_table
from rollmodel.units import family_of, show

_TOLD_APART = 1 + 1e-6
_NOT_IN_RECORDS = ("note", "angle_from", "lever")


def from_values(values: dict, name: str = "") -> Car:
    """A car from the tables of a sheet, as text with units.

    Parameters
    ----------
    values : dict
        As a TOML reader returns them.
    name : str
        What to call the sheet in messages.

    Raises
    ------
    SheetError
        With every fault found.
    """
    if "corner_weights" in values and not {"mass", "tyre"} & values.keys():
        raise SheetError("this is a file of readings; wanted a car sheet, with mass, [tyre], [front] and "
                         "[rear]. rollmodel measure READINGS --sheet SHEET reads both", name)
    faults: list[str] = []
    top = read_table(values, faults)
    faults += checks.faults(top)
    if faults:
        raise SheetError(faults, name)
    car = _car(top, name)
    family = family_of(top.typed["mass"])
    faults = list(_holes_out_of_order(car, family))
    if fault := does_not_stand(car, family):
        faults.append(fault)
    if faults:
        raise SheetError(faults, name)
    return car


def _holes_out_of_order(car: Car, family: str):
    """Bars of which a position called stiffer is not: holes of an oddly swept arm, or a square blade."""
    for end in ("front", "rear"):
        bar = car.axle(end).bar
        rates = [] if bar is None or bar.rates is not None else link_rates_in_roll(bar).tolist()
        if all(after > before * _TOLD_APART for before, after in pairwise(rates)):
            continue
        shown = ", ".join(show(rate, "rate", family) for rate in rates)
        if bar.blade:
            yield (f"[{end}.bar.blade] angles: wanted each stiffer than the one before, given angles that "
                   f"make {shown} at the link; a square blade is as stiff at every angle: give one, or "
                   "check width and thickness")
        else:
            yield (f"[{end}.bar] arm_length: wanted each hole stiffer than the one before, given holes that "
                   f"make {shown} at the link; holes of one arm lie along it: check arm_length against "
                   "holes, arm_sweep and support_spacing")


def uncertainties(values: dict, name: str = "") -> dict[str, float]:
    """How well each value of a sheet is known, where the sheet says.

    Parameters
    ----------
    values : dict
        As a TOML reader returns them.
    name : str
        What to call the sheet in messages.

    Returns
    -------
    dict of str to float
        ``"front.bar.outer_diameter"`` to what stands behind its plus-or-minus sign, [SI].

    Raises
    ------
    SheetError
        With every fault found.
    """
    faults: list[str] = []
    top = read_table(values, faults)
    if faults:
        raise SheetError(faults, name)
    return dict(_uncertainties(top))


def _uncertainties(table: Table):
    start = f"{table.path}." if table.path else ""
    yield from ((start + field, spread) for field, spread in table.uncertainty.items())
    for part in table.tables.values():
        yield from _uncertainties(part)


def _car(top: Table, name: str) -> Car:
    try:
        return Car(**{"title": name or "car", **_own(top), "note": top.si.get("note", "")},
                   tyre=Tyre(**_own(top.tables["tyre"])),
                   front=_axle(top.tables["front"]), rear=_axle(top.tables["rear"]))
    except CarError as error:  # the checks above say it better; this is for whatever they do not cover
        raise SheetError(error.faults, name) from None


def _own(table: Table) -> dict:
    """The table's values under the names that its record uses."""
    return {one.target: table.si[one.name] for one in TABLES[table.key]
            if one.name in table.si and one.name not in _NOT_IN_RECORDS}


def _axle(table: Table) -> Axle:
    damper, bar = table.tables.get("damper"), table.tables.get("bar")
    try:
        return Axle(**_own(table), damper=None if damper is None else Damper(**_own(damper)),
                    bar=None if bar is None else _bar(bar))
    except CarError as error:
        raise CarError([f"[{table.path}] {fault}" for fault in error.faults]) from None


def _bar(table: Table) -> Bar:
    own = _own(table)
    if table.has("rates"):
        return Bar(None, None, **own)
    if "arm_lengths" in own:
        own["arm_lengths"] = _arm_lengths(own["arm_lengths"], own["holes"])
    if "blade" in table.tables:
        own["blade"] = _blade(table.tables["blade"])
        if table.tables["blade"].has("lever"):
            own["holes"] = (table.tables["blade"].si["lever"],)
    return Bar(**own)


def _arm_lengths(given, holes):
    """One length belongs to the first hole; the others lie along the same swept arm."""
    if isinstance(given, tuple):
        return given
    return tuple(given * hole / holes[0] for hole in holes)


def _blade(table: Table) -> Blade:
    own = _own(table)
    angles = own["angles"]
    if measured_from_edge(angles, table.si.get("angle_from")):
        angles = tuple(math.pi / 2 - angle for angle in angles)
    own["angles"] = tuple(min(max(angle, 0.0), math.pi / 2) for angle in angles)  # rounding at the ends
    return Blade(**own)


def measured_from_edge(angles, angle_from: str | None) -> bool:
    """Whether angles count from on edge: where the sheet says so, or where the list falls.

    The softest comes first, so a falling list leaves no other reading.
    """
    if angle_from is None:
        return len(angles) > 1 and angles[0] > angles[-1]
    return angle_from == "on edge"


def does_not_stand(car: Car, family: str = "metric") -> str:
    """Why a car does not stand up, with figures; empty when it does."""
    front, rear = axle_stiffness(car.front), axle_stiffness(car.rear)
    if stands_up(car, front, rear):
        return ""
    holds = show(float(front.total_roll + rear.total_roll), "roll stiffness", family)
    tips = show(car.sprung_mass * GRAVITY * roll_moment_arm(car), "roll stiffness", family)
    if front.total_roll + rear.total_roll > car.sprung_mass * GRAVITY * roll_moment_arm(car):
        return ("the car does not stand up: one end cannot hold its own share and the chassis twists too "
                f"easily for the other to help; check chassis_torsion "
                f"({show(car.chassis_torsion, 'roll stiffness', family)}) and the softer end")
    return (f"the car does not stand up: springs, bars and tyres hold it with {holds} of roll, gravity tips "
            f"it with {tips}; check spring_rate, spring_motion_ratio, track and cg_height")
