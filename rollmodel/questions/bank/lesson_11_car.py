"""Lesson 11, did it work: questions with a number, on measuring the car."""

import math

from rollmodel.car import Axle, Bar
from rollmodel.physics.preload import preload_force
from rollmodel.physics.stiffness import axle_stiffness_for, wheel_rate
from rollmodel.questions.bank import test_day
from rollmodel.questions.bank.cars import MASS, RATE
from rollmodel.questions.records import Numeric, Step
from rollmodel.questions.roads import by, with_changed
from rollmodel.questions.shown import Given

SHORT, LONG = Given("length", 0.5, 0.02), Given("long length")
MOTION_RATIO = Given("ratio", 0.01, 0.01)
JACKED = ("first", "second", "third")


def _jacked(stream) -> dict:
    """A wheel jacked up in two equal steps, and the length of its spring at each, read to half a
    millimetre."""
    ratio, step = stream.between(0.55, 0.92, 0.01), stream.between(0.020, 0.030, 0.005)
    wheel, spring = stream.between(0.300, 0.330, 0.005), stream.between(0.260, 0.340, 0.001)
    miss = stream.between(-0.001, 0.001, 0.0005)
    return {
        **{f"wheel_{name}": wheel + i * step for i, name in enumerate(JACKED)},
        **{f"spring_{name}": spring - i * step * ratio + miss * (i == 1) for i, name in enumerate(JACKED)},
    }


def _of(n, part: str) -> list[float]:
    return [getattr(n, f"{part}_{name}") for name in JACKED]


def _jacked_ratio(n) -> float:
    return test_day.motion_ratio(_of(n, "wheel"), _of(n, "spring"))


def _shorter(n) -> float:
    return n.spring_first - n.spring_third


jacked_steps = Numeric(
    id="jacked-steps",
    lesson=11,
    aim="Find a motion ratio by jacking a wheel in steps.",
    level=1,
    minutes=4,
    pools=("exercise", "recall", "assessment"),
    text="A wheel is jacked up in two equal steps. Its centre stands at {wheel_first}, {wheel_second} and "
    "{wheel_third} above the floor. The spring is {spring_first}, {spring_second} and {spring_third} long. "
    "What is the spring's motion ratio, by the straight line through the three?",
    hint="How far did the wheel move from first to last, and how far the spring?",
    process="With equal steps the line's slope is last less first of the spring over last less first of the "
    "wheel. The middle reading tells whether it is a straight line.",
    worked=(
        "The wheel rose by {rise}. The spring became {shorter} shorter.",
        "Part over wheel: {answer}.",
    ),
    given={f"{part}_{name}": SHORT for part in ("wheel", "spring") for name in JACKED},
    draw=_jacked,
    kind="ratio",
    key=_jacked_ratio,
    workings=lambda n: {
        "rise": (n.wheel_third - n.wheel_first, "length"),
        "shorter": (_shorter(n), "length"),
    },
    roads=(
        by("motion ratio inverted", lambda n: 1 / _jacked_ratio(n)),
        by("readings for differences", lambda n: n.spring_third / n.wheel_third),
        by("one difference of two", lambda n: _shorter(n) / n.wheel_third),
        by("ratio squared at once", lambda n: _jacked_ratio(n) ** 2),
    ),
)


def _raised(stream) -> dict:
    """A car on four pads with its rear raised, as the pads would show it, to one kilogram."""
    mass, share = stream.between(950, 1450, 10), stream.between(0.46, 0.60, 0.01)
    wheelbase, radius = stream.between(2.35, 2.65, 0.01), stream.between(0.280, 0.310, 0.005)
    height, lift = radius + stream.between(0.16, 0.26, 0.005), stream.between(0.40, 0.60, 0.05)
    moved = mass * (height - radius) * math.tan(math.asin(lift / wheelbase)) / wheelbase
    return {
        "mass": mass,
        "level": round(mass * share),
        "raised": round(mass * share) + round(moved),
        "wheelbase": wheelbase,
        "radius": radius,
        "lift": lift,
        "slip": stream.between(1, 3, 1),
    }


def _height(n, more: float = 0.0, mass: float | None = None) -> float:
    """Height of the centre of gravity with a raised reading that is ``more`` too high, [m]."""
    return test_day.cg_height(mass or n.mass, n.wheelbase, n.radius, n.lift, n.level, n.raised + more)


def _tangent(n) -> float:
    return math.tan(math.asin(n.lift / n.wheelbase))


RAISED = {
    "mass": MASS,
    "wheelbase": LONG,
    "lift": Given("length", 5, 0.2),
    "radius": Given("length", 5, 0.2),
    "level": MASS,
    "raised": MASS,
}
RAISED_TEXT = (
    "A car of {mass} with a wheelbase of {wheelbase} stands level on the scales: the front axle shows "
    "{level}. Then the rear wheels are raised by {lift}, with the suspension locked, and the front axle "
    "shows {raised}. "
)


def _raised_rows(n) -> dict:
    return {
        "moved": (n.raised - n.level, "mass"),
        "tilt": (math.asin(n.lift / n.wheelbase), "angle"),
        "tangent": (_tangent(n), "ratio"),
        "above": (_height(n) - n.radius, "length"),
    }


raised_end = Numeric(
    id="raised-end",
    lesson=11,
    aim="Work out the height of the centre of gravity by raising one end.",
    level=3,
    minutes=6,
    pools=("exercise", "assessment"),
    text=RAISED_TEXT
    + "All wheels have a loaded radius of {radius}. How high above the ground is the centre of "
    "gravity?",
    hint="How much load moved forward, and by which angle did the car tilt?",
    process="Angle: its sine is lift over wheelbase. Height above the wheel centres = load that moved x "
    "wheelbase over (mass x tangent of the angle). The radius comes on top.",
    worked=(
        "Load that moved: {moved}. The car tilts by {tilt}; the tangent is {tangent}.",
        "Above the wheel centres: {moved} x {wheelbase} over ({mass} x {tangent}) = {above}.",
        "With the radius of {radius}: {answer}.",
    ),
    given=RAISED,
    draw=_raised,
    kind="length",
    key=_height,
    workings=_raised_rows,
    steps=(
        Step(
            name="tilt",
            kind="angle",
            text="By which angle does the car tilt?",
            key=lambda n: math.atan(test_day.tangent(n.lift, n.wheelbase)),
            hint="The wheelbase is the long side that leans. The lift stands upright.",
            process="The sine of the angle is lift over wheelbase.",
            worked="Sine: {lift} over {wheelbase}. The angle: {answer}.",
        ),
    ),
    roads=(
        by("height above the wheel centres", lambda n: _height(n) - n.radius),
        by("reading for what moved", lambda n: _height(n, n.level)),
        by("one axle for the whole car", lambda n: n.radius + (_height(n) - n.radius) * n.mass / n.level),
        by("tangent on the wrong side", lambda n: n.radius + (_height(n) - n.radius) * _tangent(n) ** 2),
    ),
)


def _off(n) -> float:
    return _height(n, n.slip) - _height(n)


raised_end_off = Numeric(
    id="raised-end-off",
    lesson=11,
    aim="Say how well raising one end knows the height.",
    level=2,
    minutes=4,
    pools=("exercise", "assessment"),
    text=RAISED_TEXT
    + "If the raised reading is {slip} too high, by how much does the height of the centre of "
    "gravity come out too high?",
    hint="The height goes with the load that moved. What does each kilogram or pound of it stand for?",
    process="Error of the load x wheelbase over (mass x tangent of the tilt). The sine of the tilt is lift "
    "over wheelbase.",
    worked=(
        "The car tilts by {tilt}; the tangent is {tangent}.",
        "{slip} x {wheelbase} over ({mass} x {tangent}) = {answer}.",
        "Only {moved} moved in all. That is why this height is known to a few centimetres and no better: "
        "raise the end further, if it can be done safely, and weigh several times.",
    ),
    given={**RAISED, "slip": MASS},
    draw=_raised,
    kind="length",
    key=_off,
    workings=_raised_rows,
    roads=(
        by("one axle for the whole car", lambda n: _off(n) * n.mass / n.level),
        by("tangent on the wrong side", lambda n: _off(n) * _tangent(n) ** 2),
        by("tilt left out", lambda n: _off(n) * _tangent(n)),
        by("height itself for its error", lambda n: _height(n, n.slip)),
    ),
)


def _link(stream) -> dict:
    return {
        "rate": stream.between(20e3, 60e3, 500),
        "motion_ratio": stream.between(0.50, 0.90, 0.01),
        "off": stream.between(0.002, 0.008, 0.0005),
    }


def _preload(n) -> float:
    """Load across the axle from a link that does not fit, the wheels held still, [N]."""
    bar = Bar(outer_diameter=0.02, centre_length=1.0, link_motion_ratio=n.motion_ratio, holes=(0.2,))
    axle = Axle(
        track=1.5,
        unsprung_mass=80.0,
        unsprung_cg_height=0.3,
        roll_centre_height=0.05,
        spring_rate=20e3,
        spring_motion_ratio=1.0,
        bar=bar,
    )
    return float(preload_force(axle, axle_stiffness_for(axle, 2 * wheel_rate(n.rate, n.motion_ratio)), n.off))


wrong_link = Numeric(
    id="wrong-link",
    lesson=11,
    aim="Work out what a link of the wrong length does to the wheel loads.",
    level=2,
    minutes=4,
    pools=("exercise", "assessment"),
    text="One drop link is {off} too long for its bar. At the link the bar has {rate} with its other end "
    "held. The link moves {motion_ratio} of what the wheel moves. Take it that the wheels cannot move. How "
    "much load does the bar then put on one wheel of the axle, and take off the other?",
    hint="What force does the bar need for that twist? How much of it arrives at the wheel?",
    process="Bar rate at the link x gap = force at the link. The lever between link and wheel passes on the "
    "motion ratio of it, once.",
    worked=(
        "Force at the link: {rate} x {off} = {at_link}.",
        "At the wheel: times {motion_ratio} = {answer}. One wheel gains it, the other loses it.",
        "The springs give way, so the pads show less than this. The axle's sum stays as it was: look at the "
        "diagonal.",
    ),
    given={"off": SHORT, "rate": RATE, "motion_ratio": MOTION_RATIO},
    draw=_link,
    kind="load",
    key=_preload,
    workings=lambda n: {"at_link": (n.rate * n.off, "load")},
    roads=(
        by("roll used for held", lambda n: 2 * _preload(n)),
        with_changed("motion ratio squared here too", motion_ratio=lambda ratio: ratio**2),
        with_changed("motion ratio left out", motion_ratio=lambda ratio: 1.0),
        with_changed("motion ratio inverted", motion_ratio=lambda ratio: 1 / ratio),
    ),
)

QUESTIONS = (jacked_steps, raised_end, raised_end_off, wrong_link)
