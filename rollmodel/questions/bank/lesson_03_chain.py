"""Lesson 3, the whole chain: from the parts to an axle on its tyres, and back from a wish to a bar."""

from rollmodel.physics import axle, stiffness
from rollmodel.questions.bank.lesson_03 import A_DEGREE, RATE, RATIO, STIFFNESS, TRACK
from rollmodel.questions.records import Numeric, Step
from rollmodel.questions.roads import by, full_track_for_half, half_track_for_full
from rollmodel.questions.shown import Given


def _axle(n, bar=axle.roll_rate, power=1.0) -> float:
    """Roll stiffness from the parts; ``power`` 0.5 takes each motion ratio once, 2 to the fourth."""
    spring = stiffness.wheel_rate(n.spring_rate, n.spring_ratio**power)
    held = stiffness.wheel_rate(n.bar_rate, n.bar_ratio**power)
    return float(stiffness.roll_stiffness(bar(spring, held), n.track))


def _parts(stream) -> dict:
    return {"spring_rate": stream.between(45e3, 90e3, 1e3), "spring_ratio": stream.between(0.60, 0.80, 0.01),
            "bar_rate": stream.between(30e3, 70e3, 1e3), "bar_ratio": stream.between(0.50, 0.70, 0.01),
            "track": stream.between(1.42, 1.58, 0.01)}


def _spring_wheel(n) -> float:
    return float(stiffness.wheel_rate(n.spring_rate, n.spring_ratio))


def _bar_wheel(n) -> float:
    return float(stiffness.wheel_rate(axle.roll_rate(0.0, n.bar_rate), n.bar_ratio))


whole_chain = Numeric(
    id="whole-chain", lesson=3, aim="Carry spring and bar all the way to the roll stiffness of the axle.",
    level=2, minutes=8, pools=("exercise", "assessment"),
    text="A spring of {spring_rate} moves {spring_ratio} times as far as its wheel. A bar shows {bar_rate} "
         "at the link with "
         "one end held; its link moves {bar_ratio} times as far as the wheel. The track is {track}, the "
         "tyres are taken as "
         "rigid. What is the roll stiffness of the axle?",
    hint="First bring each to the wheel. Then from the wheels to the axle.",
    process="Spring at the wheel = rate x ratio squared. Bar at the wheel in roll = 2 x rate x ratio "
            "squared. Add them. "
            "Times track squared / 2, then from radian to degree.",
    worked=("Spring at the wheel: {spring_rate} x {spring_squared} = {spring_wheel}.",
            "Bar at the wheel in roll: 2 x {bar_rate} x {bar_squared} = {bar_wheel}.",
            "Each wheel feels {spring_wheel} + {bar_wheel} = {rate}.",
            "Roll stiffness: {rate} x {track} squared / 2, then from radian to degree = {answer}."),
    given={"spring_rate": RATE, "spring_ratio": RATIO, "bar_rate": RATE, "bar_ratio": RATIO, "track": TRACK},
    draw=_parts, kind="roll stiffness", key=_axle,
    workings=lambda n: {"spring_squared": (n.spring_ratio**2, "ratio"),
                        "bar_squared": (n.bar_ratio**2, "ratio"),
                        "spring_wheel": (_spring_wheel(n), "rate"), "bar_wheel": (_bar_wheel(n), "rate"),
                        "rate": (_spring_wheel(n) + _bar_wheel(n), "rate")},
    steps=(
        Step(name="spring", kind="rate", text="What does the spring give at the wheel?", key=_spring_wheel,
             hint="It moves less than the wheel, and has less leverage there.",
             process="Rate x motion ratio x motion ratio.",
             worked="Spring at the wheel: {spring_rate} x {spring_squared} = {answer}.",
             roads=(by("motion ratio not squared", lambda n: n.spring_rate * n.spring_ratio),
                    by("motion ratio squared twice", lambda n: _spring_wheel(n) * n.spring_ratio**2),
                    by("motion ratio "
                       "inverted", lambda n: stiffness.wheel_rate(n.spring_rate, 1 / n.spring_ratio)),
                    by("springs doubled too", lambda n: 2 * _spring_wheel(n)))),
        Step(name="bar", kind="rate", text="What does the bar give at each wheel in roll?", key=_bar_wheel,
             hint="How many of its ends move in roll? And how far does the link move?",
             process="2 x rate with one end held x motion ratio squared.",
             worked="Bar at the wheel in roll: 2 x {bar_rate} x {bar_squared} = {answer}.",
             roads=(by("held used in roll", lambda n: _bar_wheel(n) / 2),
                    by("motion ratio not squared", lambda n: axle.roll_rate(0.0, n.bar_rate) * n.bar_ratio),
                    by("motion ratio squared twice", lambda n: _bar_wheel(n) * n.bar_ratio**2),
                    by("factor 2 taken twice", lambda n: 2 * _bar_wheel(n))))),
    roads=(by("held used in roll", lambda n: _axle(n, axle.one_wheel_rate_other_held)),
           by("motion ratio not squared", lambda n: _axle(n, power=0.5)),
           by("motion ratio squared twice", lambda n: _axle(n, power=2.0)),
           by("motion ratio inverted", lambda n: _axle(n, power=-1.0)),
           by("motion ratio left out", lambda n: _axle(n, power=0.0)),
           by("half left out", lambda n: 2 * _axle(n)), full_track_for_half(), half_track_for_full()))


def _tyres(n) -> float:
    return float(stiffness.roll_stiffness(n.tyre, n.track))


def _on_tyres(n, tyres=None) -> float:
    return float(stiffness.in_series(n.suspension, _tyres(n) if tyres is None else tyres))


on_tyres = Numeric(
    id="on-tyres", lesson=3, aim="Put the tyres behind springs and bar.",
    level=2, minutes=5, pools=("exercise", "assessment"),
    text="Springs and bar together give an axle a roll stiffness of {suspension}. It stands on two tyres of "
         "{tyre} each, "
         "{track} apart. What is the roll stiffness of the axle on its tyres?",
    hint="Do tyres and suspension share the moment, or does each carry all of it?",
    process="Roll stiffness of the two tyres = rate x track squared / 2. Then one behind the other: 1 over "
            "the sum of 1 over "
            "each.",
    worked=("The tyres alone: {tyre} x {track} squared / 2, then from radian to degree = {tyres}.",
            "One behind the other: {suspension} and {tyres} make {answer}."),
    given={"suspension": STIFFNESS, "tyre": Given("rate", 1, 5), "track": TRACK},
    draw=lambda stream: {"suspension": stream.between(700, 2000, 10) * A_DEGREE,
                         "tyre": stream.between(180e3, 280e3, 5e3),
                         "track": stream.between(1.42, 1.58, 0.01)},
    kind="roll stiffness", key=_on_tyres, workings=lambda n: {"tyres": (_tyres(n), "roll stiffness")},
    steps=(Step(name="tyres", kind="roll "
                                   "stiffness", text="What is the roll stiffness of the two tyres "
                                                     "alone?", key=_tyres,
                hint="Two equal rates, a track apart. You have done that with springs.",
                process="Rate x track squared / 2, then from radian to degree.",
                worked="The tyres alone: {tyre} x {track} squared / 2, then from radian to degree = "
                       "{answer}.",
                roads=(by("half left "
                          "out", lambda n: 2 * _tyres(n)), full_track_for_half(), half_track_for_full())),),
    roads=(by("in line taken for side by side", lambda n: n.suspension + _tyres(n)),
           by("one part only", lambda n: n.suspension),
           by("half left out", lambda n: _on_tyres(n, 2 * _tyres(n))),
           by("half track for full", lambda n: _on_tyres(n, _tyres(n) / 4))))


def _bench_rate(n, ratio=None, ends=2.0) -> float:
    """What the bench must show, by what 1 N/m there would give; ``ends`` counts those that move."""
    ratio = n.motion_ratio if ratio is None else ratio
    unit = stiffness.wheel_rate(axle.roll_rate(0.0, 1.0) * ends / 2, ratio)
    return n.wanted / float(stiffness.roll_stiffness(unit, n.track))


bar_wanted = Numeric(
    id="bar-wanted", lesson=3, aim="Work back from a wanted roll stiffness to the bar.",
    level=3, minutes=6, pools=("exercise", "assessment"),
    text="A bar is to give an axle {wanted} of roll stiffness on its own. The track is {track}, and the link "
         "moves "
         "{motion_ratio} times as far as the wheel. What rate must the bar show at the link on the bench, "
         "with one end held?",
    hint="Go back step by step: from the axle to the wheel, from the wheel to the link, from roll to the "
         "bench.",
    process="Rate at each wheel in roll = 2 x roll stiffness (for each radian) / track squared. Divide by "
            "motion ratio "
            "squared, then by 2.",
    worked=("At each wheel in roll: {wheel}.", "At the link in roll, divided by {squared}: {link}.",
            "On the bench only one end moves, so half of that: {answer}."),
    given={"wanted": STIFFNESS, "track": TRACK, "motion_ratio": RATIO},
    draw=lambda stream: {"wanted": stream.between(300, 900, 10) * A_DEGREE,
                         "track": stream.between(1.42, 1.58, 0.01),
                         "motion_ratio": stream.between(0.50, 0.68, 0.01)},
    kind="rate", key=_bench_rate,
    workings=lambda n: {"wheel": (n.wanted / float(stiffness.roll_stiffness(1.0, n.track)), "rate"),
                        "squared": (n.motion_ratio**2, "ratio"), "link": (2 * _bench_rate(n), "rate")},
    roads=(by("roll used for held", lambda n: _bench_rate(n, ends=1.0)),
           by("factor 2 taken twice", lambda n: _bench_rate(n, ends=4.0)),
           by("motion ratio not squared", lambda n: _bench_rate(n, ratio=n.motion_ratio**0.5)),
           by("motion ratio left out", lambda n: _bench_rate(n, ratio=1.0)),
           by("motion ratio inverted", lambda n: _bench_rate(n, ratio=1 / n.motion_ratio)),
           by("full track for half", lambda n: _bench_rate(n) / 4)))

QUESTIONS = (whole_chain, on_tyres, bar_wanted)
