"""Lesson 11's second panel: a link of the wrong length, on four scale pads; and how nil preload is found."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

import ipywidgets as widgets

from rollmodel.figures import pads
from rollmodel.panels.controls import Hole, Slider
from rollmodel.panels.ends import ENDS, place
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.panels.shown import button, row, text
from rollmodel.panels.test_day import tested
from rollmodel.panels.typed_line import TypedLine, alert
from rollmodel.testday.faults import DayError
from rollmodel.testday.links import checked_link, force_at_wheel, gain_typed, link_behind
from rollmodel.units import UnitError, show

FAR, ASKED = 0.010, 0.005  # m: the sliders' ends, and the difference that is predicted


@dataclass(frozen=True)
class Result:
    """Four pads, and what the bar of each end would push with while the wheels cannot move, [N]."""

    pads: pads.Scene
    forces: dict[str, float]


class LinksPanel(Panel):
    """How far each end's left link is off, in which hole; what the four pads make of it."""

    name = "links"
    title = "Set the links: what a link of the wrong length does to four pads"
    large = "High"

    @property
    def car(self):
        return self.lesson.car if any(self.lesson.car.axle(end).bar for end in ENDS) else tested(self.lesson)

    @property
    def low(self):
        return {f"{end}_link": -ASKED for end in self._ends()[:1]}

    @property
    def high(self):
        return {f"{end}_link": ASKED for end in self._ends()[:1]}

    def controls(self):
        links = [
            Slider(
                f"{end}_link",
                f"{end.capitalize()} left link too long by",
                "length",
                -FAR,
                FAR,
                0.0,
                (0.5, 0.02),
            )
            for end in self._ends()
        ]
        holes = [
            Hole.of(f"{end}_hole", f"{end.capitalize()} {place(self.car.axle(end))}", self.car.axle(end).bar)
            for end in self._ends()
        ]
        return [*links, *holes]

    def compute(self, values):
        off = {end: getattr(values, f"{end}_link") for end in self._ends()}
        holes = {end: getattr(values, f"{end}_hole") for end in self._ends()}
        scene = pads.with_links(self.car, off, holes, self._off_in_words(off))
        return Result(scene, {end: force_at_wheel(self.car, end, off[end], holes[end]) for end in off})

    def draw(self, figure, result):
        return pads.draw(figure, result.pads, self.look, self.family)

    def update(self, artists, result):
        pads.update(artists, result.pads)

    def describe(self, result):
        return f"{pads.describe(result.pads, self.family)} {self._gain(result)}"

    def prediction(self):
        end = self._ends()[0]
        return Prediction(
            question=f"The {end} left link is made {show(ASKED, 'length', self.family)} too long, the car "
            f"stands on four pads. What does the {end} left pad's reading do?",
            noun=f"reading of the {end} left pad",
            kind="mass",
            quantity=lambda result: result.pads.now[pads.CORNERS.index(f"{end}_left")],
            before={},
            after={f"{end}_link": ASKED},
            same=pads.SAME,
        )

    def mark(self, artists, guess):
        pads.mark(artists, f"{self._ends()[0]}_left", guess)

    def below(self):
        self.nil = NilPreload(self)
        return [self.caption, self.nil.widget]

    def more_names(self):
        return self.nil.names()

    def after(self, result):
        self.nil.follow(result is not None)

    def hole(self, end: str) -> int:
        """Which hole the slider says."""
        return getattr(self.values, f"{end}_hole")

    # ---- how it works ----

    def _ends(self):
        return [end for end in ENDS if self.car.axle(end).bar]

    def _off_in_words(self, off):
        """ "front left link 5 mm too long"."""
        told = (
            f"{end} left link {show(abs(value), 'length', self.family)} too "
            f"{'long' if value > 0 else 'short'}"
            for end, value in off.items()
            if value
        )
        return ", ".join(told)

    def _gain(self, result):
        gain = pads.signed(result.pads.gain, self.family)
        held = " and ".join(
            f"{show(abs(force), 'load', self.family)} at the {end}"
            for end, force in result.forces.items()
            if force
        )
        bolt = f" Were the wheels held still, the bar would push at each with {held}." if held else ""
        only = "The sums of the axles stay: only the diagonal tells."
        return f"The diagonal gains {gain} on links that fit.{bolt} {only}"


class NilPreload:
    """From what the pads showed on hooking the bar up to the turn of the link."""

    def __init__(self, panel):
        self.panel, self.kept = panel, panel.kept
        self.end = widgets.Dropdown(options=["Front", "Rear"])
        self.end.add_class("rm-nil-end")
        self.gain = TypedLine(
            "gained", "Front left and rear right gained together", lambda *_: None, "such as 12 kg"
        )
        self.answer = text(css="rm-reply")
        self.widget = widgets.VBox(
            [
                text(
                    "<strong>Find nil preload.</strong> Unhook one link, read the pads. Hook it "
                    "up, read again. "
                    "Which end, and what did the diagonal gain?"
                ),
                row(self.end, self.gain.widget, button("How far is the link off?", self.tell), css="rm-form"),
                self.answer,
            ]
        )
        self.widget.add_class("rm-card")

    def names(self) -> dict:
        """Attributes for assistive technology."""
        return self.gain.names() | {
            ".rm-nil-end select": {"aria-label": "End whose link was hooked up"},
            ".rm-reply .widget-html-content": {"aria-live": "polite"},
        }

    def follow(self, there: bool) -> None:
        """An answer for another car or hole goes."""
        now = (self.panel.car, tuple(vars(self.panel.values).items()), self.panel.family)
        if not there or self.kept.get("nil for") != now:
            self.answer.value = ""
        self.kept["nil for"] = now

    def tell(self, *_) -> None:
        """The link's error, or why there is none."""
        end, panel = self.end.value.lower(), self.panel
        try:
            if panel.car.axle(end).bar is None:
                raise DayError(f"this car has no {end} bar")
            gain = gain_typed(self.gain.box.value, panel.family)
            off = checked_link(link_behind(panel.car, end, gain, panel.hole(end)))
        except (UnitError, DayError) as fault:
            self.answer.value = alert(fault)
            return
        turn = "Shorten" if off > 0 else "Lengthen"
        size = show(abs(off), "length", panel.family)
        self.answer.value = escape(
            f"{end.capitalize()} left link {size} too {'long' if off > 0 else 'short'}, in this "
            f"hole. {turn} it "
            f"by that, or the right one the other way. Read again: the pads have the last word."
            if float(size.split()[0])
            else "Nothing that shows: the preload is nil."
        )
