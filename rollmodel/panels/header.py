"""The first cell of a notebook: a lesson, and the switches for units, car and projector."""

from __future__ import annotations

import os
from html import escape
from pathlib import Path

import ipywidgets as widgets
from IPython import get_ipython
from IPython.display import display

from rollmodel.car import Car
from rollmodel.panels import pace, session, still
from rollmodel.panels.lesson import FIRST_CAR, Lesson, load
from rollmodel.panels.shown import Shown, row, text
from rollmodel.panels.turns import follow
from rollmodel.sheets import SheetError, training_cars
from rollmodel.units import FAMILIES

OWN_SHEET = "a sheet of your own"
APART = ("This cell was run afresh. Panels below do not follow these switches until their cells are run "
         "again too.")


def start(name: str, car: str | Path | Car = FIRST_CAR, code_word: str = "example") -> Lesson:
    """Begin a lesson in its first cell: shows the switches and returns the lesson.

    Parameters
    ----------
    name : str
        "01" to "11"; what is remembered is kept under it.
    car : str, pathlib.Path or Car
        A training car's name, the path of a car sheet, or a car.
    code_word : str
        The learner's own; decides the numbers in the questions.
    """
    if get_ipython():
        pace.watch(get_ipython())
    lesson = Lesson(name, car, code_word)
    display(Header(lesson))
    return lesson


class Header(Shown):
    """Reaches every panel, question and text of its lesson."""

    def __init__(self, lesson):
        self.notice = text(css="rm-message")
        super().__init__(lesson, "header", "Lesson settings")
        self.units = widgets.Dropdown(options=FAMILIES, value=lesson.family, description="Units")
        self.cars = widgets.Dropdown(
            options=[*training_cars(), OWN_SHEET], value=self._own_name(), description="Car"
        )
        self.path = widgets.Text(placeholder="path of the car sheet, then Enter", continuous_update=False)
        self.path.add_class("rm-path")
        self.path.layout.display = "none"
        self.projector = widgets.Checkbox(value=lesson.look.projector, description="Projector", indent=False)
        self.at_once = widgets.Checkbox(
            value=False, description="Open panels without predicting", indent=False
        )
        self.message = text(self._in_use(), "rm-message")
        switches = row(self.units, self.cars, self.path, self.projector, self.at_once)
        self.fill(switches, self.message, self.notice)
        self.set_names({".rm-path input": {"aria-label": "Path of your own car sheet"}})
        self._listen()

    def _own_name(self):
        """The list's entry for the lesson's car; None when it is not one of the training cars."""
        return next((name for name in training_cars() if load(name) == self.lesson.car), None)

    def _listen(self):
        for widget, action in (
            (self.units, lambda new: self.lesson.change(family=new)),
            (self.projector, lambda new: self.lesson.change(projector=new)),
            (self.at_once, self.lesson.open_panels),
            (self.cars, self._choose),
            (self.path, lambda new: self._load(sheet_path(new), of_own=True)),
        ):
            follow(widget, lambda change, action=action: action(change["new"]))

    def joined(self):
        """Until the cells below were run again, what they show follows the switches of the run before."""
        words = f'<div role="alert">{APART}</div>' if session.of_another_run(self.lesson) else ""
        if self.notice.value != words:
            self.notice.value = words

    def _choose(self, name):
        self.path.layout.display = None if name == OWN_SHEET else "none"
        if name == OWN_SHEET:
            title = escape(self.lesson.car.title)
            self.message.value = f"{title}, until a sheet is read. {escape(looked_in())}"
        else:
            self._load(name)

    def _load(self, which, of_own=False):
        """The car asked for, or every fault of its sheet; the present car stays until one is good."""
        try:
            car = load(which)
        except SheetError as error:
            faults = [*error.faults, *([looked_in()] if of_own and not os.path.exists(which) else [])]
            items = "".join(f"<li>{escape(fault)}</li>" for fault in faults)
            self.message.value = (
                f'<div role="alert">This sheet cannot be used. The car stays: '
                f"{escape(self.lesson.car.title)}.<ul>{items}</ul></div>"
            )
            return
        self.lesson.change(car=car, sheet=Path(which) if of_own else None)
        self.message.value = self._in_use()

    def _in_use(self) -> str:
        """The car's title, and where another stands in for it."""
        return escape(f"{self.lesson.car.title}. {self.lesson.stand_in}" if self.lesson.stand_in
                      else self.lesson.car.title)

    def stored(self):
        words = f"Car: {self.lesson.car.title}. Units: {self.lesson.family}."
        return still.words("Settings", f"<p>{escape(words)}</p>", words)


def sheet_path(typed: str) -> Path:
    """A path as typed, without quotes round it; from the folder above when it is only there."""
    path = Path(typed.strip().strip("\"'").strip())
    above = Path("..") / path
    return above if not os.path.exists(path) and os.path.isfile(above) else path


def looked_in() -> str:
    """Where a path that does not begin at the root is looked for."""
    here = Path.cwd()
    return f"A path is looked up in the folder {here}, and then in {here.parent}."
