"""One file of runs as numbers in SI; what cannot be used is refused or set aside and said."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import numpy as np
import pandas as pd

from rollmodel.testday.columns import Column, columns_of, meant
from rollmodel.testday.faults import DayError
from rollmodel.testday.text_file import Layout, layout_of
from rollmodel.units import UnitError, parse, quoted, show

LEFT, RIGHT = 1, -1
_WORDS = {
    **dict.fromkeys(("left", "l", "anticlockwise", "counterclockwise", "ccw"), LEFT),
    **dict.fromkeys(("right", "r", "clockwise", "cw"), RIGHT),
}
GAPS = ("-", "--", "–", "—")  # beside the library's own, such as an empty cell or N/A
SPARE = 0.01  # part of the rows that may hold an unbelievable value before the file is refused


@dataclass(frozen=True, eq=False)  # arrays have no one answer to "equal"
class RunFile:
    """Rows of one file, SI; a column that the file lacks is not in ``values``."""

    name: str
    values: dict[str, np.ndarray]  # by the names of `columns.QUANTITIES`; nan where a cell is empty
    run: np.ndarray | None  # text labels
    direction: np.ndarray  # LEFT, RIGHT, or 0 where the file does not say
    radius: float | None  # m, where a remark gives it
    steering_ratio: float | None  # steering wheel over road wheel, where a remark gives it
    holes: dict[str, int]  # in use at "front" and "rear", where remarks give them
    simulated: bool  # whether the file says that nobody drove it
    notes: tuple[str, ...]  # what was set aside or taken for granted
    units: dict[str, str] = field(default_factory=dict)  # of each column, as the header writes it

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return len(self.direction)


def read_run_file(path) -> RunFile:
    """Read one CSV file of constant-radius runs.

    Parameters
    ----------
    path : str or os.PathLike
        Text; the first line names the columns with their units, ``steer [deg]``. Columns parted by
        commas, semicolons or tabs, decimal points or decimal commas. Lines that start with ``#``
        may stand above the header: ``# radius: 30 m``, ``# direction: left``.

    Returns
    -------
    RunFile

    Raises
    ------
    DayError
        One message that names line and column, what was wanted and what was given.
    """
    layout = layout_of(path)
    columns, unused, faults = columns_of(list(layout.header))
    if faults := faults or _missing(columns, unused):
        raise DayError(faults, layout.name)
    frame = _frame(layout, columns)
    if frame.empty:
        raise DayError("there is a header and no rows below it", layout.name)
    notes: list[str] = []
    lines = frame.index.to_numpy() + layout.header_line + 1
    values = {
        column.name: _believable(_numbers(frame, column, layout), column, lines, layout.name, notes)
        for column in columns
        if column.kind
    }
    run = frame["run"].fillna("").astype(str).str.strip().to_numpy() if "run" in frame else None
    return RunFile(
        layout.name,
        values,
        run,
        _directions(frame, layout),
        _remark(layout, "radius", radius_of),
        _remark(layout, "steering ratio", ratio_of),
        _holes(layout),
        "simulated" in layout.remarks,
        tuple(notes),
        {column.name: column.unit for column in columns},
    )


def _missing(columns: list[Column], unused: list[str]) -> list[str]:
    names = {column.name for column in columns}
    hint = meant(unused)
    if not names & {"lateral acceleration", "accelerometer", "speed"}:
        return [f'no column "lateral acceleration [g]" and no "speed [km/h]"; one of them is needed{hint}']
    if not names & {"steer", "steering wheel", "roll"}:
        return [f'no column "steer [deg]" and no "roll [deg]"; at least one of them is needed{hint}']
    if {"steer", "steering wheel"} <= names:
        return ["both a steer and a steering wheel column; keep the one that was measured"]
    return []


def _frame(layout: Layout, columns: list[Column]) -> pd.DataFrame:
    """The wanted columns as the library reads them; text where a column holds anything but numbers.

    Every column is read, used or not: only then does the library tell a line that has too many values.
    """
    wanted = {str(column.place): column.name for column in columns}
    words = {place: "str" for place, name in wanted.items() if name in ("run", "direction")}
    try:
        frame = pd.read_csv(
            layout.path,
            sep=layout.separator,
            decimal=layout.decimal,
            header=None,
            names=[str(place) for place in range(len(layout.header))],
            skiprows=layout.header_line,
            skip_blank_lines=False,
            encoding=layout.encoding,
            encoding_errors="replace",
            dtype=words,
            low_memory=False,
            skipinitialspace=True,
            na_values=GAPS,
        )
    except pd.errors.EmptyDataError:
        return pd.DataFrame(columns=list(wanted.values()))
    except (pd.errors.ParserError, ValueError, OverflowError, MemoryError) as error:
        raise DayError(f"the columns do not line up ({_why(error)})", layout.name) from None
    if not isinstance(frame.index, pd.RangeIndex):  # the library took the values too many for row names
        first = f"line {layout.header_line + 1} has more values than the header names"
        raise DayError(f"the columns do not line up ({first}; look for a quotation mark)", layout.name)
    return frame[list(wanted)].rename(columns=wanted).dropna(how="all")


def _why(error) -> str:
    """What the library says, in one short line."""
    text = (str(error).strip().splitlines() or [type(error).__name__])[0][:160]
    if found := re.search(r"Expected (\d+) fields in line (\d+), saw (\d+)", text):
        return f"line {found[2]} has {found[3]} values, the header names {found[1]}"
    return "a quotation mark is opened and not closed" if "EOF inside string" in text else text


def _numbers(frame: pd.DataFrame, column: Column, layout: Layout) -> np.ndarray:
    """One column in SI, or the first cell that is no number."""
    cells = frame[column.name]
    if not pd.api.types.is_numeric_dtype(cells) or pd.api.types.is_bool_dtype(cells):
        numbers = pd.to_numeric(cells.astype(str).where(cells.notna()), errors="coerce")
        wrong = numbers.isna() & cells.notna()
        if wrong.any():
            at = wrong.idxmax()
            raise DayError(
                f"line {at + layout.header_line + 1}, {column.name}: wanted a plain number, given "
                f"{quoted(cells[at])}{_hint(str(cells[at]), layout)}",
                layout.name,
            )
        cells = numbers
    return cells.to_numpy(dtype=float) * column.factor


def _hint(cell: str, layout: Layout) -> str:
    """The likely slip behind a cell that is no number."""
    if any(letter.isalpha() for letter in cell):
        return "; units belong in the header, remarks in lines above it that start with #"
    if "," in cell and "." in cell:
        return "; write no sign between thousands"
    if "," in cell or ("." in cell and layout.decimal == ","):
        return "; decimal points and decimal commas are mixed"
    return ""


def _believable(values, column: Column, lines, name: str, notes: list[str]) -> np.ndarray:
    """The values, with those that no car can show set aside and said; too many, and the unit is wrong."""
    with np.errstate(invalid="ignore"):
        wild = ~(np.abs(values) <= column.largest) & ~np.isnan(values)
    if not wild.any():
        return values
    first = int(np.argmax(wild))
    given = f"{values[first] / column.factor:g} {column.unit}"
    most = show(column.largest, column.kind)
    if wild.mean() > SPARE:
        raise DayError(
            f"{column.name}: {wild.sum()} of {len(values)} values are not believable (the first is "
            f"{given}, at most {most}); check the unit in the header",
            name,
        )
    notes.append(
        f"{name}: {column.name}: {wild.sum()} unbelievable value(s) set aside, the first {given} in "
        f"line {lines[first]}."
    )
    return np.where(wild, np.nan, values)


def _directions(frame: pd.DataFrame, layout: Layout) -> np.ndarray:
    """Which way round each row goes; 0 where nothing says so."""
    if "direction" in frame:
        words = frame["direction"].fillna("").astype(str).str.strip().str.lower()
        found = words.map({**_WORDS, "": 0})
        if found.isna().any():
            at = found.isna().idxmax()
            raise DayError(
                f"line {at + layout.header_line + 1}, direction: wanted left or right, given "
                f"{quoted(words[at])}",
                layout.name,
            )
        return found.to_numpy(dtype=int)
    word = layout.remarks.get("direction", "").lower()
    if word and word not in _WORDS:
        raise DayError(f"# direction: wanted left or right, given {quoted(word)}", layout.name)
    return np.full(len(frame), _WORDS.get(word, 0))


def _remark(layout: Layout, name: str, read) -> float | None:
    """The number in a remark above the header; None without that remark."""
    text = layout.remarks.get(name)
    try:
        return None if text is None else read(text)
    except UnitError as error:
        raise DayError(f"# {name}: {error}", layout.name) from None


def _holes(layout: Layout) -> dict[str, int]:
    """Holes in use, from remarks such as "# rear hole: 2"."""
    given = {
        end: layout.remarks[f"{end} hole"] for end in ("front", "rear") if f"{end} hole" in layout.remarks
    }
    for end, text in given.items():
        if not re.fullmatch(r"[1-9]\d?", text):
            raise DayError(f"# {end} hole: wanted a whole number from 1, given {quoted(text)}", layout.name)
    return {end: int(text) for end, text in given.items()}


def radius_of(text: str) -> float:
    """A radius as typed, "30 m", [m]; between 5 m and 500 m.

    Raises
    ------
    UnitError
        No length, or none of a circle that a car is tested on.
    """
    wanted = 'wanted a radius from 5 m to 500 m, such as "30 m"'
    try:
        radius = parse(text, "long length")
    except UnitError as error:
        mend = "no unit; m or ft belongs behind it" if re.fullmatch(r"[\d.]+", text.strip()) else error.mend
        raise UnitError(f"{wanted}, given {quoted(text)}: {mend}") from None
    if not 5 <= radius <= 500:
        raise UnitError(f"{wanted}, given {quoted(text)}")
    return radius


def radius_text(radius: float, family: str = "metric") -> str:
    """A radius as people say it, in metres or in feet, and as `radius_of` reads it.

    Parameters
    ----------
    radius : float
        [m].
    family : str, optional

    Examples
    --------
    >>> radius_text(30.0), radius_text(30.48, "US customary")
    ('30 m', '100 ft')
    """
    return f"{radius:.4g} m" if family == "metric" else f"{radius / parse('1 ft', 'long length'):.4g} ft"


def ratio_of(text: str) -> float:
    """A steering ratio as typed, "15", [-]; between 4 and 40.

    Raises
    ------
    UnitError
        No number, or none that a car's steering has.
    """
    wanted = 'wanted a steering ratio (steering wheel over road wheel) from 4 to 40, such as "15"'
    try:
        ratio = parse(text, "ratio")
    except UnitError as error:
        raise UnitError(f"{wanted}, given {quoted(text)}: {error.mend}") from None
    if not 4 <= ratio <= 40:
        raise UnitError(f"{wanted}, given {quoted(text)}")
    return ratio
