"""Why an end is not the one to change. Each check takes the options of one end, see `ends`."""

from rollmodel.advice.case import camber_counts, stiffness_step
from rollmodel.advice.moves import CHANGE, FINE, GAP, STEER, G, felt, helps, passed
from rollmodel.advice.numbers import Effect
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import other_end
from rollmodel.car import Car
from rollmodel.physics.stiffness import axle_stiffness

_LOAD_MOVES = 0.01  # of the load transfer: a bar that shifts this much is not the weak part


def objection(options) -> Reason | None:
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
        "the body leans inward" if effect.before.roll_gradient < 0 else
        "camber loss beats uneven load" if camber_counts(car) else "see the numbers")
    return Reason("reversed", end, {"direction": direction, "cause": cause}, {
        "before": (effect.before.rear_and_front, GAP), "after": (effect.after.rear_and_front, GAP),
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
