"""Whole numbers from a code word, the same on every machine.

The stream is SHA-256 over the seed text and a counter, so it depends on no library's random
generator and on no setting of Python. A number below a bound comes from 64 bits of one digest;
digests in the uneven remainder are passed over, so every number is equally likely.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Sequence

EXAMPLE = "example"  # the code word of worked examples and solutions; nothing is kept for it
_CODE_WORD = re.compile(r"[a-z0-9](?:[a-z0-9 -]{1,38}[a-z0-9])")
_WORD = 2**64


class CodeWordError(ValueError):
    """A code word that cannot be used; one plain sentence."""


def tidy_code_word(text) -> str:
    """The code word in small letters with single spaces; letters, digits, space and - only.

    Plain letters alone are taken, because others are not spelled alike by every keyboard.

    Raises
    ------
    CodeWordError
        Not text, too short, too long, or with other characters.

    Examples
    --------
    >>> tidy_code_word("  Blue  Kestrel-7 ")
    'blue kestrel-7'
    """
    word = re.sub(r"\s+", " ", text.strip()).lower() if isinstance(text, str) else ""
    if not _CODE_WORD.fullmatch(word):
        given = repr(text[:40]) if isinstance(text, str) else f"{text!r:.40} without quotes"
        raise CodeWordError("code word: wanted 3 to 40 plain letters or digits, spaces and - allowed "
                            "between, "
                            f'given {given}; write for example "blue kestrel"')
    return word


class Draw:
    """A stream of whole numbers, and what is made of them.

    Parameters
    ----------
    *words : object
        Anything with a fixed text form: code word, question, version, try. Each changes every number.

    Examples
    --------
    >>> Draw("blue kestrel", "bar-rate", 1).below(100) == Draw("blue kestrel", "bar-rate", 1).below(100)
    True
    """

    def __init__(self, *words):
        self._seed = "\x1f".join(str(word) for word in words)
        self._count = 0

    def below(self, bound: int) -> int:
        """A whole number from 0 to ``bound - 1``, each as likely as the others."""
        fair = _WORD - _WORD % bound
        while True:
            digest = hashlib.sha256(f"{self._seed}\x1f{self._count}".encode()).digest()
            self._count += 1
            number = int.from_bytes(digest[:8], "big")
            if number < fair:
                return number % bound

    def between(self, low: float, high: float, step: float) -> float:
        """One of ``low, low + step, ... high``; rounded to 12 places so that steps stay tidy."""
        return round(low + step * self.below(round((high - low) / step) + 1), 12)

    def pick(self, options: Sequence):
        """One of the options."""
        if not options:
            raise ValueError("nothing to pick from: the question's draw leaves no case over")
        return options[self.below(len(options))]

    def shuffled(self, items: Sequence) -> list:
        """The items in a new order (Fisher and Yates, from the back)."""
        items = list(items)
        for last in range(len(items) - 1, 0, -1):
            other = self.below(last + 1)
            items[last], items[other] = items[other], items[last]
        return items
