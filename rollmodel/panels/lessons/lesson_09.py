"""Lesson 9: two regimes and the window between, in sentences with the lesson's own car and two of the "
"college's."""

from __future__ import annotations

from functools import lru_cache

from rollmodel.adding_up import change_as_shown
from rollmodel.advice import CAUTIONS, class_by_roll, hole_pair, practice_and_model
from rollmodel.advice.case import camber_counts, stiffness_step, with_more_roll_stiffness
from rollmodel.advice.kept import every_reading, kept_choice
from rollmodel.advice.window import window
from rollmodel.figures.window import wheel_up
from rollmodel.panels.ends import ENDS
from rollmodel.panels.lesson import capital
from rollmodel.panels.lessons.lesson_09_panel import SoftnessPanel
from rollmodel.panels.lessons.lesson_09_paper import by_hand, two_effects
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.reports.choice import headline
from rollmodel.reports.choice_numbers import shower
from rollmodel.sheets import training_car, training_cars

__all__ = [
    "SoftnessPanel",
    "belief",
    "by_hand",
    "cautions",
    "five_cars",
    "rule_tried",
    "take_away",
    "two_effects",
    "what_first",
]
G, K = "lateral acceleration", "roll stiffness"
SOFT, STIFF = "gravel", "coupe"  # the two that the wrong belief is held against


def _fitted(car):
    return every_reading(car)[hole_pair(car)]


def belief(lesson) -> str:
    """ "One rule serves all cars": the same step on two cars, the front's own limit."""
    lines = []
    for name in (STIFF, SOFT):
        car = training_car(name)
        every, (front, rear) = every_reading(car), hole_pair(car)
        before, after = every[front, rear].front.limit, every[front + 1, rear].front.limit
        fine = shower(lesson.family)
        lines.append(
            f"| {car.title} | {lesson.show(every[front, rear].roll_gradient, 'roll gradient')} | "
            f"{fine(before, f'{G} fine')} | {fine(after, f'{G} fine')} | "
            f"{fine(change_as_shown(before, after, G, lesson.family, more=1), f'{G} change')} |"
        )
    return "\n".join(
        [
            "| front bar one hole stiffer, coasting | rolls | front could hold | can hold then | change |",
            "|:--|--:|--:|--:|--:|",
            *lines,
            "",
            "The same step at the same end. One front axle loses grip, the other gains some.",
        ]
    )


def five_cars(lesson) -> str:
    """Where each training car stands: what a small step of stiffness does to each end."""
    cars = [training_car(name) for name in training_cars()]
    rows = [_row(lesson, car) for car in cars]
    lifted = [f"- **{car.title}:**{told}" for car in cars if (told := wheel_up(window(car, (1.0,)), 1.0))]
    return "\n".join(
        [
            "| car | rolls | a little more bar at the front: front limit | at the rear: rear limit | so |",
            "|:--|--:|--:|--:|:--|",
            *rows,
            "",
            *lifted,
            "",
            _little(lesson),
        ]
    )


def _little(lesson):
    """The step as the bar has it, and what an axle as a whole gains of it."""
    step = window(lesson.car, (1.0,)).step
    steps = [stiffness_step(training_car(name)) for name in training_cars()]
    whole = []
    for end in ENDS:
        stiff = axle_stiffness(lesson.car.axle(end))
        gain = float(with_more_roll_stiffness(stiff, step).total_roll - stiff.total_roll)
        whole.append(f"the {end} axle {lesson.show(gain, K)}")
    return (
        f"Limits with no drive, coasting. A little more bar is {lesson.show(step, K)} **in the bar** of "
        f"{lesson.the_car}. The tyres are in series with it, so the axle as a whole gains less: "
        f"{', '.join(whole)}. On the other cars the step is as large a part of their own roll stiffness: "
        f"{lesson.show(min(steps), K)} to {lesson.show(max(steps), K)}."
    )


def _row(lesson, car):
    here, fitted, fine = window(car, (1.0,)), _fitted(car), shower(lesson.family)
    gains = [here.gain_at(end, 1.0) for end in ENDS]
    verdict = {
        2: "**both gain**: stiffen the whole car first",
        1: "**window**: one gains",
        0: "**neither gains**: the trade's rule",
    }[len(here.gaining(1.0))]
    if here.any_up()[0]:
        verdict = "**wheel up**: none of the three"
    return (
        f"| {car.title} | {lesson.show(fitted.roll_gradient, 'roll gradient')} "
        f"({class_by_roll(fitted.roll_gradient)}) | {fine(gains[0], f'{G} change')} | "
        f"{fine(gains[1], f'{G} change')} | {verdict} |"
    )


@lru_cache(maxsize=4)
def _tried(name):
    return practice_and_model(training_car(name))


def rule_tried(lesson) -> str:
    """The trade's rule tried on every step of both bars, on the two cars."""
    lines = []
    for name in (STIFF, SOFT):
        tried = _tried(name)
        parted = len({(one.drive, one.end, one.from_hole, one.other_hole) for one in tried.partings})
        lines.append(
            f"- **{tried.car.title}:** {tried.steps} steps tried. Practice and model part on "
            f"{parted or 'none'} of them."
        )
    soft = next(part for part in _tried(SOFT).partings if part.reason.code == "over-soft")
    return "\n".join(
        [
            "Every step of either bar, coasting and with each kind of drive:",
            "",
            *lines,
            "",
            f"One of those of the gravel car. {soft.reason.sentence(shower(lesson.family))}",
        ]
    )


def what_first(lesson) -> str:
    """What comes first on a car that is too soft, in the advice's own words."""
    choice = kept_choice(training_car(SOFT), "understeer", "middle")
    reason = next(one for one in choice.reasons if one.code == "raise-roll-stiffness")
    own = kept_choice(lesson.car, "understeer", "middle")
    here = (
        ""
        if own.car == choice.car
        else f"\n\n**{capital(lesson.the_car)}**, for the same complaint. {headline(own)}"
    )
    return f"**{choice.car.title}, understeer in the middle.** {reason.sentence(shower(lesson.family))}{here}"


def cautions(lesson) -> str:
    """Before springs or bars are changed."""
    return "\n".join(
        [
            f"**{len(CAUTIONS) + 1} cautions before you pick up a spanner**",
            "",
            *(f"- {sentence}" for sentence in CAUTIONS.values()),
            "- A spring stores energy. Use the maker's compressor and the maker's way of working, or "
            "leave it to somebody qualified. Other springs also change the ride height: set it again.",
        ]
    )


def take_away(lesson) -> list[str]:
    """At most five lines."""
    fitted = _fitted(lesson.car)
    here = window(lesson.car, (1.0,))
    gaining = here.gaining(1.0)
    stands = {
        2: "both ends gain from stiffness",
        1: f"only the {' '.join(gaining)} gains from stiffness",
        0: "neither end gains from stiffness",
    }[len(gaining)]
    camber = "" if camber_counts(lesson.car) else " Its sheet counts no camber loss."
    if here.any_up()[0]:
        stands = f"an inside wheel is up at the limit, so only the lean still counts, and {stands}"
    return [
        "A stiffer end wins back what its tyres lose by leaning, and loses by loading them unevenly.",
        "Soft car: the leaning is the larger loss, and a stiffer end grips **more**. Stiff car: the other "
        "way round.",
        "Between the two lies a window in which one end gains and the other loses.",
        f"{capital(lesson.the_car)} rolls {lesson.show(fitted.roll_gradient, 'roll gradient')}: "
        f"{stands}.{camber}",
        "So look at the roll first. Make a wallowing car stiffer as a whole, then balance it.",
    ]
