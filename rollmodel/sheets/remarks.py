"""What may be said of a sheet as it was typed: its family of units, and readings that are not plain."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rollmodel.sheets.build import measured_from_edge
from rollmodel.sheets.schema import TABLES
from rollmodel.sheets.tables import Table, read_table
from rollmodel.units import FAMILIES, KINDS, family_of

UPSIDE_DOWN = 1.05  # a motion ratio above this is asked about


@dataclass(frozen=True)
class Remarks:
    """A sheet as it was typed."""

    family: str  # "US customary" where every value that could be metric is not, else "metric"
    notes: tuple[str, ...]


def remarks(values: dict) -> Remarks:
    """The family of units and the notes on a sheet that reads without a fault.

    Parameters
    ----------
    values : dict
        As a TOML reader returns them.

    Examples
    --------
    >>> remarks({"mass": "2844 lb", "wheelbase": "97.6 in", "front_weight_share": "52 %"}).family
    'US customary'
    >>> remarks({"mass": "2844 lb", "wheelbase": "2.48 m"}).family
    'metric'
    >>> remarks({"mass": "2844 lb", "tyre": {"grip_drop_per_kN": 0.03}}).family
    'US customary'
    """
    tables = list(_every(read_table(values, [])))
    families = {family_of(text) for table in tables for text in _telling(table)}
    return Remarks(FAMILIES[1] if families == {FAMILIES[1]} else FAMILIES[0],
                   tuple(note for table in tables
                         for notes in _NOTES for note in notes(table)))


def _every(table: Table):
    yield table
    for part in table.tables.values():
        yield from _every(part)


def _telling(table: Table):
    """Typed values whose unit differs between the families; a bare number has none."""
    for field in TABLES[table.key]:
        kind, typed = KINDS.get(field.kind), table.typed.get(field.name)
        if kind and typed is not None and kind.metric.label != kind.us.label:
            items = typed if isinstance(typed, list) else [typed]
            yield from (item for item in items if isinstance(item, str))


def _blade_note(table: Table):
    """A falling list of blade angles is read as from on edge, where the sheet does not say."""
    angles = table.si.get("angles", ())
    if table.si.get("angle_from") is None and measured_from_edge(angles, None):
        first, last = (f"{math.degrees(angle):g} deg" for angle in (angles[0], angles[-1]))
        yield (f"[{table.path}] angles fall from {first} to {last}: read as counted from on edge, so "
               f"position 1 ({first}) is the softest. If they count from flat, turn the list round and count "
               "hole anew.")


def _ratio_note(table: Table):
    """A part that moves further than its wheel is rare; a ratio upside down is not, and counts twice."""
    for name in ("spring_motion_ratio", "link_motion_ratio", "motion_ratio"):
        ratio = table.si.get(name)
        if isinstance(ratio, float) and ratio > UPSIDE_DOWN:
            yield (f"[{table.path}] {name} is {ratio:g}: the part moves further than its wheel, which is "
                   f"rare. If the figure is wheel travel over the part's, {1 / ratio:.3g} is meant.")


def _rates_note(table: Table):
    """Which of a bar's two rates the sheet is taken to give, and what cannot be said with rates alone."""
    if table.key == "bar" and "rates" in table.si:
        yield (f"[{table.path}] rates are taken at the link, square to the arm, with the other link held: in "
               "roll each link feels twice as much. A table for both ends moving shows that double; halve it "
               "first. Without sizes nothing can be said of this bar's stress.")


_NOTES = (_blade_note, _ratio_note, _rates_note)
