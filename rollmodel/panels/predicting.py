"""Predict, then look: a direction and a rough size, committed before the controls open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from html import escape

import ipywidgets as widgets

from rollmodel.panels import pace, session
from rollmodel.panels.controls import is_number
from rollmodel.panels.shown import button, row, text
from rollmodel.units import UnitError, label, parse, quoted, show, within

RISES, FALLS, STAYS = "It rises", "It falls", "It stays about the same"
SIGN = {RISES: 1, FALLS: -1, STAYS: 0}
# The largest change that anybody can mean: far above any answer, so that it gives none away.
MOST = {
    "lateral acceleration": "3 g",
    "angle": "45 deg",
    "load": "50000 N",
    "rate": "5000 N/mm",
    "roll stiffness": "80000 N*m/deg",
    "mass": "2000 kg",
    "roll gradient": "30 deg/g",
    "understeer gradient": "30 deg/g",
}


@dataclass(frozen=True)
class Prediction:
    """What the learner commits to.

    Parameters
    ----------
    question : str
        Names the control, its start and its end, and the quantity.
    noun : str
        The quantity, to stand after "the": "load on the inside wheel".
    kind : str
        Its kind of unit.
    quantity : callable
        From a panel's result to the quantity, [SI].
    before, after : dict
        Control values that differ from the start, at the two ends of the change.
    same : float
        Changes smaller than this count as "about the same", [SI].
    """

    question: str
    noun: str
    kind: str
    quantity: Callable
    before: dict
    after: dict
    same: float


class PredictionCard:
    """The form above a panel; locks the panel's controls until it is committed or skipped."""

    def __init__(self, panel):
        self.panel, self.asked = panel, None
        self._of = panel.car
        self.opened = pace.in_one_go() or panel.lesson.open_at_once
        self.widget = widgets.VBox()
        self._make()

    @property
    def kept(self) -> dict:
        """What was committed on the present car; another car is another question."""
        return session.remembered(*self.panel.key, "prediction", self.panel.car)

    @property
    def pending(self) -> bool:
        """Whether a prediction is still wanted, so that its answer is kept back; controls may be open."""
        return bool(self.asked) and "state" not in self.kept and not self.panel.lesson.open_at_once

    @property
    def locked(self) -> bool:
        """Whether the controls wait for a commitment."""
        return bool(self.asked) and not self.opened and "state" not in self.kept

    def lock(self) -> None:
        """Bring the controls in line."""
        for one in self.panel.rows.values():
            one.enable(not self.locked)
        for one in self.panel.buttons:
            one.disabled = self.locked

    def guess_value(self) -> float | None:
        """Where the committed prediction puts the quantity, [SI]; None when there is none."""
        if not self.asked or self.kept.get("state") != "committed":
            return None
        return self._ends()[0] + SIGN[self.kept["direction"]] * self.kept["size"]

    def restyle(self) -> None:
        """Ask in the present units, for the present car."""
        self._follow_car()
        self.asked = self.panel.prediction()
        self.widget.layout.display = None if self.asked else "none"
        if not self.asked:
            return
        self.question.value = f"<strong>Predict.</strong> {escape(self.asked.question)}"
        self.unit.value = escape(label(self.asked.kind, self.panel.family))
        self._show()

    def _follow_car(self):
        """Once committed or skipped on one car, the controls are open on the next one too."""
        before = session.remembered(*self.panel.key, "prediction", self._of)
        if self._of != self.panel.car:
            self.opened = self.opened or "state" in before
            self._of, self.direction.value, self.size.value = self.panel.car, None, ""

    def reached(self, values) -> None:
        """Once the learner has moved the controls to the end of the change, say how it went."""
        if self.kept.get("state") != "committed" or self.kept.get("seen"):
            return
        if all(self._close(name, getattr(values, name), end) for name, end in self.asked.after.items()):
            self.kept["seen"] = True
            self._show()

    def names(self) -> dict:
        """Attributes for assistive technology."""
        if not self.asked:
            return {}
        return {
            ".rm-guess input[type=text]": {
                "aria-label": f"By about, {label(self.asked.kind, self.panel.family)}"
            },
            ".rm-direction": {"role": "radiogroup", "aria-label": "Direction of the change"},
        }

    def commit(self, *_) -> None:
        """Take direction and size, or say in one line what is missing."""
        try:
            direction, size = self._read()
        except UnitError as error:
            self._say(str(error))
            return
        self.kept.update(state="committed", direction=direction, size=size, typed=self.size.value)
        self._settle()

    def skip(self, *_) -> None:
        self.kept.update(state="skipped")
        self._settle()

    def again(self, *_) -> None:
        """Take the commitment back and ask again."""
        self.kept.clear()
        self.opened = True
        self._settle()

    def _settle(self):
        self._say("")
        self.panel.predicted()
        (self.size if "state" not in self.kept else self.buttons[-1]).focus()  # the pressed button is gone

    def _make(self):
        self.question, self.message, self.outcome = text(), text(css="rm-message"), text()
        self.direction = widgets.RadioButtons(options=tuple(SIGN), value=None)
        self.direction.add_class("rm-direction")
        self.size, self.unit = widgets.Text(continuous_update=False), text()
        self.guess = row(text("by about"), self.size, self.unit, css="rm-row")
        self.guess.add_class("rm-guess")
        self.buttons = [
            button(*of)
            for of in (("Commit", self.commit), ("Skip", self.skip), ("Predict again", self.again))
        ]
        self.widget.add_class("rm-card")
        commit, skip, again = self.buttons
        form = row(self.direction, self.guess, commit, skip, self.outcome, again, css="rm-form")
        self.widget.children = [self.question, form, self.message]

    def _show(self):
        state = self.kept.get("state")
        for widget in (self.direction, self.guess, *self.buttons):
            asking = widget is not self.buttons[-1]
            widget.layout.display = None if asking == (state is None) else "none"
        self.outcome.value = escape(self._words(state))

    def _words(self, state):
        if state == "skipped":
            return "Skipped. No prediction was made."
        if state == "committed":
            return f"You said: {self._said()}. " + (
                self._verdict()
                if self.kept.get("seen")
                else "Your mark is in the picture. Now make the change and look."
            )
        if self.opened:
            return "Not committed. The controls are open all the same; you learn more if you commit first."
        return "Commit first, or press Skip; then the controls open."

    def _said(self):
        direction, size = self.kept["direction"], self.kept["size"]
        words = direction[0].lower() + direction[1:]
        return words if direction == STAYS else f"{words} by about {self._shown(size)}"

    def _verdict(self):
        before, after = self._ends()
        change = after - before
        truth = STAYS if abs(change) < self.asked.same else RISES if change > 0 else FALLS
        fact = f"The model says: {self._fact(before, after)}."
        if truth != self.kept["direction"]:
            return f"{fact} {self._other_way(truth)}"
        return f"{fact} The direction is right{self._size_words(abs(change), truth)}."

    def _fact(self, before, after):
        """Both ends of the change; a change that rounds to nothing is called that."""
        if self._shown(before) == self._shown(after):
            return f"{self._shown(before)} before and after"
        change = self._shown(abs(after - before))
        return f"from {self._shown(before)} to {self._shown(after)}, a change of {change}"

    def _other_way(self, truth):
        if truth == STAYS:
            return "You expected a change; this counts as about the same."
        if self.kept["direction"] == STAYS:
            return f"You expected it to stay; {truth[0].lower()}{truth[1:]}."
        return "The direction is the other way from what you said."

    def _size_words(self, change, truth):
        said = self.kept["size"]
        if truth == STAYS:
            return ""
        if change / 2 <= said <= 2 * change:
            return " and so is the size, within a factor of two"
        return (
            "; the size is more than twice yours"
            if said < change
            else "; the size is less than half of yours"
        )

    def _ends(self):
        results = (
            self.panel.compute(self.panel.start_values(**at)) for at in (self.asked.before, self.asked.after)
        )
        return [float(self.asked.quantity(result)) for result in results]

    def _shown(self, value):
        return show(value, self.asked.kind, self.panel.family)

    def _read(self):
        direction, size = self.direction.value, self.size.value.strip()
        if direction is None:
            raise UnitError("Choose a direction first.")
        if direction == STAYS:
            return direction, 0.0
        if not size:
            raise UnitError("Type a rough size; it need not be exact.")
        unit = label(self.asked.kind, self.panel.family)
        return direction, self._size_of(f"{size} {unit}" if is_number(size) else size)

    def _size_of(self, typed):
        """A change's size, [SI]: above nil, since its direction is chosen beside it, and believable."""
        kind = self.asked.kind
        try:
            value = parse(typed, kind)
            if value <= 0:
                raise UnitError(
                    f"wanted a size above 0, given {quoted(typed)}: which way it goes is chosen beside it"
                )
            return within(value, typed, kind, 0.0, parse(MOST[kind], kind))
        except UnitError as error:
            raise UnitError(f"By about: {error}.") from None

    def _close(self, name, value, end):
        control, family = self.panel.rows[name].control, self.panel.family
        if not isinstance(end, float):
            return value == end
        return control.snapped(value, family) == control.snapped(end, family)

    def _say(self, words):
        self.message.value = f'<span role="alert">{escape(words)}</span>' if words else ""
