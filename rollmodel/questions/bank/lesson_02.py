"""Lesson 2, how stiff a bar is: questions with a number."""

import math

from rollmodel.car import Bar
from rollmodel.physics import bar, sections
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import (
    by,
    diameter_for_radius,
    radius_for_diameter,
    with_changed,
)
from rollmodel.questions.shown import Given

LENGTH, RATE = Given("length", 1, 0.05), Given("rate")
SIZE, WALL = Given("length", 0.5, 0.01), Given("length", 0.5, 0.005)
STEEL = {"shear_modulus": Given("modulus", 0.1, 0.05)}
FOURTH_POWER = Tolerance("the fourth power turns 0.25 % in a size carried with three figures into 1 %", 0.01)


def steel(stream) -> dict:
    """Shear modulus of a spring steel, within the handbook range."""
    return {"shear_modulus": stream.between(78e9, 81e9, 0.1e9)}


def round_bar(stream) -> dict:
    """A solid bar, its centre length, its lever and a link force."""
    return {"outer_diameter": stream.between(0.016, 0.030, 0.001),
            "centre_length": stream.between(0.70, 1.10, 0.01),
            "lever": stream.between(0.150, 0.280, 0.005), "force": stream.between(400, 1000, 100),
            **steel(stream)}


def held(n) -> float:
    """Rate of a solid bar with stiff arms, one end held."""
    return float(bar.torsion_rate_one_end_held(
        n.shear_modulus, sections.round_polar_second_moment(n.outer_diameter), n.centre_length, n.lever))


def _twist(n) -> float:
    return n.force / held(n) / n.lever


_WALK = {"force": Given("load", 100, 20), "outer_diameter": SIZE, "centre_length": LENGTH, "lever": LENGTH,
         **STEEL}

solid_bar = Numeric(
    id="solid-bar-held", lesson=2, aim="Work out the rate of a solid bar on the bench.",
    level=2, minutes=6, pools=("exercise", "assessment"), tolerance=FOURTH_POWER,
    text="A solid bar is {outer_diameter} thick and {centre_length} long between its arms. The lever, square "
         "from the bar's axis to the link, is {lever}. The steel has G = {shear_modulus}, and the arms are "
         "taken as stiff. On the bench one end is held and the other is pulled with {force}. What is the "
         "rate at that end?",
    hint="Walk from the force to the travel: force, torque, twist, travel.",
    process="Torque = force x lever. Twist = torque x length / (G J), with J = pi/32 D^4. Travel = twist in "
            "radians x lever. Rate = force / travel.",
    worked=("J = pi/32 D^4 = {section}.", "Torque = {force} x {lever} = {torque}.",
            "Twist = torque x {centre_length} / (G J) = {twist}.",
            "Travel of the end = twist in radians x {lever} = {travel}.",
            "Rate = {force} / {travel} = {answer}. The lever came in twice: for the torque and for the "
            "travel."),
    given=_WALK, draw=round_bar, kind="rate", key=held,
    workings=lambda n: {"section": (sections.round_polar_second_moment(n.outer_diameter), "fourth power"),
                        "torque": (n.force * n.lever, "moment"), "twist": (_twist(n), "angle"),
                        "travel": (n.force / held(n), "length")},
    steps=(
        Step(name="torque", kind="moment", text="What torque does the force put into the bar?",
             key=lambda n: n.force * n.lever, hint="A force at a lever.", process="Multiply force by lever.",
             worked="Torque = {force} x {lever} = {answer}.",
             roads=(by("m for mm", lambda n: 1000 * n.force * n.lever),)),
        Step(name="twist", kind="angle", text="By how much does that torque twist the bar?",
             key=_twist, hint="A long bar twists more; a thick one far less.",
             process="Twist = torque x length / (G J), with J = pi/32 D^4. It comes out in radians.",
             worked="J = pi/32 D^4 = {section}. Twist = torque x {centre_length} / (G J) = {answer}.",
             roads=(by("radius for diameter", lambda n: 16 * _twist(n)),
                    by("diameter for radius", lambda n: _twist(n) / 16),
                    by("bending for twisting", lambda n: 2 * _twist(n)))),
        Step(name="travel", kind="length", text="How far does the end of the lever move?",
             key=lambda n: n.force / held(n), hint="The lever swings through the twist.",
             process="Travel = twist in radians x lever.",
             worked="Travel = twist in radians x {lever} = {answer}.",
             roads=(by("degree for radian", lambda n: math.degrees(n.force / held(n))),))),
    roads=(with_changed("roll used for held", shear_modulus=lambda g: 2 * g),
           radius_for_diameter("outer_diameter"), diameter_for_radius("outer_diameter"),
           by("bending for twisting", lambda n: bar.torsion_rate_one_end_held(
               n.shear_modulus, sections.round_second_moment(n.outer_diameter), n.centre_length, n.lever))))


def tube(stream):
    outer = stream.between(0.020, 0.034, 0.001)
    return {**round_bar(stream), "outer_diameter": outer, "wall": stream.between(0.002, 0.005, 0.0005)}


def _tube_held(n, inner=None) -> float:
    inner = n.outer_diameter - 2 * n.wall if inner is None else inner
    return float(bar.torsion_rate_one_end_held(
        n.shear_modulus, sections.round_polar_second_moment(n.outer_diameter, inner), n.centre_length,
        n.lever))


def _tube_in_roll(n) -> float:
    rigid = Bar(n.outer_diameter, n.centre_length, 1.0, holes=(n.lever,), wall=n.wall, arms="rigid",
                shear_modulus=n.shear_modulus)
    return float(bar.link_rates_in_roll(rigid)[0])


def _power_of_difference(n) -> float:
    solid = sections.round_polar_second_moment(2 * n.wall)
    return 2 * float(bar.torsion_rate_one_end_held(n.shear_modulus, solid, n.centre_length, n.lever))


tube_in_roll = Numeric(
    id="tube-in-roll", lesson=2, aim="Work out what each link of a tube feels in roll.",
    level=2, minutes=6, pools=("exercise", "assessment"), tolerance=FOURTH_POWER,
    text="A tube has an outer diameter of {outer_diameter} and a wall of {wall}. It is {centre_length} long "
         "between its stiff arms. The lever is {lever}, G = {shear_modulus}. In roll the two links move by "
         "equal amounts, one up and one down. What rate does each link feel?",
    hint="Find the rate with one end held. Then ask what roll does to the twist.",
    process="Bore = outer diameter less two walls. J = pi/32 (D^4 - d^4). One end held: G J / (L a^2). In "
            "roll: twice that.",
    worked=("Bore: {outer_diameter} less two walls of {wall} = {bore}.", "J = pi/32 (D^4 - d^4) = {section}.",
            "One end held: G J / (L a^2) = {held}.",
            "In roll both ends move, so the twist doubles: {answer}."),
    given={"outer_diameter": SIZE, "wall": WALL, "centre_length": LENGTH, "lever": LENGTH, **STEEL},
    draw=tube, kind="rate", key=_tube_in_roll,
    workings=lambda n: {"bore": (n.outer_diameter - 2 * n.wall, "length"), "held": (_tube_held(n), "rate"),
                        "section": (sections.round_polar_second_moment(n.outer_diameter,
                                                                       n.outer_diameter - 2 * n.wall),
                                    "fourth power")},
    steps=(
        Step(name="bore", kind="length", text="How large is the bore?",
             key=lambda n: n.outer_diameter - 2 * n.wall,
             hint="How many walls does a line through the middle cross?",
             process="Take two walls off the outer diameter.",
             worked="Bore: {outer_diameter} less two walls of {wall} = {answer}.",
             roads=(by("wall taken once", lambda n: n.outer_diameter - n.wall),)),
        Step(name="held", kind="rate", text="What is the rate at one link with the other end held?",
             key=_tube_held,
             hint="The bore takes away from J.", process="J = pi/32 (D^4 - d^4). Rate = G J / (L a^2).",
             worked="J = pi/32 (D^4 - d^4) = {section}. One end held: G J / (L a^2) = {answer}.",
             roads=(by("bore left out", lambda n: _tube_held(n, inner=0.0)),
                    by("radius for diameter", lambda n: _tube_held(n) / 16),
                    by("roll used for held", _tube_in_roll)))),
    roads=(by("held used in roll", _tube_held),
           by("factor 2 taken twice", lambda n: 2 * _tube_in_roll(n)),
           by("bore left out", lambda n: 2 * _tube_held(n, inner=0.0)),
           by("wall taken once", lambda n: 2 * _tube_held(n, inner=n.outer_diameter - n.wall)),
           by("power of difference", _power_of_difference),
           radius_for_diameter("outer_diameter", "wall"), diameter_for_radius("outer_diameter", "wall")))


def lever_factor(new, old) -> float:
    """How a stiff-armed bar's rate changes with its lever."""
    return float(bar.torsion_rate_one_end_held(1.0, 1.0, 1.0, new) / bar.torsion_rate_one_end_held(1.0, 1.0,
                                                                                                   1.0, old))


next_hole = Numeric(
    id="next-hole", lesson=2, aim="Work out what another hole does to the rate.",
    level=1, minutes=3, pools=("exercise", "recall", "assessment"),
    text="With the link in the hole at {outer} from the bar's axis a stiff-armed bar gives {rate} at the "
         "link. The link is moved to the hole at {inner}. What does the bar give there?",
    hint="A shorter lever does two things at once. Which two?",
    process="Divide the old lever by the new one, square it, and multiply the old rate by that.",
    worked=("Old lever over new lever: {ratio}. Squared: {factor}.", "{rate} x {factor} = {answer}."),
    given={"outer": LENGTH, "inner": LENGTH, "rate": RATE},
    draw=lambda stream: {"outer": stream.between(0.210, 0.260, 0.005),
                         "inner": stream.between(0.160, 0.195, 0.005),
                         "rate": stream.between(20e3, 90e3, 1e3)},
    kind="rate", key=lambda n: n.rate * lever_factor(n.inner, n.outer),
    workings=lambda n: {"ratio": (n.outer / n.inner, "ratio"),
                        "factor": (lever_factor(n.inner, n.outer), "ratio")},
    steps=(Step(name="factor", kind="ratio", text="By which factor does the rate change?",
                key=lambda n: lever_factor(n.inner, n.outer),
                hint="The lever counts for the torque and for the travel.",
                process="Old lever over new lever, squared.",
                worked="Old over new: {ratio}. Squared: {answer}.",
                roads=(by("lever not squared", lambda n: n.outer / n.inner),
                       by("lever cubed", lambda n: (n.outer / n.inner) ** 3),
                       by("longer lever taken as stiffer", lambda n: lever_factor(n.outer, n.inner)))),),
    roads=(by("lever not squared", lambda n: n.rate * n.outer / n.inner),
           by("lever cubed", lambda n: n.rate * (n.outer / n.inner) ** 3),
           by("longer lever taken as stiffer", lambda n: n.rate * lever_factor(n.outer, n.inner)),
           by("hole makes no difference", lambda n: n.rate)))


def _size_factor(n) -> float:
    return float(sections.round_polar_second_moment(n.new) / sections.round_polar_second_moment(n.old))


thicker_bar = Numeric(
    id="thicker-bar", lesson=2, aim="Work out what a thicker bar gives.",
    level=1, minutes=3, pools=("exercise", "recall"), tolerance=FOURTH_POWER,
    text="A solid bar of {old} gives {rate} at the link. A solid bar of {new} is fitted; length, lever and "
         "steel are the same and the arms are stiff. What does it give?",
    hint="With which power of its size does a bar's stiffness in twist grow?",
    process="Divide the new size by the old one, raise it to the fourth power, and multiply the old rate by "
            "that.",
    worked=("New size over old size: {ratio}. To the fourth power: {factor}.",
            "{rate} x {factor} = {answer}."),
    given={"old": SIZE, "new": SIZE, "rate": RATE},
    draw=lambda stream: {"old": stream.between(0.018, 0.022, 0.001),
                         "new": stream.between(0.023, 0.028, 0.001),
                         "rate": stream.between(20e3, 60e3, 1e3)},
    kind="rate", key=lambda n: n.rate * _size_factor(n),
    workings=lambda n: {"ratio": (n.new / n.old, "ratio"), "factor": (_size_factor(n), "ratio")},
    roads=(by("fourth power as first", lambda n: n.rate * n.new / n.old),
           by("fourth power as second", lambda n: n.rate * (n.new / n.old) ** 2),
           by("fourth power as third", lambda n: n.rate * (n.new / n.old) ** 3),
           by("rate upside down", lambda n: n.rate / _size_factor(n))))

QUESTIONS = (solid_bar, tube_in_roll, next_hole, thicker_bar)
