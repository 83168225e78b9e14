"""Lesson 2, how stiff a bar is: arms, blades, rubber and stress, with a number."""

import math

from rollmodel.car import Bar
from rollmodel.physics import bar, sections, stiffness
from rollmodel.questions.bank.lesson_02 import FOURTH_POWER, LENGTH, RATE, SIZE, STEEL, WALL, round_bar, tube
from rollmodel.questions.records import Numeric, Tolerance
from rollmodel.questions.roads import (
    by,
    degree_for_radian,
    diameter_for_radius,
    lever_slanted,
    radius_for_diameter,
    with_changed,
)
from rollmodel.questions.shown import Given


def _bent(n, arms="same section") -> float:
    """Rate in roll of a solid bar bent from one piece."""
    one_piece = Bar(n.outer_diameter, n.centre_length, 1.0, holes=(n.lever,), arms=arms,
                    shear_modulus=n.shear_modulus, youngs_modulus=n.youngs_modulus)
    return float(bar.link_rates_in_roll(one_piece)[0])


def _arm_alone(n) -> float:
    return float(1 / bar.cantilever_compliance(n.lever, n.youngs_modulus,
                                               sections.round_second_moment(n.outer_diameter)))


bending_arms = Numeric(
    id="bending-arms", lesson=2, aim="Add what the twist gives and what the arm gives.",
    level=3, minutes=8, pools=("exercise", "assessment"), tolerance=FOURTH_POWER,
    text="A bar is bent from one solid piece, {outer_diameter} thick. It is {centre_length} long between the "
         "arms; each arm stands square and is {lever} long. G = {shear_modulus}, E = {youngs_modulus}. The "
         "supports are at the bends. In roll, what rate does each link feel?",
    hint="What gives way under the link's force: the centre, the arm, or both?",
    process="In roll the twist gives L a^2 / (2 G J) for each unit of force, the arm a^3 / (3 E I) with I = "
            "J / 2. Add the two and turn the sum upside down.",
    worked=("What the twist gives: {twist_gives}.", "What the arm gives: {arm_gives}.",
            "Both together: {both_give}.", "Upside down: {answer}. With stiff arms it would be {rigid}."),
    given={"outer_diameter": SIZE, "centre_length": LENGTH, "lever": LENGTH, **STEEL,
           "youngs_modulus": Given("modulus", 1, 0.1)},
    draw=lambda stream: {**round_bar(stream), "youngs_modulus": stream.between(200e9, 210e9, 1e9)},
    kind="rate", key=_bent,
    workings=lambda n: {"twist_gives": (1 / _bent(n, "rigid"), "give"),
                        "arm_gives": (1 / _arm_alone(n), "give"),
                        "both_give": (1 / _bent(n), "give"), "rigid": (_bent(n, "rigid"), "rate")},
    roads=(by("arm taken as rigid", lambda n: _bent(n, "rigid")),
           by("centre taken as rigid", _arm_alone),
           by("stiffnesses added", lambda n: _bent(n, "rigid") + _arm_alone(n)),
           with_changed("held used in roll", shear_modulus=lambda g: g / 2, youngs_modulus=lambda e: e / 2),
           radius_for_diameter("outer_diameter")))


def _blade(n, tip="free") -> float:
    return float(1 / bar.blade_compliance(n.length, n.width, n.thickness, n.angle, n.youngs_modulus, tip))


def _straight_line(n) -> float:
    flat, edge = (_blade(type(n)(**{**vars(n), "angle": angle})) for angle in (0.0, math.pi / 2))
    return flat + (edge - flat) * n.angle / (math.pi / 2)


def blade(stream) -> dict:
    """A blade arm and its angle from lying flat."""
    return {"length": stream.between(0.120, 0.200, 0.005), "width": stream.between(0.018, 0.030, 0.001),
            "thickness": stream.between(0.0030, 0.0060, 0.0005),
            "angle": math.radians(stream.between(20, 80, 5)),
            "youngs_modulus": stream.between(200e9, 210e9, 1e9)}


BLADE = {"length": LENGTH, "width": SIZE, "thickness": Given("length", 0.5, 0.01),
         "youngs_modulus": Given("modulus", 1, 0.1)}

blade_at_angle = Numeric(
    id="blade-at-angle", lesson=2, aim="Work out the rate of a blade arm at an angle.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    tolerance=Tolerance("the cube of the thickness turns 0.5 % in it into 1.5 %", 0.015),
    text="A blade arm is {length} long, {width} wide and {thickness} thick, E = {youngs_modulus}. Its tip "
         "may move sideways. 0 deg is lying flat (soft), 90 deg on edge (stiff). What is the rate of the "
         "blade alone, at its tip, at {angle}?",
    hint="Split the force into a part across the flat and a part across the edge. What does each part give?",
    process="What it gives = length^3 / (3 E) x (cos^2 / I flat + sin^2 / I edge), with I = width x height^3 "
            "/ 12. Then turn it upside down.",
    worked=("I flat = {flat_section}, I edge = {edge_section}.",
            "Lying flat it would be {flat}, on edge {edge}.",
            "At {angle} what it gives adds up: cos^2 of the soft part and sin^2 of the stiff part, together "
            "{gives}.",
            "Upside down: {answer}."),
    given={**BLADE, "angle": Given("angle", 1, 1)}, draw=blade, kind="rate", key=_blade,
    workings=lambda n: {
        "flat_section": (sections.rectangle_second_moment(n.width, n.thickness), "fourth power"),
        "edge_section": (sections.rectangle_second_moment(n.thickness, n.width), "fourth power"),
        "flat": (1 / bar.blade_compliance(n.length, n.width, n.thickness, 0.0, n.youngs_modulus), "rate"),
        "edge": (1 / bar.blade_compliance(n.length, n.width, n.thickness, math.pi / 2, n.youngs_modulus),
                 "rate"),
        "gives": (1 / _blade(n), "give")},
    roads=(by("stiffnesses added", lambda n: _blade(n, tip="guided")),
           with_changed("angle from the other face", angle=lambda angle: math.pi / 2 - angle),
           by("angle straight line", _straight_line), degree_for_radian("angle")))


def _stress(n, inner=None, force=1) -> float:
    inner = n.outer_diameter - 2 * n.wall if inner is None else inner
    return float(bar.surface_shear_stress(force * n.force * n.lever, n.outer_diameter, inner))


surface_stress = Numeric(
    id="surface-stress", lesson=2, aim="Work out the shear stress at the bar's surface.",
    level=2, minutes=6, pools=("exercise", "assessment"),
    tolerance=Tolerance("the fourth powers turn 0.25 % in a size into 1 %", 0.01),
    text="A tube has an outer diameter of {outer_diameter} and a wall of {wall}. Each link pulls on its "
         "swept arm with {force}. The arm is {along} long, but its link lies only {lever} square from the "
         "bar's axis. What is the shear stress at the surface of the centre section?",
    hint="Which length makes the torque, and how much torque is in the middle of the bar?",
    process="Torque T = force x lever, the square distance. Bore d = D less two walls. Stress = 16 T D / (pi "
            "(D^4 - d^4)).",
    worked=("Torque = {force} x {lever} = {torque}. The other link holds against it: nothing is added.",
            "Bore: {bore}.", "Stress = 16 T D / (pi (D^4 - d^4)) = {answer}.",
            "Hold it against what the steel's maker allows."),
    given={"outer_diameter": SIZE, "wall": WALL, "force": Given("load", 10, 5),
           "along": LENGTH, "lever": LENGTH},
    draw=lambda stream: {**tube(stream), "force": stream.between(800, 3000, 100),
                         "along": stream.between(0.290, 0.340, 0.005)},
    kind="stress", key=_stress,
    workings=lambda n: {"torque": (n.force * n.lever, "moment"),
                        "bore": (n.outer_diameter - 2 * n.wall, "length")},
    roads=(lever_slanted("lever", "along"), by("both ends' torque added", lambda n: _stress(n, force=2)),
           by("bore left out", lambda n: _stress(n, inner=0.0)),
           by("wall taken once", lambda n: _stress(n, inner=n.outer_diameter - n.wall)),
           radius_for_diameter("outer_diameter", "wall"), diameter_for_radius("outer_diameter", "wall")))

soft_bushing = Numeric(
    id="soft-link", lesson=2, aim="Add what the bar gives and what its rubber gives.",
    level=1, minutes=2, pools=("recall", "exercise"),
    text="In roll a bar alone gives {bar_rate} at each link. The rubber in each link has {rubber_rate}. What "
         "is left of the rate, rubber included?",
    hint="Does the rubber carry the whole link force, or share it with the bar?",
    process="Both carry the same force. Add what each gives (1 over its rate) and turn the sum upside down.",
    worked=("1 / rate = 1 / {bar_rate} + 1 / {rubber_rate}.", "Rate: {answer}, softer than the bar alone."),
    given={"bar_rate": RATE, "rubber_rate": Given("rate", 5, 20)},
    draw=lambda stream: {"bar_rate": stream.between(40e3, 120e3, 1e3),
                         "rubber_rate": stream.between(200e3, 800e3, 10e3)},
    kind="rate", key=lambda n: float(stiffness.in_series(n.bar_rate, n.rubber_rate)),
    roads=(by("in line taken for side by side", lambda n: n.bar_rate + n.rubber_rate),
           by("one part only", lambda n: n.bar_rate)))

QUESTIONS = (bending_arms, blade_at_angle, surface_stress, soft_bushing)
