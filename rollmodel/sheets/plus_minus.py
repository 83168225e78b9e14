"""A value with how well it is known: ``"470 mm ± 20 mm"``, ``"470 ± 20 mm"``, ``"52 % +/- 0.5 %"``.

What stands behind the sign is the half-width of an interval that holds the true figure about 19 times in 20,
twice the standard uncertainty.
"""

from __future__ import annotations

import re

from rollmodel.sheets.schema import Field
from rollmodel.typed import numbered
from rollmodel.units import KINDS, UnitError, parse, quoted

_SIGN = re.compile(r"\s*(?:±|\+/-|\+-)\s*")


def apart(field: Field, value):
    """A value as typed without its uncertainty, and that uncertainty.

    Parameters
    ----------
    field : Field
    value
        As TOML gave it; a list has one uncertainty, the largest of its items'.

    Returns
    -------
    value
        As it would be typed without an uncertainty.
    uncertainty : float or None
        [SI]; None where there is no such sign.

    Raises
    ------
    UnitError
        In the words that the person reads.
    """
    if isinstance(value, list):
        pairs = [apart(field, item) for item in value]
        known = [spread for _, spread in pairs if spread is not None]
        return [item for item, _ in pairs], max(known) if known else None
    if not isinstance(value, str) or field.kind not in KINDS or not _SIGN.search(value):
        return value, None
    number, *spreads = _SIGN.split(value)
    if len(spreads) != 1 or not numbered(number) or not numbered(spreads[0]):
        raise UnitError(f'wanted one number on each side of the sign, such as "{_example(field)}", '
                        f"given {quoted(value)}")
    number, spread = _with_units(number, spreads[0])
    return number, _positive(parse(spread, field.kind), field, value)


def fits(field: Field, value, uncertainty: float, typed) -> float:
    """The uncertainty, when the value still says something with it.

    Parameters
    ----------
    field : Field
    value : float or tuple of float
        As read, [SI].
    uncertainty : float
        [SI].
    typed
        As TOML gave both.

    Raises
    ------
    UnitError
        The interval reaches zero where nothing near zero is believable, or is wider than all that is.
    """
    low, high = field.range
    smallest = min(value) if isinstance(value, tuple) else value
    if low > 0 and uncertainty >= smallest:
        raise UnitError(f"wanted an uncertainty below the value itself, {_given(typed)}; it is the part that "
                        "may be wrong, not the value")
    if 2 * uncertainty > high - low:
        raise UnitError(f"wanted a believable uncertainty, {_given(typed)}; nothing would be known with it, "
                        "so leave it out")
    return uncertainty


def _given(typed) -> str:
    return f"given {quoted(', '.join(map(str, typed)) if isinstance(typed, list) else typed)}"


def _with_units(number: str, spread: str) -> tuple[str, str]:
    """Both with a unit where one of them has one."""
    units = [numbered(text)[2].strip() for text in (number, spread)]
    if units[0] and not units[1]:
        return number, f"{spread} {units[0]}"
    return (number if units[0] or not units[1] else f"{number} {units[1]}"), spread


def _positive(uncertainty: float, field: Field, value: str) -> float:
    if not uncertainty > 0:
        raise UnitError(f'wanted an uncertainty above zero, as in "{_example(field)}", given {quoted(value)}')
    return uncertainty


def _example(field: Field) -> str:
    """A value of this kind with an uncertainty of a fiftieth of it."""
    number, unit = numbered(KINDS[field.kind].examples[0]).groups()
    return f"{number} ± {abs(float(number)) / 50:.2g} {unit}".strip()
