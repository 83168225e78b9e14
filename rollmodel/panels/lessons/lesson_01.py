"""Lesson 1: the axle on two lifting plates, and what its bar does in each way of moving."""

from dataclasses import replace

from rollmodel.figures import axle_behind, axle_guess
from rollmodel.panels.controls import Slider
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics import axle
from rollmodel.physics.stiffness import axle_stiffness, axle_stiffness_for
from rollmodel.units import KINDS, show

LARGEST = 0.05  # wheel travel at the ends of the sliders, m
UP = 0.03
MOST = 1.3  # times the car's own rate; further, and the arrows of the start would hardly show


class AxlePanel(Panel):
    """Both wheels of the front axle moved by hand, the body held level."""

    name = "axle"
    title = "The front axle from behind, on two lifting plates"
    low, high = {"right": UP}, {"right": -UP}
    presets = {"Both up": {"left": UP, "right": UP}, "Opposite ways": {"left": UP, "right": -UP},
               "Left one alone": {"left": UP, "right": 0.0}}

    def controls(self):
        spring, bar = (float(rate) for rate in _rates(self.lesson))
        return [
            Slider("left", "Left wheel travel", "length", -LARGEST, LARGEST, UP, steps=(1, 0.05)),
            Slider("right", "Right wheel travel", "length", -LARGEST, LARGEST, 0.0, steps=(1, 0.05)),
            Slider("spring", "Spring rate at the wheel", "rate", 0.3 * spring, self._stiffest()[0], spring),
            Slider("bar", "Bar rate at the wheel, other wheel held", "rate", 0.0, self._stiffest()[1], bar),
        ]

    def _stiffest(self):
        """The ends of the sliders of spring and bar, [N/m]; a car without a bar gets one to try."""
        spring, bar = (float(rate) for rate in _rates(self.lesson))
        return MOST * spring, MOST * max(bar, 0.3 * spring)

    def compute(self, values):
        stiff = replace(axle_stiffness_for(self.car.front, 2 * values.bar), spring_wheel_rate=values.spring)
        top = float(axle.wheel_loads(*self._stiffest(), LARGEST, -LARGEST)[0])
        return axle_behind.by_travel(
            self.car.front, values.left, values.right, stiff, LARGEST, top_force=top)

    def draw(self, figure, result):
        drawing = axle_behind.draw(figure, result, self.look, self.family)
        axle_guess.add(drawing, result)
        return drawing

    def update(self, artists, result):
        axle_behind.update(artists, result)

    def describe(self, result):
        return axle_behind.describe(result, self.family)

    def prediction(self):
        up = show(UP, "length", self.family)
        return Prediction(
            question=f"The left wheel is up by {up}, the right one is level. Then the right wheel goes up by "
                     f"{up} too. What does the force at the left wheel do?",
            noun="force at the left wheel", kind="load", quantity=lambda scene: scene.force[0],
            before={"left": UP, "right": 0.0}, after={"left": UP, "right": UP}, same=20.0)

    def mark(self, artists, guess):
        axle_guess.mark(artists, guess)


def _rates(lesson):
    stiff = axle_stiffness(lesson.car.front)
    return stiff.spring_wheel_rate, stiff.bar_wheel_rate


def three_ways(lesson) -> str:
    """What one wheel feels in each way of moving, for the lesson's own car."""
    spring, bar = (lesson.rounded(rate, "rate", 1) for rate in _rates(lesson))
    rows = [("both wheels up together (heave)", axle.heave_rate(spring, bar), "springs alone"),
            ("one up, the other held", axle.one_wheel_rate_other_held(spring, bar), "spring + bar"),
            ("one up, the other down (roll)", axle.roll_rate(spring, bar), "spring + 2 × bar")]
    lines = [f"| {way} | {_fine(lesson, rate)} | {sum_} |" for way, rate, sum_ in rows]
    return "\n".join([
        f"**{lesson.car.title}, front axle.** At each wheel the spring gives {_fine(lesson, spring)}. "
        f"The bar gives {_fine(lesson, bar)} with the other wheel held.", "",
        "| how the wheels move | what one wheel feels | made of |", "|---|---|---|", *lines])


def _fine(lesson, rate) -> str:
    """A rate with the digit that makes the sums of the table add up."""
    return show(float(rate), "rate", lesson.family, KINDS["rate"].unit(lesson.family).decimals + 1)


def belief(lesson) -> str:
    """The wrong belief of this lesson, and the numbers that settle it."""
    spring, bar = _rates(lesson)
    with_bar, without = (axle.wheel_loads(spring, b, UP, UP)[0] for b in (bar, 0.0))
    roll_with, roll_without = (axle.wheel_loads(spring, b, UP, -UP)[0] for b in (bar, 0.0))
    up = lesson.show(UP, "length")
    return (f"Push both front wheels of {lesson.the_car} up by {up}. Each wheel gains "
            f"{lesson.show(with_bar, 'load')} with the bar fitted, and {lesson.show(without, 'load')} with "
            f"the bar taken off. **The same.** Now one wheel up by {up} and the other down by {up}: "
            f"{lesson.show(roll_with, 'load')} with the bar, {lesson.show(roll_without, 'load')} without. "
            "A stiffer spring would have changed both answers. The bar changes only the second.")


def price(lesson) -> str:
    """What a bar costs on rough ground, at one axle."""
    spring, bar = _rates(lesson)
    moved = axle.wheel_loads(spring, bar, UP, 0.0)[1]
    return (f"One wheel rides over a {lesson.show(UP, 'length')} kerb and the body stays where it is. "
            "The wheel on the "
            f"other side has not moved, yet its load changes by {lesson.show(float(moved), 'load')}: the "
            "bar lifts it. That is the price of a bar. On rough ground the two wheels disturb each other.")


def take_away(lesson) -> list[str]:
    """At most five lines."""
    spring, bar = _rates(lesson)
    ratio = float(axle.roll_rate(spring, bar) / spring)
    return ["A bar joins the two wheels of one axle. It works only on the **difference** between them.",
            "Both wheels together: springs alone. One wheel, other held: spring + bar. "
            "Roll: spring + **2 ×** bar.",
            f"On {lesson.the_car}'s front axle each wheel feels {ratio:.1f} times its spring in roll.",
            "The price: a bump at one wheel also changes the load on the other.",
            "Always say which rate you mean: *one end held*, or *in roll*."]
