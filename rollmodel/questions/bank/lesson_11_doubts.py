"""Lesson 11, did it work: what makes a prediction uncertain, and what to measure better first."""

from rollmodel.questions.bank import test_day
from rollmodel.questions.bank.cars import car_of, road_car
from rollmodel.questions.bank.test_day import DEG_PER_G
from rollmodel.questions.records import Choice, Numeric, Option, Tolerance, wrong
from rollmodel.questions.roads import by

DOUBTS = {
    "cg_height": 0.025,
    "roll_centre_height": 0.015,
    "mass": 20.0,
}  # plus or minus; the springs' is drawn
BETTER = 0.5  # part of its doubt that the height keeps once it is measured again


def _sheet(stream) -> dict:
    return {**road_car(stream), "springs": stream.between(0.04, 0.12, 0.01)}


def doubt(n, height: float = 1.0, springs: float = 1.0, mass: float = 1.0, centre: float = 0.0) -> float:
    """Uncertainty of the predicted roll gradient, each number's own doubt taken so many times."""
    doubts = {
        "cg_height": DOUBTS["cg_height"] * height,
        "mass": DOUBTS["mass"] * mass,
        "front.spring_rate": n.springs * n.spring_front * springs,
        "front.roll_centre_height": DOUBTS["roll_centre_height"] * centre,
    }
    there = tuple((name, limit) for name, limit in doubts.items() if limit)
    return test_day.roll_gradient_doubt(car_of(n), (n.bar_front, n.bar_rear), there)


def alone(n) -> dict[str, float]:
    """What each of the three makes uncertain by itself."""
    return {
        "height": doubt(n, 1, 0, 0),
        "springs": doubt(n, 0, 1, 0),
        "mass": doubt(n, 0, 0, 1),
    }


def _better(n) -> float:
    return doubt(n, height=BETTER)


doubt_left = Numeric(
    id="doubt-left",
    lesson=11,
    aim="Say what a better measurement makes of a prediction.",
    level=3,
    minutes=5,
    pools=("exercise", "assessment"),
    text="Three numbers of a sheet make its roll gradient uncertain. The height of the centre of gravity "
    "brings plus or minus {height}, the front springs {springs}, the mass {mass}, each by itself. They "
    "know nothing of each other. The height is measured again and its part is halved. How uncertain is the "
    "roll gradient now?",
    hint="Do three independent doubts all pull the same way at once?",
    process="Halve the height's part. Square each part, add the squares, take the root.",
    worked=(
        "The height's part now: {halved}.",
        "Root of ({halved} squared + {springs} squared + {mass} squared) = {answer}.",
        "It was {before}. Halving the springs' part instead would leave {other}.",
    ),
    given={},
    draw=_sheet,
    sound=lambda n: alone(n)["height"] > 1.2 * alone(n)["springs"] > 0,
    kind="roll gradient",
    tolerance=Tolerance("parts shown to four figures, squares and a root", 0.01),
    key=_better,
    workings=lambda n: {
        **{name: (part, "roll gradient") for name, part in alone(n).items()},
        "halved": (BETTER * alone(n)["height"], "roll gradient"),
        "before": (doubt(n), "roll gradient"),
        "other": (doubt(n, springs=BETTER), "roll gradient"),
    },
    roads=(
        by("doubts added", lambda n: BETTER * alone(n)["height"] + alone(n)["springs"] + alone(n)["mass"]),
        by("measurement left out", doubt),
        by("whole doubt halved", lambda n: BETTER * doubt(n)),
        by("squares without the root", lambda n: _better(n) ** 2 / DEG_PER_G),
        by("wrong doubt halved", lambda n: doubt(n, springs=BETTER)),
    ),
)


def _rows(n) -> dict:
    parts = {**alone(n), "centre": doubt(n, 0, 0, 0, 1)}
    return {
        **{name: (part, "roll gradient") for name, part in parts.items()},
        "height_off": (DOUBTS["cg_height"], "length"),
        "centre_off": (DOUBTS["roll_centre_height"], "length"),
        "springs_off": (n.springs, "share"),
        "mass_off": (DOUBTS["mass"], "mass"),
        "centre_share": (DOUBTS["roll_centre_height"] / n.roll_centre_front, "share"),
        "whole": (doubt(n, centre=1.0), "roll gradient"),
        "left": (doubt(n, height=0.0, centre=1.0), "roll gradient"),
    }


def _most(n) -> str:
    """The number that brings most of the uncertainty."""
    parts = {**alone(n), "centre": doubt(n, 0, 0, 0, 1)}
    return max(parts, key=parts.__getitem__)


measure_first = Choice(
    id="measure-first",
    lesson=11,
    aim="Say what to measure better first.",
    level=2,
    minutes=4,
    pools=("exercise", "assessment"),
    text="A sheet predicts a roll gradient to plus or minus {whole}. By itself the height of the centre of "
    "gravity (plus or minus {height_off}) brings {height} of that, the front springs (plus or minus "
    "{springs_off}) bring {springs}, the front roll centre (plus or minus {centre_off}) brings {centre}, "
    "the mass (plus or minus {mass_off}) brings {mass}. There is time for one measurement. Which number do "
    "you measure better?",
    hint="If one of these parts were gone, how much of the whole would be left?",
    process="Parts add as squares. So the largest part counts for most, and the small ones for next to "
    "nothing.",
    worked=(
        "The height brings {height}, more than any other. Known exactly, it would leave {left} of {whole}.",
        "That is what to measure first: raise one end further, and weigh more often.",
    ),
    draw=_sheet,
    sound=lambda n: _most(n) == "height" and alone(n)["height"] > 1.2 * alone(n)["springs"],
    workings=_rows,
    key=_most,
    options=(
        Option("height", "The height of the centre of gravity: it brings the most to the prediction."),
        wrong(
            "centre",
            "The roll centre: {centre_off} is {centre_share} of it, the worst known number of all.",
            "doubt in itself for its effect",
        ),
        wrong("mass", "The mass: it is the easiest to weigh exactly.", "easiest first"),
        wrong("all", "All four a little: every doubt counts alike.", "every doubt alike"),
    ),
)

QUESTIONS = (doubt_left, measure_first)
