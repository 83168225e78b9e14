"""Lesson 7: which end gives up first, and what a stiffer bar at one end does to that."""

from __future__ import annotations

from rollmodel.advice import class_by_roll
from rollmodel.car import GRAVITY, Car
from rollmodel.figures import change, understeer_curve
from rollmodel.panels.controls import Hole, Slider
from rollmodel.panels.lesson import capital
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
    noun,
    own,
    soft_and_stiff,
)
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.sheets import training_car, training_cars

G = "lateral acceleration"
SLOPE = "understeer gradient"
FELT = 1e-4 * GRAVITY  # a smaller move between the limits is none, m/s^2


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

    low = {"corner": 0.3 * GRAVITY}

    def __init__(self, lesson=None):
        super().__init__(lesson)
        self.widget.add_class("rm-wide")

    @property
    def size(self):
        return change.size(self.look)

    def controls(self):
        car = self.adjustable
        return [*super().controls(),
                Slider("corner", "Corner for the loads", G, 0.3 * GRAVITY, corner_for(car),
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
            f"usual figures). Coasting, with no drive, its front can hold {show(first.held('front'), G)}, its rear "
            f"{show(first.held('rear'), G)}. So the {first.limit_end} gives up first, and the car holds "
            f"{show(first.limit, G)}.")


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
        _row("1. bar", "roll stiffness of the axle", stiff), _row("2. load", "moves from the inside to the outside wheel", loads(2)),
        _row("3. wheels", "the inside wheel carries", loads(0)),
        _row("", "the outside wheel carries", loads(1)),
        f"| 4. tyres | change of the pair's most side force | {' | '.join(tyres)} |",
        _row("5. limit", "the end can hold", held)])


def _row(step, what, ends):
    return f"| {step} | {what} | " + " | ".join(_moved(one, two, "**") for one, two in ends) + " |"


def _moved(first: str, last: str, stress: str = "") -> str:
    return first if first == last else f"{first} → {stress}{last}{stress}"


def _grip(grip, show):
    def signed(value):
        return ("+" if value > 0.5 else "") + show(value, "load")

    return f"{signed(grip.by_load)} uneven load, {signed(grip.by_lean)} lean: **{signed(grip.whole)}**"


def read_the_chain(lesson) -> str:
    """The same steps in words, as they come out on this car."""
    car, show = car_of(lesson), lesson.show
    _, corners, grips = front_moved(car)
    if any(bool(one.rear.lifted) for one in corners):
        return (f"**Read it.** {capital(lesson.the_car)}'s inside rear wheel is off the ground in this corner: it "
                f"carries {show(float(corners[0].rear.inside), 'load')}. The rear is at its cap, whatever "
                "its bar does. So the front bar cannot take load off the rear. The road from bar to tyre is "
                "cut. Choose the coupe in the switches above to see that road whole.")
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


def belief(lesson) -> str:
    """Stiffening the front to cure understeer, with the numbers that settle it."""
    car, show = car_of(lesson), lesson.show
    before, after = soft_and_stiff(car, "front")
    words = [f"{car.title}, front bar from softest to stiffest. The front limit goes from "
             f"{show(before.held('front'), G)} to {show(after.held('front'), G)}. It lies "
             f"{_place(before, lesson)} before and {_place(after, lesson)} after.", _judged(before, after),
             f"The slope at 0.3 g: {_moved(*(show(one.gradient, SLOPE) for one in (before, after)))}.",
             f"In the corner at {show(corner_for(car), G)} the front wheels are steered "
             f"{show(before.near_steer, 'angle')} before and {show(after.near_steer, 'angle')} after, "
             "beyond what the bend itself asks."]
    return " ".join(words)


def _place(reading, lesson):
    return f"{lesson.show(abs(lead(reading, lesson)), G)} {'behind' if reading.lead < 0 else 'ahead of'} the rear's"


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
    words = (f"Leave the front soft. The rear bar stood on {place} {car.rear.hole} so far. Now move it from {place} "
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
            cells.append(_moved(*(lesson.show(value(one), kind) for one in pair)))
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
    return (f"The figures here are for coasting wheels: front limit less rear limit moves by {coasting}. With the "
            f"drive force that holds the speed it is {pulling}. Minus means towards understeer. "
            f"Drive also takes grip from the driven wheels: front {front}, rear {rear}. {turned} gives up first, the "
            f"{second.limit_end}.")


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
            "On a reasonably stiff car a stiffer front means **more** understeer, a softer one less.",
            f"{car.title}, front bar from softest to stiffest: {told}.",
            "Two exceptions: a car that wallows (lesson 9) and a wheel already in the air (lesson 5)."]
