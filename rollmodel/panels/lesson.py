"""One notebook's lesson: its car, its units, its look, and every panel that follows them."""

from __future__ import annotations

from html import escape
from pathlib import Path

import ipywidgets as widgets
from IPython import get_ipython
from IPython.display import Markdown, display

from rollmodel.car import Car
from rollmodel.figures.look import Look
from rollmodel.panels import pace, session
from rollmodel.panels.access import Access
from rollmodel.units import FAMILIES, show

try:
    from rollmodel.sheets import SheetError, read, training_car, training_cars
except ImportError:  # TEMPORARY until sheets is there
    SheetError = ValueError
    read = training_car = None
    training_cars = dict

OWN_SHEET = "a sheet of your own"


def start(name: str, car: str | Path | Car | None = None) -> Lesson:
    """Begin a lesson in its first cell: shows the switches and returns the lesson.

    Parameters
    ----------
    name : str
        "01" to "11"; what is remembered is kept under it.
    car : str, pathlib.Path or Car, optional
        A training car's name, the path of a car sheet, or a car; the first training car when left out.
    """
    if get_ipython():
        pace.watch(get_ipython())
    lesson = Lesson(name, car)
    header = Header(lesson)
    session.replace_live((name, "header"), header)
    display(header)
    return lesson


class Lesson:
    """What all panels of a notebook share. Setting ``family``, ``projector`` or ``car`` redraws them."""

    def __init__(self, name: str = "", car=None):
        self.name, self.panels, self.texts = name, [], []
        kept = session.remembered(name, "lesson")
        self._family = kept.get("family", FAMILIES[0])
        self._look = Look(projector=kept.get("projector", False))
        self.open_at_once = False
        self._car = load(car)

    @property
    def car(self) -> Car:
        return self._car

    @property
    def family(self) -> str:
        return self._family

    @property
    def look(self) -> Look:
        return self._look

    def add(self, panel) -> None:
        self.panels.append(panel)

    def drop(self, panel) -> None:
        self.panels = [one for one in self.panels if one is not panel]

    def show(self, value, kind: str) -> str:
        """A number in SI as text in the lesson's units."""
        return show(value, kind, self.family)

    def say(self, words) -> None:
        """Prose with computed numbers, written again when the units or the car change.

        Parameters
        ----------
        words : callable
            Takes the lesson, returns Markdown.

        Examples
        --------
        ``lesson.say(lambda l: f"Each spring gives {l.show(31850.0, 'rate')} at its wheel.")``
        """
        handle = display(Markdown(words(self)), display_id=True)
        self.texts.append((handle, words))

    def change(self, family: str | None = None, projector: bool | None = None, car: Car | None = None) -> None:
        """Other units, look or car for every panel and text of the notebook."""
        self._family = family or self._family
        self._look = self._look if projector is None else Look(projector=projector)
        self._car = car or self._car
        session.remembered(self.name, "lesson").update(family=self._family, projector=self._look.projector)
        for handle, words in self.texts:
            if handle:
                handle.update(Markdown(words(self)))
        for panel in list(self.panels):
            panel.restyle()


class Header:
    """The switches at the top of a notebook: units, projector, car."""

    def __init__(self, lesson):
        self.lesson = lesson
        self.units = widgets.Dropdown(options=FAMILIES, value=lesson.family, description="Units")
        self.projector = widgets.Checkbox(value=lesson.look.projector, description="Projector", indent=False)
        self.at_once = widgets.Checkbox(value=False, description="Open panels without predicting", indent=False)
        self.cars = widgets.Dropdown(options=[*training_cars(), OWN_SHEET], value=None, description="Car")
        self.path = widgets.Text(placeholder="path of the car sheet, then Enter", continuous_update=False)
        self.message = widgets.HTML(escape(lesson.car.title))
        self.message.add_class("rm-message")
        self.access = Access(names={"": {"role": "group", "aria-label": "Lesson settings"},
                                    ".rm-path input": {"aria-label": "Path of your own car sheet"}})
        self.path.add_class("rm-path")
        self.path.layout.display = "none"
        row = widgets.Box([self.units, self.cars, self.path, self.projector, self.at_once])
        row.add_class("rm-body")
        self.widget = widgets.VBox([self.access, row, self.message])
        self.widget.add_class("rm-root")
        self._listen()

    def _listen(self):
        self.units.observe(lambda change: self.lesson.change(family=change["new"]), "value")
        self.projector.observe(lambda change: self._project(change["new"]), "value")
        self.at_once.observe(lambda change: self._open(change["new"]), "value")
        self.cars.observe(lambda change: self._choose(change["new"]), "value")
        self.path.observe(lambda change: self._load(Path(change["new"].strip())), "value")

    def _project(self, on):
        (self.widget.add_class if on else self.widget.remove_class)("rm-projector")
        self.lesson.change(projector=on)

    def _open(self, on):
        self.lesson.open_at_once = on
        for panel in self.lesson.panels:
            panel.open_at_once(on)

    def _choose(self, name):
        self.path.layout.display = None if name == OWN_SHEET else "none"
        if name != OWN_SHEET:
            self._load(name)

    def _load(self, which):
        """The car asked for, or every fault of its sheet; the present car stays until one is good."""
        try:
            car = load(which)
        except (SheetError, OSError) as error:
            faults = getattr(error, "faults", [str(error)])
            kept = f"The car stays: {self.lesson.car.title}."
            items = "".join(f"<li>{escape(fault)}</li>" for fault in faults)
            self.message.value = f'<div role="alert">This sheet cannot be used. {escape(kept)}<ul>{items}</ul></div>'
            return
        self.lesson.change(car=car)
        self.message.value = escape(car.title)

    def close(self):
        session.close_tree(self.widget)

    def _repr_mimebundle_(self, **_):
        return self.widget._repr_mimebundle_() | {
            "text/plain": f"Car: {self.lesson.car.title}. Units: {self.lesson.family}.",
            "text/html": f"<p>Car: {escape(self.lesson.car.title)}. Units: {escape(self.lesson.family)}.</p>"}


def load(car) -> Car:
    """A car from a training car's name, a sheet's path, or a car itself."""
    if isinstance(car, Car):
        return car
    if car is None:
        return training_car(next(iter(training_cars())))
    return training_car(car) if isinstance(car, str) and car in training_cars() else read(Path(car))
