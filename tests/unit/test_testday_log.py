"""The log: added to whole or not at all, read back, plain to a person, and filled by plan and runs."""

import json
import os
import threading
import tomllib
from dataclasses import replace
from datetime import datetime, timedelta, timezone

import pytest

from rollmodel import disk
from rollmodel.cli import main
from rollmodel.sheets import to_sheet, training_car
from rollmodel.testday.faults import DayError
from rollmodel.testday.log import LONGEST_NOTE, Entry, append, log_path, now, read_log

WHEN = datetime(2030, 5, 4, 10, 20, tzinfo=timezone(timedelta(hours=1)))
FULL = Entry(
    "runs",
    WHEN,
    "Rear bar stiffer: hole 1 to hole 3.",
    'said "it turns in" \\ twice\nand was glad',
    ("before.csv", "after.csv"),
    True,
    {
        "roll_gradient": {
            "predicted": "-0.400 ± 0.047 deg/g",
            "measured": "-0.392 ± 0.058 deg/g",
            "verdict": "seen",
        }
    },
)


def test_entries_are_read_back_as_they_were_added(tmp_path):
    path = tmp_path / "mine.log.toml"
    assert read_log(path) == []
    entries = [FULL, Entry("note", now(), note="wind"), replace(FULL, what="plan", files=(), simulated=False)]
    for entry in entries:
        append(path, entry)
    assert read_log(path) == entries


def test_the_file_is_plain_to_a_person_and_to_any_toml_reader(tmp_path):
    path = tmp_path / "mine.log.toml"
    append(path, FULL)
    text = path.read_text(encoding="utf-8")
    assert (
        text.startswith("# Log of a car")
        and "[[entry]]" in text
        and "when = 2030-05-04T10:20:00+01:00" in text
    )
    assert 'verdict = "seen"' in text and tomllib.loads(text)["entry"][0]["files"] == [
        "before.csv",
        "after.csv",
    ]


def test_what_a_person_wrote_into_it_stays(tmp_path):
    path = tmp_path / "mine.log.toml"
    append(path, FULL)
    own = path.read_text(encoding="utf-8").replace(
        'what = "runs"', 'what = "runs"  # a good day\nweather = "dry"'
    )
    path.write_text(own, encoding="utf-8")
    append(path, Entry("note", WHEN, note="more"))
    text = path.read_text(encoding="utf-8")
    assert text.startswith(own.rstrip()) and len(read_log(path)) == 2


@pytest.mark.parametrize("where", ["fsync", "replace"])
def test_a_failure_halfway_leaves_the_old_log_whole(tmp_path, monkeypatch, where):
    path = tmp_path / "mine.log.toml"
    append(path, FULL)
    kept = path.read_bytes()

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk.os, where, full)
    with pytest.raises(DayError, match="the log is as it was"):
        append(path, FULL)
    monkeypatch.undo()
    assert (
        path.read_bytes() == kept and [one.name for one in tmp_path.iterdir() if one.suffix == ".new"] == []
    )


@pytest.mark.parametrize(
    "text, message",
    [
        ('[[entry]]\nwhat = "note\n', "not TOML any more"),
        ("x = 1\n", "something else than"),
        ('[[entry]]\nwhat = "lunch"\nwhen = 2030-05-04T10:20:00Z\n', "entry 1: wanted what = one of plan"),
        ('[[entry]]\nwhat = "note"\n', "a date and time"),
        ("entry = 3\n", "something else than"),
    ],
)
def test_a_damaged_log_is_refused_and_left_alone(tmp_path, text, message):
    path = tmp_path / "mine.log.toml"
    path.write_text(text, encoding="utf-8")
    for attempt in (lambda: read_log(path), lambda: append(path, FULL)):
        with pytest.raises(DayError, match=message):
            attempt()
    assert path.read_text(encoding="utf-8") == text


def test_many_at_once_lose_nothing(tmp_path):
    path = tmp_path / "mine.log.toml"
    threads = [
        threading.Thread(target=append, args=(path, Entry("note", WHEN, note=str(i)))) for i in range(12)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(int(entry.note) for entry in read_log(path)) == list(range(12))


def test_hostile_notes_are_made_harmless_or_refused(tmp_path):
    path = tmp_path / "mine.log.toml"
    append(path, Entry("note", WHEN, note='\x1b[31m"""\n[[entry]]\nwhat = "x" \ud800'))
    (entry,) = read_log(path)
    assert "\x1b" not in entry.note and "[[entry]]" in entry.note
    with pytest.raises(DayError, match="at most"):
        append(path, Entry("note", WHEN, note="x" * (LONGEST_NOTE + 1)))
    assert len(read_log(path)) == 1


def test_the_log_lies_beside_its_sheet_and_never_in_the_package(tmp_path):
    assert log_path(tmp_path / "mine.toml") == tmp_path / "mine.log.toml"
    assert str(log_path("coupe", ["coupe"])) == "coupe.log.toml"


def test_plan_runs_and_note_end_up_in_the_log(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mine.toml").write_text(to_sheet(training_car("saloon")), encoding="utf-8")
    for arguments in (
        ["plan", "mine.toml", "--change", "rear", "3", "--log"],
        ["sample", "mine.toml", "--change", "rear", "3"],
        ["runs", "before.csv", "--sheet", "mine.toml", "--log"],
        ["runs", "before.csv", "after.csv", "--sheet", "mine.toml", "--log"],
    ):
        assert main(arguments) == 0
    capsys.readouterr()
    assert main(["log", "mine.toml", "--note", "tyres 2.1 bar, hot"]) == 0
    out = capsys.readouterr().out
    assert (
        out.count("Rear bar stiffer: hole 1 to hole 3.") == 2
        and "simulated" in out
        and "tyres 2.1 bar" in out
    )
    assert (
        out.count("predicted -0.4") >= 2
        and "measured -0.3" in out
        and ", seen" in out
        and "Baseline: roll" in out
    )
    assert max(map(len, out.splitlines())) <= 80
    assert main(["log", "mine.toml", "--json"]) == 0
    values = json.loads(capsys.readouterr().out)
    assert [one["what"] for one in values] == ["plan", "runs", "runs", "note"]
    assert values[2]["effects"]["roll_gradient"]["verdict"] == "seen"


def test_a_log_of_no_sheet_is_refused(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["log", "none.toml"]) == 2 and "no such file" in capsys.readouterr().err
    assert main(["log", "coupe"]) == 0 and "empty" in capsys.readouterr().out
    assert os.listdir(tmp_path) == []
    assert main(["runs", "x.csv", "--log"]) == 2 and "--log: needs a car sheet" in capsys.readouterr().err
