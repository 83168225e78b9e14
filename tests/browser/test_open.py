"""`rollmodel open` itself: the server it starts, what that server asks of the outside, and how it stops.

It needs no browser; it stands here because it starts a JupyterLab.
"""

import asyncio
import json
import os
import re
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
import uuid
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from tornado.websocket import websocket_connect

from lab_harness import environment, free_port

COMMAND = Path(sys.executable).parent / "rollmodel"


@pytest.fixture
def opened(tmp_path):
    """The running command, its address, and what it has printed so far."""
    port, log = free_port(), tmp_path / "printed.txt"
    command = [COMMAND, "open", "--no-browser", "--port", str(port), "--folder", str(tmp_path / "mine")]
    with log.open("w") as out:
        process = subprocess.Popen(command, stdout=out, stderr=subprocess.STDOUT, env=environment(tmp_path))
    yield process, f"http://127.0.0.1:{port}", log
    process.kill()
    process.wait()


def token_printed(process, log):
    """The token in the address that the learner is shown."""
    end = time.monotonic() + 60
    while "?token=" not in log.read_text():
        assert process.poll() is None and time.monotonic() < end, log.read_text()
        time.sleep(0.2)
    return log.read_text().split("?token=")[1].split()[0]


def get(address, path, token):
    """What the server answers."""
    request = urllib.request.Request(address + path, headers={"Authorization": f"token {token}"})
    with urllib.request.urlopen(request, timeout=20) as answer:
        return answer.read().decode()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no Ctrl+C that a test can send to one program alone")
def test_opens_the_index_asks_nothing_of_the_outside_and_stops_on_ctrl_c(opened):
    process, address, log = opened
    token = token_printed(process, log)
    assert f"{address}/lab/tree/lessons/index.ipynb?token={token}" in log.read_text()
    assert "index.ipynb" in get(address, "/lab/tree/lessons/index.ipynb", token)
    assert json.loads(get(address, "/api/contents/lessons/index.ipynb", token))["writable"]
    assert json.loads(get(address, "/lab/api/news", token)) == {"news": []}
    assert json.loads(get(address, "/lab/api/update", token))["notification"] is None
    notices = json.loads(get(address, "/lab/api/settings/@jupyterlab/apputils-extension:notification", token))
    assert notices["schema"]["properties"]["fetchNews"]["default"] == "false"
    exported = get(address, "/nbconvert/html/lessons/04-how-far-it-rolls.ipynb", token)
    assert not re.search(r"<script|src=.(?!data:)|url\(.?(?!data:)https?:", exported)
    assert exported.count("<math") >= 7 and exported.count("data:image/png") >= 8
    process.send_signal(signal.SIGINT)
    assert process.wait(60) == 0
    assert "Traceback" not in log.read_text()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no Ctrl+C that a test can send to one program alone")
def test_one_ctrl_c_is_enough_while_a_page_is_being_exported(opened):
    process, address, log = opened
    token = token_printed(process, log)
    ways = [f"/nbconvert/html/lessons/{name}.ipynb" for name in ("04-how-far-it-rolls", "index")]
    with ThreadPoolExecutor() as pool:
        for way in ways:
            pool.submit(get, address, way, token)
        time.sleep(1.5)
        process.send_signal(signal.SIGINT)
        assert process.wait(60) == 0
    assert "Stopping." in log.read_text() and "Traceback" not in log.read_text()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no Ctrl+C that a test can send to one program alone")
def test_serves_this_machine_alone_and_only_with_the_token(opened):
    process, address, log = opened
    token_printed(process, log)
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(f"{address}/api/contents", timeout=20)
    assert refused.value.code == 403


async def answer_of_a_kernel(address, kernel, token, code):
    """What a line of code prints, asked for as the notebook page asks."""
    names = {"username": "", "session": "one", "date": "", "version": "5.3"}
    header = {"msg_id": uuid.uuid4().hex, "msg_type": "execute_request", **names}
    content = {"code": code, "silent": False, "store_history": False, "user_expressions": {}}
    message = {"header": header, "parent_header": {}, "metadata": {}, "content": content, "channel": "shell"}
    socket = await websocket_connect(
        f"{address.replace('http', 'ws')}/api/kernels/{kernel}/channels?token={token}"
    )
    await socket.write_message(json.dumps({**message, "buffers": []}))
    while True:
        answer = json.loads(await asyncio.wait_for(socket.read_message(), 60))
        if answer["msg_type"] == "stream":
            return answer["content"]["text"]


def test_a_kernel_at_work_prints_nothing_alarming_in_the_terminal(opened):
    process, address, log = opened
    token = token_printed(process, log)
    get(address, "/api/contents/lessons/index.ipynb", token)  # unsigned: a copy that was made just now
    asked = urllib.request.Request(f"{address}/api/kernels", method="POST", data=b'{"name": "python3"}')
    asked.add_header("Authorization", f"token {token}")
    with urllib.request.urlopen(asked, timeout=60) as answer:
        kernel = json.loads(answer.read())["id"]
    assert asyncio.run(answer_of_a_kernel(address, kernel, token, "print(6 * 7)")) == "42\n"
    printed = log.read_text()
    assert not any(word in printed for word in ("not trusted", "encryption", "websocket_ping", "[W "))
