"""Lesson 3, from the bar to the wheel to the car: choices, an order, an open question."""

from rollmodel.physics import stiffness
from rollmodel.questions.bank.lesson_03 import RATE, RATIO, TRACK, track_factor
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by

FAR_OUT, FAR_IN = (0.66, 0.74, 0.01), (0.48, 0.56, 0.01)  # motion ratios
NARROW, WIDE = (1.38, 1.44, 0.01), (1.54, 1.62, 0.01)  # tracks, m


def _nearest(factors: dict[str, float], found: float) -> str:
    return min(factors, key=lambda name: abs(factors[name] - found))


def _ratio_factors(n) -> dict[str, float]:
    factor = n.new / n.old
    return {"squared": factor**2, "once": factor, "same": 1.0, "other": factor**-2}


def _ratio_key(n) -> str:
    found = stiffness.wheel_rate(1.0, n.new) / stiffness.wheel_rate(1.0, n.old)
    return _nearest(_ratio_factors(n), float(found))


def _as_ratios(factors) -> dict:
    return {name: (value, "ratio") for name, value in factors.items()}


def _link(id: str, twin: str, where: str, draw, pools, minutes) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=3, aim="Say how the rate at the wheel goes with the motion ratio.",
        level=2, minutes=minutes, pools=pools,
        text=f"A link is hung {where}: its motion ratio goes from {{old}} to {{new}}. Bar and hole stay the "
             f"same. How many "
             "times as large as before is the bar's rate at the wheel?",
        hint="What does the new place do to the link's travel, and what to its leverage at the wheel?",
        process="New ratio over old ratio. It comes in once for travel and once for force.",
        worked=("New over old: {once}. Twice over: {squared} times.",),
        given={"old": RATIO, "new": RATIO}, draw=draw, key=_ratio_key,
        workings=lambda n: _as_ratios(_ratio_factors(n)),
        options=(Option("squared", "{squared} times: it counts for travel and for force."),
                 wrong("once", "{once} times: the link has that much less or more "
                               "travel.", "motion ratio not squared"),
                 wrong("same", "The same: bar and hole have not changed.", "motion ratio left out"),
                 wrong("other", "{other} times: the wheel has the other end of the "
                                "lever.", "motion ratio inverted")))


inboard = _link("class-link-inboard", "class-link-outboard", "nearer to the pivot",
                lambda stream: {"old": stream.between(*FAR_OUT), "new": stream.between(*FAR_IN)},
                ("class", "recall"), 3)
outboard = _link("class-link-outboard", "class-link-inboard", "nearer to the wheel",
                 lambda stream: {"old": stream.between(*FAR_IN), "new": stream.between(*FAR_OUT)},
                 ("class",), 2)


def _track_factors(n) -> dict[str, float]:
    factor = n.new / n.old
    return {"squared": factor**2, "once": factor, "same": 1.0, "other": factor**-2}


def _track_key(n) -> str:
    return _nearest(_track_factors(n), track_factor(n.new, n.old))


def _track(id: str, twin: str, change: str, draw, pools, minutes) -> Choice:
    return Choice(
        id=id, twin=twin, lesson=3, aim="Say how roll stiffness goes with the "
                                        "track.", level=2, minutes=minutes, pools=pools,
        text=f"{change} bring an axle's track from {{old}} to {{new}}. The rates at the wheels are the same "
             f"as before, the "
             "tyres are rigid. How many times as large as before is the roll stiffness of the axle?",
        hint="For the same angle, does each wheel move as far as before? Has its force the same arm?",
        process="New track over old track. It comes in once for travel and once for the arm of the force.",
        worked=("New over old: {once}. Twice over: {squared} times.",),
        given={"old": TRACK, "new": TRACK}, draw=draw, key=_track_key,
        workings=lambda n: _as_ratios(_track_factors(n)),
        options=(Option("squared", "{squared} times: wheel travel and arm both change."),
                 wrong("once", "{once} times: only the arm changes.", "track taken once"),
                 wrong("same", "The same: the rates at the wheels have not "
                               "changed.", "track taken for nothing"),
                 wrong("other", "{other} times: it goes the other way.", "track upside down")))


wider = _track("class-wider-track", "class-narrower-track", "Wider arms",
               lambda stream: {"old": stream.between(*NARROW), "new": stream.between(*WIDE)},
               ("class", "recall"), 3)
narrower = _track("class-narrower-track", "class-wider-track", "Shorter arms",
                  lambda stream: {"old": stream.between(*WIDE), "new": stream.between(*NARROW)},
                  ("class",), 2)


def _two_springs(n) -> str:
    """Which of the two gives the higher rate at the wheel."""
    soft, stiff = _at_wheel(n)
    return "soft" if soft > stiff else "stiff"


def _looks_the_other_way(n) -> bool:
    """Softer at the spring, and with the ratio taken once, yet clearly stiffer at the wheel."""
    soft, stiff = _at_wheel(n)
    return soft > 1.1 * stiff and n.stiff_rate * n.stiff_ratio > 1.02 * n.soft_rate * n.soft_ratio


def _at_wheel(n):
    pairs = ((n.soft_rate, n.soft_ratio), (n.stiff_rate, n.stiff_ratio))
    return [float(stiffness.wheel_rate(rate, ratio)) for rate, ratio in pairs]


which_spring = Choice(
    id="which-spring", lesson=3, aim="Compare springs at the wheel and not at the "
                                     "spring.", level=2, minutes=2,
    pools=("recall", "exercise"),
    text="Car A has springs of {soft_rate} that move {soft_ratio} times as far as the wheel. Car B has "
         "springs of {stiff_rate} "
         "that move {stiff_ratio} times as far. Which car is stiffer at the wheel?",
    hint="Carry both to the wheel before you compare.",
    process="Rate times motion ratio squared, for each car.",
    worked=("Car A: {a}. Car B: {b}.",),
    given={"soft_rate": RATE, "soft_ratio": RATIO, "stiff_rate": RATE, "stiff_ratio": RATIO},
    draw=lambda stream: {"soft_rate": stream.between(36e3, 44e3, 1e3),
                         "soft_ratio": stream.between(0.86, 0.94, 0.01),
                         "stiff_rate": stream.between(56e3, 62e3, 1e3),
                         "stiff_ratio": stream.between(0.60, 0.66, 0.01)},
    sound=_looks_the_other_way,
    key=_two_springs, workings=lambda n: dict(zip("ab", ((rate, "rate") for rate in _at_wheel(n)),
                                                     strict=True)),
    options=(Option("soft", "Car A: its softer springs work at a better ratio, and the ratio counts twice."),
             wrong("stiff", "Car B: its springs are the stiffer ones.", "motion ratio left out"),
             wrong("once", "Car B: rate times ratio is higher there.", "motion ratio not squared")))

BARS = ("one", "two", "three", "four")


def _bars(stream) -> dict:
    rates = stream.shuffled((40e3, 55e3, 75e3, 100e3))
    ratios = stream.shuffled((0.45, 0.55, 0.65, 0.80))
    return {**{f"rate_{name}": rate for name, rate in zip(BARS, rates, strict=True)},
            **{f"ratio_{name}": ratio for name, ratio in zip(BARS, ratios, strict=True)}}


def _bar_rates(n, power: float = 1.0) -> dict[str, float]:
    pairs = {name: (getattr(n, f"rate_{name}"), getattr(n, f"ratio_{name}")) for name in BARS}
    return {name: float(stiffness.wheel_rate(rate, ratio**power)) for name, (rate, ratio) in pairs.items()}


bars_in_order = Ordering(
    id="bars-at-the-wheel", lesson=3, aim="Put bars in order by what the wheel feels.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="Four bars, each with its rate at the link and its link's motion ratio. Put them in order of their "
         "rate at the wheel, "
         "the softest first.",
    hint="A bar that is stiff at the link may be soft at the wheel.",
    process="Rate times motion ratio times motion ratio, for each.",
    worked=tuple(f"{{rate_{name}}} x {{ratio_{name}}} x {{ratio_{name}}} = {{{name}}}." for name in BARS),
    given={**{f"rate_{name}": RATE for name in BARS}, **{f"ratio_{name}": RATIO for name in BARS}},
    draw=_bars, values=_bar_rates,
    workings=lambda n: {name: (rate, "rate") for name, rate in _bar_rates(n).items()},
    items={name: f"{{rate_{name}}} at a ratio of {{ratio_{name}}}" for name in BARS},
    roads=(by("motion ratio left out", lambda n: _bar_rates(n, 0.0)),
           by("motion ratio not squared", lambda n: _bar_rates(n, 0.5))))


def _swap(n) -> dict:
    pairs = ((n.rate, n.old), (n.stiff_rate, n.new))
    before, after = (float(stiffness.wheel_rate(rate, ratio)) for rate, ratio in pairs)
    return {"before": (before, "rate"), "after": (after, "rate"), "gain": (after / before, "ratio"),
            "link_gain": (n.stiff_rate / n.rate, "ratio"),
            "once": (n.stiff_rate * n.new / (n.rate * n.old), "ratio")}


stiffer_bar_worse_ratio = Open(
    id="stiffer-bar-worse-ratio", lesson=3, aim="Judge a swap of bars by what the wheel feels.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="A car's bar gives {rate} at the link in roll at a motion ratio of {old}. A thicker bar gives "
         "{stiff_rate}, but there is "
         "room for it only with the link at a ratio of {new}. The fitter says: \"{link_gain} times the bar "
         "at a somewhat smaller "
         "ratio, that is still about {once} times as stiff at the wheel.\" Is the fitter right? Answer with "
         "figures.",
    hint="Carry both bars to the wheel.",
    process="Rate times motion ratio squared, before and after. Compare with what the fitter did.",
    worked=("Before: {before} at the wheel. After: {after} at the wheel.",
            "That is {gain} times, not {once} times: the fitter took the ratio once.",
            "For so little it may not be worth the work and the weight."),
    given={"rate": RATE, "old": RATIO, "stiff_rate": RATE, "new": RATIO},
    draw=lambda stream: {"rate": stream.between(50e3, 60e3, 1e3), "old": stream.between(0.68, 0.74, 0.01),
                         "stiff_rate": stream.between(95e3, 110e3, 1e3),
                         "new": stream.between(0.50, 0.54, 0.01)},
    workings=_swap,
    rubric=(Criterion(1, "Says no: the gain at the wheel is much smaller than the fitter thinks."),
            Criterion(2, "Gives both rates at the wheel, close to {before} and {after}."),
            Criterion(1, "Names the slip: the motion ratio was taken once; it counts for travel and for "
                         "force."),
            Criterion(1, "Draws a conclusion: about {gain} times is all there is; better to find a place "
                         "with a better ratio, or "
                         "to measure first.")),
    samples=(Sample("weak", 1, "No, the ratio is too small, so it will not be so much stiffer.",
                    "Right direction; no figures, no reason."),
             Sample("fair", 3, "No. I multiplied both by the ratio squared, and the new bar comes out only a "
                               "little stiffer at "
                               "the wheel than the old "
                               "one.", "Both rates (figures shown beside); the slip is not named."),
             Sample("good", 5, "No. The ratio has to be squared because the link moves less and also pushes "
                               "with less leverage. "
                               "The fitter used it once. At the wheel both bars are nearly the same, so the "
                               "swap brings next to "
                               "nothing. I would look for a mounting with a better ratio "
                               "first.", "All four points.")))

QUESTIONS = (inboard, outboard, wider, narrower, which_spring, bars_in_order, stiffer_bar_worse_ratio)
