"""Lesson 2: how stiff a bar is at each hole or blade angle."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np

from rollmodel.car import Axle
from rollmodel.figures import bar_rate_holes, bar_section
from rollmodel.figures.bar_rate_holes import RateCurve
from rollmodel.figures.bar_section import BarScene
from rollmodel.figures.moving_scale import end_for
from rollmodel.panels.controls import Choice, Hole, Slider
from rollmodel.panels.lesson import wanting
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics import bar as bars
from rollmodel.physics.spread import rate_spread
from rollmodel.sheets import training_car

ARMS = ("same section", "rigid")
RANGES = {"outer_diameter": (0.014, 0.036), "wall": (0.001, 0.018), "centre_length": (0.5, 1.2)}


def holed_axle(car) -> Axle:
    """The first end of the car that has a bar with holes; the training coupe's front when it has none."""
    return next(filter(_fits, (car.front, car.rear)), None) or training_car("coupe").front


def _fits(axle: Axle) -> bool:
    return axle.bar is not None and axle.bar.blade is None and axle.bar.rates is None


@wanting("02")
def lacking(car) -> str:
    """What a car lacks for this lesson; empty when it has a bar with holes, and its sizes."""
    if any(map(_fits, (car.front, car.rear))):
        return ""
    rates_alone = any(axle.bar and axle.bar.rates for axle in (car.front, car.rear))
    return "a bar with its sizes, not its rates alone" if rates_alone else "a bar with link holes"


def bladed_axle(car) -> Axle:
    """The first end of the car that has blade arms; the training single-seater's front when it has none."""
    fitting = (axle for axle in (car.front, car.rear) if axle.bar is not None and axle.bar.blade is not None)
    return next(fitting, None) or training_car("single-seater").front


@dataclass(frozen=True)
class Bench:
    """The bar drawn, and its rate at every hole."""

    scene: BarScene
    curve: RateCurve

    @property
    def rate(self) -> float:
        """At the link in roll, at the hole in use, [N/m]."""
        return float(self.curve.rates[self.curve.chosen - 1])


def _supports(bar, centre_length: float) -> float | None:
    """Bushings as far in from the arms as on the sheet, [m]; at the arms where there is no room for that."""
    if bar.support_spacing is None:
        return None
    spacing = bar.support_spacing + centre_length - bar.centre_length
    return spacing if spacing > 0.2 * centre_length else None


def _bar(bar, values):
    """The bar of an axle as the controls make it."""
    return replace(bar, hole=values.hole, outer_diameter=values.diameter, centre_length=values.centre,
                   wall=min(values.wall, values.diameter / 2), arms=values.arms,
                   support_spacing=_supports(bar, values.centre))


def _curve(axle, values) -> RateCurve:
    return _curve_of(replace(axle, bar=_bar(axle.bar, values)))


@lru_cache(maxsize=8)
def _curve_of(axle) -> RateCurve:
    return bar_rate_holes.of_axle(axle, at="link")


class BarPanel(Panel):
    """One bar: its size, its arms, its holes."""

    name = "bar"
    title = "One bar, every hole: the rate at its link in roll"
    low, high = ({"diameter": end} for end in RANGES["outer_diameter"])

    @property
    def size(self):
        """Room for two pictures, one above the other."""
        return self.look.size[0], 1.7 * self.look.size[1]

    def controls(self):
        bar = holed_axle(self.car).bar
        wall = bar.wall or bar.outer_diameter / 2
        return [Hole.of("hole", "Hole", bar),
                Slider("diameter", "Outer diameter", "length", *RANGES["outer_diameter"], bar.outer_diameter,
                       steps=(0.5, 0.02)),
                Slider("wall", "Wall of the tube, half the diameter is solid", "length", *RANGES["wall"],
                       wall, steps=(0.5, 0.02)),
                Slider("centre", "Length between the arms", "length", *RANGES["centre_length"],
                       bar.centre_length, steps=(10, 0.5)),
                Choice("arms", "Arms", ARMS, bar.arms if bar.arms in ARMS else "rigid")]

    def compute(self, values):
        axle = holed_axle(self.car)
        curve, first, most = (_curve(axle, one) for one in (values, self.start_values(), self.stiffest()))
        curve = replace(curve, first=first.rate, ceiling=end_for(curve.ceiling, first.ceiling, most.ceiling))
        bar = _bar(axle.bar, values)
        room = replace(bar, outer_diameter=RANGES["outer_diameter"][1], wall=None, hole=1,
                       centre_length=RANGES["centre_length"][1])
        return Bench(bar_section.of_bar(bar, values.hole, room), curve)

    def stiffest(self):
        """Values of the controls with which this bar is as stiff as they can make it."""
        thick, short = RANGES["outer_diameter"][1], RANGES["centre_length"][0]
        return self.start_values(diameter=thick, wall=thick / 2, centre=short, arms="rigid")

    def draw(self, figure, bench):
        above, below = figure.add_axes((0, 0.52, 1, 0.48)), figure.add_axes((0, 0, 1, 0.5))
        return {"bar": bar_section.draw(above, bench.scene, self.look, self.family),
                "curve": bar_rate_holes.draw(below, bench.curve, self.look, self.family)}

    def update(self, artists, bench):
        bar_section.update(artists["bar"], bench.scene)
        bar_rate_holes.update(artists["curve"], bench.curve)

    def describe(self, bench):
        return bar_rate_holes.describe(bench.curve, self.family)

    def describe_now(self, bench):
        return bar_rate_holes.describe_now(bench.curve, self.family)

    def withhold(self, artists, on):
        bar_rate_holes.withhold(artists["curve"], on)

    def prediction(self):
        holes = len(holed_axle(self.car).bar.holes)
        return None if holes < 2 else Prediction(
            question=f"The link moves from hole 1, the outermost, to hole {holes}, the innermost. "
                     "What does the rate at the link do?",
            noun="rate at the link", kind="rate", quantity=lambda bench: bench.rate,
            before={"hole": 1}, after={"hole": holes}, same=500.0)

    def mark(self, artists, guess):
        bar_rate_holes.mark(artists["curve"], guess)


class BladePanel(Panel):
    """A blade arm, turned about its own long axis."""

    name = "blade"
    title = "A blade arm: the rate at its link in roll against its angle"
    low, high = {"angle": 0.0}, {"angle": np.pi / 2}

    def controls(self):
        blade = bladed_axle(self.car).bar.blade
        return [Slider("angle", "Blade angle from flat", "angle", 0.0, np.pi / 2, np.pi / 4, steps=(5, 5)),
                Slider("thickness", "Blade thickness", "length", 0.5 * blade.thickness, 1.2 * blade.thickness,
                       blade.thickness, steps=(0.1, 0.005))]

    def compute(self, values):
        axle = bladed_axle(self.car)
        blade = replace(axle.bar.blade, angles=(values.angle,), thickness=values.thickness)
        return bar_rate_holes.of_axle(replace(axle, bar=replace(axle.bar, hole=1, blade=blade)), 1, "link",
                                      self.ceiling())

    def ceiling(self):
        """The stiffest that the sliders reach, on edge and thickest, with some room, [N/m]."""
        bar = bladed_axle(self.car).bar
        thick = replace(bar.blade, angles=(np.pi / 2,), thickness=1.2 * bar.blade.thickness)
        return 1.1 * float(bars.link_rates_in_roll(replace(bar, hole=1, blade=thick))[0])

    def draw(self, figure, curve):
        return bar_rate_holes.draw(figure.add_axes((0, 0, 1, 1)), curve, self.look, self.family)

    def update(self, artists, curve):
        bar_rate_holes.update(artists, curve)

    def describe_now(self, curve):
        return bar_rate_holes.describe_now(curve, self.family)

    def withhold(self, artists, on):
        bar_rate_holes.withhold(artists, on)

    def describe(self, curve):
        soft, stiff = (self.lesson.show(rate, "rate") for rate in (curve.rate[0], curve.rate[-1]))
        now = self.lesson.show(float(curve.rates[0]), "rate")
        angle = self.lesson.show(float(curve.settings[0]), "angle")
        return (f"Rate at the link in roll: {now} with the blade {angle} from flat. Lying flat it is {soft}, "
                f"on edge {stiff}. Of that change {100 * last_third(curve):.0f} % comes in the last third "
                "of the turn, towards on edge.")

    def prediction(self):
        return Prediction(
            question="The blade turns from 45 degrees to 90 degrees, on edge. "
                     "What does the rate at the link do?",
            noun="rate at the link", kind="rate", quantity=lambda curve: float(curve.rates[0]),
            before={"angle": np.pi / 4}, after={"angle": np.pi / 2}, same=500.0)

    def mark(self, artists, guess):
        bar_rate_holes.mark(artists, guess)


def last_third(curve: RateCurve) -> float:
    """Part of the change from flat to on edge that the last 30 degrees bring, [-]."""
    at_60 = np.interp(np.pi / 3, curve.setting, curve.rate)
    return float((curve.rate[-1] - at_60) / (curve.rate[-1] - curve.rate[0]))


def _rates(bar):
    return bars.link_rates_in_roll(bar)


def parts(lesson) -> str:
    """Where the give of the bar comes from, hole by hole."""
    bar = holed_axle(lesson.car).bar
    compliance = bars.compliance_parts(bar)
    total = sum(compliance.values())
    rest = "bending and bushings" if bar.bushing_rate else "bending"
    lines = [f"| hole | lever | twist of the centre | {rest} | rate, one end held | rate, in roll |",
             "|---|---|---|---|---|---|"]
    for n, lever in enumerate(bars.levers(bar)):
        twist = float(compliance["twist"][n] / total[n])
        rate = float(_rates(bar)[n])
        lines.append(f"| {n + 1} | {lesson.show(float(lever), 'length')} | {lesson.show(twist, 'share')} "
                     f"of the give | {lesson.show(1 - twist, 'share')} | {lesson.show(rate / 2, 'rate')} | "
                     f"{lesson.show(rate, 'rate')} |")
    return "\n".join(lines)


def belief(lesson) -> str:
    """Holes are not equal steps, and the lever counts twice."""
    bar = holed_axle(lesson.car).bar
    if len(bar.holes) < 2:
        return (f"This bar has one hole, {lesson.show(bar.holes[0], 'length')} out. "
                "There is no step to compare.")
    rates, rigid = _rates(bar), _rates(replace(bar, arms="rigid"))
    steps = [lesson.show(b - a, "rate")
             for a, b in pairwise(lesson.rounded(rate, "rate") for rate in rates)]
    lever = bar.holes[0] / bar.holes[-1]
    words = (f"From hole to hole this bar gains {', then '.join(steps)}. " if len(steps) > 1 else
             f"From hole 1 to hole 2 this bar gains {steps[0]}. ")
    words += "**The steps are not equal.** " if len(steps) > 1 else ""
    words += (f"From the first hole to the last the lever gets {lever:.2f} times shorter. With arms that do "
              f"not bend the rate would rise {float(rigid[-1] / rigid[0]):.2f} times: the lever counts "
              f"twice, {lever:.2f} × {lever:.2f}. Really it rises {float(rates[-1] / rates[0]):.2f} times.")
    return words + (" Shorter arms also bend less, so bending adds to the step."
                    if rates[-1] / rates[0] > 1.001 * rigid[-1] / rigid[0] else "")


def blade_belief(lesson) -> str:
    """Half the angle is not half the change."""
    bar = bladed_axle(lesson.car).bar
    angles = np.radians([0.0, 30.0, 60.0, 90.0])
    flat, one, two, edge = (float(r) for r in _rates(replace(bar, hole=1, blade=replace(
        bar.blade, angles=tuple(angles)))))
    gain = edge - flat
    return (f"Turn this blade in three equal steps of 30 degrees from flat to on edge. The first step brings "
            f"{100 * (one - flat) / gain:.0f} % of the whole change, the second "
            f"{100 * (two - one) / gain:.0f} %, the third {100 * (edge - two) / gain:.0f} %. Equal angles "
            "are not equal steps. "
            "Mark the rates on your adjuster, not the degrees.")


def how_sure(lesson) -> str:
    """How well such a number is known."""
    bar = holed_axle(lesson.car).bar
    spread, n = rate_spread(bar), bar.hole - 1
    rate, plus = float(spread.rate[n]), float(spread.expanded[n])
    return (f"At hole {bar.hole} this bar comes out at {lesson.show(rate, 'rate')}, give or take "
            f"{lesson.show(plus, 'rate')} ({100 * plus / rate:.0f} %): that is the steel alone, which "
            "differs by grade. The diameter counts to the fourth power, so a calliper that is 1 % out adds "
            "4 %. On the car bushings and brackets give as well, the more the further in they sit. Bars "
            "measured on cars came out 10 to 25 % softer than worked out (common figures, no source). So "
            "measure yours if you can.")


def take_away(lesson) -> list[str]:
    """At most five lines."""
    bar = holed_axle(lesson.car).bar
    thicker = replace(bar, outer_diameter=1.1 * bar.outer_diameter, wall=bar.wall and 1.1 * bar.wall)
    last = last_third(bar_rate_holes.of_axle(bladed_axle(lesson.car), at="link"))
    ratio = float(_rates(replace(thicker, arms="rigid"))[0] / _rates(replace(bar, arms="rigid"))[0])
    return [f"Diameter counts to the fourth power: 10 % on every diameter, "
            f"bore too, twists {ratio:.2f} times as stiff.",
            "The lever counts twice. The inner hole is the stiffer one.",
            "Arms that bend give some of it back. So do bushings and links.",
            f"A blade's degrees are not equal steps: here {100 * last:.0f} % of the change comes in "
            "the last third.",
            "Bench rate, one end held: half of what each link feels in roll."]
