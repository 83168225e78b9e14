"""What a reader of a car's figures must not miss; the table and the JSON say the same."""

from __future__ import annotations

import math

from rollmodel.reports.car import ENDS, CarReading, EndReading
from rollmodel.reports.tyre_notes import tyre_notes
from rollmodel.units import show

NO_ALLOWABLE = ("Bar stress is that of straight steel at this corner's travel; a kerb reaches further. No "
                "allowable given: ask the bar's maker what it may bear.")
_JUMP = math.radians(0.5)  # a roll that a person sees jump
COMPUTED = "Computed, not measured: measure before and after every change. These figures certify nothing."


def car_notes(reading: CarReading, sheet_notes=(), family: str = "metric") -> list[str]:
    """Every note, the gravest first.

    Parameters
    ----------
    reading : CarReading
    sheet_notes : list of str
        How the sheet was read, where that is not plain; see `rollmodel.sheets.remarks`.
    family : str
        One of ``units.FAMILIES``.
    """
    notes = [] if reading.held else [
        f"The tyres cannot hold {show(reading.lateral_acceleration, 'lateral acceleration')}: the loads "
        "given are what the car would have if they could."]
    notes += _inward(reading)
    for name in ENDS:
        notes += _end_notes(name, reading.end(name))
    outside = {name: reading.end(name).loads.outside for name in ENDS}
    notes += [*sheet_notes, *tyre_notes(reading.car, outside, family)]
    stressed = any(not math.isnan(reading.end(name).bar_shear) for name in ENDS)
    return [*notes, *([NO_ALLOWABLE] if stressed else []), COMPUTED]


def _inward(reading: CarReading):
    """A sprung mass below the roll axis: what a bar does then."""
    if reading.roll_gradient < 0:
        yield (f"The body leans into the corner ({show(reading.roll_gradient, 'roll gradient')}): the sprung "
               "mass lies below the roll axis. A stiffer bar then takes load transfer from its own end. "
               "Hardly any car is built so: check cg_height and both roll_centre_height.")


def _end_notes(name: str, end: EndReading):
    if end.loads.lifted:
        yield (f"The inside {name} wheel is off the ground: a stiffer bar at this end does nothing more, "
               "the other end takes all further roll.")
    if end.loads.outside_lifted:
        yield f"The outside {name} wheel is off the ground: the body leans inward and lifts it."
    if end.roll_after_lift - end.roll_before_lift > _JUMP:
        before, after = (show(roll, "angle") for roll in (end.roll_before_lift, end.roll_after_lift))
        yield (f"At {show(end.lift, 'lateral acceleration')}, where the inside {name} wheel lifts, the roll "
               f"jumps from {before} to {after}: the other end can hardly hold the body alone.")
    side = "inside" if end.loads.leans_inward else "outside"
    if end.loads.on_stop:
        yield f"The {side} {name} wheel is on its bump stop."
    elif end.most_bump > end.bump_travel_there:
        yield (f"The {side} {name} wheel needs more bump travel than there is, and the sheet gives no "
               "bump_stop_rate: a real car would meet its stop and load this end sooner.")
