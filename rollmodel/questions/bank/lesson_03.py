"""Lesson 3, from the bar to the wheel to the car: questions with a number."""

import math

from rollmodel.physics import axle, stiffness
from rollmodel.questions.records import Numeric, Step
from rollmodel.questions.roads import (
    by,
    full_track_for_half,
    half_track_for_full,
    motion_ratio_inverted,
    motion_ratio_left_out,
    motion_ratio_not_squared,
    motion_ratio_squared_twice,
    with_changed,
)
from rollmodel.questions.shown import Given

RATE, RATIO, TRACK = Given("rate"), Given("ratio", 0.01, 0.01), Given("long length", 0.01, 0.1)
STIFFNESS, TRAVEL = Given("roll stiffness"), Given("length", 0.1, 0.005)
A_DEGREE = math.degrees(1.0)  # N*m/rad in one N*m/deg
RATIO_ROADS = (motion_ratio_not_squared(), motion_ratio_squared_twice(), motion_ratio_inverted(),
               motion_ratio_left_out())


def part(stream) -> dict:
    """A spring or a bar at its own end, and how much it moves."""
    return {"rate": stream.between(40e3, 120e3, 1e3), "motion_ratio": stream.between(0.50, 0.85, 0.01)}


spring_at_wheel = Numeric(
    id="spring-at-wheel", lesson=3, aim="Carry a spring's rate to the wheel.",
    level=1, minutes=2, pools=("exercise", "recall", "assessment"),
    text="A spring has {rate}. It moves {motion_ratio} times as far as its wheel. What rate does it give at "
         "the wheel?",
    hint="The spring moves less than the wheel. What else is less at the wheel?",
    process="Multiply the rate by the motion ratio twice: once for travel, once for force.",
    worked=("Motion ratio times itself: {squared}.", "{rate} x {squared} = {answer}."),
    given={"rate": RATE, "motion_ratio": RATIO}, draw=part, kind="rate",
    key=lambda n: float(stiffness.wheel_rate(n.rate, n.motion_ratio)),
    workings=lambda n: {"squared": (n.motion_ratio**2, "ratio")}, roads=RATIO_ROADS)


def in_roll(n) -> float:
    """The bar at the wheel in roll, from its rate at the link with one end held."""
    return float(stiffness.wheel_rate(axle.roll_rate(0.0, n.rate), n.motion_ratio))


def _held(n) -> float:
    return float(stiffness.wheel_rate(n.rate, n.motion_ratio))


bar_at_wheel = Numeric(
    id="bar-at-wheel", lesson=3, aim="Work out what each wheel feels of a bar in roll.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"),
    text="On the bench, with one end held, a bar shows {rate} at the link. On the car the link moves "
         "{motion_ratio} times "
         "as far as the wheel. What rate does the bar give at each wheel in roll?",
    hint="Two things happen on the way: one with the ends of the bar, one with the link.",
    process="In roll both ends move: twice the bench rate. Then motion ratio squared.",
    worked=("In roll at the link: 2 x {rate} = {link}.", "Motion ratio squared: {squared}.",
            "At each wheel: {link} x {squared} = {answer}."),
    given={"rate": RATE, "motion_ratio": RATIO}, draw=part, kind="rate", key=in_roll,
    workings=lambda n: {"link": (axle.roll_rate(0.0, n.rate), "rate"),
                        "squared": (n.motion_ratio**2, "ratio")},
    steps=(Step(name="link", kind="rate", text="What rate does each link feel in roll?",
                key=lambda n: float(axle.roll_rate(0.0, n.rate)), hint="How many ends of the bar move?",
                process="Twice the rate with one end "
                        "held.", worked="In roll at the link: 2 x {rate} = {answer}.",
                roads=(by("held used in roll", lambda n: n.rate),
                       by("factor 2 taken twice", lambda n: axle.roll_rate(0.0, 2 * n.rate)),
                       by("factor 2 lost the other way", lambda n: n.rate / 2))),),
    roads=(by("held used in roll", _held), with_changed("factor 2 taken twice", rate=lambda rate: 2 * rate),
           with_changed("factor 2 lost the other way", rate=lambda rate: rate / 4), *RATIO_ROADS))


def _measured(n, ratio=None) -> float:
    ratio = n.link_travel / n.wheel_travel if ratio is None else ratio
    return float(stiffness.wheel_rate(n.rate, ratio))


ratio_measured = Numeric(
    id="ratio-measured", lesson=3, aim="Use a motion ratio that was measured on the car.",
    level=1, minutes=3, pools=("exercise", "recall"),
    text="With the body on stands and a bar's link loose, a mechanic lifts the wheel by {wheel_travel}. The "
         "link's eye moves {link_travel}. The bar gives {rate} at the link in roll. What does it give at "
         "each wheel in roll?",
    hint="Two readings make the motion ratio. Which goes over which?",
    process="Motion ratio = link travel over wheel travel. Rate at the wheel = rate at the link x motion "
            "ratio squared.",
    worked=("Motion ratio: {link_travel} over {wheel_travel} = {ratio}. Squared: {squared}.",
            "{rate} x {squared} = {answer}."),
    given={"wheel_travel": TRAVEL, "link_travel": TRAVEL, "rate": RATE},
    draw=lambda stream: {"wheel_travel": stream.between(0.020, 0.040, 0.005),
                         "link_travel": stream.between(0.0100, 0.0165, 0.0005), "rate": part(stream)["rate"]},
    sound=lambda n: 0.45 < n.link_travel / n.wheel_travel < 0.85, kind="rate", key=_measured,
    workings=lambda n: {"ratio": (n.link_travel / n.wheel_travel, "ratio"),
                        "squared": ((n.link_travel / n.wheel_travel) ** 2, "ratio")},
    roads=(by("motion ratio not squared", lambda n: _measured(n, math.sqrt(n.link_travel / n.wheel_travel))),
           by("motion ratio squared twice", lambda n: _measured(n, (n.link_travel / n.wheel_travel) ** 2)),
           by("motion ratio inverted", lambda n: _measured(n, n.wheel_travel / n.link_travel)),
           by("factor 2 taken twice", lambda n: 2 * _measured(n))))


def of_rates(n, rate=axle.roll_rate) -> float:
    """Roll stiffness of an axle from the rates at its wheels."""
    return float(stiffness.roll_stiffness(rate(n.spring, n.bar), n.track))


def wheels(stream) -> dict:
    """Rates at the wheels, the bar's with the other wheel held, and the track."""
    return {"spring": stream.between(18e3, 45e3, 1e3), "bar": stream.between(6e3, 28e3, 1e3),
            "track": stream.between(1.40, 1.60, 0.01)}


axle_in_roll = Numeric(
    id="axle-in-roll", lesson=3, aim="Turn rates at the wheels into roll stiffness of the axle.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="At each wheel the spring gives {spring}, and the bar gives {bar} with the other wheel held. The "
         "track is {track}. "
         "The tyres are taken as rigid. What is the roll stiffness of the axle?",
    hint="What rate does each wheel feel in roll? By how much does it move for a given angle?",
    process="Rate in roll = spring + 2 x bar. Roll stiffness = that rate x track squared / 2, in force x "
            "length per radian. "
            "For each degree divide by 57.3.",
    worked=("Rate in roll: {spring} + 2 x {bar} = {rate}.",
            "Roll stiffness: {rate} x {track} squared / 2, then from radian to degree = {answer}."),
    given={"spring": RATE, "bar": RATE, "track": TRACK}, draw=wheels, kind="roll stiffness", key=of_rates,
    workings=lambda n: {"rate": (axle.roll_rate(n.spring, n.bar), "rate")},
    steps=(Step(name="rate", kind="rate", text="What rate does each wheel feel in roll?",
                key=lambda n: float(axle.roll_rate(n.spring, n.bar)), hint="Which of the two joins the "
                                                                           "wheels?",
                process="Spring + 2 x bar.", worked="Rate in roll: {spring} + 2 x {bar} = {answer}.",
                roads=(by("held used in roll", lambda n: axle.one_wheel_rate_other_held(n.spring, n.bar)),
                       by("bar left out", lambda n: axle.heave_rate(n.spring, n.bar)),
                       by("springs doubled too", lambda n: axle.roll_rate(2 * n.spring, n.bar)))),),
    roads=(by("held used in roll", lambda n: of_rates(n, axle.one_wheel_rate_other_held)),
           by("bar left out", lambda n: of_rates(n, axle.heave_rate)),
           by("springs left out", lambda n: of_rates(n, lambda k, b: axle.roll_rate(0.0, b))),
           by("half left out", lambda n: 2 * of_rates(n)), full_track_for_half(), half_track_for_full()))

def track_factor(new, old) -> float:
    """How an axle's roll stiffness changes with its track."""
    return float(stiffness.roll_stiffness(1.0, new) / stiffness.roll_stiffness(1.0, old))


wider_track = Numeric(
    id="wider-track", lesson=3, aim="Say what a wider track does to roll stiffness.",
    level=1, minutes=2, pools=("exercise", "recall"),
    text="An axle with a track of {old} has a roll stiffness of {stiffness}. Wider arms bring the track to "
         "{new}; the rates "
         "at the wheels stay the same and the tyres are rigid. What is its roll stiffness now?",
    hint="A wider track does two things at once. Which two?",
    process="New track over old track, squared, times the old roll stiffness.",
    worked=("New over old: {ratio}. Squared: {squared}.", "{stiffness} x {squared} = {answer}."),
    given={"old": TRACK, "new": TRACK, "stiffness": STIFFNESS},
    draw=lambda stream: {"old": stream.between(1.38, 1.46, 0.01), "new": stream.between(1.54, 1.64, 0.01),
                         "stiffness": stream.between(400, 1200, 10) * A_DEGREE},
    kind="roll stiffness",
    key=lambda n: n.stiffness * track_factor(n.new, n.old),
    workings=lambda n: {"ratio": (n.new / n.old, "ratio"), "squared": ((n.new / n.old) ** 2, "ratio")},
    roads=(by("track taken once", lambda n: n.stiffness * n.new / n.old),
           by("track taken for nothing", lambda n: n.stiffness),
           by("track upside down", lambda n: n.stiffness * (n.old / n.new) ** 2)))

QUESTIONS = (spring_at_wheel, bar_at_wheel, ratio_measured, axle_in_roll, wider_track)
