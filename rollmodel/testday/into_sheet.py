"""Measured numbers written into the text of a car sheet, its remarks and order kept."""

from __future__ import annotations

from decimal import Decimal
from math import floor, log10

import tomlkit

from rollmodel.sheets import read_text
from rollmodel.testday.measured import Measured
from rollmodel.units import label, to_display


def written(value: float, uncertainty: float, kind: str, family: str = "metric") -> str:
    """A number with its uncertainty as the sheet has it, the uncertainty to two digits.

    Parameters
    ----------
    value, uncertainty : float
        [SI]; an uncertainty of nil is left out.
    kind : str
        A key of ``units.KINDS``.
    family : str, optional

    Examples
    --------
    >>> written(0.4712, 0.0183, "length"), written(0.70234, 0.0051, "ratio")
    ('471 mm ± 18 mm', '0.7023 ± 0.0051')
    """
    unit = label(kind, family).replace("·", "*").replace("²", "^2")
    shown, spread = (to_display(float(number), kind, family) for number in (value, uncertainty))
    if not spread > 0:
        return f"{shown:.7g} {unit}".strip()
    places = max(0, 1 - floor(log10(spread)))
    return " ± ".join(f"{Decimal(repr(number)):.{places}f} {unit}".strip() for number in (shown, spread))


def _as_typed(one: Measured, family: str) -> str | list[str]:
    if not isinstance(one.value, tuple):
        return written(one.value, one.uncertainty, one.kind, family)
    pairs = zip(one.value, one.uncertainty, strict=True)
    return [written(value, spread, one.kind, family) for value, spread in pairs]


def sheet_with(text: str, found: list[Measured], family: str = "metric") -> str:
    """The text of a sheet with measured numbers put in, everything else as it was.

    Parameters
    ----------
    text : str
        Of a sheet that can be read.
    found : list of Measured
        Those that are not fields of a sheet are passed over.
    family : str, optional
        Units of the numbers put in.

    Raises
    ------
    SheetError
        What comes out could not be read.
    """
    document = tomlkit.parse(text)
    for one in found:
        if one.in_sheet:
            *path, name = one.name.split(".")
            table = document
            for part in path:
                table = table[part]
            item = tomlkit.item(_as_typed(one, family))
            item.comment(f"{one.by}: {one.how}")
            table[name] = item
    new = tomlkit.dumps(document)
    read_text(new)
    return new
