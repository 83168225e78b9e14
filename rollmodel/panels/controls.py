"""What a panel's controls are, as plain data: names, kinds, ranges in SI. No widget is made here.

A panel lists these; :mod:`rollmodel.panels.rows` turns each into a row of widgets.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from rollmodel.typed import joined
from rollmodel.units import KINDS, UnitError, from_display, label, parse, show, to_display


class Control:
    """What all controls have in common."""

    def named(self, value, family: str) -> str:
        """The control with a value, in words."""
        return f"{self.text} {self.with_unit(value, family)}"

    def takes_over(self, former) -> bool:
        """Whether what was set on a former control, of another car perhaps, counts on this one."""
        return former == self


@dataclass(frozen=True)
class Slider(Control):
    """A number with a unit: a slider and a typed box.

    Parameters
    ----------
    name : str
        Attribute under which ``compute`` finds the value.
    text : str
        What the control is called on screen and to a screen reader; unique in its panel.
    kind : str
        A key of ``rollmodel.units.KINDS``.
    low, high, start : float
        Range and first value, [SI].
    steps : tuple of float, optional
        One arrow key's step in the metric and in the US unit; a round hundredth or so of the range
        when left out.
    decimals : int, optional
        In the typed box; as the kind and the step ask for when left out.
    """

    name: str
    text: str
    kind: str
    low: float
    high: float
    start: float
    steps: tuple[float, float] | None = None
    decimals: int | None = None

    def step(self, family: str) -> float:
        """The step of an arrow key, [display unit]."""
        if self.steps:
            return self.steps[0 if family == "metric" else 1]
        return round_number(to_display(self.high - self.low, self.kind, family) / 100)

    def bounds(self, family: str) -> tuple[float, float]:
        """The slider's ends, [display unit]: whole steps inside the range, never outside it."""
        step = self.step(family)
        low, high = (to_display(end, self.kind, family) / step for end in (self.low, self.high))
        return clean(math.ceil(low - 1e-6) * step), clean(math.floor(high + 1e-6) * step)

    def snapped(self, value: float, family: str) -> float:
        """Where the slider's handle stands for a value in SI, [display unit]."""
        (low, high), step = self.bounds(family), self.step(family)
        on_grid = low + step * round((to_display(value, self.kind, family) - low) / step)
        return clean(min(max(on_grid, low), high))

    def typed(self, value: float, family: str) -> str:
        """The value as the typed box shows it, without its unit."""
        shown = show(value, self.kind, family, decimals=self._decimals(family))
        return shown.removesuffix(label(self.kind, family)).strip()

    def _decimals(self, family):
        """As many as the kind asks for, more when the step is finer."""
        if self.decimals is not None:
            return self.decimals
        return max(KINDS[self.kind].unit(family).decimals, -math.floor(math.log10(self.step(family)) + 1e-9))

    def with_unit(self, value: float, family: str) -> str:
        """The value in words."""
        return f"{self.typed(value, family)} {label(self.kind, family)}".strip()

    def read(self, text: str, family: str) -> float:
        """What somebody typed, to SI; a bare number is in the unit shown.

        Raises
        ------
        UnitError
            Not a number with a fitting unit, or out of range; one plain sentence.
        """
        bare = is_number(text)
        value = parse(f"{text} {label(self.kind, family)}" if bare else text, self.kind)
        slack = from_display(
            0.5001 * 10.0 ** -self._decimals(family), self.kind, family
        )  # ends as shown are allowed
        if not self.low - slack <= value <= self.high + slack:
            ends = " to ".join(self.typed(end, family) for end in (self.low, self.high))
            raise UnitError(
                f"wanted {ends} {label(self.kind, family)}".rstrip()
                + f", given {self.with_unit(value, family)}"
            )
        return min(max(value, self.low), self.high)


@dataclass(frozen=True)
class Hole(Control):
    """Which link hole, or blade angle, of a bar; counted from 1, softest first.

    Parameters
    ----------
    name, text : str
        As for a slider.
    places : tuple of float
        Square distance of each hole [m], angle of each blade position [rad], or rate of each where the sheet
        gives rates in place of sizes [N/m], in order.
    start : int
        The one in use.
    kind : str
        "length" for holes, "angle" for blades, "rate".
    """

    name: str
    text: str
    places: tuple[float, ...]
    start: int
    kind: str = "length"

    @classmethod
    def of(cls, name: str, text: str, bar) -> Hole:
        """For a bar of a car sheet: its holes, or its blade's angles. Without a bar, one plain sentence."""
        if bar is None:
            raise ValueError(f"{text}: this car has no bar there, so there is no hole to choose")
        if bar.rates is not None:
            return cls(name, text, bar.rates, bar.hole, "rate")
        blade = bar.blade
        return cls(
            name, text, tuple(blade.angles if blade else bar.holes), bar.hole, "angle" if blade else "length"
        )

    @property
    def noun(self) -> str:
        return "position" if self.kind == "angle" else "hole"

    def with_unit(self, value: int, family: str) -> str:
        """The place in words: ``hole 2 of 3, 200 mm``."""
        return f"{self.noun} {self._place(value, family)}"

    def named(self, value: int, family: str) -> str:
        """The text names the hole already: ``Front hole 2 of 3, 200 mm``."""
        return f"{self.text} {self._place(value, family)}"

    def _place(self, value, family):
        of = f"{value} of {len(self.places)}"  # a rate is said where it is worked with, in roll
        return of if self.kind == "rate" else f"{of}, {show(self.places[value - 1], self.kind, family)}"

    def read(self, text: str, family: str) -> int:
        """The hole that somebody typed."""
        number = int(text) if re.fullmatch(r"\s*\d{1,6}\s*", text, re.ASCII) else 0
        if not 1 <= number <= len(self.places):
            raise UnitError(
                f'wanted a whole number from 1 to {len(self.places)}, given "{text.strip()[:20]}"'
            )
        return number


@dataclass(frozen=True)
class Choice(Control):
    """One of a few words, from a list.

    Parameters
    ----------
    options : tuple of str
        Each is both shown and handed to ``compute``.
    lasts : bool
        Whether another car leaves the choice as it is: what a driver says lasts, a part of the car does not.
    """

    name: str
    text: str
    options: tuple[str, ...]
    start: str
    lasts: bool = False

    def takes_over(self, former) -> bool:
        return former == self or (
            self.lasts and isinstance(former, Choice) and former.options == self.options
        )

    def with_unit(self, value: str, family: str) -> str:
        return value


@dataclass(frozen=True)
class Switch(Control):
    """On or off."""

    name: str
    text: str
    start: bool = False

    def with_unit(self, value: bool, family: str) -> str:
        return "on" if value else "off"


def round_number(value: float) -> float:
    """The nearest of 1, 2, 5 times a power of ten at or above a positive value."""
    power = 10.0 ** math.floor(math.log10(value))
    return clean(next(times * power for times in (1, 2, 5, 10) if times * power >= value * (1 - 1e-9)))


def clean(value: float) -> float:
    """The value without the last digits that arithmetic in steps leaves behind."""
    return float(f"{value:.10g}") + 0.0


def is_number(text: str) -> bool:
    """Whether the text is a plain number without a unit."""
    try:
        return math.isfinite(float(joined(text))) and "_" not in text
    except ValueError:
        return False
