"""Every sentence with numbers, of every lesson, for every training car in both unit families."""

import inspect
import pkgutil
import re
from dataclasses import replace
from importlib import import_module

import pytest

import rollmodel.panels.lessons as lessons
from rollmodel.panels.lesson import Lesson
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import FAMILIES

NAMES = [one.name for one in pkgutil.iter_modules(lessons.__path__)]
MODULES = [import_module(f"{lessons.__name__}.{one}") for one in NAMES if re.fullmatch(r"lesson_\d\d", one)]


def sentences(module):
    """The module's own functions that take a lesson and nothing else."""
    return [function for name, function in vars(module).items()
            if inspect.isfunction(function) and function.__module__ == module.__name__
            and not name.startswith("_") and list(inspect.signature(function).parameters) == ["lesson"]]


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__[-9:])
@pytest.mark.parametrize("family", FAMILIES)
def test_sentences_hold_numbers_for_every_car_and_no_article_before_a_title_of_ones_own(module, family):
    assert sentences(module)
    for car in training_cars():
        own = replace(training_car(car), title="My old car")
        lesson = Lesson(module.__name__[-2:], own if family == FAMILIES[0] else car)
        lesson.family = family
        for function in sentences(module):
            said = function(lesson)
            words = " ".join(said) if isinstance(said, list) else said
            assert "the my old car" not in words.lower(), (function.__name__, words)
            assert re.search(r"\d", words), function.__name__
            assert not re.search(r"\bnan\b|\binf\b|None|\{|\}", words), (function.__name__, car, words)
            if isinstance(said, list):
                assert 1 <= len(said) <= 5
