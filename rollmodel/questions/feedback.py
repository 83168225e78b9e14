"""Feedback in stages: a hint first, then the process, the worked steps last."""

from __future__ import annotations

import html
from dataclasses import dataclass

from rollmodel.questions.checking import FORM, Verdict, right_answer
from rollmodel.questions.posed import Posed
from rollmodel.questions.records import Choice, Open

MODES = ("practice", "assessment")
# Characters that Markdown would act on, as character references: shown, and nothing more.
_LITERAL = {ord(mark): f"&#{ord(mark)};" for mark in "*_`$\\[]~|"}


def literal(text: str) -> str:
    """Plain text as Markdown that shows it letter for letter, whatever somebody typed."""
    return html.escape(text).translate(_LITERAL)


@dataclass(frozen=True)
class Feedback:
    """What a learner is told: a headline, then lines; ``stage`` names how far it went."""

    headline: str
    lines: tuple[str, ...] = ()
    stage: str = ""  # "", "hint", "process", "worked"

    def __str__(self):
        return "\n".join((self.headline, *self.lines))

    def as_markdown(self) -> str:
        """The same with what the learner typed made harmless."""
        first = f"**{literal(self.headline)}**"
        return "\n\n".join((first, *map(literal, self.lines)))


def feedback(posed: Posed, verdict: Verdict, attempt: int = 1, mode: str = "practice") -> Feedback:
    """What to say to an answer.

    Parameters
    ----------
    posed : Posed
    verdict : Verdict
    attempt : int
        Counted from 1: how many different answers that could be read this learner has given.
    mode : {"practice", "assessment"}
        In assessment only the form of an answer is spoken of, never what it is worth.
    """
    if mode not in MODES:
        raise ValueError(f"mode: wanted one of {', '.join(MODES)}, given {mode!r}")
    if mode == "assessment":
        return _assessed(verdict)
    if verdict.status == "not answered":
        return Feedback(verdict.message, (posed.wanted,))
    if verdict.status == "noted":
        return _self_check(posed, verdict)
    if verdict.right:
        return Feedback(verdict.message, _after_right(posed))
    if not verdict.read:
        return Feedback(verdict.message, (posed.wanted,))
    return _staged(posed, verdict, attempt)


def _assessed(verdict: Verdict) -> Feedback:
    if verdict.status in FORM:
        return Feedback(verdict.message)
    return Feedback(f"Noted: {verdict.given.strip()}")


def _after_right(posed: Posed) -> tuple[str, ...]:
    """A right choice is told why; a right number needs no more."""
    return tuple(posed.worked) if isinstance(posed.question, Choice) else ()


def _staged(posed: Posed, verdict: Verdict, attempt: int) -> Feedback:
    """Belief before question: what this learner got wrong comes before the general hint."""
    belief = verdict.belief
    hint = belief.hint if belief else posed.filled(posed.question.hint)
    lines, stage = [f"Hint: {hint}"], "hint"
    if attempt >= 2:
        lines += [belief.why] if belief else []
        lines += [f"How to go about it: {posed.filled(posed.question.process)}"]
        stage = "process"
    if attempt >= 3:
        lines += ["Worked:", *posed.worked]
        lines += [] if isinstance(posed.question, Open) else [f"Answer: {right_answer(posed)}."]
        stage = "worked"
    return Feedback(verdict.message, tuple(lines), stage)


def _self_check(posed: Posed, verdict: Verdict) -> Feedback:
    """An open answer in practice: the learner holds it against the list and the model's figures."""
    wanted = [f"- {posed.filled(criterion.text)}" for criterion in posed.question.rubric]
    return Feedback(verdict.message, ("Hold yours against this list. A full answer:", *wanted,
                                      "What the model says:", *posed.worked), "worked")
