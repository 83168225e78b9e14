"""One end's change, judged: what it does, how many holes, and what speaks against it."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from rollmodel.advice.case import Case, camber_counts, stiffness_step
from rollmodel.advice.numbers import Effect
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import free_holes, other_end
from rollmodel.car import Car
from rollmodel.physics.stiffness import axle_stiffness

G = "lateral acceleration"
CHANGE = "lateral acceleration change"  # shown with its sign and one more digit
FINE = "lateral acceleration fine"  # shown with one more digit
STEER = "angle change"
_LOAD_MOVES = 0.01  # of the load transfer: a bar that shifts this much is not the weak part


@dataclass(frozen=True)
class Move:
    """A change of hole at one end."""

    end: str
    direction: str
    from_hole: int
    to_hole: int
    effect: Effect
    one_step: Effect  # what the first of its steps does alone
    reasons: tuple[Reason, ...] = ()

    @property
    def steps(self) -> int:
        return abs(self.to_hole - self.from_hole)


@dataclass(frozen=True)
class LeftOut:
    """A change that the rule points at and that is left out, with the reason."""

    end: str
    direction: str
    reason: Reason
    move: Move | None = None  # its numbers, where there is such a hole


def felt(effect: Effect, thresholds) -> bool:
    """Whether a driver or a test could tell the change."""
    return (abs(effect.change("gap")) >= thresholds.limit_felt
            or abs(effect.change("near_steer")) >= thresholds.steer_felt)


def balance_moves(effect: Effect, thresholds) -> int:
    """+1 where the front gains on the rear (away from understeer), -1 the other way, 0 for neither.

    The gap between the limits decides; where it moves less than can be felt, or an end has no
    limit because it rolls over first, the steer near the limit does.
    """
    change = -effect.change("near_steer") if steer_decides(effect, thresholds) else effect.change("gap")
    return int(np.sign(np.nan_to_num(change)))


def steer_decides(effect: Effect, thresholds) -> bool:
    """Whether only the steer near the limit can be felt."""
    return (not abs(effect.change("gap")) >= thresholds.limit_felt
            and abs(effect.change("near_steer")) >= thresholds.steer_felt)


def helps(case: Case, effect: Effect) -> bool:
    """Whether the change moves the balance the way the driver wants."""
    return case.cure * balance_moves(effect, case.thresholds) > 0


class EndOptions:
    """Every free hole at one end in the direction of the rule, and the verdict on that end."""

    def __init__(self, case: Case, end: str):
        self.case, self.end, self.direction = case, end, case.rule[end]
        self.holes = free_holes(case.car, end, self.direction)

    @cached_property
    def usable(self) -> list[int]:
        """Holes with which the car still slides before it rolls over."""
        return [hole for hole in self.holes if self.effect(hole).after.limit_end != "rollover"]

    def effect(self, hole: int) -> Effect:
        return self.case.effect(self.end, hole)

    @cached_property
    def felt(self) -> list[int]:
        """Usable holes whose effect can be told."""
        return [hole for hole in self.usable if felt(self.effect(hole), self.case.thresholds)]

    @cached_property
    def helping(self) -> list[int]:
        """Usable holes that move the balance the right way; all, where none does."""
        return [hole for hole in self.usable if helps(self.case, self.effect(hole))] or self.usable

    @cached_property
    def farthest(self) -> Effect:
        return self.effect(self.usable[-1])

    @cached_property
    def best(self) -> int:
        """The hole that brings the two limits closest without carrying the car too far past equal.

        One step only when the sheet does not agree with the driver; the nearest of holes that
        make no odds.
        """
        case, nearest = self.case, self.helping[0]
        if driver_alone_decides(case):
            return nearest
        within = [hole for hole in self.helping if self.overshoot(hole) <= case.thresholds.swap_margin]
        if not within:
            return nearest
        best = min(abs(self.effect(hole).after.gap) for hole in within)
        odds = case.thresholds.limit_felt / 10
        return next(hole for hole in within if abs(self.effect(hole).after.gap) <= best + odds)

    def overshoot(self, hole: int) -> float:
        """How far the other end would give up before the complaining end, [m/s^2]."""
        return self.case.cure * self.effect(hole).after.gap

    @cached_property
    def move(self) -> Move:
        return Move(self.end, self.direction, self.case.car.axle(self.end).hole, self.best,
                    self.effect(self.best), self.effect(self.usable[0]), tuple(_notes(self)))

    @cached_property
    def left_out(self) -> LeftOut | None:
        """Why this end is not the one to change, or None."""
        reason = _against(self)
        if reason is None:
            return None
        return LeftOut(self.end, self.direction, reason, self.move if self.usable else None)

    def reason(self, code, words=None, **numbers) -> Reason:
        return Reason(code, self.end, {"direction": self.direction, **(words or {})}, numbers)


def driver_alone_decides(case: Case) -> bool:
    """Whether the sheet calls the ends even, or says the other end gives up first."""
    return case.cure * case.fitted.lead > -case.thresholds.nearly_even


def _against(options: EndOptions) -> Reason | None:
    """The first reason that holds, the plainest first."""
    checks = (_no_hole, _rolls_over, _wheel_up, _soft_side, _wrong_way, _costs_both, _not_felt)
    return next((reason for check in checks if (reason := check(options)) is not None), None)


def _no_hole(options):
    if options.case.car.axle(options.end).bar is None:
        return options.reason("no-bar")
    return None if options.holes else options.reason("nothing-left")


def _rolls_over(options):
    return None if options.usable else options.reason("would-roll-over")


def _wheel_up(options):
    """An inside wheel that is up at the limit, and no free hole that alters the balance there."""
    effects = [options.effect(hole) for hole in options.usable]
    if any(abs(effect.change("gap")) >= options.case.thresholds.limit_felt for effect in effects):
        return None
    return wheel_up(options.farthest, options.end, options.direction)


def wheel_up(effect: Effect, end: str, direction: str) -> Reason | None:
    """The inside wheel that is off the ground at the limit, at this end or the other."""
    own = "inside-wheel-up" if direction == "stiffer" else "inside-wheel-stays-up"
    for lifted_end, code in ((end, own), (other_end(end), "other-inside-wheel-up")):
        if effect.before.end(lifted_end).lifted_at_limit:
            return Reason(code, end, {"direction": direction}, {"gap": (effect.change("gap"), CHANGE)})
    return None


def _soft_side(options):
    """Softening an end that gains grip from stiffness."""
    case = options.case
    if options.direction == "stiffer" or options.end not in case.too_soft_at:
        return None
    return options.reason("over-soft", step=(stiffness_step(case.car, case.thresholds), "roll stiffness"),
                          gain=(case.own_gain[options.end], FINE))


def _wrong_way(options):
    """Every hole whose effect can be told goes the other way."""
    if not options.felt or any(helps(options.case, options.effect(hole)) for hole in options.felt):
        return None
    effect = options.effect(options.felt[0])
    return reversed_rule(options.case.car, options.end, options.direction, effect)


def reversed_rule(car: Car, end: str, direction: str, effect: Effect) -> Reason:
    """The balance moves against the rule; with the cause, where the model knows it."""
    cause = "an inside wheel is up, and only the roll still counts" if effect.wheel_stays_up else (
        "camber loss beats uneven load" if camber_counts(car) else "see the numbers")
    return Reason("reversed", end, {"direction": direction, "cause": cause}, {
        "before": (effect.before.gap, CHANGE), "after": (effect.after.gap, CHANGE),
        "steer_before": (effect.before.near_steer, "angle"),
        "steer_after": (effect.after.near_steer, "angle")})


def _costs_both(options):
    """A shift of balance by taking grip from both ends, each by half of what can be felt or more."""
    effect, least = options.effect(options.best), options.case.thresholds.limit_felt / 2
    if any(not effect.limit_change(end) <= -least for end in ("front", "rear")):
        return None
    return options.reason(
        "costs-both-ends",
        **{
            f"{end}_{when}": (getattr(effect, when).end(end).limit, G)
            for end in ("front", "rear")
            for when in ("before", "after")
        },
    )


def _not_felt(options):
    """No free hole does enough."""
    if options.felt:
        return None
    case = options.case
    rigid = case.effect_on_rigid_chassis(options.end, options.usable[-1])
    return why_not_felt(case.car, options.end, options.farthest, rigid, case.thresholds)


def why_not_felt(car: Car, end: str, effect: Effect, rigid: Effect, thresholds) -> Reason:
    """Why a change is too small: the chassis swallows it, the tyres hardly mind it, or the bar is weak."""
    changes = {
        "gap": (effect.change("gap"), CHANGE),
        "steer": (effect.change("near_steer"), STEER),
        "limit_felt": (thresholds.limit_felt, G),
        "steer_felt": (thresholds.steer_felt, "angle"),
    }
    part = passed(effect, rigid)
    if felt(rigid, thresholds) and part < thresholds.chassis_passes:
        return Reason(
            "chassis-swallows-it",
            end,
            numbers={"part": (part, "share"), "gap": changes["gap"], "rigid": (rigid.change("gap"), CHANGE)},
        )
    if abs(effect.change("front_share")) >= _LOAD_MOVES:
        return Reason(
            "tyres-hardly-mind",
            end,
            numbers={
                **changes,
                "share_before": (effect.before.front_share, "share"),
                "share_after": (effect.after.front_share, "share"),
            },
        )
    stiff = axle_stiffness(car.axle(end))
    return Reason(
        "bar-too-weak",
        end,
        numbers={
            **changes,
            **{
                name: (float(getattr(stiff, of)), "roll stiffness")
                for name, of in (("bar", "bar_roll"), ("springs", "spring_roll"), ("total", "total_roll"))
            },
        },
    )


def passed(effect: Effect, rigid: Effect) -> float:
    """Part of a change in the front share of load transfer that comes through the chassis, [-].

    1 where the bar would change nothing on a rigid chassis either.
    """
    wanted = rigid.change("front_share")
    return effect.change("front_share") / wanted if abs(wanted) > 1e-9 else 1.0


def _notes(options: EndOptions):
    """What to know about the chosen number of holes."""
    case, effect = options.case, options.effect(options.best)
    one, steps = options.effect(options.usable[0]), abs(options.best - case.car.axle(options.end).hole)
    yield from _how(options, effect)
    if steps > 1:
        yield options.reason("go-one-first", words={"steps": str(steps)})
    if not felt(one, case.thresholds):
        yield options.reason(
            "one-step-hard-to-feel", gap=(one.change("gap"), CHANGE), steer=(one.change("near_steer"), STEER)
        )
    if not driver_alone_decides(case) and options.overshoot(options.best) > case.thresholds.swap_margin:
        yield options.reason("one-step-is-too-much", over=(options.overshoot(options.best), G))
    yield from _warnings(options, effect)


def _how(options, effect):
    """What the model says of the rule, and by which road the balance moves."""
    if helps(options.case, effect) and steer_decides(effect, options.case.thresholds):
        yield options.reason(
            "model-agrees-by-steer",
            near=(effect.before.near, G),
            gap=(effect.change("gap"), CHANGE),
            before=(effect.before.near_steer, "angle"),
            after=(effect.after.near_steer, "angle"),
        )
    elif helps(options.case, effect):
        yield options.reason(
            "model-agrees",
            before=(effect.before.gap, CHANGE),
            after=(effect.after.gap, CHANGE),
            **{
                f"{end}_{when}": (getattr(effect, when).end(end).limit, G)
                for end in ("front", "rear")
                for when in ("before", "after")
            },
        )
    towards = 1 if (options.end == "front") == (options.direction == "stiffer") else -1
    if towards * effect.change("front_share") > 0:
        code = "takes-more-load-transfer" if options.direction == "stiffer" else "takes-less-load-transfer"
        yield options.reason(
            code,
            share_before=(effect.before.front_share, "share"),
            share_after=(effect.after.front_share, "share"),
        )
    if effect.wheel_stays_up:
        yield options.reason(
            "only-roll-counts",
            before=(effect.before.roll_gradient, "roll gradient"),
            after=(effect.after.roll_gradient, "roll gradient"),
        )
    elif (
        options.direction == "stiffer"
        and effect.limit_change(options.end) > 0
        and camber_counts(options.case.car)
    ):
        yield options.reason("flatter-body", gain=(effect.limit_change(options.end), FINE))


def _warnings(options, effect):
    case, before, after = options.case, effect.before, effect.after
    if after.limit_end == "rear" and before.limit_end == "front":
        yield options.reason(
            "rear-gives-up-first", front=(after.held("front"), G), rear=(after.held("rear"), G)
        )
    if before.limit - after.limit >= case.thresholds.limit_felt:
        yield options.reason("lowers-the-limit", before=(before.limit, G), after=(after.limit, G))
    was_up, is_up = (reading.end(options.end).lifted_at_limit for reading in (before, after))
    if was_up != is_up:
        yield options.reason("lifts-inside-wheel" if is_up else "brings-wheel-down")
    part = passed(effect, case.effect_on_rigid_chassis(options.end, options.best))
    if part < case.thresholds.chassis_passes:
        yield options.reason("chassis-twists", part=(part, "share"))
