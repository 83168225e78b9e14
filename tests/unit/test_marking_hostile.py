"""Hostile and broken files: each is named and set aside, or made harmless; every other file is marked."""

import csv
import gzip
import io
import json
import os
import re
import socket
import stat
import zipfile
from html.parser import HTMLParser
from pathlib import Path

import pytest

from rollmodel.cli import main
from rollmodel.marking import run
from rollmodel.marking.harmless import cell, plain
from rollmodel.marking.reading import NotMarked, oddities, read
from rollmodel.marking.run import mark_class
from rollmodel.questions.answers import LARGEST
from tests.unit.marking_class import all_right, closed_questions, file_text, write

QUESTIONS = closed_questions(4)
POSIX = pytest.mark.skipif(os.name == "nt", reason="links, pipes and permissions of POSIX")


def good(word="good one"):
    return all_right(word, QUESTIONS)


def text_of(**changed):
    """A good file's text with some of its first fields changed."""
    content = json.loads(file_text("blue kestrel", good("blue kestrel")))
    return json.dumps(content | changed, ensure_ascii=False)


def with_answer(**changed):
    """A file in which the second answer's fields are changed; None takes a field out."""
    content = json.loads(text_of())
    row = content["answers"][1] | changed
    content["answers"][1] = {name: value for name, value in row.items() if value is not None}
    return json.dumps(content)


def without(name):
    content = json.loads(text_of())
    del content[name]
    return json.dumps(content)


def zipped(member="answers-blue_kestrel-assessment.json", size=50_000_000):
    """A few kilobytes that unpack to fifty megabytes."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr(member, b"0" * size)
    return data.getvalue()


BROKEN = {  # name of the case: content, sort of trouble, words of the reason
    "empty": ("", "damaged", "not whole JSON"),
    "cut short": (text_of()[:-200], "damaged", "cut short"),
    "nil bytes": (b"\0" * 3000, "damaged", "not whole JSON"),
    "a list": ("[1, 2]", "damaged", "not an answer file"),
    "a number": ("7", "damaged", "not an answer file"),
    "another program's": ('{"format": "something else"}', "damaged", "not an answer file"),
    "of tomorrow": (text_of(format_version=2), "damaged", "format version is 2"),
    "format version as text": (text_of(format_version="1"), "damaged", 'is "1"; wanted the whole number 1'),
    "format version true": (text_of(format_version=True), "damaged", "is true; wanted the whole number 1"),
    "format version 1.0": (text_of(format_version=1.0), "damaged", "is 1.0; wanted the whole number 1"),
    "no mode": (without("mode"), "damaged", "has no mode"),
    "answers no list": (text_of(answers={}), "damaged", "not a list"),
    "an answer no record": (text_of(answers=["60 N/mm"]), "damaged", "named fields"),
    "an answer without text": (with_answer(text=None), "damaged", "has no text"),
    "utf-16": (text_of().encode("utf-16"), "damaged", "not UTF-8"),
    "latin-1": (text_of(code_word="blüe").encode("latin-1"), "damaged", "not UTF-8"),
    "nested deep": ("[" * 200_000, "damaged", "nested"),
    "nested deep inside": (text_of()[:-3] + ', "x": ' + '{"a":' * 100_000, "damaged", "nested"),
    "a number without end": ('{"format": ' + "9" * 5000 + "}", "damaged", "cannot be"),
    "zip bomb": (zipped(), "packed", "zip"),
    "gzip": (gzip.compress(text_of().encode()), "packed", "gzip"),
    "marks of its own": (text_of(marks=30), "forged", "marks"),
    "a verdict in an answer": (with_answer(status="right"), "forged", "status"),
    "a field twice": (
        text_of().replace('"mode"', '"code_word": "another word", "mode"', 1),
        "forged",
        "twice",
    ),
    "code word not tidy": (text_of(code_word="Blue  Kestrel"), "forged", "code word"),
    "code word of no text": (text_of(code_word=["x"]), "forged", "code word"),
    "code word a path": (text_of(code_word="../../etc/passwd"), "forged", "code word"),
    "the example's code word": (text_of(code_word="example"), "forged", "example"),
    "no such mode": (text_of(mode="marked"), "forged", "mode"),
    "practice answers": (with_answer(occasion="practice"), "forged", "practice"),
    "version as text": (with_answer(question_version="1"), "forged", "question_version"),
    "version far below nought": (with_answer(question_version=-(10**30)), "forged", "outside 1 to"),
    "version nought": (with_answer(question_version=0), "forged", "outside 1 to"),
    "version true": (with_answer(question_version=True), "forged", "question_version"),
    "text a number": (with_answer(text=60), "forged", "text"),
    "no such units": (with_answer(family="imperial"), "forged", "family"),
    "no time": (with_answer(given_at="yesterday"), "forged", "time"),
    "time without a zone": (with_answer(given_at="2025-03-04T09:00:00"), "forged", "time"),
}


@pytest.mark.parametrize("content, sort, words", BROKEN.values(), ids=BROKEN.keys())
def test_a_broken_file_is_named_and_the_rest_is_marked(tmp_path, content, sort, words):
    folder = tmp_path / "class"
    folder.mkdir()
    write(folder, "good one", good())
    bad = folder / "handed in by somebody.json"
    bad.write_bytes(content if isinstance(content, bytes) else content.encode())
    report = mark_class(folder, tmp_path / "out", processes=1)
    assert [(one.name, one.kind) for one in report.asides] == [("handed in by somebody.json", sort)]
    assert words in report.asides[0].reason
    assert [row.marks for row in report.rows] == [len(QUESTIONS)]
    page = (tmp_path / "out" / "class.html").read_text(encoding="utf-8")
    assert "handed in by somebody.json" in page


def test_too_large_is_not_read(tmp_path):
    path = tmp_path / "a.json"
    path.write_bytes(b" " * (LARGEST + 1))
    with pytest.raises(NotMarked, match="5,000,001") as refusal:
        read(path, "a.json")
    assert refusal.value.kind == "too large"


def test_the_largest_that_the_package_keeps_is_marked(tmp_path):
    path = tmp_path / "a.json"
    path.write_text(text_of() + " " * (LARGEST - len(text_of().encode())), encoding="utf-8")
    assert len(read(path, "a.json").answers) == len(QUESTIONS)


def test_a_byte_order_mark_does_no_harm(tmp_path):
    path = tmp_path / "a.json"
    path.write_bytes(b"\xef\xbb\xbf" + text_of().encode())
    assert read(path, "a.json").code_word == "blue kestrel"


def test_a_name_that_says_otherwise_than_its_content(tmp_path):
    path = write(
        tmp_path, "blue kestrel", all_right("blue kestrel", QUESTIONS), name="answers-red_fox-assessment.json"
    )
    with pytest.raises(NotMarked, match="its name says") as refusal:
        read(path, path.name)
    assert refusal.value.kind == "forged"


@POSIX
def test_links_pipes_sockets_and_closed_doors(tmp_path):
    outside = tmp_path / "outside"
    outside.mkdir()
    write(outside, "secret word", good("secret word"))
    folder = tmp_path / "class"
    folder.mkdir()
    write(folder, "good one", good())
    (folder / "file link.json").symlink_to(outside / "answers-secret_word-assessment.json")
    (folder / "folder link").symlink_to(outside)
    (folder / "round in a circle").symlink_to(folder)
    (folder / "to nowhere.json").symlink_to(folder / "not there")
    os.mkfifo(folder / "pipe.json")
    with socket.socket(socket.AF_UNIX) as door:
        door.bind(str(folder / "socket.json"))
        report = mark_class(folder, tmp_path / "out", processes=1)
    assert {one.name: one.kind for one in report.asides} == {
        "file link.json": "link",
        "folder link": "link",
        "round in a circle": "link",
        "to nowhere.json": "link",
        "pipe.json": "link",
        "socket.json": "unreadable",
    }
    assert [row.code_word for row in report.rows] == ["good one"]


@POSIX
def test_a_file_that_cannot_be_read(tmp_path, monkeypatch):
    folder = tmp_path / "class"
    folder.mkdir()
    write(folder, "good one", good())
    locked = write(folder, "blue kestrel", good("blue kestrel"))
    opened = os.open
    monkeypatch.setattr(
        "rollmodel.marking.reading.os.open",
        lambda path, *rest, **named: (refuse if str(path) == str(locked) else opened)(path, *rest, **named),
    )
    report = mark_class(folder, tmp_path / "out", processes=1)
    assert [(one.name, one.kind) for one in report.asides] == [(locked.name, "unreadable")]
    assert "Permission denied" in report.asides[0].reason and len(report.rows) == 1


def refuse(*arguments):
    raise PermissionError(13, "Permission denied")


def test_folders_below_are_marked_and_an_endless_tower_is_named(tmp_path):
    folder = tmp_path / "class"
    (folder / "anna" / "work").mkdir(parents=True)
    write(folder / "anna" / "work", "good one", good())
    tower = folder.joinpath(*["deep"] * 40)
    tower.mkdir(parents=True)
    write(tower, "blue kestrel", good("blue kestrel"))
    report = mark_class(folder, tmp_path / "out", processes=1)
    assert [row.name for row in report.rows] == ["anna/work/answers-good_one-assessment.json"]
    assert len(report.asides) == 1 and report.asides[0].name == "/".join(["deep"] * 7)


def test_other_files_are_left_alone_and_are_no_trouble(tmp_path):
    folder = tmp_path / "class"
    folder.mkdir()
    write(folder, "good one", good())
    write(folder, "good one", all_right("good one", QUESTIONS, "practice"), mode="practice")
    (folder / "lesson-01.ipynb").write_text('{"cells": []}', encoding="utf-8")
    (folder / "notes.txt").write_text("to do", encoding="utf-8")
    (folder / ".answers-good_one-assessment.json.lock").write_bytes(b"")
    assert main(["mark", str(folder), "--into", str(tmp_path / "out")]) == 0
    with open(tmp_path / "out" / "set-aside.csv", encoding="utf-8", newline="") as file:
        sorts = {row["file"]: row["sort"] for row in csv.DictReader(file)}
    assert sorts == {
        "answers-good_one-practice.json": "other mode",
        "lesson-01.ipynb": "another sort of file",
        "notes.txt": "another sort of file",
    }


SCRIPT = "<script>alert('x')</script><img src=x onerror=alert(1)>\"'&"
EVIL_TEXTS = [
    "=cmd|' /C calc'!A0",
    "+1+1",
    "-2+3",
    "@SUM(A1)",
    "\t=1+1",
    "\r=1+1",
    "  =1+1",
    "＝1+1",
    SCRIPT,
    "{{ 7 * 7 }} {% include '/etc/passwd' %}",
    "\x00\x1b[31m\x07",
    "\ud800 half",
    "\u202egnp.exe",
    "__import__('os').mkdir('owned')",
    "9**9**9 N",
    "1e999 N",
    "nan N",
    "9" * 3999,
    "N*" * 1500,
    "line one\nline two",
    "http://example.org/x",
    'a,b;c"d',
]


class Seen(HTMLParser):
    """Every tag of a page, and where its links and pictures lead."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.targets, self.handlers = set(), [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.add(tag)
        self.targets += [
            value for name, value in attrs if name in ("href", "src", "action", "data", "srcset")
        ]
        self.handlers += [name for name, _ in attrs if name.startswith("on")]


def hostile_class(folder):
    """Answers that attack, one in each question of each kind, in files whose names attack."""
    for number, text in enumerate(EVIL_TEXTS):
        word = f"learner {number}"
        answers = [{**vars(one), "text": text} for one in good(word)]
        name = f"{number} {text}.json".replace("/", "_").replace("\0", "")[:60]
        content = file_text(word, answers).encode("utf-8", "surrogatepass" if number != 11 else "replace")
        with open(os.path.join(os.fsencode(folder), name.encode("utf-8", "replace")), "wb") as file:
            file.write(content)


@POSIX
def test_attacking_answers_and_names_are_marked_and_made_harmless(tmp_path):
    folder, out = tmp_path / "class", tmp_path / "out"
    folder.mkdir()
    hostile_class(folder)
    report = mark_class(folder, out, processes=1)
    assert len(report.rows) == len(EVIL_TEXTS) and report.asides == ()
    pages = list(out.rglob("*.html"))
    assert len(pages) == 1 + len(EVIL_TEXTS)
    for page in pages:
        seen = Seen(page.read_text(encoding="utf-8"))
        assert not seen.tags & {"script", "img", "iframe", "object", "embed", "form", "link", "base", "svg"}
        assert seen.handlers == []
        assert all(re.fullmatch(r"#[\w-]+|learners/[\w.-]+|[\w-]+\.html", target) for target in seen.targets)
    tables = list(out.glob("*.csv"))
    assert len(tables) >= 7
    for table in tables:
        with open(table, encoding="utf-8", newline="") as file:
            cells = [one for row in csv.reader(file) for one in row]
        attacking = [one for one in cells if one.strip()[:1] in tuple("=+-@＝\t\r") and one.strip()]
        assert all(re.fullmatch(r"-[\d.e-]+", one) for one in attacking), attacking
        assert not any(sign in one for one in cells for sign in "\x00\x1b\u202e\t\r")
    assert not Path("owned").exists()


def test_a_raw_name_that_is_no_text(tmp_path):
    folder = tmp_path / "class"
    folder.mkdir()
    try:
        with open(os.path.join(os.fsencode(folder), b"caf\xe9 \xff.json"), "wb") as file:
            file.write(file_text("good one", good()).encode())
    except OSError:
        pytest.skip("this file system takes no such name")
    report = mark_class(folder, tmp_path / "out", processes=1)
    assert [row.name for row in report.rows] == ["caf\\udce9 \\udcff.json"]
    assert "caf\\udce9" in (tmp_path / "out" / "class.html").read_text(encoding="utf-8")


def test_nothing_in_the_class_folder_is_changed(tmp_path):
    folder = tmp_path / "class"
    folder.mkdir()
    hostile_class(folder)
    (folder / "broken.json").write_text("{", encoding="utf-8")

    def state():
        return {
            path: (path.stat().st_mtime_ns, stat.S_IMODE(path.stat().st_mode), path.read_bytes())
            for path in folder.rglob("*")
        }

    before = state()
    mark_class(folder, tmp_path / "out", processes=1)
    assert state() == before


def test_a_fault_of_ours_on_one_file_loses_no_other(tmp_path, monkeypatch):
    folder = tmp_path / "class"
    folder.mkdir()
    for word in ("good one", "blue kestrel"):
        write(folder, word, good(word))
    marked = run.mark

    def breaks(handed, *rest):
        if handed.code_word == "blue kestrel":
            raise ZeroDivisionError("a fault <b>of ours</b>")
        return marked(handed, *rest)

    monkeypatch.setattr(run, "mark", breaks)
    report = mark_class(folder, tmp_path / "out", processes=1)
    assert [row.code_word for row in report.rows] == ["good one"]
    assert [one.kind for one in report.asides] == ["not marked"]
    assert "<b>of" not in (tmp_path / "out" / "class.html").read_text(encoding="utf-8")


def test_times_that_do_not_fit_are_marked_and_said(tmp_path):
    rows = [vars(one) for one in good()]
    rows[0] = rows[0] | {"given_at": "2999-01-01T00:00:00+00:00"}
    path = write(tmp_path, "good one", rows)
    said = " ".join(oddities(read(path, path.name)))
    assert "backwards" in said and "future" in said
    assert oddities(read(write(tmp_path, "blue kestrel", good("blue kestrel")), "b")) == []


@pytest.mark.parametrize("text", ["=1", "+1", "-1", "@x", "\t=1", "\r=1", " =1", "＝1", "＋1", "－1", "＠x"])
def test_a_cell_starts_no_formula(text):
    assert cell(text).startswith("'")


def test_numbers_and_plain_words_stay_as_they_are():
    assert [cell(value) for value in (-0.5, 3, "60 N/mm", "", None)] == [-0.5, 3, "60 N/mm", "", ""]


def test_signs_that_cannot_be_seen_are_shown_by_their_code():
    assert plain("a\u202eb\x07\u200bc") == "a\\u202eb\\u0007\\u200bc"
    assert plain("x" * 400) == "x" * 300 + "..."
