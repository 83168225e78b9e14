"""``rollmodel learn``: fit the sheet's least certain numbers to the runs, within what they may be off."""

import json
from pathlib import Path

from rollmodel.cli.common import Refusal, refusals, say
from rollmodel.cli.run_files import add_run_arguments, day_from
from rollmodel.cli.testday import add_log, family_of, keep, sheet_path, write_new


def add_arguments(parser) -> None:
    """The options of the command."""
    add_run_arguments(parser)
    parser.add_argument(
        "--numbers",
        nargs="+",
        metavar="NAME",
        help="which numbers to move, such as cg_height rear.bar.rate; the ones that matter most when "
        "left out",
    )
    parser.add_argument("--into", metavar="FILE", help="write the sheet anew with the fitted numbers in it")
    parser.add_argument("--replace", action="store_true", help="write over a file of that name")
    add_log(parser)
    parser.add_argument("--json", action="store_true", help="print one JSON object for a program")


def run(args) -> int:
    """Print what was learned; write the sheet where that was asked for."""
    from rollmodel.reports.learn import learn_text, learn_values
    from rollmodel.testday.from_runs import learn_from_runs

    if args.sheet is None:
        raise Refusal("--sheet: wanted the car sheet whose numbers are to be learned")
    with refusals():
        day = day_from(args)
        fit = learn_from_runs(day.before, day.after, day.sheet, day.low, day.high, args.numbers)
        path = (
            None
            if args.into is None
            else write_new(Path(args.into), _new_sheet(args, day, fit), args.replace)
        )
    simulated = any(setup.simulated for setup in (day.before, day.after) if setup)
    say(
        json.dumps(learn_values(fit, simulated), indent=2, ensure_ascii=False)
        if args.json
        else learn_text(fit, simulated, family_of(args)).rstrip("\n")
    )
    if path is not None and not args.json:
        say(f"\n{path}: the sheet with what was learned.")
    if args.log:
        _log(args, fit, simulated)
    return 0


def _new_sheet(args, day, fit) -> str:
    from rollmodel.reports.learn import learned_numbers
    from rollmodel.sheets.files import read_sheet_text
    from rollmodel.testday.into_sheet import sheet_with

    text = read_sheet_text(sheet_path(args.sheet))[1]
    return sheet_with(text, learned_numbers(fit, day.sheet.before), family_of(args))


def _log(args, fit, simulated: bool) -> None:
    from rollmodel.reports.log import entry_of_fit

    keep(args.sheet, entry_of_fit(fit, simulated), quiet=args.json)
