"""What a learner is told about a marked paper: for each question, and over the whole."""

from __future__ import annotations

from collections import defaultdict

from rollmodel.marking.scoring import BY_HAND, Item, Marked
from rollmodel.questions.checking import UNREAD, right_answer
from rollmodel.questions.records import Open

OFTEN = 2  # so many questions by one road are no chance any more


def comment(item: Item) -> str:
    """One or two sentences on one answer: the road behind it and what is really so."""
    verdict = item.verdict
    if verdict.status in ("right", *BY_HAND) or not verdict.given.strip():
        return {"right": "Right."}.get(verdict.status, verdict.message)
    if isinstance(item.question, Open):
        return _on_open(item)
    if verdict.status == "near":
        return "The right road, rounded too early: keep four figures until the end."
    if verdict.belief is not None:
        return f"{verdict_message(item)} {verdict.belief.why}"  # as practice says it
    return _without_road(item)


def _on_open(item: Item) -> str:
    if item.verdict.status != "noted":
        return verdict_message(item)
    return " ".join(item.said)


def _without_road(item: Item) -> str:
    if item.verdict.status in UNREAD:
        return verdict_message(item)
    return f"{verdict_message(item)} How to go about it: {item.posed.filled(item.question.process)}"


def verdict_message(item: Item) -> str:
    """The verdict's own sentence, in the words of a marked paper: there is no next try."""
    message = (
        item.verdict.message.removeprefix("Not yet: ").removeprefix("Not yet, and ").removeprefix("Not yet. ")
    )
    return message[:1].upper() + message[1:]


def right(item: Item) -> str:
    """The right answer as a learner would type it; empty where a person decides."""
    return "" if item.posed is None else right_answer(item.posed)


def over_all(marked: Marked) -> list[str]:
    """What runs through a whole paper: roads taken more than once, lesson by lesson marks."""
    return [*_roads_again(marked), _by_lesson(marked)]


def _roads_again(marked: Marked) -> list[str]:
    where = defaultdict(list)
    for item in marked.items:
        if item.verdict.status == "road" and item.verdict.belief is not None:
            where[item.verdict.belief].append(item.question.id)
    return [
        f"The same slip in {len(names)} answers ({', '.join(names)}): {belief.name}. {belief.why}"
        for belief, names in where.items()
        if len(names) >= OFTEN
    ]


def _by_lesson(marked: Marked) -> str:
    given, most = defaultdict(float), defaultdict(float)
    for item in marked.items:
        if not item.waits:
            given[item.question.lesson] += item.marks
            most[item.question.lesson] += item.most
    parts = (f"lesson {lesson}: {given[lesson]:g} of {most[lesson]:g}" for lesson in sorted(most))
    return f"Marks by lesson. {'; '.join(parts)}."
