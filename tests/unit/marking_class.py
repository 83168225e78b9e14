"""An invented class: learners of different ability answer a paper by the roads that the bank knows.

A learner is right with the chance that the two-parameter logistic law gives (F. M. Lord, Applications of
Item Response Theory to Practical Testing Problems, 1980, chapter 2, from memory). Who is wrong takes one
of the question's wrong roads, options or orders, or now and then gives a figure on no road at all.
"""

import json
import random
from dataclasses import asdict
from math import exp

from rollmodel import units
from rollmodel.questions import bank, pose, right_answer
from rollmodel.questions.answers import FORMAT, FORMAT_VERSION, Answer
from rollmodel.questions.records import Choice, Numeric, Open, Ordering

TEXT = "The rear link one hole in: the front is short of grip, and this loads its tyres more evenly."


def closed_questions(number, without=()):
    """So many questions of the assessment pool with a key, spread over the lessons but those left out."""
    pool = [
        one
        for one in bank.all_questions()
        if "assessment" in one.pools and not isinstance(one, Open) and one.lesson not in without
    ]
    step = len(pool) / number
    return [pool[int(step * place)] for place in range(number)]


def chance_right(ability, hardness, steepness=1.7):
    return 1 / (1 + exp(-steepness * (ability - hardness)))


def wrong_text(posed, stream):
    """A wrong answer as a learner would type it."""
    question = posed.question
    if isinstance(question, Choice):
        return stream.choice([letter for letter, name in posed.letters.items() if name != posed.key])
    if isinstance(question, Ordering):
        orders = [order for _, order in posed.wrong_answers] or [posed.key[1:] + posed.key[:1]]
        return " ".join(map(posed.letter_of, stream.choice(orders)))
    if stream.random() < 0.15:
        return figure(posed, posed.key * stream.uniform(1.2, 1.4))
    return figure(posed, stream.choice(posed.wrong_answers)[1])


def figure(posed, value):
    shown = units.to_display(value, posed.question.kind, posed.family)
    return f"{shown:.4g} {units.label(posed.question.kind, posed.family)}".strip()


def answer(posed, text, second=0):
    """An answer as the package keeps it."""
    return Answer(
        posed.id,
        posed.question.version,
        posed.occasion,
        posed.family,
        text,
        f"2025-03-04T09:{second // 60:02d}:{second % 60:02d}+00:00",
        "0.1.0",
    )


def file_text(code_word, answers, mode="assessment", **changed):
    """The text of an answer file."""
    content = {
        "format": FORMAT,
        "format_version": FORMAT_VERSION,
        "code_word": code_word,
        "mode": mode,
        "answers": [one if isinstance(one, dict) else asdict(one) for one in answers],
    }
    return json.dumps(content | changed, indent=1, ensure_ascii=False) + "\n"


def write(folder, code_word, answers, mode="assessment", name=None):
    """One learner's file under the name that the package gives it."""
    path = folder / (name or f"answers-{code_word.replace(' ', '_')}-{mode}.json")
    path.write_text(file_text(code_word, answers, mode), encoding="utf-8")
    return path


def all_right(code_word, questions, mode="assessment"):
    """Every question answered right."""
    posed = [pose(question, code_word, "metric", mode) for question in questions]
    return [
        answer(one, TEXT if isinstance(one.question, Open) else right_answer(one), place)
        for place, one in enumerate(posed)
    ]


class InventedClass:
    """Learners with an ability, questions with a hardness.

    Parameters
    ----------
    number : int
    questions : list of Question
    seed : int
    planted : dict
        Question id to a function of ability and hardness that gives the chance to be right; the usual
        law for all others.
    common_wrong : dict
        Question id to a function of ability and hardness: the chance to take the question's first wrong
        road when it is not right, as able learners do when a key is wrong.
    """

    def __init__(self, number, questions, seed=1, planted=None, common_wrong=None):
        stream = random.Random(seed)
        self.questions, self.seed = questions, seed
        self.planted, self.common_wrong = planted or {}, common_wrong or {}
        self.hardness = {one.id: stream.uniform(-1.5, 1.2) for one in questions}
        self.ability = [stream.gauss(0, 1) for _ in range(number)]

    def code_word(self, learner):
        return f"learner {learner}"

    def answers(self, learner):
        stream = random.Random(f"{self.seed} {learner}")
        numbered = enumerate(self.questions)
        return [self._answer(question, learner, place, stream) for place, question in numbered]

    def _answer(self, question, learner, place, stream):
        posed = pose(question, self.code_word(learner), "metric", "assessment")
        ability, hardness = self.ability[learner], self.hardness[question.id]
        right = stream.random() < self.planted.get(question.id, chance_right)(ability, hardness)
        text = right_answer(posed) if right else self._wrong(posed, ability, hardness, stream)
        return answer(posed, text, place)

    def _wrong(self, posed, ability, hardness, stream):
        common = self.common_wrong.get(posed.id)
        if common and stream.random() < common(ability, hardness) and isinstance(posed.question, Numeric):
            return figure(posed, posed.wrong_answers[0][1])
        return wrong_text(posed, stream)

    def write(self, folder):
        for learner in range(len(self.ability)):
            write(folder, self.code_word(learner), self.answers(learner))
        return folder
