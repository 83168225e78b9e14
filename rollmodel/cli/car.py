"""``rollmodel car``: what a car does in a settled corner and at its limits."""

import argparse
import json

from rollmodel.cli.common import Refusal, add_car_arguments, car_from, refusals, remarks_from, say

LOWEST, HIGHEST = "0.01 g", "10 g"  # of --at; no car of these sheets corners outside


class PrintFields(argparse.Action):
    """Print the fields of a sheet and leave, as --help does."""

    def __call__(self, parser, namespace, values, option_string=None):
        from rollmodel.reports.sheet_fields import sheet_fields
        if parser.typed != [option_string]:
            parser.error("argument --fields: stands alone; it says what any sheet may hold")
        say(sheet_fields().rstrip("\n"))
        parser.exit()


def add_arguments(parser) -> None:
    """The options of the command."""
    add_car_arguments(parser)
    parser.add_argument("--at", metavar="A", default="1 g",
                        help='lateral acceleration, such as 0.6g or "5.9 m/s^2"; 1 g when left out')
    parser.add_argument("--driven", action="store_true",
                        help="add the drive force that holds the speed; coasting when left out")
    parser.add_argument("--fields", action=PrintFields, nargs=0,
                        help="say what a car sheet may hold, and stop")
    parser.add_argument("--json", action="store_true", help="print one JSON object for a program")


def run(args) -> int:
    """Print the report; 0 also when the corner is beyond the tyres."""
    from rollmodel.reports.car import car_values, read_car
    from rollmodel.reports.car_notes import car_notes
    with refusals():
        at = _lateral_acceleration(args.at)
        reading = read_car(_standing(car_from(args)), at, args.driven)
        typed = remarks_from(args)
    notes = car_notes(reading, typed.notes, typed.family)
    if args.json:
        say(json.dumps(car_values(reading, notes), indent=2))
        return 0
    from rollmodel.reports.car_table import car_table
    say(car_table(reading, typed.family, notes).rstrip("\n"))
    return 0


def _lateral_acceleration(text: str) -> float:
    from rollmodel.units import UnitError, parse, within
    kind = "lateral acceleration"
    try:
        return within(parse(text, kind), text, kind, parse(LOWEST, kind), parse(HIGHEST, kind))
    except UnitError as error:
        raise Refusal(f"--at: {error}") from None


def _standing(car):
    """The car, unless at other holes it no longer stands up."""
    from rollmodel.sheets.build import does_not_stand
    fault = does_not_stand(car)
    if fault:
        raise Refusal(fault)
    return car
