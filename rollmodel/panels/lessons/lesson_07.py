"""Lesson 7: which end gives up first, and what a stiffer bar at one end does to that."""

from __future__ import annotations

from rollmodel.advice import class_by_roll
from rollmodel.car import GRAVITY, Car
from rollmodel.figures import change, understeer_curve
from rollmodel.panels.controls import Hole, Slider
from rollmodel.panels.lesson import capital
from rollmodel.panels.lessons.lesson_07_belief import belief, driven, every_car, what_helps
from rollmodel.panels.lessons.lesson_07_numbers import (
    ENDS,
    car_of,
    corner_for,
    curve,
    front_moved,
    grip_shown,
    lead,
    limits,
    loads_shown,
    moved,
    noun,
    own,
    soft_and_stiff,
)
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction

__all__ = [
    "SteerPanel",
    "TyresPanel",
    "belief",
    "chain",
    "driven",
    "every_car",
    "read_the_chain",
    "take_away",
    "the_car",
    "what_helps",
]
G = "lateral acceleration"
SLOPE = "understeer gradient"


class HolesPanel(Panel):
    """A panel whose controls are the two bars."""

    large = "High"

    @property
    def adjustable(self) -> Car:
        return car_of(self.lesson)

    def controls(self):
        car = self.adjustable
        return [Hole.of("front", f"Front {noun(car.front)}", car.front.bar),
                Hole.of("rear", f"Rear {noun(car.rear)}", car.rear.bar)]

    @property
    def high(self):
        """The change that the lesson is about."""
        return {"front": self.adjustable.front.positions}

    def change_ahead(self, name, kind, quantity, same):
        """The prediction of this lesson: the front bar from its softest hole to its stiffest."""
        axle = self.adjustable.front
        hole, last = noun(axle), axle.positions
        return Prediction(
            question=f"The front bar moves from {hole} 1, the softest, to {hole} {last}, the stiffest. The "
                     f"rear stays as it is. What does the {name} do?",
            noun=name, kind=kind, quantity=quantity, before={"front": 1}, after={"front": last}, same=same)


class TyresPanel(HolesPanel):
    """One bar change followed to the wheels, the pairs of tyres and the limits."""

    name = "tyres"
    title = "From the bar to the wheels, to the tyres, to the limits"

    @property
    def low(self):
        return {"corner": self._gentle}

    @property
    def _gentle(self):
        """A corner well below what the car holds, [m/s^2]."""
        return min(0.3 * GRAVITY, 0.5 * corner_for(self.adjustable))

    def __init__(self, lesson=None):
        super().__init__(lesson)
        self.widget.add_class("rm-wide")

    @property
    def size(self):
        return change.size(self.look)

    def controls(self):
        car = self.adjustable
        return [*super().controls(),
                Slider("corner", "Corner for the loads", G, self._gentle, corner_for(car),
                       corner_for(car), steps=(0.01, 0.01))]

    def compute(self, values):
        car = self.adjustable
        holes = values.front, values.rear
        return change.in_corner(car, values.corner, holes, limits(car, *holes))

    def draw(self, figure, scene):
        return change.draw(figure, scene, self.look, self.family)

    def update(self, artists, scene):
        change.update(artists, scene)

    def describe(self, scene):
        return f"{self.adjustable.title}. {change.describe(scene, self.family)}"

    def prediction(self):
        return self.change_ahead("front limit", G, lambda scene: scene.limits.after.front, 0.0005 * GRAVITY)

    def mark(self, artists, guess):
        change.mark(artists, "front", guess)


class SteerPanel(HolesPanel):
    """The same change as the driver meets it: steer against lateral acceleration."""

    name = "steer"
    title = "The steer that the car asks for, before and after"

    @property
    def low(self):
        """The other way to move the balance: the rear at its stiffest."""
        return {"rear": self.adjustable.rear.positions}

    def compute(self, values):
        car = self.adjustable
        return understeer_curve.Change(curve(car, *own(car)), curve(car, values.front, values.rear),
                                       *understeer_curve.room_for(car))

    def draw(self, figure, result):
        return understeer_curve.draw(figure.add_axes((0, 0, 1, 1)), result, self.look, self.family)

    def update(self, artists, result):
        understeer_curve.update(artists, result)

    def describe(self, result):
        return f"{self.adjustable.title}. {understeer_curve.describe(result, self.family)}"

    def prediction(self):
        return self.change_ahead("slope of the curve at 0.3 g", SLOPE, lambda result: result.after.gradient,
                                 1e-4 / GRAVITY)

    def mark(self, artists, guess):
        understeer_curve.mark(artists, guess)


def the_car(lesson) -> str:
    """How stiff the car is, and which end gives up first before anything is touched."""
    car, show = car_of(lesson), lesson.show
    first = soft_and_stiff(car, "front")[0]
    return (f"**{car.title}**, front bar on its softest {noun(car.front)}. It rolls "
            f"{show(first.roll_gradient, 'roll gradient')} ({class_by_roll(first.roll_gradient)}, by "
            f"usual figures). Coasting, with no drive, its front can hold {show(first.held('front'), G)}, "
            f"its rear {show(first.held('rear'), G)}. So the {first.limit_end} gives up first, and the car "
            f"holds {show(first.limit, G)}.")


def chain(lesson) -> str:
    """One change of the front bar followed from the bar to the limits, as a table."""
    car, show = car_of(lesson), lesson.show
    setups, corners, grips = front_moved(car)
    readings_ = soft_and_stiff(car, "front")

    def loads(n):
        return [[show(loads_shown(lesson, one.axle(end))[n], "load") for one in corners] for end in ENDS]
    stiff = [[show(float(one[n].total_roll), "roll stiffness") for one in setups] for n in range(2)]
    held = [[show(one.held(end), G) for one in readings_] for end in ENDS]
    tyres = [_grip(grip_shown(lesson, grips[end]), show) for end in ENDS]
    hole, last = noun(car.front), car.front.positions
    return "\n".join([
        f"**{car.title}: front bar from {hole} 1 to {hole} {last}, in a corner at "
        f"{show(corner_for(car), G)}.**",
        "", "| step | | front | rear |", "|---|---|---|---|",
        _row("1. bar", "roll stiffness of the axle", stiff),
        _row("2. load", "moves from the inside to the outside wheel", loads(2)),
        _row("3. wheels", "the inside wheel carries", loads(0)),
        _row("", "the outside wheel carries", loads(1)),
        f"| 4. tyres | change of the pair's most side force | {' | '.join(tyres)} |",
        _row("5. limit", "the end can hold", held)])


def _row(step, what, ends):
    return f"| {step} | {what} | " + " | ".join(moved(one, two, "**") for one, two in ends) + " |"


def _grip(grip, show):
    def signed(value):
        return ("+" if value > 0.5 else "") + show(value, "load")

    return f"{signed(grip.by_load)} uneven load, {signed(grip.by_lean)} lean: **{signed(grip.whole)}**"


def read_the_chain(lesson) -> str:
    """The same steps in words, as they come out on this car."""
    car, show = car_of(lesson), lesson.show
    _, corners, grips = front_moved(car)
    if any(bool(one.rear.lifted) for one in corners):
        return (f"**Read it.** {capital(lesson.the_car)}'s inside rear wheel is off the ground in this "
                f"corner: it carries {show(float(corners[0].rear.inside), 'load')}. The rear is at its cap, "
                "whatever its bar does. So the front bar cannot take load off the rear. The road from bar to "
                "tyre is cut. Choose the coupe in the switches above to see that road whole.")
    front, rear = (grip_shown(lesson, grips[end]) for end in ENDS)
    before, after = soft_and_stiff(car, "front")
    ways = ["rises" if after.held(end) > before.held(end) else "falls" for end in ENDS]
    limits_move = f"both limits {ways[0][:-1]}" if ways[0] == ways[1] else (
        f"the front limit {ways[0]} and the rear limit {ways[1]}")
    return " ".join([
        "**Read it.** The front takes more of the load transfer, the rear takes less. The sum hardly "
        "changes.",
        f"Now the tyres. Uneven load takes {show(-front.by_load, 'load')} more from the front pair.",
        f"The rear pair gets {show(rear.by_load, 'load')} back.", *_lean_words(front, show),
        f"So {limits_move}."])


def _lean_words(front, show):
    """What the front gets back for rolling less; nothing where the car sheet counts no camber."""
    if front.by_lean < 0.5:
        return []
    won = ("That is less than uneven load took." if front.whole < 0 else
           "On this soft car that is *more* than uneven load took: lesson 9 is about that.")
    return [f"The body also rolls less, so the front tyres lean less: {show(front.by_lean, 'load')} back "
            f"for the front. {won}"]


def take_away(lesson) -> list[str]:
    """At most five lines."""
    car = car_of(lesson)
    pair = soft_and_stiff(car, "front")
    slope, ahead = ([lesson.show(of(one), kind) for one in pair]
                    for of, kind in ((lambda one: one.gradient, SLOPE), (lambda one: lead(one, lesson), G)))
    told = (f"slope at 0.3 g from {slope[0]} to {slope[1]}" if slope[0] != slope[1] else
            f"front limit less rear limit from {ahead[0]} to {ahead[1]}")
    return ["The car's limit is the **smaller** of its ends' two limits. That end names the slide.",
            "Stiffer front bar: more load moves across the front, less across the rear. Uneven load costs "
            "the front pair side force and gives the rear pair some back.",
            "So on a reasonably stiff car a stiffer front means **more** understeer, a softer one less.",
            f"{car.title}, front bar from softest to stiffest: {told}.",
            "If the car wallows, the front's own limit may rise as well (lesson 9). With an inside wheel "
            "in the air already, a bar may have nothing left to move (lesson 5)."]
