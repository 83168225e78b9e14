"""`rollmodel open` itself: the server it starts, what that server asks of the outside, and how it stops.

It needs no browser; it stands here because it starts a JupyterLab.
"""

import json
import os
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest

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
    process.send_signal(signal.SIGINT)
    assert process.wait(30) == 0
    assert "Traceback" not in log.read_text()


@pytest.mark.skipif(os.name == "nt", reason="Windows has no Ctrl+C that a test can send to one program alone")
def test_serves_this_machine_alone_and_only_with_the_token(opened):
    process, address, log = opened
    token_printed(process, log)
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(f"{address}/api/contents", timeout=20)
    assert refused.value.code == 403
