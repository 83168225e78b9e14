"""What a learner types in an exercise notebook: ``start``, ``ask``, ``answer``.

Nothing here needs a widget; each call returns a text that a notebook shows.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from rollmodel.questions import bank
from rollmodel.questions.answers import AnswerFile, StoreError, answer_to
from rollmodel.questions.checking import FORM, Verdict, check
from rollmodel.questions.draws import EXAMPLE, CodeWordError, tidy_code_word
from rollmodel.questions.feedback import MODES, feedback, literal
from rollmodel.questions.posed import Posed, pose
from rollmodel.questions.records import Question
from rollmodel.typed import typed_path
from rollmodel.units import FAMILIES

NOT_KEPT = (f'This answer is not kept: the code word is still "{EXAMPLE}".',
            "Put your own code word in the first cell, run that cell, then run this one again.")

AGAIN = "After another code word run all cells below again: until then they show the old numbers."
UNREAD = "not yet in a form that can be read"


class Refusal(ValueError):
    """Something typed that cannot be used; a notebook shows the sentence alone, with no traceback."""

    def _render_traceback_(self):
        return [str(self)]


@dataclass(frozen=True)
class Said:
    """A text for a notebook and for a terminal."""

    plain: str
    markdown: str
    verdict: Verdict | None = None

    def __repr__(self):
        return self.plain

    def _repr_markdown_(self):
        return self.markdown


def _said(*paragraphs: str, verdict: Verdict | None = None, headline: bool = False) -> Said:
    """Paragraphs of plain text; a headline stands out."""
    first, *rest = map(literal, paragraphs)
    markdown = "\n\n".join((f"**{first}**" if headline else first, *rest))
    return Said("\n".join(paragraphs), markdown, verdict)


def _aim(name: str) -> str:
    """What a question is for, as a line of its own; a step says that it is one."""
    whole, _, step = name.partition("/")
    try:
        aim = bank.question(whole).aim.rstrip(".")
    except bank.UnknownQuestion:
        return f"A question that this version does not have ({name})"
    return f"{aim} (step {step!r})" if step else aim


def _found(name: str, step: str = "") -> Question:
    try:
        question = bank.question(name)
    except bank.UnknownQuestion as error:
        raise Refusal(str(error)) from None
    steps = [one.name for one in getattr(question, "steps", ())]
    if step and step not in steps:
        raise Refusal(f"question {name!r} has no step {step!r}; its steps: {', '.join(steps) or 'none'}")
    return question


def start(code_word: str = EXAMPLE, mode: str = "practice", units: str = "metric", folder: str = ".") -> Work:
    """Begin, or go on with, one learner's answers.

    Parameters
    ----------
    code_word : str
        Your own: it decides your numbers. With ``"example"`` nothing is kept.
    mode : {"practice", "assessment"}
        In assessment nothing is said about right or wrong.
    units : {"metric", "US customary"}
    folder : str
        Where your answers are kept; made with the first answer when only its last part is missing.
    """
    for name, value, wanted in (("mode", mode, MODES), ("units", units, FAMILIES)):
        if value not in wanted:
            raise Refusal(f"{name}: wanted {' or '.join(map(repr, wanted))}, given {value!r}")
    try:
        return Work(tidy_code_word(code_word), mode, units, _usable_folder(folder))
    except CodeWordError as error:
        raise Refusal(str(error)) from None


def _usable_folder(folder) -> Path:
    """The folder for the answers; it is there, or can be made inside one that is."""
    if not isinstance(folder, (str, os.PathLike)):
        raise Refusal("folder: wanted the name of a folder in quotes, such as "
                      f'"my answers", given {folder!r:.40}')
    place = Path(typed_path(os.fspath(folder)))
    parent = place.absolute().parent
    if place.is_dir():
        return place
    if place.exists():
        raise Refusal(f"folder: wanted a folder, given a file, {place}")
    if not parent.is_dir():
        raise Refusal(f"folder: there is no folder {parent}, so none can be made inside it; check the name")
    if parent == parent.parent:
        raise Refusal(f"folder: there is no folder {place}, and none is made at the root of a disk; name one "
                      "that is there, or one inside it")
    return place


class Work:
    """One learner at work; made by :func:`start`."""

    def __init__(self, code_word: str, mode: str, family: str, folder: str):
        self.code_word, self.mode, self.family = code_word, mode, family
        self._file = None if code_word == EXAMPLE else AnswerFile(folder, code_word, mode)
        self._tried: dict[str, list[str]] = {}  # for the example, which keeps no file
        self._asked: dict[str, None] = {}  # in the order in which they were asked

    def __repr__(self):
        kept = f"Answers are kept in {self._file.path.name}." if self._file else \
            "Nothing is kept for this code word: put your own in its place."
        return f'Code word "{self.code_word}", {self.mode}, {self.family} units. {kept} {AGAIN}'

    def posed(self, question_id: str, occasion: str | None = None) -> Posed:
        """The question with this learner's numbers; ``"id/step"`` for one of its steps."""
        name, _, step = question_id.partition("/")
        question = _found(name, step)
        if self.mode == "assessment" and (step or "assessment" not in question.pools):
            raise Refusal(f"{question_id!r} is a question for practice; it is not part of an assessment")
        posed = pose(question, self.code_word, self.family, occasion or self.mode)
        return posed.step(step) if step else posed

    def ask(self, question_id: str) -> Said:
        """Show a question. A step shows the steps before it as far as this learner has got them right."""
        name, _, step = question_id.partition("/")
        posed = self.posed(question_id)
        self._asked[posed.id] = None
        lines = [f"{letter}. {text}" for letter, text in posed.options]
        if step:
            lines = self._steps_before(self.posed(name), step) + lines
        return _said(posed.text, *lines, posed.wanted)

    def _steps_before(self, whole: Posed, step: str) -> list[str]:
        """The worked lines of the steps before one, each only once it has been answered right."""
        names = [one.name for one in whole.question.steps]
        before = [whole.step(name) for name in names[:names.index(step)]]
        return [line for one in before if any(check(one, text).right for text in self._texts(one))
                for line in one.worked]

    def example(self, question_id: str) -> Said:
        """A question worked in full, with numbers that are nobody's own."""
        if self.mode == "assessment":
            raise Refusal("worked examples are for practice; there are none in an assessment")
        posed = pose(_found(question_id), EXAMPLE, self.family, "worked example")
        return _said(posed.text, *(f"{letter}. {text}" for letter, text in posed.options), *posed.worked)

    def numbers(self, question_id: str) -> dict[str, float]:
        """The numbers that a question states as plain figures, in the units in which it states them."""
        posed = self.posed(question_id.partition("/")[0])
        return {name: float(text.split()[0]) for name, text in posed.stated.items()}

    def answer(self, question_id: str, text: str) -> Said:
        """Give an answer, in quotes, with its unit; empty quotes mean "not yet"."""
        posed = self.posed(question_id)
        self._asked[posed.id] = None
        verdict = check(posed, text)
        if self._file is None and self.mode == "assessment" and verdict.given.strip():
            return _said(*NOT_KEPT, headline=True)
        notes = self._keep(posed, verdict)
        said = feedback(posed, verdict, self._attempt(posed), self.mode)
        return _said(said.headline, *said.lines, *notes, headline=True,
                     verdict=verdict if self.mode == "practice" else None)

    def _keep(self, posed: Posed, verdict: Verdict) -> list[str]:
        """Keep what was typed, readable or not, unless it was typed before or is empty."""
        text = verdict.given.strip()
        if not text:
            return []
        if self._file is None:
            tried = self._tried.setdefault(posed.id, [])
            tried += [] if text in tried else [text]
            return []
        try:
            if self._latest(posed) != text:
                self._file.add(answer_to(posed, text))
        except StoreError as error:
            return [str(error)]
        notes, self._file.notes = self._file.notes, []
        return notes

    def _latest(self, posed: Posed) -> str | None:
        texts = [a.text for a in self._file.read() if (a.question, a.occasion) == (posed.id, posed.occasion)]
        return texts[-1].strip() if texts else None

    def _attempt(self, posed: Posed) -> int:
        """How many different answers that could be read were given so far, at least 1."""
        return max(1, sum(check(posed, text).read for text in self._texts(posed)))

    def _texts(self, posed: Posed) -> list[str]:
        """The different answers given to a question, oldest first; none when they cannot be read."""
        if self._file is None:
            return self._tried.get(posed.id, [])
        try:
            return self._file.different(posed.id, posed.occasion)
        except StoreError:
            return []

    def progress(self) -> Said:
        """How each question stands that was asked in this run or answered before; newest answers count."""
        tried = sorted(self._tried) if self._file is None else \
            sorted({a.question for a in self._file.read() if a.occasion == self.mode})
        lines = [f"{_aim(name)}: {self._standing(name)}." for name in dict.fromkeys([*self._asked, *tried])]
        return _said(f"Answered so far: {len(tried)}.", *lines, headline=True)

    def _standing(self, name: str) -> str:
        """The newest answer to a question, in a word or two; in assessment only whether it can be read."""
        try:
            posed = self.posed(name)
        except Refusal:
            return "answered"  # kept by another version of the course, which had such a question
        texts = self._texts(posed)
        if not texts:
            return "not answered"
        verdict = check(posed, texts[-1] if self._file is None else self._latest(posed))
        if self.mode == "assessment":
            return UNREAD if verdict.status in FORM else "answered"
        if verdict.status == "noted":
            return "noted, not judged here"
        return UNREAD if not verdict.read else "right" if verdict.right else "wrong"
