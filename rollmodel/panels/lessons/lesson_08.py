"""Lesson 8: when in the corner a bar works, and when a damper does."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from rollmodel.figures import change_in_time, corner_in_time
from rollmodel.figures.change_in_time import signed
from rollmodel.panels.controls import Hole, Slider
from rollmodel.panels.ends import place
from rollmodel.panels.lessons.lesson_08_numbers import (
    ENDS,
    HARDEST,
    QUICK,
    SLOWEST,
    STIFFER,
    USUAL,
    car_of,
    corner,
    corner_room,
    peak_of,
    reach,
    room,
    shifts,
    usual,
    with_dampers,
)
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics.roll_mode import roll_mode
from rollmodel.physics.shift import PHASES, instants
from rollmodel.physics.stiffness import wheel_rate

G = "lateral acceleration"


class InTimePanel(Panel):
    """A panel on one corner against time."""

    @property
    def size(self):
        return self.look.size[0], 1.15 * self.look.size[1]

    @property
    def asked(self):
        return car_of(self.lesson)

    def time_slider(self, start):
        return Slider("time", "Time to build the corner up", "time", QUICK, SLOWEST, start,
                      steps=(0.05, 0.05))

    def damper_slider(self, end):
        rate = self.asked.axle(end).damper.rate
        return Slider(f"{end}_rate", f"{end.capitalize()} damper rate, at the damper", "damper rate",
                      0.5 * rate, STIFFER * rate, rate)


class CornerPanel(InTimePanel):
    """Each axle's load transfer in four parts while the corner builds up, holds and ends."""

    name = "corner"
    title = "One corner against time: who carries the load transfer, and when"
    low, high = {"time": SLOWEST}, {"time": QUICK}

    def controls(self):
        car = self.asked
        return [self.time_slider(USUAL),
                Slider("peak", "Lateral acceleration in the middle", G, 0.5 * peak_of(car),
                       peak_of(car, HARDEST), peak_of(car), steps=(0.01, 0.01)),
                Hole.of("front", "Front bar", car.front.bar), *(self.damper_slider(end) for end in ENDS)]

    def compute(self, values):
        car = with_dampers(self.asked, front=values.front_rate, rear=values.rear_rate)
        return corner_in_time.of_history(corner(car, values.peak, values.time, values.front), reach(),
                                         corner_room(self.asked))

    def draw(self, figure, result):
        return corner_in_time.draw(figure, result, self.look, self.family)

    def update(self, artists, result):
        corner_in_time.update(artists, result)

    def describe(self, result):
        return f"{self.asked.title}. {corner_in_time.describe(result, self.family)}"

    def prediction(self):
        slow, quick = (self.lesson.show(time, "time") for time in (USUAL, QUICK))
        return Prediction(
            question=f"The driver turns in more quickly: the corner builds up in {quick} instead of {slow}. "
                     "What does the largest load that the front dampers carry on the way in do?",
            noun="dampers' largest load", kind="load", before={"time": USUAL}, after={"time": QUICK},
            quantity=lambda result: result.damper_peaks("front")[0], same=5.0)

    def mark(self, artists, guess):
        corner_in_time.mark(artists, "front", guess)


class WhenPanel(InTimePanel):
    """A stiffer front bar beside stiffer front dampers: what each moves to the front, and when."""

    name = "when"
    title = "Stiffer front bar or stiffer front dampers: what each moves to the front axle, and when"
    large = "High"

    @property
    def size(self):
        return super().size if self.look.projector else self.look.size

    @property
    def low(self):
        """The dampers alone."""
        return {"front": 1, "front_rate": self.stiff_rate}

    @property
    def high(self):
        """Both, each drawn for itself."""
        return {"front_rate": self.stiff_rate}

    @property
    def stiff_rate(self):
        return STIFFER * self.asked.front.damper.rate

    def controls(self):
        bar = Hole.of("front", "Front bar moved to", self.asked.front.bar)
        return [replace(bar, start=len(bar.places)), self.damper_slider("front"), self.time_slider(USUAL)]

    def compute(self, values):
        return shifts(self.asked, peak_of(self.asked), values.time, values.front, values.front_rate,
                      room(self.asked))

    def draw(self, figure, result):
        return change_in_time.draw(figure, result, self.look, self.family)

    def update(self, artists, result):
        change_in_time.update(artists, result)

    def describe(self, result):
        return f"{self.asked.title}. {change_in_time.describe(result, self.family)}"

    def prediction(self):
        old, new = (self.lesson.show(rate, "damper rate")
                    for rate in (self.asked.front.damper.rate, self.stiff_rate))
        return Prediction(
            question=f"The front dampers go from {old} to {new}. In the middle of the corner, what does the "
                     "load that they move to the front do?",
            noun="load moved to the front by the dampers in the middle", kind="load",
            quantity=lambda result: result.of("dampers", "middle"),
            before={}, after={"front_rate": self.stiff_rate}, same=5.0)

    def mark(self, artists, guess):
        change_in_time.mark(artists, guess)


def _on(car) -> str:
    """The hole on which the lesson puts the front bar."""
    return f", front bar on {place(car.front)} {car.front.bar.hole}" if car.front.bar else ""


def two_springs(lesson) -> str:
    """How quickly this body moves in roll, and what a bar and a damper feel."""
    car, show = car_of(lesson), lesson.show
    mode = roll_mode(car)
    history = corner(car, peak_of(car), USUAL)
    fastest = float(np.degrees(history.roll_rate.max()))
    settled = float(history.roll_angle[history.middle])
    return (f"**{car.title}**{_on(car)}, corner at {show(peak_of(car), G)} built up in "
            f"{show(USUAL, 'time')}. The "
            f"body settles at {show(settled, 'angle')} of roll. On the way in it rolls at up to "
            f"{fastest:.1f} degrees a second. In the middle it does not roll any further. Left alone "
            f"the body would swing at {show(float(mode.natural_frequency), 'frequency')}, with a damping "
            f"ratio of {float(mode.damping_ratio):.2f}.\n\n{_at_the_wheel(lesson, car, history)}")


def _at_the_wheel(lesson, car, history):
    """What goes into the formula above, and what comes out."""
    damper, show, most = car.front.damper, lesson.show, float(history.front.dampers.max())
    rate = float(wheel_rate(damper.rate, damper.motion_ratio))
    speed = float(np.degrees(most / (rate * car.front.track / 2)))
    return (f"For the formula: a front damper has {show(damper.rate, 'damper rate')} at the damper, so "
            f"{show(rate, 'damper rate')} at its wheel: × ratio × ratio, with {damper.motion_ratio:.2f}, "
            "as for a "
            f"spring. Across the front suspension the roll speed is up to {speed:.1f} degrees a second; "
            f"the tyres take the rest. That makes {show(most, 'load')}.")


def quickness(lesson) -> str:
    """The dampers' part of the front load transfer against the time to build the corner up."""
    car, show = car_of(lesson), lesson.show
    lines = [f"**{car.title}{_on(car)}, front axle, corner at {show(peak_of(car), G)}.**", "",
             "| built up in | dampers, way in | of the settled transfer | dampers, middle | springs and "
             "bar, middle |",
             "|---|---|---|---|---|"]
    for time in (QUICK, USUAL, SLOWEST):
        history = corner(car, peak_of(car), time)
        front, middle = history.front, history.middle
        most = float(front.dampers.max())
        lines.append(f"| {show(time, 'time')} | {show(most, 'load')} | "
                     f"{show(most / float(front.load_transfer[middle]), 'share')} | "
                     f"{show(float(front.dampers[middle]), 'load')} | "
                     f"{show(float(front.elastic[middle]), 'load')} |")
    return "\n".join(lines)


def belief(lesson) -> str:
    """Bar and dampers side by side at three instants."""
    car, show = car_of(lesson), lesson.show
    result = usual(car)
    names = {"bar": "bar from softest to stiffest", "dampers": "dampers twice as stiff"}
    rows = [f"| {name} | {' | '.join(_read(result, change, lesson))} |" for change, name in names.items()]
    part = result.of("bar", "way in") / result.of("bar", "middle")
    return "\n".join([
        f"**{car.title}**, corner at {show(peak_of(car), G)} built up in {show(USUAL, 'time')}. Load "
        "transfer moved from the rear axle to the front:",
        "", "| change at the front | way in | middle | way out |", "|---|---|---|---|", *rows, "",
        f"When the body rolls fastest the bar has {100 * part:.0f} % of its effect in the middle. On the "
        "way out it still pushes the same way. **A bar cannot treat the entry alone.** The dampers do "
        "nothing in the middle, and on the way out they push the other way."])


def _read(result, change, lesson):
    """What one change moves in each phase, as text."""
    return [signed(result.of(change, phase), lesson.family) for phase in PHASES]


def sides(lesson) -> str:
    """Why the sign turns: the rate of roll on the way in and on the way out."""
    car = car_of(lesson)
    history = corner(car, peak_of(car), USUAL)
    rates = [f"{round(float(np.degrees(history.roll_rate[at])), 1) + 0.0:.1f}"  # + 0.0: no "-0.0"
             for at in instants(history).values()]
    angles = [lesson.show(float(history.roll_angle[at]), "angle") for at in instants(history).values()]
    return (f"Way in: the body stands at {angles[0]} and rolls at {rates[0]} degrees a second. Middle: "
            f"{angles[1]} and {rates[1]} degrees a second. Way out: {angles[2]} and {rates[2]}, the other "
            "way. The bar follows the first figure of each pair, the dampers follow the second.")


def take_away(lesson) -> list[str]:
    """At most five lines."""
    result, show = usual(car_of(lesson)), lesson.show
    moved = ", ".join(_read(result, "dampers", lesson))
    bar = show(result.of("bar", "middle"), "load")
    return ["A bar follows the roll **angle**, a damper the roll **speed**.",
            "In the middle the body has stopped rolling: dampers do nothing there. The bar change moved "
            f"{bar}.",
            f"Dampers work on the way in and, the other way round, on the way out: {moved} (in, middle, "
            "out).",
            "Middle of the corner wrong: bars. Entry or exit wrong, middle right: dampers first.",
            "The quicker the driver turns in, the more the dampers carry."]
