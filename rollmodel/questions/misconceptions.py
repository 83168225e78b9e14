"""The wrong beliefs that wrong answers come from: a name, a hint, and what is really so.

They stand as plain text in ``misconceptions.toml`` beside this file. A question's wrong road, or a
wrong option, points at one of them by its id.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files


@dataclass(frozen=True)
class Misconception:
    """One wrong belief, in the words a learner reads."""

    id: str
    name: str  # what went wrong, as the end of "The slip behind your figure: ..."
    hint: str  # shown first; it gives nothing away
    why: str  # shown at the second try; what is really so


@lru_cache(maxsize=1)
def every_misconception() -> dict[str, Misconception]:
    """All of them by id, in the order written."""
    text = files("rollmodel.questions").joinpath("misconceptions.toml").read_text(encoding="utf-8")
    return {id: Misconception(id, **entry) for id, entry in tomllib.loads(text).items()}


def misconception(id: str) -> Misconception:
    """Look one up by its id."""
    return every_misconception()[id]
