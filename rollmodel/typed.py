"""A value as somebody typed it: number and unit taken apart, and the words to refuse it in."""

from __future__ import annotations

import math
import os
import re

from rollmodel.kinds import KINDS, UnitError

LONGEST = 60  # characters in a value with its unit; the longest sensible one has about 25

NUMBER = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*(.*)", re.ASCII | re.DOTALL)
_SIGNS = {"·": "*", "⋅": "*", "×": "*", "²": "^2", "³": "^3", "μ": "µ", "**": "^"}
_FRACTION = re.compile(r"\s*(?:(\d{1,4})\s+)?(\d{1,4})\s*/\s*(\d{1,4})\s*([A-Za-z].*)", re.ASCII)


def printable(text: str) -> str:
    """Text without what moves a terminal's cursor or colours it: each such character becomes "?"."""
    return "".join(c if c.isprintable() else "?" for c in text)


def typed_path(text: str) -> str:
    """A path as somebody typed or pasted it: without quotes round it, ~ read as the home folder.

    One that is there just as typed stays as it is.
    """
    bare = text.strip()
    if len(bare) > 1 and bare[0] == bare[-1] and bare[0] in "\"'":
        bare = bare[1:-1]
    bare = os.path.expanduser(bare)
    return text if bare == text or os.path.lexists(text) else bare


def quoted(given, longest: int = 40) -> str:
    """What was given, in quotes, short and without control characters, for a message."""
    text = given if isinstance(given, str) else str(given)
    short = printable(text[:longest])  # cut first: what is pasted by mistake may be a whole file
    return f'"{short}"' if len(text) <= longest else f'"{short}..."'


def refuse(kind: str, given, mend: str, error: type[UnitError] = UnitError):
    """Raise the message: what was wanted, what was given, how to mend it."""
    known = KINDS[kind]
    raise error(f'wanted {known.noun} such as "{known.examples[0]}" or "{known.examples[1]}", '
                    f"given {as_given(given)}: {mend}", mend)


def as_given(given) -> str:
    """Any value as a message names it: text in quotes, a number bare and short."""
    if not is_number(given):
        return quoted(given)
    if isinstance(given, float) and given.is_integer() and abs(given) < 1e12:
        return f"{given:.1f}"  # 2.0 is no whole number, where one is wanted
    return f"{given:.12g}" if abs(given) < 1e300 or isinstance(given, float) else "a huge number"


def is_number(value) -> bool:
    """Whether a value is a bare number; true and false are not."""
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def split(text: str, kind: str) -> tuple[float, str]:
    """Number and unit, or the reason why the text does not start with a number."""
    if re.match(r"\s*[+-]?\s*(nan|inf)", text, re.IGNORECASE):
        refuse(kind, text, "the number is not finite")
    if re.match(r"\s*[\u2010-\u2015\u2212\uff0d]", text):
        refuse(kind, text, "the minus sign is a typeset dash; type the plain - of the keyboard")
    if re.match(r"\s*[+-]?\d*(\.\d*)?,\d", text):
        refuse(kind, text, "a comma in the number; write a point for decimals, nothing between thousands")
    if re.match(r"\s*[+-]?\d+[\s_]+\d+(\.\d*)?\s*[A-Za-z%°]", text):
        refuse(kind, text, "a gap in the number; write the digits together")
    fraction = _FRACTION.fullmatch(text)
    if fraction and int(fraction[3]):
        value = int(fraction[1] or 0) + int(fraction[2]) / int(fraction[3])
        refuse(kind, text, f'a fraction; write "{value:.6g} {printable(fraction[4].strip())}"')
    found = NUMBER.fullmatch(text)
    if not found:
        refuse(kind, text, "it does not start with a number")
    if not math.isfinite(float(found[1])):
        refuse(kind, text, "the number is not finite")
    return float(found[1]), found[2].strip().removesuffix(".").rstrip()  # the stop that ends a sentence


def normal(unit: str) -> str:
    """The unit with one sign for each operation: N·m², lbf-ft and N**m all read the same way."""
    for old, new in _SIGNS.items():
        unit = unit.replace(old, new)
    return re.sub(r"(?<=[A-Za-z])-(?=[A-Za-z])", "*", unit).strip()


def letters(unit: str) -> str:
    """What is left of a unit without capitals, signs and gaps: N·m, Nm and NM alike give "nm"."""
    return re.sub(r"[\s*().·^-]", "", normal(unit)).lower()


def family_of(text) -> str:
    """The family that a typed value's unit belongs to, so that a message can answer in it."""
    names = r"(?<![A-Za-z])(lbs?|lbf|in|inch|inches|ft|feet|kip|psi|ksi|Mpsi)(?![A-Za-z])"
    return "US customary" if isinstance(text, str) and re.search(names, text) else "metric"
