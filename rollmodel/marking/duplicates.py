"""The same work handed in twice: an exact copy, or an earlier copy of what grew afterwards."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from hashlib import sha256

from rollmodel.marking.harmless import plain
from rollmodel.marking.reading import Aside, HandedIn
from rollmodel.marking.scoring import counting_answers


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


def copies(
    files: Sequence[Looked], read: Callable[[Looked], HandedIn]
) -> tuple[list[Aside], dict[str, list[str]]]:
    """Copies to be set aside, of two alike the second, of two stages of one file the earlier; and notes.

    Whoever has a learner's file can write answers behind its own and hand that in: nothing in it tells it
    from the learner's next stage. So where answers that count were changed in the later stage a note, by the
    name of the file that is marked, says which: a person looks.

    Files with one code word that are neither are all marked: who is who is for a person to say, and
    :func:`shared` names them.

    Parameters
    ----------
    files : sequence of Looked
    read : callable
        Reads a file again; asked only for those with a code word in common.
    """
    found: list[Aside] = []
    notes: dict[str, list[str]] = defaultdict(list)
    for group in _groups(files, lambda one: (one.code_word, one.first)):
        found += _copies_of_one(group, read, notes)
    return found, dict(notes)


def _groups(files, by: Callable) -> list[list[Looked]]:
    groups = defaultdict(list)
    for one in files:
        groups[by(one)].append(one)
    return [group for group in groups.values() if len(group) > 1]


def _copies_of_one(group: list[Looked], read: Callable, notes: dict) -> list[Aside]:
    """The longest first: whatever is the beginning of a longer one is an earlier copy of it."""
    kept: list[tuple[Looked, HandedIn]] = []
    found = []
    for one in sorted(group, key=lambda one: (-one.count, one.name)):
        handed = read(one)
        whole = next((longer for _, longer in kept if _goes_on(longer, handed)), None)
        if whole is None:
            kept.append((one, handed))
            continue
        what = "a copy" if len(whole.answers) == one.count else "an earlier copy, with fewer answers,"
        changed = _changed(handed, whole)
        if changed:
            notes[whole.name].append(_went_on(one.name, changed))
        differs = f"; changed in that: {', '.join(changed)}" if changed else ""
        found.append(Aside(one.name, "duplicate", f"it is {what} of {whole.name}, which is marked{differs}"))
    return found


def _goes_on(longer: HandedIn, handed: HandedIn) -> bool:
    return longer.answers[: len(handed.answers)] == handed.answers


def _changed(before: HandedIn, after: HandedIn) -> list[str]:
    """The questions whose answer that counts is another one in the later stage."""
    later = counting_answers(after)
    return [name for name, one in counting_answers(before).items() if later[name].text != one.text]


def _went_on(earlier: str, changed: list[str]) -> str:
    return (
        f"this file is marked in place of {earlier}, an earlier stage of it; {len(changed)} answers were "
        f"changed since. Ask the learner whether both files are theirs: {plain(', '.join(changed))}"
    )


def shared(files: Sequence[Looked]) -> dict[str, list[str]]:
    """For each file that shares something only its own should have: sentences for a person to look into."""
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
    return dict(notes)


def _others(one: Looked, group: list[Looked], most: int = 5) -> str:
    names = [other.name for other in group if other is not one]
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more
