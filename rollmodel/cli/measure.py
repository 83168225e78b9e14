"""``rollmodel measure``: readings of the workshop to numbers with uncertainties, and what those mean."""

import json
from pathlib import Path

from rollmodel.cli.common import UNITS, Refusal, refusals, say
from rollmodel.cli.testday import car_and_doubts, family_of, sheet_path, write_new


def add_arguments(parser) -> None:
    """The options of the command."""
    parser.add_argument(
        "readings", nargs="?", metavar="READINGS", help="a file of readings; --example writes one"
    )
    parser.add_argument("--sheet", metavar="SHEET", help="the car sheet, or the name of a training car")
    parser.add_argument("--into", metavar="FILE", help="write the sheet anew with the measured numbers in it")
    parser.add_argument("--replace", action="store_true", help="write over a file of that name")
    parser.add_argument("--example", metavar="FILE", help="write a file of readings to copy, and stop")
    parser.add_argument(
        "--units", choices=tuple(UNITS), help="units of the report; the sheet's when left out"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object for a program")


def run(args) -> int:
    """Print the numbers; write the sheet where that was asked for."""
    if args.example is not None:
        from rollmodel.testday.readings import EXAMPLE

        path = write_new(Path(args.example), EXAMPLE.read_text(encoding="utf-8"), args.replace)
        say(f"{path}: an example; put your own readings in.")
        return 0
    if args.readings is None and args.sheet is None:
        raise Refusal(
            "wanted a file of readings, or --sheet for what a sheet alone predicts; --example FILE writes "
            "one to copy"
        )
    if args.into is not None and (args.sheet is None or args.readings is None):
        raise Refusal("--into: needs readings, and --sheet for the sheet that they go into")
    _report(args)
    return 0


def _report(args) -> None:
    from rollmodel.reports.measure import measure_text, measure_values
    from rollmodel.testday.carry import carry

    with refusals():
        family = family_of(args)
        found, carried, doubts = _measured(args), [], []
        if args.sheet is not None:
            car, doubts = car_and_doubts(args.sheet, found)
            carried = carry(car, doubts)
        path = (
            None if args.into is None else write_new(Path(args.into), _new_sheet(args, found), args.replace)
        )
    values = measure_values(found, carried, doubts, family)
    say(
        json.dumps(values, indent=2, ensure_ascii=False)
        if args.json
        else measure_text(found, carried, doubts, family).rstrip("\n")
    )
    if path is not None and not args.json:
        say(f"\n{path}: the sheet with what was measured.")


def _measured(args):
    from rollmodel.sheets import read
    from rollmodel.testday.measure import measure
    from rollmodel.testday.readings import read_readings

    if args.readings is None:
        return []
    car = None if args.sheet is None else read(sheet_path(args.sheet))
    return measure(read_readings(args.readings), car)


def _new_sheet(args, found) -> str:
    from rollmodel.sheets.files import read_sheet_text
    from rollmodel.testday.into_sheet import sheet_with

    return sheet_with(read_sheet_text(sheet_path(args.sheet))[1], found, family_of(args))
