"""The header of a file of runs: each column's quantity and unit, from words like ``speed [km/h]``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rollmodel.sheets.faults import nearest
from rollmodel.units import KINDS, UnitError, parse, quoted

MOST_COLUMNS = 500  # a logger may write hundreds of channels; a file with more is something else

# Name: kind of quantity (None: words or numbers without a unit), other names for it, largest believable size.
QUANTITIES = {
    "time": ("time", ("t", "elapsed time"), "1000000 s"),
    "speed": ("speed", ("v", "velocity"), "360 km/h"),
    "lateral acceleration": ("lateral acceleration", ("ay", "a y", "lateral acc"), "4 g"),
    "accelerometer": ("lateral acceleration", ("lateral accelerometer", "body lateral acceleration"), "4 g"),
    "steer": ("angle", ("steer angle", "road wheel", "road wheel angle"), "60 deg"),
    "steering wheel": ("angle", ("steering wheel angle", "steering angle", "hand wheel"), "1080 deg"),
    "roll": ("angle", ("roll angle", "body roll", "body roll angle"), "30 deg"),
    "run": (None, ("run number", "repetition", "repeat"), ""),
    "direction": (None, ("turn", "way round", "side"), ""),
}
_NAMES = {name: known for known, (_, others, _) in QUANTITIES.items() for name in (known, *others)}
_HEAD = re.compile(r"([^\[\](){}]*)(?:[\[(]([^\[\](){}]*)[\])])?\s*", re.DOTALL)


@dataclass(frozen=True)
class Column:
    """One column that is read."""

    place: int  # counted from 0
    name: str  # a key of QUANTITIES
    unit: str  # as the header writes it
    factor: float  # from the header's unit to SI

    @property
    def kind(self) -> str | None:
        """Kind of quantity, a key of ``units.KINDS``; None for run and direction."""
        return QUANTITIES[self.name][0]

    @property
    def largest(self) -> float:
        """The largest believable size of a value, [SI]."""
        return parse(QUANTITIES[self.name][2], self.kind)


def columns_of(cells: list[str]) -> tuple[list[Column], list[str], list[str]]:
    """The columns that a header names, the names it has no use for, and what is wrong with it.

    Parameters
    ----------
    cells : list of str
        The header line, cell by cell.

    Returns
    -------
    columns : list of Column
    unused : list of str
        Columns of other quantities, as the header writes them.
    faults : list of str
        One line for each fault.

    Examples
    --------
    >>> columns_of(["time [s]", "speed [km/h]"])[0][1].factor
    0.2777777777777778
    """
    found, unused, faults = [], [], []
    for place, cell in enumerate(cells):
        name, unit = _name_and_unit(cell)
        known = _NAMES.get(name)
        if known is None:
            if name:
                unused.append(cell.strip())
            continue
        try:
            found.append(Column(place, known, unit, _factor(known, unit, cell)))
        except ValueError as fault:
            faults.append(str(fault))
    return found, unused, faults + _twice(found)


def meant(unused: list[str]) -> str:
    """The unused column that probably is a misspelt one, as a hint; empty where there is none."""
    for cell in unused:
        near = nearest(_name_and_unit(cell)[0], [name.replace(" ", "_") for name in QUANTITIES])
        if near:
            return f'; column {quoted(cell)} was meant for "{near.replace("_", " ")}"?'
    return ""


def _name_and_unit(cell: str) -> tuple[str, str]:
    """A header cell as a known kind of name and its unit, ``("speed", "km/h")``."""
    taken = _HEAD.fullmatch(cell.strip().strip('"'))
    if not taken:
        return cell.strip().lower(), ""
    return re.sub(r"[\s_-]+", " ", taken[1]).strip().lower(), (taken[2] or "").strip()


def _factor(name: str, unit: str, cell: str) -> float:
    """What one such unit is in SI, or the reason why the header cannot be used."""
    kind = QUANTITIES[name][0]
    if kind is None:
        return 1.0
    usual = KINDS[kind].usual[0]
    if not unit:
        raise ValueError(
            f'column {quoted(cell)}: no unit; write the unit into the header, "{name} [{usual}]"'
        )
    try:
        return parse(f"1 {unit}", kind)
    except UnitError as error:
        raise ValueError(f"column {quoted(cell)}: {error.mend}") from None


def _twice(found: list[Column]) -> list[str]:
    names = [column.name for column in found]
    return [
        f"{name}: the header names it {names.count(name)} times"
        f" ({', '.join(f'[{c.unit}]' for c in found if c.name == name)}); keep one column"
        for name in dict.fromkeys(names)
        if names.count(name) > 1
    ]
