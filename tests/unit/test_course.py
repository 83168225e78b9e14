"""What the index says of a lesson is what the lesson's own first cell says."""

import json

import pytest

from rollmodel import course

FIRST = """# Lesson {number}. A made-up lesson

**After this lesson you can**

- do one thing, which is
  long;
- do another.

**You need first:** nothing. **Time:** 35 minutes.
"""


def write(folder, number, text=FIRST):
    cells = [{"cell_type": "markdown", "source": [text.format(number=number)]}]
    path = folder / f"{number:02}-made-up.ipynb"
    path.write_text(json.dumps({"cells": cells}), encoding="utf-8")
    return path


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "lessons"
    made.mkdir()
    (made / "index.ipynb").write_text("{}", encoding="utf-8")
    return made


def test_title_aims_and_minutes_are_read(folder):
    found = course.entry(write(folder, 3))
    assert (found.number, found.title, found.minutes) == (3, "A made-up lesson", 35)
    assert found.aims == ("do one thing, which is long", "do another")
    assert found.exercises is None


def test_table_has_a_row_for_each_lesson_in_order_and_its_exercises(folder):
    (folder.parent / "exercises").mkdir()
    (folder.parent / "exercises" / "lesson-02.ipynb").write_text("{}", encoding="utf-8")
    for number in (10, 2):
        write(folder, number)
    rows = course.table(folder).splitlines()[2:]
    assert [row.split("](")[1].split(")")[0] for row in rows] == ["02-made-up.ipynb", "10-made-up.ipynb"]
    assert "[exercises 2](../exercises/lesson-02.ipynb)" in rows[0] and "none yet" in rows[1]


@pytest.mark.parametrize(
    "gone", ["# Lesson {number}. A made-up lesson", "**Time:** 35 minutes.", "- do another."]
)
def test_a_lesson_without_its_opening_is_named(folder, gone):
    text = FIRST.replace(gone, "").replace(
        "- do one thing, which is\n  long;\n", "" if gone.startswith("-") else "- x;\n"
    )
    path = write(folder, 4, text)
    with pytest.raises(ValueError, match=f"{path.name}: its first cell wants"):
        course.entry(path)


def test_lessons_are_those_of_the_open_folder_else_those_that_came_along(folder, monkeypatch):
    monkeypatch.chdir(folder)
    assert course.lessons_folder() == folder
    monkeypatch.chdir(folder.parent)
    assert (course.lessons_folder() / "index.ipynb").is_file()
