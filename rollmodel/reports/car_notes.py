"""What a reader of a car's figures must not miss; the table and the JSON say the same."""

from __future__ import annotations

import math

from rollmodel.reports.car import ENDS, CarReading, EndReading
from rollmodel.reports.tyre_notes import tyre_notes
from rollmodel.units import show

NO_ALLOWABLE = ("Bar stress is that of straight steel at this corner's travel; a kerb reaches further. No "
                "allowable given: ask the bar's maker what it may bear.")
COMPUTED = "Computed, not measured: measure before and after every change. These figures certify nothing."


def car_notes(reading: CarReading, sheet_notes=()) -> list[str]:
    """Every note, the gravest first.

    Parameters
    ----------
    reading : CarReading
    sheet_notes : list of str
        How the sheet was read, where that is not plain; see `rollmodel.sheets.remarks`.
    """
    notes = [] if reading.held else [
        f"The tyres cannot hold {show(reading.lateral_acceleration, 'lateral acceleration')}: the loads "
        "given are what the car would have if they could."]
    for name in ENDS:
        notes += _end_notes(name, reading.end(name))
    notes += [*sheet_notes, *tyre_notes(reading.car)]
    stressed = any(not math.isnan(reading.end(name).bar_shear) for name in ENDS)
    return [*notes, *([NO_ALLOWABLE] if stressed else []), COMPUTED]


def _end_notes(name: str, end: EndReading) -> list[str]:
    if end.loads.lifted:
        return [f"The inside {name} wheel is off the ground: a stiffer bar at this end does nothing more, "
                "the other end takes all further roll."]
    if end.loads.on_stop:
        return [f"The outside {name} wheel is on its bump stop."]
    if end.bump_travel > end.bump_travel_there:
        return [f"The outside {name} wheel needs more bump travel than there is, and the sheet gives no "
                "bump_stop_rate: a real car would meet its stop and load this end sooner."]
    return []
