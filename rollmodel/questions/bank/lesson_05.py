"""Lesson 5, where the load goes: questions with a number."""

import math
from types import SimpleNamespace

from rollmodel.car import GRAVITY
from rollmodel.physics import axle, corner, stiffness
from rollmodel.physics.roll import roll_moment_arm
from rollmodel.questions.bank.cars import (
    ACCELERATION,
    CAR,
    HEIGHT,
    MASS,
    TRACK,
    car_of,
    corner_of,
    keeps_wheels_down,
    road_car,
    soft_car,
)
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import (
    by,
    degree_for_radian,
    full_track_for_half,
    half_track_for_full,
    mass_for_weight,
    per_wheel_for_per_axle,
    weight_for_mass,
)
from rollmodel.questions.shown import Given

WHOLE_CAR = "the roll angle is stated to four figures and three paths are added, each rounded"


def _links(n) -> float:
    """Transfer through the links of an axle that carries ``n.sprung``."""
    return n.sprung * n.a * n.roll_centre / n.track


def _axle_car(n):
    """A car whose front axle is the one asked about."""
    return car_of(SimpleNamespace(
        mass=2 * (n.sprung + n.unsprung), front_share=0.5, cg_height=n.cg_height, wheel_height=n.wheel_height,
        a=n.a, **{f"{name}_{end}": getattr(n, name, 20e3) for end in ("front", "rear")
                  for name in ("track", "roll_centre", "unsprung", "spring", "bar")}))


def _one_axle(stream):
    return {"sprung": stream.between(400, 650, 10), "unsprung": stream.between(60, 100, 2),
            "roll_centre": stream.between(0.040, 0.150, 0.005), "track": stream.between(1.42, 1.58, 0.01),
            "cg_height": stream.between(0.450, 0.550, 0.005),
            "wheel_height": stream.between(0.280, 0.320, 0.005),
            "a": stream.between(0.5, 0.9, 0.05) * GRAVITY}


link_path = Numeric(
    id="link-path", lesson=5, aim="Work out the load transfer through the links.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"),
    text="An axle carries {sprung} of the sprung mass. Its track is {track} and its roll centre lies "
         "{roll_centre} above the ground. The centre of gravity is at {cg_height}. The car corners at {a}. "
         "The links carry part of the load transfer straight to the tyres, without any body roll. How much "
         "load goes from the inside wheel to the outside wheel through the links alone?",
    hint="At which height do the links pass the side force on?",
    process="Side force of this axle's sprung mass = mass x acceleration. Times the height of the roll "
            "centre is a moment. Divide by the track.",
    worked=("Side force: {sprung} x {a} = {side_force}.", "Moment: {side_force} x {roll_centre} = {moment}.",
            "Load transfer: {moment} / {track} = {answer}."),
    given={"sprung": MASS, "track": TRACK, "roll_centre": HEIGHT, "cg_height": HEIGHT, "a": ACCELERATION},
    draw=_one_axle, kind="load", key=lambda n: float(corner.geometric_transfer(_axle_car(n), "front", n.a)),
    workings=lambda n: {"side_force": (n.sprung * n.a, "load"),
                        "moment": (n.sprung * n.a * n.roll_centre, "moment")},
    roads=(mass_for_weight("a"), weight_for_mass("a"), half_track_for_full(),
           per_wheel_for_per_axle("sprung"),
           by("centre of gravity for roll centre",
              lambda n: corner.geometric_transfer(_axle_car(n), "front", n.a) * n.cg_height / n.roll_centre)))

wheel_mass_path = Numeric(
    id="wheel-mass-path", lesson=5, aim="Work out the load transfer of the wheels' own mass.",
    level=1, minutes=3, pools=("exercise", "recall"),
    text="The two wheels of an axle, with hubs and brakes, have {unsprung} together, at {wheel_height} above "
         "the ground. The track is {track}. The car corners at {a}. How much load does that mass alone "
         "transfer?",
    hint="It has a mass, a height and a track. What moment does its side force make about the ground?",
    process="Side force = mass x acceleration. Times its height is a moment. Divide by the track.",
    worked=("Side force: {unsprung} x {a} = {side_force}.",
            "Moment: {side_force} x {wheel_height} = {moment}.",
            "Load transfer: {moment} / {track} = {answer}."),
    given={"unsprung": MASS, "wheel_height": HEIGHT, "track": TRACK, "a": ACCELERATION},
    draw=_one_axle, kind="load", key=lambda n: float(corner.unsprung_transfer(_axle_car(n), "front", n.a)),
    workings=lambda n: {"side_force": (n.unsprung * n.a, "load"),
                        "moment": (n.unsprung * n.a * n.wheel_height, "moment")},
    roads=(mass_for_weight("a"), weight_for_mass("a"), half_track_for_full(),
           per_wheel_for_per_axle("unsprung")))


def _roll_stiffness(n) -> float:
    return float(stiffness.roll_stiffness(axle.roll_rate(n.spring, n.bar), n.track))


def _through_springs(n, rate=axle.roll_rate) -> float:
    return float(stiffness.roll_stiffness(rate(n.spring, n.bar), n.track) * n.angle / n.track)


spring_path = Numeric(
    id="spring-path", lesson=5, aim="Work out the load transfer through springs and bar.",
    level=2, minutes=5, pools=("exercise", "assessment"),
    text="At each wheel the spring gives {spring} and the bar {bar} with the other wheel held. The track is "
         "{track}. The body rolls by {angle}; the tyres are taken as rigid. How much load goes from the "
         "inside wheel to the outside wheel through springs and bar?",
    hint="By how much does each wheel travel against the body, and what rate does it feel in roll?",
    process="Travel of each wheel = half the track x the angle in radians. Rate in roll = spring + 2 x bar. "
            "Multiply: what one wheel gains the other loses.",
    worked=("Travel of each wheel: half of {track} x {angle} in radians = {travel}.",
            "Rate in roll: {spring} + 2 x {bar} = {rate}.", "Load transfer: {rate} x {travel} = {answer}."),
    given={"spring": Given("rate"), "bar": Given("rate"), "track": TRACK, "angle": Given("angle")},
    draw=lambda stream: {"spring": stream.between(18e3, 40e3, 1e3), "bar": stream.between(6e3, 25e3, 1e3),
                         "track": stream.between(1.42, 1.58, 0.01),
                         "angle": stream.between(0.0175, 0.0559, 0.00175)},
    kind="load", key=_through_springs,
    workings=lambda n: {"travel": (n.track / 2 * n.angle, "length"),
                        "rate": (axle.roll_rate(n.spring, n.bar), "rate"),
                        "stiffness": (_roll_stiffness(n), "roll stiffness")},
    steps=(
        Step(name="travel", kind="length", text="How far does each wheel travel against the body?",
             key=lambda n: n.track / 2 * n.angle, hint="How far is a wheel from the middle of the car?",
             process="Half the track x the angle in radians.",
             worked="Travel of each wheel: half of {track} x {angle} in radians = {answer}.",
             roads=(full_track_for_half(), degree_for_radian("angle"))),
        Step(name="rate", kind="rate", text="What rate does each wheel feel in roll?",
             key=lambda n: float(axle.roll_rate(n.spring, n.bar)),
             hint="What does the bar see: one wheel, or the difference?",
             process="Spring + 2 x bar.", worked="Rate in roll: {spring} + 2 x {bar} = {answer}.",
             roads=(by("held used in roll", lambda n: axle.one_wheel_rate_other_held(n.spring, n.bar)),
                    by("springs doubled too", lambda n: axle.roll_rate(2 * n.spring, n.bar))))),
    roads=(by("held used in roll", lambda n: _through_springs(n, axle.one_wheel_rate_other_held)),
           by("bar left out", lambda n: _through_springs(n, axle.heave_rate)),
           by("springs left out", lambda n: _through_springs(n, lambda k, b: axle.roll_rate(0.0, b))),
           full_track_for_half(), degree_for_radian("angle")))


def _front(n, **changes) -> float:
    return float(corner_of(n, **changes).front.load_transfer)


def _front_part(n, *parts) -> float:
    loads = corner_of(n).front
    return float(sum(getattr(loads, part) for part in parts))


def _parts(n) -> dict:
    loads = corner_of(n).front
    return {"roll": (corner_of(n).roll_angle, "angle"), "elastic": (loads.elastic, "load"),
            "links": (loads.geometric, "load"), "wheels": (loads.unsprung, "load"),
            "sprung": (car_of(n).sprung_mass_at("front"), "mass"),
            "stiffness": (stiffness.roll_stiffness(axle.roll_rate(n.spring_front, n.bar_front),
                                                   n.track_front),
                          "roll stiffness")}


def shown(*names: str) -> dict:
    """The rules for some of the car's numbers."""
    return {name: CAR[name] for name in names}


three_paths = Numeric(
    id="three-paths", lesson=5, aim="Add the three paths at one axle.",
    level=2, minutes=8, pools=("exercise", "assessment"), tolerance=Tolerance(WHOLE_CAR, 0.01),
    text="The car corners at {a} and rolls by {roll}. At the front: sprung mass {sprung}, roll centre "
         "{roll_centre_front}, roll stiffness {stiffness}, track {track_front}, both wheels with hubs "
         "{unsprung_front} at {wheel_height}. How much load does the outside front wheel gain?",
    hint="The load takes three paths. Which are they?",
    process="Springs and bar: roll stiffness x roll angle / track. Links: sprung mass x a x roll centre / "
            "track. Wheels: their mass x a x their height / track. Add the three.",
    worked=("Through springs and bar: {stiffness} x {roll} / {track_front} = {elastic}.",
            "Through the links: {sprung} x {a} x {roll_centre_front} / {track_front} = {links}.",
            "The wheels' own mass: {unsprung_front} x {a} x {wheel_height} / {track_front} = {wheels}.",
            "Together: {answer}."),
    given=shown("a", "roll_centre_front", "track_front", "unsprung_front", "wheel_height"),
    draw=road_car, sound=keeps_wheels_down, kind="load", key=_front, workings=_parts,
    roads=(by("springs and bar path left out", lambda n: _front_part(n, "geometric", "unsprung")),
           by("link path left out", lambda n: _front_part(n, "elastic", "unsprung")),
           by("unsprung path left out", lambda n: _front_part(n, "elastic", "geometric")),
           by("mass for weight", lambda n: _front_part(n, "elastic")
              + _front_part(n, "geometric", "unsprung") / GRAVITY),
           by("half track for full", lambda n: 2 * _front(n))))


def _moment(n) -> float:
    whole = corner_of(n)
    return float(whole.front.roll_moment + whole.rear.roll_moment)


def _moment_parts(n) -> dict:
    car = car_of(n)
    return {"roll": (corner_of(n).roll_angle, "angle"), "sprung_mass": (car.sprung_mass, "mass"),
            "arm": (roll_moment_arm(car), "length"), "side": (n.mass * n.a * n.cg_height, "moment"),
            "lean": (car.sprung_mass * GRAVITY * roll_moment_arm(car) * corner_of(n).roll_angle, "moment")}


whole_moment = Numeric(
    id="whole-moment", lesson=5, aim="Work out what the two axles have to carry together.",
    level=3, minutes=6, pools=("exercise", "assessment"), tolerance=Tolerance(WHOLE_CAR, 0.01),
    text="A car of {mass} has its centre of gravity at {cg_height} and corners at {a}. Its body, "
         "{sprung_mass}, rolls by {roll}; the body's centre of gravity lies {arm} above the roll axis. Which "
         "moment do the two axles together have to carry (the sum of track x load transfer)?",
    hint="Two things tip the car: the side force, and the weight of a body that has leaned out.",
    process="Side force x height of the centre of gravity. To it add the body's weight x how far its centre "
            "of gravity has moved sideways: arm x angle in radians.",
    worked=("Side force times height: {mass} x {a} x {cg_height} = {side}.",
            "Weight of the leaned body: {sprung_mass} x g x {arm} x {roll} in radians = {lean}.",
            "Together: {answer}."),
    given=shown("mass", "cg_height", "a"), draw=soft_car, sound=keeps_wheels_down,
    kind="moment", key=_moment, workings=_moment_parts,
    roads=(by("gravity's share left out", lambda n: n.mass * n.a * n.cg_height),
           by("mass for weight", lambda n: n.mass * n.a * n.cg_height / GRAVITY
              + (_moment(n) - n.mass * n.a * n.cg_height)),
           by("gravity's share taken away", lambda n: 2 * n.mass * n.a * n.cg_height - _moment(n)),
           by("degree for radian", lambda n: n.mass * n.a * n.cg_height
              + math.degrees(_moment(n) - n.mass * n.a * n.cg_height))))


def _inside(n) -> float:
    return float(corner_of(n).front.inside)


inside_wheel = Numeric(
    id="inside-wheel", lesson=5, aim="Work out what is left on the inside wheel.",
    level=1, minutes=2, pools=("exercise", "recall"),
    text="The front axle carries {axle_mass}. In the corner {transfer} goes from the inside wheel to the "
         "outside wheel. What load is left on the inside wheel?",
    hint="What did that wheel carry before the corner?",
    process="Weight of the axle = mass x g. Half of it is on each wheel. Take the transfer off.",
    worked=("Weight on the axle: {axle_mass} x g = {weight}.", "At rest each wheel carries {half}.",
            "Inside wheel: {half} - {transfer} = {answer}."),
    draw=road_car, sound=keeps_wheels_down, kind="load", key=_inside,
    workings=lambda n: {"axle_mass": (car_of(n).axle_mass("front"), "mass"), "transfer": (_front(n), "load"),
                        "weight": (car_of(n).axle_weight("front"), "load"),
                        "half": (car_of(n).axle_weight("front") / 2, "load")},
    roads=(by("half the axle load forgotten", lambda n: car_of(n).axle_weight("front") - _front(n)),
           by("inside for outside", lambda n: float(corner_of(n).front.outside)),
           by("mass for weight", lambda n: car_of(n).axle_mass("front") / 2 - _front(n))))

QUESTIONS = (link_path, wheel_mass_path, spring_path, three_paths, whole_moment, inside_wheel)
