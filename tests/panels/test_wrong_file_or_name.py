"""A file of another kind, a number with gaps, a name that no system takes: one message that says the mend."""

from pathlib import Path

import pytest

from rollmodel import units
from rollmodel.cli import main
from rollmodel.disk import other_file
from rollmodel.panels import Lesson
from rollmodel.panels.car_form import CarForm
from rollmodel.sheets import SheetError, read, read_text, training_car, training_cars
from rollmodel.sheets.form import judge
from rollmodel.sheets.form.examples import start_answers
from rollmodel.sheets.form.saving import offered_file, outside, place, save
from rollmodel.sheets.form.typed import complete
from rollmodel.sheets.schema import TABLES
from rollmodel.testday.faults import DayError
from rollmodel.testday.known import save_new
from rollmodel.testday.readings import EXAMPLE, readings_of
from rollmodel.testday.typed_text import apart, with_unit

COUPE = training_cars()["coupe"].read_text(encoding="utf-8")
NOTEBOOK = b'{\n "cells": [],\n "metadata": {},\n "nbformat": 4\n}' + b" " * 100_000
BINARY = b"\x7fELF\x02\x01\x00\x00\xff" * 40


@pytest.mark.parametrize(
    "text, kind, si",
    [  # thousands as ISO 80000-1 parts them: groups of three, a small space between
        ("1 290 kg", "mass", 1290.0),
        ("1\u2009290 kg", "mass", 1290.0),
        ("1\u202f290.5 kg", "mass", 1290.5),
        ("1\u00a0000 N/mm", "rate", 1e6),
        ("-1 000 mm", "length", -1.0),
        ("1 000 000 N/m", "rate", 1e6),
    ],
)
def test_spaces_between_groups_of_three_are_read(text, kind, si):
    assert units.parse(text, kind) == pytest.approx(si, rel=1e-12)


def test_a_sheet_a_box_and_a_list_take_them_too():
    assert read_text(COUPE.replace('"1290 kg"', '"1\u202f290 kg ± 20 kg"')).mass == 1290
    mass = next(field for field in TABLES[""] if field.name == "mass")
    assert judge({"mass": complete("1\u2009290 ± 10", mass, "metric")}).refused == {}
    assert with_unit("1 290", "mass") == "1 290 kg"
    assert [units.parse(one, "load") for one in apart("1 290, 1 300 N")] == [1290, 1300]


@pytest.mark.parametrize("typed", ["220 200", "220 200 mm", "22 20 mm", "220 mm 200 mm"])
def test_two_lengths_without_a_comma_are_not_one(typed):
    holes = next(field for field in TABLES["bar"] if field.name == "holes")
    said = judge({"front.bar": "holes", "front.bar.holes": complete(typed, holes, "metric")})
    assert "several were meant? Put a comma between each two" in said.refused["front.bar.holes"][0]


@pytest.mark.parametrize("hole", ['"-5"', "-5.0", '"2nd"', "1.5"])
def test_a_hole_that_is_no_place_is_told_what_to_write(hole):
    with pytest.raises(SheetError, match=r"\[front.bar\] hole: .*; write the figure alone, such as 2"):
        read_text(COUPE.replace("hole = 2", f"hole = {hole}", 1))


@pytest.mark.parametrize(
    "data, words",
    [
        (NOTEBOOK, "a notebook"),
        (b"\xef\xbb\xbf" + NOTEBOOK, "a notebook"),
        (b'{"format": 1}', "a file for programs (JSON)"),
        (BINARY, "no text"),
        (b"PK\x03\x04...", "a spreadsheet's or a word processor's own file, or a packed one"),
        (COUPE.encode(), ""),
        (COUPE.encode("utf-16-le"), ""),
        (b"", ""),
    ],
)
def test_what_a_file_is_by_its_first_bytes(data, words):
    assert other_file(data) == words


@pytest.mark.parametrize("data, words", [(NOTEBOOK, "this is a notebook"), (BINARY, "this is no text")])
@pytest.mark.parametrize(
    "command, wanted",
    [
        (["car"], "wanted a car sheet, a text file whose name ends in .toml"),
        (["measure", "--sheet"], "wanted a car sheet, a text file whose name ends in .toml"),
        (["measure"], "wanted a file of readings, a text file whose name ends in .toml"),
        (["runs"], "a CSV file|wanted a file of runs, CSV text"),
        (["mark", str(Path(__file__).parent), "--paper"], "wanted a paper, a TOML text file with a table"),
    ],
)
def test_a_file_of_another_kind_is_named_as_what_it_is(command, wanted, data, words, tmp_path, capsys):
    given = tmp_path / "given.ipynb"
    given.write_bytes(data)
    assert main([*command, str(given)]) == 2
    said = capsys.readouterr().err
    assert words in said and "given.ipynb" in said and said.count("\n") == 1, said
    assert any(part in said for part in wanted.split("|")), said


def test_a_lesson_given_a_notebook_as_its_car_says_what_a_car_is(tmp_path):
    (tmp_path / "lesson.ipynb").write_bytes(NOTEBOOK)
    with pytest.raises(SheetError, match="this is a notebook; wanted a car sheet"):
        read(tmp_path / "lesson.ipynb")


def test_a_car_sheet_in_place_of_readings_and_the_other_way_round_is_one_message(capsys):
    assert main(["measure", str(training_cars()["coupe"])]) == 2
    said = capsys.readouterr().err
    assert "coupe.toml: this is a car sheet; wanted a file of readings" in said and said.count("\n") == 1
    assert "rollmodel measure --example" in said
    with pytest.raises(SheetError) as refused:
        read(EXAMPLE)
    assert "this is a file of readings; wanted a car sheet" in refused.value.faults[0]
    assert len(refused.value.faults) == 1
    with pytest.raises(DayError, match="unknown line"):  # one stray line makes no car sheet of it
        readings_of({"mass": "1290 kg"})


NO_NAME = ["CON", "con.toml", "nul", "Lpt1.x", "COM¹", "aux/mine", "mine.", "mine .toml", "mine..toml",
           "a<b", "a>b", 'a"b', "a|b", "a?b", "a*b", "a:b", "cars\\mine", ".toml",
           "..", "cars/", "folder./mine"]


@pytest.mark.parametrize("typed", NO_NAME)
def test_a_name_that_windows_refuses_is_refused_everywhere(typed, tmp_path, monkeypatch):
    """Reserved names and signs: as the documentation of Windows lists them, from memory."""
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SheetError) as refused:
        save(start_answers("coupe", "metric"), typed)
    (said,) = refused.value.faults
    assert "wanted a" in said or "device on Windows" in said
    if typed not in (".toml", "..", "cars/"):
        with pytest.raises(DayError):
            save_new(typed, "", ".toml")
    assert list(tmp_path.iterdir()) == []


def test_an_offered_name_is_always_taken():
    for title in ("CON", "aux.", "Lpt1", "<>?", "nul!", "a" * 300):
        assert place(offered_file(title)).name == offered_file(title)


def test_a_place_outside_the_lessons_is_shown_in_full_before_anything_is_written(tmp_path, monkeypatch):
    folder = tmp_path / "lessons"
    folder.mkdir()
    monkeypatch.chdir(folder)
    assert outside(place("../mine")) and not outside(place("mine")) and not outside(place(str(folder / "x")))
    form = CarForm(Lesson("index"))
    form.start.source.value = "hatch"
    form.start.fill()
    for typed in ("../mine", str(tmp_path / "theirs.toml")):
        form.saving.file.value = typed
        form.saving.save()
        name = place(typed).name
        assert f"It would go to {tmp_path / name}, outside the folder" in form.saving.message.value
        assert not (tmp_path / name).exists()
        form.saving.save()
        assert "Saved" in form.saving.message.value and (tmp_path / name).exists()
    form.saving.file.value = "mine"
    form.saving.save()
    assert read(folder / "mine.toml").front == training_car("hatch").front, "here nothing is asked"
