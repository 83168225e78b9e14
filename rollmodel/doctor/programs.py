"""Running another program with a time limit, whatever it does."""

from __future__ import annotations

import os
import subprocess
from typing import NamedTuple

MOST_TEXT = 300  # characters of another program's words that are worth a person's time


class Ended(NamedTuple):
    """How a program ended and what it printed."""

    out: str
    why: str  # in words; empty when it ended well


def run(command: list[str], seconds: float, **options) -> Ended:
    """Run a program to its end, or to the end of its time."""
    try:
        done = subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=seconds,
            encoding="utf-8",
            errors="replace",
            env={**os.environ, "PYTHONIOENCODING": "utf-8", "PYTHONFAULTHANDLER": ""},
            **options,
        )
    except subprocess.TimeoutExpired as late:
        return Ended(_text(late.stdout), f"it had said nothing after {seconds:.0f} s")
    except OSError as error:
        return Ended("", f"it could not be started: {error.strerror or error}")
    return Ended(done.stdout, "" if done.returncode == 0 else _reason(done))


def _text(found) -> str:
    return found.decode("utf-8", "replace") if isinstance(found, bytes) else found or ""


def _reason(done) -> str:
    last = [line for line in done.stderr.splitlines() if line.strip()][-1:]
    how = f"signal {-done.returncode}" if done.returncode < 0 else f"exit code {done.returncode}"
    return "; ".join([how, *map(one_line, last)])


def one_line(text: str) -> str:
    """Another program's words on one line, short, without a full stop of their own."""
    whole = " ".join(text.split())
    return (whole if len(whole) <= MOST_TEXT else f"{whole[:MOST_TEXT]}...").rstrip(".")
