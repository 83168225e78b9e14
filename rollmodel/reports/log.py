"""Log entries from plans and runs, and the log as text: each change with predicted and measured effect."""

from __future__ import annotations

import textwrap
from dataclasses import asdict

from rollmodel.reports.run_sheet import change
from rollmodel.reports.runs import number, pair
from rollmodel.testday.analysis import Analysis
from rollmodel.testday.doubts import kind_of
from rollmodel.testday.into_sheet import written
from rollmodel.testday.learn import Fit
from rollmodel.testday.log import Entry, now
from rollmodel.testday.plan import RunPlan
from rollmodel.units import label

WIDTH = 80


def entry_of_plan(plan: RunPlan) -> Entry:
    """What a plan leaves in the log: the change and what it should do."""
    effects = {
        _key(quantity): {
            "predicted": _text(
                plan.expected[quantity].change, plan.expected[quantity].uncertainty_of_change, quantity
            )
        }
        for quantity in plan.runs
        if quantity in plan.expected
    }
    return Entry(
        "plan",
        now(),
        change(plan),
        f"{plan.runs_each_way} runs each way round, before and again after.",
        effects=effects,
    )


def entry_of_runs(analysis: Analysis, change_words: str, files: list[str]) -> Entry:
    """What a comparison leaves in the log: what was predicted, what was measured, the verdict.

    Parameters
    ----------
    analysis : Analysis
    change_words : str
        The change in words; empty where it is not known.
    files : list of str
        Names of the files read.
    """
    if analysis.differences:
        effects = {
            _key(one.quantity): {
                **(
                    {}
                    if one.predicted is None
                    else {"predicted": _text(one.predicted.change, one.predicted.uncertainty, one.quantity)}
                ),
                "measured": _text(one.value, one.half_width, one.quantity),
                "verdict": one.verdict,
            }
            for one in analysis.differences
        }
        return Entry("runs", now(), change_words, "", tuple(files), _simulated(analysis), effects)
    found = ", ".join(
        f"{one.quantity} {pair(one.value, one.half_width, one.quantity)} {label(one.quantity)}"
        for one in analysis.gradients
    )
    return Entry("runs", now(), "", f"Baseline: {found}.", tuple(files), _simulated(analysis))


def entry_of_fit(fit: Fit, simulated: bool = False) -> Entry:
    """What learning leaves in the log: each number that moved, from where to where."""
    told = (
        f"{one.doubt.name} from {written(one.doubt.value, one.doubt.limit, kind_of(one.doubt.name))} to "
        f"{written(one.value, one.uncertainty, kind_of(one.doubt.name))}"
        for one in fit.numbers
    )
    return Entry("learn", now(), note="; ".join(told) + ".", simulated=simulated)


def _simulated(analysis: Analysis) -> bool:
    return any(setup.simulated for setup in analysis.setups)


def _key(quantity: str) -> str:
    return quantity.replace(" ", "_")


def _text(value: float, half: float, quantity: str) -> str:
    """A change as the log has it, ``-0.400 ± 0.047 deg/g``."""
    spread = f" ± {number(half, quantity)}" if half > 0 else ""
    return f"{number(value, quantity, True)}{spread} {label(quantity)}"


def log_text(entries: list[Entry]) -> str:
    """The log for a person, 80 columns wide, oldest first."""
    if not entries:
        return "The log is empty.\n"
    return "\n\n".join("\n".join(_lines(entry)) for entry in entries) + "\n"


def _lines(entry: Entry):
    simulated = " (simulated: nobody drove)" if entry.simulated else ""
    yield f"{entry.when:%Y-%m-%d %H:%M}  {entry.what}{simulated}"
    for text in (entry.change, entry.note):
        if text:
            yield textwrap.fill(
                text, WIDTH, initial_indent="  ", subsequent_indent="  ", break_on_hyphens=False
            )
    for quantity, effect in entry.effects.items():
        parts = ", ".join(f"{name} {text}" if name != "verdict" else text for name, text in effect.items())
        yield textwrap.fill(
            f"{quantity.replace('_', ' ')}: {parts}",
            WIDTH,
            initial_indent="  ",
            subsequent_indent="    ",
            break_on_hyphens=False,
        )
    if entry.files:
        yield textwrap.fill(
            f"files: {', '.join(entry.files)}", WIDTH, initial_indent="  ", subsequent_indent="    "
        )


def log_values(entries: list[Entry]) -> list[dict]:
    """The log as plain values."""
    return [
        {**asdict(entry), "when": entry.when.isoformat(), "files": list(entry.files)} for entry in entries
    ]
