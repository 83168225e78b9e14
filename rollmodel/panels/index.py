"""The first page: the lessons, the training cars, your own car. Each function shows its part."""

from __future__ import annotations

from IPython.display import display

from rollmodel import course
from rollmodel.advice import class_by_roll, hole_pair
from rollmodel.advice.kept import every_reading
from rollmodel.panels import glossary
from rollmodel.panels.car_form import CarForm
from rollmodel.panels.lesson import Lesson, prose
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import FAMILIES, show

METRIC, US = FAMILIES


def lessons() -> None:
    """The table of lessons, as they lie in the folder."""
    display(prose(course.table(course.lessons_folder())), raw=True)


def cars() -> None:
    """The training cars: what each is for, and what the model makes of it."""
    display(prose(cars_table()), raw=True)


def own_car() -> None:
    """The form that makes a sheet of the learner's own car."""
    display(CarForm(Lesson("index")))


def sheet(name: str) -> None:
    """A training car's sheet, to copy and fill in."""
    text = training_cars()[name].read_text(encoding="utf-8")
    display(prose(f"```toml\n{text}```"), raw=True)


def words() -> None:
    """The words of the trade, each in plain words."""
    display(prose(glossary.table()), raw=True)


def cars_table() -> str:
    """The training cars in Markdown."""
    rows = [_row(name, training_car(name)) for name in training_cars()]
    return "\n".join(
        [
            "| name | what it is | drive | mass | bars: places front, rear | rolls | gives up first |",
            "|:--|:--|:--|:--|:--|:--|:--|",
            *rows,
        ]
    )


def _row(name, car):
    fitted = every_reading(car)[hole_pair(car)]
    bars = ", ".join(
        f"{axle.positions} {'angles' if axle.bar.blade else 'holes'}" if axle.bar else "none"
        for axle in (car.front, car.rear)
    )
    return (
        f"| `{name}` | **{car.title}.** {car.note} | {car.drive} | {show(car.mass, 'mass', METRIC)} "
        f"({show(car.mass, 'mass', US)}) | {bars} | {show(fitted.roll_gradient, 'roll gradient')}, "
        f"{class_by_roll(fitted.roll_gradient)} | {fitted.limit_end}, at "
        f"{show(fitted.limit, 'lateral acceleration')} |"
    )
