"""Lesson 10: choosing the change, in sentences with the lesson's own car. The panel has its own file."""

from rollmodel.advice import CAUTIONS, DIRECTIONS, SYMPTOMS, free_holes, trade_rule, what_now
from rollmodel.advice.kept import every_reading, kept_choice
from rollmodel.advice.numbers import Effect, hole_pair
from rollmodel.advice.with_drive import turned_by_drive
from rollmodel.panels.advising import WHERE, G, drive_costs, same_way
from rollmodel.panels.ends import ENDS
from rollmodel.panels.lesson import capital
from rollmodel.panels.lessons.lesson_10_drive import both_and_gap, fitted, where_it_stands, with_drive
from rollmodel.panels.lessons.lesson_10_map import MapPanel
from rollmodel.panels.lessons.lesson_10_panel import ChangePanel
from rollmodel.reports.choice import headline, place
from rollmodel.reports.choice_numbers import shower
from rollmodel.sheets import training_car, training_cars

__all__ = [
    "ChangePanel",
    "MapPanel",
    "belief",
    "cautions",
    "entry_and_exit",
    "five_cars",
    "full_stiff",
    "rule_here",
    "take_away",
    "where_it_stands",
    "with_drive",
]
UNDER_POWER = ("open-diff", "inside-driven", "power-")
SAID_ON_THE_MOVE = ("damper-", "no-damper", "rolls-over", "roll-not", "leans-inward")
TELLS = ("raise-roll-stiffness", "sheet-disagrees", "rolls-over", "not-the-bars", "model-agrees")


def _g(lesson, value):
    return lesson.show(value, G)


def _turned(car):
    return turned_by_drive(fitted(car), fitted(car, driven=True))


def rule_here(lesson) -> str:
    """The trade's rule, and which of its moves are free on this car."""
    lines = [
        f"| {symptom} | "
        + " | ".join(_move(lesson.car, end, direction) for end, direction in trade_rule(symptom).items())
        + " |"
        for symptom in SYMPTOMS
    ]
    holes = ", ".join(
        f"{end} {place(lesson.car, end, lesson.car.axle(end).hole)} of {lesson.car.axle(end).positions}"
        if lesson.car.axle(end).bar
        else f"no {end} bar"
        for end in ENDS
    )
    return "\n".join(
        [
            f"The rule in the middle of a corner (common practice), on {lesson.the_car}: {holes}.",
            "",
            "| the driver says | front | rear |",
            "|---|---|---|",
            *lines,
        ]
    )


def _move(car, end, direction):
    holes = free_holes(car, end, direction)
    if car.axle(end).bar is None:
        return "no bar"
    return f"{direction}: {place(car, end, holes[0])}" if holes else f"{direction}: nothing left"


def _best(every):
    """The pair of holes that holds the most."""
    return max(every, key=lambda pair: every[pair].limit)


def belief(lesson) -> str:
    """ "More stiffness is always more grip", held against every pair of holes, without drive and with it."""
    return f"{_every_pair(lesson)}{_best_with_drive(lesson)}"


def _best_with_drive(lesson):
    """Where the most comes with drive, if at another pair."""
    coasting, driven = (every_reading(lesson.car, on) for on in (False, True))
    best = _best(driven)
    if _g(lesson, driven[best].limit) == _g(lesson, driven[_best(coasting)].limit):
        return ""
    return (
        f"\n\nCount the force that holds the speed, and the most is {_g(lesson, driven[best].limit)}, at "
        f"{_pair(lesson.car, best)}. The best pair without drive then holds "
        f"{_g(lesson, driven[_best(coasting)].limit)}. **So first ask whether your driver speaks of a corner "
        "off the throttle or on it.**"
    )


def _every_pair(lesson):
    every = every_reading(lesson.car)
    soft, stiff = (
        tuple(pick(lesson.car.axle(end)) for end in ENDS)
        for pick in (lambda axle: 1 if axle.bar else None, lambda axle: axle.positions or None)
    )
    best = _best(every)
    held = {pair: _g(lesson, every[pair].limit) for pair in every}
    opening = (
        f"With no drive, coasting, and both bars of {lesson.the_car} at their softest, the car holds "
        f"{held[soft]}. Both at their stiffest: {held[stiff]}. "
    )
    if held[best] != held[stiff]:
        return opening + (
            f"**The most, {held[best]}, comes at {_pair(lesson.car, best)}.** So it is not stiffness that "
            "counts. It is which end has it: there the two ends give up more nearly together."
        )
    if best != stiff:
        return opening + (
            f"But {_pair(lesson.car, best)} holds the same {held[best]}. **The rest of the stiffness "
            "bought nothing.**"
        )
    roll = lesson.show(every[stiff].roll_gradient, "roll gradient")
    return opening + (
        f"On this car the stiffest pair is the best of all, and it still rolls {roll}. **Such a car is "
        "too soft for the rule.** Lesson 9 says why. Take a stiffer car from the list at the top, and "
        "it is no longer so."
    )


def _pair(car, holes):
    return " and ".join(
        f"{end} {place(car, end, hole)}" for end, hole in zip(ENDS, holes, strict=True) if hole
    )


def full_stiff(lesson) -> str:
    """ "At full stiff keep turning", met with what the other end offers."""
    last = {end: lesson.car.axle(end).positions for end in ENDS if lesson.car.axle(end).bar}
    if not last:
        return f"{capital(lesson.the_car)} has no bar: there is nothing to turn."
    car, end = lesson.car.with_holes(**last), max(last)
    every, here, answer = every_reading(lesson.car), hole_pair(car), what_now(car, end, "stiffer")
    words = (
        f"Somebody kept turning. {capital(lesson.the_car)} now stands on {_pair(car, here)}. "
        f"{_stands_now(lesson, every[here])} One more at the {end}? **{answer.message}**"
    )
    if answer.other_hole is None:
        return words
    there = (answer.other_hole, here[1]) if answer.other_end == "front" else (here[0], answer.other_hole)
    effect = Effect(every[here], every[there])
    return f"{words} {same_way(effect, answer.other_end, answer.other_direction, lesson.family)}"


def _stands_now(lesson, reading):
    """Whether somebody who turned for understeer still has it, by the sheet."""
    if reading.limit_end == "rollover":
        return "It rolls over before it slides."
    front, rear, _ = both_and_gap(lesson, reading)
    still = "It still understeers: the front" if reading.limit_end == "front" else "By the sheet the rear"
    return f"{still} gives up first (front {front}, rear {rear}, coasting)."


def five_cars(lesson) -> str:
    """One complaint on every training car: the answers differ, and each has its reason."""
    rows = [kept_choice(training_car(name), "understeer", "middle") for name in training_cars()]
    return "\n".join(
        [
            "| car | gives up first, coasting and with drive | the driver says understeer, middle | why |",
            "|---|---|---|---|",
            *(
                f"| {choice.car.title} | {_both_ways(choice.car)} | {headline(choice)} | "
                f"{_why(choice, lesson.family)} |"
                for choice in rows
            ),
        ]
    )


def _both_ways(car):
    was, now = (fitted(car, driven).limit_end for driven in (False, True))
    return f"{was}, **{now}**" if _turned(car) else f"{was}, {now}"


def _why(choice, family):
    """The reason that tells this car from the others."""
    tell = shower(family)
    if choice.verdict == "not the bars":
        return " ".join(left.reason.sentence(tell) for left in choice.left_out)
    reasons = [*choice.reasons, *(choice.first.reasons if choice.first else ())]
    found = {reason.code: reason for reason in reasons}
    return next((found[code].sentence(tell) for code in TELLS if code in found), reasons[0].sentence(tell))


def entry_and_exit(lesson) -> str:
    """What comes before a bar on the way in and on the way out."""
    pair = hole_pair(lesson.car)
    reading = every_reading(lesson.car)[pair]
    symptom = "oversteer" if reading.limit_end == "rear" else "understeer"
    lines = []
    for when in ("entry", "exit"):
        choice = kept_choice(lesson.car, symptom, when)
        lines.append(
            f"- **{symptom.capitalize()} {WHERE[when]}.** {_told(choice, SAID_ON_THE_MOVE, lesson.family)}"
        )
    falls = drive_costs(lesson.car, pair, lesson.family)
    lines.append(f"- **With the power on.** {_told(choice, UNDER_POWER, lesson.family)} {falls}")
    stands = _pair(lesson.car, pair) or "no bar"
    return "\n".join([f"{capital(lesson.the_car)}, which stands on {stands}:", "", *lines])


def _told(choice, codes, family):
    """The sentences of those reasons whose codes begin so."""
    return " ".join(
        reason.sentence(shower(family)) for reason in choice.reasons if reason.code.startswith(codes)
    )


def cautions(lesson) -> str:
    """What comes before the spanner."""
    return "\n".join(
        [
            f"**{len(CAUTIONS)} cautions before you pick up a spanner**",
            "",
            *(f"- {sentence}" for sentence in CAUTIONS.values()),
        ]
    )


def take_away(lesson) -> list[str]:
    """At most five lines."""
    every = every_reading(lesson.car)
    span = max(reading.limit for reading in every.values()) - min(reading.limit for reading in every.values())
    return [
        "Ask **which end** slides and **where** in the corner. Entry and exit go to the dampers first.",
        "Middle, car firm enough: soften the end that slides, or stiffen the other end."
        + (
            f" On {lesson.the_car} the {fitted(lesson.car, driven=True).limit_end} slides first with "
            f"drive, the {fitted(lesson.car).limit_end} without: measure first."
        )
        * _turned(lesson.car),
        "On a firm car a bar makes no grip. It moves load transfer from one end to the other.",
        f"Nothing left at one end? The other end does the same, {' for '.join(DIRECTIONS)}.",
        f"One change, at one end, then measure. All {len(every)} hole pairs of {lesson.the_car} differ "
        f"by {_g(lesson, span)} at most: small, so change nothing else.",
    ]
