"""What to know about a change that is worth making. Each note takes the options of one end, see `ends`."""

from rollmodel.advice.case import camber_counts
from rollmodel.advice.moves import (
    CHANGE,
    FINE,
    GAP,
    STEER,
    G,
    driver_alone_decides,
    felt,
    helps,
    passed,
    steer_decides,
)
from rollmodel.advice.travel import stops_met_by


def notes(options):
    """What to know about the chosen number of holes."""
    case, effect = options.case, options.effect(options.best)
    one, steps = options.effect(options.usable[0]), abs(options.best - case.car.axle(options.end).hole)
    yield from stops_met_by(effect)
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
            before=(effect.before.rear_and_front, GAP),
            after=(effect.after.rear_and_front, GAP),
            **{
                f"{end}_{when}": (getattr(effect, when).end(end).limit, FINE)
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
            "rear-gives-up-first", front=(after.held("front"), FINE), rear=(after.held("rear"), FINE)
        )
    if before.limit_end == after.limit_end == "rear" and after.gap - before.gap >= case.thresholds.limit_felt:
        gaps = {"before": (before.rear_and_front, GAP), "after": (after.rear_and_front, GAP)}
        yield options.reason("tail-goes-sooner", **gaps)
    if before.limit - after.limit >= case.thresholds.limit_felt:
        yield options.reason("lowers-the-limit", before=(before.limit, G), after=(after.limit, G))
    was_up, is_up = (reading.end(options.end).lifted_at_limit for reading in (before, after))
    if was_up != is_up:
        yield options.reason("lifts-inside-wheel" if is_up else "brings-wheel-down")
    part = passed(effect, case.effect_on_rigid_chassis(options.end, options.best))
    if part < case.thresholds.chassis_passes:
        yield options.reason("chassis-twists", part=(part, "share"))
