"""Answers kept in a file: whatever goes wrong, those given before are still there."""

import errno
import json
import os
import signal
import subprocess
import sys

import pytest

import rollmodel
from rollmodel.questions import answers, bank, pose
from rollmodel.questions.answers import AnswerFile, StoreError, answer_to

POSED = pose(bank.question("rate-in-roll"), "blue kestrel")
POSIX = pytest.mark.skipif(os.name == "nt", reason="kill signals and file size limits are POSIX")


@pytest.fixture
def file(tmp_path):
    kept = AnswerFile(tmp_path, "blue kestrel", "practice")
    for text in ("50 N/mm", "60 N/mm"):
        kept.add(answer_to(POSED, text))
    return kept


def texts(file):
    return [answer.text for answer in AnswerFile(file.path.parent, file.code_word, file.mode).read()]


def leftovers(file):
    return [path.name for path in file.path.parent.iterdir() if path.name.endswith(".new")]


def test_what_is_in_the_file(file):
    content = json.loads(file.path.read_text(encoding="utf-8"))
    first = content["answers"][0]
    assert (content["code_word"], content["mode"]) == ("blue kestrel", "practice")
    assert first["package_version"] == rollmodel.__version__
    assert (first["question"], first["question_version"]) == ("rate-in-roll", 1)
    assert (first["family"], first["occasion"], first["text"]) == ("metric", "practice", "50 N/mm")
    assert first["given_at"].endswith("+00:00")


def test_no_key_and_no_verdict_is_in_the_file(file):
    text = file.path.read_text(encoding="utf-8")
    assert not any(word in text for word in ("right", "wrong", "key", "road", f"{POSED.key / 1000:.4g}"))


def test_modes_have_files_of_their_own(file):
    assessed = AnswerFile(file.path.parent, "blue kestrel", "assessment")
    assert assessed.path != file.path and assessed.read() == []


KILLED = """
import os, signal, sys
from rollmodel.questions import answers, bank, pose
posed = pose(bank.question("rate-in-roll"), "blue kestrel")
def die(*arguments):
    os.kill(os.getpid(), signal.SIGKILL)
setattr(os, sys.argv[2], die)
answers.AnswerFile(sys.argv[1], "blue kestrel", "practice").add(answers.answer_to(posed, "70 N/mm"))
"""


@POSIX
@pytest.mark.parametrize("moment", ["fsync", "replace"])
def test_killed_in_the_middle_of_writing(file, moment):
    """The kernel dies with the new file half on the disk, or complete and not yet in place."""
    died = subprocess.run([sys.executable, "-c", KILLED, str(file.path.parent), moment], timeout=120)
    assert died.returncode == -signal.SIGKILL
    assert texts(file) == ["50 N/mm", "60 N/mm"]
    file.add(answer_to(POSED, "80 N/mm"))  # the lock died with its owner
    assert texts(file) == ["50 N/mm", "60 N/mm", "80 N/mm"]


def test_what_a_killed_program_left_is_removed_once_it_is_old(file):
    """A young one may be another program's work in hand; another file's is not ours to judge."""
    folder = file.path.parent
    old, young = folder / f".{file.path.name}.aaaa.new", folder / f".{file.path.name}.bbbb.new"
    strange = folder / ".another.json.cccc.new"
    for path in (old, young, strange):
        path.write_text("{", encoding="utf-8")
    for path in (old, strange):
        os.utime(path, (0, 0))
    file.add(answer_to(POSED, "70 N/mm"))
    assert [path.exists() for path in (old, young, strange)] == [False, True, True]
    assert texts(file) == ["50 N/mm", "60 N/mm", "70 N/mm"]


@pytest.mark.parametrize("name", ["fsync", "replace"])
def test_full_disk(file, monkeypatch, name):
    def full(*arguments):
        raise OSError(errno.ENOSPC, "No space left on device")
    monkeypatch.setattr(answers.os, name, full)
    with pytest.raises(StoreError, match="No space left.*given before are safe"):
        file.add(answer_to(POSED, "70 N/mm"))
    monkeypatch.undo()
    assert texts(file) == ["50 N/mm", "60 N/mm"]
    assert leftovers(file) == []


LIMITED = """
import resource, sys
from rollmodel.questions import answers, bank, pose
posed = pose(bank.question("rate-in-roll"), "blue kestrel")
resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))
try:
    answers.AnswerFile(sys.argv[1], "blue kestrel", "practice").add(answers.answer_to(posed, "70 N/mm"))
except answers.StoreError as error:
    print(error)
"""


@POSIX
def test_the_system_itself_refuses_the_bytes(file):
    """A real refusal in the middle of a file, by a limit on file size, not a pretended one."""
    told = subprocess.run([sys.executable, "-c", LIMITED, str(file.path.parent)], capture_output=True,
                          text=True,
                          timeout=120)
    assert "could not be kept" in told.stdout and "given before are safe" in told.stdout and told.stderr == ""
    assert texts(file) == ["50 N/mm", "60 N/mm"]
    assert leftovers(file) == []


def test_a_folder_that_cannot_be_made(tmp_path):
    (tmp_path / "taken").write_text("a file, not a folder")
    with pytest.raises(StoreError, match="could not be kept"):
        AnswerFile(tmp_path / "taken", "blue kestrel", "practice").add(answer_to(POSED, "70 N/mm"))


@pytest.mark.parametrize("damage, reason", [
    (b"", "not JSON"),
    (b'{"format": "rollmodel answers", "answers": [', "not JSON"),
    (b"\xff\xfe\x00", "not UTF-8"),
    (b"[1, 2]", "no named fields"),
    (b"{}", "has no format"),
    (b'{"format": "another", "format_version": 1}', "not an answer file"),
    (b'{"format": "rollmodel answers", "format_version": true}', "not an answer file of this version"),
    (b"[" * 100_000, "."),
], ids=["empty", "cut short", "not text", "a list", "no fields", "foreign", "true", "nested too deep"])
def test_a_damaged_file_is_named_and_set_aside_whole(file, damage, reason):
    file.path.write_bytes(damage)
    file.add(answer_to(POSED, "70 N/mm"))
    aside = file.path.parent / "answers-blue_kestrel-practice.damaged-1.json"
    assert aside.read_bytes() == damage
    assert texts(file) == ["70 N/mm"]
    assert len(file.notes) == 1 and aside.name in file.notes[0] and reason in file.notes[0]


def test_a_second_damaged_file_does_not_cover_the_first(file):
    for damage in (b"one", b"two"):
        file.path.write_bytes(damage)
        assert file.read() == []
    kept = sorted(file.path.parent.glob("*.damaged-*.json"))
    assert [path.read_bytes() for path in kept] == [b"one", b"two"]


def test_a_field_of_the_wrong_type_is_damage(file):
    content = json.loads(file.path.read_text(encoding="utf-8"))
    content["answers"][1]["text"] = {"not": "text"}
    file.path.write_text(json.dumps(content), encoding="utf-8")
    assert file.read() == [] and "wrong type" in file.notes[0]


def test_a_file_far_too_large_is_not_read(file, monkeypatch):
    monkeypatch.setattr(answers, "LARGEST", 50)
    assert file.read() == [] and "larger than" in file.notes[0]


def test_a_damaged_file_that_cannot_be_moved_is_left_alone(file, monkeypatch):
    file.path.write_bytes(b"damaged")

    def refuse(*arguments):
        raise PermissionError(errno.EACCES, "Permission denied")
    monkeypatch.setattr(answers.os, "rename", refuse)
    with pytest.raises(StoreError, match="left as it is"):
        file.add(answer_to(POSED, "70 N/mm"))
    assert file.path.read_bytes() == b"damaged"


MANY = """
import pathlib, sys, time
from rollmodel.questions import answers, bank, pose
posed = pose(bank.question("rate-in-roll"), "blue kestrel")
folder = pathlib.Path(sys.argv[1])
(folder / f"ready {sys.argv[2]}").touch()
while len(list(folder.glob("ready *"))) < 2:
    time.sleep(0.001)
for number in range(25):
    text = f"{sys.argv[2]} {number}"
    answers.AnswerFile(sys.argv[1], "blue kestrel", "practice").add(answers.answer_to(posed, text))
"""


def test_two_notebooks_at_once_lose_nothing(tmp_path):
    running = [subprocess.Popen([sys.executable, "-c", MANY, str(tmp_path), name]) for name in ("one", "two")]
    assert [process.wait(timeout=240) for process in running] == [0, 0]
    found = [answer.text for answer in AnswerFile(tmp_path, "blue kestrel", "practice").read()]
    assert sorted(found) == sorted(f"{name} {number}" for name in ("one", "two") for number in range(25))
    assert [text for text in found if text.startswith("one")] == [f"one {number}" for number in range(25)]


@pytest.mark.parametrize("text",
                         ["5 N·mm²", "=1+1", "<b>", "line\nbreak", "\ud800 half a pair", "emoji \U0001f600"])
def test_whatever_was_typed_comes_back(tmp_path, text):
    kept = AnswerFile(tmp_path, "blue kestrel", "practice")
    kept.add(answer_to(POSED, text))
    assert kept.read()[0].text == text.encode("utf-8", "replace").decode("utf-8")


def test_running_a_cell_again_is_no_new_try(file):
    file.add(answer_to(POSED, " 60 N/mm "))
    assert file.different("rate-in-roll", "practice") == ["50 N/mm", "60 N/mm"]
