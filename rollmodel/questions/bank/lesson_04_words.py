"""Lesson 4, how far it rolls: choices, an order, an open question."""

from types import SimpleNamespace

from rollmodel.car import GRAVITY
from rollmodel.questions.bank.cars import (
    ACCELERATION,
    car_of,
    corner_of,
    keeps_wheels_down,
    road_car,
    soft_car,
)
from rollmodel.questions.bank.lesson_04 import A_DEGREE, ARM, HEIGHT, MASS, STIFFNESS, body, rolls
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by

STIFFER = 3.0  # bars at both ends


def other_bars(n, factor: float = STIFFER):
    """The corner with other bars at both ends."""
    return corner_of(n, bar_front=factor * n.bar_front, bar_rear=factor * n.bar_rear)


def _whole(corner) -> float:
    return float(corner.front.load_transfer + corner.rear.load_transfer)


def _what_happens(n, factor: float) -> str:
    """What other bars at both ends do to the load moved in all, by the model."""
    before, after = corner_of(n), other_bars(n, factor)
    moved, rolled = _whole(after) / _whole(before) - 1, float(after.roll_angle / before.roll_angle) - 1
    if abs(moved) < 0.25 * abs(rolled):
        return "same"
    return "less" if moved * rolled > 0 else "more"


def _figures(n, factor: float = STIFFER) -> dict:
    before, after = corner_of(n), other_bars(n, factor)
    return {"roll_before": (before.roll_angle, "angle"), "roll_after": (after.roll_angle, "angle"),
            "load_before": (_whole(before), "load"), "load_after": (_whole(after), "load")}


def _transfer(id: str, twin: str, change: str, other: str, factor: float, pools, minutes) -> Choice:
    less, more = ("less", "more") if factor > 1 else ("more", "less")
    return Choice(
        id=id, twin=twin, lesson=4, aim="Tell how far a body rolls from how much load moves.", level=2,
        minutes=minutes, pools=pools,
        text=f"{change} bars are fitted at both ends, so the body rolls {less}. In the same corner, at "
             f"{{a}}, how much load "
             "moves from the inside to the outside wheels, front and rear together?",
        hint="Which things set the load that moves: the angle of the body, or mass, height, track and "
             "lateral acceleration?",
        process="Ask what has changed among mass, height of the centre of gravity, track and lateral "
                "acceleration.",
        worked=("Roll: {roll_before} before, {roll_after} "
                "after.", "Load moved: {load_before} before, {load_after} after.",
                "The small change is the leaning weight, which stands a little elsewhere."),
        given={"a": ACCELERATION}, draw=road_car, sound=keeps_wheels_down,
        workings=lambda n: _figures(n, factor), key=lambda n: _what_happens(n, factor),
        options=(Option("same", "Nearly the same: mass, height, track and lateral acceleration are the "
                                "same."),
                 wrong("less", f"Much {less}: the body rolls {less}.", "less roll is less transfer"),
                 wrong("more", f"Much {more}: {other} bars move {more} load "
                               f"across.", "bar adds total transfer"),
                 wrong("inside", f"Much {less}: {other} bars press the inside wheels down {more}.",
                       "bar loads inside wheel")))


flatter = _transfer("class-flatter-car", "class-softer-car", "Much stiffer", "stiffer", STIFFER,
                    ("class", "recall"), 3)
softer = _transfer("class-softer-car", "class-flatter-car", "Much softer", "softer", 1 / STIFFER,
                   ("class",), 2)


def _times(n) -> dict[str, float]:
    """How many times as large the angle is: with gravity's share, in plain proportion, squared, alike."""
    gravity, both = GRAVITY * n.sprung * n.arm, n.front + n.rear
    return {"real": (both - gravity) / (n.part * both - gravity), "plain": 1 / n.part, "squared": n.part**-2,
            "same": 1.0}


def _soft(stream, part: float) -> dict:
    """A body on soft springs, where gravity's share shows."""
    return {**body(stream), "front": stream.between(200, 270, 10) * A_DEGREE,
            "rear": stream.between(180, 250, 10) * A_DEGREE, "part": part}


def _stiffness(id: str, twin: str, change: str, part: float, more: str, pools, minutes) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=4, aim="Say how roll goes with roll stiffness, gravity's share "
                                        "counted.", level=3,
        minutes=minutes, pools=pools,
        text=f"The axles of a soft car have {{front}} and {{rear}} of roll stiffness; its leaning weight "
             f"takes {{gravity}}. "
             f"Both axles are made {change} as stiff. How many times as large as before is the roll angle in "
             f"the same corner?",
        hint="What is left of both axles before, and what after?",
        process="Take gravity's share from both axles, before and after. The angle goes with one over what "
                "is left.",
        worked=("Left before: {left}. Left after: {left_after}.", "{left} / {left_after} = {real} times."),
        given={"front": STIFFNESS, "rear": STIFFNESS}, draw=lambda stream: _soft(stream, part),
        workings=lambda n: {**_left(n), **{name: (value, "ratio") for name, value in _times(n).items()}},
        key=_nearest,
        options=(Option("real", f"{{real}} times: {more}."),
                 wrong("plain", "{plain} times: the angle goes with one over the "
                                "stiffness.", "roll in plain proportion"),
                 wrong("squared", "{squared} times: it counts twice.", "stiffness squared"),
                 wrong("same", "As large as before: the corner is the "
                               "same.", "stiffness without effect on roll")))


def _nearest(n) -> str:
    """The option that the model's own figure belongs to."""
    found, times = rolls(n, front=n.part, rear=n.part) / rolls(n), _times(n)
    return min(times, key=lambda name: abs(times[name] - found))


def _left(n) -> dict:
    gravity, both = GRAVITY * n.sprung * n.arm, n.front + n.rear
    return {"gravity": (gravity, "roll stiffness"), "left": (both - gravity, "roll stiffness"),
            "left_after": (n.part * both - gravity, "roll stiffness")}


halved = _stiffness("class-half-as-stiff", "class-twice-as-stiff", "half", 0.5,
                    "gravity's share stays, so less than half of the stiffness is "
                    "left", ("class", "recall"), 4)
doubled = _stiffness("class-twice-as-stiff", "class-half-as-stiff", "twice", 2.0,
                     "gravity's share stays, so more than twice the stiffness is left", ("class",), 3)


def _stands(n) -> str:
    return "stands" if rolls(n) > 0 else "falls"


def _nearly_falls(stream) -> dict:
    """A tall body whose springs hold a little less than its weight tips."""
    part = stream.pick((0.75, 0.80, 0.85, 0.90))
    numbers = {**body(stream), "sprung": stream.between(1800, 2400, 10),
               "arm": stream.between(0.9, 1.2, 0.01)}
    needed = GRAVITY * numbers["sprung"] * numbers["arm"]
    return {**numbers, "front": 0.5 * part * needed, "rear": 0.5 * part * needed}


stands_or_falls = Choice(
    id="stands-or-falls", lesson=4, aim="Say whether a car stands "
                                        "up.", level=2, minutes=4, pools=("recall", "exercise"),
    text="A tall trailer body of {sprung} has its centre of gravity {arm} above its roll axis. Its two axles "
         "have roll "
         "stiffnesses of {front} and {rear}. It is held upright on level ground and let go. Does it stay "
         "upright?",
    hint="Push it over by one degree. What tips it on, what pushes it back?",
    process="Weight x arm / 57.3 is what its own weight takes for each degree. Compare with both axles "
            "together.",
    worked=("Its weight takes {gravity}.", "Both axles push back with {both}."),
    given={"sprung": MASS, "arm": ARM, "front": STIFFNESS, "rear": STIFFNESS},
    draw=_nearly_falls, key=_stands,
    workings=lambda n: {"gravity": (GRAVITY * n.sprung * n.arm, "roll stiffness"),
                        "both": (n.front + n.rear, "roll stiffness")},
    options=(Option("falls", "No: its weight tips it on harder than both axles push back."),
             wrong("always", "Yes: without a corner nothing tips it.", "gravity's share left out"),
             wrong("stands", "Yes: its weight holds it down on its springs.", "gravity's share taken away")))

CARS = ("one", "two", "three", "four")


def _four(stream) -> dict:
    """Four bodies; the stiffest springs do not carry the lowest body."""
    stiff = stream.shuffled((600, 800, 1050, 1400))
    arms = stream.shuffled((0.32, 0.40, 0.50, 0.62))
    return {"sprung": stream.between(950, 1250, 10), "a": 0.5 * GRAVITY,
            **{f"stiff_{name}": value * A_DEGREE for name, value in zip(CARS, stiff, strict=True)},
            **{f"arm_{name}": value for name, value in zip(CARS, arms, strict=True)}}


def _angles(n) -> dict[str, float]:
    return {name: rolls(SimpleNamespace(sprung=n.sprung, a=n.a, arm=getattr(n, f"arm_{name}"),
                                        front=getattr(n, f"stiff_{name}"), rear=0.0)) for name in CARS}


rolls_in_order = Ordering(
    id="rolls-in-order", lesson=4, aim="Put cars in order of their roll.", level=2, minutes=5,
    pools=("exercise", "assessment"),
    text="Four bodies of {sprung} each, all in a corner at {a}. Each is given by its roll stiffness (both "
         "axles) and the height of "
         "its centre of gravity above the roll axis. Put them in order of their roll angle, the smallest "
         "first.",
    hint="What tips the body, and what holds it? Look at both.",
    process="Height over what is left of the stiffness, for each.",
    worked=tuple(f"{{stiff_{name}}} and {{arm_{name}}}: {{{name}}}." for name in CARS),
    given={"sprung": MASS, "a": ACCELERATION, **{f"stiff_{name}": STIFFNESS for name in CARS},
           **{f"arm_{name}": ARM for name in CARS}},
    draw=_four, values=_angles,
    workings=lambda n: {name: (angle, "angle") for name, angle in _angles(n).items()},
    items={name: f"{{stiff_{name}}}, {{arm_{name}}} above its axis" for name in CARS},
    roads=(by("balance by roll", lambda n: {name: -getattr(n, f"stiff_{name}") for name in CARS}),
           by("stiffness without effect on "
              "roll", lambda n: {name: getattr(n, f"arm_{name}") for name in CARS})))


def _open_figures(n) -> dict:
    still = n.mass * n.a * n.cg_height
    whole = corner_of(n)
    moment = float(whole.front.roll_moment + whole.rear.roll_moment)
    return {**_figures(n), "rigid": (still, "moment"), "whole": (moment, "moment"),
            "lean": (moment - still, "moment"),
            "title_mass": (car_of(n).mass, "mass")}


no_roll_no_transfer = Open(
    id="no-roll-no-transfer", lesson=4, aim="Answer a common belief about roll with "
                                            "figures.", level=3, minutes=8,
    pools=("exercise", "assessment"),
    text="A driver says: \"I want bars so stiff that the car does not roll at all. Then no load moves to the "
         "outside, and all "
         "four tyres grip the same.\" The car has {title_mass} with its centre of gravity at {cg_height}, "
         "and corners at {a}. On "
         "its present springs and bars the axles together hold an overturning moment of {whole}. Is the "
         "driver right? Answer with "
         "figures.",
    hint="Work out the overturning moment of a car that does not roll at all.",
    process="Mass x a x height is the moment of a rigid car. Compare it with {whole}.",
    worked=("A car that does not roll: {title_mass} x {a} x {cg_height} = {rigid}.",
            "On its springs: {whole}. So the most that bars could take away is {lean}.",
            "With bars three times as stiff at both ends the roll goes from {roll_before} to {roll_after}, "
            "the load moved from "
            "{load_before} to {load_after}."),
    given={"a": ACCELERATION, "cg_height": HEIGHT}, draw=soft_car,
    sound=keeps_wheels_down, workings=_open_figures,
    rubric=(Criterion(1, "Says no: nearly all of the load still moves when the car does not roll."),
            Criterion(2, "Gives the moment of a rigid car, close to {rigid}, and compares it with {whole}."),
            Criterion(1, "Says where it comes from: side force at road level, weight higher up; bars change "
                         "neither."),
            Criterion(1, "Grants what is true: the body rolls less, and the leaning weight adds less.")),
    samples=(Sample("weak", 1, "No, you always get load transfer in a "
                               "corner.", "Right; no reason and no figure."),
             Sample("fair", 3, "No. Mass times lateral acceleration times height gives almost the same "
                               "moment, even with no roll "
                               "at all. I worked it out and only a few per cent are missing.",
                               "Figures compared (shown beside); not where it comes from."),
             Sample("good", 5, "No. The tyres push at road level and the weight is higher up, so the car is "
                               "tipped whether its "
                               "body leans or not. For a rigid car I get nearly the moment it has now. The "
                               "driver is right that "
                               "the body would be flat and its weight would not lean out, but that is only "
                               "the small rest.",
                    "All four points.")))

QUESTIONS = (flatter, softer, halved, doubled, stands_or_falls, rolls_in_order, no_roll_no_transfer)
