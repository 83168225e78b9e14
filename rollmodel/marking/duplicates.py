"""The same work handed in twice: an exact copy, or an earlier copy of what grew afterwards."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from hashlib import sha256

from rollmodel.marking.reading import Aside, HandedIn


@dataclass(frozen=True, slots=True)
class Looked:
    """What is kept of a file after the first look, so that a class of any size fits in memory."""

    path: str
    name: str
    code_word: str
    digest: str
    answers_digest: str
    first: str  # stands for the oldest answer: copies of one file begin alike
    questions: tuple[str, ...]  # answered in it, by id
    count: int  # of answers


def look(path: str, handed: HandedIn) -> Looked:
    """The first look at one file."""
    asked = tuple(dict.fromkeys(answer.question for answer in handed.answers))
    return Looked(
        path,
        handed.name,
        handed.code_word,
        handed.digest,
        handed.answers_digest,
        sha256(repr(handed.answers[:1]).encode()).hexdigest(),
        asked,
        len(handed.answers),
    )


def copies(files: Sequence[Looked], read: Callable[[Looked], HandedIn]) -> list[Aside]:
    """Copies to be set aside: of two alike the second, of two stages of one file the earlier.

    Files with one code word that are neither are all marked: who is who is for a person to say, and
    :func:`shared` names them.

    Parameters
    ----------
    files : sequence of Looked
    read : callable
        Reads a file again; asked only for those with a code word in common.
    """
    found: list[Aside] = []
    for group in _groups(files, lambda one: (one.code_word, one.first)):
        found += _copies_of_one(group, read)
    return found


def _groups(files, by: Callable) -> list[list[Looked]]:
    groups = defaultdict(list)
    for one in files:
        groups[by(one)].append(one)
    return [group for group in groups.values() if len(group) > 1]


def _copies_of_one(group: list[Looked], read: Callable) -> list[Aside]:
    """The longest first: whatever is the beginning of a longer one is an earlier copy of it."""
    kept: list[tuple[Looked, tuple]] = []
    found = []
    for one in sorted(group, key=lambda one: (-one.count, one.name)):
        answers = read(one).answers
        whole = next((other for other, longer in kept if longer[: len(answers)] == answers), None)
        if whole is None:
            kept.append((one, answers))
            continue
        what = "a copy" if whole.count == one.count else "an earlier copy, with fewer answers,"
        found.append(Aside(one.name, "duplicate", f"it is {what} of {whole.name}, which is marked"))
    return found


def shared(files: Sequence[Looked]) -> dict[str, str]:
    """For each file that shares something only its own should have: a sentence for a person to look into."""
    notes: dict[str, list[str]] = defaultdict(list)
    for group in _groups(files, lambda one: one.code_word):
        for one in group:
            notes[one.name].append(f"the same code word, so the same numbers, as {_others(one, group)}")
    for group in _groups([one for one in files if one.count], lambda one: one.answers_digest):
        if len({one.code_word for one in group}) > 1:
            for one in group:
                notes[one.name].append(
                    f"the same answers at the same seconds as {_others(one, group)}, under "
                    "another code word: one of them is a copy"
                )
    return {name: "; ".join(lines) for name, lines in notes.items()}


def _others(one: Looked, group: list[Looked], most: int = 5) -> str:
    names = [other.name for other in group if other is not one]
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more
