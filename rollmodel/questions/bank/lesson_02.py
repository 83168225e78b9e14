"""Lesson 2, how stiff a bar is: questions with a number."""

import math

from rollmodel.car import Bar
from rollmodel.physics import bar, sections, stiffness
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import by, degree_for_radian, diameter_for_radius, lever_slanted, radius_for_diameter
from rollmodel.questions.roads import with_changed
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
    return {"outer_diameter": stream.between(0.016, 0.030, 0.001), "centre_length": stream.between(0.70, 1.10, 0.01),
            "lever": stream.between(0.150, 0.280, 0.005), "force": stream.between(400, 1000, 100), **steel(stream)}


def held(n) -> float:
    """Rate of a solid bar with stiff arms, one end held."""
    return float(bar.torsion_rate_one_end_held(
        n.shear_modulus, sections.round_polar_second_moment(n.outer_diameter), n.centre_length, n.lever))


def _twist(n) -> float:
    return n.force / held(n) / n.lever


_WALK = {"force": Given("load", 100, 20), "outer_diameter": SIZE, "centre_length": LENGTH, "lever": LENGTH, **STEEL}

solid_bar = Numeric(
    id="solid-bar-held", lesson=2, aim="Work out the rate of a solid bar on the bench.",
    level=2, minutes=6, pools=("exercise", "assessment"), tolerance=FOURTH_POWER,
    text="A solid bar is {outer_diameter} thick and {centre_length} long between its arms. The lever, square from the "
         "bar's axis to the link, is {lever}. The steel has G = {shear_modulus}, and the arms are taken as stiff. "
         "On the bench one end is held and the other is pulled with {force}. What is the rate at that end?",
    hint="Walk from the force to the travel: force, torque, twist, travel.",
    process="Torque = force x lever. Twist = torque x length / (G J), with J = pi/32 D^4. "
            "Travel = twist in radians x lever. Rate = force / travel.",
    worked=("J = pi/32 D^4 = {section}.", "Torque = {force} x {lever} = {torque}.",
            "Twist = torque x {centre_length} / (G J) = {twist}.",
            "Travel of the end = twist in radians x {lever} = {travel}.",
            "Rate = {force} / {travel} = {answer}. The lever came in twice: for the torque and for the travel."),
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
             process="Travel = twist in radians x lever.", worked="Travel = twist in radians x {lever} = {answer}.",
             roads=(by("degree for radian", lambda n: math.degrees(n.force / held(n))),))),
    roads=(with_changed("roll used for held", shear_modulus=lambda g: 2 * g),
           radius_for_diameter("outer_diameter"), diameter_for_radius("outer_diameter"),
           by("bending for twisting", lambda n: bar.torsion_rate_one_end_held(
               n.shear_modulus, sections.round_second_moment(n.outer_diameter), n.centre_length, n.lever))))


def _tube(stream):
    outer = stream.between(0.020, 0.034, 0.001)
    return {**round_bar(stream), "outer_diameter": outer, "wall": stream.between(0.002, 0.005, 0.0005)}


def _tube_held(n, inner=None) -> float:
    inner = n.outer_diameter - 2 * n.wall if inner is None else inner
    return float(bar.torsion_rate_one_end_held(
        n.shear_modulus, sections.round_polar_second_moment(n.outer_diameter, inner), n.centre_length, n.lever))


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
    text="A tube has an outer diameter of {outer_diameter} and a wall of {wall}. It is {centre_length} long between "
         "its stiff arms. The lever is {lever}, G = {shear_modulus}. In roll the two links move by equal amounts, "
         "one up and one down. What rate does each link feel?",
    hint="Find the rate with one end held. Then ask what roll does to the twist.",
    process="Bore = outer diameter less two walls. J = pi/32 (D^4 - d^4). One end held: G J / (L a^2). In roll: twice that.",
    worked=("Bore: {outer_diameter} less two walls of {wall} = {bore}.", "J = pi/32 (D^4 - d^4) = {section}.",
            "One end held: G J / (L a^2) = {held}.", "In roll both ends move, so the twist doubles: {answer}."),
    given={"outer_diameter": SIZE, "wall": WALL, "centre_length": LENGTH, "lever": LENGTH, **STEEL},
    draw=_tube, kind="rate", key=_tube_in_roll,
    workings=lambda n: {"bore": (n.outer_diameter - 2 * n.wall, "length"), "held": (_tube_held(n), "rate"),
                        "section": (sections.round_polar_second_moment(n.outer_diameter, n.outer_diameter - 2 * n.wall),
                                    "fourth power")},
    steps=(
        Step(name="bore", kind="length", text="How large is the bore?", key=lambda n: n.outer_diameter - 2 * n.wall,
             hint="How many walls does a line through the middle cross?", process="Take two walls off the outer diameter.",
             worked="Bore: {outer_diameter} less two walls of {wall} = {answer}.",
             roads=(by("wall taken once", lambda n: n.outer_diameter - n.wall),)),
        Step(name="held", kind="rate", text="What is the rate at one link with the other end held?", key=_tube_held,
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


def _lever_factor(new, old) -> float:
    """How a stiff-armed bar's rate changes with its lever."""
    return float(bar.torsion_rate_one_end_held(1.0, 1.0, 1.0, new) / bar.torsion_rate_one_end_held(1.0, 1.0, 1.0, old))


next_hole = Numeric(
    id="next-hole", lesson=2, aim="Work out what another hole does to the rate.",
    level=1, minutes=3, pools=("exercise", "recall", "assessment"),
    text="With the link in the hole at {outer} from the bar's axis a stiff-armed bar gives {rate} at the link. "
         "The link is moved to the hole at {inner}. What does the bar give there?",
    hint="A shorter lever does two things at once. Which two?",
    process="Divide the old lever by the new one, square it, and multiply the old rate by that.",
    worked=("Old lever over new lever: {ratio}. Squared: {factor}.", "{rate} x {factor} = {answer}."),
    given={"outer": LENGTH, "inner": LENGTH, "rate": RATE},
    draw=lambda stream: {"outer": stream.between(0.210, 0.260, 0.005), "inner": stream.between(0.160, 0.195, 0.005),
                         "rate": stream.between(20e3, 90e3, 1e3)},
    kind="rate", key=lambda n: n.rate * _lever_factor(n.inner, n.outer),
    workings=lambda n: {"ratio": (n.outer / n.inner, "ratio"), "factor": (_lever_factor(n.inner, n.outer), "ratio")},
    steps=(Step(name="factor", kind="ratio", text="By which factor does the rate change?",
                key=lambda n: _lever_factor(n.inner, n.outer), hint="The lever counts for the torque and for the travel.",
                process="Old lever over new lever, squared.", worked="Old over new: {ratio}. Squared: {answer}.",
                roads=(by("lever not squared", lambda n: n.outer / n.inner),
                       by("lever cubed", lambda n: (n.outer / n.inner) ** 3),
                       by("longer lever taken as stiffer", lambda n: _lever_factor(n.outer, n.inner)))),),
    roads=(by("lever not squared", lambda n: n.rate * n.outer / n.inner),
           by("lever cubed", lambda n: n.rate * (n.outer / n.inner) ** 3),
           by("longer lever taken as stiffer", lambda n: n.rate * _lever_factor(n.outer, n.inner)),
           by("hole makes no difference", lambda n: n.rate)))


def _size_factor(n) -> float:
    return float(sections.round_polar_second_moment(n.new) / sections.round_polar_second_moment(n.old))


thicker_bar = Numeric(
    id="thicker-bar", lesson=2, aim="Work out what a thicker bar gives.",
    level=1, minutes=3, pools=("exercise", "recall"), tolerance=FOURTH_POWER,
    text="A solid bar of {old} gives {rate} at the link. A solid bar of {new} is fitted; "
         "length, lever and steel are the same and the arms are stiff. What does it give?",
    hint="With which power of its size does a bar's stiffness in twist grow?",
    process="Divide the new size by the old one, raise it to the fourth power, and multiply the old rate by that.",
    worked=("New size over old size: {ratio}. To the fourth power: {factor}.", "{rate} x {factor} = {answer}."),
    given={"old": SIZE, "new": SIZE, "rate": RATE},
    draw=lambda stream: {"old": stream.between(0.018, 0.022, 0.001), "new": stream.between(0.023, 0.028, 0.001),
                         "rate": stream.between(20e3, 60e3, 1e3)},
    kind="rate", key=lambda n: n.rate * _size_factor(n),
    workings=lambda n: {"ratio": (n.new / n.old, "ratio"), "factor": (_size_factor(n), "ratio")},
    roads=(by("fourth power as first", lambda n: n.rate * n.new / n.old),
           by("fourth power as second", lambda n: n.rate * (n.new / n.old) ** 2),
           by("fourth power as third", lambda n: n.rate * (n.new / n.old) ** 3),
           by("rate upside down", lambda n: n.rate / _size_factor(n))))


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
    text="A bar is bent from one solid piece, {outer_diameter} thick. It is {centre_length} long between the arms; each "
         "arm stands square and is {lever} long. G = {shear_modulus}, E = {youngs_modulus}. The supports are at the "
         "bends. In roll, what rate does each link feel?",
    hint="What gives way under the link's force: the centre, the arm, or both?",
    process="In roll the twist gives L a^2 / (2 G J) for each unit of force, the arm a^3 / (3 E I) with I = J / 2. "
            "Add the two and turn the sum upside down.",
    worked=("What the twist gives: {twist_gives}.", "What the arm gives: {arm_gives}.",
            "Both together: {both_give}.", "Upside down: {answer}. With stiff arms it would be {rigid}."),
    given={"outer_diameter": SIZE, "centre_length": LENGTH, "lever": LENGTH, **STEEL,
           "youngs_modulus": Given("modulus", 1, 0.1)},
    draw=lambda stream: {**round_bar(stream), "youngs_modulus": stream.between(200e9, 210e9, 1e9)},
    kind="rate", key=_bent,
    workings=lambda n: {"twist_gives": (1 / _bent(n, "rigid"), "give"), "arm_gives": (1 / _arm_alone(n), "give"),
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
            "thickness": stream.between(0.0030, 0.0060, 0.0005), "angle": math.radians(stream.between(20, 80, 5)),
            "youngs_modulus": stream.between(200e9, 210e9, 1e9)}


BLADE = {"length": LENGTH, "width": SIZE, "thickness": Given("length", 0.5, 0.01),
         "youngs_modulus": Given("modulus", 1, 0.1)}

blade_at_angle = Numeric(
    id="blade-at-angle", lesson=2, aim="Work out the rate of a blade arm at an angle.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    tolerance=Tolerance("the cube of the thickness turns 0.5 % in it into 1.5 %", 0.015),
    text="A blade arm is {length} long, {width} wide and {thickness} thick, E = {youngs_modulus}. Its tip may move "
         "sideways. 0 deg is lying flat (soft), 90 deg on edge (stiff). What is the rate of the blade alone, "
         "at its tip, at {angle}?",
    hint="Split the force into a part across the flat and a part across the edge. What does each part give?",
    process="What it gives = length^3 / (3 E) x (cos^2 / I flat + sin^2 / I edge), with I = width x height^3 / 12. "
            "Then turn it upside down.",
    worked=("I flat = {flat_section}, I edge = {edge_section}.",
            "Lying flat it would be {flat}, on edge {edge}.",
            "At {angle} what it gives adds up: cos^2 of the soft part and sin^2 of the stiff part, together {gives}.",
            "Upside down: {answer}."),
    given={**BLADE, "angle": Given("angle", 1, 1)}, draw=blade, kind="rate", key=_blade,
    workings=lambda n: {
        "flat_section": (sections.rectangle_second_moment(n.width, n.thickness), "fourth power"),
        "edge_section": (sections.rectangle_second_moment(n.thickness, n.width), "fourth power"),
        "flat": (1 / bar.blade_compliance(n.length, n.width, n.thickness, 0.0, n.youngs_modulus), "rate"),
        "edge": (1 / bar.blade_compliance(n.length, n.width, n.thickness, math.pi / 2, n.youngs_modulus), "rate"),
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
    text="A tube has an outer diameter of {outer_diameter} and a wall of {wall}. Each link pulls on its swept arm with "
         "{force}. The arm is {along} long, but its link lies only {lever} square from the bar's axis. "
         "What is the shear stress at the surface of the centre section?",
    hint="Which length makes the torque, and how much torque is in the middle of the bar?",
    process="Torque T = force x lever, the square distance. Bore d = D less two walls. "
            "Stress = 16 T D / (pi (D^4 - d^4)).",
    worked=("Torque = {force} x {lever} = {torque}. The other link holds against it; its torque is not added.",
            "Bore: {bore}.", "Stress = 16 T D / (pi (D^4 - d^4)) = {answer}.",
            "Hold it against what the steel's maker allows."),
    given={"outer_diameter": SIZE, "wall": WALL, "force": Given("load", 10, 5),
           "along": LENGTH, "lever": LENGTH},
    draw=lambda stream: {**_tube(stream), "force": stream.between(800, 3000, 100),
                         "along": stream.between(0.290, 0.340, 0.005)},
    kind="stress", key=_stress,
    workings=lambda n: {"torque": (n.force * n.lever, "moment"), "bore": (n.outer_diameter - 2 * n.wall, "length")},
    roads=(lever_slanted("lever", "along"), by("both ends' torque added", lambda n: _stress(n, force=2)),
           by("bore left out", lambda n: _stress(n, inner=0.0)),
           by("wall taken once", lambda n: _stress(n, inner=n.outer_diameter - n.wall)),
           radius_for_diameter("outer_diameter", "wall"), diameter_for_radius("outer_diameter", "wall")))

soft_bushing = Numeric(
    id="soft-link", lesson=2, aim="Add what the bar gives and what its rubber gives.",
    level=1, minutes=2, pools=("recall", "exercise"),
    text="In roll a bar alone gives {bar_rate} at each link. The rubber in each link has {rubber_rate}. "
         "What is left of the rate, rubber included?",
    hint="Does the rubber carry the whole link force, or share it with the bar?",
    process="Both carry the same force. Add what each gives (1 over its rate) and turn the sum upside down.",
    worked=("1 / rate = 1 / {bar_rate} + 1 / {rubber_rate}.", "Rate: {answer}, softer than the bar alone."),
    given={"bar_rate": RATE, "rubber_rate": Given("rate", 5, 20)},
    draw=lambda stream: {"bar_rate": stream.between(40e3, 120e3, 1e3),
                         "rubber_rate": stream.between(200e3, 800e3, 10e3)},
    kind="rate", key=lambda n: float(stiffness.in_series(n.bar_rate, n.rubber_rate)),
    roads=(by("in line taken for side by side", lambda n: n.bar_rate + n.rubber_rate),
           by("one part only", lambda n: n.bar_rate)))

QUESTIONS = (solid_bar, tube_in_roll, next_hole, thicker_bar, bending_arms, blade_at_angle, surface_stress, soft_bushing)
