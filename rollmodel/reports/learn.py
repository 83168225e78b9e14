"""What the runs taught about the sheet: as text, as values, and as numbers to put into a sheet."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from rollmodel.car import Bar, Car
from rollmodel.reports.runs import number
from rollmodel.testday.doubts import kind_of, sheet_name
from rollmodel.testday.into_sheet import written
from rollmodel.testday.learn import Fit, Learned
from rollmodel.testday.measured import Measured
from rollmodel.units import label

WIDTH = 80
SILENT = 0.05  # part of its uncertainty below which the runs said nothing of a number
NOTE = (
    "The numbers were moved only within what their plus-or-minus signs allow. A fit shows what would explain "
    "the runs, not what is true: measure the number that moved most. These figures certify nothing."
)
ALIKE = (
    "These runs cannot tell the {one} from the {other}: both move the readings alike. Only what they do "
    "together is known."
)
AT_BOUND = (
    "The {one} went as far as its plus-or-minus sign allows. Either that is too small, or something else is "
    "wrong."
)
OFF = (
    "The {name} is still off by more than its scatter explains. Something that is not among these numbers is "
    "wrong: the hole, the tyres, the runs."
)
FEW = (
    "{readings} readings tell {told} independent thing(s) about {numbers} numbers. The rest is shared out by "
    "how well the sheet says it knows each."
)
HELD = (
    "{held} more numbers of the sheet are uncertain too and are held as exact here; what they are wrong by "
    "goes into those that were moved."
)
ENOUGH = "The readings are enough to tell these numbers apart."


def learn_text(fit: Fit, simulated: bool = False, family: str = "metric") -> str:
    """What moved and how far, what is still off, and what the runs cannot tell; 80 columns wide.

    Parameters
    ----------
    fit : Fit
    simulated : bool, optional
        Whether nobody drove the runs.
    family : str, optional
        One of ``units.FAMILIES``.
    """
    blocks = [
        "SIMULATED runs: nobody drove these." if simulated else "",
        _numbers(fit, family),
        _readings(fit),
        _listed("What to know about it", warnings(fit)),
        textwrap.fill(NOTE, WIDTH),
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _listed(title: str, lines: Sequence[str]) -> str:
    wrapped = [textwrap.fill(line, WIDTH, initial_indent="  - ", subsequent_indent="    ") for line in lines]
    return "\n".join([title, *wrapped]) if lines else ""


def _numbers(fit: Fit, family: str) -> str:
    rows = [("Number", "by the sheet", "with the runs"), *number_rows(fit, family)]
    return "\n".join(f"{words:<32}{sheet:>23}{runs:>25}".rstrip() for words, sheet, runs in rows)


def number_rows(fit: Fit, family: str = "metric") -> list[tuple[str, str, str]]:
    """Each number that was moved, as the sheet has it and as the runs leave it."""
    return [(_capital(one.doubt.words), *_sheet_and_fit(one, family)) for one in fit.numbers]


def _sheet_and_fit(one: Learned, family: str) -> tuple[str, str]:
    kind = kind_of(one.doubt.name)
    return (
        written(one.doubt.value, one.doubt.limit, kind, family),
        written(one.value, one.uncertainty, kind, family),
    )


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def _readings(fit: Fit) -> str:
    lines = [f"{'Reading, ' + label('roll gradient'):<32}{'runs':>16}{'sheet':>16}{'fitted':>16}"]
    for name, *cells in reading_rows(fit):
        lines.append(f"{name:<32}" + "".join(f"{cell:>16}" for cell in cells))
    return "\n".join(lines)


def reading_rows(fit: Fit) -> list[tuple[str, ...]]:
    """Each gradient as the runs, the sheet and the fitted car give it, without its unit."""
    return [
        (_capital(seen.name), *(number(value, seen.kind) for value in (seen.value, sheet, fitted)))
        for seen, sheet, fitted in zip(fit.observations, fit.before, fit.after, strict=True)
    ]


def warnings(fit: Fit) -> list[str]:
    """What the fit does not know, and where it strains."""
    words = {one.doubt.name: one.doubt.words for one in fit.numbers}
    silent = [f"the {one.doubt.words}" for one in fit.numbers if one.narrowed < SILENT]
    return [
        _told(fit),
        *([HELD.format(held=fit.held)] if fit.held else []),
        *(ALIKE.format(one=words[one], other=words[other]) for one, other in fit.alike),
        *(AT_BOUND.format(one=one.doubt.words) for one in fit.numbers if one.at_bound),
        *([f"The runs say next to nothing of {', '.join(silent)}."] if silent else []),
        *(OFF.format(name=name) for name in fit.unexplained),
    ]


def _told(fit: Fit) -> str:
    if fit.told >= len(fit.numbers):
        return ENOUGH
    return FEW.format(readings=len(fit.observations), told=fit.told, numbers=len(fit.numbers))


def learned_numbers(fit: Fit, car: Car) -> list[Measured]:
    """The fitted numbers as a sheet takes them; a bar's rate goes into its steel's working moduli.

    Parameters
    ----------
    fit : Fit
    car : Car
        As the sheet has it.
    """
    return [one for learned in fit.numbers for one in _fields(learned, car)]


def _fields(one: Learned, car: Car) -> list[Measured]:
    name, how = one.doubt.name, "from runs"
    if not name.endswith("bar.rate"):
        return [
            Measured(
                sheet_name(name),
                one.doubt.words,
                kind_of(name),
                one.value,
                one.uncertainty,
                how,
                by="learned",
            )
        ]
    bar = car.axle(name.partition(".")[0]).bar
    if bar.rates is not None:
        return [_rates(one, bar)]
    moduli = {modulus: getattr(bar, modulus) for modulus in ("shear_modulus", "youngs_modulus")}
    return [
        Measured(
            name.replace("bar.rate", f"bar.{modulus}"),
            one.doubt.words,
            "modulus",
            one.value * steel,
            one.uncertainty * steel,
            f"{how}, a working figure",
        )
        for modulus, steel in moduli.items()
    ]


def _rates(one: Learned, bar: Bar) -> Measured:
    """Rates that the sheet gives, every hole by the same part; the uncertainty stands at the one in use."""
    known = [one.uncertainty * rate * (hole == bar.hole) for hole, rate in enumerate(bar.rates, start=1)]
    rates = tuple(one.value * rate for rate in bar.rates)
    name, words = f"{one.doubt.name}s", one.doubt.words
    return Measured(name, words, "rate", rates, tuple(known), "from runs", by="learned")


def learn_values(fit: Fit, simulated: bool = False) -> dict:
    """The same as plain values, SI."""
    return {
        "simulated": simulated,
        "numbers": [
            {
                "name": one.doubt.name,
                "what": one.doubt.words,
                "sheet_si": one.doubt.value,
                "sheet_uncertainty_si": one.doubt.limit,
                "fitted_si": one.value,
                "fitted_uncertainty_si": one.uncertainty,
                "at_bound": one.at_bound,
            }
            for one in fit.numbers
        ],
        "readings": [
            {
                "name": seen.name,
                "runs_si": seen.value,
                "standard_uncertainty_si": seen.standard,
                "sheet_si": sheet,
                "fitted_si": fitted,
            }
            for seen, sheet, fitted in zip(fit.observations, fit.before, fit.after, strict=True)
        ],
        "cannot_be_told_apart": [list(pair) for pair in fit.alike],
        "independent_things_told": fit.told,
        "held_as_exact": fit.held,
        "warnings": warnings(fit),
    }
