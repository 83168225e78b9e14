"""The paper: which questions an assessment has and what each is worth. No key is in it.

A TOML file. ``[marks]`` names each question, in the order asked, with its marks::

    title = "Bars, first test"
    near = 1.0      # part of the marks for a figure on the right road that was rounded too early
    partly = 0.0    # part of the marks for an order that is right in places

    [marks]
    rate-in-roll = 1
    which-change = 6
"""

from __future__ import annotations

import math
import os
import tomllib
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

import tomlkit

from rollmodel.disk import other_file, read_plain
from rollmodel.marking.harmless import plain
from rollmodel.questions import bank
from rollmodel.questions.records import Open, Question

LARGEST = 200_000  # bytes of a paper
MOST_MARKS = 100
MOST_FAULTS = 20  # told at once
LONGEST_TITLE = 200  # characters
FIELDS = ("title", "near", "partly", "marks")
ASKED_BY_CLASS = 0.1  # without a paper: a question counts when this part of the class answered it


class PaperError(ValueError):
    """A paper that cannot be used; one message with every fault."""


@dataclass(frozen=True)
class Paper:
    """Questions and marks.

    Parameters
    ----------
    title : str
    marks : Mapping[str, float]
        Question id to marks, in the order asked.
    near, partly : float
        Part of the marks, 0 to 1: for a figure rounded too early, for an order right in places.
    given : bool
        False when it was made from what the class answered.
    """

    title: str
    marks: Mapping[str, float]
    near: float = 1.0
    partly: float = 0.0
    given: bool = field(default=True, compare=False)

    @property
    def questions(self) -> list[Question]:
        """In the order asked."""
        return [bank.question(name) for name in self.marks]

    @property
    def most(self) -> float:
        """All the marks there are."""
        return sum(self.marks.values())


def usual_marks(question: Question) -> float:
    """One for a question with a key; for an open one what its rubric adds up to."""
    return float(question.full_marks) if isinstance(question, Open) else 1.0


def paper_of(title: str, questions: Iterable[Question], given: bool = True) -> Paper:
    """A paper with the usual marks."""
    return Paper(title, {one.id: usual_marks(one) for one in questions}, given=given)


def paper_of_class(answered: Counter, files: int) -> Paper:
    """What stands in for a paper when none is given: the questions that the class answered.

    One learner alone can add no question to everybody's test: a question counts when a tenth of the
    files has an answer to it.

    Parameters
    ----------
    answered : Counter
        Question id to number of files with an answer.
    files : int
    """
    enough = max(1, math.ceil(ASKED_BY_CLASS * files))
    asked = [one for one in bank.all_questions() if answered[one.id] >= enough]
    return paper_of("The questions that this class answered", asked, given=False)


def paper_text(paper: Paper) -> str:
    """The paper as a file."""
    document = tomlkit.document()
    document.add(tomlkit.comment("Which questions are asked and what each is worth. No answer is in here."))
    document.update(
        {
            "title": paper.title,
            "near": paper.near,
            "partly": paper.partly,
            "marks": {name: _tidy(marks) for name, marks in paper.marks.items()},
        }
    )
    return tomlkit.dumps(document)


def _tidy(marks: float) -> float | int:
    return int(marks) if float(marks).is_integer() else marks


def read_paper(path) -> Paper:
    """Read a paper's file.

    Raises
    ------
    PaperError
        The file cannot be read, or something in it is wrong.
    """
    name = plain(os.path.basename(os.fspath(path)), 80)
    mend = "wanted a paper, a TOML text file with a table [marks]: give the name of one"
    try:
        data = read_plain(path, LARGEST + 1)
        if other := other_file(data):
            raise PaperError(f"{name}: this is {other}; {mend}")
        if len(data) > LARGEST:
            raise PaperError(f"{name}: far too large for a paper, at most {LARGEST} bytes are read")
        content = tomllib.loads(data.decode("utf-8-sig"))
    except OSError as error:
        raise PaperError(f"{name}: this paper cannot be read ({error.strerror or error}); {mend}") from None
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise PaperError(f"{name}: not UTF-8 text, first at line {line}; {mend}") from None
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise PaperError(f"{name}: this is not TOML text: {plain(error, 120)}; {mend}") from None
    return checked(content, name)


def checked(content: dict, name: str) -> Paper:
    """A paper from its content, with every fault told at once."""
    faults = [
        f"{plain(key, 40)}: a paper has no such field; it has {', '.join(FIELDS)}"
        for key in content
        if key not in FIELDS
    ]
    faults += title_faults(content.get("title", ""))
    faults += _part_faults(content, "near") + _part_faults(content, "partly")
    faults += _marks_faults(content.get("marks"))
    if faults:
        more = [f"and {len(faults) - MOST_FAULTS} more"] if len(faults) > MOST_FAULTS else []
        raise PaperError("\n".join([f"{name}: {fault}" for fault in faults[:MOST_FAULTS]] + more))
    return Paper(
        content.get("title", name),
        content["marks"],
        float(content.get("near", 1.0)),
        float(content.get("partly", 0.0)),
    )


def title_faults(title) -> list[str]:
    """What is wrong with a title: it is read by people, on one line."""
    if not isinstance(title, str) or len(title) > LONGEST_TITLE:
        given = f", given {len(title)}" if isinstance(title, str) else ""
        return [f"title: wanted a text of at most {LONGEST_TITLE} characters{given}"]
    unseen = next((sign for sign in title if not sign.isprintable()), None)
    if unseen is None:
        return []
    return [f"title: wanted signs that can be seen, given U+{ord(unseen):04X} in it; take it out"]


def _part_faults(content: dict, field_name: str) -> list[str]:
    value = content.get(field_name, 0.0)
    if _is_number(value) and 0 <= value <= 1:
        return []
    return [f"{field_name}: wanted a number from 0 to 1, given {plain(value, 40)}"]


def _marks_faults(marks) -> list[str]:
    if not isinstance(marks, dict) or not marks:
        return ["marks: wanted a table [marks] with a line for each question, such as rate-in-roll = 1"]
    return [fault for name, value in marks.items() for fault in _line_faults(name, value)]


def _line_faults(name: str, value) -> list[str]:
    try:
        bank.question(name)
    except bank.UnknownQuestion:
        return [f"marks: no question is called {plain(name, 60)!r}"]
    if _is_number(value) and 0 < value <= MOST_MARKS:
        return []
    return [f"marks: {name}: wanted a number above 0 and up to {MOST_MARKS}, given {plain(value, 40)}"]


def fit_for_assessment(paper: Paper) -> Paper:
    """The paper, when an assessment can ask all of it.

    Raises
    ------
    PaperError
        A question is for practice only: a notebook in assessment mode does not ask it.
    """
    unfit = [question.id for question in paper.questions if "assessment" not in question.pools]
    if unfit:
        raise PaperError(f"for practice only, not for an assessment: {plain(', '.join(unfit))}")
    return paper


def _is_number(value) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value)
