"""The first page's tables: every training car, with the model's figures; the words of the trade."""

import re

import nbformat

from rollmodel.advice.kept import every_reading
from rollmodel.advice.numbers import hole_pair
from rollmodel.course import lessons_folder
from rollmodel.panels.glossary import WORDS
from rollmodel.panels.glossary import table as glossary_table
from rollmodel.panels.index import cars_table
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import show


def test_every_car_stands_in_the_table_with_its_limit_and_roll():
    rows = cars_table().splitlines()[2:]
    assert len(rows) == len(training_cars())
    for row, name in zip(rows, training_cars(), strict=True):
        car = training_car(name)
        fitted = every_reading(car)[hole_pair(car)]
        assert f"`{name}`" in row and car.title in row and "Invented" in row
        assert f"{fitted.limit_end}, at {show(fitted.limit, 'lateral acceleration')}" in row
        assert show(fitted.roll_gradient, "roll gradient") in row


# Bold in a lesson that is stress or a heading and no word of the trade.
STRESS = """after this lesson you can; you need first; time; tasks; it adds nothing; down; up; each; right;
the steel in the middle; its length; the lever; twice; diameters; in roll; the corner; the
leaning weight; is; shares; through springs and bar; through the links; from the unsprung mass;
most side force against load; loses; sum; front; rear; smaller; less evenly; more evenly;
sooner; soft; in the air; way in; middle; way out; far; angle; fast; speed; across the
suspension; below; moves from the rear axle to the front; two; the body rolls less; the end
takes more of the load transfer; other; not; which end slides?; where in the corner?; off; one;
now your own change; task: your own change; what is left out here; before; slope;
measure, set, plan, read, learn, log;
simulated; gradient; end gives up first; k = a11 × w × kappa × t / (4 × a1 × df)"""


def lesson_texts():
    """What each lesson says in its own words."""
    for path in sorted(lessons_folder().glob("[0-9]*.ipynb")):
        cells = nbformat.read(path, as_version=4).cells
        yield " ".join(" ".join(cell.source for cell in cells if cell.cell_type == "markdown").split())


def test_every_bold_word_of_the_trade_is_in_the_glossary():
    stress = {one.strip() for one in " ".join(STRESS.split()).split(";")}
    found = (word for text in lesson_texts() for word in re.findall(r"\*\*(.+?)\*\*", text))
    bold = {word.strip(".:").lower() for word in found}
    assert {word for word in bold if not word.startswith("before you")} - stress - set(WORDS) == set()


def test_every_word_of_the_glossary_is_used_in_a_lesson():
    said = " ".join(lesson_texts()).lower()
    assert [word for word in WORDS if word not in said] == []
    assert all(20 <= len(meaning) <= 200 for meaning in WORDS.values())
    assert all(f"| **{word}** | {meaning} |" in glossary_table() for word, meaning in WORDS.items())
