"""One thing that was looked at, and how it stands."""

from __future__ import annotations

from dataclasses import dataclass

GOOD, WRONG, UNKNOWN = "good", "wrong", "unknown"


@dataclass(frozen=True)
class Finding:
    """How one thing stands.

    Parameters
    ----------
    subject : str
        What was looked at.
    state : {"good", "wrong", "unknown"}
        "unknown" where something else that is wrong stood in the way.
    said : str
        What was found, in plain words.
    mend : str
        What to do about it; empty when there is nothing to do.
    """

    subject: str
    state: str
    said: str
    mend: str = ""


def good(subject: str, said: str) -> Finding:
    return Finding(subject, GOOD, said)


def wrong(subject: str, said: str, mend: str) -> Finding:
    return Finding(subject, WRONG, said, mend)


def unknown(subject: str, said: str) -> Finding:
    return Finding(subject, UNKNOWN, said)
