"""One kind of input, one way of making it, in a program with bounded memory and a watch on its time."""

from __future__ import annotations

import faulthandler
import mmap
import resource
import sys
import tempfile
import time
import traceback
from pathlib import Path

WAYS = ("hypothesis", "atheris")
LINE = "{:<9}{:<12}{:>9}{:>9}{:>12}{:>11}{:>9}{:>8}"
HEAD = LINE.format("kind", "way", "inputs", "taken", "slowest, s", "grown, MB", "time, s", "faults")
GROWTH = 400_000_000  # bytes that a hundred thousand inputs may add to what the first few needed
ADDRESS_SPACE = 6_000_000_000  # bytes; libraries reserve far more than they use
HANG = 60.0  # s of the clock; the program is then ended with a list of where it was
IN_MEMORY = Path("/dev/shm")  # a disk would be most of the time
WARM = 200  # inputs before memory is looked at: tables and caches fill


class Tally:
    """Feeds inputs one by one, keeps count, and keeps the first input of each sort of fault."""

    def __init__(self, target, folder: Path):
        from tests.fuzz.targets import timed

        self.timed, self.target, self.folder = timed, target, folder
        self.fed = self.taken = 0
        self.slowest, self.began, self.first_peak = 0.0, time.monotonic(), 0
        self.faults: dict[str, Path] = {}
        self.latest, self.watched = Latest(folder / "latest input"), 0.0

    def __call__(self, data: bytes) -> None:
        self.latest.put(data)
        self.wind_up()
        try:
            taken, took = self.timed(self.target, data, self.folder)
            self.taken, self.slowest = self.taken + taken, max(self.slowest, took)
        except Exception as error:
            self.keep(error, data)
        self.fed += 1
        if self.fed == WARM:
            self.first_peak = peak()
        if self.grown > GROWTH:
            self.keep(MemoryError(f"{self.grown / 1e6:.0f} MB more than after {WARM} inputs"), data)

    def wind_up(self) -> None:
        """Set the alarm for an input that hangs; not at each, for that would take longer than the input."""
        if time.monotonic() - self.watched > HANG / 10:
            self.watched = time.monotonic()
            faulthandler.dump_traceback_later(HANG, exit=True)

    def keep(self, error: Exception, data: bytes) -> None:
        """Write down a fault that was not met before, with its input."""
        frames = traceback.extract_tb(error.__traceback__)
        place = f"{Path(frames[-1].filename).name}:{frames[-1].lineno}" if frames else ""
        sort = f"{type(error).__name__} {place}"
        if sort in self.faults:
            return
        self.faults[sort] = self.folder / f"fault {len(self.faults) + 1}"
        self.faults[sort].write_bytes(data)
        print(f"\nFAULT, {self.faults[sort]}", *traceback.format_exception(error), flush=True)

    @property
    def grown(self) -> int:
        """Bytes of memory beyond the peak of the first inputs."""
        return peak() - self.first_peak if self.first_peak else 0

    def finish(self, kind: str, way: str) -> int:
        """Say how it went; the exit code."""
        time_taken = f"{time.monotonic() - self.began:.0f}"
        counts = (
            f"{self.fed:,}",
            f"{self.taken:,}",
            f"{self.slowest:.2f}",
            f"{self.grown / 1e6:.0f}",
            time_taken,
        )
        print(LINE.format(kind, way, *counts, len(self.faults)), flush=True)
        return int(bool(self.faults))


class Latest:
    """The input that is being tried, in memory that is still in its file when the program is ended."""

    SIZE = 2**20

    def __init__(self, path: Path):
        path.write_bytes(bytes(self.SIZE))
        with path.open("r+b") as file:
            self._memory = mmap.mmap(file.fileno(), self.SIZE)

    def put(self, data: bytes) -> None:
        """Length in the first eight bytes, then the input."""
        held = data[: self.SIZE - 8]
        self._memory[: 8 + len(held)] = len(held).to_bytes(8, "big") + held


def peak() -> int:
    """Most memory that this program had at once, [bytes]."""
    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit


def main(kind: str, way: str, count: int, seed: int) -> int:
    """Feed; print one line; 1 after a fault."""
    resource.setrlimit(resource.RLIMIT_AS, (ADDRESS_SPACE, ADDRESS_SPACE))
    keep = Path(
        tempfile.mkdtemp(prefix=f"rollmodel-fuzz-{kind}-", dir=IN_MEMORY if IN_MEMORY.is_dir() else None)
    )
    if way == "atheris":
        from tests.fuzz import by_coverage

        by_coverage.watch()  # before the package is loaded
    from tests.fuzz.targets import TARGETS

    tally = Tally(TARGETS[kind], keep)
    if way == "atheris":
        by_coverage.run(TARGETS[kind], count, seed, tally, keep, lambda: tally.finish(kind, way))
    else:
        from tests.fuzz import by_rules

        by_rules.run(TARGETS[kind], count, seed, tally)
    return tally.finish(kind, way)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])))
