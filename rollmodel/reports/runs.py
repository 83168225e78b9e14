"""What the runs say, as text for a person."""

from __future__ import annotations

import math
import textwrap

from rollmodel.advice import SHORT
from rollmodel.testday.analysis import Analysis, remarks
from rollmodel.testday.compare import NOT_RESOLVED, OPPOSITE, SEEN, Difference
from rollmodel.testday.gradients import Gradient
from rollmodel.testday.outliers import Outlier
from rollmodel.testday.runs import Setup
from rollmodel.units import label, show, to_display

WIDTH = 80
_DECIMALS = 3
_UNIT = label("roll gradient")  # both gradients have the same, in both families
_WORDS = {
    SEEN: "Seen. The interval of the change, {low} to {high}, leaves out zero{side}.",
    NOT_RESOLVED: (
        "Not resolved. The interval of the change, {low} to {high}, holds zero: these runs cannot tell it "
        "from no change."
    ),
    OPPOSITE: (
        "Opposite to prediction. The interval of the change, {low} to {high}, lies on the other side of zero "
        "from the predicted {predicted}."
    ),
}
NOTE = (
    "Straight lines over the whole range. Predictions are over the points driven, so a run sheet's, over its "
    "own steps, may differ a little. Behind the plus-or-minus sign: the interval holds the true figure "
    "in about 95 of 100 such tests as far as scatter goes; it knows nothing of a wrong radius or a crooked "
    "sensor. Steer is at the road wheel. Closed course only. These figures certify nothing."
)
BEFORE = f"Before you move a link for the next runs: {SHORT[0].lower()}{SHORT[1:]}"


def runs_text(analysis: Analysis, family: str = "metric") -> str:
    """The analysis as text, 80 columns wide.

    Parameters
    ----------
    analysis : Analysis
    family : str
        One of ``units.FAMILIES``.
    """
    blocks = [
        _head(analysis),
        "\n".join([_table(analysis), *_scatter(analysis)]),
        *([_listed("Verdict", verdicts(analysis.differences))] if analysis.differences else []),
        _listed("What to suspect", sentences(analysis.suspicions, family)),
        _listed("Outliers: shown, and kept in the figures above", outlier_sentences(analysis)),
        _listed("Set aside", [text for setup in analysis.setups for text in setup.set_aside]),
        _listed("Taken for granted", taken_for_granted(analysis)),
        _wrapped(NOTE),
        _wrapped(BEFORE),
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def sentences(suspicions, family: str = "metric") -> list[str]:
    """Suspicions as sentences in a display family."""
    return [one.sentence(lambda value, kind: show(value, kind, family, _places(kind))) for one in suspicions]


def _places(kind: str) -> int | None:
    return _DECIMALS if kind.endswith("gradient") else 2 if kind == "lateral acceleration" else None


def _wrapped(text: str, first: str = "", later: str = "") -> str:
    return textwrap.fill(
        text, WIDTH, initial_indent=first, subsequent_indent=later or first, break_on_hyphens=False
    )


def _listed(title: str, lines) -> str:
    lines = list(lines)
    return "\n".join([title, *(_wrapped(line, "  - ", "    ") for line in lines)]) if lines else ""


def _head(analysis: Analysis) -> str:
    low, high = (show(value, "lateral acceleration", decimals=2) for value in analysis.range)
    lines = ["SIMULATED runs: nobody drove these."] if any(one.simulated for one in analysis.setups) else []
    lines += [_wrapped(_counted(setup)) for setup in analysis.setups]
    return "\n".join([*lines, f"Constant radius after ISO 4138; points from {low} to {high}."])


def _counted(setup: Setup) -> str:
    ways = {way: [run for run in setup.runs if run.direction == way] for way in setup.directions}
    names = {1: "left", -1: "right", 0: "way round not said"}
    shared = ", ".join(f"{len(runs)} {names[way]}" for way, runs in ways.items())
    points = sum(run.points for run in setup.runs)
    return f"{setup.name.capitalize()}: {len(setup.runs)} runs ({shared}), {points} steady points."


def number(value: float, quantity: str, sign: bool = False) -> str:
    """A gradient in its display unit, without the unit; "none" where there is none."""
    if not math.isfinite(value):
        return "none"
    shown = round(to_display(value, quantity), _DECIMALS) + 0.0
    return f"{shown:+.{_DECIMALS}f}" if sign else f"{shown:.{_DECIMALS}f}"


def _table(analysis: Analysis) -> str:
    rows = [(_UNIT, *(_HEADS[bool(analysis.differences)]))]
    odd = {one.quantity for found in analysis.outliers.values() for one in found}
    for one in analysis.differences or analysis.gradients:
        rows.append(_row(one, analysis))
        rest = [
            other
            for other in analysis.without_outliers
            if other.quantity == one.quantity and one.quantity in odd
        ]
        rows += [("  less outliers", *_row(other, analysis)[1:]) for other in rest]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join(_aligned(row, widths) for row in rows)


def _scatter(analysis: Analysis) -> list[str]:
    """The scatter of one run's slope, as the next plan asks for it."""
    known = [one for one in analysis.differences or analysis.gradients if math.isfinite(one.scatter)]
    told = ", ".join(f"{one.quantity} {number(one.scatter, one.quantity)}" for one in known)
    return [_wrapped(f"Scatter of one run's slope, {_UNIT}: {told}.")] if told else []


_HEADS = {True: ("before", "after", "change", "predicted"), False: ("found", "left", "right", "sheet")}


def _row(one, analysis: Analysis):
    return _difference_row(one) if analysis.differences else _gradient_row(one, analysis.predicted)


def _aligned(row, widths) -> str:
    cells = [
        row[0].ljust(widths[0]),
        *(cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True)),
    ]
    return "  ".join(cells).rstrip()


def pair(value: float, half: float, quantity: str, sign: bool = False) -> str:
    """Value and half its interval, ``-0.402 ±0.118``."""
    return f"{number(value, quantity, sign)} ±{number(half, quantity)}"


def _difference_row(one: Difference):
    return (
        one.quantity.capitalize(),
        *(pair(each.value, each.half_width, one.quantity) for each in (one.before, one.after)),
        pair(one.value, one.half_width, one.quantity, True),
        _predicted(one),
    )


def _predicted(one: Difference) -> str:
    if one.predicted is None:
        return "-"
    if one.predicted.uncertainty:
        return pair(one.predicted.change, one.predicted.uncertainty, one.quantity, True)
    return number(one.predicted.change, one.quantity, True)


def _gradient_row(one: Gradient, predicted: dict[str, float]):
    sides = [number(side, one.quantity) for side in one.sides or (math.nan, math.nan)]
    sheet = number(predicted[one.quantity], one.quantity) if one.quantity in predicted else "-"
    return (one.quantity.capitalize(), pair(one.value, one.half_width, one.quantity), *sides, sheet)


def verdicts(differences) -> list[str]:
    """One sentence or two for each gradient."""
    return [f"{one.quantity.capitalize()}: {verdict_sentence(one)}" for one in differences]


def verdict_sentence(one: Difference) -> str:
    """The verdict on one gradient with the numbers it stands on."""
    if one.degrees_of_freedom < 1:
        return "Not resolved. Without repetitions the same way round nobody can say what repeats."
    low, high = (f"{number(end, one.quantity, True)}" for end in (one.low, one.high))
    predicted = "" if one.predicted is None else number(one.predicted.change, one.quantity, True)
    side = "" if one.predicted is None else ", on the predicted side"
    text = _WORDS[one.verdict].format(
        low=low, high=f"{high} {label(one.quantity)}", side=side, predicted=predicted
    )
    return (
        text
        + {
            "": "",
            "as predicted": " Its size agrees with the prediction.",
            "larger": " It is larger than predicted.",
            "smaller": " It is smaller than predicted.",
        }[one.size]
    )


def outlier_sentences(analysis: Analysis) -> list[str]:
    """Each outlier in a sentence."""
    return [_outlier(one) for found in analysis.outliers.values() for one in found]


def _outlier(one: Outlier) -> str:
    what = {"roll gradient": "roll", "understeer gradient": "steer"}[one.quantity]
    if one.point is None:
        away = pair_free(one.away, one.quantity)
        return f"{one.run}: its slope of {what} lies {away} from the other runs'."
    at = show(one.lateral_acceleration, "lateral acceleration", decimals=2)
    return (
        f"{one.run}, point {one.point + 1} ({at}, from {one.start:g} on): {what} lies "
        f"{show(one.away, 'angle')} from where the others put it."
    )


def pair_free(value: float, quantity: str) -> str:
    """A gradient with sign and unit."""
    return f"{number(value, quantity, True)} {label(quantity)}"


def taken_for_granted(analysis: Analysis) -> list[str]:
    """What was read into the files, and what of ISO 4138 they do not follow, in sentences."""
    notes = [note for setup in analysis.setups for note in setup.notes]
    return [
        *dict.fromkeys(notes),
        *(f"{setup.name.capitalize()}: {text}" for setup in analysis.setups for text in remarks(setup)),
    ]
