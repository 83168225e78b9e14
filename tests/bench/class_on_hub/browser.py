"""What a learner's browser does without its screen: log in, start the server, talk to kernels."""

from __future__ import annotations

import asyncio
import json
import re
import struct
import time
import urllib.error
import urllib.request
import uuid
from collections.abc import Callable
from datetime import UTC, datetime
from http.cookiejar import CookieJar
from urllib.parse import quote, urlencode, urlsplit

from tornado.httpclient import HTTPRequest
from tornado.websocket import websocket_connect

LARGEST_MESSAGE = 64 * 2**20  # bytes


class Browser:
    """One learner's visit to the hub.

    Parameters
    ----------
    address : str
        Of the hub, ``"http://127.0.0.1:8000"``.
    name, password : str
    """

    def __init__(self, address: str, name: str, password: str):
        self.address, self.name, self.password = address, name, password
        self.cookies = CookieJar()
        everything = urllib.request.HTTPCookieProcessor(self.cookies), urllib.request.ProxyHandler({})
        self._opener = urllib.request.build_opener(*everything)

    async def ask(
        self, path: str, body=None, form: bool = False, method: str | None = None
    ) -> tuple[str, bytes]:
        """The address at which a request ended, after all redirects, and the answer."""
        return await asyncio.to_thread(self._ask, path, body, form, method)

    def _ask(self, path, body, form, method):
        data = None if body is None else (urlencode(body) if form else json.dumps(body)).encode()
        request = urllib.request.Request(self.address + path, data=data, method=method)
        request.add_header("X-XSRFToken", self._token(path))
        if data is not None:
            kind = "x-www-form-urlencoded" if form else "json"
            request.add_header("Content-Type", f"application/{kind}")
        with self._opener.open(request, timeout=120) as answer:
            return answer.geturl(), answer.read()

    def _token(self, path: str) -> str:
        """The cookie against forged requests that belongs to the path; the longest one counts."""
        found = [one for one in self.cookies if one.name == "_xsrf" and path.startswith(one.path)]
        return max(found, key=lambda one: len(one.path)).value if found else ""

    async def log_in(self) -> None:
        """Name and password on the hub's own page."""
        await self.ask("/hub/login")
        form = {"username": self.name, "password": self.password, "_xsrf": self._token("/hub/")}
        where, _ = await self.ask("/hub/login", form, form=True)
        if "/hub/login" in where:
            raise RuntimeError("the hub did not take the password")

    async def start_server(self, seconds: float = 240) -> None:
        """Wait, as the page does, until the learner's own server answers with JupyterLab."""
        end = time.monotonic() + seconds
        await self.ask("/hub/spawn")
        while time.monotonic() < end:
            try:
                where, page = await self.ask(f"{self.home}/lab")
                if urlsplit(where).path.startswith(f"{self.home}/lab") and b"jupyter-config-data" in page:
                    return
            except urllib.error.HTTPError as error:
                if error.code not in (424, 429, 502, 503):  # not there yet, or asked to wait
                    raise
            await asyncio.sleep(1)
        raise TimeoutError("the learner's server did not start")

    @property
    def home(self) -> str:
        return f"/user/{quote(self.name)}"

    async def notebook(self, path: str) -> dict:
        """A notebook as the page gets it."""
        _, answer = await self.ask(f"{self.home}/api/contents/{quote(path)}?type=notebook")
        return json.loads(answer)["content"]

    async def open(self, path: str) -> Kernel:
        """A kernel for a notebook, and the line to it."""
        wanted = {"path": path, "name": path, "type": "notebook", "kernel": {"name": "python3"}}
        _, answer = await self.ask(f"{self.home}/api/sessions", wanted)
        session = json.loads(answer)
        place = f"{self.home}/api/kernels/{session['kernel']['id']}/channels?session_id={session['id']}"
        address = re.sub("^http", "ws", self.address) + place
        cookies = "; ".join(f"{one.name}={one.value}" for one in self.cookies if place.startswith(one.path))
        request = HTTPRequest(address, headers={"Cookie": cookies}, connect_timeout=120, request_timeout=120)
        line = await websocket_connect(request, max_message_size=LARGEST_MESSAGE)
        return Kernel(line)


class Kernel:
    """The line to one kernel: what is said on it, and who waits for it."""

    def __init__(self, line):
        self._line, self.session = line, uuid.uuid4().hex
        self.listeners: list[Callable[[dict, list[bytes]], None]] = []
        self._reader = asyncio.ensure_future(self._read())

    async def _read(self):
        while (data := await self._line.read_message()) is not None:
            message, buffers = unpacked(data)
            for listener in list(self.listeners):
                listener(message, buffers)

    async def say(
        self, kind: str, content: dict, seconds: float = 180
    ) -> list[tuple[dict, list[bytes], float]]:
        """Send, and wait until the kernel is idle again; all that it said about it, with the time of each."""
        header = {"msg_id": uuid.uuid4().hex, "username": "", "session": self.session, "version": "5.3",
                  "date": datetime.now(UTC).isoformat(), "msg_type": kind}  # fmt: skip
        heard: list[tuple[dict, list[bytes], float]] = []
        done = asyncio.get_running_loop().create_future()

        def listen(message, buffers):
            if message.get("parent_header", {}).get("msg_id") == header["msg_id"]:
                heard.append((message, buffers, time.perf_counter()))
                idle = message["content"].get("execution_state") == "idle"
                if idle and not done.done():
                    done.set_result(None)

        self.listeners.append(listen)
        try:
            whole = {"header": header, "parent_header": {}, "metadata": {}, "content": content}
            whole |= {"channel": "shell", "buffers": []}
            await self._line.write_message(json.dumps(whole))
            await asyncio.wait_for(done, seconds)
        finally:
            self.listeners.remove(listen)
        return heard

    async def run(self, code: str) -> list[tuple[dict, list[bytes], float]]:
        """Run a cell; RuntimeError with the kernel's words when it fails."""
        heard = await self.say("execute_request", {"code": code, "silent": False, "store_history": True,
                                                   "user_expressions": {}, "allow_stdin": False,
                                                   "stop_on_error": True})  # fmt: skip
        for message, _, _ in heard:
            if message["msg_type"] == "error":
                raise RuntimeError(f"{message['content']['ename']}: {message['content']['evalue']}")
        return heard

    async def close(self) -> None:
        """Hang up; the kernel goes on, as when a page is closed."""
        self._line.close()
        await asyncio.wait([self._reader], timeout=5)


def unpacked(data) -> tuple[dict, list[bytes]]:
    """A message and its buffers, from text or from the binary form that carries buffers.

    That is a count and as many offsets, each of four bytes in network order, then the parts
    (Jupyter Server's documentation, "WebSocket kernel wire protocols", from memory).
    """
    if isinstance(data, str):
        return json.loads(data), []
    (count,) = struct.unpack("!I", data[:4])
    starts = struct.unpack(f"!{count}I", data[4 : 4 * (count + 1)])
    parts = [data[start:end] for start, end in zip(starts, (*starts[1:], len(data)), strict=True)]
    return json.loads(parts[0]), parts[1:]
