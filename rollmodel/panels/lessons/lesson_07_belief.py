"""Lesson 7: does a stiffer front cure understeer? The belief met with numbers, on this car and on each."""

from __future__ import annotations

from rollmodel.car import GRAVITY
from rollmodel.panels.lessons.lesson_07_numbers import (
    ENDS,
    car_of,
    corner_for,
    lead,
    moved,
    noun,
    soft_and_stiff,
)
from rollmodel.sheets import training_car, training_cars

G = "lateral acceleration"
SLOPE = "understeer gradient"
FELT = 1e-4 * GRAVITY  # a smaller move between the limits is none, m/s^2


def belief(lesson) -> str:
    """Stiffening the front to cure understeer, with the numbers that settle it."""
    car, show = car_of(lesson), lesson.show
    before, after = soft_and_stiff(car, "front")
    words = [f"{car.title}, front bar from softest to stiffest. The front limit goes from "
             f"{show(before.held('front'), G)} to {show(after.held('front'), G)}. It lies "
             f"{_place(before, lesson)} before and {_place(after, lesson)} after.", _judged(before, after),
             f"The slope at 0.3 g: {moved(*(show(one.gradient, SLOPE) for one in (before, after)))}.",
             f"In the corner at {show(corner_for(car), G)} the front wheels are steered "
             f"{show(before.near_steer, 'angle')} before and {show(after.near_steer, 'angle')} after, "
             "beyond what the bend itself asks."]
    return " ".join(words)


def _place(reading, lesson):
    side = "behind" if reading.lead < 0 else "ahead of"
    return f"{lesson.show(abs(lead(reading, lesson)), G)} {side} the rear's"


def _judged(before, after):
    if after.lead > before.lead - FELT:
        return ("Here a rear wheel is off the ground, so the front bar cannot take load off the rear. Both "
                "limits rise a little together, because the body rolls less. **Which end goes first has not "
                "changed.**")
    if before.lead > 0 > after.lead:
        return ("**The rear used to give up first. Now the front does. That is towards understeer, not away "
                "from it.**")
    return "**The front has fallen further behind. That is more understeer, not less.**"


def what_helps(lesson) -> str:
    """The other end, stiffer: the balance moved the other way."""
    car, show = car_of(lesson), lesson.show
    before, after = soft_and_stiff(car, "rear")
    front, rear = (" to ".join(show(one.held(end), G) for one in (before, after)) for end in ENDS)
    place = noun(car.rear)
    words = (f"Leave the front soft. The rear bar stood on {place} {car.rear.hole} so far. "
             f"Now move it from {place} "
             f"1, its softest, to {place} {car.rear.positions}. Front limit: {front}. Rear limit: {rear}. ")
    if after.lead < before.lead + FELT:
        return words + ("Nothing moves: the inside rear wheel is in the air, so a stiffer rear bar has "
                        "nothing to push against.")
    if before.lead > 0:
        return words + ("The rear gave up first already. Now it does so by more: **more oversteer**. The "
                        "right way to turn depends on which end goes first.")
    if after.lead > 0:
        return words + ("They change places: **the front is no longer the first to go**, the rear is. "
                        "One hole at a time, then.")
    return words + "They come closer: **less understeer.**"


def every_car(lesson) -> str:
    """The same change on each training car, and where the rule needs a condition."""
    lines = ["| car | rolls | front limit | rear limit | front limit less rear limit | slope at 0.3 g |",
             "|---|---|---|---|---|---|"]
    for name in training_cars():
        car = training_car(name).with_holes(1, None)
        pair = soft_and_stiff(car, "front")
        cells = [lesson.show(pair[0].roll_gradient, "roll gradient")]
        for value, kind in ((lambda one: one.held("front"), G), (lambda one: one.held("rear"), G),
                            (lambda one: lead(one, lesson), G), (lambda one: one.gradient, SLOPE)):
            cells.append(moved(*(lesson.show(value(one), kind) for one in pair)))
        lines.append(f"| {car.title} | " + " | ".join(cells) + " |")
    return "\n".join(lines)


def driven(lesson) -> str:
    """The force that holds the speed: the same direction, another size."""
    car = car_of(lesson)
    coasting, pulling = (lesson.show(after.lead - before.lead, G)
                         for before, after in (soft_and_stiff(car, "front", on) for on in (False, True)))
    first, second = (soft_and_stiff(car, "front", on)[0] for on in (False, True))
    turned = ("The **same** end still" if first.limit_end == second.limit_end else "So now the **other** end")
    front, rear = (lesson.show(second.held(end), G) for end in ENDS)
    return (f"The figures here are for coasting wheels: front limit less rear limit moves by {coasting}. "
            f"With the drive force that holds the speed it is {pulling}. Here minus means towards "
            "understeer: the front gives up sooner. "
            f"(For the understeer gradient it is plus.) "
            f"Drive also takes grip from the driven wheels: front {front}, rear {rear}. {turned} gives up "
            f"first, the {second.limit_end}.")
