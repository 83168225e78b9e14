"""Units at the edge: text with a unit to plain SI numbers and back, in one of two display families.

The only file that imports pint, and only when a unit is first met. Inside the package every
number is SI: m, kg, N, N/m, rad, N*m/rad, m/s^2. A unit string is never evaluated: it is held to
a length and a set of characters first, and its exponents to one digit.

Angle rule: N*m, J and N*m/rad all have the same base units in SI, so an angle is given a
dimension of its own here. A roll stiffness without "per degree" or "per radian" is refused.
"""

from __future__ import annotations

import math
import re
from difflib import get_close_matches
from functools import lru_cache

from rollmodel import typed
from rollmodel.kinds import FAMILIES, KINDS, Kind, OtherKind, Unit, UnitError
from rollmodel.typed import LONGEST, as_given, family_of, is_number, numbered, quoted, refuse, split

__all__ = ["FAMILIES", "KINDS", "Kind", "OtherKind", "Unit", "UnitError", "as_given", "example", "family_of",
           "from_display", "label", "parse", "quoted", "show", "to_display", "within"]

_ANGLES = {**dict.fromkeys(("deg", "degree", "degrees", "°"), "angular_degree"),
           **dict.fromkeys(("rad", "radian", "radians"), "angular_radian"), "mrad": "angular_milliradian"}
_ALIASES = {**_ANGLES, "Nm": "N*m", "kNm": "kN*m", "Ns": "N*s", "lbm": "lb", "lbsf": "lbf", "percent": "%"}
_GRAVITY_NAMES = dict.fromkeys(("g", "G"), "standard_gravity")
_WITH_GRAVITY = ("lateral acceleration", "roll gradient", "understeer gradient")
_SLIPS = {"lb": "lbf", "lbs": "lbf", "kg": "kgf", "lbf": "lb", "kgf": "kg"}  # same figure, other unit

_WORD = re.compile(r"\b(?:[A-Z][a-z]{3,}|[A-Z]{5,})\b")  # long enough to be no symbol
_NAME = re.compile(r"[A-Za-zµ°%][A-Za-z_]*")
_UNIT = re.compile(r"(?:1?\s*/\s*)?[A-Za-zµ°%(](?:[A-Za-zµ°%_*/()^ ]|(?<=\^)-?\d(?!\d))*")
_TOWER = re.compile(r"\^\s*-?\s*\d[\s)]*\^")  # a power of a power; m^9^9^9 would never end


@lru_cache(maxsize=1)
def _registry():
    from pint import UnitRegistry
    registry = UnitRegistry()
    registry.define("angular_radian = [turned_angle]")
    registry.define("angular_degree = pi / 180 * angular_radian")
    registry.define("angular_milliradian = 0.001 * angular_radian")
    return registry


def _named(unit: str, kind: str) -> str:
    """Each name in the unit as the registry knows it; g is gravity where an acceleration is wanted."""
    names = {**_ALIASES, **(_GRAVITY_NAMES if kind in _WITH_GRAVITY else {})}
    unit = _WORD.sub(_small, re.sub(r"^1?\s*/", "1/", unit))
    return _NAME.sub(lambda found: f"({names[found[0]]})" if found[0] in names else found[0], unit)


def _small(found) -> str:
    """A word such as Newton or DEGREES, when it is a unit only in small letters."""
    small = found[0].lower()
    return small if found[0] not in _registry() and (small in _ANGLES or small in _registry()) else found[0]


@lru_cache(maxsize=512)
def _factor(unit: str, kind: str) -> tuple[float, str]:
    """SI value of one such unit, and its dimension as text. Raises KeyError when it is no unit."""
    unit = typed.normal(unit)
    if not unit:
        return 1.0, ""
    if not _UNIT.fullmatch(unit) or _TOWER.search(unit):
        raise KeyError(unit)
    registry = _registry()  # outside the net below: a library that is missing is not a unit that is wrong
    try:
        quantity = registry.Quantity(1.0, registry.parse_units(_named(unit, kind))).to_base_units()
    except Exception as error:  # pint raises many types, AssertionError among them, on a malformed unit
        raise KeyError(unit) from error
    dimension = sorted(f"{name} {power:g}" for name, power in quantity.dimensionality.items())
    return float(quantity.magnitude), ", ".join(dimension)


def _dimension(unit: str, kind: str) -> str | None:
    try:
        return _factor(unit, kind)[1]
    except KeyError:
        return None


def label(kind: str, family: str = "metric") -> str:
    """The unit in which a kind is shown: ``label("rate")`` is ``"N/mm"``; empty for a ratio."""
    return KINDS[kind].unit(family).label


def example(kind: str, family: str = "metric") -> str:
    """A value as somebody of that family writes it; what both show in one unit has one example.

    >>> example("rate", "US customary"), example("angle", "US customary")
    ('371 lbf/in', '-2.0 deg')
    """
    known = KINDS[kind]
    return known.examples[0 if known.metric == known.us else FAMILIES.index(family)]


def _display_factor(kind: str, family: str) -> float:
    return 0.01 if kind == "share" else _factor(label(kind, family), kind)[0]


def to_display(value, kind: str, family: str = "metric"):
    """A number or array from SI to the unit shown in a family.

    Examples
    --------
    >>> round(to_display(65e3, "rate", "US customary"), 1)
    371.2
    """
    return value / _display_factor(kind, family)


def from_display(value, kind: str, family: str = "metric"):
    """A number or array from the unit shown in a family to SI."""
    return value * _display_factor(kind, family)


def show(value, kind: str, family: str = "metric", decimals: int | None = None) -> str:
    """A number in SI as text with its unit, rounded as suits its kind; "none" when there is no figure.

    Examples
    --------
    >>> show(31850.0, "rate"), show(0.47, "length"), show(0.52, "share")
    ('31.9 N/mm', '470 mm', '52.0 %')
    """
    if value is None or not math.isfinite(value):
        return "none"
    unit = KINDS[kind].unit(family)
    places = unit.decimals if decimals is None else decimals
    rounded = round(to_display(float(value), kind, family), places) + 0.0  # + 0.0: no "-0.0"
    text = f"{rounded:.{places}f}"
    if KINDS[kind].trim and "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"{text} {unit.label}".rstrip()


def parse(text, kind: str) -> float:
    """Text with its unit to SI.

    Parameters
    ----------
    text : str, or a number for a ratio
        For example ``"65 N/mm"``, ``"52 %"``, ``"0.6g"``. ``g`` after a lateral acceleration is
        standard gravity. ``lbf-ft``, ``lbf*ft`` and ``lbf ft`` are one.
    kind : str
        A key of ``KINDS``.

    Returns
    -------
    float
        [SI].

    Raises
    ------
    UnitError
        A bare number where a unit belongs, a unit of another dimension, no unit at all known by
        that name, a number that is not finite, a decimal comma, a fraction.

    Examples
    --------
    >>> round(parse("371 lbf/in", "rate"))
    64972
    >>> parse("65 lb/in", "rate")
    Traceback (most recent call last):
    rollmodel.kinds.OtherKind: wanted a rate (force per length) such as "65 N/mm" or "371 lbf/in", \
given "65 lb/in": lb/in is a mass per length; lbf/in was meant
    """
    if is_number(text):
        return _bare(text, kind)
    if not isinstance(text, str):
        refuse(kind, text, "write it in quotes, a number and its unit")
    if len(text) > LONGEST:
        refuse(kind, text, f"too long; a number and its unit take at most {LONGEST} characters")
    number, unit = split(text, kind)
    if kind in ("ratio", "share"):
        return _portion(number, unit, text, kind)
    if not unit:
        refuse(kind, text, f'no unit; write for example "{KINDS[kind].examples[0]}"')
    value = number * _checked_factor(unit, text, kind)
    if not math.isfinite(value):
        refuse(kind, text, "the number is not finite")
    return value


def _bare(number, kind: str) -> float:
    if not abs(number) < 1e300:  # nan too, and integers too large for a float
        refuse(kind, number, "the number is not finite")
    if kind != "ratio":
        refuse(kind, number, "a bare number; write it in quotes with its unit, "
                              f'"{_whole(number) if kind == "share" else number:.12g} '
                              f'{KINDS[kind].usual[0]}"')
    return float(number)


def _portion(number: float, unit: str, text: str, kind: str) -> float:
    if unit in ("%", "percent", "per cent"):
        return number / 100
    if unit:
        refuse(kind, text, "it has no unit" if kind == "ratio" else "a share is written in %")
    if kind == "share":
        refuse(kind, text, f'no unit; write "{_whole(number):g} %"')
    return number


def _whole(share: float) -> float:
    """The percentage that a share without a unit stands for: 0.52 and 52 are both 52 %."""
    return 100 * share if abs(share) <= 1 else share


def _checked_factor(unit: str, text: str, kind: str) -> float:
    try:
        factor, dimension = _factor(unit, kind)
    except KeyError:
        refuse(kind, text, _unknown(unit, kind))
    if dimension != _factor(KINDS[kind].si, kind)[1] or "joule" in _spelled(unit, kind):
        refuse(kind, text, _wrong_dimension(unit, dimension, kind),
               OtherKind if _is_other_kind(unit, dimension, kind) else UnitError)
    return factor


def _is_other_kind(unit: str, dimension: str, kind: str) -> bool:
    """A unit that people use for another quantity, and no slip of capitals: nm for N·m, N/MM for N/mm."""
    used = {*_OTHERS, *(_factor(known.si, name)[1] for name, known in KINDS.items())}
    return dimension in used and typed.letters(unit) not in map(typed.letters, KINDS[kind].usual)


def _spelled(unit: str, kind: str) -> str:
    return str(_registry().parse_units(_named(typed.normal(unit), kind)))


def _unknown(unit: str, kind: str) -> str:
    """What to say of a unit that nobody knows, with the nearest usual one."""
    usual = [u.lower() for u in KINDS[kind].usual]
    near = get_close_matches(typed.normal(unit).lower(), usual, n=1, cutoff=0.6)
    hint = next((f"; {u} was meant?" for u in KINDS[kind].usual if near and u.lower() == near[0]), "")
    return f"no unit is known by the name {quoted(unit, 24)}{hint}"


def _wrong_dimension(unit: str, dimension: str, kind: str) -> str:
    energy = "joule" in _spelled(unit, kind)
    what = f"{quoted(unit, 24)[1:-1]} is {'made from an energy' if energy else _described(dimension, unit)}"
    same_letters = [] if energy else [u for u in KINDS[kind].usual if typed.letters(u) == typed.letters(unit)]
    if same_letters:
        return f"{what}; {same_letters[0]} was meant? Capital letters matter"
    wanted = _factor(KINDS[kind].si, kind)[1]
    swapped = _NAME.sub(lambda found: _SLIPS.get(found[0], found[0]), unit)
    for other in (swapped, f"{unit}/deg"):
        if _dimension(other, kind) == wanted and "joule" not in _spelled(other, kind):
            return f"{what}; {other} was meant" + ("?" if other is not swapped else "")
    return f"{what}; write it in {' or '.join((KINDS[kind].usual or ('no unit',))[:2])}"


_OTHERS = {"[length] -1, [mass] 1": "a mass per length", "[length] 1, [mass] 1": "a mass times length",
           "[length] 1, [mass] 1, [turned_angle] -1": "a mass times length per angle",
           "[length] 2": "an area"}


def _described(dimension: str, unit: str) -> str:
    """What a dimension is, in words, taken from the kinds themselves."""
    if not dimension:
        return "a percentage" if "%" in unit else "a bare number"
    same = (kind.noun for name, kind in KINDS.items() if kind.si and _factor(kind.si, name)[1] == dimension)
    return next(same, _OTHERS.get(dimension, "of another kind")).partition(" (")[0]


def within(value: float, text, kind: str, low: float, high: float) -> float:
    """The value, when it lies between two believable bounds in SI.

    Raises
    ------
    UnitError
        Outside the bounds; with the unit that was probably meant when one would fit.
    """
    slack = 2e-4 * max(abs(low), abs(high))  # a bound in another unit is typed rounded: 1.571 rad, 90 deg
    if low - slack <= value <= high + slack:
        return value
    family = family_of(text)
    bounds = f"{_plain(low, kind, family)} to {_plain(high, kind, family)} {label(kind, family)}".rstrip()
    raise UnitError(f"wanted {KINDS[kind].noun} from {bounds}, given {as_given(text)}: "
                    f"{_slip(text, kind, low, high)}")


def _plain(value: float, kind: str, family: str) -> str:
    shown = to_display(value, kind, family)
    return f"{shown:.0f}" if abs(shown) >= 1000 else f"{shown:.3g}"


def _slip(text, kind: str, low: float, high: float) -> str:
    """The same figure in another usual unit, when that would be believable; the family typed first."""
    found = numbered(text) if isinstance(text, str) else None
    units = sorted(KINDS[kind].usual, key=lambda unit: family_of(unit) != family_of(text))
    for unit in units if found and kind != "share" else ():
        if low <= float(found[1]) * _factor(unit, kind)[0] <= high:
            return f'not believable; "{found[1]} {unit}" was meant?'
    return "not believable; check the figure" + ("" if kind in ("ratio", "share") else " and its unit")
