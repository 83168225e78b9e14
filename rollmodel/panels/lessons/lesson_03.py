"""Lesson 3: from the bar to the wheel, from the wheel to the car."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np

from rollmodel.car import Axle, Car
from rollmodel.figures import lever_twice, rate_chain
from rollmodel.panels.controls import Hole, Slider
from rollmodel.panels.ends import ENDS, barred_end, place
from rollmodel.panels.lesson import wanting
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics.bar import effective_link_motion_ratio, link_rates_in_roll
from rollmodel.physics.stiffness import axle_stiffness, roll_stiffness, wheel_rate
from rollmodel.sheets import training_car

RATIOS = (0.3, 1.0)
SPRINGS, TRACKS = (0.4, 1.6), (0.85, 1.15)  # parts of the car's own
MOST_TRAVEL, START_TRAVEL = 0.05, 0.03
HARD_TYRE = 600e3  # N/m, the end of the slider: about as near to rigid as a tyre gets


def barred(car) -> tuple[Car, str, Axle]:
    """The car, an end with a bar, and its axle; the training coupe where the car has no bar at all."""
    car = training_car("coupe") if lacking(car) else car
    end = barred_end(car) or next(end for end in ENDS if car.axle(end).bar)
    return car, end, car.axle(end)


@wanting("03")
def lacking(car) -> str:
    """What a car lacks for this lesson; empty when it has a bar."""
    return "" if car.front.bar or car.rear.bar else "a car with a bar"


def link_rate(axle: Axle, hole: int | None = None) -> float:
    """Bar rate at the link in roll, [N/m]."""
    return float(link_rates_in_roll(axle.bar)[(hole or axle.hole) - 1])


class LeverPanel(Panel):
    """One arm, one link: the motion ratio comes in once for travel and once for force."""

    name = "lever"
    title = "The link moves less than the wheel, and pushes with less leverage"
    low, high = {"ratio": 0.4}, {"ratio": 1.0}
    presets = {"Ratio 1": {"ratio": 1.0}, "Ratio one half": {"ratio": 0.5}}

    def controls(self):
        axle = barred(self.car)[2]
        rate = link_rate(axle)
        return [Slider("ratio", "Motion ratio of the "
                                "link", "ratio", *RATIOS, self._own_ratio(axle), steps=(0.01, 0.01)),
                Slider("travel", "Wheel travel", "length", 0.0, MOST_TRAVEL, START_TRAVEL, steps=(1, 0.05)),
                Slider("rate", "Bar rate at the link in roll", "rate", 0.3 * rate, 1.15 * rate, rate)]

    @staticmethod
    def _own_ratio(axle):
        return float(np.clip(effective_link_motion_ratio(axle.bar), *RATIOS))

    def compute(self, values):
        most = 1.3 * link_rate(barred(self.car)[2])
        return lever_twice.Lever(values.ratio, values.travel, values.rate, MOST_TRAVEL, most)

    def draw(self, figure, lever):
        return lever_twice.draw(figure, lever, self.look, self.family)

    def update(self, artists, lever):
        lever_twice.update(artists, lever)

    def describe(self, lever):
        return lever_twice.describe(lever, self.family)

    def prediction(self):
        return Prediction(
            question="The link is hung nearer to the pivot: its motion ratio goes from 1 to one half. The "
                     "bar and its rate "
                     "at the link stay the same. What does the rate at the wheel do?",
            noun="rate at the wheel", kind="rate", quantity=lambda lever: lever.wheel_rate,
            before={"ratio": 1.0}, after={"ratio": 0.5}, same=500.0)

    def mark(self, artists, guess):
        lever_twice.mark(artists, guess)


class ChainPanel(Panel):
    """One axle: rates at the wheels, roll stiffness, and the tyres in series."""

    name = "chain"
    title = "From the wheels to the roll stiffness of the axle"

    @property
    def low(self):
        """Without much of a bar."""
        return {"ratio": RATIOS[0]}

    @property
    def high(self):
        """The tyre as good as rigid."""
        return {"tyre": HARD_TYRE}

    def controls(self):
        _, end, axle = barred(self.car)
        tyre = min(axle.tyre_vertical_rate or HARD_TYRE, HARD_TYRE)
        return [Hole.of("hole", f"{end.capitalize()} bar", axle.bar),
                Slider("ratio", "Motion ratio of the link", "ratio", *RATIOS, LeverPanel._own_ratio(axle),
                       steps=(0.01, 0.01)),
                Slider("spring", "Spring rate at the spring", "rate",
                       *(part * axle.spring_rate for part in SPRINGS), axle.spring_rate),
                Slider("track", "Track", "long length", *(part * axle.track for part in TRACKS), axle.track,
                       steps=(0.01, 0.5)),
                Slider("tyre", "Vertical rate of one tyre", "rate", 100e3, HARD_TYRE, max(tyre, 100e3))]

    def compute(self, values):
        _, end, axle = barred(self.car)
        return rate_chain.of_axle(end, *(
            self._stiffness(axle, one) for one in (values, self.start_values(), self._stiffest())
        ))

    def _stiffest(self):
        """Values of the controls with which the axle is as stiff as they can make it."""
        axle = barred(self.car)[2]
        return self.start_values(ratio=RATIOS[1], hole=axle.positions, spring=SPRINGS[1] * axle.spring_rate,
                                 track=TRACKS[1] * axle.track)

    @staticmethod
    def _stiffness(axle, values):
        bar = replace(axle.bar, link_motion_ratio=values.ratio, link_lean_at_arm=0.0, link_lean_at_pickup=0.0)
        changed = replace(axle, bar=bar, spring_rate=values.spring, track=values.track,
                          tyre_vertical_rate=values.tyre)
        return axle_stiffness(changed, values.hole)

    def draw(self, figure, chain):
        return rate_chain.draw(figure.add_axes((0, 0, 1, 1)), chain, self.look, self.family)

    def update(self, artists, chain):
        rate_chain.update(artists, chain)

    def describe(self, chain):
        return rate_chain.describe(chain, self.family)

    def prediction(self):
        _, end, axle = barred(self.car)
        if axle.positions < 2:
            return None
        softest, stiffest = (axle_stiffness(axle, n) for n in (1, axle.positions))
        own, most = (self.lesson.show(float(one.bar_roll), "roll stiffness") for one in (softest, stiffest))
        return Prediction(
            question=f"The {end} bar goes from {place(axle)} 1 to {axle.positions}. The bar's own roll "
                     f"stiffness rises from "
                     f"{own} to {most}. The axle stands on tyres that give. What does the roll stiffness of "
                     f"the whole axle "
                     "on its tyres do?",
            noun="roll stiffness of the "
                 "axle", kind="roll stiffness", quantity=lambda chain: float(chain.stiff.total_roll),
            before={"hole": 1}, after={"hole": axle.positions}, same=100.0)

    def mark(self, artists, guess):
        rate_chain.mark(artists, guess)


def chain(lesson) -> str:
    """Spring and bar of one axle, step by step."""
    car, end, axle = barred(lesson.car)
    stiff, show = axle_stiffness(axle), lesson.show
    ratio, held = float(effective_link_motion_ratio(axle.bar)), link_rate(axle) / 2
    rows = [
        ("rate at the part", show(axle.spring_rate, "rate"), f"{show(held, 'rate')}, one end held"),
        ("in roll", "the same", f"× 2 = {show(link_rate(axle), 'rate')}"),
        ("motion ratio", f"{axle.spring_motion_ratio:.2f}", f"{ratio:.2f}"),
        ("× ratio × ratio: rate at the wheel", show(stiff.spring_wheel_rate, "rate"),
         show(float(stiff.bar_wheel_rate_in_roll), "rate")),
        ("× track² / 2, per radian; ÷ 57.3, per degree: roll stiffness",
         show(float(stiff.spring_roll), "roll stiffness"),
         show(float(stiff.bar_roll), "roll stiffness")),
    ]
    both = sum(lesson.rounded(one, "roll stiffness") for one in (stiff.spring_roll, stiff.bar_roll))
    table = "\n".join(f"| {step} | {spring} | {bar} |" for step, spring, bar in rows)
    return (f"**{car.title}, {end} axle**, track {show(axle.track, 'long length')}.\n\n| step | spring | bar "
            f"|\n"
            f"|---|---|---|\n{table}\n\nTogether {show(both, 'roll stiffness')}. "
            + _on_tyres(lesson, stiff))


def _on_tyres(lesson, stiff):
    if not np.isfinite(stiff.tyre_vertical_rate):
        return f"The sheet gives no tyre rate, so the tyres count as rigid: {_total(lesson, stiff)}."
    return f"The tyres give too, so the axle has {_total(lesson, stiff)}."


def _total(lesson, stiff):
    return lesson.show(float(stiff.total_roll), "roll stiffness")


def belief(lesson) -> str:
    """Taking the motion ratio once, and what that does to the answer."""
    car, end, axle = barred(lesson.car)
    show, rate, ratio = lesson.show, link_rate(axle), float(effective_link_motion_ratio(axle.bar))
    once, twice = (float(wheel_rate(rate, one)) for one in (sqrt(ratio), ratio))
    rolls = [show(float(roll_stiffness(one, axle.track)), "roll stiffness") for one in (once, twice)]
    return (f"{car.title}, {end} bar: {show(rate, 'rate')} at the link in roll, motion ratio {ratio:.2f}.\n\n"
            f"- Ratio taken **once**: {show(once, 'rate')} at the wheel, {rolls[0]} for the axle.\n"
            f"- Ratio taken **twice**: {show(twice, 'rate')} at the wheel, {rolls[1]} for the axle.\n\n"
            f"Once is wrong by a factor of {once / twice:.2f}. Push the wheel up by "
            f"{show(START_TRAVEL, 'length')} and see. "
            f"The link moves {show(ratio * START_TRAVEL, 'length')}, so it is pushed back with "
            f"{show(rate * ratio * START_TRAVEL, 'load')}. At the wheel that push has less leverage: "
            f"{show(twice * START_TRAVEL, 'load')}. Divide by the wheel's own travel, and you have "
            f"{show(twice, 'rate')}.")


def factor_two(lesson) -> str:
    """The bench rate put straight into the roll formula."""
    axle = barred(lesson.car)[2]
    stiff, show = axle_stiffness(axle), lesson.show
    wrong = float(roll_stiffness(stiff.bar_wheel_rate, axle.track))
    return (f"On the bench one end is held: this bar shows {show(link_rate(axle) / 2, 'rate')}. Carry that "
            f"to the wheel and "
            f"into $k\\,t^2/2$, and you get {show(wrong, 'roll stiffness')}. In roll both ends move, so the "
            f"true figure is "
            f"{show(float(stiff.bar_roll), 'roll stiffness')}: {float(stiff.bar_roll) / wrong:.0f} times as "
            f"much. Springs have no such factor. Each sees its own wheel alone.")


def upside_down(lesson) -> str:
    """Books that use the inverse ratio."""
    axle = barred(lesson.car)[2]
    ratio = float(effective_link_motion_ratio(axle.bar))
    out = float(wheel_rate(1.0, 1 / ratio) / wheel_rate(1.0, ratio))
    return (f"Here a motion ratio is **component travel over wheel travel**. This link has {ratio:.2f}. Some "
            f"books turn it "
            f"over and write {1 / ratio:.2f}. Typed in the wrong way round it would make the rate at the "
            f"wheel {out:.1f} times too high. So measure: move the wheel up in small even steps, and read "
            "what the link "
            "moves.")


def on_tyres(lesson) -> str:
    """A stiffer bar moves the axle by less than itself."""
    car, end, axle = barred(lesson.car)
    if axle.positions < 2:
        return ("This bar has 1 place for its link. On its tyres the axle has "
                f"{_total(lesson, axle_stiffness(axle))}.")
    soft, stiff = (axle_stiffness(axle, n) for n in (1, axle.positions))
    bar, whole = ([float(getattr(one, name)) for one in (soft, stiff)] for name in ("bar_roll", "total_roll"))
    show = lesson.show
    return (f"{car.title}, {end} bar from its softest place to its stiffest. The bar gains {_percent(bar)}: "
            f"from {show(bar[0], 'roll stiffness')} to {show(bar[1], 'roll stiffness')}. The axle on its "
            f"tyres gains {_percent(whole)}: from {show(whole[0], 'roll stiffness')} to "
            f"{show(whole[1], 'roll stiffness')}. "
            "Springs stand beside the bar and do not change. Tyres stand behind both and give as before. "
            "Parts beside each other add their stiffness. Parts behind each other add their give.")


def _percent(pair):
    return f"{100 * (pair[1] / pair[0] - 1):.0f} %"


def take_away(lesson) -> list[str]:
    """At most five lines."""
    axle = barred(lesson.car)[2]
    ratio = float(effective_link_motion_ratio(axle.bar))
    wider = float(roll_stiffness(1.0, 1.1) / roll_stiffness(1.0, 1.0))
    return ["Rate at the wheel = rate at the part × MR × MR: once for travel, once for force.",
            f"A ratio of {ratio:.2f} leaves {100 * float(wheel_rate(1.0, ratio)):.0f} % of the rate, not "
            f"{100 * ratio:.0f} %.",
            "Springs use $k_w$, a bar in roll uses $2\\,k_b$. The axle's roll stiffness is rate in roll × "
            "track² / 2, per radian.",
            f"Track counts twice as well: 10 % more track, {100 * (wider - 1):.0f} % more roll stiffness.",
            "Tyres stand behind springs and bar. The axle is softer than springs and bar together, and gains "
            "less from a stiffer bar."]
