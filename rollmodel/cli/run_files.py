"""What the commands that read runs share: the files of both setups, the sheet, the change, the range."""

from dataclasses import dataclass
from pathlib import Path

from rollmodel.cli.common import UNITS, Refusal, car_from
from rollmodel.cli.testday import (
    acceleration_from,
    add_change,
    add_radius,
    changed,
    doubts_for,
    radius_from,
    ratio_from,
)
from rollmodel.typed import quoted


def add_run_arguments(parser) -> None:
    """The files of runs and all that says how to read them."""
    parser.add_argument("files", nargs="*", metavar="FILE", help="BEFORE.csv, or BEFORE.csv AFTER.csv")
    for name in ("before", "after"):
        parser.add_argument(
            f"--{name}",
            nargs="+",
            metavar="FILE",
            default=[],
            help=f"several files of runs {name} the change, such as one each way round",
        )
    parser.add_argument("--sheet", metavar="SHEET", help="a car sheet, or a training car, for predictions")
    for end in ("front", "rear"):
        parser.add_argument(
            f"--{end}-hole",
            metavar="N",
            help=f"{end} hole before the change; the files' remark or the sheet's when left out",
        )
    add_change(parser)
    add_radius(parser)
    parser.add_argument("--steering-ratio", metavar="N", help="steering wheel over road wheel, such as 15")
    parser.add_argument(
        "--from", dest="low", metavar="A", help="use points from this lateral acceleration on"
    )
    parser.add_argument("--to", dest="high", metavar="A", help="use points up to this one, such as 0.4g")
    parser.add_argument(
        "--leave-out",
        action="append",
        default=[],
        metavar="RUN",
        help='leave out a run by its name, such as "after.csv, run 3 left"',
    )
    parser.add_argument(
        "--units", choices=tuple(UNITS), help="units of the report; the sheet's when left out"
    )


@dataclass(frozen=True)
class Day:
    """Everything that was given to read runs by."""

    before: object  # testday.runs.Setup
    after: object  # the same, or None
    sheet: object  # testday.analysis.Sheet, or None
    radius: float | None  # m
    low: float | None  # m/s^2
    high: float | None


def day_from(args) -> Day:
    """The runs and the sheet that the arguments name."""
    from rollmodel.testday.outliers import leave_out

    low, high = _range_from(args)
    before, after = (_setup(args, name, paths) for name, paths in paths_from(args).items())
    _check_names(args, [one for one in (before, after) if one])
    before, after = (one and leave_out(one, args.leave_out) for one in (before, after))
    _check_reach(args, low, high, [run for setup in (before, after) if setup for run in setup.runs])
    return Day(before, after, _sheet(args, before, after), radius_from(args) or before.radius, low, high)


def _range_from(args) -> tuple[float | None, float | None]:
    """The least and the largest lateral acceleration to use, [m/s^2]; before any file is read."""
    low, high = acceleration_from(args.low, "from"), acceleration_from(args.high, "to")
    if low is not None and high is not None and not low < high:
        raise Refusal(
            f"--from: wanted less than --to, given {quoted(args.low)} and {quoted(args.high)}; exchange them?"
        )
    return low, high


def _check_reach(args, low: float | None, high: float | None, runs) -> None:
    """Refuse bounds that lie outside everything that was driven."""
    from rollmodel.units import show

    least = min(run.lateral_acceleration.min() for run in runs)
    most = max(run.lateral_acceleration.max() for run in runs)
    driven = " to ".join(show(one, "lateral acceleration") for one in (least, most))
    if low is not None and not low < most:
        raise Refusal(f"--from: the runs have points at {driven} alone, given {quoted(args.low)}")
    if high is not None and not high > least:
        raise Refusal(f"--to: the runs have points at {driven} alone, given {quoted(args.high)}")


def paths_from(args) -> dict[str, list[str]]:
    """The files before and after the change, as typed."""
    if len(args.files) > 2:
        raise Refusal(
            "wanted BEFORE.csv and AFTER.csv; give more files of one setup with --before and --after, "
            "each followed by its files"
        )
    first, second = (args.files + [None, None])[:2]
    paths = {
        "before": [*filter(None, [first]), *args.before],
        "after": [*filter(None, [second]), *args.after],
    }
    if not paths["before"]:
        raise Refusal("no file of runs given; wanted BEFORE.csv, or BEFORE.csv AFTER.csv")
    seen = set()
    for path in (path for both in paths.values() for path in both):
        if Path(path).resolve() in seen:
            raise Refusal(
                f"{quoted(Path(path).name)} is given twice; name the file of the other runs, or leave it "
                "out once"
            )
        seen.add(Path(path).resolve())
    return paths


def _setup(args, name: str, paths: list[str]):
    from rollmodel.testday.runs import read_setup

    return read_setup(paths, name, radius_from(args), ratio_from(args)) if paths else None


def _check_names(args, setups) -> None:
    names = [run.name for setup in setups for run in setup.runs]
    for wanted in args.leave_out:
        if not any(name.lower().endswith(wanted.strip().lower()) for name in names):
            raise Refusal(f'--leave-out: no run has the name "{wanted[:60]}"; there are {"; ".join(names)}')


def _sheet(args, before, after):
    """What the sheet says of the cars before and after; None without a sheet."""
    from rollmodel.testday.analysis import Sheet

    if args.sheet is None:
        _refuse_without_sheet(args)
        return None
    car = _car_before(args, before)
    return Sheet(car, None if after is None else _car_after(args, car, after), doubts_for(args.sheet, car))


def _car_before(args, before):
    """The sheet's car at the holes asked for, else at those that the files name."""
    remarked = {end: hole for end, hole in before.holes.items() if getattr(args, f"{end}_hole") is None}
    car = car_from(args)
    _check_remarks(args, car, "before", remarked)
    return car.with_holes(**remarked)


def _check_remarks(args, car, when: str, holes: dict[str, int]) -> None:
    """Refuse a hole in a file's remark that the sheet's car does not have."""
    for end, hole in holes.items():
        count = car.axle(end).positions
        wanted = f"1 (softest) to {count} (stiffest)" if count else "no hole, for there is no bar"
        if not 1 <= hole <= count:
            raise Refusal(
                f'the runs {when} the change say "# {end} hole: {hole}"; by the sheet {quoted(args.sheet)} '
                f"wanted {wanted}. Mend the remark in the file, or name the right sheet"
            )


def _refuse_without_sheet(args) -> None:
    for option in ("change", "front_hole", "rear_hole"):
        if getattr(args, option) is not None:
            raise Refusal(f"--{option.replace('_', '-')}: needs a car sheet; give --sheet as well")


def _car_after(args, car, after):
    if args.change is not None:
        return changed(car, args.change)
    _check_remarks(args, car, "after", after.holes)
    moved = [(end, hole) for end, hole in after.holes.items() if hole != car.axle(end).hole]
    if len(moved) != 1:
        found = "none" if not moved else " and ".join(f"{end} hole {hole}" for end, hole in moved)
        raise Refusal(
            f"which change was made? The files name {found}; say it with --change, such as --change rear 3"
        )
    return changed(car, (moved[0][0], str(moved[0][1])))
