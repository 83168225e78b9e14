"""What is fed, to what, and how it may end: a result, or the one refusal that the package promises.

Every input is a string of bytes. A refusal is short, printable and says something; any other exception, a
second of one unit string, ten of one file, or code run from a unit string is a fault.
"""

from __future__ import annotations

import contextlib
import io
import os
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from rollmodel import car as records
from rollmodel import sheets, units
from rollmodel.cli import main
from rollmodel.marking.pages import learner_page
from rollmodel.marking.paper import paper_of
from rollmodel.marking.reading import NotMarked
from rollmodel.marking.reading import read as read_handed_in
from rollmodel.marking.scoring import mark
from rollmodel.questions import bank, check, feedback
from rollmodel.questions.answers import AnswerFile, StoreError
from rollmodel.questions.posed import pose
from tests.fuzz import seeds

LONGEST_LINE = 1500  # characters; a sentence of a refusal that a person still reads
KINDS = tuple(units.KINDS)


class Fault(AssertionError):
    """An input ended in a way that the package does not promise."""


@dataclass(frozen=True)
class Target:
    """One kind of input.

    Parameters
    ----------
    feed : callable
        Takes the bytes and a folder to write in; returns whether they were taken.
    seeds : callable
        Gives inputs to start from, good ones and known bad ones.
    words : tuple of bytes
        What inputs of this kind are made of, for splicing in.
    seconds : float
        Of processor time that one input may take.
    """

    feed: Callable[[bytes, Path], bool]
    seeds: Callable[[], list[bytes]]
    words: tuple[bytes, ...]
    seconds: float


def refused(error: Exception) -> bool:
    """The refusal's words are fit to be shown; always False, for "not taken"."""
    for line in getattr(error, "faults", None) or str(error).split("\n"):
        if not line.strip() or len(line) > LONGEST_LINE:
            raise Fault(f"a refusal of {len(line)} characters: {line[:200]!r}") from error
        if not all(c.isprintable() for c in line):
            raise Fault(f"a refusal with control characters: {line[:200]!r}") from error
    return False


def car_sheet(data: bytes, folder: Path) -> bool:
    """Read a sheet all the ways there are; of a car that is taken, the whole report is printed."""
    path = folder / "mine.toml"
    path.write_bytes(data)
    try:
        sheets.read_remarks(path)
        sheets.read_uncertainties(path)
        car = sheets.read(path)
    except (sheets.SheetError, records.CarError) as error:
        return refused(error)
    same = sheets.read_text(sheets.to_sheet(car))
    if not np.isclose(same.mass, car.mass, rtol=2e-6, atol=0):  # seven digits are written
        raise Fault("what was written is not what was read")
    _command("car", str(path))
    return True


def answer_file(data: bytes, folder: Path) -> bool:
    """Read a file as the notebook does and as marking does; mark what is taken, and write its page."""
    folder = folder / "answers"
    folder.mkdir(exist_ok=True)
    path = folder / "answers-blue_kestrel-assessment.json"
    path.write_bytes(data)
    try:
        handed = read_handed_in(path, path.name)
        paper = _paper()
        learner_page(mark(handed, paper), paper)
        taken = True
    except NotMarked as error:
        taken = refused(error)
    kept = AnswerFile(folder, "blue kestrel", "assessment")
    try:
        kept.read()
    except StoreError as error:
        refused(error)
    for note in kept.notes:
        refused(ValueError(note))
    for left in folder.iterdir():
        if left.read_bytes() != data:
            raise Fault(f"{left.name} is not what was handed in")
        left.unlink()
    return taken


_made: dict = {}


def _paper():
    if "paper" not in _made:
        pool = [one for one in bank.all_questions() if "assessment" in one.pools]
        _made["paper"] = paper_of("fuzz", pool)
    return _made["paper"]


def typed_answer(data: bytes, folder: Path) -> bool:
    """One answer as typed, to one question of the bank, with what is said of it."""
    if "posed" not in _made:
        _made["posed"] = [pose(one, "blue kestrel", "metric", "practice") for one in bank.all_questions()]
    which, text = data[0] if data else 0, data[1:].decode("utf-8", "replace")
    posed = _made["posed"][which % len(_made["posed"])]
    verdict = check(posed, text)
    feedback(posed, verdict, 1, "practice")
    return verdict.read


def run_csv(data: bytes, folder: Path) -> bool:
    """A file of runs, read to its verdict as the command does it."""
    path = folder / "before.csv"
    path.write_bytes(data)
    return _command("runs", str(path), "--radius", "30 m") == 0


def _command(*arguments: str) -> int:
    """A command's exit code; its message is held to the same as a refusal's."""
    out, err = io.StringIO(), io.StringIO()
    os.environ["ROLLMODEL_TRACEBACK"] = "1"  # what breaks inside comes out
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = main([*arguments])
    finally:
        del os.environ["ROLLMODEL_TRACEBACK"]
    if code not in (0, 2) or "Traceback" in err.getvalue() or (code == 0) != (err.getvalue() == ""):
        raise Fault(f"exit code {code}: {err.getvalue()[:500]}")
    if code == 2:
        refused(ValueError(err.getvalue().rstrip("\n")))
    return code


def unit_string(data: bytes, folder: Path) -> bool:
    """A value with its unit, of every kind in turn; nothing may be run that stands in it."""
    kind = KINDS[(data[0] if data else 0) % len(KINDS)]
    text = data[1:].decode("utf-8", "replace")
    with nothing_is_run():
        try:
            value = units.parse(text, kind)
            units.within(value, text, kind, 1e-3, 1e3)
        except units.UnitError as error:
            return refused(error)
    if not np.isfinite(value):
        raise Fault(f"{text[:60]!r} was read as {value}")
    return True


_watch = {"on": False}
_RUNS = ("exec", "compile", "os.system", "os.exec", "os.posix_spawn", "subprocess.Popen", "import", "open",
         "socket.connect")  # fmt: skip


def _listen(event: str, arguments) -> None:
    if _watch["on"] and event in _RUNS:
        _watch["on"] = False
        raise Fault(f"a unit string led to {event} {str(arguments)[:100]}")


@contextlib.contextmanager
def nothing_is_run():
    """Inside, running code, loading a module, opening a file or a connection is a fault.

    Python itself reports these events (PEP 578); a listener cannot be taken away, so it is switched.
    """
    if "listening" not in _watch:
        for kind in KINDS:  # what is loaded at first use is loaded now
            with contextlib.suppress(units.UnitError):
                units.parse("1 N*m/deg", kind)
        sys.addaudithook(_listen)
        _watch["listening"] = True
    _watch["on"] = True
    try:
        yield
    finally:
        _watch["on"] = False


def timed(target: Target, data: bytes, folder: Path) -> tuple[bool, float]:
    """Whether an input was taken, and the processor time it took, [s]; too long is a fault."""
    start = time.process_time()
    taken = target.feed(data, folder)
    took = time.process_time() - start
    if took > target.seconds:
        raise Fault(f"{took:.1f} s for {len(data)} bytes; at most {target.seconds:g} s")
    return taken, took


TARGETS = {
    "sheets": Target(car_sheet, seeds.car_sheets, seeds.SHEET_WORDS, 10.0),
    "answers": Target(answer_file, seeds.answer_files, seeds.ANSWER_WORDS, 10.0),
    "typed": Target(typed_answer, seeds.typed_answers, seeds.UNIT_WORDS, 2.0),
    "runs": Target(run_csv, seeds.run_files, seeds.RUN_WORDS, 10.0),
    "units": Target(unit_string, seeds.unit_strings, seeds.UNIT_WORDS, 1.0),
}
