"""A program of its own: start a notebook's kernel in a folder, let it make a panel, say what came back."""

from __future__ import annotations

import json
import sys
import time

from jupyter_client import KernelManager

SECONDS = 80.0
NAME = "python3"  # the kernel that the lessons ask for
CODE = """\
import sys
print("prefix", sys.prefix, flush=True)
from rollmodel.panels import Lesson
from rollmodel.panels.lessons.lesson_01 import AxlePanel
AxlePanel(Lesson("01"))
"""


def main(folder: str) -> None:
    """Print what came back as one line of JSON."""
    manager = KernelManager(kernel_name=NAME)
    told: dict = {}
    try:
        told["described"] = manager.kernel_spec.resource_dir
        manager.start_kernel(cwd=folder)
        told |= conversation(manager.blocking_client())
    except Exception as error:  # whatever stands in the way is what is asked for
        told["fault"] = f"{type(error).__name__}: {error}"
    finally:
        if manager.has_kernel:
            manager.shutdown_kernel(now=True)
    print(json.dumps(told))


def conversation(client) -> dict:
    """Run the code; which Python answered, how many widgets it opened, how many pictures came with them."""
    client.start_channels()
    try:
        client.wait_for_ready(timeout=SECONDS / 2)
        asked = client.execute(CODE)
        return heard(client, asked, time.monotonic() + SECONDS / 2)
    finally:
        client.stop_channels()


def heard(client, asked: str, end: float) -> dict:
    """What the kernel says until it is idle again."""
    told: dict = {"widgets": 0, "pictures": 0}
    while time.monotonic() < end:
        message = client.get_iopub_msg(timeout=max(0.1, end - time.monotonic()))
        if message["parent_header"].get("msg_id") != asked:
            continue
        kind, content = message["msg_type"], message["content"]
        if kind == "stream" and content["text"].startswith("prefix "):
            told["python"] = content["text"].splitlines()[0].removeprefix("prefix ")
        elif kind == "error":
            told["fault"] = f"{content['ename']}: {content['evalue']}"
        elif kind in ("comm_open", "comm_msg"):
            told["widgets"] += kind == "comm_open"
            told["pictures"] += any(bytes(part).startswith(b"\x89PNG") for part in message["buffers"])
        elif kind == "status" and content["execution_state"] == "idle":
            break
    return told


if __name__ == "__main__":
    main(sys.argv[1])
