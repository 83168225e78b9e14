"""Measure everything and write the page.

    python -m tests.bench.speed --into tests/bench/README.md          about half an hour, suite not included
    python -m tests.bench.speed --short                               a few minutes, rough, printed
    python -m tests.bench.speed imports setups                        some parts alone

Each part runs in a program of its own, one after the other, so that none slows another. A part that fails or
takes too long is named on the page with its reason, and the command returns 1.
"""

import argparse
import os
import signal
import subprocess
import sys
import tempfile
from importlib import import_module
from pathlib import Path

from tests.bench.speed import page
from tests.bench.speed.figure import Part, keep, kept
from tests.bench.speed.machine import ROOT, this_machine

MINUTES = {"opening": 25, "sliders": 25, "imports": 5, "setups": 10, "marking": 20, "sizes": 10, "suite": 90}


def main() -> int:
    """Measure what was asked for; 1 when a part is missing."""
    args = arguments()
    if args.measure:
        keep(measured(args), args.measure)
        return 0
    machine = this_machine()
    parts = [in_a_program(name, args) for name in MINUTES if name in chosen(args)]
    report = args.class_report.read_text(encoding="utf-8") if args.class_report else ""
    text = page.text(machine, parts, args.short, report)
    if args.into:
        args.into.write_text(text, encoding="utf-8")
    print(f"written: {args.into}" if args.into else text)
    return int(any(part.trouble for part in parts))


def arguments() -> argparse.Namespace:
    """What the command line asks for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("parts", nargs="*", metavar="PART", help=f"{', '.join(MINUTES)}; all when left out")
    parser.add_argument("--into", type=Path, metavar="FILE", help="where the page goes; else printed")
    parser.add_argument("--short", action="store_true", help="few repeats and lessons, to try the command")
    parser.add_argument("--suite", choices=("two", "both"), help="run every test so; both: in one too")
    parser.add_argument("--suite-two", type=Path, metavar="XML", help="--junitxml of a run in two processes")
    parser.add_argument("--suite-one", type=Path, metavar="XML", help="and of a run in one process")
    parser.add_argument(
        "--class-report", type=Path, metavar="FILE", help="what tests.bench.class_on_hub printed, to be shown"
    )
    parser.add_argument("--measure", type=Path, help=argparse.SUPPRESS)
    args = parser.parse_args()
    if unknown := [name for name in args.parts if name not in MINUTES]:
        parser.error(f"there is no part {', '.join(unknown)}; there are: {', '.join(MINUTES)}")
    return args


def chosen(args) -> list[str]:
    """Which parts; the suite takes long, so it must be asked for."""
    return args.parts or [name for name in MINUTES if name != "suite" or args.suite or args.suite_two]


def measured(args) -> Part:
    """The one part named, here and now."""
    module, load = import_module(f"tests.bench.speed.{args.parts[0]}"), os.getloadavg()[0]
    if args.parts[0] == "suite":
        found = module.figures(args.suite_two, args.suite_one, args.suite == "both")
    else:
        found = module.figures(args.short)
    return Part(module.TITLE, module.HOW, tuple(found), load)


def in_a_program(name: str, args) -> Part:
    """The part that a program of its own measured, or the reason why there is none."""
    print(f"{name}, at most {MINUTES[name]} minutes", file=sys.stderr, flush=True)
    module = import_module(f"tests.bench.speed.{name}")
    with tempfile.TemporaryDirectory(prefix="rollmodel-speed-") as place:
        told = Path(place) / "part.json"
        trouble = run([name, "--measure", str(told), *passed_on(args)], 60 * MINUTES[name])
        return Part(module.TITLE, module.HOW, trouble=trouble) if trouble else kept(told)


def passed_on(args) -> list[str]:
    """The options that a part must know."""
    options = {"--suite": args.suite, "--suite-two": args.suite_two, "--suite-one": args.suite_one}
    given = [word for name, value in options.items() if value for word in (name, str(value))]
    return ["--short", *given] if args.short else given


def run(words: list[str], seconds: float) -> str:
    """Run this command again for one part; empty, or why it failed. Nothing of it stays behind."""
    command = [sys.executable, "-m", "tests.bench.speed", *words]
    process = subprocess.Popen(
        command, cwd=ROOT, stderr=subprocess.PIPE, text=True, errors="replace", start_new_session=True
    )
    try:
        _, said = process.communicate(timeout=seconds)
    except subprocess.TimeoutExpired:
        end(process)
        return f"took longer than {seconds / 60:g} minutes"
    lines = said.strip().splitlines()
    return f"`{lines[-1] if lines else 'no reason given'}`" if process.returncode else ""


def end(process: subprocess.Popen) -> None:
    """Ask first, so that servers and browsers are closed in order; then by force."""
    process.send_signal(signal.SIGINT)
    try:
        process.communicate(timeout=40)
    except subprocess.TimeoutExpired:
        os.killpg(process.pid, signal.SIGKILL)
        process.communicate()


if __name__ == "__main__":
    sys.exit(main())
