"""What an answer is: right, near, come by a known wrong road, wrong, or not to be read."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from rollmodel import units
from rollmodel.car import GRAVITY
from rollmodel.questions.misconceptions import Misconception, misconception
from rollmodel.questions.posed import NEAR, Posed
from rollmodel.questions.records import Choice, Numeric, Open, Ordering
from rollmodel.questions.shown import computed
from rollmodel.typed import joined

LONGEST = 4000  # characters of an open answer that are kept
SHORTEST_REASON = 8  # words; fewer cannot name a change and a reason

READ = ("right", "near", "road", "partly", "wrong", "noted")  # the answer could be read
FORM = ("not answered", "no unit", "unreadable", "not a number", "not an option", "not an order", "too long")
UNREAD = (*FORM, "wrong unit")  # a unit of another kind is more than a fault of form: an assessment is silent

_NUMBER = re.compile(r"\s*[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*", re.ASCII)


@dataclass(frozen=True)
class Verdict:
    """What became of one answer; ``message`` is one plain sentence and never just "wrong"."""

    status: str  # one of READ or UNREAD
    given: str
    message: str
    belief: Misconception | None = None  # the wrong road or option it came by
    value: object = None  # SI float, name of the option, or tuple of names

    @property
    def right(self) -> bool:
        """Right, or so near that only rounding stands between."""
        return self.status in ("right", "near")

    @property
    def read(self) -> bool:
        return self.status in READ


def check(posed: Posed, text) -> Verdict:
    """Hold what a learner typed against the key, which is computed now."""
    given = text if isinstance(text, str) else "" if text is None else str(text)
    if not given.strip():
        return Verdict("not answered", "", "Not answered yet.")
    if len(given) > LONGEST:
        return Verdict("too long", given[:LONGEST], f"Too long: {len(given)} characters, at most {LONGEST} "
                                                    f"are read.")
    ways = {Numeric: _check_numeric, Choice: _check_choice, Ordering: _check_ordering, Open: _check_open}
    return ways[type(posed.question)](posed, given)


def _check_numeric(posed: Posed, given: str) -> Verdict:
    question = posed.question
    try:
        value = units.parse(given, question.kind)
    except units.UnitError as error:
        return _unread(posed, given, error)
    return judge(posed, value, given)


def judge(posed: Posed, value: float, given: str = "") -> Verdict:
    """Where a number in SI lies: on the key, beside it, on a wrong road, or nowhere known."""
    question, key = posed.question, posed.key
    off, tolerance = abs(value - key), question.tolerance.of(key)
    if off <= tolerance:
        return _right(given, value)
    if off <= NEAR * tolerance:
        return Verdict("near", given, "Right road, rounded too early: keep four figures until the end.",
                       value=value)
    hit = [(abs(value - answer), belief) for belief, answer in posed.wrong_answers
           if abs(value - answer) <= max(question.tolerance.of(answer), 1e-9 * abs(key))]
    if hit:
        belief = min(hit, key=lambda pair: pair[0])[1]
        return Verdict("road", given, f"Not yet. The slip behind your figure: {belief.name}.", belief, value)
    return Verdict("wrong", given, _size_message(value, key, posed), value=value)


def _right(given: str, value) -> Verdict:
    """The answer is said again, so that a page of answers can be read later."""
    return Verdict("right", given, f"Right: {given.strip()}", value=value)


def _size_message(value: float, key: float, posed: Posed) -> str:
    """A first pointer for an answer that no known road leads to, without giving the key."""
    if not math.isfinite(value) or key == 0 or value == 0 or value * key < 0:
        return ("Not yet, and no slip known here leads to this figure. "
                "Start from a sketch, and go one step at a time.")
    ratio = value / key
    size = "too large" if ratio > 1 else "too small"
    if not 0.2 <= ratio <= 5:
        size = f"far {size}"
    return f"Not yet: {size}, and no slip known here leads to this figure."


def _unread(posed: Posed, given: str, error: units.UnitError) -> Verdict:
    kind = posed.question.kind
    if kind == "load" and (verdict := _read_as_mass(posed, given)):
        return verdict
    if _NUMBER.fullmatch(joined(given)) and kind != "ratio":
        return Verdict("no unit", given, f'The unit is missing. A figure alone can mean anything: '
                                         f'write it like "{units.example(kind, posed.family)}".')
    status = "unreadable" if _NUMBER.match(given) else "not a number"
    if isinstance(error, units.OtherKind):
        status = "wrong unit"
    return Verdict(status, given, f"This could not be read: {error}.")


def _read_as_mass(posed: Posed, given: str) -> Verdict | None:
    """A load answered in kg or lb: the belief is known, and the figure may be right as a mass."""
    try:
        mass = units.parse(given, "mass")
    except units.UnitError:
        return None
    belief = misconception("lb for lbf" if "lb" in given else "mass for weight")
    if judge(posed, mass * GRAVITY).right:
        return Verdict("road", given, "The figure is right, its unit is not: kg and lb are masses. A load is "
                                      "a force; write it in N or lbf.", belief)
    return Verdict("wrong unit", given, "A load is a force: write it in N or lbf. kg and lb are masses.",
                   belief)


def _letters(text: str) -> list[str]:
    return re.findall(r"[A-Z]", text.upper())


def _check_choice(posed: Posed, given: str) -> Verdict:
    letter = given.strip().strip(".)(").upper()
    if letter not in posed.letters:
        return Verdict("not an option", given, f"Wanted one letter of {', '.join(posed.letters)}, given "
                                               f"{units.quoted(given)}.")
    name = posed.letters[letter]
    if name == posed.key:
        return _right(given, name)
    belief = next(option.belief for option in posed.question.options if option.name == name)
    return Verdict("road", given, f"Not yet. The slip behind this answer: {belief.name}.", belief, name)


def _check_ordering(posed: Posed, given: str) -> Verdict:
    letters = _letters(given)
    if sorted(letters) != sorted(posed.letters) or re.search(r"[^A-Za-z\s,;<.>-]", given):
        return Verdict("not an order", given, f"Wanted each of the letters {', '.join(posed.letters)} once, "
                                              f"given {units.quoted(given)}.")
    order = tuple(posed.letters[letter] for letter in letters)
    key = posed.key
    if order == key:
        return _right(given, order)
    for belief, wrong in posed.wrong_answers:
        if order == wrong:
            message = f"Not yet. The slip behind this order: {belief.name}."
            return Verdict("road", given, message, belief, order)
    placed = sum(a == b for a, b in zip(order, key, strict=True))
    if order == key[::-1]:
        return Verdict("wrong", given, "Not yet: this is the right order back to front. Read once more which "
                                       "comes first.", value=order)
    return Verdict("partly" if placed else "wrong", given,
                   f"Not yet: {placed} of {len(key)} stand where they belong.", value=order)


def _check_open(posed: Posed, given: str) -> Verdict:
    if len(given.split()) < SHORTEST_REASON:
        return Verdict("noted", given, "Noted. It is very short: say which change, and why.", value=given)
    return Verdict("noted", given, "Noted. A person reads this one.", value=given)


def right_answer(posed: Posed) -> str:
    """The right answer as a learner would type it: a figure with its unit, a letter, letters in order."""
    question = posed.question
    if isinstance(question, Numeric):
        return computed(posed.key, question.kind, posed.family)
    if isinstance(question, Choice):
        return posed.letter_of(posed.key)
    if isinstance(question, Ordering):
        return " ".join(posed.letter_of(name) for name in posed.key)
    return ""
