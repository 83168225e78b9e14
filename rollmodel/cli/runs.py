"""``rollmodel runs``: gradients from constant-radius runs, before and after a change."""

import json
from pathlib import Path

from rollmodel.cli.common import Refusal, refusals, say
from rollmodel.cli.run_files import add_run_arguments, day_from, paths_from
from rollmodel.cli.testday import add_log, family_of, keep


def add_arguments(parser) -> None:
    """The options of the command."""
    add_run_arguments(parser)
    add_log(parser)
    parser.add_argument("--json", action="store_true", help="print one JSON object for a program")


def run(args) -> int:
    """Print the report."""
    from rollmodel.reports.runs import runs_text
    from rollmodel.reports.runs_values import runs_values
    from rollmodel.testday.analysis import analyse

    if args.log and args.sheet is None:
        raise Refusal("--log: needs a car sheet, for the log lies beside it; give --sheet as well")
    with refusals():
        day = day_from(args)
        analysis = analyse(day.before, day.after, day.sheet, day.radius, day.low, day.high)
    say(
        json.dumps(runs_values(analysis), indent=2, ensure_ascii=False)
        if args.json
        else runs_text(analysis, family_of(args)).rstrip("\n")
    )
    if args.log:
        _log(args, day, analysis)
    return 0


def _log(args, day, analysis) -> None:
    from rollmodel.reports.log import entry_of_runs
    from rollmodel.reports.run_sheet import change_between

    words = "" if day.sheet.after is None else change_between(day.sheet.before, day.sheet.after)
    files = [Path(path).name for paths in paths_from(args).values() for path in paths]
    keep(args.sheet, entry_of_runs(analysis, words, files), quiet=args.json)
