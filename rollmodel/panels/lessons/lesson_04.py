"""Lesson 4: how far the body rolls, and what that has to do with load transfer."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from rollmodel.advice import CLASS_FIGURES, class_by_roll
from rollmodel.car import GRAVITY, Car
from rollmodel.figures import axle_behind, roll_and_load, roll_balance
from rollmodel.figures.axle_scene import AxleScene
from rollmodel.figures.roll_and_load import RollAndLoad
from rollmodel.panels.controls import Slider
from rollmodel.panels.ends import ENDS, bar_controls, hardest, setup
from rollmodel.panels.lesson import capital
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.roll import (
    least_roll_stiffness,
    roll_gradient,
    roll_gradient_without_gravity,
    roll_moment_arm,
)
from rollmodel.physics.stiffness import axle_stiffness

START = 0.6 * GRAVITY
G = "lateral acceleration"
STIFF = "roll stiffness"
HIGHER = 1.4  # of the car's own height, the end of the slider
SOFTEST = 0.02  # of the roll stiffness as fitted: the least that the slider goes to


def ends_of(car: Car) -> list:
    """Front and rear stiffness as the car stands."""
    return [axle_stiffness(car.axle(end)) for end in ENDS]


def total_of(car: Car) -> float:
    """Roll stiffness of both axles on their tyres, [N*m/rad]."""
    return float(sum(one.total_roll for one in ends_of(car)))


def bars_at(car: Car, which: str) -> dict:
    """Every bar that can be moved at its softest ("low") or stiffest ("high") place."""
    places = {end: car.axle(end).positions for end in ENDS}
    return {end: 1 if which == "low" else most for end, most in places.items() if most > 1}


@lru_cache(maxsize=16)
def _scales(car: Car) -> tuple[float, float]:
    """Most roll [rad] and most load moved [N] that the first panel can reach, with some room."""
    soft = car.with_holes(**bars_at(car, "low"))
    corner = settled_corner(soft, hardest(car) * np.linspace(0, 1, 21))  # soft, it may roll over on the way
    moved = corner.front.load_transfer + corner.rear.load_transfer
    most = np.nanmax(corner.roll_angle), np.nanmax(moved)
    return 1.3 * max(float(most[0]), np.radians(0.1)), 1.3 * max(float(most[1]), 1.0)


def _lowest(car: Car) -> float:
    """A height of the centre of gravity that still leaves the sprung mass above the ground, [m]."""
    wheels = sum(end.unsprung_mass * end.unsprung_cg_height for end in (car.front, car.rear))
    return min(car.cg_height, 1.05 * wheels / car.mass)


@dataclass(frozen=True)
class Lean:
    """The same corner from behind and in numbers."""

    behind: AxleScene
    numbers: RollAndLoad


class LeanPanel(Panel):
    """Roll of the body beside the load that moves."""

    name = "lean"
    title = "The body's roll, and the load that moves"

    @property
    def low(self):
        return {"corner": 0.2 * GRAVITY}

    @property
    def high(self):
        """Every bar at its stiffest."""
        return bars_at(self.car, "high") or {"corner": hardest(self.car)}

    @property
    def size(self):
        """Room for two pictures, one above the other."""
        return self.look.size[0], 1.5 * self.look.size[1]

    def controls(self):
        top = hardest(self.car)
        return [Slider("corner", "Lateral acceleration", G, 0.0, top, min(START, top), steps=(0.02, 0.02)),
                *bar_controls(self.car)]

    def compute(self, values):
        stiff = setup(self.car, values)
        return Lean(axle_behind.in_corner(self.car, "front", values.corner, *stiff),
                    roll_and_load.in_corner(self.car, values.corner, *stiff, *_scales(self.car)))

    def draw(self, figure, lean):
        above, below = figure.add_axes((0, 0.4, 1, 0.6)), figure.add_axes((0, 0, 1, 0.4))
        return {"behind": axle_behind.draw(above, lean.behind, self.look, self.family),
                "numbers": roll_and_load.draw(below, lean.numbers, self.look, self.family)}

    def update(self, artists, lean):
        axle_behind.update(artists["behind"], lean.behind)
        roll_and_load.update(artists["numbers"], lean.numbers)

    def describe(self, lean):
        return roll_and_load.describe(lean.numbers, self.family)

    def prediction(self):
        if not bars_at(self.car, "high"):
            return None
        return Prediction(
            question=f"In the same corner, at {self.lesson.show(min(START, hardest(self.car)), G)}, every "
                     f"bar goes from its "
                     "softest place to its stiffest. The body gets flatter. What does the load that moves "
                     "from the inside "
                     "to the outside wheels do, front and rear together?",
            noun="load moved, front and rear together", kind="load", quantity=lambda lean: lean.numbers.total,
            before=bars_at(self.car, "low"), after=bars_at(self.car, "high"),
            same=0.03 * _scales(self.car)[1])

    def mark(self, artists, guess):
        roll_and_load.mark(artists["numbers"], guess)


class BalancePanel(Panel):
    """Springs and bars against the corner and the leaning weight."""

    name = "balance"
    title = "Where the body comes to rest"

    @property
    def low(self):
        return {"stiffness": max(0.7 * least_roll_stiffness(self.car), SOFTEST * total_of(self.car))}

    @property
    def high(self):
        return {"stiffness": 0.5 * total_of(self.car)}

    def controls(self):
        total, least = total_of(self.car), least_roll_stiffness(self.car)
        height = self.car.cg_height
        softest = max(0.5 * least, SOFTEST * total)
        return [Slider("stiffness", "Roll stiffness of the whole car", STIFF, softest, 1.2 * total, total,
                       steps=(10, 10)),
                Slider("corner", "Lateral "
                                 "acceleration", G, 0.1 * GRAVITY, 0.8 * GRAVITY, START, steps=(0.02, 0.02)),
                Slider("height", "Height of the centre of gravity", "length",
                       max(0.9 * height, _lowest(self.car)), HIGHER * height, height, steps=(5, 0.2))]

    def compute(self, values):
        stiff = ends_of(self.car)
        share = float(stiff[0].total_roll / (stiff[0].total_roll + stiff[1].total_roll))
        return roll_balance.of_car(self.car, values.corner, values.stiffness, share, self._most(),
                                   values.height)

    def _most(self):
        """The hardest corner with the highest centre of gravity, and as much again for the leaning weight."""
        high = replace(self.car, cg_height=HIGHER * self.car.cg_height)
        return 1.3 * 0.8 * least_roll_stiffness(high)

    def draw(self, figure, balance):
        return roll_balance.draw(figure.add_axes((0, 0, 1, 1)), balance, self.look, self.family)

    def update(self, artists, balance):
        roll_balance.update(artists, balance)

    def describe(self, balance):
        return roll_balance.describe(balance, self.family)

    def prediction(self):
        return Prediction(
            question=f"The corner stays at {self.lesson.show(START, G)}. The roll stiffness of the whole car "
                     f"goes from "
                     f"{self._shown(1.0)} to half of that, {self._shown(0.5)}. What does the roll angle do?",
            noun="roll angle", kind="angle", quantity=lambda balance: balance.roll,
            before={}, after={"stiffness": 0.5 * total_of(self.car)}, same=np.radians(0.1))

    def _shown(self, part):
        return self.lesson.show(part * total_of(self.car), STIFF)

    def mark(self, artists, guess):
        roll_balance.mark(artists, guess)


def gradient(lesson) -> str:
    """The roll gradient step by step."""
    car, show = lesson.car, lesson.show
    front, rear = ends_of(car)
    total, takes = _total(lesson), least_roll_stiffness(car)
    without = float(roll_gradient_without_gravity(car, front.total_roll, rear.total_roll))
    full = float(roll_gradient(car, front, rear))
    twist = ("" if car.chassis_torsion is None else
             " The body twists a little between the axles; that is in both figures.")
    return (f"**{car.title}, as it stands.**\n\n"
            f"1. Sprung mass {show(car.sprung_mass, 'mass')}. Its centre of gravity lies "
            f"{show(roll_moment_arm(car), 'length')} above the roll axis.\n"
            f"2. Roll stiffness on the tyres: front {show(float(front.total_roll), STIFF)}, rear "
            f"{show(float(rear.total_roll), STIFF)}, together {show(total, STIFF)}.\n"
            f"3. The leaning weight takes {show(takes, STIFF)} of that: {100 * takes / total:.0f} %.\n"
            f"4. Roll gradient: **{show(full, 'roll gradient')}**. With the leaning weight left out it would "
            f"be "
            f"{show(without, 'roll gradient')}.{twist}")


def _total(lesson) -> float:
    """Both ends together, as the two are shown, [N*m/rad]."""
    return sum(lesson.rounded(end.total_roll, STIFF) for end in ends_of(lesson.car))


def by_class(lesson) -> str:
    """Where the car stands among others."""
    car, show = lesson.car, lesson.show
    own = float(roll_gradient(car, *ends_of(car)))
    figures = ", ".join(f"{name} {show(low, 'roll gradient')} to {show(high, 'roll gradient')}"
                        for name, (low, high) in CLASS_FIGURES.items())
    return (f"Usual figures by class of car (common practice): {figures}. {capital(lesson.the_car)} has "
            f"{show(own, 'roll gradient')}: {class_by_roll(own)}.")


def belief(lesson) -> str:
    """Flatter is not the same as less load moved."""
    car, show = lesson.car, lesson.show
    at = min(START, hardest(car))
    soft, stiff = (settled_corner(car.with_holes(**bars_at(car, which)), at) for which in ("low", "high"))
    rows, changes = [], []

    def moved(end):
        return lesson.rounded(end.load_transfer, "load")

    for words, value, kind in (
        ("body "
         "roll", lambda c: float(c.roll_angle), "angle"), ("moved at the "
                                                    "front", lambda c: moved(c.front), "load"),
        ("moved at the rear", lambda c: moved(c.rear), "load"),
        ("**moved in all**", lambda c: sum(moved(end) for end in (c.front, c.rear)), "load"),
    ):
        before, after = (value(corner) for corner in (soft, stiff))
        changes.append(100 * (after / before - 1))
        rows.append(f"| {words} | {show(before, kind)} | {show(after, kind)} | {changes[-1]:+.1f} % |")
    return (f"**{car.title} at {show(at, G)}, every bar at its softest and at its stiffest.**\n\n"
            "| | softest | stiffest | change |\n|---|---|---|---|\n" + "\n".join(rows)
            + f"\n\nThe body rolls {-changes[0]:.0f} % less. The load that moves in all changed by "
              f"{changes[-1]:+.1f} %. It "
            "moves because the tyres push at road level and the weight sits higher up. No bar changes that "
            "height. The "
            "little that did change is the leaning weight, which has not gone out so far.")


def no_roll_at_all(lesson) -> str:
    """A car that could not roll would move nearly as much."""
    car, show = lesson.car, lesson.show
    at = min(START, hardest(car))
    corner = settled_corner(car, at)
    whole = lesson.rounded(corner.front.roll_moment + corner.rear.roll_moment, "moment")
    stiff = lesson.rounded(car.mass * at * car.cg_height, "moment")
    return (f"Think of {lesson.the_car} with no springs and no bars at all, as stiff as a go-kart. It does "
            f"not roll. Its "
            f"tyres still push at road level, and its weight still sits {show(car.cg_height, 'length')} up. "
            f"The overturning "
            f"moment at {show(at, G)} is {show(stiff, 'moment')}. On its springs it is "
            f"{show(whole, 'moment')}. So all that "
            f"bars could ever take away is less than {show(whole - stiff, 'moment')}, "
            f"{100 * (1 - stiff / whole):.1f} "
            f"%.")


def stands_up(lesson) -> str:
    """How far the car is from falling over on its own springs."""
    car, show = lesson.car, lesson.show
    least, total = least_roll_stiffness(car), _total(lesson)
    return (f"The leaning weight of {lesson.the_car} tips it by {show(least, STIFF)}. Springs, bars and "
            f"tyres hold "
            f"{show(total, STIFF)}: {total / least:.0f} times as much. With less than {show(least, STIFF)} "
            f"in all the car would "
            "not stand up. It would flop onto its stops at a standstill, with nobody cornering. Give the "
            "model such a car, "
            "and it refuses it in one line. It does not print an angle.")


def take_away(lesson) -> list[str]:
    """At most five lines."""
    car, show = lesson.car, lesson.show
    front, rear = ends_of(car)
    return ["The body rolls until springs and bars push back as hard as corner and leaning weight tip it.",
            "$\\varphi = m_s\\,h'\\,a_y / (K_f + K_r - m_s\\,g\\,h')$. The last term is gravity's share.",
            f"{car.title}: {show(float(roll_gradient(car, front, rear)), 'roll gradient')}. The leaning "
            f"weight takes "
            f"{100 * least_roll_stiffness(car) / total_of(car):.0f} % of its roll stiffness.",
            "A stiffer bar makes the body flatter. It does **not** take load transfer away.",
            "If roll stiffness does not beat $m_s\\,g\\,h'$, the car does not stand up."]
