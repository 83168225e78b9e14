"""Lesson 11, did it work: questions with a number, on runs."""

import math

from rollmodel.questions.bank import test_day
from rollmodel.questions.bank.test_day import DEG_PER_G
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import by
from rollmodel.questions.shown import Given

ANGLE, FINE = Given("angle", 0.01, 0.01), Given("roll gradient", 0.01, 0.01)
COUNT, G = Given("ratio", 1, 1), Given("lateral acceleration", 0.05, 0.05)
ONE_G = math.radians(1) / DEG_PER_G  # m/s^2


def _two_points(stream) -> dict:
    gradient, zero = stream.between(2.4, 4.5, 0.05), stream.between(0.15, 0.60, 0.05)
    low, high = stream.between(0.20, 0.35, 0.05), stream.between(0.55, 0.75, 0.05)
    zero *= stream.pick((-1, 1))
    return {
        "a_low": low * ONE_G,
        "a_high": high * ONE_G,
        "roll_low": math.radians(gradient * low + zero),
        "roll_high": math.radians(gradient * high + zero),
    }


def _slope(n) -> float:
    return float(test_day.line([n.a_low, n.a_high], [n.roll_low, n.roll_high])[0])


two_steady_points = Numeric(
    id="two-steady-points",
    lesson=11,
    aim="Read a roll gradient off two steady points.",
    level=1,
    minutes=3,
    pools=("exercise", "recall", "assessment"),
    text="On a circle a car is held steady at {a_low}, then at {a_high}. The sensor shows {roll_low} of "
    "roll, then {roll_high}. Nobody has set the sensor's zero. What is the roll gradient?",
    hint="Which part of both readings is the sensor's zero? What do you do to lose it?",
    process="Difference of the two roll angles over the difference of the two lateral accelerations.",
    worked=(
        "More roll: {roll_high} less {roll_low} is {more_roll}.",
        "More lateral acceleration: {a_high} less {a_low} is {more_a}.",
        "One over the other: {answer}. A zero that is off is in both readings, so it is gone.",
    ),
    given={"a_low": G, "a_high": G, "roll_low": ANGLE, "roll_high": ANGLE},
    draw=_two_points,
    kind="roll gradient",
    key=_slope,
    workings=lambda n: {
        "more_roll": (n.roll_high - n.roll_low, "angle"),
        "more_a": (n.a_high - n.a_low, "lateral acceleration"),
    },
    roads=(
        by("one point from nought", lambda n: n.roll_high / n.a_high),
        by("one point from nought", lambda n: n.roll_low / n.a_low),
        by("one difference of two", lambda n: (n.roll_high - n.roll_low) / n.a_high),
        by("slope upside down", lambda n: DEG_PER_G**2 / _slope(n)),
    ),
)


def _both_ways(stream) -> dict:
    needed, zero = stream.between(50, 90, 1), stream.between(5, 12, 0.5) * stream.pick((-1, 1))
    return {
        "a": stream.between(0.40, 0.60, 0.05) * ONE_G,
        "left": math.radians(needed + zero),
        "right": math.radians(-needed + zero),
    }


both_ways_round = Numeric(
    id="both-ways-round",
    lesson=11,
    aim="Take the steering's zero out by driving both ways round.",
    level=1,
    minutes=3,
    pools=("exercise", "recall", "assessment"),
    text="The zero of a steering sensor is off. Steady at {a} on one circle it reads {left} in left-hand "
    "turns and {right} in right-hand turns; left is positive. How much does the driver really turn the "
    "steering wheel at that lateral acceleration?",
    hint="The zero moves both readings the same way. What does it do to their sizes?",
    process="Count each reading into its own corner: turn the sign of the right-hand one. Then take the "
    "mean.",
    worked=(
        "Into the corner: {left} to the left and {into_right} to the right.",
        "Their mean: {answer}. The zero is off by {zero}: it is in one with a plus, in the other with a "
        "minus.",
    ),
    given={"a": G, "left": Given("angle", 0.5, 0.5), "right": Given("angle", 0.5, 0.5)},
    draw=_both_ways,
    kind="angle",
    key=lambda n: test_day.mean_of_sides(n.left, n.right),
    workings=lambda n: {"into_right": (-n.right, "angle"), "zero": ((n.left + n.right) / 2, "angle")},
    roads=(
        by("one way round alone", lambda n: n.left),
        by("one way round alone", lambda n: -n.right),
        by("mean with signs", lambda n: (n.left + n.right) / 2),
        by("sides added, not halved", lambda n: n.left - n.right),
    ),
)


def _on_circle(stream) -> dict:
    wheelbase, radius = stream.between(2.35, 2.65, 0.01), stream.between(25, 40, 5)
    ratio, a = stream.between(13, 18, 0.5), stream.between(0.45, 0.65, 0.05) * ONE_G
    slip = stream.between(0.6, 1.8, 0.1) * DEG_PER_G * a
    return {
        "wheelbase": wheelbase,
        "radius": radius,
        "ratio": ratio,
        "a": a,
        "turned": ratio * (wheelbase / radius + slip),
    }


def _bend(n) -> float:
    return n.wheelbase / n.radius


def _understeer(n) -> float:
    return float(test_day.line([0.0, n.a], [_bend(n), n.turned / n.ratio])[0])


understeer_on_circle = Numeric(
    id="understeer-on-circle",
    lesson=11,
    aim="Work out the understeer gradient from the steering on a circle.",
    level=2,
    minutes=5,
    pools=("exercise", "assessment"),
    text="A car with a wheelbase of {wheelbase} drives on a circle with a radius of {radius}. At {a} the "
    "steering wheel stands at {turned}. The steering ratio is {ratio}. What is the understeer gradient, "
    "drawn as a straight line from the slow car to this point?",
    hint="What angle do the road wheels have? How much of it would the slow car need as well?",
    process="Steering wheel angle over steering ratio, less wheelbase over radius (turned into degrees). All "
    "that over the lateral acceleration.",
    worked=(
        "At the road wheels: {turned} over {ratio} is {road}.",
        "The bend alone: wheelbase over radius is {bend}. What is left: {rest}.",
        "Over {a}: {answer}.",
    ),
    given={
        "wheelbase": Given("long length"),
        "a": G,
        "turned": Given("angle", 0.5, 0.5),
        "ratio": Given("ratio", 0.5, 0.5),
    },
    draw=_on_circle,
    tolerance=Tolerance("a small difference of two angles, each worked to three figures", 0.03),
    kind="understeer gradient",
    key=_understeer,
    workings=lambda n: {
        "radius": (n.radius, "radius"),
        "road": (n.turned / n.ratio, "angle"),
        "bend": (_bend(n), "angle"),
        "rest": (n.turned / n.ratio - _bend(n), "angle"),
    },
    roads=(
        by("path angle left out", lambda n: n.turned / n.ratio / n.a),
        by("steering ratio left out", lambda n: (n.turned - _bend(n)) / n.a),
        by("ends added", lambda n: (n.turned / n.ratio + _bend(n)) / n.a),
        by("bend through the ratio", lambda n: (n.turned / n.ratio - _bend(n) / n.ratio) / n.a),
        by("angle for gradient", lambda n: _understeer(n) * n.a / ONE_G),
    ),
)


def each(n) -> int:
    """Runs in each mean: both ways round together."""
    return 2 * round(n.runs)


def freedom(n) -> int:
    """Two setups, two ways round: each has a mean of its own."""
    return 2 * each(n) - 4


def _half(n, runs_in_mean: float | None = None) -> float:
    """Half the interval of the change, as if each mean held so many runs."""
    return test_day.half_interval(n.scatter, runs_in_mean or each(n), freedom(n))


def _spread(n, runs_in_mean: float | None = None) -> float:
    """Standard deviation of the difference of the two means."""
    return _half(n, runs_in_mean) / test_day.student(freedom(n))


SPREAD_ROADS = (
    by("one mean for a difference", lambda n: _spread(n) / math.sqrt(2)),
    by("one run for the mean", lambda n: _spread(n, 1)),
    by("one way round counted", lambda n: _spread(n, each(n) / 2)),
)
interval_of_change = Numeric(
    id="interval-of-change",
    lesson=11,
    aim="Work out how well some runs know a change.",
    level=3,
    minutes=6,
    pools=("exercise", "assessment"),
    text="{runs} runs each way round are driven before a change, and as many after. With nothing changed, "
    "one run's roll gradient scatters by {scatter} (standard deviation). For so many runs Student's t is "
    "{student}. How large is half the interval of the change: the figure behind its plus-or-minus sign?",
    hint="How many runs are in each mean? And how many means are in a change?",
    process="Scatter x root of (2 / runs in each mean), both ways round counted together. Then times t.",
    worked=(
        "Runs in each mean, both ways round: {each}.",
        "The change is a difference of two means. It scatters by {scatter} x root of (2 / {each}) = "
        "{spread}.",
        "Times t, {student}: plus or minus {answer}. A smaller change than that is not seen.",
    ),
    given={"runs": COUNT, "scatter": FINE},
    draw=lambda stream: {
        "runs": stream.between(3, 8, 1),
        "scatter": stream.between(0.05, 0.15, 0.01) * DEG_PER_G,
    },
    kind="roll gradient",
    key=_half,
    workings=lambda n: {
        "student": (test_day.student(freedom(n)), "ratio"),
        "each": (each(n), "ratio"),
        "spread": (_spread(n), "roll gradient"),
    },
    steps=(
        Step(
            name="spread",
            kind="roll gradient",
            text="By how much does the difference of the two means scatter (standard deviation)?",
            key=_spread,
            hint="A mean of several runs scatters less than one run. A difference scatters more than a mean.",
            process="Scatter of one run x root of (2 / runs in each mean).",
            worked="Each mean holds {each} runs: {scatter} x root of (2 / {each}) = {answer}.",
            roads=SPREAD_ROADS,
        ),
    ),
    roads=(
        by("one mean for a difference", lambda n: _half(n) / math.sqrt(2)),
        by("one run for the mean", lambda n: _half(n, 1)),
        by("one way round counted", lambda n: _half(n, each(n) / 2)),
        by("t left out", _spread),
        by("runs without the root", lambda n: _half(n) * math.sqrt(2 / each(n))),
    ),
)

QUESTIONS = (interval_of_change, two_steady_points, both_ways_round, understeer_on_circle)
