"""What the parts of lesson 11 share: the change that is tested, and the runs that were last read."""

from __future__ import annotations

from rollmodel.advice import hole_pair
from rollmodel.advice.kept import every_reading, kept_choice
from rollmodel.car import Car
from rollmodel.panels import session
from rollmodel.panels.lesson import FIRST_CAR, wanting
from rollmodel.reports.run_sheet import change_between
from rollmodel.sheets import training_car, training_cars
from rollmodel.testday.known import Known, known
from rollmodel.testday.wishes import made, moves


def shared(lesson) -> dict:
    """Kept for the lesson as long as the kernel runs."""
    return session.remembered(lesson.name, "test day")


@wanting("11")
def lacking(car: Car) -> str:
    """What a car lacks for this lesson; empty when there is a change to test."""
    return "" if moves(car) else "a bar with another hole to go to"


def known_car(lesson) -> Known:
    """The lesson's car as its sheet has it; the sheet is read once."""
    of, kept = lesson.car, shared(lesson)
    if kept.get("known", (None, None))[0] != of:
        kept["known"] = of, known(of, lesson.sheet)
    return kept["known"][1]


def tested(lesson) -> Car:
    """The car that is tested: the lesson's, or a training car where that one has no change to test."""
    return training_car(FIRST_CAR) if lacking(lesson.car) else lesson.car


def tested_known(lesson) -> Known:
    """The tested car as its sheet has it."""
    if lacking(lesson.car):
        return known(training_car(FIRST_CAR), training_cars()[FIRST_CAR])
    return known_car(lesson)


def tested_title(lesson) -> str:
    """The tested car in a sentence."""
    return f"the {tested(lesson).title}" if lacking(lesson.car) else lesson.the_car


def move_words(car: Car) -> dict[str, tuple[str, int]]:
    """Every change that can be tested, in words."""
    return {change_between(car, made(car, *move)).rstrip("."): move for move in moves(car)}


def first_move(car: Car) -> tuple[str, int]:
    """The advice's first choice for what the sheet itself complains of; else the first there is.

    Raises
    ------
    ValueError
        A car without a choice of holes.
    """
    if not moves(car):
        raise ValueError("this car has no bar with another hole, so there is no change to test")
    end = every_reading(car)[hole_pair(car)].limit_end
    advised = kept_choice(car, "oversteer" if end == "rear" else "understeer", "middle").first
    return (advised.end, advised.to_hole) if advised else moves(car)[-1]


def move_of(lesson) -> tuple[str, int]:
    """The change that the plan chose, or the first one."""
    kept = shared(lesson).get("move", {})
    return kept.get(tested(lesson)) or first_move(tested(lesson))


def choose_move(lesson, move: tuple[str, int]) -> None:
    """Test another change."""
    shared(lesson).setdefault("move", {})[tested(lesson)] = move
