"""One answer file, read as text: checked in every field, or refused with the reason.

Nothing in it is run, unpacked or followed. What it says of itself is believed only as far as it agrees
with itself; that nobody can check more is said in the assessor's guide.
"""

from __future__ import annotations

import json
import os
import stat
from dataclasses import dataclass, fields
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from itertools import pairwise
from re import compile as pattern

from rollmodel.marking.harmless import plain
from rollmodel.questions.answers import FORMAT, FORMAT_VERSION, LARGEST, Answer
from rollmodel.questions.draws import EXAMPLE, CodeWordError, tidy_code_word
from rollmodel.questions.feedback import MODES
from rollmodel.units import FAMILIES

TOP_FIELDS = ("format", "format_version", "code_word", "mode", "answers")
ANSWER_FIELDS = tuple(field.name for field in fields(Answer))
PACKED = {
    b"PK": "zip",
    b"\x1f\x8b": "gzip",
    b"BZh": "bzip2",
    b"\xfd7zXZ": "xz",
    b"7z\xbc\xaf": "7z",
    b"\x28\xb5\x2f\xfd": "zstandard",
    b"Rar!": "rar",
}
HIGHEST_VERSION = 9999  # of a question; one goes up a few times in its life
AHEAD = timedelta(days=1)  # a clock set to another part of the world is at most so far ahead
_KEPT_NAME = pattern(r"answers-(?P<word>.+)-(?P<mode>[a-z]+)\.json")
# To hang a program on reading, a file need only be a pipe; to lead it astray, a link.
_CAREFULLY = (
    os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
)


@dataclass(frozen=True)
class Aside:
    """A file that is not marked: its name, what sort of trouble, and the reason in words."""

    name: str
    kind: str
    reason: str


class NotMarked(Exception):
    """Why a file is not marked."""

    def __init__(self, kind: str, reason: str):
        super().__init__(reason)
        self.kind, self.reason = kind, reason


@dataclass(frozen=True)
class HandedIn:
    """One learner's answers as they were handed in."""

    name: str  # place below the class's folder
    code_word: str
    mode: str
    answers: tuple[Answer, ...]  # oldest first

    @property
    def digest(self) -> str:
        """Stands for everything that was handed in, whatever the file is called."""
        return sha256(repr((self.code_word, self.mode, self.answers)).encode()).hexdigest()

    @property
    def answers_digest(self) -> str:
        """Stands for the answers alone, times included: another code word on a copy does not change it."""
        return sha256(repr(self.answers).encode()).hexdigest()


def read(path, name: str) -> HandedIn:
    """Read and check one file.

    Parameters
    ----------
    path : str or os.PathLike
    name : str
        What the file is called in the report.

    Raises
    ------
    NotMarked
        With the kind of trouble and one sentence.
    """
    content = _content(_text(_bytes(path), name), name)
    _check_top(content)
    handed = HandedIn(
        name,
        content["code_word"],
        content["mode"],
        tuple(_answer(row, number) for number, row in enumerate(content["answers"], start=1)),
    )
    _check_name(handed, os.path.basename(os.fspath(path)))
    return handed


def _bytes(path) -> bytes:
    """The bytes of a plain file, up to the limit; nothing else is opened for good."""
    try:
        if os.path.islink(path):
            raise NotMarked("link", "it is a link to another place, and links are not followed")
        handle = os.open(path, _CAREFULLY)
        with os.fdopen(handle, "rb") as file:
            _check_plain(os.fstat(handle))
            data = file.read(LARGEST + 1)
    except OSError as error:
        raise NotMarked("unreadable", f"it could not be read ({error.strerror or error})") from None
    if len(data) > LARGEST:
        raise _too_large(len(data))
    return data


def _check_plain(found: os.stat_result) -> None:
    if not stat.S_ISREG(found.st_mode):
        raise NotMarked("link", "it is no plain file")
    if found.st_size > LARGEST:
        raise _too_large(found.st_size)


def _too_large(size: int) -> NotMarked:
    return NotMarked("too large", f"it has {size:,} bytes or more; an answer file has at most {LARGEST:,}")


def _text(data: bytes, name: str) -> str:
    packed = next((sort for start, sort in PACKED.items() if data.startswith(start)), None)
    if packed:
        raise NotMarked(
            "packed",
            f"it is a packed file ({packed}); nothing is unpacked here: ask for the answer file itself",
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NotMarked(_sort(name), "it is not UTF-8 text, in which answers are kept") from None


def _sort(name: str) -> str:
    """A notebook beside the answers is no damage; a broken answer file is."""
    last = name.rsplit("/", 1)[-1].lower()
    return "damaged" if last.endswith(".json") or last.startswith("answers-") else "another sort of file"


def _content(text: str, name: str) -> dict:
    """What the JSON text holds, when it is an answer file at all."""
    try:
        content = json.loads(text, object_pairs_hook=_once_each)
    except json.JSONDecodeError as error:
        raise NotMarked(
            _sort(name), f"it is not whole JSON text (line {error.lineno}): cut short, or changed by hand"
        ) from None
    except RecursionError:
        raise NotMarked("damaged", "it is nested far deeper than an answer file") from None
    except ValueError as error:
        raise NotMarked("damaged", f"it holds a number that cannot be ({plain(error, 80)})") from None
    if not isinstance(content, dict) or content.get("format") != FORMAT:
        raise NotMarked(_sort(name), "it is JSON, but not an answer file of this package")
    version = content.get("format_version")
    if type(version) is not int or version != FORMAT_VERSION:
        raise NotMarked(
            "damaged",
            f"its format version is {plain(json.dumps(version), 40)}; wanted the whole number "
            f"{FORMAT_VERSION}, which this package reads",
        )
    return content


def _once_each(pairs: list) -> dict:
    """A field given twice can be read two ways, so it is not read at all."""
    found = dict(pairs)
    if len(found) != len(pairs):
        raise NotMarked("forged", "a field stands in it twice, which this package never writes")
    return found


def _check_top(content: dict) -> None:
    _check_fields(content, TOP_FIELDS, "")
    word = content["code_word"]
    try:
        if tidy_code_word(word) != word or word == EXAMPLE:
            raise CodeWordError("no answers are kept under it")
    except CodeWordError:
        raise NotMarked(
            "forged", f'its code word "{plain(word, 60)}" is not one under which answers are kept'
        ) from None
    if content["mode"] not in MODES:
        raise NotMarked("forged", f'its mode is "{plain(content["mode"], 40)}"; wanted {" or ".join(MODES)}')
    if not isinstance(content["answers"], list):
        raise NotMarked("damaged", "its answers are not a list")


def _check_fields(row, wanted: tuple[str, ...], where: str) -> None:
    if not isinstance(row, dict):
        raise NotMarked("damaged", f"{where}is not a set of named fields")
    missing, extra = set(wanted) - set(row), set(row) - set(wanted)
    if missing:
        raise NotMarked("damaged", f"{where}has no {', '.join(sorted(missing))}")
    if extra:
        raise NotMarked(
            "forged", f"{where}has fields that no answer file has: {plain(', '.join(sorted(extra)), 80)}"
        )


def _answer(row, number: int) -> Answer:
    where = f"answer {number} "
    _check_fields(row, ANSWER_FIELDS, where)
    for name, value in row.items():
        if type(value) is not (int if name == "question_version" else str):
            raise NotMarked("forged", f"{where}has a {name} of the wrong type")
    if not 1 <= row["question_version"] <= HIGHEST_VERSION:
        raise NotMarked("forged", f"{where}has a question_version outside 1 to {HIGHEST_VERSION}")
    if row["family"] not in FAMILIES:
        raise NotMarked("forged", f'{where}has a unit family "{plain(row["family"], 40)}" that there is not')
    if _time(row["given_at"]) is None:
        raise NotMarked("forged", f'{where}has a time that is none, "{plain(row["given_at"], 40)}"')
    return Answer(**row)


def _time(text: str) -> datetime | None:
    """A time with its zone, or None."""
    try:
        found = datetime.fromisoformat(text)
        return None if found.tzinfo is None else found.astimezone(UTC)
    except (ValueError, OverflowError):
        return None


def _check_name(handed: HandedIn, file_name: str) -> None:
    """A file under the name that the package gives agrees with it; one that was renamed says nothing."""
    found = _KEPT_NAME.fullmatch(file_name)
    if found and (found["word"], found["mode"]) != (handed.code_word.replace(" ", "_"), handed.mode):
        raise NotMarked(
            "forged",
            f'inside it says code word "{handed.code_word}", {handed.mode}; its name says something else',
        )
    wrong = next((one for one in handed.answers if one.occasion != handed.mode), None)
    if wrong:
        raise NotMarked(
            "forged", f'it is a file of {handed.mode} with an answer of "{plain(wrong.occasion, 40)}" in it'
        )


def oddities(handed: HandedIn, now: datetime | None = None) -> list[str]:
    """What a person may want to look at, though the file can be marked: times that do not fit."""
    times = [_time(answer.given_at) for answer in handed.answers]
    found = []
    if any(later < earlier for earlier, later in pairwise(times)):
        found.append(
            "the times of the answers run backwards: the clock was put back, or the file changed by hand"
        )
    if any(time > (now or datetime.now(UTC)) + AHEAD for time in times):
        found.append("an answer is dated in the future: the clock was wrong, or the file changed by hand")
    return found
