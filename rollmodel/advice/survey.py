"""Where practice and model part: the trade's rule tried on every hole and drive of a car."""

from dataclasses import dataclass, replace
from itertools import product

from rollmodel.advice.case import camber_counts, own_limit_gains, stiffness_step
from rollmodel.advice.moves import FINE, balance_moves, felt
from rollmodel.advice.numbers import Effect, readings
from rollmodel.advice.objections import reversed_rule, wheel_up, why_not_felt
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import ENDS
from rollmodel.advice.thresholds import DEFAULTS, Thresholds
from rollmodel.car import DRIVES, Car

COASTING = "coasting"
_RULE = {"front": -1, "rear": +1}  # which way a stiffer step moves front limit less rear limit


@dataclass(frozen=True)
class Parting:
    """One step of one bar, from a hole to the next stiffer one, on which the model differs from the rule."""

    drive: str  # whose force holds the speed: front, rear, all; or "coasting"
    end: str
    from_hole: int
    to_hole: int
    other_hole: int | None  # the hole in use at the other end meanwhile
    effect: Effect
    reason: Reason


@dataclass(frozen=True)
class Survey:
    """The rule tried on a car."""

    car: Car
    steps: int  # how many were tried
    partings: tuple[Parting, ...]

    def by_code(self) -> dict[str, int]:
        """How many steps part for each reason."""
        codes = [parting.reason.code for parting in self.partings]
        return {code: codes.count(code) for code in dict.fromkeys(codes)}


def practice_and_model(car: Car, thresholds: Thresholds = DEFAULTS) -> Survey:
    """Try the trade's rule on every step between neighbouring holes, coasting and with every drive.

    The rule says of a stiffer step (and so, turned round, of a softer one): that end loses grip
    against the other. The model parts from it where the balance moves the wrong way
    (``reversed``), where that end's own limit rises (``over-soft``), or where nothing can be told
    of it: an inside wheel is up, the chassis swallows it, the tyres hardly mind, the bar is weak.

    Returns
    -------
    Survey
        Steps on which both agree are counted and not listed.
    """
    found, steps = [], 0
    for drive in (COASTING, *DRIVES):
        driven = drive != COASTING
        surveyed = _Condition(replace(car, drive=drive) if driven else car, drive, driven, thresholds)
        steps += len(surveyed.steps)
        found += [parting for step in surveyed.steps for parting in surveyed.partings(*step)]
    return Survey(car, steps, tuple(found))


class _Condition:
    """Every pair of holes of a car, coasting or with one drive."""

    def __init__(self, car, drive, driven, thresholds):
        self.car, self.drive, self.thresholds = car, drive, thresholds
        front, rear = (
            range(1, axle.positions + 1) if axle.positions else [None] for axle in (car.front, car.rear)
        )
        pairs = list(product(front, rear))
        self.read = dict(zip(pairs, readings(car, pairs, driven, None, thresholds), strict=True))
        near = self.read[pairs[0]].near
        rigid = replace(car, chassis_torsion=None)
        self.rigid = (
            self.read
            if car.chassis_torsion is None
            else dict(zip(pairs, readings(rigid, pairs, driven, near, thresholds), strict=True))
        )
        gains = own_limit_gains(car, pairs, thresholds)
        self.gain = {end: dict(zip(pairs, gains[end], strict=True)) for end in ENDS}
        self.steps = [
            (end, pair, after)
            for pair in pairs
            for end in ENDS
            if (after := _next(pair, end)) != pair and after in self.read
        ]

    def partings(self, end, pair, after):
        place = ENDS.index(end)
        effect = Effect(self.read[pair], self.read[after])
        for reason in self._reasons(end, pair, effect, Effect(self.rigid[pair], self.rigid[after])):
            yield Parting(self.drive, end, pair[place], after[place], pair[1 - place], effect, reason)

    def _reasons(self, end, pair, effect, rigid):
        if "rollover" in (effect.before.limit_end, effect.after.limit_end):
            yield Reason("would-roll-over", end, {"direction": "stiffer"})
            return
        up = wheel_up(effect, end, "stiffer")
        if up is not None and abs(effect.change("gap")) < self.thresholds.limit_felt:
            yield up
            return
        if not felt(effect, self.thresholds):
            yield why_not_felt(self.car.with_holes(*pair), end, effect, rigid, self.thresholds)
        elif balance_moves(effect, self.thresholds) == -_RULE[end]:
            yield reversed_rule(self.car, end, "stiffer", effect)
        if up is None and camber_counts(self.car) and self.gain[end][pair] > self.thresholds.own_end_gain:
            yield Reason(
                "over-soft",
                end,
                numbers={
                    "step": (stiffness_step(self.car, self.thresholds), "roll stiffness"),
                    "gain": (float(self.gain[end][pair]), FINE),
                },
            )


def _next(pair, end):
    """The pair with one end at its next stiffer hole; nothing known of it where there is none."""
    front, rear = pair
    return (front and front + 1, rear) if end == "front" else (front, rear and rear + 1)
