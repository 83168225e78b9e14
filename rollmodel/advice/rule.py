"""The trade's rule for the middle of a corner, and the holes that are free to follow it.

Understeer: soften the front bar or stiffen the rear. Oversteer: soften the rear or stiffen the
front. (Common practice.) Nothing here asks the model; the model's word on it is in the other files.
"""

from dataclasses import dataclass

from rollmodel.car import Car

SYMPTOMS = ("understeer", "oversteer")
PHASES = ("entry", "middle", "exit")
DIRECTIONS = ("softer", "stiffer")
ENDS = ("front", "rear")


def one_of(name: str, value: str, words) -> str:
    """The value itself, or one plain message."""
    if value not in words:
        raise ValueError(f"{name}: wanted one of {', '.join(words)}, given {value!r}")
    return value


def other_end(end: str) -> str:
    return "rear" if end == "front" else "front"


def opposite(direction: str) -> str:
    return "softer" if direction == "stiffer" else "stiffer"


def end_that_slides(symptom: str) -> str:
    """The end that gives up first in the driver's words: front in understeer, rear in oversteer."""
    return {"understeer": "front", "oversteer": "rear"}[one_of("symptom", symptom, SYMPTOMS)]


def trade_rule(symptom: str) -> dict[str, str]:
    """End to direction: the sliding end softer, the other end stiffer (common practice).

    Examples
    --------
    >>> trade_rule("understeer")
    {'front': 'softer', 'rear': 'stiffer'}
    """
    sliding = end_that_slides(symptom)
    return {end: "softer" if end == sliding else "stiffer" for end in ENDS}


def towards_cure(symptom: str) -> int:
    """Sign of the change in (front limit less rear limit) that cures: +1 understeer, -1 oversteer."""
    return 1 if end_that_slides(symptom) == "front" else -1


def free_holes(car: Car, end: str, direction: str) -> list[int]:
    """Holes beyond the one in use in a direction, nearest first; none without a bar."""
    axle = car.axle(end)
    if axle.bar is None:
        return []
    if one_of("direction", direction, DIRECTIONS) == "stiffer":
        return list(range(axle.hole + 1, axle.positions + 1))
    return list(range(axle.hole - 1, 0, -1))


@dataclass(frozen=True)
class NextHole:
    """The next hole in a direction; where there is none, what the other end offers instead."""

    end: str
    direction: str
    hole: int | None  # counted from 1; None: nothing left here
    has_bar: bool
    other_end: str
    other_direction: str  # the direction there that moves the balance the same way
    other_hole: int | None
    message: str


def what_now(car: Car, end: str, direction: str) -> NextHole:
    """The next hole in a direction, or the message that nothing is left there and what else there is.

    A softer front moves the balance the same way as a stiffer rear, and the mirror (common practice).

    Raises
    ------
    ValueError
        An end or a direction that is not one of these.
    """
    one_of("end", end, ENDS)
    here, other = free_holes(car, end, direction), other_end(end)
    there = free_holes(car, other, opposite(direction))
    hole, other_hole = (holes[0] if holes else None for holes in (here, there))
    has_bar = car.axle(end).bar is not None
    return NextHole(end, direction, hole, has_bar, other, opposite(direction), other_hole,
                    _message(end, direction, hole, has_bar, other, other_hole))


def _message(end, direction, hole, has_bar, other, other_hole):
    if hole is not None:
        return f"The next {direction} {end} position is number {hole}."
    here = f"Nothing left here: no {direction} {end} position." if has_bar else f"No bar at the {end}."
    if other_hole is None:
        return f"{here} The {other} end has nothing for this balance either."
    return (
        f"{here} What about the other end? "
        f"By the rule, {other} {opposite(direction)}, to position {other_hole}, moves the balance "
        "the same way."
    )


def places_apart(one: float, other: float, fewest: int = 3) -> int:
    """Decimals at which two numbers that are told apart no longer print alike, at most 9.

    Examples
    --------
    >>> places_apart(1.2, 1.4), places_apart(1.0421, 1.04212)
    (3, 5)
    """
    return next((n for n in range(fewest, 9) if f"{one:.{n}f}" != f"{other:.{n}f}"), 9)
