"""One learner's answers held against keys that are worked out now, from the code word."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256

from rollmodel.marking.harmless import plain
from rollmodel.marking.paper import Paper
from rollmodel.marking.reading import HandedIn, oddities
from rollmodel.marking.rubric import Judged
from rollmodel.questions import bank
from rollmodel.questions.answers import Answer
from rollmodel.questions.checking import UNREAD, Verdict, check
from rollmodel.questions.posed import DrawError, Posed, pose
from rollmodel.questions.records import Open, Question

CANNOT_BE_ASKED = (DrawError, ArithmeticError, LookupError, TypeError, ValueError)
BY_HAND = ("other version", "not marked")  # a person has to decide; no mark is lost for it by the machine


@dataclass(frozen=True)
class Item:
    """One question of the paper for one learner.

    Parameters
    ----------
    question : Question
    most : float
        Marks to be had.
    verdict : Verdict
    marks : float or None
        None while a person has still to read or decide.
    posed : Posed or None
        The question with this learner's numbers; None when it was not answered or cannot be asked again.
    row : str
        Stands for one open answer in the forms that assessors fill; empty for other questions.
    said : tuple of str
        What those who read an open answer said of it.
    """

    question: Question
    most: float
    verdict: Verdict
    marks: float | None
    posed: Posed | None
    row: str = ""
    said: tuple[str, ...] = ()

    @property
    def waits(self) -> bool:
        """A person has still to read it or to decide."""
        return self.marks is None


@dataclass(frozen=True)
class Marked:
    """One learner's marked paper."""

    handed: HandedIn
    items: tuple[Item, ...]
    notes: tuple[str, ...]  # what a person may want to look at

    @property
    def marks(self) -> float:
        """Marks given so far."""
        return sum(item.marks for item in self.items if item.marks is not None)

    @property
    def waiting(self) -> float:
        """Marks on which a person has still to decide."""
        return sum(item.most for item in self.items if item.waits)


def mark(handed: HandedIn, paper: Paper, by_people: Mapping[str, Judged] | None = None) -> Marked:
    """Mark what one learner handed in.

    Parameters
    ----------
    handed : HandedIn
    paper : Paper
    by_people : Mapping, optional
        What assessors made of open answers, by the row of their form.
    """
    counting = counting_answers(handed)
    items = tuple(
        _item(question, paper, handed, counting.get(question.id), by_people or {})
        for question in paper.questions
    )
    return Marked(handed, items, (*oddities(handed), *_notes(handed, paper, items)))


def counting_answers(handed: HandedIn) -> dict[str, Answer]:
    """The answer to each question that counts.

    In an assessment the latest: until it is handed in an answer may be thought over. In practice the
    first that could be read: the later ones were given after help.
    """
    if handed.mode == "assessment":
        return {answer.question: answer for answer in handed.answers}
    found: dict[str, Answer] = {}
    for answer in (one for one in handed.answers if "/" not in one.question):  # steps are help, not answers
        before = found.get(answer.question)
        if before is None or not _can_be_read(before, handed):
            found[answer.question] = answer
    return found


def _can_be_read(answer: Answer, handed: HandedIn) -> bool:
    try:
        return _asked_again(answer, handed)[1].read
    except CANNOT_BE_ASKED:
        return False


def _asked_again(answer: Answer, handed: HandedIn) -> tuple[Posed, Verdict]:
    """The question with the numbers that this learner had, and what became of the answer."""
    posed = pose(bank.question(answer.question), handed.code_word, answer.family, handed.mode)
    return posed, check(posed, answer.text)


def _item(
    question: Question, paper: Paper, handed: HandedIn, answer: Answer | None, by_people: Mapping
) -> Item:
    most = paper.marks[question.id]
    if answer is None:
        return Item(question, most, Verdict("not answered", "", "Not answered."), 0.0, None)
    if answer.question_version != question.version:
        return Item(question, most, _other_version(answer, question), None, None)
    try:
        posed, verdict = _asked_again(answer, handed)
    except CANNOT_BE_ASKED as error:
        return Item(question, most, _broken(answer, error), None, None)
    if isinstance(question, Open) and verdict.status == "noted":
        return _open_item(question, most, verdict, posed, row_of(handed, answer), by_people)
    return Item(question, most, verdict, _part(verdict, paper) * most, posed)


def _open_item(question, most: float, verdict: Verdict, posed: Posed, row: str, by_people: Mapping) -> Item:
    judged = by_people.get(row, Judged(None, ("A person has still to read it.",)))
    return Item(
        question, most, verdict, None if judged.part is None else judged.part * most, posed, row, judged.said
    )


def _other_version(answer: Answer, question: Question) -> Verdict:
    return Verdict(
        "other version",
        answer.text,
        f"Given to version {answer.question_version} of this question (package "
        f"{plain(answer.package_version, 40)}); this package has version {question.version} and cannot work "
        "out that key. Mark it with the package that it was given with, or by hand.",
    )


def _broken(answer: Answer, error: Exception) -> Verdict:
    return Verdict(
        "not marked",
        answer.text,
        f"The question could not be asked again ({type(error).__name__}: {error}). Mark it by hand, and "
        "tell whoever keeps this package.",
    )


def _part(verdict: Verdict, paper: Paper) -> float:
    """Part of the marks for an answer that has a key."""
    return {"right": 1.0, "near": paper.near, "partly": paper.partly}.get(verdict.status, 0.0)


def row_of(handed: HandedIn, answer: Answer) -> str:
    """Stands for one open answer of one file: another text, another row."""
    words = (handed.name, handed.code_word, answer.question, answer.text)
    digest = sha256("\x1f".join(words).encode("utf-8", "backslashreplace")).hexdigest()
    return f"r{digest[:15]}"  # a letter first: spreadsheets turn 12e45 into a number


def _of_other_versions(handed: HandedIn, items) -> list[str]:
    """One line for a learner with answers to other versions of questions, and how to settle them."""
    names = [item.question.id for item in items if item.verdict.status == "other version"]
    if not names:
        return []
    packages = sorted({answer.package_version for answer in handed.answers if answer.question in names})
    return [
        f"{len(names)} answers to questions of another version, given with package "
        f"{plain(', '.join(packages), 80)}: they wait, and are left out of the class's figures. Mark this "
        "file alone with that package, or these answers by hand, and write the marks in a list of your own: "
        f"{', '.join(names)}"
    ]


def _notes(handed: HandedIn, paper: Paper, items) -> list[str]:
    """What is odd about the answers, and what a person should read."""
    notes = [
        f"{item.question.id}: {item.verdict.message}" for item in items if item.verdict.status == "not marked"
    ]
    notes += _of_other_versions(handed, items)
    unread = [
        item.question.id
        for item in items
        if item.verdict.status in UNREAD and item.verdict.status != "not answered"
    ]
    if unread:
        notes.append(f"could not be read as an answer, no marks: {', '.join(unread)}; look at what was typed")
    extra = sorted({answer.question for answer in handed.answers} - set(paper.marks))
    if extra and handed.mode == "assessment":
        notes.append(f"answered though not on the paper: {plain(', '.join(extra))}")
    return notes
