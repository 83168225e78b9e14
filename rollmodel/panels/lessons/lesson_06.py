"""Lesson 6: what the tyre makes of the load that moved."""

from __future__ import annotations

from dataclasses import dataclass

from rollmodel.adding_up import parts_as_shown
from rollmodel.car import GRAVITY
from rollmodel.figures import grip_load, slip_sum
from rollmodel.figures.grip_load import Pairs
from rollmodel.panels.controls import Slider
from rollmodel.panels.ends import OTHER, bar_controls, barred_end, hardest, place, setup
from rollmodel.panels.lesson import capital
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.uneven import grip_drop_between, peak_grip_at, uneven_pair_loss
from rollmodel.sheets import training_car
from rollmodel.units import to_display

WORKING = 0.9  # of what the car can hold: where sentences are worked out
NOTICED = 10.0  # N; a smaller change of an axle's side force counts as none
START_SLIP = 6.0  # deg
APART = "saloon"  # a training car whose two tyres are best at slip angles well apart


def _end(car) -> str:
    return barred_end(car) or "front"


def _corner(car) -> float:
    """Near what the car can hold, in whole fiftieths of g, [m/s^2]."""
    return round(50 * WORKING * hardest(car) / GRAVITY) / 50 * GRAVITY


class PairsPanel(Panel):
    """Both pairs of tyres on the one grip-load curve."""

    name = "pairs"
    title = "Both pairs of tyres on one curve: the gap between chord and curve is what is lost"
    low = {"corner": 0.3 * GRAVITY}

    @property
    def size(self):
        """Taller than most: the gaps are small, and each has a magnified view inside the picture."""
        return self.look.size[0], 1.2 * self.look.size[1]

    @property
    def high(self):
        """The change that the lesson asks about."""
        end = _end(self.car)
        return {end: self.car.axle(end).positions} if barred_end(self.car) else {"corner": hardest(self.car)}

    def controls(self):
        top = hardest(self.car)
        corner = Slider("corner", "Lateral acceleration", "lateral acceleration", 0.0, top,
                        _corner(self.car), steps=(0.02, 0.02))
        return [corner, *bar_controls(self.car)]

    def compute(self, values):
        return grip_load.in_corner(self.car, values.corner, *setup(self.car, values))

    def draw(self, figure, pairs):
        return grip_load.draw(figure.add_axes((0, 0, 1, 1)), pairs, self.look, self.family)

    def update(self, artists, pairs):
        grip_load.update(artists, pairs)

    def describe(self, pairs):
        return grip_load.describe(pairs, self.family)

    def prediction(self):
        end = barred_end(self.car)
        if end is None:
            return None
        axle = self.car.axle(end)
        return Prediction(
            question=f"The {end} bar goes from {place(axle)} 1, its softest, to {axle.positions}, its "
                     f"stiffest. The corner stays the same. The two {end} tyres still carry the same load "
                     f"together. What does the "
                     "most side force of the two do?",
            noun=f"most side force of the {end} pair", kind="load",
            quantity=lambda pairs: float(pairs.forces(end).sum()),
            before={end: 1}, after={end: axle.positions}, same=NOTICED)

    def mark(self, artists, guess):
        grip_load.mark(artists, self.compute(self.values), _end(self.car), guess)


class SlipPanel(Panel):
    """Outside and inside tyre of one axle, working at the same slip angle."""

    name = "slip"
    title = "Two tyres, one slip angle"
    low, high = {"transfer": 0.0}, {"slip": slip_sum.REACH}

    def even(self) -> float:
        """Load of each tyre at rest, [N]."""
        return self.car.axle_weight(_end(self.car)) / 2

    def controls(self):
        moved = _at_one_slip(self.car).transfer
        return [Slider("transfer", "Load moved to the outside tyre", "load", 0.0, self.even(), moved,
                       steps=(50, 10)),
                Slider("slip", "Slip angle of the axle", "angle", 0.0, slip_sum.REACH, _slip(),
                       steps=(0.5, 0.5))]

    def compute(self, values):
        return slip_sum.SlipSum(self.car.tyre, _end(self.car), self.even(), values.transfer, values.slip)

    def draw(self, figure, pair):
        return slip_sum.draw(figure.add_axes((0, 0, 1, 1)), pair, self.look, self.family)

    def update(self, artists, pair):
        slip_sum.update(artists, pair)

    def describe(self, pair):
        return slip_sum.describe(pair, self.family)

    def prediction(self):
        end = _end(self.car)
        return Prediction(
            question=f"At a slip angle of {self.lesson.show(_slip(), 'angle')} nothing has moved yet: both "
                     f"{end} tyres carry the same. Then load moves until the inside tyre carries nothing. "
                     "What does the "
                     "side force of the two together do?",
            noun="side force of both together", kind="load", quantity=lambda pair: pair.now,
            before={"transfer": 0.0}, after={"transfer": self.even()}, same=NOTICED)

    def mark(self, artists, guess):
        slip_sum.mark(artists, guess)


def _slip():
    return float(START_SLIP / to_display(1.0, "angle"))


@dataclass(frozen=True)
class _Case:
    """One end of the lesson's car near its limit."""

    end: str
    at: float
    pairs: Pairs

    @property
    def transfer(self) -> float:
        inside, outside = getattr(self.pairs, self.end)
        return (outside - inside) / 2


def _case(lesson) -> _Case:
    at = _corner(lesson.car)
    return _Case(_end(lesson.car), at, grip_load.in_corner(lesson.car, at))


def belief(lesson) -> str:
    """Load is neutral; side force is not."""
    case, show = _case(lesson), lesson.show
    # Wholes are rounded as everywhere in the lesson, and parts so that both columns add up to the newton.
    load, force = (parts_as_shown((one, one), "load", lesson.family) for one in case.pairs.even(case.end))
    pairs = getattr(case.pairs, case.end), case.pairs.forces(case.end)
    outside, high = (lesson.rounded(heavy, "load") for _, heavy in pairs)
    now, most = (outside, sum(load) - outside), (high, _both(lesson, case.pairs, case.end) - high)
    rows = [f"| {name} tyre | {show(load[n], 'load')} → {show(now[n], 'load')} | {show(force[n], 'load')} → "
            f"{show(most[n], 'load')} | {_signed(show, most[n] - force[n])} |"
            for n, name in enumerate(("outside", "inside"))]
    both = (f"| both | {show(sum(load), 'load')} → {show(sum(now), 'load')} | {show(sum(force), 'load')} → "
            f"{show(sum(most), 'load')} | **{_signed(show, sum(most) - sum(force))}** |")
    halves = any(show(one, "load") != show(other, "load") for one, other in (load, force))
    odd = " (Even tyres carry and push the same; an odd sum has no whole half.)" if halves else ""
    return (f"**{lesson.car.title}, {case.end} tyres, at {show(case.at, 'lateral acceleration')}.**\n\n"
            "| | load | side force at the pair's best slip angle | change |\n|---|---|---|---|\n"
            + "\n".join([*rows, both])
            + "\n\nFor the **load** the sentence is right: one tyre gains what the other loses. For the "
              "**side force** it "
            f"is wrong. The outside tyre gains {show(most[0] - force[0], 'load')}. The inside tyre loses "
            f"{show(force[1] - most[1], 'load')}.{odd}")


def _both(lesson, pairs, end):
    """What a pair gives at most: an even pair's less the loss, as the two are shown, [N]."""
    return lesson.rounded(2 * pairs.even(end)[1], "load") - lesson.rounded(pairs.loss(end), "load")


def _signed(show, force):
    return f"{'+' if force > 0 else '−'}{show(abs(force), 'load')}"


def on_paper(lesson) -> str:
    """The loss worked out by hand, beside the curve's own."""
    case, show = _case(lesson), lesson.show
    light, heavy = (part * case.pairs.even(case.end)[0] for part in (0.5, 1.5))
    grips = [float(peak_grip_at(lesson.car.tyre, load)) for load in (light, heavy)]
    drop = float(grip_drop_between(lesson.car.tyre, light, heavy))
    by_hand, half, none = (float(uneven_pair_loss(*of)) for of in
                           ((drop, case.transfer), (drop, case.transfer / 2), (0.0, case.transfer)))
    return (f"1. Read grip off the curve at two loads. At {show(light, 'load')} it is {grips[0]:.3f}, at "
            f"{show(heavy, 'load')} it is {grips[1]:.3f}.\n"
            f"2. It fell by {grips[0] - grips[1]:.3f} over {show(heavy - light, 'load')}: "
            f"$k$ = {show(drop, 'grip drop')}.\n"
            f"3. Load moved at the {case.end}: $\\Delta F$ = {show(case.transfer, 'load')}.\n"
            f"4. Loss: $2\\,k\\,\\Delta F^2$ = **{show(by_hand, 'load')}**, each tyre at its own best "
            "slip angle. Both at one slip angle, as on the axle, they lose "
            f"{show(case.pairs.loss(case.end), 'load')}: "
            f"{slip_sum.shortfall(_at_one_slip(lesson.car), lesson.family)}.\n\n"
            f"Half the load moved would cost {show(half, 'load')}: a quarter. "
            f"With no drop in grip the loss would be "
            f"{show(none, 'load')}. Then, and only then, load transfer would be "
            "neutral.")


def one_angle(lesson) -> str:
    """The axle's most is a sum at one slip angle."""
    pair, show = _at_one_slip(lesson.car), lesson.show
    most, at = pair.most
    best, whole = (lesson.rounded(one, "load") for one in (pair.sum_of_peaks, most))
    corner = show(_corner(lesson.car), "lateral acceleration")
    words = (f"**{lesson.car.title}, {pair.end} tyres, at {corner}.** The two "
             f"best values, each at its own angle, add up to {show(best, 'load')}. At one slip angle the "
             f"most is {show(whole, 'load')}, at {show(at, 'angle')}. ")
    words += (f"The axle comes {show(best - whole, 'load')} short of the two best values. " if best > whole
              else _hardly_apart(lesson, pair))
    return words + (f"Below the top uneven load costs more. At {show(_slip(), 'angle')} the uneven pair "
                    f"pushes {show(pair.now, 'load')}, an even pair "
                    f"{show(float(pair.of_even_pair(_slip())), 'load')}.")


def _at_one_slip(car) -> slip_sum.SlipSum:
    """The pair that the lesson speaks of, near what the car can hold."""
    end = _end(car)
    moved = float(settled_corner(car, _corner(car)).axle(end).load_transfer)
    return slip_sum.SlipSum(car.tyre, end, car.axle_weight(end) / 2, moved, _slip())


def _hardly_apart(lesson, pair) -> str:
    """Why two numbers agree that the text tells apart, and a training car on which they do not."""
    other = training_car(APART)
    far = _at_one_slip(other)
    near, wide = ([lesson.show(slip, "angle") for slip in one.own_slips] for one in (pair, far))
    return (f"Here {slip_sum.shortfall(pair, lesson.family)}: the outside tyre alone is best at {near[0]}, "
            f"the inside one at {near[1]}, and close to its best each curve is flat. "
            f"On the {other.title}, at {wide[0]} and {wide[1]}, "
            f"{slip_sum.shortfall(far, lesson.family)}. ")


def by_the_bar(lesson) -> str:
    """A stiffer bar costs its own pair, and gives the other pair some back."""
    car, end, show = lesson.car, barred_end(lesson.car), lesson.show
    if end is None:
        return (f"{capital(lesson.the_car)} has no bar with a second place for its link: "
                "1 setting, and no change.")
    at = _corner(car)
    soft, stiff = (grip_load.in_corner(one, at) for one in (car.with_holes(**{end: n})
                                                             for n in (1, car.axle(end).positions)))
    own_soft, own_stiff, far_soft, far_stiff = (
        _both(lesson, pairs, one) for one in (end, OTHER[end]) for pairs in (soft, stiff))
    words = (f"**{car.title}, {end} bar from {place(car.axle(end))} 1 to {car.axle(end).positions}, the same "
             f"corner at {show(at, 'lateral acceleration')}.** {end.capitalize()} pair: "
             f"{show(own_soft, 'load')} to "
             f"{show(own_stiff, 'load')}. {OTHER[end].capitalize()} pair: {show(far_soft, 'load')} to "
             f"{show(far_stiff, 'load')}. ")
    if far_stiff <= far_soft:
        return words + (f"Here the bar moves next to nothing: the inside {OTHER[end]} wheel is off the "
                        f"ground, so the "
                        "load transfer there stays at its most.")
    return words + (f"The {end} lost {show(own_soft - own_stiff, 'load')}, the {OTHER[end]} got "
                    f"{show(far_stiff - far_soft, 'load')} back. Wheels are taken upright here. What lean "
                    f"adds comes in "
                    "lesson 9.")


def take_away(lesson) -> list[str]:
    """At most five lines."""
    case = _case(lesson)
    loss, even = case.pairs.loss(case.end), 2 * case.pairs.even(case.end)[1]
    doubled = float(uneven_pair_loss(1.0, 2.0) / uneven_pair_loss(1.0, 1.0))
    return ["More load gives more side force, but by less than in proportion. The curve bends over.",
            "So the outside tyre gains **less** than the inside tyre loses. The gap between chord and "
            "curve, once for each tyre, is the loss.",
            f"On paper the pair loses $2\\,k\\,\\Delta F^2$. Twice the transfer costs {doubled:.0f} times as "
            f"much.",
            f"{lesson.car.title}, {case.end}, near its limit: {lesson.show(loss, 'load')} of "
            f"{lesson.show(even, 'load')} is lost.",
            "Both tyres of an axle slip by the same angle. The axle's best is the largest **sum** at one "
            "angle."]
