"""What the commands of the test day share: the change, the radius, files that are not written over."""

from pathlib import Path

from rollmodel.cli.common import UNITS, Refusal
from rollmodel.cli.common import _sheet_path as sheet_path


def add_change(parser) -> None:
    """``--change END HOLE``."""
    parser.add_argument(
        "--change",
        nargs=2,
        metavar=("END", "HOLE"),
        help="the change: front or rear, and the hole or blade angle after it, such as --change rear 3",
    )


def changed(car, change):
    """The car after a change as typed."""
    end, hole = change[0].lower(), change[1]
    if end not in ("front", "rear"):
        raise Refusal(
            f'--change: wanted front or rear, then a hole, such as rear 3, given "{end[:40]} {hole[:40]}"'
        )
    axle = car.axle(end)
    if axle.bar is None:
        raise Refusal(f"--change: this car has no {end} bar")
    if not hole.isascii() or not hole.isdigit() or not 1 <= int(hole[:6]) <= axle.positions or len(hole) > 6:
        raise Refusal(
            f"--change: wanted a {end} hole from 1 (softest) to {axle.positions} (stiffest), "
            f'given "{hole[:40]}"'
        )
    if int(hole) == axle.hole:
        raise Refusal(f"--change: {end} hole {hole} is in use already; a change goes to another hole")
    return car.with_holes(**{end: int(hole)})


def add_radius(parser) -> None:
    """``--radius R``."""
    parser.add_argument("--radius", metavar="R", help='radius of the circle, such as "30 m"')


def radius_from(args) -> float | None:
    """The radius as typed, [m]; None when left out."""
    from rollmodel.testday.run_file import radius_of
    from rollmodel.units import UnitError

    try:
        return None if args.radius is None else radius_of(args.radius)
    except UnitError as error:
        raise Refusal(f"--radius: {error}") from None


def acceleration_from(text: str | None, option: str) -> float | None:
    """A lateral acceleration as typed, [m/s^2]; None when left out."""
    from rollmodel.units import UnitError, parse

    try:
        return None if text is None else parse(text, "lateral acceleration")
    except UnitError as error:
        raise Refusal(f"--{option}: {error}") from None


def write_new(path: Path, text: str, replace: bool = False) -> Path:
    """Write a file whole or not at all; one that is there already stays, unless told otherwise."""
    from rollmodel.disk import FileStands, write_whole

    try:
        write_whole(path, text, replace)
    except FileStands:
        raise Refusal(f"{path} is there already; give another name, or --replace to write over it") from None
    except FileNotFoundError:
        raise Refusal(f"there is no folder {path.parent}; make it first, or leave it out") from None
    except OSError as error:
        raise Refusal(f"{path} cannot be written ({error.strerror or error})") from None
    return path


def car_and_doubts(sheet: str, found=()):
    """The sheet's car with what was measured put in, and how well each of its numbers is known."""
    from rollmodel.sheets import read
    from rollmodel.testday.measure import stated_by, with_measured

    car = with_measured(read(sheet_path(sheet)), found)
    return car, doubts_for(sheet, car, stated_by(found))


def doubts_for(sheet: str, car, measured=None):
    """How well each number of a sheet's car is known; what was measured goes before what the sheet says."""
    from rollmodel.sheets import read_uncertainties
    from rollmodel.testday.doubts import doubts_of

    return doubts_of(car, {**read_uncertainties(sheet_path(sheet)), **(measured or {})})


def family_of(args) -> str:
    """The family of units asked for; else that of the sheet, else metric."""
    from rollmodel.sheets import read_remarks

    if args.units is not None:
        return UNITS[args.units]
    return "metric" if args.sheet is None else read_remarks(sheet_path(args.sheet)).family


def ratio_from(args) -> float | None:
    """The steering ratio as typed, [-]; None when left out."""
    from rollmodel.testday.run_file import ratio_of
    from rollmodel.units import UnitError

    try:
        return None if args.steering_ratio is None else ratio_of(args.steering_ratio)
    except UnitError as error:
        raise Refusal(f"--steering-ratio: {error}") from None


def add_log(parser) -> None:
    """``--log``."""
    parser.add_argument("--log", action="store_true", help="add this to the log beside the sheet")


def log_of(sheet: str):
    """Where the log of a sheet lies; a sheet that is not there is refused."""
    from rollmodel.sheets import read, training_cars
    from rollmodel.testday.log import log_path

    found = sheet_path(sheet)
    read(found)
    return log_path(sheet, training_cars() if found != sheet else ())


def keep(sheet: str, entry, quiet: bool = False) -> None:
    """Add an entry to a sheet's log and say where."""
    from rollmodel.cli.common import refusals, say
    from rollmodel.testday.log import append

    with refusals():
        path = log_of(sheet)
        append(path, entry)
    if not quiet:
        say(f"Added to {path}.")
