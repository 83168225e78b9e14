"""Lesson 4, how far it rolls: questions with a number."""

import math

from rollmodel.car import GRAVITY
from rollmodel.physics import roll
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import by, mass_for_weight, with_changed
from rollmodel.questions.shown import Given

MASS, HEIGHT, ARM = Given("mass", 5, 10), Given("length", 5, 0.2), Given("length", 1, 0.05)
STIFFNESS, ACCELERATION = Given("roll stiffness"), Given("lateral acceleration", 0.01, 0.01)
A_DEGREE = math.degrees(1.0)  # N*m/rad in one N*m/deg
ROUNDED_ANGLE = Tolerance("a moment, a difference of stiffnesses and the step from radian to degree, each "
                          "rounded "
                          "to three figures", 0.015)


def body(stream) -> dict:
    """A body on its springs, between a firm road car and one that leans a good deal."""
    return {"sprung": stream.between(900, 1300, 10), "arm": stream.between(0.380, 0.520, 0.005),
            "front": stream.between(350, 800, 10) * A_DEGREE, "rear": stream.between(300, 650, 10) * A_DEGREE,
            "a": stream.between(0.4, 0.8, 0.05) * GRAVITY}


def rolls(n, gravity=1.0, front=1.0, rear=1.0) -> float:
    """Roll angle of a body on a rigid chassis; the factors take parts of the formula out."""
    moment = n.sprung * n.arm
    stiffness = (front * n.front, rear * n.rear)
    applied = (moment * n.a, 0.0)
    return float(roll.solve_roll((gravity * moment, 0.0), stiffness, applied, 0.0)[0])


def _gravity(n) -> float:
    """What the leaning weight takes from the roll stiffness."""
    return GRAVITY * n.sprung * n.arm


def _steps(n) -> dict:
    return {"moment": (n.sprung * n.a * n.arm, "moment"), "gravity": (_gravity(n), "roll stiffness"),
            "both": (n.front + n.rear, "roll stiffness"),
            "left": (n.front + n.rear - _gravity(n), "roll stiffness")}


roll_angle = Numeric(
    id="roll-angle", lesson=4, aim="Work out how far the body rolls.",
    level=2, minutes=7, pools=("exercise", "assessment"), tolerance=ROUNDED_ANGLE,
    text="A body of {sprung} has its centre of gravity {arm} above the roll axis. On their tyres the axles "
         "have roll "
         "stiffnesses of {front} and {rear}. The car corners at {a}. How far does the body roll? Count "
         "gravity's share.",
    hint="What tips the body? What is left of the springs once its own weight leans on them?",
    process="Moment of the corner = mass x a x arm. Gravity's share = mass x g x arm, for each radian; "
            "divide by 57.3 for "
            "each degree. Angle = moment / (both axles less gravity's share).",
    worked=("The corner tips with {sprung} x {a} x {arm} = {moment}.", "The leaning weight takes {gravity}.",
            "Both axles: {both}. Left: {left}.", "Roll angle: {moment} / {left} = {answer}."),
    given={"sprung": MASS, "arm": ARM, "front": STIFFNESS, "rear": STIFFNESS, "a": ACCELERATION},
    draw=body, kind="angle", key=rolls, workings=_steps,
    steps=(
        Step(name="moment", kind="moment", text="Which moment does the corner put on the body about the roll "
                                                "axis?",
             key=lambda n: rolls(n, gravity=0.0) * (n.front + n.rear), hint="A mass, an acceleration, an "
                                                                            "arm.",
             process="Mass x acceleration in m/s² (or the weight x a in g) x arm.",
             worked="The corner tips with {sprung} x {a} x {arm} = {answer}.",
             roads=(mass_for_weight("a"), by("weight for mass", lambda n: n.sprung * n.a * n.arm * GRAVITY))),
        Step(name="gravity", kind="roll "
                                  "stiffness", text="What does the leaning weight take from the roll "
                                                    "stiffness?",
             key=lambda n: n.front + n.rear - n.sprung * n.arm * n.a / rolls(n),
             hint="By how much does the weight move out for a small angle?",
             process="Weight x arm, for each radian. Divide by 57.3 for each degree.",
             worked="The leaning weight takes {sprung} x g x {arm}, then from radian to degree = {answer}.",
             roads=(by("mass for weight", lambda n: _gravity(n) / GRAVITY),
                    by("weight for mass", lambda n: _gravity(n) * GRAVITY)))),
    roads=(by("gravity's share left out", lambda n: rolls(n, gravity=0.0)),
           by("gravity's share taken away", lambda n: rolls(n, gravity=-1.0)),
           by("one axle alone", lambda n: rolls(n, rear=0.0)),
           by("mass for "
              "weight", lambda n: rolls(n) / GRAVITY), by("weight for mass", lambda n: rolls(n) * GRAVITY)))


def _gradient(n, **parts) -> float:
    return rolls(n, **parts) / n.a


roll_gradient = Numeric(
    id="roll-gradient", lesson=4, aim="Work out a car's roll gradient.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"), tolerance=ROUNDED_ANGLE,
    text="The leaning weight of a body takes {gravity} of roll stiffness. On their tyres the axles have "
         "{front} and {rear}. "
         "What is the roll gradient, with gravity's share counted?",
    hint="At 1 g the side force is as large as the weight, and acts at the same arm.",
    process="Gravity's share for each degree times 57.3 is the moment that the corner makes at 1 g. Divide "
            "it by what is left "
            "of both axles once gravity's share is taken away.",
    worked=("Moment at 1 g: {gravity} x 57.3 deg = "
            "{gravity_radian}.", "Left of both axles: {both} less {gravity} = {left}.",
            "Roll gradient: {answer}."),
    given={"front": STIFFNESS, "rear": STIFFNESS}, draw=body, kind="roll gradient", key=_gradient,
    workings=lambda n: {**_steps(n), "gravity_radian": (_gravity(n), "moment")},
    roads=(by("gravity's share left out", lambda n: _gradient(n, gravity=0.0)),
           by("gravity's share taken away", lambda n: _gradient(n, gravity=-1.0)),
           by("one axle alone", lambda n: _gradient(n, rear=0.0))))

gravitys_share = Numeric(
    id="gravitys-share", lesson=4, aim="Work out what the leaning weight takes from the roll stiffness.",
    level=1, minutes=3, pools=("exercise", "recall"),
    text="A body of {sprung} has its centre of gravity {arm} above the roll axis. How much roll stiffness "
         "does its leaning "
         "weight take away? With no more than this in all the car would not stand up.",
    hint="By how much does the weight move out for a small angle? Which moment is that?",
    process="Weight = mass x g. Weight x arm is the moment for each radian of roll. Divide by 57.3 for each "
            "degree.",
    worked=("Weight: {sprung} x g = "
            "{weight}.", "{weight} x {arm} for each radian, divided by 57.3: {answer}."),
    given={"sprung": MASS, "arm": ARM}, draw=body, kind="roll stiffness",
    key=lambda n: n.front + n.rear - n.sprung * n.arm * n.a / rolls(n),
    workings=lambda n: {"weight": (n.sprung * GRAVITY, "load")},
    roads=(by("mass for weight", lambda n: _gravity(n) / GRAVITY),
           by("weight for mass", lambda n: _gravity(n) * GRAVITY)))


def _shares(stream) -> dict:
    """A body's heights and how it rests on the two axles."""
    return {"height": stream.between(0.480, 0.580, 0.005), "share": stream.between(0.60, 0.66, 0.01),
            "centre_front": stream.between(0.020, 0.050, 0.005),
            "centre_rear": stream.between(0.150, 0.220, 0.005)}


def _arm(n, front=None, rear=None) -> float:
    """Height above the roll axis: each end's share of the mass at its own height above its roll centre."""
    front, rear = (n.centre_front if front is None else front), (n.centre_rear if rear is None else rear)
    moments = n.share * (n.height - front), (1 - n.share) * (n.height - rear)
    held = roll.solve_roll((0.0, 0.0), (1.0, 1.0), moments, 0.0)[0]
    return float(2 * held)


arm_above_axis = Numeric(
    id="arm-above-axis", lesson=4, aim="Find the height of the body's centre of gravity above the roll axis.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="The body's centre of gravity lies {height} above the ground. The roll centres lie at "
         "{centre_front} in front and "
         "{centre_rear} behind. The front axle carries {share} of the body. How far above the roll axis is "
         "its centre of gravity?",
    hint="The axis joins the two roll centres. How high is it where the centre of gravity lies?",
    process="Height of the axis there = front share x front roll centre + rear share x rear roll centre. "
            "Take it from the height "
            "of the centre of gravity.",
    worked=("Rear share: {rest}. Height of the axis: {share} of {centre_front} and {rest} of {centre_rear} "
            "make {axis}.",
            "{height} less {axis} = {answer}."),
    given={"height": HEIGHT, "centre_front": HEIGHT, "centre_rear": HEIGHT, "share": Given("share", 1, 1)},
    draw=_shares, kind="length", key=_arm,
    workings=lambda n: {"rest": (1 - n.share, "share"), "axis": (n.height - _arm(n), "length")},
    roads=(by("roll axis taken at the ground", lambda n: n.height),
           by("one end's roll centre for the axis", lambda n: _arm(n, rear=n.centre_front)),
           with_changed("front for rear", share=lambda share: 1 - share)))


def _needed(n, gravity=1.0) -> float:
    """Roll stiffness for a wanted gradient; ``gravity`` counts its share."""
    moment = n.sprung * n.arm
    unit = roll.solve_roll((0.0, 0.0), (1.0, 0.0), (moment, 0.0), 0.0)[0]
    return float(unit) / n.gradient + gravity * _gravity(n)


stiffness_wanted = Numeric(
    id="stiffness-wanted", lesson=4, aim="Work back from a wanted roll gradient to the roll stiffness.",
    level=3, minutes=6, pools=("exercise", "assessment"),
    text="A body of {sprung} has its centre of gravity {arm} above the roll axis. The car is to roll "
         "{gradient}. What roll "
         "stiffness do both axles need together, on their tyres?",
    hint="How large is the moment at 1 g? What must hold it? And what does the leaning weight take besides?",
    process="Moment at 1 g = weight x arm. Divide by the wanted degrees: that must be left. Add gravity's "
            "share: weight x arm "
            "/ 57.3.",
    worked=("Moment at 1 g: {moment}.", "Left at the wanted gradient: {left}.", "Gravity's share: {gravity}.",
            "Together: {answer}."),
    given={"sprung": MASS, "arm": ARM, "gradient": Given("roll gradient", 0.1, 0.1)},
    draw=lambda stream: {**body(stream), "gradient": stream.between(4.5, 7.0, 0.1) / A_DEGREE / GRAVITY},
    kind="roll stiffness", key=_needed,
    workings=lambda n: {"moment": (_gravity(n), "moment"), "left": (_needed(n, 0.0), "roll stiffness"),
                        "gravity": (_gravity(n), "roll stiffness")},
    roads=(by("gravity's share left out", lambda n: _needed(n, 0.0)),
           by("gravity's share taken away", lambda n: _needed(n, -1.0)),
           by("mass for weight", lambda n: _needed(n) / GRAVITY),
           by("weight for mass", lambda n: _needed(n) * GRAVITY)))

QUESTIONS = (roll_angle, roll_gradient, gravitys_share, arm_above_axis, stiffness_wanted)
