"""The training cars of the fictional college; invented for the demo, every one."""

from __future__ import annotations

from pathlib import Path

from rollmodel.car import Car
from rollmodel.sheets.faults import SheetError, nearest
from rollmodel.sheets.files import read

FOLDER = Path(__file__).resolve().parent.parent / "cars"


def training_cars() -> dict[str, Path]:
    """Name and file of each training car, by name."""
    return {path.stem: path for path in sorted(FOLDER.glob("*.toml"))}


def training_car(name: str) -> Car:
    """A training car by its name.

    Raises
    ------
    SheetError
        When there is no such car; it names those there are.

    Examples
    --------
    >>> training_car("coupe").drive
    'rear'
    """
    cars = training_cars()
    if name not in cars:
        near = nearest(str(name), cars)
        hint = f'"{near}" was meant?' if near else f"there are {', '.join(cars)}"
        raise SheetError(f'no training car has the name "{name}"; {hint}')
    return read(cars[name])
