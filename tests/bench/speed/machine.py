"""What the figures were measured on."""

import os
import platform
import re
import subprocess
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]
LIBRARIES = ("numpy", "scipy", "pint", "matplotlib", "ipywidgets", "jupyterlab", "pytest")
BUSY = 0.25  # of each processor taken by others: from there on the figures are called those of a busy machine


@dataclass(frozen=True)
class Machine:
    """Date, commit, hardware and libraries, and how busy the machine was before anything was started."""

    date: str
    commit: str
    hardware: str
    libraries: str
    processors: int
    load: float

    @property
    def busy(self) -> bool:
        return self.load > BUSY * self.processors


def this_machine() -> Machine:
    """The machine and the checkout that this runs on."""
    return Machine(
        datetime.now(UTC).strftime("%d %B %Y, %H:%M UTC"),
        commit(),
        hardware(),
        ", ".join(f"{name} {version(name)}" for name in LIBRARIES),
        os.cpu_count(),
        os.getloadavg()[0],
    )


def commit() -> str:
    """The commit, and whether files differ from it."""
    said = [git("rev-parse", "--short", "HEAD"), git("status", "--porcelain", "--untracked-files=no")]
    return said[0].strip() + (" with changes that are not committed" if said[1].strip() else "")


def git(*words: str) -> str:
    return subprocess.run(["git", *words], cwd=ROOT, capture_output=True, text=True, check=True).stdout


def hardware() -> str:
    """Processor, memory, system and Python."""
    memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")
    return (
        f"{os.cpu_count()} processors ({processor()}), {memory / 1e9:.0f} GB, {platform.platform()}, "
        f"Python {platform.python_version()}"
    )


def processor() -> str:
    """The processor's name where the system tells it."""
    told = Path("/proc/cpuinfo")
    found = re.search(r"^model name\s*:\s*(.+)$", told.read_text() if told.exists() else "", re.MULTILINE)
    return found.group(1).strip() if found else platform.machine()
