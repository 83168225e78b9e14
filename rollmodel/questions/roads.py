"""Wrong roads: ways to a wrong answer that are worked again from the learner's own numbers.

A road either changes the numbers and lets the question's own key work on them ("squared twice" is
the right sum with MR squared put in for MR), or computes its answer in its own way ("gravity's share
left out"). Both use the model, so a road moves when the model moves. Only slips of unit and of sign
are plain factors: they happen after the sum.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from types import SimpleNamespace

from rollmodel.car import GRAVITY
from rollmodel.questions.misconceptions import Misconception, misconception
from rollmodel.units import from_display


@dataclass(frozen=True)
class Road:
    """One wrong road: the belief behind it and how to walk it, by exactly one of the two ways."""

    belief: Misconception
    change: Callable[[SimpleNamespace], SimpleNamespace] | None = None
    compute: Callable[[SimpleNamespace], object] | None = None

    def answer(self, key: Callable, numbers: SimpleNamespace):
        """The answer to which this road leads, in the same form as the key's."""
        return key(self.change(numbers)) if self.compute is None else self.compute(numbers)


def by(belief: str, compute: Callable) -> Road:
    """A road that computes its own answer."""
    return Road(misconception(belief), compute=compute)


def with_changed(belief: str, **changes: Callable) -> Road:
    """A road that feeds the key other numbers; each change is a function of the old value."""
    def change(numbers):
        new = {name: function(getattr(numbers, name)) for name, function in changes.items()}
        return SimpleNamespace(**{**vars(numbers), **new})
    return Road(misconception(belief), change=change)


def exchanged(belief: str, *pairs: tuple[str, str]) -> Road:
    """A road that feeds the key numbers with the names in each pair changed over."""
    def change(numbers):
        old = vars(numbers)
        new = {name: old[other] for pair in pairs for name, other in (pair, pair[::-1])}
        return SimpleNamespace(**{**old, **new})
    return Road(misconception(belief), change=change)


def motion_ratio_not_squared(name: str = "motion_ratio") -> Road:
    """The key squares what it gets, so its square root goes in."""
    return with_changed("motion ratio not squared", **{name: math.sqrt})


def motion_ratio_squared_twice(name: str = "motion_ratio") -> Road:
    return with_changed("motion ratio squared twice", **{name: lambda ratio: ratio**2})


def motion_ratio_inverted(name: str = "motion_ratio") -> Road:
    return with_changed("motion ratio inverted", **{name: lambda ratio: 1 / ratio})


def motion_ratio_left_out(name: str = "motion_ratio") -> Road:
    return with_changed("motion ratio left out", **{name: lambda ratio: 1.0})


def radius_for_diameter(*names: str) -> Road:
    return with_changed("radius for diameter", **{name: lambda size: size / 2 for name in names})


def diameter_for_radius(*names: str) -> Road:
    return with_changed("diameter for radius", **{name: lambda size: 2 * size for name in names})


def full_track_for_half(name: str = "track") -> Road:
    """The key halves the track; here the whole of it is used."""
    return with_changed("full track for half", **{name: lambda track: 2 * track})


def half_track_for_full(name: str = "track") -> Road:
    return with_changed("half track for full", **{name: lambda track: track / 2})


def per_wheel_for_per_axle(name: str) -> Road:
    """The axle's figure is wanted, half of it goes in."""
    return with_changed("per wheel for per axle", **{name: lambda value: value / 2})


def per_axle_for_per_wheel(name: str) -> Road:
    return with_changed("per axle for per wheel", **{name: lambda value: 2 * value})


def mass_for_weight(name: str) -> Road:
    """g left out: the figure of a mass used as if it were a force."""
    return with_changed("mass for weight", **{name: lambda value: value / GRAVITY})


def weight_for_mass(name: str) -> Road:
    return with_changed("weight for mass", **{name: lambda value: value * GRAVITY})


def degree_for_radian(name: str) -> Road:
    """The figure in degrees used as if it were radians."""
    return with_changed("degree for radian", **{name: math.degrees})


def front_for_rear(*stems: str) -> Road:
    """``x_front`` and ``x_rear`` changed over for each stem ``x``."""
    return exchanged("front for rear", *((f"{stem}_front", f"{stem}_rear") for stem in stems))


def lever_slanted(lever: str, along: str) -> Road:
    """The length along the arm goes in where the square distance belongs."""
    def change(numbers):
        return SimpleNamespace(**{**vars(numbers), lever: getattr(numbers, along)})
    return Road(misconception("lever slanted"), change=change)


def _unit_slips() -> dict[str, tuple[tuple[str, float], ...]]:
    """For each kind, the factors by which a slip of unit puts an answer out, up and down."""
    other = {kind: from_display(1.0, kind, "US customary") / from_display(1.0, kind) for kind in ("rate",
                                                                                                  "load")}
    degree = math.degrees(1.0)
    slips = {
        "rate": (("N/m for N/mm", 1000.0), ("other family's unit", other["rate"])),
        "load": (("other family's unit", other["load"]),),
        "length": (("m for mm", 1000.0),),
        "angle": (("degree for radian", degree),),
        "roll stiffness": (("degree for radian", degree),),
        "roll gradient": (("degree for radian", degree), ("g for m/s²", GRAVITY)),
        "understeer gradient": (("degree for radian", degree), ("g for m/s²", GRAVITY)),
        "lateral acceleration": (("g for m/s²", GRAVITY),),
        "moment": (("per inch for per foot", 12.0),),
        "stress": (("pressure slip", 1000.0),),
        "share": (("percent slip", 100.0),),
    }
    both_ways = {kind: tuple((name, f) for name, factor in rows for f in (factor, 1 / factor))
                 for kind, rows in slips.items()}
    foot = from_display(12.0, "length", "US customary")
    both_ways["load"] += (("mass for weight", 1 / GRAVITY), ("weight for mass", GRAVITY),
                          ("lb for lbf", GRAVITY / foot), ("lb for lbf", foot / GRAVITY))
    return both_ways


UNIT_SLIPS = _unit_slips()


def slips(kind: str, signed: bool) -> list[tuple[Misconception, float]]:
    """Slips after the sum, for any answer of a kind: of unit, and of sign where a sign is not asked for."""
    found = [(misconception(name), factor) for name, factor in UNIT_SLIPS.get(kind, ())]
    return found + ([] if signed else [(misconception("sign"), -1.0)])
