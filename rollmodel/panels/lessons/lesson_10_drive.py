"""Lesson 10's car without drive and with it: which end gives up first, and what a differential does."""

from __future__ import annotations

from rollmodel.adding_up import shown_apart
from rollmodel.advice import class_by_roll
from rollmodel.advice.kept import every_held_with_open_differential, every_reading
from rollmodel.advice.numbers import hole_pair
from rollmodel.panels.advising import G
from rollmodel.panels.ends import ENDS
from rollmodel.physics.balance import drive_shares

AT_DRIVEN = {"front": "at the front", "rear": "at the rear", "all": "at both ends"}


def fitted(car, driven=False):
    """The reading of the car on the holes in use."""
    return every_reading(car, driven)[hole_pair(car)]


def both_and_gap(lesson, held) -> tuple[str, str, str]:
    """What front and rear can hold, and how far apart, to the digit of their gap."""
    return shown_apart(held.held("front"), held.held("rear"), G, lesson.family)


def where_it_stands(lesson) -> str:
    """Which end gives up first on the car as it stands, and how much it rolls."""
    reading = fitted(lesson.car)
    front, rear, _ = both_and_gap(lesson, reading)
    first = (
        "The car rolls over before it slides."
        if reading.limit_end == "rollover"
        else (f"In the middle of a corner, coasting, the **{reading.limit_end}** gives up first.")
    )
    return (
        f"**{lesson.car.title}.** With no drive, coasting, the front can hold {front}, the rear {rear}. "
        f"{first} It rolls {lesson.show(reading.roll_gradient, 'roll gradient')} (class figures: "
        f"{class_by_roll(reading.roll_gradient)})."
    )


def with_drive(lesson) -> str:
    """What counting the force that holds the speed makes of the verdict, and which limit matters when."""
    car = lesson.car
    coasting, driven = fitted(car), fitted(car, driven=True)
    front, rear, _ = both_and_gap(lesson, driven)
    return (
        f"**And with drive?** To hold its speed the car must push {AT_DRIVEN[car.drive]}, and that takes "
        f"side force from those tyres. With that force counted the front can hold {front}, the rear {rear}. "
        f"{_verdict(lesson, coasting, driven)} Here each driven tyre pushes as its grip allows."
        f"{_open_differential(lesson)}\n\n"
        "Off the throttle, the limits without drive hold. A long corner near the limit, throttle steady, is "
        "**with drive**. A light throttle lies between. So measure first: steer against lateral "
        "acceleration, throttle steady ([lesson 11](11-did-it-work.ipynb)). Change **one** thing. Prefer the "
        "change that the complaint and the measurement agree on."
    )


def _verdict(lesson, coasting, driven):
    was, now = coasting.limit_end, driven.limit_end
    if "rollover" in (was, now):
        return "It rolls over before an end gives up, with drive or without."
    apart = [both_and_gap(lesson, held)[2] for held in (coasting, driven)]
    if was == now:
        return f"The **{now}** still gives up first, by {apart[1]} where it was {apart[0]}: the same verdict."
    first = f"Now the **{now}** gives up first, by {apart[1]}; without drive it was the {was}, by {apart[0]}."
    return f"{first} **On this car the drive turns the verdict round.**"


def _open_differential(lesson):
    """What the driven ends hold when both wheels of an axle must push alike."""
    car = lesson.car
    held = every_held_with_open_differential(car)[hole_pair(car)]
    if held.limit_end == "rollover":
        return ""
    front, rear, apart = both_and_gap(lesson, held)
    shares, numbers = drive_shares(car), {"front": front, "rear": rear}
    ends = " and ".join(f"the {end} can hold {numbers[end]}" for end in ENDS if shares[end])
    return (
        " An open differential shares worse: both wheels of an axle push alike, so the lightly loaded inside "
        f"wheel loses more side force. If yours is open, {ends}: the {held.limit_end} gives up first, by "
        f"{apart}."
    )
