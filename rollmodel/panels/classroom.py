"""The class question: a learner answers it alone, or an instructor counts hands."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels.asking import Ask, stored
from rollmodel.panels.hands import Hands, advice
from rollmodel.panels.shown import Shown, button, row, text
from rollmodel.panels.turns import follow
from rollmodel.questions import class_question, right_answer
from rollmodel.units import UnitError

FULL_HALL = 500  # more hands than this in one room are a slip of the keyboard
LIMITS = {"low": 30, "high": 70}  # per cent


class ClassQuestion(Shown):
    """A question with its twin for after the discussion."""

    def __init__(self, lesson, number: int = 1):
        super().__init__(lesson, f"class question {number}", "Class question")
        self.number = number
        first, twin = self._posed()
        self.ask = Ask(first, self.kept.setdefault("first", {}), "rm-first")
        self.twin = Ask(twin, self.kept.setdefault("twin", {}), "rm-twin")
        self.count = Count(first, self.kept.setdefault("hands", {}), "rm-count")
        self.count_twin = Count(twin, self.kept.setdefault("twin hands", {}), "rm-count-twin")
        self.with_twin = widgets.Checkbox(description="Show the twin question", indent=False)
        self.counting = widgets.Checkbox(description="Count hands (instructor)", indent=False)
        for box in (self.with_twin, self.counting):
            follow(box, lambda change: self._show())
        asked = (self.ask, self.count, self.twin, self.count_twin)
        self.fill(
            text(f"<strong>{self.title}</strong>"),
            *(one.widget for one in asked),
            row(self.counting, self.with_twin),
        )
        self._show()
        self._set_names()

    def _posed(self):
        return class_question(self.lesson.number, self.number, self.family)

    def _show(self):
        """What is wanted now; nothing is laid out afresh, so that the focus stays on the tick just made."""
        twin, hands = self.with_twin.value, self.counting.value
        for part, on in ((self.count, hands), (self.twin, twin), (self.count_twin, hands and twin)):
            part.widget.layout.display = None if on else "none"

    def _set_names(self):
        self.set_names(self.ask.names() | self.twin.names() | self.count.names() | self.count_twin.names())

    def restyle(self):
        pairs = (self.ask, self.count), (self.twin, self.count_twin)
        for posed, (ask, count) in zip(self._posed(), pairs, strict=True):
            ask.put(posed)
            count.put(posed)
        self.dress()
        self._set_names()

    def stored(self):
        return stored("Class question, and its twin for after the discussion", self._posed())


class Count:
    """Hands counted for each option, and what they say; the right letter is not shown unasked."""

    def __init__(self, posed, kept: dict, css: str):
        self.posed, self.kept, self.css = posed, kept, css
        self.boxes = {letter: self._box(letter) for letter, _ in posed.options}
        self.limits = {name: self._box(name) for name in LIMITS}
        self.message, self.says = text(css="rm-message"), text(css="rm-reply")
        self.reveal = button("Show the right answer", self._reveal)
        hands = [row(text(letter), box, css="rm-row") for letter, box in self.boxes.items()]
        limits = [
            text("Explain again below"),
            self.limits["low"],
            text("%. Go on from"),
            self.limits["high"],
            text("% right."),
        ]
        self.widget = widgets.VBox(
            [
                row(text("Hands for"), *hands, css="rm-form"),
                row(*limits, css="rm-form"),
                self.message,
                self.says,
                self.reveal,
            ]
        )
        self.widget.add_class(css)
        self._say()

    def put(self, posed) -> None:
        """The same question in other units."""
        self.posed = posed
        self._say()

    def names(self) -> dict:
        """Attributes for assistive technology."""
        names = {
            f".{self.css} .rm-hands-{letter} input": {"aria-label": f"Hands for {letter}"}
            for letter in self.boxes
        }
        words = {"low": "Explain again below, per cent", "high": "Go on from, per cent"}
        names |= {f".{self.css} .rm-hands-{name} input": {"aria-label": said} for name, said in words.items()}
        return names | {f".{self.css} .rm-reply .widget-html-content": {"aria-live": "polite"}}

    def hands(self) -> Hands:
        return Hands({letter: self.kept.get(letter, 0) for letter in self.boxes}, right_answer(self.posed))

    def _box(self, name):
        box = widgets.Text(
            str(self.kept.get(name, LIMITS.get(name, ""))), continuous_update=False, layout={"width": "64px"}
        )
        box.add_class(f"rm-hands-{name}")
        follow(box, lambda change: self._typed(name, change))
        return box

    def _typed(self, name, change):
        """A whole number is kept; anything else goes back with one message."""
        try:
            self.kept[name] = self._read(name, change["new"])
            self.message.value = ""
        except UnitError as error:
            kept = self.kept.get(name, LIMITS.get(name))
            change["owner"].value = "" if kept is None else str(kept)
            self.message.value = f'<span role="alert">{escape(str(error))}</span>'
        self._say()

    def _read(self, name, given):
        given = given.strip()
        top = 100 if name in LIMITS else FULL_HALL
        if not given:
            return LIMITS.get(name, 0)
        if not (given.isascii() and given.isdigit() and int(given) <= top):
            noun = "per cent" if name in LIMITS else f"hands for {name}"
            raise UnitError(f'{noun}: wanted a whole number from 0 to {top}, given "{given[:20]}"')
        limits = LIMITS | {key: self.kept[key] for key in LIMITS if key in self.kept} | {name: int(given)}
        if limits["low"] > limits["high"]:
            raise UnitError(
                "per cent: wanted the first limit below the second, "
                f"given {limits['low']} and {limits['high']}"
            )
        return int(given)

    def _say(self):
        """The advice alone: how many were right, or which option is wrong, would give the answer away."""
        hands = self.hands()
        low, high = (self.kept.get(name, limit) / 100 for name, limit in LIMITS.items())
        what = advice(hands.share, low, high)
        self.says.value = f"<strong>{what}.</strong>" if what else "No hands counted yet."

    def _reveal(self, *_):
        letter, hands = right_answer(self.posed), self.hands()
        lines = [f"Right: {letter}. {dict(self.posed.options)[letter]}", *self.posed.worked]
        if hands.total:
            lines += [
                f"{hands.counts[letter]} of {hands.total} hands were right ({100 * hands.share:.0f} %)."
            ]
        self._say()
        self.says.value += "".join(f"<br>{escape(line)}" for line in (*lines, *self._belief(hands)))

    def _belief(self, hands):
        """What stands behind the wrong option with most hands, for the instructor to take up."""
        letter = hands.favourite_wrong
        if letter is None:
            return []
        name = self.posed.letters[letter]
        belief = next(option.belief for option in self.posed.question.options if option.name == name)
        return [f"Most of the others chose {letter}. Behind it: {belief.name}. {belief.why}"]
