"""What a form's boxes ask of a plan, and whose files of runs it names, as a person typed them."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from rollmodel.car import Car
from rollmodel.testday.analysis import Analysis, Sheet, analyse
from rollmodel.testday.faults import DayError
from rollmodel.testday.known import Known
from rollmodel.testday.plan import RunPlan, make_plan
from rollmodel.testday.run_file import radius_of, ratio_of
from rollmodel.testday.runs import Setup, read_setup
from rollmodel.testday.trial import RADIUS
from rollmodel.testday.typed_text import with_unit
from rollmodel.typed import quoted, typed_path
from rollmodel.units import UnitError, parse


def moves(car: Car) -> list[tuple[str, int]]:
    """Every one change of hole from those in use: end and hole, the front before the rear."""
    return [
        (end, hole)
        for end in ("front", "rear")
        for hole in range(1, (car.axle(end).positions if car.axle(end).bar else 0) + 1)
        if hole != car.axle(end).hole
    ]


def made(car: Car, end: str, hole: int) -> Car:
    """The car after one change."""
    return car.with_holes(**{end: hole})


def radius_typed(text: str, family: str = "metric") -> float | None:
    """A radius as typed, [m]; None for an empty box; a bare number is in metres, or in feet.

    Raises
    ------
    DayError
    """
    if not text.strip():
        return None
    bare = with_unit(text, "long length", family) != text
    return _read(radius_of, f"{text} {'m' if family == 'metric' else 'ft'}" if bare else text, "radius")


def ratio_typed(text: str) -> float | None:
    """A steering ratio as typed, [-]; None for an empty box.

    Raises
    ------
    DayError
    """
    return _read(ratio_of, text, "steering ratio") if text.strip() else None


def scatter_typed(text: str, quantity: str) -> dict[str, float]:
    """The scatter of one run's slope as typed, by its gradient, [rad/(m/s^2)]; empty for an empty box.

    Raises
    ------
    DayError
    """
    if not text.strip():
        return {}
    found = _read(lambda typed: parse(with_unit(typed, quantity), quantity), text, f"scatter, {quantity}")
    if not found > 0:
        raise DayError(f"scatter, {quantity}: wanted a scatter above zero, given {quoted(text)}")
    return {quantity: found}


def _read(reader, text: str, what: str):
    try:
        return reader(text)
    except UnitError as error:
        raise DayError(f"{what}: {error}") from None


def plan_wished(one: Known, end: str, hole: int, boxes: dict[str, str], family: str = "metric") -> RunPlan:
    """The plan for one change, as a form's boxes ask for it.

    Parameters
    ----------
    one : Known
    end : {"front", "rear"}
    hole : int
        After the change.
    boxes : dict of str to str
        ``radius``, ``steering ratio``, ``roll gradient`` and ``understeer gradient`` (scatters); empty ones
        leave the usual figure.
    family : str, optional
        Of bare numbers.

    Raises
    ------
    DayError, CarError
    """
    return make_plan(
        one.car,
        made(one.car, end, hole),
        list(one.doubts),
        radius_typed(boxes.get("radius", ""), family) or RADIUS,
        {
            **scatter_typed(boxes.get("roll gradient", ""), "roll gradient"),
            **scatter_typed(boxes.get("understeer gradient", ""), "understeer gradient"),
        },
        None,
        ratio_typed(boxes.get("steering ratio", "")),
    )


@dataclass(frozen=True, eq=False)
class Read:
    """Runs that were read, with the sheet that they are held against."""

    before: Setup
    after: Setup
    sheet: Sheet
    analysis: Analysis
    files: tuple[str, ...] = ()


def read_files(one: Known, after: Car, boxes: dict[str, str], family: str = "metric") -> Read:
    """A learner's own files of runs before and after a change.

    Parameters
    ----------
    one : Known
    after : Car
        After the change, where the files do not name their holes.
    boxes : dict of str to str
        ``before`` and ``after`` (paths), ``radius`` and ``steering ratio`` where the files do not say.
    family : str, optional
        Of bare numbers.

    Raises
    ------
    DayError, CarError
    """
    paths = {name: typed_path(boxes.get(name, "")).strip() for name in ("before", "after")}
    for name, path in paths.items():
        if not path:
            raise DayError(f"wanted the path of a CSV file of the runs {name} the change")
    if paths["before"] == paths["after"]:
        twice = quoted(Path(paths["before"]).name)
        raise DayError(f"{twice} is given twice; name the file of the runs after the change")
    radius, ratio = (
        radius_typed(boxes.get("radius", ""), family),
        ratio_typed(boxes.get("steering ratio", "")),
    )
    before, later = (read_setup([path], name, radius, ratio) for name, path in paths.items())
    sheet = Sheet(*_cars(one.car, after, before, later), one.doubts)
    analysis = analyse(before, later, sheet, radius or before.radius)
    return Read(before, later, sheet, analysis, tuple(paths.values()))


def _cars(car: Car, after: Car, before: Setup, later: Setup) -> tuple[Car, Car]:
    """The cars of both setups by the holes that the files name; else the sheet's, and that after
    the change."""
    first = _at(car, before) if before.holes else car
    second = _at(first, later) if later.holes else after
    if (first.front.hole, first.rear.hole) == (second.front.hole, second.rear.hole):
        raise DayError("the files name the same holes before and after: no change to look for")
    return first, second


def _at(car: Car, setup: Setup) -> Car:
    for end, hole in setup.holes.items():
        if not car.axle(end).bar or not 1 <= hole <= car.axle(end).positions:
            raise DayError(f"{setup.name}: the file names {end} hole {hole}, which this car does not have")
    return car.with_holes(**setup.holes)
