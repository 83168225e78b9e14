"""Numbers as people type them into a box: a unit once behind a list, or none at all."""

from __future__ import annotations

import re

from rollmodel.typed import NUMBER, joined
from rollmodel.units import KINDS, label

_BARE = re.compile(r"\s*[+-]?\s*(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*", re.IGNORECASE)


def with_unit(text: str, kind: str, family: str = "metric") -> str:
    """A text that is a bare number gets the unit shown in a family; any other stays as it is.

    Examples
    --------
    >>> with_unit("336", "mass"), with_unit("0.70", "ratio"), with_unit("13 in", "length")
    ('336 kg', '0.70', '13 in')
    """
    if kind not in KINDS or not _BARE.fullmatch(joined(text)):
        return text
    unit = label(kind, family).replace("·", "*")
    return f"{text.strip()} {unit}".strip()


def apart(text: str) -> list[str]:
    """The values of a list as typed, each with the unit that stands behind the last.

    Commas or semicolons part them; with semicolons a comma is a decimal comma.

    Examples
    --------
    >>> apart("336, 335, 336 kg"), apart("21,3; 14,2 mm"), apart("336 kg, 741 lb")
    (['336 kg', '335 kg', '336 kg'], ['21.3 mm', '14.2 mm'], ['336 kg', '741 lb'])
    """
    parts = [part.strip() for part in text.split(";" if ";" in text else ",")]
    parts = [part.replace(",", ".") if ";" in text else part for part in parts if part]
    unit = _unit_of(parts[-1]) if parts else ""
    return [f"{part} {unit}".strip() if _BARE.fullmatch(joined(part)) else part for part in parts]


def _unit_of(text: str) -> str:
    found = NUMBER.match(joined(text))
    return joined(text)[found.end(1) :].strip() if found else ""
