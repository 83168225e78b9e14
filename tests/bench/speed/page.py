"""The page made of parts that were measured; nothing is measured here."""

from tests.bench.speed.figure import Figure, Part
from tests.bench.speed.machine import Machine

INTRODUCTION = """\
# Speed and size, each figure beside another way

Written by `python -m tests.bench.speed`, which measured both ways in the same run on the same machine, but
for what is said to be from before.
"Times better" is the other way's figure over ours, or ours over the other's where more is better: above 1
the package is the better one. It passes or fails nothing.
"""
SHORT = "A short run: few repeats and small classes, to try the command. The figures are rough."
BUSY = """\
**The machine was busy with other work when this began, so every time below is too long**, and the ratios
are rough. Take them again on a quiet machine before relying on them."""
QUIET = "The machine was quiet when this began."


def text(machine: Machine, parts: list[Part], short: bool, class_report: str = "") -> str:
    """The whole page."""
    sections = [INTRODUCTION, _machine(machine, short), _aims(parts), *map(_section, parts)]
    if class_report:
        sections.append(_class(class_report))
    return "\n".join(section for section in sections if section)


def _machine(machine, short):
    rows = [
        ("measured", machine.date),
        ("commit", machine.commit),
        ("machine", machine.hardware),
        ("libraries", machine.libraries),
        ("load average before the start", f"{machine.load:.2f}"),
    ]
    remarks = [BUSY if machine.busy else QUIET, *([SHORT] if short else [])]
    return "\n".join(["| | |", "|---|---|", *(f"| {a} | {b} |" for a, b in rows), "", *remarks, ""])


def _aims(parts):
    """How many targets were reached, and which were not."""
    aimed = [one for part in parts for one in part.figures if one.aim]
    missed = [one for one in aimed if not one.aim.met(one)]
    lines = [f"Targets: {len(aimed) - len(missed)} of {len(aimed)} reached."]
    lines += ["", *map(_missed, missed)] if missed else []
    return "\n".join([*lines, ""]) if aimed else ""


def _missed(figure):
    other = "" if figure.other is None else f" ({figure.beside}: {number(figure.other)} {figure.unit})"
    ours = f"{number(figure.ours)} {figure.unit}{other}"
    return f"- missed: {figure.what}, {ours}; wanted {figure.aim.words(figure.unit)}"


def _section(part):
    lines = [f"## {part.title}", "", part.how.strip(), ""]
    if part.load is not None:
        lines += [f"Load average when this part began, after the parts before it: {part.load:.2f}.", ""]
    if part.trouble:
        return "\n".join([*lines, f"**Not measured:** {part.trouble}", ""])
    lines += ["| what | ours | the other way | times better | target |", "|---|---:|---|---:|---|"]
    return "\n".join([*lines, *map(_row, part.figures), ""])


def _row(figure: Figure):
    if figure.other is None:
        beside, ratio = figure.beside or "none", ""
    else:
        other = f"{number(figure.other)} {figure.unit}".strip()
        beside, ratio = f"{other}: {figure.beside}", number(figure.times_better)
    ours = f"{number(figure.ours)} {figure.unit}".strip()
    return f"| {figure.what} | {ours} | {beside} | {ratio} | {_aim(figure)} |"


def _aim(figure):
    if figure.aim is None:
        return ""
    return f"{figure.aim.words(figure.unit)}: {'reached' if figure.aim.met(figure) else '**missed**'}"


def _class(report):
    how = "What `python -m tests.bench.class_on_hub` printed, on a date and a machine of its own:"
    return "\n".join(["## A class on one server", "", how, "", "```text", report.strip(), "```", ""])


def number(value: float) -> str:
    """Three figures, more where the whole number has more."""
    return f"{value:,.0f}" if abs(value) >= 100 else f"{value:.3g}"
