"""The question bank: modules named after their lesson, each with a tuple ``QUESTIONS``."""

from __future__ import annotations

from functools import lru_cache
from importlib import import_module
from pkgutil import iter_modules

from rollmodel.questions.draws import Draw, tidy_code_word
from rollmodel.questions.posed import Posed, pose
from rollmodel.questions.records import Question

CLASS_CODE_WORD = "the whole class"  # a class sees one set of numbers


class UnknownQuestion(KeyError):
    """No question of that name, or none of that sort in that lesson; one plain sentence."""

    def __str__(self):
        return self.args[0]


@lru_cache(maxsize=1)
def all_questions() -> tuple[Question, ...]:
    """Every question in the bank, lesson by lesson in the order written; everyday ones are lesson 0."""
    names = sorted(module.name for module in iter_modules(__path__) if module.name.startswith("lesson_"))
    return tuple(question for name in names for question in import_module(f"{__name__}.{name}").QUESTIONS)


def question(id: str) -> Question:
    """One question by its id."""
    for one in all_questions():
        if one.id == id:
            return one
    raise UnknownQuestion(f"question: no question is called {id!r}")


def questions_for(lesson: int, pool: str | None = None) -> list[Question]:
    """The questions of a lesson, of one pool only when one is named."""
    return [one for one in all_questions() if one.lesson == lesson and (pool is None or pool in one.pools)]


def recall_for(lesson: int, code_word: str, family: str = "metric") -> list[Posed]:
    """Three short questions from one, two and several lessons ago, with numbers of their own.

    Early lessons have fewer behind them: then the nearest lessons stand in, down to everyday
    questions on springs and weights.
    """
    word, occasion = tidy_code_word(code_word), f"recall {lesson}"
    stream = Draw(word, occasion)
    chosen: list[Question] = []
    for source in _recall_lessons(lesson, stream):
        left = [one for one in questions_for(source, "recall") if one not in chosen]
        chosen.append(stream.pick(left))
    return [pose(one, word, family, occasion) for one in chosen]


def _recall_lessons(lesson: int, stream: Draw) -> list[int]:
    """The lessons to ask from: the latest one behind, the one before it, and an older one."""
    behind = [n for n in range(lesson - 1, -1, -1) for _ in questions_for(n, "recall")]
    latest = list(dict.fromkeys(behind))
    chosen = latest[:2] + ([stream.pick(latest[2:])] if latest[2:] else [])
    spare = [n for n in behind if behind.count(n) > 1]
    while len(chosen) < 3:
        chosen.append(next(n for n in reversed(spare) if chosen.count(n) < behind.count(n)))
    return chosen


def class_question(lesson: int, number: int = 1, family: str = "metric",
                   code_word: str = CLASS_CODE_WORD) -> tuple[Posed, Posed]:
    """A question for a show of hands and its twin for after the discussion.

    Parameters
    ----------
    lesson, number : int
        Which lesson, and which of its class questions, counted from 1.
    """
    pairs = [(one, question(one.twin)) for one in questions_for(lesson, "class") if getattr(one, "twin",
                                                                                            None)]
    if not 1 <= number <= len(pairs):
        raise UnknownQuestion(f"class question: lesson {lesson} has {len(pairs)}, wanted number {number}")
    first, twin = (pose(one, code_word, family, "class") for one in pairs[number - 1])
    return first, twin
