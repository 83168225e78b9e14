"""Words that strangers wrote, made harmless: to show, and for a cell of a table."""

from __future__ import annotations

import os

STARTS_A_FORMULA = "=+-@＝＋－＠"  # the wide forms too: spreadsheets read them alike
LONGEST = 300  # characters of a name or an answer in a list


def plain(text, longest: int = LONGEST) -> str:
    """One line that can be printed: gaps become spaces, what cannot be seen becomes its code.

    Among the unseen are marks that turn the writing direction about, with which one name can be made to
    look like another.

    Examples
    --------
    >>> plain("two\\tlines\\nand a bell \\x07")
    'two lines and a bell \\\\u0007'
    """
    text = str(text)
    cut = text if len(text) <= longest else f"{text[:longest]}..."
    return "".join(map(_seen, cut))


def _seen(sign: str) -> str:
    if sign.isprintable():
        return sign
    return " " if sign.isspace() else f"\\u{ord(sign):04x}"


def name_of(path, folder) -> str:
    """A file's place below the class's folder, as it is shown everywhere."""
    return plain(os.path.relpath(path, folder).replace(os.sep, "/"))


def cell(value):
    """A value for a table: numbers stay, text can start no formula.

    Examples
    --------
    >>> cell("=1+1"), cell("-5 N"), cell(-0.25), cell("60 N/mm"), cell(None)
    ("'=1+1", "'-5 N", -0.25, '60 N/mm', '')
    """
    if value is None:
        return ""
    if isinstance(value, (int, float)):
        return value
    text = plain(value, 5000)
    return f"'{text}" if text.lstrip()[:1] and text.lstrip()[0] in STARTS_A_FORMULA else text
