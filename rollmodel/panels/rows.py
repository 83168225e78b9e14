"""Rows of widgets: label, slider or list, typed box, unit, and a place for one message."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels.controls import Choice, Hole, Slider, Switch
from rollmodel.panels.shown import row, text
from rollmodel.panels.turns import follow
from rollmodel.units import UnitError, label


class Row:
    """One control on screen. ``value`` is what the model gets: SI, a word, or a bool.

    Parameters
    ----------
    control : Slider, Hole, Choice or Switch
    value : object
        First value.
    family : str
        Unit family.
    changed : callable
        Called without arguments after the learner changed the value.
    """

    def __init__(self, control, value, family, changed):
        self.control, self.value, self.family = control, value, family
        self._changed, self._quiet, self.enabled = changed, False, True
        self.message = text(css="rm-message")
        self.widget = widgets.VBox([*self._make(), self.message])
        self.widget.add_class("rm-control")
        self.widget.add_class(self.css)
        self.show()

    @property
    def css(self) -> str:
        return f"rm-c-{self.control.name}"

    def take(self, value) -> None:
        """A new value from the learner: the picture first, for it is waited for, then the rest of the row."""
        if value != self.value:
            self.value = value
            self._changed()
        self.say("")
        self.show()

    def put(self, value, family=None) -> None:
        """A new value or family from the program: shown, not reported."""
        self.value, self.family = value, family or self.family
        self.say("")
        self.show()

    def show(self) -> None:
        """Bring every widget of the row in line with the value."""
        self._quiet = True
        try:
            self._show()
        finally:
            self._quiet = False

    def say(self, words: str) -> None:
        """One message next to the control; empty takes it away."""
        self.message.value = f'<span role="alert">{escape(words)}</span>' if words else ""

    def enable(self, on: bool) -> None:
        self.enabled = on
        for widget in self._inputs():
            widget.disabled = not on

    def _title(self):
        return text(escape(self.control.text), "rm-label")

    def names(self) -> dict:
        """Attributes for assistive technology, by CSS selector."""
        words = self.control.with_unit(self.value, self.family)
        return {
            f".{self.css} {kind}": {"aria-label": self.control.text, **more}
            for kind, more in (
                (".noUi-handle", {"aria-valuetext": words, "aria-disabled": str(not self.enabled).lower()}),
                ("select", {}),
                ("input[type=text]", {}),
            )
        }

    def in_words(self) -> str:
        return self.control.named(self.value, self.family)


class _SlidingRow(Row):
    """A slider with a typed box beside it."""

    def _make(self):
        self.slider = self._make_slider()
        self.box = widgets.Text(continuous_update=False)
        self.unit = text(css="rm-unit")
        follow(self.slider, self._slid)
        follow(self.box, self._typed)
        return self._title(), row(self.slider, self.box, self.unit, css="rm-row")

    def _inputs(self):
        return self.slider, self.box

    def _typed(self, change):
        if self._quiet:
            return
        try:
            value = self.control.read(change["new"], self.family)
        except UnitError as error:
            kept = self.control.with_unit(self.value, self.family)
            self.show()
            self.say(f"{self.control.text}: {error}. Kept: {kept}.")
            return
        self.take(value)


class SliderRow(_SlidingRow):
    """A number with a unit."""

    def _make_slider(self):
        return widgets.FloatSlider(readout=False, min=0.0, max=1.0)

    def _show(self):
        (low, high), step = self.control.bounds(self.family), self.control.step(self.family)
        with self.slider.hold_sync():
            self.slider.step = step
            self.slider.min, self.slider.max = min(low, self.slider.max), max(high, self.slider.min)
            self.slider.min, self.slider.max = low, high
            self.slider.value = self.control.snapped(self.value, self.family)
        self.box.value = self.control.typed(self.value, self.family)
        self.unit.value = escape(label(self.control.kind, self.family))

    def _slid(self, change):
        """Ignored when the handle stands where the present value put it: nobody moved it."""
        control, family = self.control, self.family
        at, step = change["new"], control.step(family)
        if self._quiet or abs(at - control.snapped(self.value, family)) < step / 1000:
            return
        self.take(control.read(f"{at:.10g}", family))


class HoleRow(_SlidingRow):
    """A link hole or blade position."""

    def _make_slider(self):
        last = len(self.control.places)
        return widgets.IntSlider(readout=False, min=1, max=max(last, 2), disabled=last == 1)

    def _show(self):
        self.slider.value = self.value
        self.box.value = str(self.value)
        self.unit.value = escape(self.control.with_unit(self.value, self.family))

    def _slid(self, change):
        if not self._quiet:
            self.take(change["new"])

    def enable(self, on):
        super().enable(on and len(self.control.places) > 1)


class ChoiceRow(Row):
    """One of a few words."""

    def _make(self):
        self.list = widgets.Dropdown(options=self.control.options)
        follow(self.list, lambda change: self._quiet or self.take(change["new"]))
        return self._title(), self.list

    def _inputs(self):
        return (self.list,)

    def _show(self):
        self.list.value = self.value


class SwitchRow(Row):
    """On or off."""

    def _make(self):
        self.box = widgets.Checkbox(description=self.control.text, indent=False)
        follow(self.box, lambda change: self._quiet or self.take(change["new"]))
        return (self.box,)

    def _inputs(self):
        return (self.box,)

    def _show(self):
        self.box.value = self.value


ROWS = {Slider: SliderRow, Hole: HoleRow, Choice: ChoiceRow, Switch: SwitchRow}


def row_for(control, value, family, changed) -> Row:
    """The row of widgets that belongs to a control."""
    return ROWS[type(control)](control, value, family, changed)
