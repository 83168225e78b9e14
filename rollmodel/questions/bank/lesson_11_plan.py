"""Lesson 11, did it work: planning the day, and stopping it."""

import math

from rollmodel.car import GRAVITY
from rollmodel.questions.bank import test_day
from rollmodel.questions.bank.cars import setups
from rollmodel.questions.bank.lesson_10_words import at
from rollmodel.questions.bank.lesson_11_words import COUNT, GRADIENT
from rollmodel.questions.bank.test_day import DEG_PER_G
from rollmodel.questions.records import Choice, Option, wrong
from rollmodel.questions.shown import Given

ANGLE, G = Given("angle", 0.1, 0.1), Given("lateral acceleration", 0.05, 0.05)
LIKELY = 0.8  # four times in five
FEWEST = 3  # runs each way round


def enough(n) -> int:
    return test_day.runs_needed(n.predicted, n.scatter) or 0


def _just(n) -> int:
    """Runs each way round at which half the interval has come down to the change itself."""
    halves = ((runs, test_day.half_interval(n.scatter, 2 * runs, 4 * runs - 4)) for runs in range(2, 60))
    return next(runs for runs, half in halves if half < abs(n.predicted))


how_many_runs = Choice(
    id="how-many-runs",
    lesson=11,
    aim="Plan as many runs as a change needs.",
    level=2,
    minutes=4,
    pools=("exercise", "assessment"),
    text="The sheet predicts that a change moves the roll gradient by {predicted}. With nothing changed, "
    "one run scatters by {scatter} (standard deviation). How many runs each way round do you plan, before "
    "the change and again after it?",
    hint="If the interval is just as wide as the change, how often will it leave zero out?",
    process="The interval has to be clearly narrower than the change. Otherwise the scatter decides the "
    "verdict.",
    worked=(
        "With {just} runs each way the interval is just as wide as the change: it shows in {just_chance} "
        "of such tests.",
        "With {enough} it shows in {enough_chance}: about four times in five, which is what is planned for.",
    ),
    given={"predicted": GRADIENT, "scatter": GRADIENT},
    draw=lambda stream: {
        "predicted": stream.between(0.06, 0.16, 0.01) * DEG_PER_G,
        "scatter": stream.between(0.08, 0.18, 0.01) * DEG_PER_G,
    },
    sound=lambda n: n.predicted < n.scatter and FEWEST <= _just(n) < enough(n) <= 15,
    workings=lambda n: {
        "just": (_just(n), "ratio"),
        "enough": (enough(n), "ratio"),
        "just_chance": (test_day.chance(n.predicted, n.scatter, _just(n)), "share"),
        "enough_chance": (test_day.chance(n.predicted, n.scatter, enough(n)), "share"),
    },
    key=lambda n: "just" if test_day.chance(n.predicted, n.scatter, _just(n)) >= LIKELY else "enough",
    options=(
        Option("enough", "{enough}: then the interval leaves zero out four times in five."),
        wrong(
            "just", "{just}: then the interval is just as wide as the change.", "even chance for certainty"
        ),
        wrong("one", "1: one careful run tells more than many hurried ones.", "one run each"),
        wrong(
            "none",
            "None: the change is smaller than one run's scatter, so no test shows it.",
            "scatter as a wall",
        ),
    ),
)

STEPS = {"front": "front softer", "rear": "rear stiffer"}


def _moved(n, end: str) -> float:
    """What one step at that end does to the roll gradient, by the model."""
    found = setups(n.car)
    return found[at(n.pair, STEPS[end])].roll_gradient - found[n.pair].roll_gradient


def _smallest(n) -> float:
    return test_day.smallest_change(n.scatter, round(n.runs))


def _two_ways(stream) -> dict:
    pairs = [
        pair for pair in setups("hatch") if all(at(pair, step) in setups("hatch") for step in STEPS.values())
    ]
    return {
        "car": "hatch",
        "pair": stream.pick(pairs),
        "runs": stream.between(FEWEST, 6, 1),
        "scatter": stream.between(0.06, 0.12, 0.01) * DEG_PER_G,
    }


which_to_plan = Choice(
    id="which-to-plan",
    lesson=11,
    aim="Plan a change that the test can show.",
    level=2,
    minutes=4,
    pools=("exercise", "assessment"),
    text="Two changes would move the balance of a car the same way. By the sheet, the front bar one hole "
    "softer moves the roll gradient by {front}, the rear bar one hole stiffer by {rear}. There is time for "
    "{runs} runs each way round, before and again after. Four times in five they show a change of "
    "{smallest}. Which do you plan?",
    hint="Which of the two changes would these runs see?",
    process="Hold each predicted change, its sign aside, against the smallest that the runs show.",
    worked=(
        "Rear: {rear} is more than {smallest}. Front: {front} is less, and would most likely be lost in the "
        "scatter.",
        "Both at once would partly cancel in roll, and nobody could say which of them did what.",
        "If the inside rear wheel lifts, stop: that is in the plan too.",
    ),
    given={"runs": COUNT},
    draw=_two_ways,
    sound=lambda n: (
        abs(_moved(n, "front")) < 0.9 * _smallest(n) and abs(_moved(n, "rear")) > 1.1 * _smallest(n)
    ),
    workings=lambda n: {
        "front": (_moved(n, "front"), "roll gradient"),
        "rear": (_moved(n, "rear"), "roll gradient"),
        "smallest": (_smallest(n), "roll gradient"),
    },
    key=lambda n: max(STEPS, key=lambda end: abs(_moved(n, end)) >= _smallest(n)),
    options=(
        Option("rear", "The rear bar alone: that change is one that the runs can show."),
        wrong("front", "The front bar alone: a small step is the safe one.", "change too small to see"),
        wrong("both", "Both together: that surely shows.", "both ends at once"),
        wrong("lap", "Either: the lap times will tell which was right.", "quicker lap"),
    ),
)


def _sheet_roll(n) -> float:
    return test_day.roll_at(n.car, n.a)


def _off(n) -> float:
    """By which part the reading is off the sheet's roll."""
    return abs(n.seen / _sheet_roll(n) - 1)


def _too_far(stream) -> dict:
    car, a = stream.pick(("coupe", "saloon", "hatch")), stream.between(0.35, 0.55, 0.05) * GRAVITY
    part = 1 + stream.between(0.25, 0.45, 0.05) * stream.pick((-1, 1))
    return {
        "car": car,
        "a": a,
        "limit": stream.between(0.10, 0.20, 0.05),
        "seen": test_day.roll_at(car, a) * part,
    }


stop_here = Choice(
    id="stop-here",
    lesson=11,
    aim="Keep to a stop rule.",
    level=1,
    minutes=3,
    pools=("exercise", "assessment"),
    text="Before the day you wrote down: stop when the roll is off the sheet's by more than {limit}. At "
    "{a} the sheet says {roll}; the sensor shows {seen}. The car felt as usual. What do you do?",
    hint="Why was the rule written down before the day, and not during it?",
    process="Reading over the sheet's figure, less one: is that more than the rule allows?",
    worked=(
        "{seen} over {roll}: off by {off}. The rule says {limit}.",
        "Stop here. A loose link, a sensor that slipped, a soft tyre or a wrong sheet: find it standing "
        "still, not one step faster.",
    ),
    given={"limit": Given("share", 5, 5), "a": G, "seen": ANGLE},
    draw=_too_far,
    sound=lambda n: _off(n) > 1.2 * n.limit,
    workings=lambda n: {"roll": (_sheet_roll(n), "angle"), "off": (_off(n), "share")},
    key=lambda n: "stop" if _off(n) > n.limit else "on",
    options=(
        Option("stop", "Stop, and find the reason before the next step."),
        wrong("on", "One step faster, to see whether it stays so.", "stop rule bent"),
        wrong("wider", "Go on with a wider rule: this one was too strict.", "rule after the reading"),
        wrong("drop", "Go on, and leave this reading out of the fit.", "reading dropped in silence"),
    ),
)


def _one_side(stream) -> dict:
    return {
        "zero": math.radians(stream.between(4, 9, 0.5)),
        "a": stream.between(0.4, 0.6, 0.05) * GRAVITY,
        "steer": math.radians(stream.between(50, 90, 1)),
    }


def _what_moves(n) -> str:
    """Which of slope and angle a zero moves, by the fit of a run with it and one without."""
    accelerations = [n.a / 3, 2 * n.a / 3, n.a]
    shown = [n.steer * a / n.a for a in accelerations]
    (slope, start), (slope_off, start_off) = (
        test_day.line(accelerations, [one + zero for one in shown]) for zero in (0.0, n.zero)
    )
    moved = abs(slope_off - slope) * n.a > 0.01 * n.zero, abs(start_off - start) > 0.01 * n.zero
    return {(False, True): "angle", (True, False): "slope", (True, True): "both"}.get(moved, "neither")


one_way_enough = Choice(
    id="one-way-enough",
    lesson=11,
    aim="Say what driving both ways round is for.",
    level=2,
    minutes=4,
    pools=("exercise", "assessment"),
    text="The zero of a steering sensor is off by {zero}. Only left-hand runs are driven, up to {a}, where "
    "the driver turns the wheel by {steer}. Which figures of this car come out wrong?",
    hint="Draw the points of a run, then shift all of them by the same amount. What happens to the line?",
    process="A zero moves every point of a run alike. What does that do to a height, and what to a slope?",
    worked=(
        "The sensor shows {steer} with {zero} on top: the angle is wrong, by the zero. The line's slope "
        "stays.",
        "A track that slopes and a linkage that is bent do reach the slope, and only the other way round "
        "shows that. So drive both ways, for angle and slope alike.",
    ),
    given={"zero": Given("angle", 0.5, 0.5), "a": G, "steer": Given("angle", 1, 1)},
    draw=_one_side,
    key=_what_moves,
    options=(
        Option("angle", "The angle at {a}. The slope against lateral acceleration stays as it is."),
        wrong("both", "The angle and the slope, both.", "zero taken into the slope"),
        wrong("slope", "The slope alone: the angle is what the sensor shows.", "sensor's zero trusted"),
        wrong(
            "neither", "None: one way round is enough, the other gives the same.", "other way round left out"
        ),
    ),
)

QUESTIONS = (how_many_runs, which_to_plan, stop_here, one_way_enough)
