"""Answers kept in a file so that a crash or a full disk never loses the earlier ones.

A new file is written beside the old one, pushed to the disk, and only then put in its place in one
step. Whatever goes wrong before that step, the old file is untouched. Nothing in the file is ever
run, and no key or verdict is in it.
"""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path

import rollmodel
from rollmodel.disk import taking_turns, write_whole
from rollmodel.questions.posed import Posed

FORMAT = "rollmodel answers"
FORMAT_VERSION = 1
LARGEST = 5_000_000  # bytes; a course of answers has a hundredth of that


class StoreError(RuntimeError):
    """Answers could not be kept or read; one plain message that says what is safe, and no traceback."""

    def _render_traceback_(self):
        return [str(self)]


@dataclass(frozen=True)
class Answer:
    """One answer as it was typed, with all that is needed to draw its question again."""

    question: str
    question_version: int
    occasion: str
    family: str
    text: str
    given_at: str  # ISO 8601, UTC
    package_version: str


def answer_to(posed: Posed, text: str) -> Answer:
    """An answer given now."""
    now = datetime.now(UTC).isoformat(timespec="seconds")
    clean = text.encode("utf-8", "replace").decode("utf-8")  # a file must take whatever was typed
    return Answer(posed.id, posed.question.version, posed.occasion, posed.family, clean, now,
                  rollmodel.__version__)


class AnswerFile:
    """The answers of one learner in one mode.

    Parameters
    ----------
    folder : str or Path
        Where the file lies, or is to lie.
    code_word : str
        Tidied already.
    mode : {"practice", "assessment"}
    """

    def __init__(self, folder, code_word: str, mode: str):
        self.path = Path(folder) / f"answers-{code_word.replace(' ', '_')}-{mode}.json"
        self.code_word, self.mode = code_word, mode
        self.notes: list[str] = []  # what a learner ought to be told, such as a damaged file

    def read(self) -> list[Answer]:
        """All answers, oldest first. A damaged file is set aside whole and named in ``notes``."""
        if not self.path.exists():
            return []
        try:
            return _answers(self._content())
        except OSError as error:
            raise StoreError(f"Your answers in {self.path} could not be read ({error.strerror}). "
                             "Nothing was changed.") from error
        except (ValueError, TypeError, KeyError, RecursionError) as error:
            self._set_aside(error)
            return []

    def _content(self) -> dict:
        if self.path.stat().st_size > LARGEST:
            raise ValueError(f"it is larger than {LARGEST} bytes")
        content = json.loads(self.path.read_text(encoding="utf-8"))
        if not isinstance(content, dict):
            raise ValueError("it holds no named fields")
        version = content["format_version"]
        if content["format"] != FORMAT or type(version) is not int or version != FORMAT_VERSION:
            raise ValueError("it is not an answer file of this version")
        if (content["code_word"], content["mode"]) != (self.code_word, self.mode):
            raise ValueError("it has another code word or mode than its name says")
        return content

    def _set_aside(self, error: Exception) -> None:
        """Move a damaged file to a free name; where that fails nothing more is written."""
        copies = (self.path.with_suffix(f".damaged-{number}.json") for number in range(1, 1000))
        copy = next(copy for copy in copies if not copy.exists())
        try:
            os.rename(self.path, copy)
        except OSError as failure:
            raise StoreError(f"{self.path} is damaged and could not be set aside ({failure.strerror}). "
                             "It is left as it is; no answer is kept until it is moved away.") from failure
        self.notes.append(f"{self.path.name} could not be read: {_reason(error)}. Nothing in it was changed: "
                          f"it is now {copy.name}; give it to your instructor. A new file is begun.")

    def add(self, answer: Answer) -> None:
        """Keep one more answer.

        Raises
        ------
        StoreError
            The file cannot be written. The answers given before are safe.
        """
        try:
            self.path.parent.mkdir(exist_ok=True)  # not its parents: a slip in the name would hide there
            with taking_turns(self.path):
                write_whole(self.path, self._text([*self.read(), answer]))
        except OSError as error:
            raise StoreError(f"This answer could not be kept in {self.path} ({error.strerror or error}). The "
                             f"answers "
                             "given before are safe. Free some space or choose another folder, then run "
                             "the cell again.") from error

    def _text(self, answers: list[Answer]) -> str:
        return json.dumps({"format": FORMAT, "format_version": FORMAT_VERSION, "code_word": self.code_word,
                           "mode": self.mode, "answers": [asdict(answer) for answer in answers]},
                          indent=1, ensure_ascii=False) + "\n"

    def different(self, question: str, occasion: str) -> list[str]:
        """The different texts given to one question, oldest first: running a cell again adds none."""
        texts = [answer.text.strip() for answer in self.read()
                 if (answer.question, answer.occasion) == (question, occasion)]
        return list(dict.fromkeys(texts))


_REASONS = {
    UnicodeDecodeError: "it is not UTF-8 text",
    RecursionError: "it is nested far too deeply",
    TypeError: "its answers are not laid out as this package keeps them",
}


def _reason(error: Exception) -> str:
    """Why a file could not be read, in words for a learner."""
    if type(error) in _REASONS:
        return _REASONS[type(error)]
    if isinstance(error, KeyError):
        return f"it has no {error.args[0]}"
    if str(error).startswith("Exceeds the limit"):  # Python's own, on the digits of a whole number
        return "a number in it has more digits than Python reads"
    return f"it is not JSON: {error}" if isinstance(error, json.JSONDecodeError) else str(error)


def _answers(content: dict) -> list[Answer]:
    answers = [Answer(**row) for row in content["answers"]]
    for answer in answers:
        if not all(isinstance(value, int if name == "question_version" else str)
                   for name, value in asdict(answer).items()):
            raise ValueError("an answer in it has a field of the wrong type")
    return answers
