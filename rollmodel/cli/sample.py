"""``rollmodel sample``: simulated runs of a sheet's car, to practise reading runs on."""

from pathlib import Path

from rollmodel.cli.common import (
    Refusal,
    add_car_arguments,
    car_from,
    is_whole,
    refusals,
    remarks_from,
    say,
    whole_number,
)
from rollmodel.cli.testday import add_change, add_radius, changed, radius_from, write_new
from rollmodel.typed import quoted


def add_arguments(parser) -> None:
    """The options of the command."""
    add_car_arguments(parser)
    add_change(parser)
    add_radius(parser)
    parser.add_argument(
        "--into", metavar="FOLDER", default=".", help="where the files go; here when left out"
    )
    parser.add_argument(
        "--seed", type=whole_number, default=1, metavar="N", help="another number, other noise"
    )
    parser.add_argument(
        "--runs",
        default="3",
        metavar="N",
        help="runs each way round; 3 when left out, and rollmodel plan says how many a change needs",
    )
    parser.add_argument("--replace", action="store_true", help="write over files of the same name")


def run(args) -> int:
    """Write before.csv, and with --change after.csv."""
    from rollmodel.testday.power import FEWEST_RUNS, MOST_RUNS
    from rollmodel.testday.sample import plan_for, sample_csv, simulate_car

    if not is_whole(args.runs) or not FEWEST_RUNS <= int(args.runs) <= MOST_RUNS:
        raise Refusal(
            f"--runs: wanted runs each way round from {FEWEST_RUNS} to {MOST_RUNS}, "
            f"given {quoted(args.runs)}; write a whole number, such as {FEWEST_RUNS}"
        )
    with refusals():
        car, family = car_from(args), remarks_from(args).family
        cars = {"before": car, **({} if args.change is None else {"after": changed(car, args.change)})}
        radius = radius_from(args) or 30.0
        plan = plan_for(car, radius, int(args.runs))
    if not Path(args.into).is_dir():
        raise Refusal(f'--into: no folder has the name "{args.into[:80]}"; make it first')
    for number, (name, one) in enumerate(cars.items()):
        driven = simulate_car(one, plan, seed=2 * args.seed + number)
        text = sample_csv(one, driven, radius, family)
        path = write_new(Path(args.into) / f"{name}.csv", text, args.replace)
        say(f"{path}: {len(driven.time)} simulated rows; nobody drove them.")
    return 0
