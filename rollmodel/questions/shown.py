"""Numbers as a learner reads them: given ones on a believable step, computed ones to four figures."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rollmodel.units import FAMILIES, from_display, label, to_display

_STEPS = {  # (metric, US customary), in the unit that each family shows
    "length": (1, 0.01), "long length": (0.01, 0.1), "mass": (1, 1), "rate": (0.5, 1),
    "roll stiffness": (10, 10),
    "load": (10, 5), "angle": (0.1, 0.1), "lateral acceleration": (0.01, 0.01), "modulus": (0.1, 0.1),
    "moment": (1, 1), "share": (0.5, 0.5), "ratio": (0.01, 0.01), "stress": (1, 0.1),
    "roll gradient": (0.05, 0.05),
    "understeer gradient": (0.05, 0.05), "cornering stiffness": (10, 2), "grip drop": (0.001, 0.001),
}
_WORDS = {"1/kN": "per kN", "1/kip": "per 1000 lbf"}


@dataclass(frozen=True)
class Given:
    """A number that a question states: its kind, and the step it is rounded to in each family."""

    kind: str
    metric_step: float | None = None
    us_step: float | None = None

    def step(self, family: str) -> float:
        own = (self.metric_step, self.us_step)[FAMILIES.index(family)]
        return _STEPS[self.kind][FAMILIES.index(family)] if own is None else own

    def on_step(self, value: float, family: str) -> float:
        """The value in SI, moved to the nearest step of the unit shown: what is read is what is meant."""
        step = self.step(family)
        return from_display(round(to_display(value, self.kind, family) / step) * step, self.kind, family)

    def text(self, value: float, family: str) -> str:
        """The value with its unit, with just the decimals that its step has."""
        places = _decimals(self.step(family))
        return _with_label(trimmed(f"{to_display(value, self.kind, family):.{places}f}"), self.kind, family)


def _decimals(step: float) -> int:
    return next(places for places in range(8) if math.isclose(round(step, places), step, rel_tol=1e-9))


def _with_label(number: str, kind: str, family: str) -> str:
    unit = label(kind, family)
    return f"{number} {_WORDS.get(unit, unit)}".rstrip()


def figures(value: float, digits: int = 4) -> str:
    """A number to at most so many figures, never with an exponent between 1e-4 and 1e7.

    Examples
    --------
    >>> figures(90.9458), figures(12345.6), figures(0.012345), figures(32)
    ('90.95', '12346', '0.01235', '32')
    """
    if value == 0:
        return "0"
    size = math.floor(math.log10(abs(value)))
    if not -5 < size < 7:
        return f"{value:.{digits - 1}e}"
    return trimmed(f"{value:.{max(0, digits - 1 - size)}f}")


def trimmed(number: str) -> str:
    """Without zeros after the point that say nothing: 32.00 is 32, 12.50 is 12.5."""
    return number.rstrip("0").rstrip(".") if "." in number else number


def _fourth_power(value: float, family: str, digits: int) -> str:
    unit = label("length", family)
    return f"{figures(value / from_display(1.0, 'length', family) ** 4, digits)} {unit}⁴"


def _give(value: float, family: str, digits: int) -> str:
    """A compliance as travel for each 1000 N or 1000 lbf."""
    travel = figures(to_display(value * from_display(1000.0, "load", family), "length", family), digits)
    return f"{travel} {label('length', family)} per 1000 {label('load', family)}"


def _radius(value: float, family: str, digits: int) -> str:
    """A circle's radius in metres or feet, as it is measured out: nobody lays out a hundredth of a foot."""
    if family == "metric":
        return f"{figures(value, digits)} m"
    return f"{figures(to_display(value, 'long length', family) / 12, min(digits, 3))} ft"


_OWN_KINDS = {"fourth power": _fourth_power, "give": _give, "radius": _radius}


def computed(value: float, kind: str, family: str, digits: int = 4) -> str:
    """A computed value with its unit, to so many figures.

    Besides the kinds of :mod:`rollmodel.units` it knows ``"fourth power"`` (a section's figure, m^4),
    ``"give"`` (a compliance, m/N) and ``"radius"`` (of a circle driven on, m).

    Examples
    --------
    >>> computed(90945.8, "rate", "metric"), computed(2.2998e-8, "fourth power", "metric")
    ('90.95 N/mm', '22998 mm⁴')
    """
    if kind in _OWN_KINDS:
        return _OWN_KINDS[kind](value, family, digits)
    return _with_label(figures(to_display(value, kind, family), digits), kind, family)
