"""A class on one server: start the hub, let simulated learners work, say how it went.

    python -m tests.bench.class_on_hub                      20 learners, five minutes
    python -m tests.bench.class_on_hub --learners 2 --minutes 0.5

Wants what the extra "hub" installs, and the program configurable-http-proxy (see DEVELOPERS.md). Everything
runs on this machine, on the loopback. Returns 1 when anything failed: a learner who could not go on, a slider
step without its picture, an answer that is not in its file.
"""

from __future__ import annotations

import argparse
import asyncio
import contextlib
import os
import secrets
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from pathlib import Path

from tests.bench.class_on_hub import report
from tests.bench.class_on_hub.browser import Browser
from tests.bench.class_on_hub.learner import Learner
from tests.bench.class_on_hub.processes import use_of_learners, use_of_tree

ROOT = Path(__file__).resolve().parents[3]
CONFIG = ROOT / ".hub" / "jupyterhub_config.py"
COME_IN = 600.0  # s in which all must have arrived and opened their lesson


def main() -> int:
    """Run the class and print the report."""
    args = arguments()
    with tempfile.TemporaryDirectory(prefix="rollmodel-class-") as folder:
        names = [f"learner-{number:02d}" for number in range(1, args.learners + 1)]
        (Path(folder) / "learners.txt").write_text("\n".join(names))
        load = os.getloadavg()
        with hub(Path(folder), args.proxy) as running:
            found = asyncio.run(lesson(running, names, args))
        found.load, found.lost = load, report.lost_answers(found.learners, Path(folder) / "homes")
        print(report.text(found, args))
        if args.keep_log:
            Path(args.keep_log).write_bytes((Path(folder) / "hub.log").read_bytes())
    return int(report.failures(found) > 0)


def arguments() -> argparse.Namespace:
    """What the command line asks for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--learners", type=int, default=20, metavar="N")
    parser.add_argument(
        "--minutes", type=float, default=5.0, metavar="M", help="of work once all have come in"
    )
    parser.add_argument(
        "--arrive", type=float, default=60.0, metavar="S", help="seconds over which they arrive"
    )
    parser.add_argument(
        "--lessons", type=int, nargs="+", default=[1, 5, 7, 10], metavar="N", help="dealt in turn"
    )
    parser.add_argument(
        "--proxy", default="", metavar="PROGRAM", help="configurable-http-proxy, when not on the PATH"
    )
    parser.add_argument("--keep-log", metavar="FILE", help="where the hub's own log goes")
    return parser.parse_args()


@contextlib.contextmanager
def hub(folder: Path, proxy: str):
    """JupyterHub with the project's settings on a class's folder; stopped at the end."""
    password, address = secrets.token_urlsafe(12), f"http://127.0.0.1:{three_free_ports()}"
    environment = os.environ | {
        "ROLLMODEL_CLASS": str(folder),
        "ROLLMODEL_CLASS_PASSWORD": password,
        "ROLLMODEL_CLASS_ADDRESS": address,
        "ROLLMODEL_CLASS_PROXY": proxy,
        "PATH": os.pathsep.join((str(Path(sys.executable).parent), os.environ["PATH"])),
    }
    command = [sys.executable, "-m", "jupyterhub", "-f", str(CONFIG)]
    with (folder / "hub.log").open("wb") as log:
        process = subprocess.Popen(
            command,
            cwd=folder,
            env=environment,
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
        )
        try:
            wait_for(address, process, folder / "hub.log")
            yield report.Hub(process.pid, address, password)
        finally:
            process.terminate()
            try:
                process.wait(60)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()


def three_free_ports() -> int:
    """The first of three neighbouring ports that nothing listens on."""
    for port in range(9400, 9700, 3):
        with contextlib.ExitStack() as probes, contextlib.suppress(OSError):
            for one in range(port, port + 3):
                probes.enter_context(socket.socket()).bind(("127.0.0.1", one))
            return port
    raise RuntimeError("no three free ports from 9400 up")


def wait_for(address: str, process, log: Path, seconds: float = 120) -> None:
    """Return once the hub serves; raise with its own words when it ends or stays silent."""
    end = time.monotonic() + seconds
    while time.monotonic() < end and process.poll() is None:
        with contextlib.suppress(urllib.error.URLError, ConnectionError, TimeoutError):
            urllib.request.urlopen(f"{address}/hub/api", timeout=10).read()
            return
        time.sleep(0.5)
    raise RuntimeError(f"JupyterHub did not start:\n{log.read_text(errors='replace')[-3000:]}")


async def lesson(running: report.Hub, names: list[str], args) -> report.Found:
    """All come in, work for the time given, and are measured while they still sit there."""
    deal = [args.lessons[place % len(args.lessons)] for place in range(len(names))]
    browsers = [Browser(running.address, name, running.password) for name in names]
    learners = [Learner(*both, seed) for seed, both in enumerate(zip(browsers, deal, strict=True))]
    ready, stop = asyncio.Semaphore(0), asyncio.Event()
    began = time.monotonic()
    visits = [
        asyncio.ensure_future(one.visit(args.arrive * place / len(names), ready, stop))
        for place, one in enumerate(learners)
    ]
    await asyncio.wait_for(_all_in(ready, len(names)), COME_IN)
    in_after = time.monotonic() - began
    for one in learners:
        one.diary.pictures.clear()  # from here on the whole class is at work
    before = _measured(names, running), time.monotonic()
    await asyncio.sleep(60 * args.minutes)
    after = _measured(names, running), time.monotonic()
    stop.set()
    await asyncio.wait(visits, timeout=120)
    for visit in visits:
        visit.cancel()
    await asyncio.gather(*(one.leave() for one in learners), return_exceptions=True)
    return report.Found(learners, before, after, in_after)


async def _all_in(ready: asyncio.Semaphore, count: int) -> None:
    for _ in range(count):
        await ready.acquire()


def _measured(names, running):
    return use_of_learners(names), use_of_tree(running.process)


if __name__ == "__main__":
    sys.exit(main())
