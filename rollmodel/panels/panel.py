"""The base of every panel: controls on the left, one persistent picture on the right, words below it.

Read the example in :mod:`rollmodel.panels` first.
"""

from __future__ import annotations

import logging
from html import escape
from types import SimpleNamespace

import ipywidgets as widgets

from rollmodel.panels import still
from rollmodel.panels.canvas import Canvas
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.predicting import PredictionCard
from rollmodel.panels.rows import row_for
from rollmodel.panels.shown import Shown, button, close_tree, one_line, row, text
from rollmodel.panels.turns import in_turn

_LOG = logging.getLogger(__name__)


class Panel(Shown):
    """One idea, one picture, a few controls.

    A panel of your own gives ``name``, ``title`` and the methods ``controls``, ``compute``, ``draw``,
    ``update`` and ``describe``; ``low`` and ``high`` for the strip; ``prediction`` and ``mark`` when
    something is to be predicted first.

    Parameters
    ----------
    lesson : Lesson, optional
        Holds the car, the unit family and the look; a plain one is made when left out.

    Attributes
    ----------
    name : str
        Short and unique in its lesson; the values are remembered under it.
    title : str
        One line above the panel.
    low, high : dict
        Control values that differ from the start in the outer pictures of the stored strip.
    large : {"Low", "Start", "High"}
        Which of the three the stored large picture shows: for somebody who only reads, a change says more
        than the state before it.
    presets : dict
        Words of a button to the control values it sets.
    fault : Exception or None
        Why the picture is withdrawn just now.
    """

    name = ""
    title = ""
    low: dict = {}
    high: dict = {}
    large = "Start"
    presets: dict = {}

    # ---- to be written for each panel ----

    def controls(self) -> list:
        """The controls, made from ``self.car`` where their range depends on it."""
        raise NotImplementedError

    def compute(self, values):
        """The result to draw, from the control values in SI (``values.name``); calls the model."""
        raise NotImplementedError

    def draw(self, figure, result):
        """Make every artist once; return those that move (see ``canvas.moving_artists``)."""
        raise NotImplementedError

    def update(self, artists, result) -> None:
        """Set new data on the artists that ``draw`` returned; make no new ones."""
        raise NotImplementedError

    def describe(self, result) -> str:
        """The conclusion and the key numbers in words: caption and text alternative."""
        raise NotImplementedError

    def describe_now(self, result) -> str:
        """The words while a prediction is still wanted: of the present state alone, never of its answer."""
        return self.describe(result)

    def withhold(self, artists, on: bool) -> None:
        """Take out of the picture what answers the prediction while it is still wanted, or show it again."""

    def prediction(self):
        """The ``Prediction`` to commit to before the controls open; None when there is none."""
        return None

    def mark(self, artists, guess) -> None:
        """Show the committed prediction (SI, or None to take it away) on the same axes."""

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the picture, [inch]; a panel of several pictures asks for more."""
        return self.look.size

    def below(self) -> list:
        """The widgets under the picture, made once."""
        return [self.caption]

    def more_names(self) -> dict:
        """Attributes for assistive technology of what ``below`` added, by CSS selector."""
        return {}

    def after(self, result) -> None:
        """More words once the picture is out, so that it need not wait; None: the picture is withdrawn."""

    # ---- for whoever uses a panel ----

    def __init__(self, lesson=None):
        super().__init__(lesson or Lesson(), self.name, self.title)
        self.fault, self._good, self._artists, self._marked = None, "", None, False
        self.canvas = Canvas(self.size)
        self._build()
        self.restyle()

    @property
    def car(self):
        return self.lesson.car

    @property
    def look(self):
        return self.lesson.look

    @property
    def values(self) -> SimpleNamespace:
        """What the controls say now, in SI."""
        return SimpleNamespace(**{name: row.value for name, row in self.rows.items()})

    def start_values(self, **changes) -> SimpleNamespace:
        """The values after a reset, with changes."""
        return SimpleNamespace(**({c.name: c.start for c in self.controls()} | changes))

    @in_turn
    def set(self, **values) -> None:
        """Move controls from the program, in SI; one new picture for all of them together."""
        for name, value in values.items():
            self.rows[name].put(value)
        self.refresh()

    def reset(self, *_) -> None:
        """Every control back to its start."""
        self._guarded(lambda: self.set(**vars(self.start_values())))

    def restyle(self) -> None:
        """Draw afresh after the look, the units or the car changed; the figure object stays."""
        self.dress()
        self._artists = None
        self._guarded(self._afresh)

    def refresh(self) -> None:
        """Bring picture and words in line with the controls, or say in one line why that failed."""
        for one in self.rows.values():
            one.say("")  # a refusal speaks of what was typed last, not of what stands there now
        self._guarded(self._paint)
        self.kept.update({name: (one.control, one.value) for name, one in self.rows.items()})

    def predicted(self) -> None:
        """The learner committed, skipped or took it back: show it."""
        self._guarded(self._ask)
        self.remark()

    def remark(self) -> None:
        """Draw the prediction's mark again, or take it away."""
        self._marked = False
        self.refresh()

    def open_controls(self, on: bool) -> None:
        """The instructor wants the controls without a prediction, or no longer so."""
        self.card.opened = on
        self.predicted()

    def stored(self) -> dict:
        """The mime bundle kept in the notebook: one large picture, and the strip low, start, high."""
        try:
            return self._stored()
        except Exception as fault:  # the cell still runs to its end, and says why there is no picture
            return still.words(self.title, f"<p>{escape(one_line(fault))}</p>", one_line(fault))

    def pictures(self, states) -> list[tuple[str, bytes, str]]:
        """Name, PNG and words of each state, given as its name and the control values off the start."""
        canvas, artists, shots = Canvas(self.size), None, []
        for state, changes in states:
            result = self.compute(self.start_values(**changes))
            artists = self._begin(canvas, result) if artists is None else artists
            self.update(artists, result)
            shots.append((self._state_words(state, changes), canvas.small_png(), self.describe(result)))
        return shots

    # ---- how it works ----

    def _guarded(self, action):
        """Do it, or withdraw the picture: the learner gets one line on what went wrong and keeps the rest."""
        try:
            action()
        except Exception as fault:
            _LOG.debug("panel %s", self.key, exc_info=True)
            self._withdraw(fault)

    def _afresh(self):
        if not self.rows or [one.control for one in self.rows.values()] != list(self.controls()):
            self._lay_rows()
        for one in self.rows.values():
            one.put(one.value, self.family)
        self._ask()
        self.refresh()

    def _ask(self):
        """Bring the prediction and what it locks in line."""
        self.card.restyle()
        self.card.lock()

    def _stored(self):
        shots = self.pictures((("Low", self.low), ("Start", {}), ("High", self.high)))
        return still.bundle(self.title, shots[("Low", "Start", "High").index(self.large)][1:], shots)

    def _build(self):
        self.image = widgets.Image(format="png")
        self.caption, self.trouble = text(css="rm-caption"), text(css="rm-message")
        self.buttons = [
            button(words, lambda *_, values=values: self.set(**values))
            for words, values in self.presets.items()
        ]
        self.buttons.append(button("Reset", self.reset))
        self.side, self.picture = widgets.VBox(), widgets.VBox([self.image, self.trouble, *self.below()])
        self.side.add_class("rm-controls")
        self.picture.add_class("rm-picture")
        self.rows, self.card = {}, PredictionCard(self)
        self.fill(
            text(f"<strong>{escape(self.title)}</strong>"),
            self.card.widget,
            row(self.side, self.picture, css="rm-body"),
        )

    def _lay_rows(self):
        """Make the rows of controls; a remembered value counts where the control takes it over."""
        for old in self.rows.values():
            close_tree(old.widget)
        self.rows = {}
        for control in self.controls():
            of, value = self.kept.get(control.name, (None, None))
            value = value if control.takes_over(of) else control.start
            self.rows[control.name] = row_for(control, value, self.family, self.refresh)
        self.side.children = [*(one.widget for one in self.rows.values()), row(*self.buttons)]

    def _begin(self, canvas, result):
        artists = self.draw(canvas.figure, result)
        canvas.hold(artists)
        return artists

    def _paint(self):
        result = self.compute(self.values)
        if self._artists is None:
            self.canvas.clear(self.size)
            self._artists, self._marked = self._begin(self.canvas, result), False
        self.update(self._artists, result)
        if not self._marked:
            self.mark(self._artists, self.card.guess_value())
            self.withhold(self._artists, self.card.pending)
            self._marked = True
        words = self.describe_now(result) if self.card.pending else self.describe(result)
        self.image.value = self.canvas.png()
        self.caption.value, self.trouble.value = escape(words), ""
        self.picture.remove_class("rm-stale")
        self._name_everything(words)
        self.card.reached(self.values)
        self.fault, self._good = None, "; ".join(one.in_words() for one in self.rows.values())
        self.after(result)

    def _withdraw(self, fault):
        """No picture passes for one that it is not: the last one is dimmed and says what it shows."""
        self.fault = fault
        words = one_line(fault)
        shown = f"The picture above is an earlier one. It is for: {self._good}." if self._good else ""
        self.trouble.value, self.caption.value = f'<span role="alert">{escape(words)}</span>', escape(shown)
        self.picture.add_class("rm-stale")
        self._name_everything(f"{words} {shown}".strip())
        self.after(None)

    def _name_everything(self, words):
        names = {
            "img.widget-image": {"alt": words},
            ".rm-caption .widget-html-content": {"aria-live": "polite"},
        }
        for one in self.rows.values():
            names |= one.names()
        self.set_names(names | self.card.names() | self.more_names())

    def _state_words(self, state, changes):
        controls = (c.named(changes[c.name], self.family) for c in self.controls() if c.name in changes)
        return f"{state} ({', '.join(controls)})" if changes else state
