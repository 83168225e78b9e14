"""`rollmodel doctor`: each thing is broken for real, and the sentence and the mend are read."""

import ast
import json
import os
import shutil
import signal
import socket
import subprocess
import sys
from contextlib import contextmanager
from pathlib import Path
from tempfile import gettempdir

import pytest

from rollmodel.cli import main
from rollmodel.doctor import GOOD, WRONG, files, libraries, loopback, python
from rollmodel.doctor.examination import NEEDS_LIBRARIES
from rollmodel.doctor.page import judged
from tests.unit.doctor_installations import ROOT, install

POSIX = pytest.mark.skipif(os.name == "nt", reason="permissions, signals and name spaces of POSIX")
SUBJECTS = (
    "Python",
    "Libraries",
    "Lessons",
    "Writing answers and car sheets in lessons",
    "Room on the disk",
    "Writing Jupyter's own files",
    "Connections inside this machine",
    *NEEDS_LIBRARIES,
)
SAY = "print(f.state, f.said, f.mend)"
LIBRARIES = f"from rollmodel.doctor import libraries; (f,) = libraries.look(); {SAY}"
PAGE = f"from rollmodel.doctor.page import widgets_reach_the_page as see; f = see('.'); {SAY}"
KERNEL = f"from rollmodel.doctor.notebooks import kernel as see; f = see('.'); {SAY}"
PICTURES = f"from rollmodel.doctor.notebooks import pictures as see; f = see(); {SAY}"


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    """An installation in which nothing is wrong."""
    return install(tmp_path_factory.mktemp("sound") / "env")


@pytest.fixture
def env(tmp_path):
    """An installation to break."""
    return install(tmp_path / "env")


def test_a_sound_installation_is_good(sound):
    answer = sound.doctor()
    assert answer.stdout.endswith("This installation is good. To begin: rollmodel open\n"), answer.stdout
    assert (answer.returncode, answer.stderr) == (0, "")
    assert [subject for subject in SUBJECTS if f"{subject}: " not in answer.stdout] == []
    assert "WRONG" not in answer.stdout


def test_with_no_library_at_all_it_still_speaks(tmp_path):
    bare = install(tmp_path / "env", bare=True)
    answer = bare.doctor()
    assert (answer.returncode, answer.stderr) == (1, "")
    said = " ".join(answer.stdout.split())
    assert "Libraries: WRONG, jupyterlab is missing (4.2 or newer is wanted); ipywidgets is missing" in said
    mend = next(line for line in answer.stdout.splitlines() if line.startswith("    Mend: "))
    assert all(f'"{line}"' in mend for line in libraries.stated())
    assert "1 thing is wrong." in answer.stdout
    for subject in NEEDS_LIBRARIES:
        assert f"{subject}: not looked at: mend what is wrong above first." in answer.stdout


@pytest.mark.parametrize("name", ["numpy", "ipywidgets", "pint"])
def test_one_missing_library_is_named(tmp_path, name):
    answer = install(tmp_path / "env", without=(name,)).doctor()
    assert (answer.returncode, answer.stderr) == (1, "")
    assert f"Libraries: WRONG, {name} is missing (" in answer.stdout
    assert f'-m pip install "{name}>=' in answer.stdout


@pytest.mark.parametrize("name", ["numpy", "pint"])
def test_another_command_points_to_the_doctor_when_a_library_is_missing(tmp_path, name):
    answer = install(tmp_path / "env", without=(name,)).run("-m", "rollmodel", "car", "coupe")
    assert answer.returncode == 1
    assert answer.stderr == (
        f"rollmodel: a library is missing or broken (No module named '{name}'). "
        "What to do about it: rollmodel doctor\n"
    )


def test_an_old_library_is_named_with_its_version(tmp_path):
    env = install(tmp_path / "env", without=("tomlkit",))
    _put_library(env, "tomlkit", "0.9.1", "")
    said = env.doctor().stdout
    assert "Libraries: WRONG, tomlkit is here as 0.9.1 (0.13 or newer is wanted)." in said
    assert '-m pip install "tomlkit>=0.13"' in said


@POSIX
@pytest.mark.parametrize("content, words", [
    ("raise RuntimeError('of another machine')", "cannot be loaded (RuntimeError: of another machine)"),
    ("import os; os.abort()", f"stops the program that loads it (signal {int(signal.SIGABRT)})"),
])  # fmt: skip
def test_a_broken_library_is_named(tmp_path, content, words):
    env = install(tmp_path / "env", without=("tomlkit",))
    _put_library(env, "tomlkit", "0.13.2", content)
    said = env.ask(LIBRARIES)
    assert said.startswith(f"wrong tomlkit {words}")
    assert said.endswith('-m pip install --force-reinstall --no-cache-dir "tomlkit>=0.13"')


def _put_library(env, name, version, content):
    folder = env.libraries / name
    folder.mkdir()
    (folder / "__init__.py").write_text(content)
    about = env.libraries / f"{name}-{version}.dist-info"
    about.mkdir()
    (about / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n")


@pytest.mark.parametrize("version, bounds, held", [
    ("2.1", ">=2.1", True), ("2.1.0", ">=2.1", True), ("2.0.9", ">=2.1", False), ("10.0", ">=9.5", True),
    ("3", ">=3.0.0", True), ("3.0.1", "<=3", False), ("2.5", "!=2.5", False), ("2.5.0", "==2.5", True),
    ("2.9", ">2.9", False), ("1.2.3rc1", ">=1.2.3", True), ("nonsense", ">=0.1", False), ("7", "", True),
])  # fmt: skip
def test_versions_are_compared_as_numbers(version, bounds, held):
    assert libraries.within(version, bounds) is held


def test_every_range_that_the_project_states_is_understood():
    for line in libraries.stated():
        wanted = libraries.requirement(line)
        assert wanted.bounds and f"{wanted.name}{wanted.bounds}" == line
        assert not libraries.within("0", wanted.bounds)
        assert "any version" not in libraries.in_words(wanted.bounds)


def test_too_old_a_python_is_told(monkeypatch, capsys):
    monkeypatch.setattr(python.sys, "version_info", (3, 10, 4, "final", 0))
    assert main(["doctor"]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "Python: WRONG, this is Python 3.10.4" in said and "3.11 or newer is wanted" in said
    assert "Everything else: not looked at" in said


OLDER = [
    found
    for minor in (7, 8, 9, 10)
    for found in [
        *Path.home().glob(f".pyenv/versions/3.{minor}.*/bin/python"),
        shutil.which(f"python3.{minor}"),
    ]
    if found
]


def test_what_an_older_python_loads_is_in_its_grammar():
    """Everything of ours that is loaded until the doctor has looked at Python, in the grammar of 3.7."""
    ask = (
        "import sys; sys.version_info = (3, 7, 16, 'final', 0)\n"
        "from rollmodel.cli import main; main(['doctor'])\n"
        "print(*(one.__file__ for name, one in sys.modules.items() if name.startswith('rollmodel')), sep='|')"
    )
    run = subprocess.run([sys.executable, "-c", ask], cwd=ROOT, capture_output=True, text=True, check=True)
    paths = run.stdout.splitlines()[-1].split("|")
    assert "Python 3.7.16" in run.stdout and len(paths) > 5
    for path in paths:
        ast.parse(Path(path).read_text(encoding="utf-8"), path, feature_version=(3, 7))


@pytest.mark.skipif(not OLDER, reason="no Python older than 3.11 is on this machine")
def test_a_really_older_python_is_told():
    answer = subprocess.run([OLDER[0], "-m", "rollmodel", "doctor"], cwd=ROOT, capture_output=True, text=True)
    assert (answer.returncode, answer.stderr) == (1, "")
    assert "Python: WRONG, this is Python 3." in answer.stdout
    assert "    Mend: Install Python 3.11" in answer.stdout


def test_controls_that_the_page_does_not_bring(env):
    shutil.rmtree(env.jupyter / "labextensions" / "anywidget")
    said = env.ask(PAGE)
    assert said.startswith("wrong it has no anywidget, so sliders and buttons would stay away.")
    assert said.endswith("--force-reinstall anywidget")


def test_controls_that_are_switched_off(env):
    name = "@jupyter-widgets/jupyterlab-manager"
    place = env.home / "etc" / "jupyter" / "labconfig" / "page_config.json"
    place.parent.mkdir(parents=True)
    place.write_text(json.dumps({"disabledExtensions": {name: True}}))
    said = env.ask(PAGE)
    assert said.startswith(f"wrong {name} is switched off")
    assert said.endswith(f"-m jupyterlab.labextensions enable {name}")
    assert env.run("-m", "jupyterlab.labextensions", "enable", name).returncode == 0
    assert env.ask(PAGE).startswith("good ")


def test_controls_whose_file_is_gone():
    config = {"federated_extensions": [
        {"name": name, "load": "static/remoteEntry.js"}
        for name in ("@jupyter-widgets/jupyterlab-manager", "anywidget")
    ]}  # fmt: skip

    def ask(path):
        if "anywidget" in path:
            raise OSError("HTTP Error 404: Not Found")
        said = json.dumps(config)
        return f'<script id="jupyter-config-data" type="application/json">{said}</script>'.encode()

    found = judged(ask)
    assert found.state == WRONG
    assert found.said == "anywidget is named, but its file is not served (HTTP Error 404: Not Found)."


def test_a_page_that_is_not_served(env):
    shutil.rmtree(env.jupyter / "lab")
    said = env.ask(PAGE)
    assert said.startswith("wrong JupyterLab does not serve its page (")


def test_a_kernel_of_another_python(env):
    kernel = env.jupyter / "kernels" / "python3" / "kernel.json"
    spec = json.loads(kernel.read_text())
    spec["argv"] = [sys.executable, "-m", "ipykernel_launcher", "-f", "{connection_file}"]
    kernel.write_text(json.dumps(spec))
    said = env.ask(KERNEL)
    assert said.startswith(f"wrong notebooks start another Python than this one: {sys.prefix}")
    assert said.endswith("jupyter_client.kernelspecapp remove python3")
    assert env.run("-m", "jupyter_client.kernelspecapp", "remove", "-f", "python3").returncode == 0
    assert env.ask(KERNEL).startswith("good ")


def test_a_kernel_that_does_not_start(tmp_path):
    env = install(tmp_path / "env", without=("ipykernel",))
    said = env.ask(KERNEL)
    assert said.startswith("wrong it does not start (") and "--force-reinstall ipykernel" in said


def test_a_file_of_the_learners_that_hides_a_library(sound, tmp_path):
    mine = _copy_of_the_lessons(tmp_path)
    (mine / "lessons" / "numpy.py").write_text("rolls = [1, 2, 3]\n")
    found = {one.subject: one for one in files.in_the_way(mine)}
    assert "has the name of a library" in found["File numpy.py"].said
    said = sound.ask(KERNEL.replace("'.'", repr(str(mine / "lessons"))))
    assert said.startswith("wrong it starts, but cannot make a lesson's panel (")


def test_type_that_matplotlib_does_not_find(sound, tmp_path):
    (tmp_path / "matplotlibrc").write_text("font.family: A Type That Nobody Has\n")
    said = sound.ask(PICTURES, MPLCONFIGDIR=tmp_path)
    assert said.startswith("wrong their type is not right (findfont: Font family")
    assert f"take away the settings file {tmp_path / 'matplotlibrc'}" in said


@POSIX
def test_a_home_in_which_nothing_can_be_written(sound):
    ask = f"from rollmodel.doctor import files; (f,) = files.jupyters_own(); {SAY}"
    said = sound.ask(ask, HOME="/proc/nobody")
    assert said.startswith("wrong nothing can be written in /proc, where Jupyter wants /proc/nobody/")
    assert "Set the variable HOME" in said


@POSIX
def test_a_folder_where_nothing_can_be_written(tmp_path):
    folder = tmp_path / "mine"
    folder.mkdir()
    with _nobody_special(folder):
        found = files.writing("Writing", folder / "lessons")
    assert found.state == WRONG
    assert found.said == f"nothing can be written in {folder} (Permission denied)."
    assert "rollmodel open --folder FOLDER" in found.mend
    assert files.writing("Writing", folder / "lessons").state == GOOD
    assert list(folder.iterdir()) == []


@contextmanager
def _nobody_special(folder):
    """A folder that is closed to writing, and no power to write all the same."""
    folder.chmod(0o555)
    root = os.geteuid() == 0
    if root:
        for above in folder.parents:  # down from the temporary folder somebody else must find the way in
            if above.is_relative_to(Path(gettempdir())) and above != Path(gettempdir()):
                above.chmod(0o755)
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)
        folder.chmod(0o755)


@POSIX
def test_a_disk_that_takes_nothing_more(sound, tmp_path):
    ask = (
        "import resource, signal; signal.signal(signal.SIGXFSZ, signal.SIG_IGN); "
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000)); from pathlib import Path; "
        "from rollmodel.doctor import files; "
        "f = files.writing('Writing', Path.cwd()); print(f.state, f.said)"
    )
    assert sound.ask(ask) == f"wrong nothing can be written in {sound.home} (File too large)."


def test_a_disk_with_little_room(monkeypatch, tmp_path):
    assert files.room(tmp_path / "not made yet").state == GOOD
    monkeypatch.setattr(files, "LEAST_FREE", 10**18)  # more than this disk has
    found = files.room(tmp_path / "not made yet")
    assert found.state == WRONG and f"MB free at {tmp_path}; 1000000000000 MB are wanted" in found.said


def test_a_file_in_place_of_the_folder(tmp_path):
    (tmp_path / "mine").write_text("a file")
    found = files.writing("Writing", tmp_path / "mine" / "lessons")
    assert found.state == WRONG and "Not a directory" in found.said


def _copy_of_the_lessons(tmp_path):
    for part in files.PARTS:
        left_out = shutil.ignore_patterns(".ipynb_checkpoints")
        shutil.copytree(ROOT / part, tmp_path / "mine" / part, ignore=left_out)
    return tmp_path / "mine"


def test_lessons_that_are_not_whole(tmp_path):
    mine = _copy_of_the_lessons(tmp_path)
    assert files.lessons(mine).state == GOOD
    exercises = mine / "exercises" / "lesson-04.ipynb"
    exercises.unlink()
    assert files.lessons(mine).said == f"in {mine / 'exercises'} the exercises of lesson 4 are missing."
    exercises.write_text("{}")
    (lesson,) = (mine / "lessons").glob("03-*.ipynb")
    lesson.write_text(lesson.read_text()[:500])
    found = files.lessons(mine)
    assert found.state == WRONG and "cannot be read" in found.said
    assert found.mend.endswith(f"rollmodel open --folder {mine}")
    lesson.unlink()
    assert files.lessons(mine).said == f"in {mine / 'lessons'} number 3 is missing."


def test_no_lessons_at_all(tmp_path, monkeypatch):
    for name in ("CHECKOUT", "SHIPPED"):
        monkeypatch.setattr(files, name, tmp_path / name)
    found = files.lessons(files.working_folder(tmp_path / "mine"))
    assert found.state == WRONG and found.said.startswith("none found, neither in ")


def test_ports_that_are_all_taken(monkeypatch):
    with socket.socket() as one, socket.socket() as two:
        for taken in (one, two):
            taken.bind(("127.0.0.1", 0))
        ports = [one.getsockname()[1], two.getsockname()[1]]
        assert loopback.free_ports(ports) == []
        monkeypatch.setattr(loopback, "PORTS", ports)
        (found,) = loopback.look()
    assert found.state == WRONG and f"every port from {ports[0]} to {ports[1]} is taken" in found.said
    assert loopback.free_ports(ports) == ports


def test_a_name_that_does_not_lead_here(monkeypatch):
    monkeypatch.setattr(loopback, "NAME", "no-such-name.invalid")
    (found,) = loopback.look()
    assert found.state == WRONG and "does not lead to this machine" in found.said


def test_a_machine_that_does_not_answer_itself(monkeypatch):
    def refused(*arguments):
        raise ConnectionRefusedError(111, "Connection refused")

    monkeypatch.setattr(loopback.socket, "create_connection", refused)
    (found,) = loopback.look()
    assert found.state == WRONG
    assert found.said == "this machine does not answer itself at 127.0.0.1 (Connection refused)."


CUT_OFF = [shutil.which("unshare") or "", "--user", "--map-root-user", "--net"]
CAN_CUT_OFF = bool(CUT_OFF[0]) and subprocess.run([*CUT_OFF, "true"], capture_output=True).returncode == 0


@pytest.mark.skipif(not CAN_CUT_OFF, reason="this system lets nobody make a network of its own")
def test_a_loopback_that_is_really_down(sound):
    ask = "from rollmodel.doctor import loopback; (f,) = loopback.look(); print(f.state, f.said)"
    answer = subprocess.run([*CUT_OFF, sound.python, "-c", ask], capture_output=True, text=True, timeout=60)
    said = answer.stdout.strip()
    assert said == "wrong this machine does not answer itself at 127.0.0.1 (Network is unreachable)."
