"""What the training cars have in a field, as an example beside its box."""

from __future__ import annotations

import tomllib
from functools import lru_cache

from rollmodel.sheets.form.layout import Line
from rollmodel.sheets.form.typed import car_answers
from rollmodel.sheets.training import training_cars

_FIRST = "coupe"


@lru_cache(maxsize=16)
def start_answers(name: str, family: str) -> dict[str, str]:
    """A training car's sheet as answers, to start from."""
    tables = tomllib.loads(training_cars()[name].read_text(encoding="utf-8"))
    return car_answers(tables, family)


def example(line: Line, family: str) -> str:
    """What the first training car that has this says there; empty where none has it.

    Examples
    --------
    >>> from rollmodel.sheets.form.layout import every_path
    >>> example(every_path()["front.track"], "metric")
    'coupe: 1.52 m front, 1.51 m rear'
    """
    for name in (_FIRST, *(name for name in training_cars() if name != _FIRST)):
        answers = start_answers(name, family)
        there = {path: answers[path] for path in line.paths if answers.get(path)}
        if there:
            return f"{name}: {_together(there)}"
    return ""


def _together(there: dict[str, str]) -> str:
    values = list(there.values())
    if len(set(values)) == 1:
        return values[0]
    return ", ".join(f"{value} {path.partition('.')[0]}" for path, value in there.items())
