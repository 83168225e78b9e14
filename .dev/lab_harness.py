"""A JupyterLab of its own and a headless browser to drive it; for the browser tests and for `shoot.py`.

The server listens on the loopback only, keeps its settings in a temporary folder and shows a copy of the
lessons, so nothing of the developer's own is read or changed.
"""

import contextlib
import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Page, Playwright

from rollmodel.cli.open_lessons import lab_arguments, lab_environment

ROOT = Path(__file__).resolve().parent.parent
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE 127.0.0.1",
)
LOOPBACK = ("127.0.0.1", "localhost", "::1", "")


def browser_path() -> str | None:
    """The browser to drive: ROLLMODEL_CHROMIUM, or the first that this machine has; None without one."""
    named = os.environ.get("ROLLMODEL_CHROMIUM")
    return named or next(filter(None, map(shutil.which, BROWSERS)), None)


def launch(playwright: Playwright) -> Browser:
    """A headless browser in a new, empty profile that asks nothing of the outside."""
    return playwright.chromium.launch(executable_path=browser_path(), headless=True, args=list(FLAGS))


@dataclass(frozen=True)
class Server:
    """A running JupyterLab: the folder it shows and how to reach it."""

    folder: Path
    address: str
    token: str

    def page(self, notebook: str) -> str:
        """The address that opens one notebook."""
        return f"{self.address}/lab/tree/{notebook}?token={self.token}&reset"

    def end_kernels(self) -> None:
        """End every session, so that the next notebook starts from nothing."""
        for session in json.loads(self.ask("GET", "/api/sessions")):
            self.ask("DELETE", f"/api/sessions/{session['id']}")

    def ask(self, method: str, path: str) -> bytes:
        """One request to the server, and its answer."""
        request = urllib.request.Request(self.address + path, method=method)
        request.add_header("Authorization", f"token {self.token}")
        with urllib.request.urlopen(request, timeout=20) as answer:
            return answer.read()


@contextlib.contextmanager
def lab_server(folder: Path, home: Path):
    """Run JupyterLab on a folder, with its settings below `home`; stopped at the end of the block."""
    port, token, log = free_port(), secrets.token_hex(16), home / "jupyterlab.log"
    command = [
        sys.executable,
        "-m",
        "jupyterlab",
        f"--IdentityProvider.token={token}",
        "--LabApp.expose_app_in_browser=True",
        *lab_arguments(folder, "", port, browser=False),
    ]
    with log.open("wb") as out:
        process = subprocess.Popen(
            command,
            stdout=out,
            stderr=subprocess.STDOUT,
            stdin=subprocess.DEVNULL,
            env=environment(home),
            cwd=folder,
        )
    try:
        server = Server(folder, f"http://127.0.0.1:{port}", token)
        wait_until_it_answers(server, process, log)
        yield server
    finally:
        stop(process)


def environment(home: Path) -> dict[str, str]:
    """The present environment with every folder that Jupyter writes in moved below `home`."""
    folders = {
        "JUPYTER_CONFIG_DIR": "config",
        "JUPYTER_DATA_DIR": "data",
        "JUPYTER_RUNTIME_DIR": "runtime",
        "JUPYTERLAB_SETTINGS_DIR": "settings",
        "JUPYTERLAB_WORKSPACES_DIR": "workspaces",
        "IPYTHONDIR": "ipython",
    }
    return os.environ | lab_environment() | {name: str(home / folder) for name, folder in folders.items()}


def free_port() -> int:
    """A port of the loopback that nothing listens on just now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def wait_until_it_answers(server: Server, process: subprocess.Popen, log: Path, seconds: float = 90) -> None:
    """Return once the server serves; raise with its own words when it ends or stays silent."""
    end = time.monotonic() + seconds
    while time.monotonic() < end and process.poll() is None:
        with contextlib.suppress(urllib.error.URLError, ConnectionError, TimeoutError):
            server.ask("GET", "/api")
            return
        time.sleep(0.2)
    raise RuntimeError(f"JupyterLab did not start:\n{log.read_text(errors='replace')}")


def stop(process: subprocess.Popen) -> None:
    """End the server, which ends its kernels first; by force when it takes too long."""
    process.terminate()
    try:
        process.wait(20)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


def watch(page: Page, complaints: list[str]) -> None:
    """Write down every error on the page's console and every request to another machine."""
    page.on("console", lambda message: note_console(message, complaints))
    page.on("pageerror", lambda error: complaints.append(f"page error: {error}"))
    page.on("request", lambda request: note_request(request.url, complaints))
    page.on("websocket", lambda socket: note_request(socket.url, complaints))


def note_console(message, complaints: list[str]) -> None:
    """Keep console messages of the kind "error"."""
    if message.type == "error":
        complaints.append(f"console error: {message.text} ({message.location.get('url', '')})")


def note_request(url: str, complaints: list[str]) -> None:
    """Keep addresses that are not on this machine."""
    parts = urlsplit(url)
    if parts.scheme in ("http", "https", "ws", "wss") and (parts.hostname or "") not in LOOPBACK:
        complaints.append(f"request to the outside: {url}")
