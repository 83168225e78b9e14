"""The log of a car: changes, plans, runs and notes, in a plain TOML file beside its sheet.

It is only ever added to. Each entry is a block of lines that a person reads without this package::

    [[entry]]
    when = 2030-05-04T10:20:00+01:00
    what = "runs"
    change = "Rear bar stiffer: hole 1 to hole 3."

    [entry.roll_gradient]
    predicted = "-0.400 ± 0.047 deg/g"
    measured = "-0.392 ± 0.058 deg/g"
    verdict = "seen"
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

import tomlkit

from rollmodel.disk import taking_turns, write_whole
from rollmodel.testday.faults import DayError
from rollmodel.units import quoted

LARGEST = 4_000_000  # bytes; years of test days have a hundredth of that
LONGEST_NOTE = 2000  # characters
WHATS = ("plan", "runs", "learn", "note")
QUANTITIES = ("roll_gradient", "understeer_gradient")
EFFECT = ("predicted", "measured", "verdict")
_HEAD = "# Log of a car: plans, runs and notes. Added to by rollmodel, oldest first; a person may edit it.\n"


@dataclass(frozen=True)
class Entry:
    """One thing that was done or said."""

    what: str  # one of WHATS
    when: datetime
    change: str = ""  # in words
    note: str = ""
    files: tuple[str, ...] = ()
    simulated: bool = False  # whether nobody drove the runs
    effects: dict[str, dict[str, str]] = field(
        default_factory=dict
    )  # by QUANTITIES, each with some of EFFECT


def log_path(sheet, training: Iterable[str] = ()) -> Path:
    """Where the log of a sheet lies: beside it, or in the working folder for a training car.

    Parameters
    ----------
    sheet : str or os.PathLike
        A file, or the name of a training car.
    training : iterable of str, optional
        Names of the training cars, whose own folder is left alone.
    """
    path = Path(sheet)
    return (
        Path(f"{path.name}.log.toml") if str(sheet) in training else path.with_name(f"{path.stem}.log.toml")
    )


def now() -> datetime:
    """This moment with its offset from universal time, to the second."""
    return datetime.now().astimezone().replace(microsecond=0)


def append(path, entry: Entry) -> None:
    """Add one entry; the file is whole before and after, whatever happens between.

    Parameters
    ----------
    path : str or os.PathLike
        Made where there is none.
    entry : Entry

    Raises
    ------
    DayError
        The file cannot be read as a log, or not be written; it is then as it was.
    """
    path = Path(path)
    try:
        with taking_turns(path):
            old = _text(path) if path.exists() else _HEAD
            _entries(old, path.name)  # what cannot be read is not built on
            write_whole(path, f"{old.rstrip()}\n\n{written(entry)}")
    except OSError as error:
        raise DayError(
            f"nothing was added, the log is as it was ({error.strerror or error})", str(path)
        ) from None


def written(entry: Entry) -> str:
    """An entry as the block of text that stands in the file."""
    if len(entry.note) > LONGEST_NOTE:
        raise DayError(f"a note has at most {LONGEST_NOTE} characters, given {len(entry.note)}")
    table = tomlkit.table()
    table.update({"when": entry.when, "what": entry.what})
    table.update(
        {name: _clean(text) for name, text in (("change", entry.change), ("note", entry.note)) if text}
    )
    table.update({"files": [_clean(name) for name in entry.files]} if entry.files else {})
    table.update({"simulated": True} if entry.simulated else {})
    for quantity, effect in entry.effects.items():
        inner = tomlkit.table()
        inner.update({name: _clean(effect[name]) for name in EFFECT if effect.get(name)})
        table.add(tomlkit.nl())
        table.add(quantity, inner)
    entries = tomlkit.aot()
    entries.append(table)
    document = tomlkit.document()
    document.add("entry", entries)
    return tomlkit.dumps(document)


def _clean(text: str) -> str:
    """Text that any editor shows: no control characters, no halves of letters."""
    text = text.encode("utf-8", "replace").decode("utf-8")
    return "".join(letter if letter.isprintable() or letter == "\n" else " " for letter in text).strip()


def read_log(path) -> list[Entry]:
    """Every entry, oldest first; none where there is no file yet.

    Parameters
    ----------
    path : str or os.PathLike

    Raises
    ------
    DayError
        The file is no log; nothing in it was changed.
    """
    path = Path(path)
    if not path.exists():
        return []
    try:
        return _entries(_text(path), path.name)
    except OSError as error:
        raise DayError(f"the log cannot be read ({error.strerror or error})", path.name) from None


def _text(path: Path) -> str:
    if path.stat().st_size > LARGEST:
        raise DayError(f"far too large for a log: more than {LARGEST // 1_000_000} MB", path.name)
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise DayError("the log is not UTF-8 text; save it from the editor as UTF-8", path.name) from None


def _entries(text: str, name: str) -> list[Entry]:
    try:
        content = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
        raise DayError(
            f"the log is not TOML any more: {error}; mend that line, nothing was changed", name
        ) from None
    entries = content.get("entry", [])
    if not isinstance(entries, list) or set(content) - {"entry"}:
        raise DayError("no log: it holds something else than [[entry]] blocks", name)
    return [_entry(one, number, name) for number, one in enumerate(entries, start=1)]


def _entry(one, number: int, name: str) -> Entry:
    """An entry as the file has it; unknown fields a person added are passed over."""
    if not isinstance(one, dict) or one.get("what") not in WHATS or not isinstance(one.get("when"), datetime):
        given = quoted(one.get("what", "nothing")) if isinstance(one, dict) else "no table"
        raise DayError(
            f"entry {number}: wanted what = one of {', '.join(WHATS)} and when = a date and time, "
            f"given {given}",
            name,
        )
    effects = {
        quantity: {part: str(one[quantity][part]) for part in EFFECT if part in one[quantity]}
        for quantity in QUANTITIES
        if isinstance(one.get(quantity), dict)
    }
    files = one.get("files", [])
    return Entry(
        one["what"],
        one["when"],
        str(one.get("change", "")),
        str(one.get("note", "")),
        tuple(map(str, files if isinstance(files, list) else [files])),
        one.get("simulated") is True,
        effects,
    )
