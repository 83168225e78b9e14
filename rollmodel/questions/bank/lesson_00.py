"""Everyday springs and weights: what a learner brings along. Asked for recall in the first lessons."""

from rollmodel.physics import axle, stiffness
from rollmodel.questions.records import Choice, Numeric, Option, wrong
from rollmodel.questions.roads import by, with_changed
from rollmodel.questions.shown import Given

RATE, TRAVEL = Given("rate"), Given("length", 5, 0.2)


def _spring(stream):
    return {"rate": stream.between(20e3, 80e3, 5e3), "travel": stream.between(0.015, 0.050, 0.005)}


def _pair_force(n):
    return float(sum(axle.wheel_loads(n.rate, 0.0, n.travel, n.travel)))


spring_force = Numeric(
    id="everyday-spring-force", lesson=0, aim="Work out a force from a spring rate and a travel.",
    level=1, minutes=1, pools=("recall",),
    text="A spring has a rate of {rate}. It is pressed {travel} shorter. With what force does it push back?",
    hint="A rate is a force for each unit of travel.",
    process="Multiply rate by travel. Keep to one unit of length for both.",
    worked=("Force = rate times travel = {rate} x {travel} = {answer}.",),
    given={"rate": RATE, "travel": TRAVEL}, draw=_spring, kind="load",
    key=lambda n: float(axle.wheel_loads(n.rate, 0.0, n.travel, 0.0)[0]),
    roads=(by("per axle for per wheel", _pair_force),
           with_changed("m for mm", travel=lambda travel: 1000 * travel),
           with_changed("per wheel for per axle", rate=lambda rate: rate / 2)))

springs_in_line = Numeric(
    id="everyday-springs-in-line", lesson=0, aim="Add what two springs in line give.",
    level=1, minutes=2, pools=("recall",),
    text="Two springs stand one on top of the other. The lower one has {first}, the upper one {second}. What "
         "is the rate of the whole?",
    hint="Both carry the same force. Which of them gives way?",
    process="Find what each gives for one unit of force (1 over its rate). Add the two. Turn the sum upside "
            "down.",
    worked=("1 / rate = 1 / {first} + 1 / {second}.",
            "So the rate is {answer}: softer than the softer of the two."),
    given={"first": RATE, "second": RATE},
    draw=lambda stream: {"first": stream.between(20e3, 50e3, 1e3),
                         "second": stream.between(60e3, 140e3, 2e3)},
    kind="rate", key=lambda n: float(stiffness.in_series(n.first, n.second)),
    roads=(by("in line taken for side by side", lambda n: n.first + n.second),
           by("one part only", lambda n: n.first),
           by("one part only", lambda n: n.second)))

pair_force = Numeric(
    id="everyday-pair-force", lesson=0, aim="Say what two springs side by side push with.",
    level=1, minutes=1, pools=("recall",),
    text="Two equal springs of {rate} each stand side by side under a plate. The plate goes down level by "
         "{travel}. With what force do the two push back together?",
    hint="How many springs push?",
    process="Work out one spring first: rate times travel. Then count the springs.",
    worked=("One spring: {one}.", "Two springs: {answer}."),
    given={"rate": RATE, "travel": TRAVEL}, draw=_spring, kind="load", key=_pair_force,
    workings=lambda n: {"one": (axle.wheel_loads(n.rate, 0.0, n.travel, n.travel)[0], "load")},
    roads=(with_changed("per wheel for per axle", rate=lambda rate: rate / 2),
           with_changed("side by side taken for in line", rate=lambda rate: rate / 4)))

softer_in_line = Choice(
    id="everyday-softer-in-line", lesson=0, aim="Say which way springs in line change the rate.",
    level=1, minutes=1, pools=("recall",),
    text="A rubber block is put under a spring, so that the force goes through both. What happens to the "
         "rate of the whole?",
    hint="Press it in your mind. What gives way?",
    process="Both carry the same force and both give way. Add what they give.",
    worked=("Both parts give under the same force, so the whole gives more than the spring alone: it is "
            "softer.",),
    options=(Option("softer", "It gets softer, because the rubber gives way as well."),
             wrong("stiffer", "It gets stiffer, because there is more to push against.",
                   "in line taken for side by side"),
             wrong("same", "It stays the same, because the spring is the same spring.", "one part only")),
    key=lambda n: "softer" if stiffness.in_series(1.0, 3.0) < 1.0 else "stiffer")

QUESTIONS = (spring_force, springs_in_line, pair_force, softer_in_line)
