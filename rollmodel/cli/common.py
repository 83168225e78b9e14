"""What the commands share: refusing, printing on any terminal, finding a car."""

from __future__ import annotations

import argparse
import os
import re
import sys
from contextlib import contextmanager
from difflib import get_close_matches

from rollmodel.typed import printable, quoted, typed_path

UNITS = {"metric": "metric", "us": "US customary"}
_PLAIN = str.maketrans({"·": "*", "²": "^2", "³": "^3", "°": "deg", "−": "-", "–": "-", "—": "-",
                        "×": "x", "±": "+/-",
                        "“": '"', "”": '"', "‘": "'", "’": "'", "…": "..."})


_PATHS = ("sheet", "readings", "files", "before", "after", "into")  # arguments that are paths


class Refusal(Exception):
    """The one message that a person reads when a command does not go ahead; exit code 2."""


class OutputLost(Exception):
    """What was printed could not be written; ``broken_pipe`` when the reader closed first."""

    def __init__(self, error: OSError):
        super().__init__(f"rollmodel: the output could not be written ({error.strerror})")
        self.broken_pipe = isinstance(error, BrokenPipeError)


class Parser(argparse.ArgumentParser):
    """Refuses with one message; takes ``--at 0.6 g`` as one value, and ``--at -1g`` to be refused as such."""

    def __init__(self, *args, **options):
        super().__init__(*args, **options)
        self.typed: list[str] = []  # what was given, as read
        self.options_met: set[str] = set()
        self.register("action", None, Once)
        self.register("action", "store", Once)

    def error(self, message: str):
        raise Refusal(f"{self.prog}: {printable(message)}. Try {self.prog} --help")

    def parse_args(self, args=None, namespace=None):
        joined: list[str] = []
        for argument in args if args is not None else sys.argv[1:]:
            if re.match(r"-\.?\d", argument) and joined and re.fullmatch(r"--[a-z-]+", joined[-1]):
                joined[-1] += f"={argument}"
            elif argument in ("g", "G", "m/s^2") and joined[-2:-1] == ["--at"]:
                joined[-1] += f" {argument}"
            else:
                joined.append(argument)
        self.typed = joined
        found = super().parse_args(joined, namespace)
        for name in set(_PATHS) & vars(found).keys():
            setattr(found, name, _as_paths(getattr(found, name)))
        return found


class Once(argparse.Action):
    """Keeps what an option is given, and refuses it a second time: which of the two was meant?"""

    def __call__(self, parser, namespace, values, option_string=None):
        if option_string in parser.options_met:
            parser.error(f"argument {option_string}: given twice; give it once")
        if option_string:
            parser.options_met.add(option_string)
        setattr(namespace, self.dest, values)


def _as_paths(value):
    """Paths as typed or pasted, as the system knows them."""
    if isinstance(value, list):
        return [_as_paths(one) for one in value]
    return typed_path(value) if isinstance(value, str) else value


def is_whole(text: str) -> bool:
    """Whether what was typed is a whole number from 0 to 999999999."""
    return bool(re.fullmatch(r"\d{1,9}", text, re.ASCII))


def whole_number(text: str) -> int:
    """A whole number from 0, or a message that says so."""
    if not is_whole(text):
        raise argparse.ArgumentTypeError(
            f"wanted a whole number from 0 to 999999999, such as 2, given {quoted(text)}"
        )
    return int(text)


def say(text: str, stream=None) -> None:
    """Print, with plain signs in place of those that the terminal cannot show."""
    stream = sys.stdout if stream is None else stream
    if stream is None:  # started without a terminal
        return
    encoding = getattr(stream, "encoding", None) or "ascii"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        text = text.translate(_PLAIN).encode(encoding, "replace").decode(encoding)
    try:
        print(text, file=stream, flush=True)
    except OSError as error:
        raise OutputLost(error) from None


def nearest_word(word: str, known, likeness: float = 0.5) -> str | None:
    """The known word closest to a misspelt one, at least so much like it; or None."""
    found = get_close_matches(word.lower(), list(known), n=1, cutoff=likeness)
    return found[0] if found else None


@contextmanager
def refusals():
    """Turn what the package raises on bad input into the one message."""
    from rollmodel.car import CarError
    from rollmodel.reports.car import RollsOver
    from rollmodel.sheets import SheetError
    from rollmodel.units import UnitError
    try:
        yield
    except (CarError, RollsOver, SheetError, UnitError) as error:
        raise Refusal(str(error)) from None


def add_car_arguments(parser: argparse.ArgumentParser) -> None:
    """SHEET and the options that say which car is looked at, and in which units."""
    parser.add_argument("sheet", metavar="SHEET", help="a car sheet, or the name of a training car")
    for end in ("front", "rear"):
        parser.add_argument(f"--{end}-hole", metavar="N", help=f"try another {end} hole or blade angle, "
                                                               "counted from 1, softest first")
    parser.add_argument("--units", choices=tuple(UNITS),
                        help="when left out, us for a sheet wholly in US units, else metric")


def car_from(args):
    """The car that the arguments name, at the holes they ask for."""
    from rollmodel.sheets import read
    car = read(_sheet_path(args.sheet))
    return car.with_holes(*(_hole(car, end, getattr(args, f"{end}_hole")) for end in ("front", "rear")))


def remarks_from(args):
    """In which family to print, and the notes on how the sheet was read; after `car_from`."""
    from dataclasses import replace

    from rollmodel.sheets import read_remarks
    found = read_remarks(_sheet_path(args.sheet))
    return found if args.units is None else replace(found, family=UNITS[args.units])


def _sheet_path(sheet: str):
    """A training car by its name, unless a file has that very name."""
    from rollmodel.sheets import training_cars
    cars = training_cars()
    name = os.path.basename(sheet).removesuffix(".toml")
    if name in cars and sheet.endswith(".toml") and not os.path.exists(sheet):
        raise Refusal(f'there is no file {quoted(sheet)} here; the training car is called "{name}", '
                      "without .toml")
    if sheet in cars and not os.path.isfile(sheet):
        return cars[sheet]
    if os.path.basename(sheet) != sheet or sheet.endswith(".toml") or os.path.exists(sheet):
        return sheet
    near = nearest_word(sheet, cars, 0.7)
    raise Refusal(f"no file and no training car has the name {quoted(sheet)}; "
                  + (f'"{near}" was meant?' if near else f"the training cars are {', '.join(cars)}"))


def _hole(car, end: str, text: str | None) -> int | None:
    """A hole as typed, or the reason why there is none of that number."""
    if text is None:
        return None
    count = car.axle(end).positions
    if count == 0:
        raise Refusal(f"--{end}-hole: this car has no {end} bar; leave the option out")
    if not re.fullmatch(r"\d{1,6}", text, re.ASCII) or not 1 <= int(text) <= count:
        raise Refusal(f"--{end}-hole: wanted a whole number from 1 (softest) to {count} (stiffest), "
                      f"given {quoted(text)}")
    return int(text)
