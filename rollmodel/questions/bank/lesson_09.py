"""Lesson 9, too soft and too stiff: questions with a number, on an axle as it can be worked out on paper."""

import math

from rollmodel.physics.regimes import HandAxle
from rollmodel.questions.bank.cars import TRACK
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import by, per_wheel_for_per_axle, with_changed
from rollmodel.questions.shown import Given

DEGREE = math.radians(1.0)
LOAD, DROP, ANGLE = Given("load", 50, 10), Given("grip drop"), Given("angle")
PART, LEAN = Given("share", 5, 5), Given("share", 0.1, 0.1)
LEANS = {"lean_loss": LEAN, "weight": LOAD, "recovered": PART}
LEAN_TEXT = (
    "A tyre loses {lean_loss} of its load in side force for each degree that it leans outward. The "
    "linkage gives back {recovered} of the body's roll. "
)


def leaning(stream) -> dict:
    """An axle's weight, its tyres' loss to lean, and what its linkage gives back."""
    return {
        "lean_loss": stream.between(0.012, 0.018, 0.001),
        "weight": stream.between(5000, 8000, 100),
        "recovered": stream.between(0.10, 0.70, 0.05),
    }


def on_paper(n, roll_angle=0.0, transfer=0.0) -> HandAxle:
    """The axle; with a stiffness of nil of its own it rolls and transfers just so much."""
    return HandAxle(
        n.weight,
        getattr(n, "track", 1.0),
        1.0,
        roll_angle,
        transfer,
        1.0,
        getattr(n, "grip_drop", 1e-6),
        math.degrees(n.lean_loss),
        1 - n.recovered,
    )


def lean_cost(n, roll_angle) -> float:
    """Side force that an axle loses because its tyres lean, [N]."""
    return float(on_paper(n, roll_angle).lost_to_camber(0.0))


def load_cost(n, transfer) -> float:
    """Side force that an axle loses because its tyres are loaded unevenly, [N]."""
    return float(on_paper(n, 0.0, transfer).lost_to_uneven_load(0.0))


def recovered_for_left():
    return with_changed("recovered part for the part left", recovered=lambda part: 1 - part)


lost_by_leaning = Numeric(
    id="lost-by-leaning",
    lesson=9,
    aim="Work out what leaning costs an axle.",
    level=1,
    minutes=3,
    pools=("exercise", "recall", "assessment"),
    text=LEAN_TEXT
    + "The axle carries {weight}, the body rolls {angle}. How much side force does the axle lose?",
    hint="By how much do the tyres lean against the road?",
    process="Part of the roll that is left x roll angle = lean. Loss for each degree x lean x weight.",
    worked=(
        "Part left: {left}. Lean: {left} x {angle} = {lean}.",
        "Side force lost: {lean_loss} x {weight} for each degree, times the lean: {answer}.",
    ),
    given={**LEANS, "angle": ANGLE},
    draw=lambda stream: {**leaning(stream), "angle": stream.between(1.5, 5.0, 0.1) * DEGREE},
    kind="load",
    key=lambda n: lean_cost(n, n.angle),
    workings=lambda n: {"left": (1 - n.recovered, "share"), "lean": ((1 - n.recovered) * n.angle, "angle")},
    roads=(
        recovered_for_left(),
        by("roll taken for lean", lambda n: lean_cost(n, n.angle) / (1 - n.recovered)),
        per_wheel_for_per_axle("weight"),
    ),
)


def _stiffer(stream) -> dict:
    angle = stream.between(2.0, 5.0, 0.1)
    transfer = stream.between(1300, 2000, 50)
    return {
        **leaning(stream),
        "grip_drop": stream.between(20e-6, 35e-6, 1e-6),
        "angle": angle * DEGREE,
        "angle_after": (angle - stream.between(0.3, 0.9, 0.1)) * DEGREE,
        "transfer": transfer,
        "transfer_after": transfer + stream.between(100, 350, 10),
    }


def _won(n) -> float:
    return lean_cost(n, n.angle) - lean_cost(n, n.angle_after)


def _spent(n) -> float:
    return load_cost(n, n.transfer_after) - load_cost(n, n.transfer)


def _stiffer_workings(n) -> dict:
    return {
        "left": (1 - n.recovered, "share"),
        "lean_won": ((1 - n.recovered) * (n.angle - n.angle_after), "angle"),
        "won": (_won(n), "load"),
        "spent": (_spent(n), "load"),
        "before": (load_cost(n, n.transfer), "load"),
        "after": (load_cost(n, n.transfer_after), "load"),
    }


BOTH = {
    **LEANS,
    "grip_drop": DROP,
    "angle": ANGLE,
    "angle_after": ANGLE,
    "transfer": LOAD,
    "transfer_after": LOAD,
}
won_and_spent = Numeric(
    id="won-and-spent",
    lesson=9,
    aim="Weigh what a stiffer end wins against what it spends.",
    level=3,
    minutes=8,
    pools=("exercise", "assessment"),
    tolerance=Tolerance("a small difference of two losses, each worked to three figures", 0.02, 0.3),
    text=LEAN_TEXT
    + "Its grip falls by {grip_drop} of load. The front axle carries {weight}. A stiffer bar takes the roll "
    "from {angle} to {angle_after}, and the front's load transfer from {transfer} to "
    "{transfer_after}. By how much does the front's most side force change? Write a loss with a minus.",
    hint="Two things happen to this axle. Which of them helps it, and which costs it?",
    process="Won: loss for each degree x weight x part left x degrees less of roll. Spent: 2 x drop x "
    "transfer "
    "squared, after less before. Won less spent.",
    worked=(
        "Won: the tyres lean {lean_won} less, so {won} comes back.",
        "Spent: 2 x {grip_drop} x transfer squared, {after} after, {before} before: {spent}.",
        "Won less spent: {answer}.",
    ),
    given=BOTH,
    draw=_stiffer,
    sound=lambda n: abs(_won(n) - _spent(n)) > 8.0 and _won(n) > 8.0 and _spent(n) > 8.0,
    kind="load",
    signed=True,
    key=lambda n: _won(n) - _spent(n),
    workings=_stiffer_workings,
    steps=(
        Step(
            name="won",
            kind="load",
            text="How much side force comes back because the tyres lean less?",
            key=_won,
            hint="How many degrees less do the tyres lean?",
            process="Part left x degrees less of roll, times loss for each degree x weight.",
            worked="Won: the tyres lean {lean_won} less, so {answer} comes back.",
            roads=(recovered_for_left(), per_wheel_for_per_axle("weight")),
        ),
    ),
    roads=(
        by("camber alone", _won),
        by("uneven load alone", lambda n: -_spent(n)),
        by("difference squared", lambda n: _won(n) - load_cost(n, n.transfer_after - n.transfer)),
        by("won and spent turned round", lambda n: _spent(n) - _won(n)),
    ),
)


def crossing(n) -> float:
    """The other end's roll stiffness at which this end neither gains nor loses, [N*m/rad]."""
    return float(on_paper(n).other_stiffness_at_crossing(n.transfer))


paper_crossing = Numeric(
    id="paper-crossing",
    lesson=9,
    aim="Find on paper where a stiffer end stops gaining grip.",
    level=2,
    minutes=5,
    pools=("exercise", "assessment"),
    text=LEAN_TEXT
    + "Its grip falls by {grip_drop} of load. The axle carries {weight} on a track of {track}; {transfer} is "
    "transferred. Below which roll stiffness of the other axle does a stiffer bar here gain grip?",
    hint="What does one newton more of transfer cost, when the loss goes with the transfer squared?",
    process="K = lean loss x weight x part left x track over (4 x drop x transfer). With the loss for "
    "each degree "
    "it comes out for each degree.",
    worked=(
        "Part left: {left}.",
        "Above the line: {lean_loss} x {weight} x {left} x {track}.",
        "Below the line: 4 x {grip_drop} x {transfer} = {slope}.",
        "Together: {answer}.",
    ),
    given={**LEANS, "grip_drop": DROP, "track": TRACK, "transfer": LOAD},
    draw=lambda stream: {
        **leaning(stream),
        "grip_drop": stream.between(20e-6, 35e-6, 1e-6),
        "track": stream.between(1.42, 1.60, 0.01),
        "transfer": stream.between(1300, 2400, 50),
    },
    kind="roll stiffness",
    key=crossing,
    workings=lambda n: {"left": (1 - n.recovered, "share"), "slope": (4 * n.grip_drop * n.transfer, "ratio")},
    roads=(
        recovered_for_left(),
        by("loss for its growth", lambda n: 2 * crossing(n)),
        per_wheel_for_per_axle("weight"),
        by("transfer squared here too", lambda n: crossing(n) / (n.grip_drop * n.transfer)),
    ),
)

QUESTIONS = (lost_by_leaning, won_and_spent, paper_crossing)
