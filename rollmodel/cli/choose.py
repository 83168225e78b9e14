"""``rollmodel choose``: which bar change to make for a complaint, or what comes before a bar."""

import json
import sys

SUMMARY = "which bar change to make for a complaint, and why"
_FAMILIES = {"metric": "metric", "us": "US customary"}


def add_arguments(parser) -> None:
    """The options of the command."""
    parser.add_argument("sheet", metavar="SHEET", help="a car sheet, or the name of a training car")
    parser.add_argument("--symptom", required=True, choices=("understeer", "oversteer"),
                        help="what the driver feels")
    parser.add_argument("--when", required=True, choices=("entry", "middle", "exit"), help="where in the corner")
    parser.add_argument("--at", metavar="G", help='lateral acceleration for loads and steer, such as "0.8 g"; '
                                                  "90 %% of the car's limit when left out")
    parser.add_argument("--front-hole", type=int, metavar="N", help="front hole in use, counted from 1, softest first")
    parser.add_argument("--rear-hole", type=int, metavar="N", help="rear hole in use")
    parser.add_argument("--units", choices=tuple(_FAMILIES), default="metric", help="units of what is printed")
    parser.add_argument("--json", action="store_true", help="print values for a program")


def run(args) -> int:
    """Print the advice; 0, or 2 with one message where there is none to give."""
    from rollmodel.car import CarError
    from rollmodel.sheets import SheetError
    from rollmodel.units import UnitError

    try:
        choice = _chosen(args)
    except (SheetError, CarError, UnitError, ValueError) as fault:
        print(fault, file=sys.stderr)
        return 2
    return _printed(choice, args)


def _chosen(args):
    from rollmodel import units
    from rollmodel.advice import choose

    near = None if args.at is None else units.parse(args.at, "lateral acceleration")
    car = _car(args.sheet).with_holes(args.front_hole, args.rear_hole)
    return choose(car, args.symptom, args.when, near)


def _car(sheet):
    from rollmodel.sheets import read, training_car, training_cars

    return training_car(sheet) if sheet in training_cars() else read(sheet)


def _printed(choice, args) -> int:
    from rollmodel.reports.choice import choice_text, choice_values

    family = _FAMILIES[args.units]
    refused = choice.verdict == "no advice"
    text = (json.dumps(choice_values(choice, family), indent=2, ensure_ascii=False) if args.json and not refused
            else choice_text(choice, family).rstrip("\n"))
    print(text, file=sys.stderr if refused else sys.stdout)
    return 2 if refused else 0
