"""Lesson 9 on paper: the two effects of a stiffer end, and the stiffness at which they cross."""

from __future__ import annotations

from dataclasses import replace
from math import radians

from rollmodel.advice import hole_pair
from rollmodel.advice.kept import every_reading
from rollmodel.advice.rule import other_end
from rollmodel.advice.window import other_stiffness_at_crossing, window
from rollmodel.panels.ends import ENDS
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.regimes import hand_axle
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.units import label

G, K = "lateral acceleration", "roll stiffness"


def _at_limit(car, end):
    """An axle as on paper, its roll stiffness and its loads, in the corner that is its own limit."""
    limit = every_reading(car)[hole_pair(car)].held(end) * 0.999
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
    axle = replace(axle, static_lean=hand_axle(car, "front", limit, refined=True).static_lean)
    more = 1.2 * stiffness
    parts = {
        "lost because the tyres lean with the body": axle.lost_to_camber,
        "lost because the two tyres are loaded unevenly": axle.lost_to_uneven_load,
    }
    if axle.static_lean:
        named = "lost to the camber at rest (minus: won, by the outside tyre that leans in)"
        parts[named] = _lost_at_rest(axle)
    rows = [
        (name, *(lesson.rounded(part(value), "load") for value in (stiffness, more)))
        for name, part in parts.items()
    ]
    lines = [
        f"| {name} | {_minus(lesson, now)} | {_minus(lesson, then)} | "
        f"{_signed(lesson, then - now)} |"
        for name, now, then in rows
    ]
    change = sum(then - now for _, now, then in rows)
    verdict = (
        "The lean wins: a stiffer front grips **more**."
        if change < 0
        else ("The uneven load wins: a stiffer front grips **less**.")
    )
    return "\n".join(
        [
            f"**{car.title}, front axle at its limit with no drive, coasting, on paper.** The axle's roll "
            f"stiffness (springs, bar and tyres together) goes from {lesson.show(stiffness, K)} to "
            f"{lesson.show(more, K)}.",
            "",
            "| | now | stiffer | change |",
            "|:--|--:|--:|--:|",
            *lines,
            "",
            verdict,
        ]
    )


def _lost_at_rest(axle):
    """What the camber at rest costs: the outside tyre leans the right way and carries more, [N]."""
    return lambda stiffness: -axle.gained_from_static_camber(stiffness)


def _minus(lesson, force):
    """A load, with its sign only where it is below nil."""
    return _signed(lesson, force).removeprefix("+")


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
        "the ground. The sum on paper needs all four wheels down. So it does not hold here; look at the "
        "picture."
    )


def by_hand(lesson) -> str:
    """The crossing by the formula that can be done on paper, and by searching the model."""
    return "\n".join([*_tyre(lesson), *(f"- {_one_end(lesson, end)}" for end in ENDS)])


def _tyre(lesson):
    """The tyre's two numbers as the formula wants them; none where no lean is counted."""
    axle = _at_limit(lesson.car, "front")[0]
    if not axle.camber_loss:
        return []
    lean = f"{axle.camber_loss * radians(1):.4f} per degree of lean"
    load = label("grip drop", lesson.family).removeprefix("1/")
    feet = " and t in ft" * (label("long length", lesson.family) == "in")
    return [
        f"The tyre of {lesson.the_car}: a11 = {lean}, a1 = {lesson.show(axle.grip_drop, 'grip drop')}. In a1 "
        f"the car's grip scale, {lesson.car.tyre.grip_scale:.2f}, is counted already. "
        f"Put dF in {load}{feet}.",
        "",
    ]


def _one_end(lesson, end):
    car, other = lesson.car, other_end(end)
    axle, _, loads, limit = _at_limit(car, end)
    name = f"**{end.capitalize()} of {lesson.the_car}.**"
    if not axle.camber_loss * axle.camber_left:
        return (
            f"{name} The sheet counts no loss to camber, so there is nothing for a flatter body to win "
            f"back: K of the {other} is {lesson.show(0.0, K)}. On paper, with all wheels down, more "
            f"stiffness at the {end} always costs it grip."
        )
    if _up(car, limit):
        return _no_paper(lesson, end.capitalize(), limit)
    crossing = float(axle.other_stiffness_at_crossing(loads.load_transfer))
    there = float(axle_stiffness(car.axle(other)).total_roll)
    paper = "gains" if there < crossing else "loses"
    found = other_stiffness_at_crossing(car, end, limit)
    there_too = f"finds {lesson.show(found or 0.0, K)} for the {other}"
    search = "finds no crossing in reach" if found is None else there_too
    model = "gains" if window(car, (1.0,)).gain_at(end, 1.0) > 0 else "loses"
    word = (
        f"and it {model} there too"
        if model == paper
        else f"and there it {model}: so near the crossing paper cannot tell"
    )
    return (
        f"{name} W = {lesson.show(axle.weight, 'load')}, kappa = {axle.camber_left:.2f}, t = "
        f"{lesson.show(axle.track, 'long length')}, dF = "
        f"{lesson.show(float(loads.load_transfer), 'load')}: K **of the {other}** = "
        f"**{lesson.show(crossing, K)}**. The {other} has {lesson.show(there, K)}, so on paper a stiffer "
        f"{end} {paper} grip at the {end}. The whole model {search}, {word}."
    )
