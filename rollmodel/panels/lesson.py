"""One notebook's lesson: its car, its units, its look, and everything that follows them."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

from IPython.display import display

from rollmodel.adding_up import as_shown
from rollmodel.car import Car
from rollmodel.figures.look import Look
from rollmodel.panels import session
from rollmodel.panels.turns import in_turn
from rollmodel.sheets import read, training_car, training_cars
from rollmodel.units import FAMILIES, show

_ACTED_ON = dict.fromkeys(map(ord, "<>&*_`$\\[]#~|"), " ")
FIRST_CAR = "coupe"
_WANTS = {}  # lesson's name to a function of a car: what the car lacks for it, in words


class Lesson:
    """What everything in a notebook shares; :meth:`change` reaches all of it.

    Parameters
    ----------
    name : str
        "01" to "11"; what is remembered is kept under it.
    car : str, pathlib.Path or Car
        A training car's name, the path of a car sheet, or a car.
    code_word : str
        The learner's own; decides the numbers in the questions.

    Attributes
    ----------
    car : Car
    family : str
        Unit family.
    look : Look
    open_at_once : bool
        Whether panels open without a prediction; the instructor's switch.
    """

    def __init__(self, name: str = "", car: str | Path | Car = FIRST_CAR, code_word: str = "example"):
        self.name, self.code_word, self.open_at_once = name, code_word, False
        kept = session.remembered(name, "lesson")
        self.car, self.family = load(car), kept.get("family", FAMILIES[0])
        self._sheet = None if isinstance(car, Car) or car in training_cars() else Path(car)
        self.look = Look(projector=kept.get("projector", False))
        self._shown, self._texts = [], []

    @property
    def number(self) -> int:
        """The lesson's number, for the question bank."""
        return int(self.name)

    def add(self, shown) -> None:
        """Let a panel or question follow the switches."""
        self._shown.append(shown)
        for one in self._shown:
            one.joined()

    def drop(self, shown) -> None:
        self._shown = [one for one in self._shown if one is not shown]

    @property
    def sheet(self) -> Path | None:
        """The file that the car came from; None for a car made in a program."""
        return self._sheet or next(
            (path for name, path in training_cars().items() if load(name) == self.car), None
        )

    @property
    def the_car(self) -> str:
        """The car in a sentence: "the College coupe"; a title of somebody's own takes no article."""
        return f"the {self.car.title}" if self.car.title in training_titles() else self.car.title

    @property
    def stand_in(self) -> str:
        """That a training car stands in for what this car has not; empty where it has everything."""
        lacking = _WANTS[self.name](self.car) if self.name in _WANTS else ""
        needed = f"This lesson needs {lacking}. This car has not, so a training car stands in there."
        return needed if lacking else ""

    def show(self, value, kind: str) -> str:
        """A number in SI as text in the lesson's units."""
        return show(value, kind, self.family)

    def rounded(self, value, kind: str, more: int = 0) -> float:
        """A number as `show` prints it, [SI]: sums and changes of such numbers add up on the page."""
        return as_shown(float(value), kind, self.family, more)

    @in_turn
    def say(self, words) -> None:
        """Prose with computed numbers, written again when the units or the car change.

        Parameters
        ----------
        words : callable
            Takes the lesson, returns Markdown.

        Examples
        --------
        ``lesson.say(lambda l: f"The car has {l.show(l.car.mass, 'mass')}.")``
        """
        handle = display(prose(self._told(words)), raw=True, display_id=True)
        self._texts.append((handle, words))

    def _told(self, words) -> str:
        """The prose; where this car leaves nothing to say, the one sentence that says why."""
        try:
            return words(self)
        except ValueError as fault:
            return f"*{capital(fit_for_a_page(str(fault)))}.*"

    def take_away(self, lines) -> None:
        """The end of a lesson, at most five lines.

        Parameters
        ----------
        lines : callable
            Takes the lesson, returns a list of Markdown lines with computed numbers.
        """
        self.say(lambda lesson: "**Take away**\n\n" + listed(at_most_five(lines(lesson))))

    @in_turn
    def change(
        self,
        family: str | None = None,
        projector: bool | None = None,
        car: Car | None = None,
        sheet: Path | None = None,
    ) -> None:
        """Other units, look or car for everything in the notebook; with a car, the file it came from."""
        self._sheet = sheet if car else self._sheet
        self.family, self.car = family or self.family, car or self.car
        self.look = self.look if projector is None else Look(projector=projector)
        session.remembered(self.name, "lesson").update(family=self.family, projector=self.look.projector)
        for handle, words in self._texts:
            if handle:
                handle.update(prose(self._told(words)), raw=True)
        for shown in list(self._shown):
            shown.restyle()

    @in_turn
    def open_panels(self, on: bool) -> None:
        """Open the controls of every panel without a prediction, or ask for one again."""
        self.open_at_once = on
        for shown in self._shown:
            if hasattr(shown, "open_controls"):
                shown.open_controls(on)


def wanting(name: str):
    """Register, for a lesson's name, a function of a car: what it lacks for that lesson, in words."""

    def register(lacking):
        _WANTS[name] = lacking
        return lacking

    return register


def prose(words: str) -> dict:
    """A mime bundle of Markdown that reads as well where nothing renders it."""
    return {"text/markdown": words, "text/plain": words}


@cache
def training_titles() -> frozenset[str]:
    """Titles of the college's cars."""
    return frozenset(training_car(name).title for name in training_cars())


def listed(lines: list[str]) -> str:
    """Lines of Markdown as a list."""
    return "\n".join(f"- {line}" for line in lines)


def at_most_five(lines: list[str]) -> list[str]:
    """The lines of a take-away; more would not be taken away."""
    if len(lines) > 5:
        raise TypeError(f"take_away: wanted at most 5 lines, given {len(lines)}")
    return lines


def capital(words: str) -> str:
    """The first letter large, the others as they are."""
    return words[:1].upper() + words[1:]


def load(car) -> Car:
    """A car from a training car's name, a sheet's path, or a car itself, its title fit for a page."""
    if not isinstance(car, Car):
        car = training_car(car) if isinstance(car, str) and car in training_cars() else read(Path(car))
    return replace(car, title=fit_for_a_page(car.title))


def fit_for_a_page(title: str) -> str:
    """A title without the characters that Markdown or HTML act on; it stands in many sentences."""
    return " ".join(title.translate(_ACTED_ON).split()) or "car without a title"
