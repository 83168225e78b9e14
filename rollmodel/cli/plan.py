"""``rollmodel plan``: a one-page run sheet for one change, to print and take along."""

from pathlib import Path

from rollmodel.cli.common import Refusal, add_car_arguments, car_from, refusals, remarks_from, say
from rollmodel.cli.testday import (
    add_change,
    add_log,
    add_radius,
    changed,
    doubts_for,
    keep,
    radius_from,
    ratio_from,
    write_new,
)


def add_arguments(parser) -> None:
    """The options of the command."""
    add_car_arguments(parser)
    add_change(parser)
    parser.add_argument(
        "--symptom",
        choices=("understeer", "oversteer"),
        help="let the advice choose the change for the middle of the corner",
    )
    add_radius(parser)
    parser.add_argument("--steering-ratio", metavar="N", help="say steer at the steering wheel, such as 15")
    for name, what in (("roll", "roll gradient"), ("steer", "understeer gradient")):
        parser.add_argument(
            f"--scatter-{name}",
            metavar="S",
            help=f'scatter of one run\'s {what}, such as "0.08 deg/g"; a starting figure when left out',
        )
    parser.add_argument("--into", metavar="FILE", help="name of the page; run-sheet.html when left out")
    add_log(parser)
    parser.add_argument("--replace", action="store_true", help="write over a file of that name")


def run(args) -> int:
    """Write the page and say what is on it."""
    from rollmodel.reports.run_sheet import change, run_sheet, runs_sentence

    plan, family = plan_from(args)
    path = write_new(Path(args.into or "run-sheet.html"), run_sheet(plan, family), args.replace)
    say(f"{change(plan)}\n{runs_sentence(plan)}\n{path}: open it in a browser and print it, one page.")
    if args.log:
        from rollmodel.reports.log import entry_of_plan

        keep(args.sheet, entry_of_plan(plan))
    return 0


def plan_from(args):
    """The plan that the arguments ask for, and the family of units to print it in."""
    from rollmodel.testday.plan import make_plan

    if (args.change is None) == (args.symptom is None):
        raise Refusal("wanted one of --symptom (the advice chooses the change) and --change (you do)")
    with refusals():
        car, family = car_from(args), remarks_from(args).family
        after, choice = _change(args, car)
        plan = make_plan(
            car,
            after,
            doubts_for(args.sheet, car),
            radius_from(args) or 30.0,
            _scatter(args),
            choice,
            ratio_from(args),
        )
    return plan, family


def _change(args, car):
    """The car after the change, and the advice where that chose it."""
    from rollmodel.advice import choose
    from rollmodel.reports.choice import headline

    if args.change is not None:
        return changed(car, args.change), None
    choice = choose(car, args.symptom, "middle")
    if choice.first is None:
        raise Refusal(
            f"no bar change to test: {headline(choice)} rollmodel choose says why; --change tests one all "
            "the same"
        )
    return car.with_holes(**{choice.first.end: choice.first.to_hole}), choice


def _scatter(args) -> dict[str, float]:
    from rollmodel.units import UnitError, parse

    found = {}
    for name, quantity in (("roll", "roll gradient"), ("steer", "understeer gradient")):
        text = getattr(args, f"scatter_{name}")
        try:
            found |= {} if text is None else {quantity: parse(text, quantity)}
        except UnitError as error:
            raise Refusal(f"--scatter-{name}: {error}") from None
        if quantity in found and not found[quantity] > 0:
            raise Refusal(f'--scatter-{name}: wanted a scatter above zero, given "{text[:40]}"')
    return found
