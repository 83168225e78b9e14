"""What the records check about their numbers, and the one error that holds every fault."""

from __future__ import annotations

import math
from numbers import Real


class CarError(ValueError):
    """A car that cannot be used; ``faults`` holds one message per fault."""

    def __init__(self, faults):
        self.faults = [faults] if isinstance(faults, str) else list(faults)
        super().__init__("\n".join(self.faults))


def is_finite(value) -> bool:
    """Whether a value is a number at all, and a finite one."""
    return isinstance(value, Real) and not isinstance(value, bool) and math.isfinite(value)


def is_whole(value, low: int, high: int) -> bool:
    """Whether a value is a whole number within bounds, both included."""
    return is_finite(value) and value == int(value) and low <= value <= high


def positive(record, *names, optional=()):
    """One message for each named number that is not finite and above zero; optional ones may be None."""
    for name in (*names, *optional):
        value = getattr(record, name)
        if not (is_finite(value) and value > 0) and not (value is None and name in optional):
            yield f"{name}: wanted a finite number above zero, given {value!r}"


def finite(record, *names, optional=()):
    """One message for each named number that is not finite; optional ones may be None."""
    for name in (*names, *optional):
        value = getattr(record, name)
        if not is_finite(value) and not (value is None and name in optional):
            yield f"{name}: wanted a finite number, given {value!r}"


def within_angle(record, name: str, degrees: float):
    """One message for an angle beyond so many degrees either way."""
    value, most = getattr(record, name), math.radians(degrees)
    if not (is_finite(value) and abs(value) <= most):
        yield f"{name}: wanted an angle in rad within {degrees:g} deg ({most:.2f} rad), given {value!r}"


def one_of(record, name, words):
    """One message for a value that is none of the words."""
    if (value := getattr(record, name)) not in words:
        yield f"{name}: wanted one of {', '.join(map(repr, words))}, given {value!r}"


def numbers(record, name):
    """The named numbers made a tuple, arrays too; one message where they are none."""
    value = getattr(record, name)
    try:
        object.__setattr__(record, name, tuple(value))
    except TypeError:
        yield f"{name}: wanted a list of numbers, given {value!r}"
        return
    if not all(map(is_finite, getattr(record, name))):
        yield f"{name}: wanted finite numbers, given {value!r}"


def refuse(faults) -> None:
    """Raise the faults together, where there are any."""
    if faults := list(faults):
        raise CarError(faults)
