"""Lesson 10's panel: one change at a time in loads, tyres and limits, beside what the advice says of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from html import escape

import ipywidgets as widgets

from rollmodel.advice import PHASES, SYMPTOMS, Choice, Effect, Reading, Thresholds, hole_pair, what_now
from rollmodel.advice.kept import every_reading, kept_choice
from rollmodel.advice.rule import other_end
from rollmodel.figures import change
from rollmodel.panels import still
from rollmodel.panels.advising import advice_html, advice_plain, drive_costs, numbers_html, same_way
from rollmodel.panels.controls import Choice as Words
from rollmodel.panels.controls import Slider
from rollmodel.panels.own_change import OwnChange
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.panels.shown import row, text
from rollmodel.panels.stepping import SteppedHole
from rollmodel.reports.choice import place
from rollmodel.units import show

ENDS = ("front", "rear")
STEPS = (("rear", "stiffer"), ("front", "softer"), ("rear", "softer"), ("front", "stiffer"))
G = "lateral acceleration"
DRIVEN = {
    "front": "at the front, the driven end",
    "rear": "at the rear, the driven end",
    "all": "at both ends, which are driven",
}
HIDDEN = (
    "<strong>The advice waits until you have committed to a change of your own, above.</strong> "
    "To read it now, take the tick away."
)


@dataclass(frozen=True)
class Result:
    """What the picture and the words are made from."""

    scene: change.Scene
    before: Reading
    now: Reading


class ChangePanel(Panel):
    """Holes, a corner and a complaint; loads, tyre pairs, limits and advice move with them."""

    name = "change"
    title = "One change at a time: loads, tyres, limits, and what to do next"

    def __init__(self, lesson=None):
        super().__init__(lesson)
        self.widget.add_class("rm-wide")

    @property
    def size(self):
        return change.size(self.look)

    @property
    def low(self):
        """As far towards oversteer as the holes go, for the stored strip."""
        return self._far({"front": 1, "rear": self.car.rear.positions})

    @property
    def high(self):
        """As far towards understeer."""
        return self._far({"front": self.car.front.positions, "rear": 1})

    def controls(self):
        fitted = self._every()[hole_pair(self.car)]
        most = max(reading.limit for reading in self._every().values())
        symptom = (
            "oversteer" if fitted.limit_end == "rear" else "understeer"
        )  # what the sheet itself points at
        return [
            *(self._hole(end) for end in self._bars()),
            Slider("corner", "Lateral acceleration", G, 0.0, 1.05 * most, fitted.near, steps=(0.01, 0.01)),
            Words("symptom", "The driver says", SYMPTOMS, symptom, lasts=True),
            Words("when", "Where", PHASES, "middle"),
        ]

    def compute(self, values):
        every = self._every(values.when == "exit")
        before, now = (every[pair] for pair in (self.before, self._pair(values)))
        limits = change.limits_of(before, now, every.values())
        return Result(change.in_corner(self.car, values.corner, self._pair(values), limits), before, now)

    def draw(self, figure, result):
        return change.draw(figure, result.scene, self.look, self.family)

    def update(self, artists, result):
        change.update(artists, result.scene)

    def describe(self, result):
        return f"{self._fitted(result.now)} {change.describe(result.scene, self.family)}"

    def below(self):
        self.numbers, self.advice, self.own = text(), text(css="rm-advice"), OwnChange(self)
        advice = widgets.VBox([self.own.hide, self.advice])
        return [self.caption, self.own.widget, row(self.numbers, advice, css="rm-two")]

    def after(self, result):
        """The slower words; without a picture, none either."""
        if result is None:
            self.numbers.value = self.advice.value = ""
            return
        self.numbers.value = self._on_the_way_out(result) + numbers_html(
            result.before, result.now, self.family
        )
        self.own.show()
        self.advice.value = HIDDEN if self.own.hides else self._advice()

    def prediction(self):
        """The next step at one end, and what it does to the other end's limit."""
        if self._step() is None:
            return None
        end, direction, hole = self._step()
        old, new, other = (
            place(self.car, end, self.car.axle(end).hole),
            place(self.car, end, hole),
            other_end(end),
        )
        return Prediction(
            question=f"The {end} bar goes from {old} to {new}, one step {direction}. Nothing at the {other} "
            f"is touched. What does the lateral acceleration that the {other} can hold do?",
            noun=f"limit of the {other}",
            kind=G,
            quantity=lambda result: result.now.held(other),
            before={},
            after={end: hole},
            same=Thresholds().limit_felt,
        )

    def mark(self, artists, guess):
        """The prediction is about the sheet's holes: it leaves the picture to the learner's own change."""
        own = self.own.begun or "before" in self.kept
        change.mark(artists, other_end(self._step()[0]) if self._step() else "front", None if own else guess)

    def restyle(self):
        if self.kept.get("before", (self.car,))[0] != self.car:
            self._forget()
        super().restyle()

    def reset(self, *_):
        self._forget()
        self._marked = False
        super().reset()

    def stored(self):
        bundle, choice = super().stored(), kept_choice(self.car, self.start_values().symptom, "middle")
        advice = still.words("Advice", advice_html(choice, self.family), advice_plain(choice, self.family))
        return bundle | {kind: bundle[kind] + "\n" + words for kind, words in advice.items()}

    def more_names(self):
        return self.own.names() | {".rm-advice .widget-html-content": {"aria-live": "polite"}}

    # ---- what the learner's own change asks for ----

    @property
    def holes(self) -> tuple:
        """Front and rear hole on the sliders; None at an end without a bar."""
        return self._pair(self.values)

    @property
    def before(self) -> tuple:
        """The holes before the change: those on the sheet until the learner commits to one."""
        car, pair = self.kept.get("before", (None, None))
        return pair if car == self.car else hole_pair(self.car)

    def here(self) -> Choice:
        """The advice for the holes as they are now."""
        return kept_choice(self.car.with_holes(*self.holes), self.values.symptom, self.values.when)

    def effect_of(self, end: str, hole: int) -> Effect:
        """What another hole at one end would do from here."""
        every = self._every(self.values.when == "exit")
        return Effect(every[self.holes], every[self.with_hole(end, hole)])

    def with_hole(self, end: str, hole: int) -> tuple:
        """The holes as they are now, with another one at one end."""
        return (hole, self.holes[1]) if end == "front" else (self.holes[0], hole)

    def make(self, end: str, hole: int) -> None:
        """Make a change: what is fitted now becomes "before"."""
        self.kept["before"] = self.car, self.holes
        self._marked = False
        self.set(**{end: hole})

    def beyond(self, end: str, direction: str) -> str:
        """What to say when a step leads past the last hole: the other end, and what it does in numbers."""
        answer = what_now(self.here().car, end, direction)
        if answer.other_hole is None:
            return answer.message
        effect = self.effect_of(answer.other_end, answer.other_hole)
        told = same_way(effect, answer.other_end, answer.other_direction, self.family)
        return f"{answer.message} {told}"

    # ---- how it works ----

    def _bars(self):
        return [end for end in ENDS if self.car.axle(end).bar]

    def _far(self, holes):
        return {end: holes[end] for end in self._bars()}

    def _fitted(self, reading):
        """ "Front hole 2 and rear hole 3."."""
        holes = {"front": reading.front_hole, "rear": reading.rear_hole}
        words = " and ".join(f"{end} {place(self.car, end, holes[end])}" for end in self._bars())
        return f"{words or 'no bar at either end'}.".capitalize()

    def _every(self, driven=False):
        return every_reading(self.car, driven)

    def _pair(self, values):
        return tuple(getattr(values, end, None) for end in ENDS)

    def _forget(self):
        """Drop the learner's own change: "before" is the sheet again."""
        self.kept.pop("before", None)
        self.own.forget()

    def _on_the_way_out(self, result):
        """What "exit" counts that the middle does not: there the car coasts."""
        if self.values.when != "exit":
            return "<p>With no drive, coasting.</p>"
        near = [show(one.near, G, self.family) for one in (self._every()[self.before], result.before)]
        rows = f"the rows below are for {near[1]}, not for {near[0]} as in the middle" * (near[0] != near[1])
        return (
            f"<p>On the way out the force that holds the speed is counted too, {DRIVEN[self.car.drive]}. "
            f"It takes side force from those tyres{', so ' * bool(rows)}{rows}."
            f" {drive_costs(self.car, self._pair(self.values), self.family)}</p>"
        )

    def _advice(self):
        """The advice, and which state of the car it is for."""
        when = "after your change" if self.own.done else "as the car stands now"
        state = f"For {self._fitted(self._every()[self.holes])[:-1].lower()}, {when}:"
        return f"{escape(state)}<br>{advice_html(self.here(), self.family)}"

    def _hole(self, end):
        bar = self.car.axle(end).bar
        plain = SteppedHole.of(end, f"{end.capitalize()} {'blade position' if bar.blade else 'hole'}", bar)
        return replace(plain, beyond=lambda direction: self.beyond(end, direction))

    def _step(self):
        """The first step that is free: end, direction, hole; None where there is none."""
        free = ((end, direction, what_now(self.car, end, direction).hole) for end, direction in STEPS)
        return next((step for step in free if step[2]), None)
