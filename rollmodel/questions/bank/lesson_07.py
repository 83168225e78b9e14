"""Lesson 7, which end gives up first: questions with a number."""

import math

from rollmodel.car import GRAVITY
from rollmodel.physics.balance import small_slip_gradient
from rollmodel.physics.tyre import cornering_stiffness, falling_grip_peak
from rollmodel.questions.bank.cars import ACCELERATION, car_of, corner_of, keeps_wheels_down, road_car
from rollmodel.questions.records import Numeric, Step, Tolerance
from rollmodel.questions.roads import by
from rollmodel.questions.shown import Given

PER_G = math.radians(1.0) / GRAVITY  # 1 deg/g in SI
DIFFERENCE = Tolerance("a difference of two figures near 3 deg/g, each read to four figures", 0.02,
                       0.01 * PER_G)


def tyre_stiffness(n, end: str, side: str) -> float:
    """Cornering stiffness of one tyre at its load in the corner."""
    return float(cornering_stiffness(car_of(n).tyre, getattr(corner_of(n).axle(end), side)))


def axle_stiffness(n, end: str) -> float:
    return tyre_stiffness(n, end, "outside") + tyre_stiffness(n, end, "inside")


def gradient(n) -> float:
    """Understeer gradient by small slip."""
    return float(small_slip_gradient(car_of(n), corner_of(n)))


def share(n, end: str) -> float:
    """Slip angle of one end for each unit of lateral acceleration, by small slip."""
    return car_of(n).axle_mass(end) / axle_stiffness(n, end)


def _stiffnesses(n) -> dict:
    rows = {f"{end}_{side}": (tyre_stiffness(n, end, side), "cornering stiffness")
            for end in ("front", "rear") for side in ("outside", "inside")}
    rows |= {f"{end}_weight": (car_of(n).axle_weight(end), "load") for end in ("front", "rear")}
    rows |= {f"{end}_axle": (axle_stiffness(n, end), "cornering stiffness") for end in ("front", "rear")}
    return rows | {f"{end}_share": (share(n, end), "understeer gradient") for end in ("front", "rear")}


def _gradient_counts(n) -> bool:
    return keeps_wheels_down(n) and abs(gradient(n)) > 0.25 * PER_G


understeer_by_hand = Numeric(
    id="understeer-by-hand", lesson=7, aim="Work out the understeer gradient from weights and cornering "
                                           "stiffness.",
    level=2, minutes=6, pools=("exercise", "assessment"), tolerance=DIFFERENCE, signed=True,
    text="At small slip, with the loads of one corner, the front tyres have cornering stiffnesses of "
         "{front_outside} and {front_inside}, the rear tyres {rear_outside} and {rear_inside}. The front "
         "axle carries {front_weight}, the rear axle {rear_weight}. What is the understeer gradient? Plus is "
         "understeer, minus is oversteer.",
    hint="How much does each end slip at 1 g? Then compare the ends.",
    process="Add the two tyres of each axle. Weight over axle stiffness is that end's slip angle for each g. "
            "Front less rear.",
    worked=("Front: {front_weight} / ({front_outside} + {front_inside}) = {front_share}.",
            "Rear: {rear_weight} / ({rear_outside} + {rear_inside}) = {rear_share}.",
            "Front less rear: {answer}."),
    draw=road_car, sound=_gradient_counts, kind="understeer gradient", key=gradient, workings=_stiffnesses,
    steps=(Step(name="front", kind="understeer gradient", text="How much does the front slip for each g?",
                key=lambda n: share(n, "front"), hint="Both front tyres push. Add them.",
                process="Front weight over the stiffness of both front tyres.",
                worked="Front: {front_weight} / ({front_outside} + {front_inside}) = {answer}.",
                roads=(by("outside tyre alone", lambda n: share(n, "front") * axle_stiffness(n, "front")
                          / tyre_stiffness(n, "front", "outside")),
                       by("mean for sum", lambda n: 2 * share(n, "front")),
                       by("front for rear",
                          lambda n: car_of(n).axle_mass("rear") / axle_stiffness(n, "rear")))),),
    roads=(by("front for rear", lambda n: -gradient(n)),
           by("ends added", lambda n: share(n, "front") + share(n, "rear")),
           by("front only", lambda n: share(n, "front")),
           by("mean for sum", lambda n: 2 * gradient(n))))

front_slip = Numeric(
    id="front-slip", lesson=7, aim="Work out the slip angle that an axle needs.",
    level=1, minutes=3, pools=("exercise", "recall"),
    text="The front axle carries {axle_mass} and its two tyres together have a cornering stiffness of "
         "{front_axle} at small slip. At which slip angle do they hold {a}?",
    hint="How much side force does this axle have to give?",
    process="Side force = axle's mass x lateral acceleration. Divide by the stiffness of the axle.",
    worked=("Side force: {axle_mass} x {a} = {force}.", "Slip angle: {force} / {front_axle} = {answer}."),
    given={"a": ACCELERATION},
    draw=lambda stream: {**road_car(stream), "a": stream.between(0.2, 0.5, 0.05) * GRAVITY},
    sound=keeps_wheels_down, kind="angle", key=lambda n: share(n, "front") * n.a,
    workings=lambda n: {**_stiffnesses(n), "axle_mass": (car_of(n).axle_mass("front"), "mass"),
                        "force": (car_of(n).axle_mass("front") * n.a, "load")},
    roads=(by("total mass for axle mass", lambda n: share(n, "front") * n.a / n.front_share),
           by("mass for weight", lambda n: share(n, "front") * n.a / GRAVITY),
           by("per wheel for per axle", lambda n: share(n, "front") * n.a / 2),
           by("per axle for per wheel", lambda n: 2 * share(n, "front") * n.a)))


def _curves(stream) -> dict:
    return {**road_car(stream), "a": stream.between(0.3, 0.6, 0.05) * GRAVITY,
            "path": math.radians(stream.between(1.0, 4.0, 0.1))}


steer_needed = Numeric(
    id="steer-needed", lesson=7, aim="Work out how far the front wheels are steered in a corner.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"),
    tolerance=Tolerance("angles added and taken away, each read to four figures", 0.01),
    text="At walking pace a corner needs {path} of steer at the front wheels (wheelbase over radius). At {a} "
         "the front tyres slip by {front_slip} and the rear tyres by {rear_slip}. How far are the front "
         "wheels steered now?",
    hint="Front slip makes the car run wide. What does rear slip do?",
    process="Steer = angle of the path + front slip - rear slip.",
    worked=("{path} + {front_slip} - {rear_slip} = {answer}.",
            "More than {path} is understeer, less is oversteer."),
    given={"path": Given("angle"), "a": ACCELERATION}, draw=_curves,
    sound=lambda n: keeps_wheels_down(n) and abs(gradient(n) * n.a) > 0.06 * n.path,
    kind="angle", key=lambda n: n.path + gradient(n) * n.a,
    workings=lambda n: {f"{end}_slip": (share(n, end) * n.a, "angle") for end in ("front", "rear")},
    roads=(by("path angle left out", lambda n: gradient(n) * n.a), by("slip left out", lambda n: n.path),
           by("ends added", lambda n: n.path + (share(n, "front") + share(n, "rear")) * n.a),
           by("front for rear", lambda n: n.path - gradient(n) * n.a),
           by("front only", lambda n: n.path + share(n, "front") * n.a)))


def two_ends(stream, weak: str | None = None) -> dict:
    """A falling-grip tyre, what each end carries, and what each end transfers at its limit.

    The weak end, one of the two by chance when it is not named, carries and transfers more.
    """
    weak = weak or stream.pick(("front", "rear"))
    numbers = {"peak_grip": stream.between(1.20, 1.50, 0.05), "grip_drop": stream.between(50e-6, 80e-6, 5e-6)}
    for end in ("front", "rear"):
        low = 3000 if end == weak else 2600
        numbers[f"load_{end}"] = stream.between(low, low + 600, 50)
        low = 1700 if end == weak else 900
        numbers[f"transfer_{end}"] = stream.between(low, low + 600, 50)
    return numbers


def hold(n, end: str) -> float:
    """The lateral acceleration that one end can hold: both tyres' best over what the end has to push."""
    load, transfer = getattr(n, f"load_{end}"), getattr(n, f"transfer_{end}")
    force = sum(falling_grip_peak(load + side * transfer, n.peak_grip, n.grip_drop) for side in (1, -1))
    return float(force / (2 * load) * GRAVITY)


def car_limit(n) -> float:
    return min(hold(n, "front"), hold(n, "rear"))


def ends_differ(n) -> bool:
    """The two ends hold different lateral accelerations, by enough to tell."""
    front, rear = hold(n, "front"), hold(n, "rear")
    return abs(front - rear) > 0.06 * min(front, rear)


def _end_rows(n) -> dict:
    rows = {}
    for end in ("front", "rear"):
        weight = 2 * getattr(n, f"load_{end}")
        rows |= {f"weight_{end}": (weight, "load"), f"force_{end}": (hold(n, end) / GRAVITY * weight, "load"),
                 f"hold_{end}": (hold(n, end), "lateral acceleration")}
    return rows


limit_of_car = Numeric(
    id="limit-of-car", lesson=7, aim="Find the car's limit from what its two ends can hold.",
    level=2, minutes=4, pools=("exercise", "recall", "assessment"),
    text="At their best the two front tyres give {force_front} together and the two rear tyres {force_rear}. "
         "The front axle carries {weight_front}, the rear axle {weight_rear}. What is the largest lateral "
         "acceleration that the car can hold?",
    hint="Work out each end by itself. What happens when the first of them has no more to give?",
    process="Side force over weight is what an end can hold, in g. The smaller of the two ends is the car's "
            "limit.",
    worked=("Front: {force_front} / {weight_front} = {hold_front}.",
            "Rear: {force_rear} / {weight_rear} = {hold_rear}.",
            "The first end to give up ends it: {answer}."),
    draw=two_ends, sound=ends_differ, kind="lateral acceleration", key=car_limit, workings=_end_rows,
    steps=(Step(name="front", kind="lateral acceleration", text="What can the front hold?",
                key=lambda n: hold(n, "front"), hint="Side force over what has to be pushed round.",
                process="Front side force over front weight.",
                worked="Front: {force_front} / {weight_front} = {answer}.",
                roads=(by("total mass for axle mass", lambda n: hold(n, "front") * n.load_front
                          / (n.load_front + n.load_rear)),)),),
    roads=(by("higher limit is car's limit", lambda n: max(hold(n, "front"), hold(n, "rear"))),
           by("average limit", lambda n: (hold(n, "front") + hold(n, "rear")) / 2),
           by("total mass for axle mass",
              lambda n: hold(n, "front") * n.load_front / (n.load_front + n.load_rear)),
           by("per wheel for per axle", lambda n: car_limit(n) / 2)))


def _more_front(stream) -> dict:
    numbers = two_ends(stream)
    return {**numbers, "transfer_front": stream.between(1000, 1600, 50),
            "more": stream.between(1700, 2300, 50)}


def _with_more(n) -> float:
    return hold(type(n)(**{**vars(n), "transfer_front": n.more}), "front")


def _front_drop(n) -> float:
    return _with_more(n) - hold(n, "front")


stiffer_front_limit = Numeric(
    id="stiffer-front-limit", lesson=7, aim="Work out what a stiffer front bar does to the front's limit.",
    level=3, minutes=7, pools=("exercise", "assessment"), signed=True,
    tolerance=Tolerance("a small difference of two limits, each worked to four figures", 0.04),
    text="A tyre's grip is {peak_grip} at no load and falls by {grip_drop} of load. Each front tyre carries "
         "{load_front} at rest. With a stiffer front bar the front load transfer at the limit goes from "
         "{transfer_front} to {more}. By how much does the lateral acceleration that the front can hold "
         "change? Write a minus sign if it falls.",
    hint="What does uneven load cost the front pair, before and after?",
    process="The pair loses 2 x drop x transfer squared. Take the loss before from the loss after, and "
            "divide by the axle's weight.",
    worked=("Loss before {loss_before}, after {loss_after}: {extra} more.",
            "Over the front axle's weight of {weight}: the front's limit changes by {answer}."),
    given={"peak_grip": Given("ratio"), "grip_drop": Given("grip drop"), "load_front": Given("load", 50, 10),
           "transfer_front": Given("load", 50, 10), "more": Given("load", 50, 10)},
    draw=_more_front, kind="lateral acceleration", key=_front_drop,
    workings=lambda n: {"loss_before": (_loss(n, n.transfer_front), "load"),
                        "loss_after": (_loss(n, n.more), "load"),
                        "extra": (_loss(n, n.more) - _loss(n, n.transfer_front), "load"),
                        "weight": (2 * n.load_front, "load")},
    roads=(by("sign", lambda n: -_front_drop(n)), by("one tyre's loss", lambda n: _front_drop(n) / 2),
           by("per wheel for per axle", lambda n: 2 * _front_drop(n)),
           by("change alone", lambda n: -_loss(n, n.more - n.transfer_front) / (2 * n.load_front) * GRAVITY)))


def _loss(n, transfer) -> float:
    even = 2 * falling_grip_peak(n.load_front, n.peak_grip, n.grip_drop)
    pair = sum(falling_grip_peak(n.load_front + side * transfer, n.peak_grip, n.grip_drop) for side in (1,
                                                                                                        -1))
    return float(even - pair)


QUESTIONS = (understeer_by_hand, front_slip, steer_needed, limit_of_car, stiffer_front_limit)
