"""``rollmodel open``: JupyterLab on the lessons, with nothing asked of the outside world.

In a checkout the lessons are opened where they lie. From an installed wheel they are first copied to a
folder of the learner's choosing, so that they can be written in; a file already there is never replaced.
"""

import argparse
import hashlib
import importlib.util
import os
import shutil
import socket
import sys
from pathlib import Path

from rollmodel.cli.common import Refusal, say

PACKAGE = Path(__file__).resolve().parent.parent
CHECKOUT, SHIPPED = PACKAGE.parent, PACKAGE / "shipped"
LEARNERS_PARTS = ("lessons", "exercises")
INSTRUCTORS_PART = "teaching-notes"  # answers and re-teach moves: never copied for a learner
OFFLINE = (
    "--LabApp.news_url=None",
    "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    "--LabApp.extension_manager=readonly",
)
PROMPT_PICTURES = "--ServerApp.kernel_websocket_connection_class=rollmodel.cli.lab_server.PromptPictures"
# JupyterLab asks each new user whether it may fetch news, whatever is said above; a default settles it. So
# does it for the order in which controls are dealt with: left alone, JupyterLab hands some to a second
# thread of the kernel, and a typed answer could come after the button that checks it.
QUIET_DEFAULTS = PACKAGE / "cli" / "jupyter"

# "Save and Export Notebook As" in JupyterLab: a page that fetches nothing. The other exporters inherit what
# is said of the one for HTML, so each is told to keep its own template.
EXPORTS = (
    "--HTMLExporter.template_name=self-contained",
    f"--HTMLExporter.extra_template_basedirs={PACKAGE / 'handouts' / 'export'}",
    "--HTMLExporter.filters=markdown2html=rollmodel.handouts.prose.with_formulas",
    "--SlidesExporter.template_name=reveal",
    "--WebPDFExporter.template_name=webpdf",
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add what ``rollmodel open`` understands."""
    parser.add_argument(
        "lesson",
        nargs="?",
        default="index",
        metavar="LESSON",
        help="number or name of a lesson, for example 10; the index when left out",
    )
    parser.add_argument(
        "--folder",
        type=folder_name,
        metavar="FOLDER",
        help="work on your own copy of the lessons in this folder (made when missing; "
        "files already there are kept)",
    )
    parser.add_argument(
        "--port",
        type=port_number,
        metavar="N",
        help="port on this machine; the first free one from 8888 up when left out",
    )
    parser.add_argument("--no-browser", action="store_true", help="print the address, open no browser")


def run(args: argparse.Namespace) -> int:
    """Open the lessons; returns 0 when JupyterLab is stopped."""
    check_jupyterlab_is_there()
    folder = working_folder(args.folder)
    page = find_lesson(folder, args.lesson)
    check_port_is_free(args.port)
    say(f"Opening {page} from {folder}.\nLeave this window open while you work. To stop, press Ctrl+C in it.")
    os.environ.update(lab_environment())
    from jupyterlab.labapp import LabApp

    from rollmodel.cli.lab_server import LessonServer, end_whatever_waits

    LabApp.serverapp_class = LessonServer
    arguments = lab_arguments(folder, page, args.port, browser=not args.no_browser)
    LabApp.launch_instance(argv=[*arguments, tabs_kept_for(folder)])
    end_whatever_waits()
    return 0


def refusal(reason: str) -> Refusal:
    """What stands in the way, in the words that the learner reads."""
    return Refusal(f"rollmodel open: {reason}")


def lab_arguments(folder: Path, page: str, port: int | None = None, browser: bool = True) -> list[str]:
    """What to tell JupyterLab: the folder, the first page, and to ask nothing of the outside.

    Errors and the address are printed; warnings, such as that a notebook was not signed here, are not:
    they are for who runs a server for others.
    """
    arguments = [
        f"--ServerApp.root_dir={folder}",
        f"--LabApp.default_url=/lab/tree/{page}",
        *(f"--{app}.log_level=ERROR" for app in ("ServerApp", "LabApp")),
        "--ServerApp.answer_yes=True",
        PROMPT_PICTURES,
        *OFFLINE,
        *EXPORTS,
        *encrypted_kernels(),
    ]
    if port is not None:
        arguments += [f"--ServerApp.port={port}", "--ServerApp.port_retries=0"]
    if not browser:
        arguments.append("--no-browser")
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        arguments.append("--allow-root")  # a container often has no other user; only this machine is served
    return arguments


def tabs_kept_for(folder: Path) -> str:
    """Where JupyterLab keeps which pages were open: apart for each folder, or another's would come back."""
    from jupyterlab.commands import get_workspaces_dir

    name = "rollmodel-" + hashlib.sha256(str(folder).encode()).hexdigest()[:12]
    return f"--LabApp.workspaces_dir={Path(get_workspaces_dir()) / name}"


def encrypted_kernels() -> list[str]:
    """Server and kernel talk encrypted where both can, which also spares the learner the kernel's warning."""
    import zmq
    from jupyter_client.manager import KernelManager

    able = hasattr(KernelManager, "transport_encryption") and zmq.has("curve")
    return ["--KernelManager.transport_encryption=auto"] if able else []


def lab_environment() -> dict[str, str]:
    """The environment variable that adds our defaults to those that JupyterLab finds."""
    others = os.environ.get("JUPYTER_CONFIG_PATH")
    return {"JUPYTER_CONFIG_PATH": os.pathsep.join(filter(None, (str(QUIET_DEFAULTS), others)))}


def folder_name(text: str) -> Path:
    """A folder's name; nothing at all, as from an empty variable of the shell, would mean this one."""
    if not text.strip():
        raise argparse.ArgumentTypeError("wanted the name of a folder, given nothing")
    return Path(text)


def port_number(text: str) -> int:
    """A port that a program may take, or a message that says which those are."""
    if not (text.isascii() and text.isdecimal()) or not 1024 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"wanted a whole number from 1024 to 65535, given {text!r}")
    return int(text)


def check_jupyterlab_is_there() -> None:
    """Refuse with the cure when JupyterLab is missing."""
    if importlib.util.find_spec("jupyterlab") is None:
        raise refusal(
            "JupyterLab is not installed in this Python. Put it there with: "
            f"{sys.executable} -m pip install jupyterlab"
        )


def check_port_is_free(port: int | None) -> None:
    """Refuse a port that something else listens on."""
    if port is None:
        return
    with socket.socket() as probe:
        probe.settimeout(1.0)
        if probe.connect_ex(("127.0.0.1", port)) == 0:
            raise refusal(
                f"port {port} is taken by another program. Give another one, for example "
                f"--port {port + 1 if port < 65535 else port - 1}, or leave --port out."
            )


def working_folder(wanted: Path | None) -> Path:
    """The folder that JupyterLab shows: the checkout itself, or a copy that the learner can write in."""
    source = source_folder()
    if wanted is None and source == CHECKOUT:
        return CHECKOUT
    target = (wanted or Path("rollmodel-lessons")).expanduser().resolve()
    if target.is_file():
        raise refusal(f"--folder: wanted a folder, but {target} is a file. Give another name.")
    try:
        copy_missing(source, target)
    except OSError as trouble:
        raise refusal(
            f"could not put the lessons into {target}: {trouble.strerror or trouble}. "
            "Choose a folder that you can write in, with --folder."
        ) from trouble
    return target


def source_folder() -> Path:
    """Where this installation keeps its lessons."""
    for place in (CHECKOUT, SHIPPED):
        if (place / "lessons" / "index.ipynb").is_file():
            return place
    raise refusal(
        f"found no lessons/index.ipynb, neither in {CHECKOUT} nor in {SHIPPED}. Install the package "
        "again, or start from a complete copy of the project."
    )


def copy_missing(source: Path, target: Path) -> None:
    """Copy the learner's parts; what is already in the target stays as it is."""
    for part in LEARNERS_PARTS:
        for original in sorted((source / part).rglob("*")):
            inside = original.relative_to(source)
            hidden = any(name.startswith(".") or name == INSTRUCTORS_PART for name in inside.parts)
            if original.is_file() and not hidden and not (target / inside).exists():
                copy_whole(original, target / inside)


def copy_whole(original: Path, copy: Path) -> None:
    """Copy one file so that a full disk never leaves half of it under its own name."""
    copy.parent.mkdir(parents=True, exist_ok=True)
    part_file = copy.with_name(copy.name + ".part")
    try:
        shutil.copyfile(original, part_file)
        part_file.replace(copy)
    finally:
        part_file.unlink(missing_ok=True)


def find_lesson(folder: Path, wanted: str) -> str:
    """The page for a lesson's number or name, as a path below the folder."""
    there = sorted(path.stem for path in (folder / "lessons").glob("*.ipynb"))
    name = wanted.strip().removesuffix(".ipynb").removeprefix("lessons/")
    number = name.zfill(2) if name.isdecimal() else None
    found = [stem for stem in there if stem == name or stem.split("-")[0] == number]
    if len(found) != 1:
        raise refusal(
            f"there is no lesson {wanted!r}. There are: {', '.join(there)}. "
            "Give a number, for example: rollmodel open 1"
        )
    return f"lessons/{found[0]}.ipynb"
