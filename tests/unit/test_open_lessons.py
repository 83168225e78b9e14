"""`rollmodel open`: what it finds, what it copies, and how it refuses."""

import socket
import subprocess
import sys
from pathlib import Path

import pytest

from lab_harness import free_port
from rollmodel.cli import main, open_lessons

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def checkout(tmp_path, monkeypatch):
    """A small checkout in place of this one."""
    place = tmp_path / "checkout"
    for name in ("lessons/index", "lessons/01-roll", "lessons/10-choosing", "exercises/01-roll"):
        path = place / f"{name}.ipynb"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"text of {name}")
    (place / "lessons" / "teaching-notes").mkdir()
    (place / "lessons" / "teaching-notes" / "01-roll.md").write_text("the answers")
    (place / "lessons" / ".ipynb_checkpoints").mkdir()
    (place / "lessons" / ".ipynb_checkpoints" / "old.ipynb").write_text("old")
    monkeypatch.setattr(open_lessons, "CHECKOUT", place)
    monkeypatch.setattr(open_lessons, "SHIPPED", tmp_path / "shipped")
    return place


@pytest.mark.parametrize("wanted", ["10", "10-choosing", "10-choosing.ipynb", "lessons/10-choosing.ipynb"])
def test_a_lesson_goes_by_number_or_name(checkout, wanted):
    assert open_lessons.find_lesson(checkout, wanted) == "lessons/10-choosing.ipynb"


def test_the_index_is_opened_when_nothing_is_named(checkout):
    assert open_lessons.find_lesson(checkout, "index") == "lessons/index.ipynb"


def test_one_digit_finds_a_lesson(checkout):
    assert open_lessons.find_lesson(checkout, "1") == "lessons/01-roll.ipynb"


@pytest.mark.parametrize("wanted", ["12", "choosing the hole", "", "../secrets"])
def test_an_unknown_lesson_is_met_with_those_there_are(checkout, capsys, wanted):
    assert main(["open", wanted]) == 2
    message = capsys.readouterr().err
    assert f"there is no lesson {wanted!r}" in message
    assert "01-roll, 10-choosing, index" in message


def test_a_checkout_is_opened_where_it_lies(checkout):
    assert open_lessons.working_folder(None) == checkout


def test_a_folder_of_ones_own_gets_lessons_and_exercises(checkout, tmp_path):
    mine = open_lessons.working_folder(tmp_path / "mine")
    copied = sorted(path.relative_to(mine).as_posix() for path in mine.rglob("*") if path.is_file())
    assert copied == [
        "exercises/01-roll.ipynb",
        "lessons/01-roll.ipynb",
        "lessons/10-choosing.ipynb",
        "lessons/index.ipynb",
    ]


def test_a_second_time_keeps_what_the_learner_wrote(checkout, tmp_path):
    mine = open_lessons.working_folder(tmp_path / "mine")
    (mine / "lessons" / "01-roll.ipynb").write_text("my own notes")
    (mine / "lessons" / "10-choosing.ipynb").unlink()
    open_lessons.working_folder(tmp_path / "mine")
    assert (mine / "lessons" / "01-roll.ipynb").read_text() == "my own notes"
    assert (mine / "lessons" / "10-choosing.ipynb").read_text() == "text of lessons/10-choosing"


def test_half_a_copy_is_never_left(checkout, tmp_path, monkeypatch, capsys):
    def disk_full(source, target):
        Path(target).write_text("hal")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(open_lessons.shutil, "copyfile", disk_full)
    assert main(["open", "--folder", str(tmp_path / "mine")]) == 2
    assert "No space left on device. Choose a folder that you can write in" in capsys.readouterr().err
    assert [path for path in (tmp_path / "mine").rglob("*") if path.is_file()] == []


def test_a_folder_that_is_a_file_is_refused(checkout, tmp_path, capsys):
    (tmp_path / "mine").write_text("a file")
    assert main(["open", "--folder", str(tmp_path / "mine")]) == 2
    assert "--folder: wanted a folder, but " in capsys.readouterr().err
    assert (tmp_path / "mine").read_text() == "a file"


def test_missing_lessons_are_refused(checkout, capsys):
    (checkout / "lessons" / "index.ipynb").unlink()
    assert main(["open"]) == 2
    assert "found no lessons/index.ipynb" in capsys.readouterr().err


def test_a_taken_port_is_refused_with_one_that_differs(checkout, capsys):
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        assert main(["open", "--port", str(port)]) == 2
    assert f"port {port} is taken by another program" in capsys.readouterr().err


def test_a_free_port_is_not_refused():
    open_lessons.check_port_is_free(free_port())


@pytest.mark.parametrize("port", ["80", "65536", "-1", "8888.0", "lots", "", "\uff19\uff14\uff11\uff18"])
def test_a_port_that_cannot_be_is_refused(port, capsys):
    assert main(["open", f"--port={port}"]) == 2
    assert f"wanted a whole number from 1024 to 65535, given {port!r}" in capsys.readouterr().err


def test_a_missing_jupyterlab_is_refused_with_the_cure(checkout, monkeypatch, capsys):
    monkeypatch.setattr(open_lessons.importlib.util, "find_spec", lambda name: None)
    assert main(["open"]) == 2
    assert f"{sys.executable} -m pip install jupyterlab" in capsys.readouterr().err


def test_from_a_wheel_the_lessons_are_copied_to_a_folder_that_can_be_written(tmp_path):
    wheel = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path / "dist")]
    subprocess.run(wheel, cwd=ROOT, check=True, capture_output=True, timeout=120)
    (built,) = (tmp_path / "dist").glob("*.whl")
    site = tmp_path / "site"
    subprocess.run([sys.executable, "-m", "zipfile", "-e", str(built), str(site)], check=True, timeout=60)
    assert not list(site.rglob("teaching-notes")), "the notes hold answers: they are for the instructor"
    ask = "from rollmodel.cli.open_lessons import working_folder; print(working_folder(None))"
    answer = subprocess.run(
        [sys.executable, "-c", ask],
        cwd=tmp_path,
        env={"PYTHONPATH": str(site)},
        check=True,
        capture_output=True,
        text=True,
        timeout=60,
    )
    mine = Path(answer.stdout.strip())
    assert mine == (tmp_path / "rollmodel-lessons").resolve()
    for part in open_lessons.LEARNERS_PARTS:
        names = {
            path.name for path in (ROOT / part).rglob("*.ipynb") if ".ipynb_checkpoints" not in path.parts
        }
        assert {path.name for path in (mine / part).rglob("*.ipynb")} == names


def test_no_folder_at_all_is_refused(checkout, capsys):
    assert main(["open", "--folder", ""]) == 2
    assert "wanted the name of a folder, given nothing" in capsys.readouterr().err


def test_each_folder_keeps_its_own_open_pages(tmp_path, monkeypatch):
    monkeypatch.setenv("JUPYTERLAB_WORKSPACES_DIR", str(tmp_path))
    one, other = (open_lessons.tabs_kept_for(tmp_path / name) for name in ("one", "other"))
    assert one != other and one == open_lessons.tabs_kept_for(tmp_path / "one")
    assert one.startswith(f"--LabApp.workspaces_dir={tmp_path}")
