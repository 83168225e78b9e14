"""A question put to one learner: numbers drawn from the code word, text filled in, letters dealt."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import combinations, pairwise
from math import isfinite
from string import Formatter
from types import SimpleNamespace

from rollmodel.questions.draws import Draw, tidy_code_word
from rollmodel.questions.misconceptions import Misconception
from rollmodel.questions.records import Choice, Numeric, Ordering, Question, in_order
from rollmodel.questions.roads import slips
from rollmodel.questions.shown import computed
from rollmodel.units import FAMILIES, example

TRIES = 300
NEAR = 3.0  # so many tolerances from the key an answer still counts as a slip of rounding
LETTERS = "ABCDEFGH"


class DrawError(RuntimeError):
    """For whoever writes questions: no numbers were found that keep the wrong roads apart."""


def wrong_answers(question: Numeric, numbers) -> list[tuple[Misconception, float]]:
    """Every wrong road's belief and answer in SI, the question's own first, then slips of unit and sign."""
    key = question.key(numbers)
    own = [(road.belief, float(road.answer(question.key, numbers))) for road in question.roads]
    return own + [(belief, key * factor) for belief, factor in slips(question.kind, question.signed) if key]


def clashes(question: Question, numbers) -> list[str]:
    """Why these numbers will not do; empty when they will."""
    if not question.sound(numbers):
        return ["not a sound set of numbers"]
    if isinstance(question, Numeric):
        return _numeric_clashes(question, numbers) + [
            clash for step in question.steps for clash in _numeric_clashes(question.step(step.name), numbers)]
    if isinstance(question, Ordering):
        return _ordering_clashes(question, numbers)
    return []


def _numeric_clashes(question: Numeric, numbers) -> list[str]:
    """Windows that meet: about the key (the wider one), and about each wrong road."""
    tolerance, key = question.tolerance, question.key(numbers)
    roads = wrong_answers(question, numbers)
    found = [f"{question.id}: {belief.id} gives no number" for belief, value in roads if not isfinite(value)]
    found += [f"{question.id}: {belief.id} = right" for belief, value in roads
             if abs(value - key) <= NEAR * tolerance.of(key) + tolerance.of(value)]
    return found + [f"{question.id}: {one.id} = {two.id}" for (one, a), (two, b) in combinations(roads, 2)
                    if one is not two and abs(a - b) <= tolerance.of(a) + tolerance.of(b)]


def _ordering_clashes(question: Ordering, numbers) -> list[str]:
    values = sorted(question.values(numbers).values())
    close = [f"{question.id}: neighbours too close" for a, b in pairwise(values)
             if b - a <= question.gap * max(abs(a), abs(b))]
    orders = [("right", question.key(numbers)), *wrong_orders(question, numbers)]
    return close + [f"{question.id}: {a} = {b}" for (a, one), (b, two) in combinations(orders, 2)
                    if one == two and a is not b]


def wrong_orders(question: Ordering, numbers) -> list[tuple[Misconception, tuple[str, ...]]]:
    """Every wrong road's belief and the order to which it leads."""
    return [(road.belief, in_order(road.answer(question.values, numbers))) for road in question.roads]


@dataclass(frozen=True)
class Posed:
    """One question with one learner's numbers."""

    question: Question
    numbers: SimpleNamespace  # SI
    family: str
    code_word: str
    occasion: str
    letters: dict[str, str]  # letter: name of the option or item

    @property
    def id(self) -> str:
        return self.question.id

    @cached_property
    def key(self):
        """The right answer, worked out by the model: SI, a name, or names in order."""
        return self.question.key(self.numbers)

    @cached_property
    def wrong_answers(self) -> list[tuple[Misconception, object]]:
        """Every wrong road's belief and the answer to which it leads."""
        find = wrong_orders if isinstance(self.question, Ordering) else wrong_answers
        return find(self.question, self.numbers)

    @property
    def given(self) -> dict[str, str]:
        """Each given number as it is shown, with its unit."""
        return {name: rule.text(getattr(self.numbers, name), self.family)
                for name, rule in self.question.given.items()}

    @property
    def text(self) -> str:
        """The question's text with its numbers."""
        return self.filled(self.question.text)

    @property
    def options(self) -> list[tuple[str, str]]:
        """Letter and text of each option or item, in the order shown."""
        texts = _texts(self.question)
        return [(letter, self.filled(texts[name])) for letter, name in self.letters.items()]

    @property
    def wanted(self) -> str:
        """What an answer looks like."""
        question = self.question
        if isinstance(question, Numeric):
            return f'A number with its unit, written like "{example(question.kind, self.family)}".'
        if isinstance(question, Choice):
            return f'One letter, {", ".join(self.letters)}.'
        if isinstance(question, Ordering):
            return f'All the letters in the order asked for, like "{" ".join(reversed(self.letters))}".'
        return "A few sentences: which change, and why."

    @property
    def worked(self) -> list[str]:
        """The worked step by step solution with these numbers: it holds the answer."""
        return [self.filled(line) for line in self.question.worked]

    def filled(self, template: str) -> str:
        """A template of the question with its given and computed numbers filled in."""
        return template.format(**self.shown) if "{" in template else template

    @cached_property
    def shown(self) -> dict[str, str]:
        """Every number that a template may name, as it is shown: given, worked out, and the answer."""
        digits = 3 if isinstance(self.question, Choice) else 4  # fewer to compare by than to work with
        values = self.given | {name: computed(float(value), kind, self.family, digits)
                               for name, (value, kind) in self.question.workings(self.numbers).items()}
        if isinstance(self.question, Numeric):
            values["answer"] = computed(float(self.key), self.question.kind, self.family)
        return values

    @property
    def stated(self) -> dict[str, str]:
        """The numbers that the question's own text states, with their units."""
        names = [name for _, name, _, _ in Formatter().parse(self.question.text) if name]
        return {name: self.shown[name] for name in names}

    def letter_of(self, name: str) -> str:
        return next(letter for letter, other in self.letters.items() if other == name)

    def step(self, name: str) -> Posed:
        """One step of a numeric question, on the same numbers."""
        return Posed(self.question.step(name), self.numbers, self.family, self.code_word, self.occasion, {})


def _texts(question: Question) -> dict[str, str]:
    if isinstance(question, Choice):
        return {option.name: option.text for option in question.options}
    return dict(question.items) if isinstance(question, Ordering) else {}


def pose(question: Question, code_word: str, family: str = "metric", occasion: str = "practice") -> Posed:
    """A question with the numbers that belong to a code word.

    Parameters
    ----------
    question : Question
    code_word : str
        The learner's own.
    family : {"metric", "US customary"}
        The same car in both, each rounded to what that family would read off.
    occasion : str
        "practice", "assessment", "recall 5" and so on: each has fresh numbers.

    Raises
    ------
    DrawError
        After 300 tries without numbers that keep the wrong roads apart; a fault of the question.
    """
    word = tidy_code_word(code_word)
    seed, drawn = _seed(question, word, occasion), _drawn(question, word, occasion)
    return Posed(question, _numbers(question, drawn, family), family, word, occasion,
                 _dealt(question, seed, drawn))


def _seed(question: Question, word: str, occasion: str) -> tuple:
    return word, question.id, question.version, occasion


@lru_cache(maxsize=4096)
def _drawn(question: Question, word: str, occasion: str) -> dict:
    """The first numbers that keep every road apart in both families."""
    faults: list[str] = []
    for attempt in range(TRIES):
        drawn = question.draw(Draw(*_seed(question, word, occasion), "numbers", attempt))
        found = [fault for family in FAMILIES for fault in clashes(question,
                                                                   _numbers(question, drawn, family))]
        if not found:
            return drawn
        faults += found
    often = max(set(faults), key=faults.count)
    raise DrawError(f"question {question.id!r}, code word {word!r}: no sound numbers in {TRIES} tries; most "
                    f"often: {often}")


def _numbers(question: Question, drawn: dict, family: str) -> SimpleNamespace:
    """The drawn numbers as the learner reads them; those not shown stay as drawn."""
    return SimpleNamespace(**{name: question.given[name].on_step(value,
                                                                 family) if name in question.given else value
                              for name, value in drawn.items()})


def _dealt(question: Question, seed: tuple, drawn: dict) -> dict[str, str]:
    """Letters for options or items. Items never stand in the right order already, nor in its mirror."""
    names = list(_texts(question))
    given_away = []
    if isinstance(question, Ordering):
        key = list(question.key(SimpleNamespace(**drawn)))
        given_away = [key, key[::-1]]
    for deal in range(TRIES):
        order = Draw(*seed, "letters", deal).shuffled(names)
        if order not in given_away:
            break
    return dict(zip(LETTERS, order, strict=False))
