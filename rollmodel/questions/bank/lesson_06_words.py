"""Lesson 6, what the tyre makes of it: choices, an order, an open question."""

import numpy as np

from rollmodel.car import Tyre
from rollmodel.physics.pair import highest_over_slip, largest_axle_force
from rollmodel.physics.tyre import peak_side_force, side_force
from rollmodel.questions.bank.lesson_06 import FALLING, LOAD, falling, loss, pair, peak
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by


def _compared(n) -> str:
    """Uneven against even load, by the model."""
    change = loss(n) / pair(n, 0.0)
    return "less" if change > 1e-6 else "more" if change < -1e-6 else "same"


def _figures(n) -> dict:
    outside, inside = n.load + n.transfer, n.load - n.transfer
    return {"outside": (outside, "load"), "inside": (inside, "load"), "even": (pair(n, 0.0), "load"),
            "uneven": (pair(n), "load"), "gain": (peak(n, outside) - peak(n, n.load), "load"),
            "lost": (peak(n, n.load) - peak(n, inside), "load"), "loss": (loss(n), "load")}


uneven_pair = Choice(
    id="class-uneven-pair", twin="class-stiffer-bar-grip", lesson=6,
    aim="Say what uneven load costs a pair of tyres.",
    level=1, minutes=3, pools=("class", "recall", "assessment"),
    text="Two tyres carry {load} each. Then {transfer} moves from one to the other; together they still "
         "carry the same. How does the best side force of the two together compare with before?",
    hint="Look at the curve: is the step up as large as the step down?",
    process="Read side force at the three loads. Compare the gain of the one with the loss of the other.",
    worked=("The loaded one gains {gain}, the unloaded one loses {lost}.",
            "Together {uneven} instead of {even}: less."),
    given={"load": LOAD, "transfer": LOAD}, draw=falling, workings=_figures, key=_compared,
    options=(Option("less", "Less: the loaded one gains less than the other one loses."),
             wrong("same", "The same: together they carry the same load.", "outside gains what inside loses"),
             wrong("more", "More: the loaded one presses into the road and grips harder.",
                   "more load more grip"),
             wrong("outside", "More: in a corner only the outside tyre matters.", "outside only")))

stiffer_bar_grip = Choice(
    id="class-stiffer-bar-grip", twin="class-uneven-pair", lesson=6,
    aim="Say what uneven load costs a pair of tyres.", level=2, minutes=2, pools=("class",),
    text="A stiffer rear bar moves another {transfer} from the inside rear tyre to the outside rear tyre. "
         "The camber and the axle's load are the same. What happens to the largest side force of the rear "
         "pair?",
    hint="Compare what the outside tyre gains with what the inside tyre loses.",
    process="Read side force at the loads before and after, for both tyres. Add.",
    worked=("From even load the outside tyre would gain {gain} and the inside tyre lose {lost}.",
            "The pair gives less."),
    given={"transfer": LOAD}, draw=falling, workings=_figures, key=_compared,
    options=(Option("less", "It gets less: the outside tyre gains less than the inside tyre loses."),
             wrong("same", "It stays the same: the axle's load is the same.",
                   "outside gains what inside loses"),
             wrong("more", "It gets more: the bar hands load back to the inside tyre.",
                   "bar loads inside wheel"),
             wrong("outside", "It gets more: the outside tyre does the work.", "outside only")))


def _loss_factors(n) -> dict[str, float]:
    ratio = n.more / n.transfer
    return {"squared": ratio**2, "once": ratio, "same": 1.0, "cubed": ratio**3}


def _loss_factor(n) -> str:
    found = loss(n, n.more) / loss(n)
    factors = _loss_factors(n)
    return min(factors, key=lambda name: abs(factors[name] - found))


def _times(low, high):
    def draw(stream):
        numbers = falling(stream)
        transfer = stream.between(800, 1200, 100)
        more = stream.pick((low, high)) * transfer
        load = numbers["load"] + more  # both wheels stay down: in the air the square law is no longer true
        return {**numbers, "load": load, "transfer": transfer, "more": more}
    return draw


def _multiples(n) -> dict:
    return {**{name: (value, "ratio") for name, value in _loss_factors(n).items()},
            "times": (n.more / n.transfer, "ratio")}


twice = Choice(
    id="class-twice-the-transfer", twin="class-half-the-transfer", lesson=6,
    aim="Say how the loss grows with the transfer.", level=2, minutes=3, pools=("class", "recall"),
    text="The load transfer at one end becomes {times} times as large. How many times as large is what the "
         "pair loses against even load?",
    hint="The outside tyre climbs a curve that bends over more and more. Does the loss keep pace, or run "
         "ahead?",
    process="For falling grip the loss is 2 x drop x transfer squared. Put the new transfer in.",
    worked=("The loss goes with the square of the transfer: {squared} times.",),
    draw=_times(2, 3), workings=_multiples, key=_loss_factor,
    options=(Option("squared", "{squared} times."), wrong("once", "{once} times.", "transfer not squared"),
             wrong("same", "It stays the same.", "loss unchanged"),
             wrong("cubed", "{cubed} times.", "loss cubed")))

half = Choice(
    id="class-half-the-transfer", twin="class-twice-the-transfer", lesson=6,
    aim="Say how the loss grows with the transfer.", level=2, minutes=2, pools=("class",),
    text="A softer bar leaves {times} times the load transfer at this end. What part of the loss against "
         "even load is left?",
    hint="Is half the loss gone, or more?",
    process="For falling grip the loss is 2 x drop x transfer squared. Put the new transfer in.",
    worked=("The loss goes with the square of the transfer: {squared} of it is left.",),
    draw=_times(0.5, 0.7), workings=_multiples, key=_loss_factor,
    options=(Option("squared", "{squared} of it."), wrong("once", "{once} of it.", "transfer not squared"),
             wrong("same", "All of it.", "loss unchanged"),
             wrong("cubed", "{cubed} of it.", "loss cubed")))


def _two_peaks(n) -> dict[str, float]:
    """Sum of the two best values, and the largest sum at one slip angle."""
    loads = np.array([n.load + n.transfer, n.load - n.transfer])
    peaks = peak_side_force(Tyre(), loads)
    return {"peaks": float(peaks.sum()), "together": float(largest_axle_force(Tyre(), *loads)[0])}


_SEEN = 6.0  # N; so much less is seen in newtons and in pounds


def _bests(n) -> dict:
    """Both sums, what lies between them, and the slip angle of each tyre's own best."""
    loads, sums = np.array([n.load + n.transfer, n.load - n.transfer]), _two_peaks(n)
    slips = highest_over_slip(lambda slip, load: side_force(Tyre(), slip, load, 0.0), loads)[1]
    return {"outside": (loads[0], "load"), "inside": (loads[1], "load"),
            "less": (sums["peaks"] - sums["together"], "load"),
            "slip_outside": (float(slips[0]), "angle"), "slip_inside": (float(slips[1]), "angle"),
            **{name: (value, "load") for name, value in sums.items()}}


def _never_more(n) -> str:
    sums = _two_peaks(n)
    return "below" if sums["together"] < sums["peaks"] else "equal"


one_slip_angle = Choice(
    id="one-slip-angle", lesson=6, aim="Say why an axle gives less than the sum of its two best values.",
    level=2, minutes=2, pools=("recall", "exercise"),
    text="On a tyre whose curve peaks at another slip angle for each load, the outside tyre carries "
         "{outside} and the inside tyre {inside}. Can the axle give the sum of their two best side forces?",
    hint="Do both tyres reach their best at the same slip angle?",
    process="Both tyres point the same way, so both slip by nearly the same angle. Look for the best sum at "
            "one angle.",
    worked=("The outside tyre is best at {slip_outside}, the inside tyre at {slip_inside}; at one slip angle "
            "they are not both at their best.",
            "Sum of the two best values: {peaks}. Largest sum at one slip angle: {together}, {less} less.",
            "It is only a little: the two best angles lie near each other, and each curve is flat at its "
            "top."),
    draw=lambda stream: {"load": stream.between(4500, 5000, 100),
                         "transfer": stream.between(1800, 2600, 100)},
    sound=lambda n: _two_peaks(n)["peaks"] - _two_peaks(n)["together"] > _SEEN,
    key=_never_more, workings=_bests,
    options=(Option("below", "No, a little less: both slip by the same angle."),
             wrong("equal", "Yes: each tyre gives its best.", "sum of two peaks"),
             wrong("outside", "No: only the outside tyre counts.", "inside tyre nothing")))

SPLITS = ("one", "two", "three", "four")


def _splits(stream) -> dict:
    numbers = falling(stream)
    levels = stream.shuffled((200, 700, 1100, 1500, 1900, 2300))[:4]
    return {**numbers, "load": stream.between(3000, 4500, 100),
            **{f"transfer_{name}": float(level) for name, level in zip(SPLITS, levels, strict=True)}}


def _split_forces(n) -> dict[str, float]:
    return {name: pair(n, getattr(n, f"transfer_{name}")) for name in SPLITS}


def _split_workings(n) -> dict:
    rows = {name: (force, "load") for name, force in _split_forces(n).items()}
    for name in SPLITS:
        transfer = getattr(n, f"transfer_{name}")
        rows |= {f"out_{name}": (n.load + transfer, "load"), f"in_{name}": (n.load - transfer, "load")}
    return rows


splits_in_order = Ordering(
    id="splits-in-order", lesson=6, aim="Put pairs of loads in order of the side force they can give.",
    level=1, minutes=3, pools=("exercise", "assessment"),
    text="A tyre's grip is {peak_grip} at no load and falls by {grip_drop} of load. Four pairs carry the "
         "same load in all. Put them in order of the side force that the pair can give, the smallest first.",
    hint="Which pair is farthest from even?",
    process="The farther from even, the more a pair loses.",
    worked=tuple(f"{{out_{name}}} and {{in_{name}}}: {{{name}}}." for name in SPLITS),
    given=FALLING, draw=_splits, values=_split_forces, gap=0.0005, workings=_split_workings,
    items={name: f"{{out_{name}}} and {{in_{name}}}" for name in SPLITS},
    roads=(by("outside only", lambda n: {name: getattr(n, f"transfer_{name}") for name in SPLITS}),))

outside_digs_in = Open(
    id="outside-digs-in", lesson=6, aim="Answer a common belief with loads and side forces.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="A driver says: \"Put more bar on the front. It loads the outside tyre, that digs in, and the front "
         "grips more.\" The front tyres carry {load} each at rest; their grip is {peak_grip} at no load and "
         "falls by {grip_drop} of load. The bar would raise the transfer from {transfer} to {more}. Is the "
         "driver right? Answer with figures.",
    hint="Work out both front tyres, before and after.",
    process="Side force of outside and inside tyre before, the same after. Compare the two sums.",
    worked=("Before: {before} together.", "After: {after} together. The outside tyre gains {outside_gain}, "
            "the inside tyre loses {inside_loss}.", "The front grips less, by {difference}."),
    given={**FALLING, "load": LOAD, "transfer": LOAD, "more": LOAD},
    draw=lambda stream: {**falling(stream), "transfer": stream.between(800, 1200, 50),
                         "more": stream.between(1400, 2000, 50)},
    workings=lambda n: {"before": (pair(n), "load"), "after": (pair(n, n.more), "load"),
                        "outside_gain": (peak(n, n.load + n.more) - peak(n, n.load + n.transfer), "load"),
                        "inside_loss": (peak(n, n.load - n.transfer) - peak(n, n.load - n.more), "load"),
                        "difference": (pair(n) - pair(n, n.more), "load")},
    rubric=(Criterion(1, "Says no: the front gives less side force, not more."),
            Criterion(2, "Gives side forces of both tyres before and after, close to {before} and {after} "
                         "together."),
            Criterion(1, "Grants what is true: the outside tyre does give more."),
            Criterion(1, "Says why the sum falls: grip falls with load, so the inside tyre loses more.")),
    samples=(Sample("weak", 1, "No, stiff front is understeer.", "Right, but a rule in place of a reason."),
             Sample("fair", 3, "No. Together they had more before the change, I worked out both sums.",
                    "Both sums; nothing on the single tyres."),
             Sample("good", 5, "He is right that the outside tyre gives more. But its grip falls as the load "
                               "rises, so it "
                               "gains less than the inside one loses. My sums before and after show the pair "
                               "gives "
                               "less with the stiffer bar.", "All four points (figures shown beside).")))

QUESTIONS = (uneven_pair, stiffer_bar_grip, twice, half, one_slip_angle, splits_in_order, outside_digs_in)
