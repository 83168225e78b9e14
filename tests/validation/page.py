"""Write the evidence page: ``python -m tests.validation.page`` (``--check`` only compares)."""

import functools
import importlib
import sys
from pathlib import Path

from tests.validation import evidence

FOLDER = Path(__file__).parent
PAGE = FOLDER / "README.md"
INTRODUCTION = """\
# Evidence: what outside the project each result is held against

Every figure under "outside" comes from outside the package: from a source, from another library or
from another derivation. "Ours" is what `rollmodel` gives when the page is written, shown with one
digit more than the figure; the difference is ours less the figure. The tolerance is half the last
printed digit unless a reason is given under the table. Written by
`python -m tests.validation.page`; a test fails when the page no longer says what the package
computes. The page certifies nothing about any car.
"""


def modules():
    """The validation files, one per source, in order of their names."""
    names = sorted(path.stem for path in FOLDER.glob("test_*.py") if path.stem != "test_page")
    return [importlib.import_module(f"tests.validation.{name}") for name in names]


@functools.cache
def collect() -> dict[str, list[evidence.Row]]:
    """Run every check, and return the rows by source."""
    for module in modules():
        for name, function in vars(module).items():
            if name.startswith("test_"):
                function()
    rows = {}
    for row in evidence.RECORD.values():
        rows.setdefault(row.source, []).append(row)
    return rows


def text() -> str:
    """The whole page."""
    rows = collect()
    parts = [INTRODUCTION, _kinds(rows), *(_section(module, rows[module.SOURCE]) for module in modules())]
    return "\n".join(parts)


def _kinds(rows):
    every = [row for of_source in rows.values() for row in of_source]
    typed = sum(row.kind in evidence.NOT_COMPUTED for row in every)
    printed = sum(row.kind == evidence.PUBLISHED for row in every)
    lines = [
        f"{len(every)} rows under {len(rows)} headings. In {len(every) - typed} of them ours is computed by "
        "`rollmodel`;",
        f"in {typed} it is a number that somebody typed: a constant, or a value of an invented car's sheet.",
        f"{printed} figures are printed in a source that can be looked up.",
        "",
        "| kind of evidence | rows | meaning |",
        "|---|---:|---|",
    ]
    for kind, meaning in evidence.KINDS.items():
        lines.append(f"| {kind} | {sum(row.kind == kind for row in every)} | {meaning} |")
    return "\n".join([*lines, ""])


def _section(module, rows):
    reasons = list(dict.fromkeys(row.because for row in rows if row.because))
    lines = [
        f"## {module.SOURCE}. {module.__doc__.strip()}",
        "",
        "| result | kind | outside | ours | difference | tolerance |",
        "|---|---|---:|---:|---:|---:|",
    ]
    lines += [_line(row, reasons) for row in rows]
    lines += ["", *(f"{mark}) {reason}" for mark, reason in enumerate(reasons, 1)), ""]
    return "\n".join(lines)


def _line(row, reasons):
    mark = f" {reasons.index(row.because) + 1})" if row.because else ""
    result = row.result.replace("|", "\\|")
    unit = f" {row.unit}" if row.unit else ""
    return (
        f"| {result} | {row.kind} | {row.figure}{unit} | {row.shown} | {row.difference} "
        f"| {row.allowed}{mark} |"
    )


def main(arguments=None) -> int:
    """Write the page; with ``--check`` say whether it is up to date."""
    wanted = text()
    if "--check" in (sys.argv[1:] if arguments is None else arguments):
        stale = not PAGE.exists() or PAGE.read_text(encoding="utf-8") != wanted
        print("stale: run python -m tests.validation.page" if stale else "up to date")
        return int(stale)
    PAGE.write_text(wanted, encoding="utf-8")
    print(f"written: {PAGE}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
