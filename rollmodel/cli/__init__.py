"""The command line: ``rollmodel COMMAND ...``. Each command is one file, loaded only when asked for.

A command's file has ``add_arguments(parser)`` and ``run(args) -> int``. To add one, add its line to
``COMMANDS``.
"""

from __future__ import annotations  # so that a Python too old for the rest can still run the doctor

import importlib
import os
import sys

from rollmodel.cli.common import OutputLost, Parser, Refusal, nearest_word, say
from rollmodel.typed import printable, quoted

COMMANDS = {  # name: file, what it does
    "open": ("open_lessons", "open the lessons in JupyterLab, in your browser"),
    "doctor": ("doctor", "what is wrong with this installation, and how to mend it"),
    "car": ("car", "what a car does in a settled corner and at its limits"),
    "choose": ("choose", "which bar change to make for a complaint, and why"),
    "measure": ("measure", "workshop readings to numbers with uncertainties, and what to improve first"),
    "plan": ("plan", "a run sheet for one change, to print on one page"),
    "runs": ("runs", "what constant-radius runs say, before and after a change"),
    "pack": ("pack", "make what a class needs: exercises, handouts and slides; or an assessment"),
    "mark": ("mark", "mark a class from its answer files, with a report"),
    "learn": ("learn", "fit a sheet's least certain numbers to the runs"),
    "log": ("log", "what was planned, driven and found on a car"),
    "sample": ("sample", "simulated runs of a car, to practise on"),
}


def main(arguments: list[str] | None = None) -> int:
    """Run one command; returns the exit code: 0 done, 1 something broke, 2 refused with a message."""
    try:
        code = _run(list(sys.argv[1:] if arguments is None else arguments))
        if sys.stdout is not None:
            sys.stdout.flush()
        return code
    except Refusal as refusal:
        say("\n".join(map(printable, str(refusal).split("\n"))), sys.stderr)
        return 2
    except SystemExit as leaving:  # argparse leaves this way
        return leaving.code if isinstance(leaving.code, int) else 2
    except KeyboardInterrupt:
        return 130
    except (BrokenPipeError, OutputLost) as lost:
        return _give_up_output(lost)
    except ImportError as error:
        if os.environ.get("ROLLMODEL_TRACEBACK"):
            raise
        say(f"rollmodel: a library is missing or broken ({error}). What to do about it: rollmodel doctor",
            sys.stderr)
        return 1
    except Exception as error:  # the last door: nobody at a workshop bench is helped by a traceback
        if os.environ.get("ROLLMODEL_TRACEBACK"):
            raise
        say(f"rollmodel: something went wrong inside ({type(error).__name__}: {error}). Run it again with "
            "ROLLMODEL_TRACEBACK=1 set, and send the text to whoever keeps this package.", sys.stderr)
        return 1


def _give_up_output(lost) -> int:
    """The reader, a pager perhaps, closed first, or the disk is full: leave without a second failure."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if not getattr(lost, "broken_pipe", True):
        say(str(lost), sys.stderr)
    return 1


def _run(arguments: list[str]) -> int:
    if not arguments or arguments[0] in ("-h", "--help", "help"):
        say(_help())
        return 0
    name, rest = arguments[0], arguments[1:]
    if name == "--version":
        from rollmodel import __version__
        say(f"rollmodel {__version__}")
        return 0
    if name not in COMMANDS:
        raise Refusal(f"rollmodel: {_no_such_command(name)}")
    file, does = COMMANDS[name]
    command = importlib.import_module(f"rollmodel.cli.{file}")
    parser = Parser(prog=f"rollmodel {name}", description=f"{does[0].upper()}{does[1:]}.", allow_abbrev=False)
    command.add_arguments(parser)
    return command.run(parser.parse_args(rest))


def _help() -> str:
    lines = ["usage: rollmodel COMMAND ...", "",
             "Anti-roll bars: lessons, car sheets, and the choice of change.", "", "commands:",
             *(f"  {name:<10}{does}" for name, (_, does) in COMMANDS.items()), "",
             "rollmodel COMMAND --help tells more. Where the command is not found:",
             "  python -m rollmodel COMMAND ...      (Windows: py -m rollmodel COMMAND ...)"]
    return "\n".join(lines)


def _no_such_command(name: str) -> str:
    near = nearest_word(name, COMMANDS)
    hint = f'"{near}" was meant?' if near else f"there are {', '.join(COMMANDS)}"
    return f"there is no command {quoted(name)}; {hint}"
