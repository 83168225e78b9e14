"""A car with the text of its sheet and how well each of its numbers is known."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from rollmodel.car import Car
from rollmodel.disk import FileStands, write_whole
from rollmodel.sheets import read_uncertainties
from rollmodel.sheets.files import read_sheet_text
from rollmodel.sheets.names import refused_name
from rollmodel.testday.carry import Carried, carry
from rollmodel.testday.doubts import Doubt, doubts_of
from rollmodel.testday.faults import DayError
from rollmodel.testday.into_sheet import sheet_with
from rollmodel.testday.measure import stated_by, with_measured
from rollmodel.testday.measured import Measured
from rollmodel.typed import quoted, typed_path

LONGEST_NAME = 120  # characters of a file's name


@dataclass(frozen=True, eq=False)
class Known:
    """A car as its sheet has it."""

    car: Car
    text: str | None  # of the sheet; None for a car made in a program
    stated: dict[str, float]  # uncertainties that the sheet states, [SI]

    @cached_property
    def doubts(self) -> tuple[Doubt, ...]:
        """How well each number is known."""
        return tuple(doubts_of(self.car, self.stated))


def known(car: Car, sheet: Path | None) -> Known:
    """What is known of a car.

    Parameters
    ----------
    car : Car
    sheet : Path or None
        The file that it came from.
    """
    if sheet is None:
        return Known(car, None, {})
    return Known(car, read_sheet_text(sheet)[1], read_uncertainties(sheet))


def carried(one: Known, found: list[Measured]) -> tuple[list[Carried], tuple[Doubt, ...]]:
    """What the sheet predicts with the measured numbers put in, and the doubts behind it.

    Parameters
    ----------
    one : Known
    found : list of Measured

    Raises
    ------
    DayError, CarError
        The numbers do not fit the sheet, or make a car that cannot be.
    """
    car = with_measured(one.car, found)
    doubts = tuple(doubts_of(car, {**one.stated, **stated_by(found)}))
    return carry(car, list(doubts)), doubts


def save_sheet(one: Known, found: list[Measured], typed: str, family: str = "metric") -> Path:
    """The sheet with the measured numbers in it, as a new file; one that is there already stays.

    Parameters
    ----------
    one : Known
    found : list of Measured
    typed : str
        The file's name or path, as a person typed it.
    family : str, optional
        Units of the numbers put in.

    Returns
    -------
    Path

    Raises
    ------
    DayError
        No sheet to put them in, a name that is none, a file that stands, a folder that is not there.
    """
    if one.text is None:
        raise DayError("this car came without a sheet, so there is nothing to put the numbers into")
    if not any(number.in_sheet for number in found):
        raise DayError("nothing measured yet that belongs in a sheet; fill in a step first")
    return save_new(typed, sheet_with(one.text, found, family), ".toml")


def save_new(typed: str, text: str, ending: str) -> Path:
    """A new file of a name as typed; refused where it stands already.

    Parameters
    ----------
    typed : str
    text : str
    ending : str
        Put behind a name that has none, ".toml".

    Raises
    ------
    DayError
        In words for the person who typed the name.
    """
    path = _path(typed, ending)
    try:
        write_whole(path, text, replace=False)
    except FileStands:
        raise DayError(f"{path} is there already and stays as it is; give another name") from None
    except FileNotFoundError:
        raise DayError(f"there is no folder {path.parent}; make it first, or leave it out") from None
    except (OSError, ValueError) as error:
        raise DayError(f"{path} cannot be written ({getattr(error, 'strerror', None) or error})") from None
    return path


def _path(typed: str, ending: str) -> Path:
    name = typed_path(typed).strip()
    if not name or not name.isprintable() or len(Path(name).name) > LONGEST_NAME:
        raise DayError(f"wanted a name for the file, such as my-car{ending}, given {quoted(typed[:40])}")
    path = Path(name)
    if refused := refused_name(path):
        raise DayError(refused)
    return path if path.suffix == ending else path.with_name(path.name + ending)
