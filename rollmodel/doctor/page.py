"""Whether the page of JupyterLab, as it is served here, brings what the controls are made of.

JupyterLab is started as ``rollmodel open`` starts it, on the loopback, and its page is read as a browser
reads it: which extensions it names, whether any is switched off, whether their files are really served.
"""

from __future__ import annotations

import json
import re
import secrets
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from contextlib import contextmanager, suppress
from pathlib import Path
from urllib.parse import quote

from rollmodel.doctor.finding import Finding, good, wrong
from rollmodel.doctor.libraries import python_command
from rollmodel.doctor.programs import one_line

SUBJECT = "Page in the browser"
SECONDS = 90.0
EXTENSIONS = {  # as the page names them: the library that brings each
    "@jupyter-widgets/jupyterlab-manager": "jupyterlab_widgets",
    "anywidget": "anywidget",
}
_CONFIG = re.compile(r'<script id="jupyter-config-data" type="application/json">(.*?)</script>', re.DOTALL)
_DIRECT = urllib.request.build_opener(urllib.request.ProxyHandler({}))  # this machine is asked, no proxy


class NoPage(Exception):
    """Why the page could not be had."""


def widgets_reach_the_page(folder: Path) -> Finding:
    """Serve the page and look at what it brings."""
    try:
        with served(folder) as ask:
            return judged(ask)
    except (NoPage, OSError, ValueError, KeyError) as error:
        return wrong(
            SUBJECT,
            f"JupyterLab does not serve its page ({one_line(str(error))}).",
            f'{python_command()} -m pip install --force-reinstall "jupyterlab>=4.2"; where it '
            "names a file or folder, mend that first.",
        )


def judged(ask) -> Finding:
    """What the page, which ``ask`` fetches, says of each extension."""
    config = page_config(ask("/lab").decode())
    there = {one["name"]: one["load"] for one in config.get("federated_extensions", [])}
    off = config.get("disabledExtensions", [])  # a list, or a record of switches
    disabled = [name for name in off if not isinstance(off, dict) or off[name]]
    for name, library in EXTENSIONS.items():
        if name not in there:
            return wrong(
                SUBJECT,
                f"it has no {name}, so sliders and buttons would stay away.",
                f"{python_command()} -m pip install --force-reinstall {library}",
            )
        if named := [one for one in disabled if one.split(":")[0] == name]:
            return wrong(
                SUBJECT,
                f"{named[0]} is switched off, so sliders and buttons would stay away.",
                f"{python_command()} -m jupyterlab.labextensions enable {named[0]}",
            )
        if fault := _not_served(ask, f"/lab/extensions/{quote(name)}/{there[name]}"):
            return wrong(
                SUBJECT,
                f"{name} is named, but its file is not served ({fault}).",
                f"{python_command()} -m pip install --force-reinstall {library}",
            )
    return good(SUBJECT, "it is served, with the extensions that the controls are made of.")


def page_config(page: str) -> dict:
    """What JupyterLab tells its own page."""
    found = _CONFIG.search(page)
    if not found:
        raise NoPage("what came is not JupyterLab's page")
    return json.loads(found[1])


def _not_served(ask, path: str) -> str:
    try:
        return "" if ask(path) else "it is empty"
    except OSError as error:
        return one_line(str(error))


@contextmanager
def served(folder: Path):
    """JupyterLab on a folder; gives a function that fetches a path from it."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    token = secrets.token_hex(16)
    with tempfile.TemporaryFile() as log:
        process = subprocess.Popen(
            command(folder, port, token),
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
            cwd=folder,
        )
        try:
            ask = _fetcher(port, token)
            _wait(ask, process, log)
            yield ask
        finally:
            process.terminate()
            with suppress(subprocess.TimeoutExpired):
                process.wait(10)
            process.kill()
            process.wait()


def command(folder: Path, port: int, token: str) -> list[str]:
    """How JupyterLab is started: on this machine alone, asking nothing of the outside."""
    return [
        sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root",
        f"--ServerApp.root_dir={folder}", "--ServerApp.ip=127.0.0.1", f"--ServerApp.port={port}",
        "--ServerApp.port_retries=0", "--ServerApp.base_url=/", f"--IdentityProvider.token={token}",
        "--LabApp.news_url=None", "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        "--LabApp.extension_manager=readonly", "--ServerApp.log_level=ERROR", "--LabApp.log_level=ERROR",
    ]  # fmt: skip


def _fetcher(port: int, token: str):
    def ask(path: str) -> bytes:
        request = urllib.request.Request(f"http://127.0.0.1:{port}{path}")
        request.add_header("Authorization", f"token {token}")
        with _DIRECT.open(request, timeout=20) as answer:
            return answer.read()

    return ask


def _wait(ask, process, log) -> None:
    end = time.monotonic() + SECONDS
    while time.monotonic() < end and process.poll() is None:
        with suppress(urllib.error.URLError, ConnectionError, TimeoutError):
            ask("/api")
            return
        time.sleep(0.2)
    log.seek(0)
    words = [line for line in log.read().decode(errors="replace").splitlines() if line.strip()]
    raise NoPage(words[-1] if words else f"it had not answered after {SECONDS:.0f} s")
