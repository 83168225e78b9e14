"""The learner's own change: one end, one place, and which way the balance goes; then what it does."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

import ipywidgets as widgets

from rollmodel.advice import Choice, Effect, trade_rule
from rollmodel.advice.moves import balance_moves, felt, steer_decides
from rollmodel.panels import session
from rollmodel.panels.advising import WHERE, cautions, listed
from rollmodel.panels.shown import button, row, text
from rollmodel.panels.turns import follow
from rollmodel.reports.choice import headline, place
from rollmodel.reports.choice_numbers import shower

ENDS = ("Front", "Rear")
WAYS = {
    "The front gains on the rear: away from understeer": 1,
    "The rear gains on the front: away from oversteer": -1,
    "Nobody could tell": 0,
}
NONE = 0  # the entry of the list that is no place; places count from 1
TRUTH = {1: "the front gains on the rear", -1: "the rear gains on the front", 0: "nobody could tell"}


@dataclass(frozen=True)
class OwnMove:
    """What the learner committed to, from the setup that the advice was asked about."""

    choice: Choice
    end: str
    hole: int
    said: int  # +1 the front gains, -1 the rear, 0 neither
    effect: Effect

    @property
    def direction(self) -> str:
        return "stiffer" if self.hole > self.choice.car.axle(self.end).hole else "softer"


def told(move: OwnMove, family: str) -> list[str]:
    """What the change does, against what was said, the trade's rule and the advice."""
    return [
        _said(move),
        _model(move.effect, family),
        _direction(move),
        _rule(move),
        *_advice(move, family),
        *_several(move),
    ]


def _said(move):
    old, new = (
        place(move.choice.car, move.end, hole) for hole in (move.choice.car.axle(move.end).hole, move.hole)
    )
    return f"You said: {move.end} bar {move.direction}, {old} to {new}; {TRUTH[move.said]}."


def _model(effect, family):
    tell = shower(family)
    pair = {
        end: [tell(one.held(end), "lateral acceleration fine") for one in (effect.before, effect.after)]
        for end in ("front", "rear")
    }
    limits = ", ".join(f"{end} limit {before} to {after}" for end, (before, after) in pair.items())
    steer = [tell(reading.near_steer, "angle") for reading in (effect.before, effect.after)]
    near = tell(effect.before.near, "lateral acceleration")
    return f"The model says: {limits}. Extra steer at {near}: {steer[0]} to {steer[1]}."


def _direction(move):
    told_apart = felt(move.effect, move.choice.thresholds)
    truth = balance_moves(move.effect, move.choice.thresholds) if told_apart else 0
    by = ", by the steer near the limit" if steer_decides(move.effect, move.choice.thresholds) else ""
    if truth == move.said:
        return f"Your direction is right: {TRUTH[truth]}{by}."
    return f"Your direction is not the model's: {TRUTH[truth]}{by}."


def _rule(move):
    rule = trade_rule(move.choice.symptom)
    words = " or ".join(f"{end} {direction}" for end, direction in rule.items())
    verdict = "Your change follows it" if rule[move.end] == move.direction else "Your change goes against it"
    return f"The trade's rule for {move.choice.symptom} (common practice): {words}. {verdict}."


def _advice(move, family):
    """Where the advice puts this change, and what comes before any bar."""
    choice = move.choice
    if choice.verdict != "change a bar":
        yield (
            f"A bar is not the first cure for {choice.symptom} {WHERE[choice.phase]} here. "
            f"{choice.reasons[0].sentence(shower(family))}"
        )
    for rank, advised in (("first", choice.first), ("second", choice.second)):
        if advised and (advised.end, advised.direction) == (move.end, move.direction):
            more = (
                "" if advised.to_hole == move.hole else f", to {place(choice.car, move.end, advised.to_hole)}"
            )
            yield f"The advice has it as its {rank} choice{more}."
            return
    for left in choice.left_out:
        if (left.end, left.direction) == (move.end, move.direction):
            yield f"The advice leaves it out. {left.reason.sentence(shower(family))}"
            return
    yield f"The advice does not name this change. For the car before it, it says: {headline(choice)}"


def _several(move):
    steps = abs(move.hole - move.choice.car.axle(move.end).hole)
    return [] if steps == 1 else [f"That is {steps} steps at once. Go one, measure, then the next."]


class OwnChange:
    """The form below a panel that has ``here``, ``effect_of`` and ``make``."""

    def __init__(self, panel):
        self.panel, self.kept = panel, session.remembered(*panel.key, "own change")
        self.question, self.message, self.outcome = text(), text(css="rm-message"), text(css="rm-reply")
        self.end = widgets.RadioButtons(options=ENDS, value=None)
        self.hole = widgets.Dropdown(options=[("choose an end first", NONE)])
        self.way = widgets.RadioButtons(options=tuple(WAYS), value=None)
        for widget, name in ((self.end, "end"), (self.hole, "hole"), (self.way, "way")):
            widget.add_class(f"rm-own-{name}")
        self.hide = widgets.Checkbox(True, description="Hide the advice until I commit", indent=False)
        follow(self.hide, lambda change: panel.refresh())
        self.buttons = [button("Commit to this change", self.commit), button("Another change", self.again)]
        follow(self.end, lambda change: self._chosen())
        self.outcome.add_class("rm-own-result")
        form = row(self.end, self.hole, self.way, *self.buttons, css="rm-form")
        self.widget = widgets.VBox([self.question, form, self.message, self.outcome])
        self.widget.add_class("rm-card")

    def names(self) -> dict:
        """Attributes for assistive technology."""
        return {
            ".rm-own-end .widget-radio-box": {"role": "radiogroup", "aria-label": "End to change"},
            ".rm-own-hole select": {"aria-label": "Move it to"},
            ".rm-own-way .widget-radio-box": {"role": "radiogroup", "aria-label": "What the balance will do"},
            ".rm-reply .widget-html-content": {"aria-live": "polite"},
            ".rm-own-result .widget-html-content": {
                "tabindex": "-1", "role": "group", "aria-label": "What your change does",
            },
        }

    @property
    def done(self) -> OwnMove | None:
        """The change that the learner committed to, while car and holes are as it left them."""
        return self.kept.get("move")

    @property
    def begun(self) -> bool:
        """Whether the picture is the learner's own change by now, or about to be."""
        return self.done is not None or self.end.value is not None

    def forget(self) -> None:
        """Drop a commitment."""
        self.kept.clear()
        self.end.value = self.way.value = None

    def _follow(self):
        """A commitment ends for good with another car or other holes."""
        if self.kept and self.kept["now"] != (self.panel.car, self.panel.holes):
            self.kept.clear()

    @property
    def hides(self) -> bool:
        """Whether the advice waits for the learner."""
        return self.hide.value and self.done is None

    def show(self) -> None:
        """Bring question, offer and outcome in line with the setup on the panel."""
        self._follow()
        done, choice = self.done, self.panel.here()
        fitted = (
            " and ".join(
                f"{end} {place(choice.car, end, choice.car.axle(end).hole)}"
                for end in ("front", "rear")
                if choice.car.axle(end).bar
            )
            or "no bar at either end"
        )
        self.question.value = (
            f"<strong>Your change.</strong> The car stands on {escape(fitted)}; the driver says "
            f"{choice.symptom} {WHERE[choice.phase]}. Choose one end and where to move it. "
            "Say what it will do. Then commit."
        )
        self.message.value = ""
        for widget in (self.question, self.end, self.hole, self.way, *self.buttons):
            asking = widget is not self.buttons[-1]
            widget.layout.display = None if asking == (not done) else "none"
        self.outcome.value = listed(told(done, self.panel.family)) + cautions() if done else ""
        self._offer()

    def commit(self, *_) -> None:
        """Take the change, or say in one line what is missing."""
        end, hole, way = self.end.value, self.hole.value, self.way.value
        missing = next(
            (
                words
                for value, words in (
                    (end, "Choose an end first."),
                    (hole or None, "Choose where to move it."),
                    (way, "Say what the balance will do."),
                )
                if value is None
            ),
            "",
        )
        self.message.value = f'<span role="alert">{missing}</span>' if missing else ""
        if not missing:
            end = end.lower()
            self.kept.update(
                now=(self.panel.car, self.panel.with_hole(end, hole)),
                move=OwnMove(self.panel.here(), end, hole, WAYS[way], self.panel.effect_of(end, hole)),
            )
            self.panel.make(end, hole)
            self.outcome.focus()  # the pressed button is gone

    def again(self, *_) -> None:
        """Ask for another change, from where the car is now."""
        self.forget()
        self.show()

    def _chosen(self):
        self._offer()
        self.panel.remark()

    def _offer(self):
        """Every place at the chosen end but the one in use."""
        end = self.end.value
        car = self.panel.here().car
        axle = car.axle(end.lower()) if end else None
        holes = [hole for hole in range(1, axle.positions + 1) if hole != axle.hole] if axle else []
        nothing = "choose an end first" if not end else "no bar here" if not axle.bar else "choose a place"
        options = [(nothing, NONE), *((place(car, end.lower(), hole), hole) for hole in holes)]
        if list(self.hole.options) != options:
            self.hole.options = options
            self.hole.value = NONE
