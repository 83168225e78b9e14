"""Whether the lessons' page, their kernel and their pictures work: each is really started."""

from __future__ import annotations

import json
import sys
import tempfile
from pathlib import Path

from rollmodel.doctor.finding import Finding, good, wrong
from rollmodel.doctor.libraries import python_command
from rollmodel.doctor.page import widgets_reach_the_page
from rollmodel.doctor.programs import Ended, one_line, run

HERE = Path(__file__).parent
SECONDS = 120  # a slow disk may take a quarter of that to start a kernel for the first time


def look(place: Path) -> list[Finding]:
    """Page, kernel, pictures."""
    with tempfile.TemporaryDirectory(prefix="rollmodel-doctor-") as spare:
        folder = place / "lessons" if (place / "lessons").is_dir() else Path(spare)
        return [widgets_reach_the_page(folder), kernel(folder), pictures()]


def kernel(folder: Path) -> Finding:
    """Start the kernel that notebooks start, in the lessons' folder, and let it make a panel."""
    subject = "Kernel"
    ended = run([sys.executable, str(HERE / "try_kernel.py"), str(folder)], seconds=SECONDS)
    told = _told(ended)
    if "python" not in told:
        return wrong(
            subject,
            f"it does not start ({_why(told, ended)}).",
            f'{python_command()} -m pip install --force-reinstall ipykernel "jupyter_client>=8.6"; '
            "where it names a file or folder, mend that first.",
        )
    if told["python"] != sys.prefix:
        return wrong(
            subject,
            f"notebooks start another Python than this one: {told['python']}, by the "
            f"kernel described in {told['described']}.",
            f"Take that description away: {python_command()} -m jupyter_client.kernelspecapp remove python3",
        )
    if "fault" in told:
        return wrong(
            subject,
            f"it starts, but cannot make a lesson's panel ({one_line(told['fault'])}).",
            f"Install the package again: {python_command()} -m pip install --force-reinstall "
            "--no-deps and the folder or file from which you installed it.",
        )
    if not told["widgets"] or not told["pictures"]:
        return wrong(
            subject,
            "it starts and answers, but what it sends of a panel has no picture.",
            f"{python_command()} -m pip install --force-reinstall ipywidgets anywidget",
        )
    return good(
        subject, f"it starts, answers, and sends a panel of {told['widgets']} widgets and its picture."
    )


def pictures() -> Finding:
    """Draw every sign that the lessons' pictures use, and listen for what matplotlib complains of."""
    subject = "Pictures"
    ended = run([sys.executable, str(HERE / "try_picture.py")], seconds=SECONDS)
    told = _told(ended)
    mend = f'{python_command()} -m pip install --force-reinstall --no-cache-dir "matplotlib>=3.10"'
    if "complaints" not in told:
        return wrong(subject, f"none can be drawn ({_why(told, ended)}).", mend)
    if told["complaints"]:
        return wrong(
            subject,
            f"their type is not right ({one_line(told['complaints'][0])}).",
            f"{mend}; if that does not help, take away the settings file {told['settings']}.",
        )
    return good(subject, f"they are drawn; their type is {told['font']}.")


def _told(ended: Ended) -> dict:
    """The last line of what a program printed, where that is a record."""
    try:
        told = json.loads(ended.out.splitlines()[-1])
    except (ValueError, IndexError):
        return {}
    return told if isinstance(told, dict) else {}


def _why(told: dict, ended: Ended) -> str:
    return one_line(told.get("fault") or ended.why or "it gave no answer")
