"""Lesson 8, when in the corner: questions with a number."""

import math

from rollmodel.car import GRAVITY, Axle, Damper
from rollmodel.physics.axle import roll_rate
from rollmodel.physics.dampers import damper_roll_rate
from rollmodel.physics.roll_mode import natural_frequency
from rollmodel.physics.stiffness import roll_stiffness, wheel_rate
from rollmodel.questions.bank.cars import TRACK
from rollmodel.questions.records import Numeric, Step
from rollmodel.questions.roads import (
    by,
    degree_for_radian,
    full_track_for_half,
    motion_ratio_inverted,
    motion_ratio_left_out,
    motion_ratio_not_squared,
    motion_ratio_squared_twice,
    with_changed,
)
from rollmodel.questions.shown import Given

DAMPER, ANGLE, TIME = Given("damper rate", 0.1, 0.5), Given("angle"), Given("time", 0.05, 0.05)
DEGREE = math.radians(1.0)


def damper_load(n) -> float:
    """Load transfer that an axle's dampers carry while the body rolls at an even pace, [N]."""
    axle = Axle(track=n.track, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.05,
                spring_rate=30e3, spring_motion_ratio=1.0, damper=Damper(n.rate, 1.0))
    return damper_roll_rate(axle) * n.angle / n.time / n.track


damper_at_wheel = Numeric(
    id="damper-at-wheel", lesson=8, aim="Bring a damper's rate to the wheel.",
    level=1, minutes=3, pools=("exercise", "recall"),
    text="A damper gives {rate}. It travels {motion_ratio} times as far as its wheel. What is its rate at "
         "the wheel?",
    hint="The motion ratio counts for the damper's speed, and once more for its force at the wheel.",
    process="As for springs: rate at the damper x motion ratio squared.",
    worked=("Motion ratio squared: {squared}.", "Rate at the wheel: {rate} x {squared} = {answer}."),
    given={"rate": DAMPER, "motion_ratio": Given("ratio")},
    draw=lambda stream: {"rate": stream.between(2000, 9000, 100),
                         "motion_ratio": stream.between(0.55, 0.9, 0.01)},
    kind="damper rate", key=lambda n: float(wheel_rate(n.rate, n.motion_ratio)),
    workings=lambda n: {"squared": (n.motion_ratio**2, "ratio")},
    roads=(motion_ratio_not_squared(), motion_ratio_squared_twice(), motion_ratio_inverted(),
           motion_ratio_left_out()))


def _rolling(stream) -> dict:
    return {"rate": stream.between(1000, 4000, 100), "track": stream.between(1.42, 1.58, 0.01),
            "angle": stream.between(0.5, 3.0, 0.1) * DEGREE, "time": stream.between(0.15, 0.6, 0.05)}


ROLLING = {"rate": DAMPER, "track": TRACK, "angle": ANGLE, "time": TIME}


def _travel(n) -> float:
    return n.track / 2 * n.angle


damper_on_the_way_in = Numeric(
    id="damper-on-the-way-in", lesson=8, aim="Work out what dampers carry while the body rolls.",
    level=2, minutes=5, pools=("exercise", "assessment"),
    text="On the way into a corner the body rolls {angle} further in {time}, at an even pace. Each damper "
         "of the front axle is worth {rate} at its wheel; the track is {track}. The tyres are taken as "
         "rigid. How much load transfer do the front dampers carry?",
    hint="How fast does each wheel move against the body?",
    process="Travel of a wheel = half the track x the angle in radians. Divided by the time it is a speed. "
            "Times the damper's rate it is a force: what one wheel gains the other loses.",
    worked=("Travel of each wheel: half of {track} x {angle} in radians = {travel}.",
            "Load transfer: {rate} x {travel} / {time} = {answer}."),
    given=ROLLING, draw=_rolling, kind="load", key=damper_load,
    workings=lambda n: {"travel": (_travel(n), "length")},
    steps=(Step(name="travel", kind="length", text="How far does each wheel travel against the body?",
                key=lambda n: float(roll_stiffness(1.0, n.track)) * n.angle / n.track,
                hint="How far is a wheel from the middle of the car?",
                process="Half the track x the angle in radians.",
                worked="Travel of each wheel: half of {track} x {angle} in radians = {answer}.",
                roads=(full_track_for_half(), degree_for_radian("angle"))),),
    roads=(full_track_for_half(), degree_for_radian("angle"),
           by("angle for speed", lambda n: damper_load(n) * n.time)))


def _on_the_way_out(n) -> float:
    return n.elastic + n.others - damper_load(n)


def _letting_go(stream) -> dict:
    return {**_rolling(stream), "elastic": stream.between(300, 1200, 20),
            "others": stream.between(150, 500, 10)}


way_out = Numeric(
    id="way-out", lesson=8, aim="Add up the load transfer on the way out of a corner.",
    level=3, minutes=6, pools=("exercise", "assessment"),
    text="A corner is being let go. At one moment the front springs and bar still carry {elastic} of load "
         "transfer, links and wheels {others} more. The body is rolling back: {angle} in {time}, at an even "
         "pace. Each front damper is worth {rate} at its wheel; the track is {track}. How much load "
         "transfer is there at the front in all?",
    hint="What do the dampers carry, and which way do they push while the body comes up?",
    process="Work out the dampers' part as on the way in. Rolling back they push the other way: take it "
            "away.",
    worked=("Travel of each wheel: half of {track} x {angle} in radians = {travel}.",
            "Dampers: {rate} x {travel} / {time} = {dampers}, taken away.",
            "In all: {elastic} + {others} - {dampers} = {answer}."),
    given={**ROLLING, "elastic": Given("load"), "others": Given("load")}, draw=_letting_go,
    sound=lambda n: damper_load(n) > 0.06 * (n.elastic + n.others) and _on_the_way_out(n) > 100.0,
    kind="load", key=_on_the_way_out,
    workings=lambda n: {"travel": (_travel(n), "length"), "dampers": (damper_load(n), "load")},
    roads=(by("damper keeps its sign", lambda n: n.elastic + n.others + damper_load(n)),
           by("damper left out", lambda n: n.elastic + n.others),
           full_track_for_half(),
           by("angle for speed", lambda n: n.elastic + n.others - damper_load(n) * n.time),
           by("link path left out", lambda n: n.elastic - damper_load(n))))


def _by_bar(n) -> float:
    return float(roll_stiffness(roll_rate(0.0, n.bar), n.track)) * n.angle / n.track


bar_on_the_way_in = Numeric(
    id="bar-on-the-way-in", lesson=8, aim="Work out what a bar carries before the body has settled.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"),
    text="A front bar gives {bar} at the wheel with the other wheel held. The track is {track}. The body "
         "will settle at {settled} of roll. At one moment on the way in it stands at {angle}. How much load "
         "transfer does the bar carry at that moment?",
    hint="A bar does not feel time or speed. What does it feel?",
    process="Travel of each wheel = half the track x the roll angle of that moment in radians. Rate of the "
            "bar in roll = 2 x its rate with one end held.",
    worked=("Travel of each wheel: half of {track} x {angle} in radians = {travel}.",
            "Load transfer: 2 x {bar} x {travel} = {answer}."),
    given={"bar": Given("rate"), "track": TRACK, "settled": ANGLE, "angle": ANGLE},
    draw=lambda stream: {"bar": stream.between(6e3, 25e3, 1e3), "track": stream.between(1.42, 1.58, 0.01),
                         "settled": stream.between(1.6, 3.2, 0.1) * DEGREE,
                         "angle": stream.between(0.4, 1.3, 0.1) * DEGREE},
    kind="load", key=_by_bar, workings=lambda n: {"travel": (_travel(n), "length")},
    roads=(by("held used in roll", lambda n: _by_bar(n) / 2), degree_for_radian("angle"),
           by("middle for way in", lambda n: _by_bar(n) * n.settled / n.angle)))

roll_swing = Numeric(
    id="roll-swing", lesson=8, aim="Work out how often a body would swing in roll.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="A body has {inertia} of inertia about the roll axis. Springs and bars, less gravity's share, hold "
         "it with {stiffness}. How often would it swing in a second, without dampers?",
    hint="Bring the stiffness to newton metres per radian, or pound feet per radian, first. In US units "
         "divide the inertia by 32.17 ft/s².",
    process="Square root of stiffness over inertia: radians a second. Over 2 pi: swings a second.",
    worked=("Stiffness for each radian: {stiffness} x 180 / pi.",
            "Root of stiffness over inertia, over 2 pi: {answer}."),
    given={"inertia": Given("inertia", 10, 100), "stiffness": Given("roll stiffness", 20, 20)},
    draw=lambda stream: {"inertia": stream.between(300, 700, 10),
                         "stiffness": stream.between(900, 2600, 20) / DEGREE},
    kind="frequency", key=lambda n: float(natural_frequency(n.stiffness, n.inertia)),
    roads=(with_changed("degree for radian", stiffness=lambda value: value * DEGREE),
           by("two pi left out", lambda n: 2 * math.pi * natural_frequency(n.stiffness, n.inertia)),
           by("root left out", lambda n: 2 * math.pi * natural_frequency(n.stiffness, n.inertia)**2),
           by("mass for weight", lambda n: natural_frequency(n.stiffness, n.inertia * GRAVITY))))

QUESTIONS = (damper_at_wheel, damper_on_the_way_in, way_out, bar_on_the_way_in, roll_swing)
