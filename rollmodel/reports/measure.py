"""What was measured, what that means for the car, and what to measure better first; as text and as values."""

from __future__ import annotations

import math
import textwrap

from rollmodel.advice import CAUTIONS
from rollmodel.testday.carry import RESULTS, Carried
from rollmodel.testday.doubts import Doubt, kind_of
from rollmodel.testday.into_sheet import written
from rollmodel.testday.measured import Measured
from rollmodel.units import label, show, to_display

WIDTH = 80
MOST_NAMED = 3  # numbers named behind each result
MATTERS = 0.05  # part of the squared uncertainty below which a number is not named
_SAFETY = ("support", "torque", "rules")
_RAISED = (
    "A car with one end raised can roll away: chocks, a support rated for it, never a jack, and nobody "
    "under it or in line with it. Hands out of the linkage while a wheel is jacked."
)
NOTE = (
    "Behind the plus-or-minus sign: the true figure lies within that about 19 times in 20. The shape of the "
    "tyre's curve is not varied; what it is wrong by comes on top."
)


def measure_text(
    found: list[Measured], carried: list[Carried], doubts: list[Doubt], family: str = "metric"
) -> str:
    """What was measured and what it means, 80 columns wide.

    Parameters
    ----------
    found : list of Measured
        Empty where only a sheet is looked at.
    carried : list of Carried
        Empty without a sheet.
    doubts : list of Doubt
        Of the same sheet.
    family : str
        One of ``units.FAMILIES``.
    """
    blocks = [
        _measured(found, family),
        _carried(carried, doubts, family),
        _listed("Improve first", advice(carried, doubts, family)),
        _wrapped(NOTE),
        _listed("Cautions", [*(CAUTIONS[name] for name in _SAFETY), _RAISED]),
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _wrapped(text: str, first: str = "", later: str = "") -> str:
    return textwrap.fill(
        text, WIDTH, initial_indent=first, subsequent_indent=later or first, break_on_hyphens=False
    )


def _listed(title: str, lines) -> str:
    lines = list(lines)
    return "\n".join([title, *(_wrapped(line, "  - ", "    ") for line in lines)]) if lines else ""


def _measured(found: list[Measured], family: str) -> str:
    if not found:
        return ""
    rows = [
        (one.words[0].upper() + one.words[1:], written(one.value, one.uncertainty, one.kind, family))
        for one in found
    ]
    lines = [f"{words:<44}{value:>34}" for words, value in rows]
    notes = [f"{one.words[0].upper()}{one.words[1:]}: {note}" for one in found for note in one.notes]
    return "\n".join(["Measured", *lines, *(_wrapped(note, "  - ", "    ") for note in notes)])


def pair(one: Carried, family: str = "metric") -> str:
    """A result with its uncertainty, ``-0.010 ± 0.009 g``."""
    return f"{_plain(one.value, one, family)} ± {_plain(one.uncertainty, one, family)} {_unit(one, family)}"


def _plain(value: float, one: Carried, family: str) -> str:
    kind = RESULTS[one.name][0]
    places = 3 if kind.endswith(("gradient", "acceleration")) else 1
    return f"{to_display(value, kind, family):.{places}f}"


def _unit(one: Carried, family: str) -> str:
    return label(RESULTS[one.name][0], family)


def _carried(carried: list[Carried], doubts: list[Doubt], family: str) -> str:
    if not carried:
        return ""
    lines = ["What the sheet predicts, and how well"]
    for one in carried:
        words = RESULTS[one.name][1]
        lines.append(f"{words[0].upper()}{words[1:]:<43}{pair(one, family):>34}")
        lines.append(_wrapped("mostly from " + sources(one, doubts), "    "))
    return "\n".join([*lines, *(_wrapped(text) for text in _balance(carried))])


def _balance(carried: list[Carried]) -> list[str]:
    """Whether the sheet knows which end gives up first."""
    gap = next((one for one in carried if one.name == "limit gap"), None)
    if gap is None or abs(gap.value) >= gap.uncertainty:
        return []
    return [
        "Which end gives up first cannot be told from this sheet: the gap is smaller than its uncertainty."
    ]


def sources(one: Carried, doubts: list[Doubt]) -> str:
    """The numbers that bring most of a result's uncertainty, each with its part of the squared whole."""
    by_name = {doubt.name: doubt for doubt in doubts}
    named = [name for name, share in one.shares.items() if share >= MATTERS][:MOST_NAMED]
    return ", ".join(f"{by_name[name].words} ({one.shares[name]:.0%})" for name in named) or "no one number"


def advice(carried: list[Carried], doubts: list[Doubt], family: str = "metric") -> list[str]:
    """For each result the number to measure better first, and how far that would bring it."""
    by_name = {doubt.name: doubt for doubt in doubts}
    return [_advice(one, by_name[one.first], family) for one in carried if one.first is not None]


def _advice(one: Carried, doubt: Doubt, family: str) -> str:
    stated = "as the sheet says" if doubt.stated else "a usual figure; the sheet gives none"
    left = f"±{_plain(one.left_without(doubt.name), one, family)} {_unit(one, family)}"
    return (
        f"For the {RESULTS[one.name][1]}: the {doubt.words} (known to ±{_size(doubt, family)}, {stated}). "
        f"Known exactly, it would leave {left}."
    )


def _size(doubt: Doubt, family: str) -> str:
    kind = kind_of(doubt.name)
    if kind in _IN_PER_CENT or doubt.name.endswith("bar.rate"):
        return f"{100 * doubt.limit / abs(doubt.value):.2g} %"
    return show(doubt.limit, "length" if kind == "long length" else kind, family)


_IN_PER_CENT = ("mass", "rate", "roll stiffness", "grip drop", "cornering stiffness")


def measure_values(
    found: list[Measured], carried: list[Carried], doubts: list[Doubt], family="metric"
) -> dict:
    """The same as plain values; units in their own field."""
    return {
        "measured": [
            {
                "name": one.name,
                "what": one.words,
                **_number(one.value, one.uncertainty, one.kind, family),
                "how": one.how,
                "notes": list(one.notes),
            }
            for one in found
        ],
        "predicted": [
            {
                "name": one.name,
                "what": RESULTS[one.name][1],
                **_number(one.value, one.uncertainty, RESULTS[one.name][0], family),
                "from": {name: share for name, share in one.shares.items() if share >= 0.001},
                "improve_first": one.first,
            }
            for one in carried
        ],
        "known_to": {doubt.name: {"uncertainty_si": doubt.limit, "stated": doubt.stated} for doubt in doubts},
    }


def _number(value: float, uncertainty: float, kind: str, family: str) -> dict:
    shown, spread = (to_display(float(number), kind, family) for number in (value, uncertainty))
    return {
        "value": shown if math.isfinite(shown) else None,
        "uncertainty": spread if math.isfinite(spread) else None,
        "unit": label(kind, family),
    }
