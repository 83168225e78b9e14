"""Memory and processor time of each learner's programs, read from Linux's own tables."""

from __future__ import annotations

import os
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

TICKS = os.sysconf("SC_CLK_TCK") if hasattr(os, "sysconf") else 100
PROC = Path("/proc")


@dataclass
class Use:
    """What some programs use together."""

    programs: int = 0
    shared_out: int = 0  # bytes; what several programs share is parted among them (PSS)
    resident: int = 0  # bytes; what is shared counts in each (RSS)
    seconds: float = 0.0  # of processor time since they began

    def add(self, process: Path) -> None:
        rollup = (process / "smaps_rollup").read_text()
        found = dict(line.split(":", 1) for line in rollup.splitlines()[1:])
        self.programs += 1
        self.shared_out += int(found["Pss"].split()[0]) * 1024
        self.resident += int(found["Rss"].split()[0]) * 1024
        self.seconds += processor_time(process)


def processor_time(process: Path) -> float:
    """Of a program and of those of its children that have ended, [s]."""
    after_name = (process / "stat").read_text().rpartition(")")[2].split()
    return sum(map(int, after_name[11:15])) / TICKS


def use_of_learners(names) -> dict[str, Use]:
    """By learner: the server and the kernels, which carry the learner's name in their environment."""
    found = {name: Use() for name in names}
    for process in PROC.glob("[0-9]*"):
        with suppress(OSError, KeyError, ValueError):
            found[_learner(process)].add(process)
    return found


def _learner(process: Path) -> str:
    mark = b"JUPYTERHUB_USER="
    lines = (process / "environ").read_bytes().split(b"\0")
    return next((line[len(mark) :].decode() for line in lines if line.startswith(mark)), "")


def use_of_tree(root: int, but: str = "JUPYTERHUB_USER=") -> Use:
    """The hub with its proxy: the program and its children, without the learners' servers."""
    parents = {}
    for process in PROC.glob("[0-9]*"):
        with suppress(OSError, ValueError, IndexError):
            parents[int(process.name)] = int((process / "stat").read_text().rpartition(")")[2].split()[1])
    found = Use()
    for number in parents:
        with suppress(OSError, KeyError, ValueError):
            if _is_below(number, root, parents) and not _learner(PROC / str(number)):
                found.add(PROC / str(number))
    return found


def _is_below(number: int, root: int, parents: dict[int, int]) -> bool:
    while number in parents:
        if number == root:
            return True
        number = parents[number]
    return False
