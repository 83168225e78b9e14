"""A value as somebody typed it: number and unit taken apart, and the words to refuse it in."""

from __future__ import annotations

import math
import os
import re
import unicodedata

from rollmodel.kinds import KINDS, UnitError

LONGEST = 60  # characters in a value with its unit; the longest sensible one has about 25

NUMBER = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*(.*)", re.ASCII | re.DOTALL)
_GAPS = " \u00a0\u2007\u2009\u202f"  # between words, and the typesetter's thin and figure spaces
_THOUSANDS = re.compile(rf"\s*[+-]?[1-9]\d{{0,2}}(?:([{_GAPS}])\d{{3}}(?:\1\d{{3}})*)(?:\.\d*)?"
                        r"(?=\s*(?:$|[A-Za-zµ°%(]))", re.ASCII)
_GAPPED = re.compile(r"\s*([+-]?\d+(?:[\s_'’]+\d+)+(?:\.\d*)?)\s*([A-Za-z%°µ].*)?", re.DOTALL)
_SIGNS = {"·": "*", "⋅": "*", "×": "*", "²": "^2", "³": "^3", "μ": "µ", "**": "^"}
_FRACTION = re.compile(r"\s*(?:(\d{1,4})\s+)?(\d{1,4})\s*/\s*(\d{1,4})\s*([A-Za-z].*)", re.ASCII)


def printable(text: str) -> str:
    """Text without what moves a terminal's cursor or colours it: each such character becomes "?".

    A typeset space becomes a plain one.
    """
    return "".join(c if c.isprintable() else " " if unicodedata.category(c) == "Zs" else "?" for c in text)


def joined(text: str) -> str:
    """Text whose number has its thousands parted by spaces, in groups of three, without those spaces.

    Any other stays as it is; whether a gap may stand there is for `split` to say.

    Examples
    --------
    >>> joined("1 290 kg"), joined("1 000 000.5 N/m"), joined("12 90 kg"), joined("1 1/2 in")
    ('1290 kg', '1000000.5 N/m', '12 90 kg', '1 1/2 in')
    """
    found = _THOUSANDS.match(text)
    return found[0].replace(found[1], "").strip() + text[found.end():] if found else text


def numbered(text: str) -> re.Match | None:
    """A text that begins with a number, parted into that and the rest; None where it does not."""
    return NUMBER.fullmatch(joined(text))


def holds_several(text) -> bool:
    """Whether what was typed for one value holds several numbers, with gaps or units between them.

    Examples
    --------
    >>> holds_several("220 200 mm"), holds_several("220 mm 200 mm"), holds_several("8 3/4 in")
    (True, True, False)
    """
    if not isinstance(text, str) or re.search(r"\d\s*/\s*\d", text):
        return False
    return len(re.findall(r"(?<![\w.^+-])[+-]?\.?\d", text)) > 1


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
    if re.match(r"\s*[+-]?\d+(\.\d+){2,}", text):
        refuse(kind, text, "more than one point in the number; write one for decimals, none for thousands")
    found = numbered(text)
    gap = _GAPPED.fullmatch(text)
    if gap and joined(text) == text:
        together = f"{re.sub(r'[^0-9.+-]', '', gap[1])} {printable(gap[2] or '').strip()}".strip()
        refuse(kind, text, f'a gap in the number; write one number, its digits together: "{together}"')
    fraction = _FRACTION.fullmatch(text)
    if fraction and int(fraction[3]):
        value = int(fraction[1] or 0) + int(fraction[2]) / int(fraction[3])
        refuse(kind, text, f'a fraction; write "{value:.6g} {printable(fraction[4].strip())}"')
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
