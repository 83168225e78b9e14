"""Numbers rounded as they are shown, so that sums and differences on one page add up to the last digit."""

from __future__ import annotations

from math import floor

from rollmodel.units import KINDS, from_display, label, show, to_display


def as_shown(value: float, kind: str, family: str = "metric", more: int = 0) -> float:
    """A number rounded to what `units.show` prints of it, half upwards, [SI].

    Parameters
    ----------
    value : float
        [SI].
    kind : str
        A key of `units.KINDS`.
    family : str, optional
        One of `units.FAMILIES`.
    more : int, optional
        Digits more than are shown.

    Examples
    --------
    >>> round(as_shown(1345.6, "load"), 9), round(as_shown(31849.0, "rate"), 9), as_shown(1943.5, "load")
    (1346.0, 31800.0, 1944.0)
    """
    places = KINDS[kind].unit(family).decimals + more
    shown = to_display(float(value), kind, family)
    return from_display(round(shown + 1e-9, places), kind, family)  # a half that is stored a hair low goes up


def change_as_shown(before: float, after: float, kind: str, family: str = "metric", more: int = 0) -> float:
    """After less before as the two print it; up to one in the last digit off the change itself, [SI]."""
    return as_shown(after, kind, family, more) - as_shown(before, kind, family, more)


def more_digits(first: float, second: float, kind: str, family: str = "metric") -> int:
    """Digits more than are shown that two numbers need, so that their gap is not lost in the rounding.

    1 where the gap is smaller than the last digit shown and still has a figure in the next one, else 0.

    Examples
    --------
    >>> [more_digits(first, 0.9024, "ratio") for first in (0.9016, 0.9044, 0.90241)]
    [1, 0, 0]
    """
    step = 10.0 ** -KINDS[kind].unit(family).decimals
    gap = abs(to_display(float(second) - float(first), kind, family))
    return int(0.05 * step <= gap < step * (1 - 1e-9))


def shown_apart(first: float, second: float, kind: str, family: str = "metric") -> tuple[str, str, str]:
    """Two numbers and the gap between them as text, all to the digit of the gap, so that they add up.

    Examples
    --------
    >>> shown_apart(0.9024, 0.9016, "ratio"), shown_apart(0.9024, 0.9044, "ratio")[2]
    (('0.9024', '0.9016', '0.0008'), '0.002')
    >>> shown_apart(0.9024, 0.90241, "ratio")
    ('0.902', '0.902', 'less than 0.0001')
    """
    more = more_digits(first, second, kind, family)
    places = KINDS[kind].unit(family).decimals + more
    gap = abs(change_as_shown(first, second, kind, family, more))
    numbers = (as_shown(one, kind, family, more) for one in (first, second))
    told = show(gap, kind, family, places)
    if first != second and float(told.split()[0]) == 0:
        told = f"less than {10.0 ** -(places + 1):.{places + 1}f} {label(kind, family)}".rstrip()
    return *(show(one, kind, family, places) for one in numbers), told


def parts_as_shown(parts, kind: str, family: str = "metric") -> tuple[float, ...]:
    """Parts of a whole, rounded so that as printed they add up to the whole as printed, [SI].

    Each is rounded down, and the units that are then missing go to the parts cut most (largest remainder).

    Examples
    --------
    >>> [round(part) for part in parts_as_shown((534.45, 62.4, 50.4), "load")]
    [535, 62, 50]
    """
    step = from_display(10.0 ** -KINDS[kind].unit(family).decimals, kind, family)
    low = [floor(float(part) / step + 1e-9) for part in parts]
    whole = round(as_shown(sum(map(float, parts)), kind, family) / step)
    cut = sorted(range(len(low)), key=lambda n: low[n] - float(parts[n]) / step)
    more = set(cut[: whole - sum(low)])
    return tuple(step * (units + (n in more)) for n, units in enumerate(low))


def wheel_loads(inside: float, outside: float, family: str = "metric") -> tuple[float, float, float]:
    """Inside wheel, outside wheel and what moved between them, rounded so that they add up, [N].

    The axle's load is the same before and after any change of bar, so it is rounded first; what the
    inside wheel loses is then what the outside wheel gains, to the digit.

    Examples
    --------
    >>> wheel_loads(1345.6, 5233.2), wheel_loads(1161.6, 5417.2)
    ((1346.0, 5233.0, 1944.0), (1162.0, 5417.0, 2128.0))
    """
    whole, low = (as_shown(value, "load", family) for value in (inside + outside, inside))
    return low, whole - low, _half_up((whole - 2 * low) / 2, family)


def _half_up(load: float, family: str) -> float:
    """Rounded with halves upwards always, so that two of them differ by as much as their wheels do."""
    shown = to_display(load, "load", family)
    return from_display(float(int(shown + 0.5 + 1e-9)), "load", family)
