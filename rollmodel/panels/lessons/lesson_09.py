"""Lesson 9: two regimes and the window between, in sentences with the lesson's own car and two of the "
"college's."""

from __future__ import annotations

from functools import lru_cache

from rollmodel.advice import CAUTIONS, class_by_roll, hole_pair, practice_and_model
from rollmodel.advice.case import camber_counts
from rollmodel.advice.kept import every_reading, kept_choice
from rollmodel.advice.rule import other_end
from rollmodel.advice.window import other_stiffness_at_crossing, window
from rollmodel.figures.adding_up import change_as_shown
from rollmodel.panels.ends import ENDS
from rollmodel.panels.lesson import capital
from rollmodel.panels.lessons.lesson_09_panel import SoftnessPanel
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.regimes import hand_axle
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


def _at_limit(car, end):
    """An axle as on paper, its roll stiffness and its loads, in the corner that is its own limit."""
    limit = _fitted(car).held(end) * 0.999
    return (
        hand_axle(car, end, limit),
        float(axle_stiffness(car.axle(end)).total_roll),
        settled_corner(car, limit).axle(end),
        limit,
    )


def two_effects(lesson) -> str:
    """What a stiffer front does to the front's grip, taken apart on paper."""
    car = lesson.car
    axle, stiffness, _, limit = _at_limit(car, "front")
    if _up(car, limit):
        return _no_paper(lesson, "Front", limit)
    more = 1.2 * stiffness
    rows = [
        (name, *(lesson.rounded(part(value), "load") for value in (stiffness, more)))
        for name, part in (
            ("lost because the tyres lean with the body", axle.lost_to_camber),
            ("lost because the two tyres are loaded unevenly", axle.lost_to_uneven_load),
        )
    ]
    lines = [
        f"| {name} | {lesson.show(now, 'load')} | {lesson.show(then, 'load')} | "
        f"{_signed(lesson, then - now)} |"
        for name, now, then in rows
    ]
    change = sum(then - now for _, now, then in rows)
    verdict = (
        "The camber wins: a stiffer front grips **more**."
        if change < 0
        else ("The uneven load wins: a stiffer front grips **less**.")
    )
    return "\n".join(
        [
            f"**{car.title}, front axle at its limit, on paper.** Its roll stiffness goes from "
            f"{lesson.show(stiffness, K)} to {lesson.show(more, K)}.",
            "",
            "| | now | stiffer | change |",
            "|:--|--:|--:|--:|",
            *lines,
            "",
            verdict,
        ]
    )


def _signed(lesson, force):
    return f"{'+' if force > 0 else '-' if force < 0 else ''}{lesson.show(abs(force), 'load')}"


def _up(car, lateral_acceleration):
    """Ends whose inside wheel is off the ground."""
    corner = settled_corner(car, lateral_acceleration)
    return [end for end in ENDS if corner.axle(end).lifted]


def _no_paper(lesson, end, limit):
    up = " and ".join(_up(lesson.car, limit))
    return (
        f"**{end} of {lesson.the_car}.** At {lesson.show(limit, G)} the inside {up} wheel is off "
        f"the ground. "
        "The sum on paper needs all four wheels down. So it does not hold here; look at the picture."
    )


def by_hand(lesson) -> str:
    """The crossing by the formula that can be done on paper, and by searching the model."""
    return "\n".join(f"- {_one_end(lesson, end)}" for end in ENDS)


def _one_end(lesson, end):
    car, other = lesson.car, other_end(end)
    axle, _, loads, limit = _at_limit(car, end)
    name = f"**{end.capitalize()} of {lesson.the_car}.**"
    if not axle.camber_loss * axle.camber_left:
        return (
            f"{name} The sheet counts no loss to camber, so there is nothing for a flatter body to win "
            f"back: K is "
            f"{lesson.show(0.0, K)}. More stiffness here always costs this end grip."
        )
    if _up(car, limit):
        return _no_paper(lesson, end.capitalize(), limit)
    crossing = float(axle.other_stiffness_at_crossing(loads.load_transfer))
    there = float(axle_stiffness(car.axle(other)).total_roll)
    paper = "gains" if there < crossing else "loses"
    found = other_stiffness_at_crossing(car, end, limit)
    search = "finds no crossing in reach" if found is None else f"finds {lesson.show(found, K)}"
    model = "gains" if window(car, (1.0,)).gain_at(end, 1.0) > 0 else "loses"
    word = (
        f"and it {model} there too"
        if model == paper
        else f"and there it {model}: so near the crossing paper cannot tell"
    )
    return (
        f"{name} W = {lesson.show(axle.weight, 'load')}, kappa = {axle.camber_left:.2f}, t = "
        f"{lesson.show(axle.track, 'long length')}, dF = "
        f"{lesson.show(float(loads.load_transfer), 'load')}: K = "
        f"**{lesson.show(crossing, K)}**. The {other} has {lesson.show(there, K)}, so on paper a stiffer "
        f"{end} {paper} "
        f"grip at the {end}. The whole model {search}, {word}."
    )


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
            "| front bar one hole stiffer | rolls | front could hold | can hold then | change |",
            "|:--|--:|--:|--:|--:|",
            *lines,
            "",
            "The same step at the same end. One front axle loses grip, the other gains some.",
        ]
    )


def five_cars(lesson) -> str:
    """Where each training car stands: what a small step of stiffness does to each end."""
    rows = [_row(lesson, training_car(name)) for name in training_cars()]
    return "\n".join(
        [
            "| car | rolls | a little stiffer at the front: front limit | at the rear: rear limit | so |",
            "|:--|--:|--:|--:|:--|",
            *rows,
        ]
    )


def _row(lesson, car):
    here, fitted, fine = window(car, (1.0,)), _fitted(car), shower(lesson.family)
    gains = [here.gain_at(end, 1.0) for end in ENDS]
    up = [end for end in ENDS if fitted.end(end).lifted_at_limit]
    verdict = {
        2: "**both gain**: stiffen the whole car first",
        1: "**window**: one gains",
        0: "**neither gains**: the trade's rule",
    }[len(here.gaining(1.0))]
    if up:
        verdict = f"the inside {' and '.join(up)} wheel is up: {verdict}"
    return (
        f"| {car.title} | {lesson.show(fitted.roll_gradient, 'roll gradient')} "
        f"({class_by_roll(fitted.roll_gradient)}) "
        f"| {fine(gains[0], f'{G} change')} | {fine(gains[1], f'{G} change')} | {verdict} |"
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
            f"- **{tried.car.title}:** {tried.steps} steps tried. Practice and model part on {parted} of "
            f"them."
        )
    soft = next(part for part in _tried(SOFT).partings if part.reason.code == "over-soft")
    return "\n".join(
        [
            "Every step of either bar, coasting and with each kind of drive:",
            "",
            *lines,
            "",
            f"One of them: {soft.reason.sentence(shower(lesson.family))}",
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
        else f"\n\n{capital(lesson.the_car)}, for the same complaint: {headline(own)}"
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
            "leave it "
            "to somebody qualified. Other springs also change the ride height: set it again.",
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
    return [
        "A stiffer end wins back what its tyres lose by leaning, and loses by loading them unevenly.",
        "Soft car: the leaning is the larger loss, and a stiffer end grips **more**. Stiff car: the other "
        "way round.",
        "Between the two lies a window in which one end gains and the other loses.",
        f"{capital(lesson.the_car)} rolls {lesson.show(fitted.roll_gradient, 'roll gradient')}: "
        f"{stands}.{camber}",
        "So look at the roll first. Make a wallowing car stiffer as a whole, and balance it then.",
    ]
