"""``rollmodel choose``: which bar change to make for a complaint, or what comes before a bar."""

import json
import sys

from rollmodel.cli.common import Refusal, add_car_arguments, car_from, refusals, remarks_from, say

STIFF_BELOW = "0.2 deg/g", "12 deg/g"  # of --stiff-below, well outside the 1 to 7 deg/g of any class


def add_arguments(parser) -> None:
    """The options of the command."""
    add_car_arguments(parser)
    parser.add_argument("--symptom", required=True, choices=("understeer", "oversteer"),
                        help="what the driver feels")
    parser.add_argument(
        "--when", required=True, choices=("entry", "middle", "exit"), help="where in the corner"
    )
    parser.add_argument(
        "--at",
        metavar="A",
        help="lateral acceleration for loads and steer, such as 0.8g; a part "
        "of the car's limit when left out",
    )
    parser.add_argument(
        "--stiff-below",
        metavar="R",
        help="roll gradient below which the car counts as stiff and "
        'is softened first; "2 deg/g" when left out',
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object for a program")


def run(args) -> int:
    """Print the advice; a car that rolls over before it slides gets none, and 2."""
    from rollmodel.reports.choice import choice_text, choice_values

    choice, typed = _chosen(args)
    family, notes = typed.family, typed.notes
    if choice.verdict == "no advice":
        say(choice_text(choice, family).rstrip("\n"), sys.stderr)
        return 2
    say(
        json.dumps(choice_values(choice, family, notes), indent=2, ensure_ascii=False)
        if args.json
        else choice_text(choice, family, notes).rstrip("\n")
    )
    return 0


def _chosen(args):
    from rollmodel.advice import Thresholds, choose

    with refusals():
        at = _number(args.at, "--at", "lateral acceleration")
        stiff = _number(args.stiff_below, "--stiff-below", "roll gradient", STIFF_BELOW)
        car, typed = car_from(args), remarks_from(args)
    thresholds = Thresholds() if stiff is None else Thresholds(already_stiff=stiff)
    try:
        return choose(car, args.symptom, args.when, at, thresholds), typed
    except ValueError as fault:
        raise Refusal(f"--{fault}") from None


def _number(text: str | None, option: str, kind: str, bounds=()) -> float | None:
    """An option's value in SI, or the one message that says what was wanted."""
    from rollmodel.units import UnitError, parse, within

    if text is None:
        return None
    try:
        value = parse(text, kind)
        return within(value, text, kind, *(parse(bound, kind) for bound in bounds)) if bounds else value
    except UnitError as error:
        raise Refusal(f"{option}: {error}") from None
