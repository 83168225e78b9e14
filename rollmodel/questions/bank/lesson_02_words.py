"""Lesson 2, how stiff a bar is: choices, an order, an open question."""

import math

from rollmodel.physics import bar, sections
from rollmodel.questions.bank.lesson_02 import LENGTH, SIZE, STEEL, round_bar, steel
from rollmodel.questions.bank.lesson_02_parts import BLADE, blade
from rollmodel.questions.records import Choice, Criterion, Open, Option, Ordering, Sample, wrong
from rollmodel.questions.roads import by
from rollmodel.questions.shown import Given


def nearest(value: float, candidates: dict[str, float]) -> str:
    """The name of the candidate that lies nearest to a value."""
    return min(candidates, key=lambda name: abs(candidates[name] - value))


def _hole_rates(n) -> dict[str, float]:
    """What each belief makes of the shorter lever, as a multiple of the old rate."""
    ratio = n.outer / n.inner
    return {"squared": ratio**2, "once": ratio, "same": 1.0, "softer": ratio**-2}


def _by_lever(n) -> str:
    rates = [bar.torsion_rate_one_end_held(1.0, 1.0, 1.0, lever) for lever in (n.inner, n.outer)]
    return nearest(float(rates[0] / rates[1]), _hole_rates(n))


def _two_levers(stream):
    return {"outer": stream.between(0.220, 0.260, 0.005), "inner": stream.between(0.170, 0.200, 0.005)}


def _multiples(n):
    return {name: (value, "ratio") for name, value in _hole_rates(n).items()}


inner_hole = Choice(
    id="class-inner-hole", lesson=2, aim="Say what a shorter lever does to the rate, and by how much.",
    level=1, minutes=3, pools=("class", "recall", "assessment"), twin="class-two-levers",
    text="On a bar with stiff arms the link is moved from the hole at {outer} to the hole at {inner}, nearer "
         "to the bar's axis. What becomes of the rate at the link?",
    hint="Try it with a spanner: far out, and close to the nut.",
    process="A shorter lever gives the force less torque, and gives less travel for the same twist. Count "
            "both.",
    worked=("Less torque for the same force, and less travel for the same twist: the lever counts twice.",
            "The rate becomes {squared} times what it was."),
    given={"outer": LENGTH, "inner": LENGTH}, draw=_two_levers, workings=_multiples, key=_by_lever,
    options=(Option("squared", "{squared} times: the lever counts twice."),
             wrong("once", "{once} times: the lever counts once.", "lever not squared"),
             wrong("softer", "{softer} times: a shorter lever has less leverage, so it is softer.",
                   "longer lever taken as stiffer"),
             wrong("same", "No change: it is the same bar.", "hole makes no difference")))

two_levers = Choice(
    id="class-two-levers", lesson=2, aim="Say what a shorter lever does to the rate, and by how much.",
    level=1, minutes=2, pools=("class",), twin="class-inner-hole",
    text="Two cars have the same bar with stiff arms. Car P has levers of {outer}, car Q of {inner}. How "
         "stiff is the bar of car Q at its link, against that of car P?",
    hint="On which car is it harder to twist the bar by pulling at the link?",
    process="Compare torque for the same force, and travel for the same twist. Count both.",
    worked=("Q has less torque for the same force, and less travel for the same twist. It is {squared} times "
            "as stiff.",),
    given={"outer": LENGTH, "inner": LENGTH}, draw=_two_levers, workings=_multiples, key=_by_lever,
    options=(Option("squared", "{squared} times as stiff."),
             wrong("once", "{once} times as stiff.", "lever not squared"),
             wrong("softer", "{softer} times as stiff: the short lever is the weak one.",
                   "longer lever taken as stiffer"),
             wrong("same", "Just as stiff: the bars are the same.", "hole makes no difference")))


def _kept(n) -> dict[str, float]:
    """Stiffness kept when a bore is drilled, by each belief."""
    part = n.bore / n.outer
    return {"fourth": 1 - part**4, "area": 1 - part**2, "size": 1 - part, "third": 1 - part**3}


def _kept_by_model(n) -> str:
    tube = sections.round_polar_second_moment(n.outer, n.bore) / sections.round_polar_second_moment(n.outer)
    return nearest(float(tube), _kept(n))


def _tube(stream):
    return {"outer": stream.between(0.024, 0.032, 0.001), "bore": stream.between(0.012, 0.018, 0.001)}


def _tube_workings(n):
    return {**{name: (value, "share") for name, value in _kept(n).items()},
            "lost": (1 - _kept(n)["area"], "share"), "gain": (1 / _kept(n)["fourth"] - 1, "share"),
            "gain_area": (1 / _kept(n)["area"] - 1, "share"),
            "gain_size": (1 / _kept(n)["size"] - 1, "share"),
            "gain_third": (1 / _kept(n)["third"] - 1, "share")}


drilled = Choice(
    id="class-drilled", lesson=2, aim="Say why a tube keeps most of a solid bar's stiffness.",
    level=2, minutes=3, pools=("class", "recall"), twin="class-filled",
    text="A solid bar of {outer} is drilled through with a bore of {bore}. {lost} of the metal is gone. How "
         "much of its stiffness in twist is left?",
    hint="How hard does the metal near the axis work?",
    process="Stiffness goes with D^4 - d^4. Divide that by D^4.",
    worked=("Near the axis the metal hardly moves. What is left: 1 - (d/D)^4 = {fourth}.",),
    given={"outer": SIZE, "bore": SIZE}, draw=_tube, workings=_tube_workings, key=_kept_by_model,
    options=(Option("fourth", "{fourth}: the metal near the axis does little."),
             wrong("area", "{area}: as much as of the metal.", "stiffness goes with weight"),
             wrong("size", "{size}: the bore takes its part of the size.", "fourth power as first"),
             wrong("third", "{third}: size cubed counts.", "fourth power as third")))

filled = Choice(
    id="class-filled", lesson=2, aim="Say why a tube keeps most of a solid bar's stiffness.",
    level=2, minutes=2, pools=("class",), twin="class-drilled",
    text="A tube of {outer} with a bore of {bore} is replaced by a solid bar of the same outer diameter and "
         "steel. It is {gain_area} heavier. How much stiffer in twist is it?",
    hint="How hard will the new metal near the axis work?",
    process="Stiffness goes with D^4 - d^4. Compare with and without the bore.",
    worked=("The new metal sits near the axis and hardly works. The gain is {gain}.",),
    given={"outer": SIZE, "bore": SIZE}, draw=_tube, workings=_tube_workings, key=_kept_by_model,
    options=(Option("fourth", "{gain}: the new metal hardly works."),
             wrong("area", "{gain_area}: as much as the weight.", "stiffness goes with weight"),
             wrong("size", "{gain_size}: the bore takes its part of the size.", "fourth power as first"),
             wrong("third", "{gain_third}: size cubed counts.", "fourth power as third")))


def _blade_rate(n, degrees) -> float:
    return float(1 / bar.blade_compliance(n.length, n.width, n.thickness, math.radians(degrees),
                                          n.youngs_modulus))


def _blade_rates(n):
    return {f"at_{degrees}": (_blade_rate(n, degrees), "rate") for degrees in (0, 15, 45, 75, 90)}


def _where_most_changes(n) -> str:
    near_flat = _blade_rate(n, 15) - _blade_rate(n, 0)
    near_edge = _blade_rate(n, 90) - _blade_rate(n, 75)
    return "edge" if near_edge > 2 * near_flat else "flat" if near_flat > 2 * near_edge else "even"


blade_ends = Choice(
    id="class-blade-ends", lesson=2, aim="Say where in its travel a blade changes most.",
    level=2, minutes=3, pools=("class",), twin="class-blade-half",
    text="A blade arm {length} long, {width} wide and {thickness} thick is turned by 15 deg. Where in its "
         "travel does that change its rate most?",
    hint="What does a blade on edge give, and what does it give a few degrees off edge?",
    process="Work out the rate at 0, 15, 75 and 90 deg from flat, and compare the two steps.",
    worked=("From flat: {at_0} to {at_15}. To on edge: {at_75} to {at_90}.",
            "On edge, a few degrees off let the soft direction in. Most of the change is there."),
    given=BLADE, draw=blade, workings=_blade_rates, key=_where_most_changes,
    options=(Option("edge", "Near on edge: a few degrees off let its soft direction in."),
             wrong("flat", "Near flat: that is where it is weakest.", "blade changes near flat"),
             wrong("even", "Everywhere alike: 15 deg is 15 deg.", "blade changes evenly")))


def _half_way(n) -> str:
    flat, half, edge = (_blade_rate(n, degrees) for degrees in (0, 45, 90))
    part = (half - flat) / (edge - flat)
    return "soft" if part < 1 / 3 else "stiff" if part > 2 / 3 else "middle"


blade_half = Choice(
    id="class-blade-half", lesson=2, aim="Say where in its travel a blade changes most.",
    level=2, minutes=2, pools=("class",), twin="class-blade-ends",
    text="A blade arm {length} long, {width} wide and {thickness} thick stands half way, at 45 deg. Where "
         "does its rate lie between soft and stiff?",
    hint="At 45 deg 71 % of the push goes across its soft side, and 71 % of what that bends shows at the "
         "link. What does that leave of the soft side's give?",
    process="Work out the rate at 0, 45 and 90 deg from flat.",
    worked=("Flat {at_0}, half way {at_45}, on edge {at_90}: half way is still near the soft end.",
            "cos 45 deg is 71 %: that part of the push bends the soft side, and that part of the bend lies "
            "along the push. Together half of the give, so about twice the soft rate."),
    given=BLADE, draw=blade, workings=_blade_rates, key=_half_way,
    options=(Option("soft", "Near the soft end: half of the soft side's give is still there."),
             wrong("middle", "In the middle: half the angle is half the change.", "blade changes evenly"),
             wrong("stiff", "Near the stiff end: most of the change comes first.",
                   "blade changes near flat")))

BARS = ("one", "two", "three", "four")


def _four_bars(stream):
    sizes = [stream.between(0.018, 0.028, 0.001) for _ in BARS]
    levers = [stream.between(0.150, 0.270, 0.010) for _ in BARS]
    return {**{f"size_{name}": size for name, size in zip(BARS, sizes, strict=True)},
            **{f"lever_{name}": lever for name, lever in zip(BARS, levers, strict=True)}, **steel(stream)}


def _bar_rates(n, power=4, lever_power=2) -> dict[str, float]:
    return {name: getattr(n, f"size_{name}") ** power * getattr(n, f"lever_{name}") ** -lever_power
            for name in BARS}


def _bar_rates_by_model(n) -> dict[str, float]:
    return {name: float(bar.torsion_rate_one_end_held(
        n.shear_modulus, sections.round_polar_second_moment(getattr(n, f"size_{name}")), 0.9,
        getattr(n, f"lever_{name}"))) for name in BARS}


bars_in_order = Ordering(
    id="bars-in-order", lesson=2, aim="Put bars in order by size and lever together.",
    level=2, minutes=4, pools=("exercise", "assessment"),
    text="Four solid bars with stiff arms have the same length and steel. Put them in order of their rate at "
         "the link, the softest first.",
    hint="Two things differ: the size and the lever. Which counts with which power?",
    process="Work out D^4 / a^2 for each bar, in any units, and put these in order.",
    worked=tuple(f"{{size_{name}}} with a lever of {{lever_{name}}}, if {{length}} long: {{{name}}}."
                 for name in BARS),
    given={**{f"size_{name}": SIZE for name in BARS}, **{f"lever_{name}": LENGTH for name in BARS}},
    draw=_four_bars, values=_bar_rates_by_model, gap=0.08,
    workings=lambda n: {**{name: (value, "rate") for name, value in _bar_rates_by_model(n).items()},
                        "length": (0.9, "length")},
    items={name: f"{{size_{name}}} thick, lever {{lever_{name}}}" for name in BARS},
    roads=(by("hole makes no difference", lambda n: _bar_rates(n, lever_power=0)),
           by("longer lever taken as stiffer", lambda n: _bar_rates(n, lever_power=-2)),
           by("fourth power as first", lambda n: _bar_rates(n, power=1))))


def _fitted(stream):
    lever = stream.between(0.210, 0.230, 0.005)
    return {**round_bar(stream), "outer_diameter": stream.between(0.020, 0.024, 0.001), "lever": lever,
            "next_lever": round(lever - 0.020, 6), "thicker": 0.0, "wanted": stream.between(0.18, 0.24, 0.01)}


def _factors(n) -> dict[str, float]:
    """What each of the two changes makes of the rate."""
    hole = bar.torsion_rate_one_end_held(1, 1, 1, n.next_lever) / bar.torsion_rate_one_end_held(1, 1, 1,
                                                                                                n.lever)
    size = (sections.round_polar_second_moment(n.outer_diameter + 0.003)
            / sections.round_polar_second_moment(n.outer_diameter))
    return {"hole_gain": float(hole) - 1, "size_gain": float(size) - 1}


stiffer_by_a_fifth = Open(
    id="stiffer-by-a-fifth", lesson=2, aim="Choose a change for a wanted rate and give the reason.",
    level=3, minutes=8, pools=("exercise", "assessment"),
    text="A car has a solid bar of {outer_diameter} with stiff arms and the link at {lever}. It wants about "
         "{wanted} more rate at this end. You may move the link in to the hole at {next_lever}, or fit a bar "
         "that is {size_step} thicker. Which change, and why?",
    hint="Work out what each change does before you choose.",
    process="Hole: old lever over new, squared. Size: new over old, to the fourth power. Compare both with "
            "what is wanted.",
    worked=("The hole gives {hole_gain} more.", "The thicker bar gives {size_gain} more.",
            "The hole is the nearer of the two, takes minutes and can be put back. At the same wheel travel "
            "it raises the stress: check it against what the maker allows."),
    given={"outer_diameter": SIZE, "lever": LENGTH, "next_lever": LENGTH, "wanted": Given("share", 1, 1),
           **STEEL},
    draw=_fitted, workings=lambda n: {**{name: (value, "share") for name, value in _factors(n).items()},
                                      "size_step": (0.003, "length")},
    sound=lambda n: abs(_factors(n)["hole_gain"] - n.wanted) < abs(_factors(n)["size_gain"] - n.wanted),
    rubric=(Criterion(1, "Names one change: the hole at {next_lever}."),
            Criterion(2, "Gives a figure for both changes: about {hole_gain} for the hole, {size_gain} for "
                         "the size."),
            Criterion(1, "Says why: lever squared, size to the fourth power."),
            Criterion(1, "Says what to check: stress at full travel, the link's angle and clearance, both "
                         "sides moved alike.")),
    samples=(Sample("weak", 1, "Move it to the inner hole, that is stiffer.",
                    "Right change, no figure and no reason."),
             Sample("fair", 3, "The inner hole. It gives about a fifth more because the lever counts "
                               "squared. A thicker bar would be too much.",
                               "One figure, one reason; nothing to check."),
             Sample("good", 5, "Inner hole on both sides. Old lever over new, squared, is about a fifth "
                               "more, which is "
                               "what is wanted. The thicker bar goes with the fourth power and would give "
                               "more than "
                               "twice that. I would check the links for angle and clearance at full travel, "
                               "because "
                               "the shorter lever twists the bar more.", "All four points.")))

QUESTIONS = (inner_hole, two_levers, drilled, filled, blade_ends, blade_half, bars_in_order,
             stiffer_by_a_fifth)
