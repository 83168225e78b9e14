"""Lesson 5, where the load goes: a wheel that leaves the ground."""

from rollmodel.car import GRAVITY
from rollmodel.questions.bank.cars import (
    ACCELERATION,
    CAR,
    HEIGHT,
    TRACK,
    car_of,
    corner_of,
    keeps_wheels_down,
    road_car,
    stiffness_of,
)
from rollmodel.questions.records import Numeric, Tolerance
from rollmodel.questions.roads import by, full_track_for_half, half_track_for_full, with_changed

STIFF = 1e9  # N/m at each wheel: so stiff that the car does not roll


def _rear(n) -> float:
    return float(corner_of(n).rear.load_transfer)


def _lift(n) -> float:
    """Transfer grows in proportion to lateral acceleration until a wheel lifts."""
    return n.a * car_of(n).axle_weight("rear") / 2 / _rear(n)


lift_point = Numeric(
    id="lift-point", lesson=5, aim="Work out when an inside wheel leaves the ground.",
    level=2, minutes=5, pools=("exercise", "assessment"),
    text="The rear axle carries {axle_mass}. At {a} the rear load transfer is {transfer}, and it grows in "
         "proportion to the lateral acceleration. At which lateral acceleration does the inside rear wheel "
         "leave the ground? Take the tyres as able to hold it.",
    hint="How much can the inside wheel lose before nothing is left?",
    process="Half the axle's weight is on the inside wheel at rest. Divide that by the transfer for each g.",
    worked=("On the inside wheel at rest: half of {axle_mass} x g = {half}.",
            "It is gone when the transfer reaches {half}: {a} x {half} / {transfer} = {answer}."),
    given={"a": ACCELERATION}, draw=road_car,
    sound=lambda n: keeps_wheels_down(n) and _lift(n) < 2.5 * GRAVITY,
    kind="lateral acceleration", key=_lift,
    workings=lambda n: {"axle_mass": (car_of(n).axle_mass("rear"), "mass"), "transfer": (_rear(n), "load"),
                        "half": (car_of(n).axle_weight("rear") / 2, "load")},
    roads=(by("half the axle load forgotten", lambda n: 2 * _lift(n)),
           by("per wheel for per axle", lambda n: _lift(n) / 2),
           by("front for rear", lambda n: n.a * car_of(n).axle_weight("front") / 2 / _rear(n)),
           by("rate upside down", lambda n: n.a * _rear(n) / (car_of(n).axle_weight("rear") / 2))))



def _tips(n) -> float:
    """The lateral acceleration at which a car that does not roll needs its whole weight to stand."""
    stiff = {f"{part}_{end}": STIFF for part in ("spring", "bar") for end in ("front", "rear")}
    corner = corner_of(n, track_front=n.track, track_rear=n.track, **stiff)
    moment = corner.front.roll_moment + corner.rear.roll_moment
    return float(n.a * n.mass * GRAVITY * n.track / 2 / moment)


tips_over = Numeric(
    id="tips-over", lesson=5, aim="Work out when a stiff car would tip over.",
    level=1, minutes=3, pools=("exercise", "recall"),
    text="A car on very stiff springs has a track of {track} at both ends and its centre of gravity at "
         "{cg_height}. At which lateral acceleration would both inside wheels leave the ground, if the tyres "
         "could hold it?",
    hint="Draw the car from behind, standing on its outside wheels only. Which arm tips it, which holds it "
         "down?",
    process="Moments about the outside wheels: weight x half the track against side force x height.",
    worked=("Holding down: m g x half of {track}. Tipping: m a x {cg_height}.",
            "a = g x track / (2 x height) = {answer}."),
    given={"track": TRACK, "cg_height": HEIGHT},
    draw=lambda stream: {**road_car(stream), "a": GRAVITY / 2, "track": stream.between(1.36, 1.60, 0.02),
                         "cg_height": stream.between(0.44, 0.66, 0.01)},
    kind="lateral acceleration", key=_tips,
    roads=(full_track_for_half(), half_track_for_full(),
           by("cg height for half", lambda n: GRAVITY * 2 * n.cg_height / n.track)))


def _further(stream):
    car = road_car(stream)
    return {**car, "a": stream.between(1.00, 1.20, 0.05) * GRAVITY,
            "more": stream.between(0.10, 0.25, 0.05) * GRAVITY,
            "front_share": stream.between(0.58, 0.64, 0.01), "spring_front": STIFF / 2, "bar_front": 0.0,
            "spring_rear": STIFF * stream.between(0.9, 1.5, 0.1), "bar_rear": 0.0}


def _front_gain(n) -> float:
    before, after = corner_of(n), corner_of(n, a=n.a + n.more)
    return float(after.front.load_transfer - before.front.load_transfer)


def _rear_is_up(n) -> bool:
    now, later = corner_of(n), corner_of(n, a=n.a + n.more)
    return bool(now.rear.lifted and not now.front.lifted and not later.rolls_over and not later.front.lifted)


def _share_by_stiffness(n) -> float:
    """Front part of the roll stiffness, which would go on if the rear could still take its part."""
    front, rear = (stiff.total_roll for stiff in stiffness_of(n, car_of(n)))
    return float(front / (front + rear))


after_lift = Numeric(
    id="after-lift", lesson=5, aim="Say who takes the load once an inside wheel is up.",
    level=3, minutes=6, pools=("exercise", "assessment"),
    tolerance=Tolerance("two steps, each to three figures", 0.01),
    text="A car of {mass} is so stiff that it hardly rolls. Its centre of gravity is at {cg_height}, its "
         "front track {track_front}. The front has {share} of the roll stiffness. At {a} the inside rear "
         "wheel is already off the ground. The lateral acceleration rises by another {more}. How much more "
         "load does the outside front wheel gain?",
    hint="Can the rear axle take any more?",
    process="The rear has given all it has. Work out the whole car's extra moment, mass x extra acceleration "
            "x height, and let the front track carry all of it.",
    worked=("Extra moment of the whole car: {mass} x {more} x {cg_height} = {extra}.",
            "The rear can take none of it. Front: {extra} / {track_front} = {answer}."),
    given={**{name: CAR[name] for name in ("mass", "cg_height", "track_front", "a")}, "more": ACCELERATION},
    draw=_further, sound=_rear_is_up, kind="load", key=_front_gain,
    workings=lambda n: {"share": (_share_by_stiffness(n), "share"),
                        "extra": (n.mass * n.more * n.cg_height, "moment")},
    roads=(by("lifted end still shares", lambda n: _share_by_stiffness(n) * _front_gain(n)),
           by("half track for full", lambda n: 2 * _front_gain(n)),
           by("total mass for axle mass", lambda n: n.front_share * _front_gain(n)),
           with_changed("mass for weight", more=lambda more: more / GRAVITY)))

QUESTIONS = (lift_point, tips_over, after_lift)
