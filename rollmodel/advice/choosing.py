"""Choosing the change: the trade's rule, held against the model, and what comes before a bar."""

from dataclasses import dataclass, replace

from rollmodel.advice.case import Case, stiffness_step
from rollmodel.advice.ends import EndOptions
from rollmodel.advice.moves import CHANGE, G, LeftOut, Move, driver_alone_decides
from rollmodel.advice.numbers import Effect, Reading, effect_of, effect_of_springs
from rollmodel.advice.phases import (
    damper_reasons,
    drive_after,
    drive_reasons,
    traction_reasons,
    with_traction,
)
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import ENDS, PHASES, SYMPTOMS, free_holes, one_of, places_apart
from rollmodel.advice.thresholds import DEFAULTS, Thresholds, class_by_roll
from rollmodel.advice.travel import stop_comes_first, travel_reasons
from rollmodel.advice.with_drive import drive_caveat, end_with_drive
from rollmodel.car import GRAVITY, Car, CarError
from rollmodel.physics.roll import roll_moment_arm, stands_up
from rollmodel.physics.stiffness import axle_stiffness

VERDICTS = ("change a bar", "bump stop first", "traction first", "dampers first",
            "raise roll stiffness first", "not the bars", "no advice")


@dataclass(frozen=True)
class Choice:
    """The advice: what comes first, what second, why, and what was left out."""

    car: Car
    symptom: str
    phase: str
    verdict: str  # one of VERDICTS
    fitted: Reading
    moves: tuple[Move, ...]  # bar changes worth trying, the best first
    left_out: tuple[LeftOut, ...]
    reasons: tuple[Reason, ...]
    thresholds: Thresholds
    springs: Effect | None = None  # stiffer springs at both ends, where those come first

    @property
    def first(self) -> Move | None:
        """The bar change to make now; None where something else comes first."""
        return self.moves[0] if self.moves and self.verdict == "change a bar" else None

    @property
    def second(self) -> Move | None:
        """The bar change to fall back on."""
        later = self.moves[1:] if self.verdict == "change a bar" else self.moves
        return later[0] if later else None

    @property
    def third(self) -> Move | None:
        """The other bar change, where something comes before both."""
        return self.moves[1] if len(self.moves) > 1 and self.verdict != "change a bar" else None

    @property
    def codes(self) -> set[str]:
        """Every reason code in it."""
        found = [*self.reasons, *(left.reason for left in self.left_out)]
        found += [reason for move in self.moves for reason in move.reasons]
        return {reason.code for reason in found}


def choose(car: Car, symptom: str, when: str = "middle", at: float | None = None,
           thresholds: Thresholds = DEFAULTS) -> Choice:
    """Which bar change to make for a complaint, or what comes before a bar.

    Parameters
    ----------
    car : Car
        With the fitted holes in use.
    symptom : {"understeer", "oversteer"}
        In the driver's words.
    when : {"entry", "middle", "exit"}
        On the way out the force that holds the speed is counted in the limits; in the middle the car
        coasts, and a reason says so where that force would turn round which end gives up first.
    at : float, optional
        Lateral acceleration at which loads and steer are compared, below the car's limit, [m/s^2];
        a stated part of the limit when left out.
    thresholds : Thresholds
        The figures that the advice turns on.

    Raises
    ------
    ValueError
        A symptom or phase that is not one of these; a lateral acceleration that the car cannot hold.
    CarError
        A car that does not stand up.

    Notes
    -----
    The rule is common practice; the direction, size and exceptions are worked out from loads and
    tyres by the model. Settled corner; see `rollmodel.physics.corner` for what is left out.
    """
    if at is not None and not at > 0:
        raise ValueError(f"at: wanted above 0 and below the car's limit, given {at / GRAVITY:.3g} g")
    case = Case(car, one_of("symptom", symptom, SYMPTOMS), one_of("when", when, PHASES), thresholds, at)
    if not stands_up(car, axle_stiffness(car.front), axle_stiffness(car.rear)):
        raise CarError(
            "the car does not stand up at these holes: its springs and bars hold less than gravity "
            "tips; try stiffer ones"
        )
    if case.fitted.limit_end == "rollover":
        tips = {"rollover": (case.fitted.rollover, G)}
        return _choice(case, "no advice", [Reason("rolls-over", numbers=tips)])
    if case.fitted.roll_gradient < 0:
        return _choice(case, "no advice", [_leans_inward(case)])
    if at is not None and at >= case.fitted.limit:
        given, limit = at / GRAVITY, case.fitted.limit / GRAVITY
        places = places_apart(given, limit)
        raise ValueError(f"at: wanted above 0 and below the car's limit of {limit:.{places}f} g, "
                         f"given {given:.{places}f} g")
    return _advice(case)


def _choice(case, verdict, reasons, moves=(), left_out=(), springs=None) -> Choice:
    return Choice(
        case.car, case.symptom, case.phase, verdict, case.fitted, tuple(moves), tuple(left_out),
        tuple(reasons), case.thresholds, springs,
    )


def _leans_inward(case):
    return Reason("leans-inward", numbers={"roll": (case.fitted.roll_gradient, "roll gradient"),
                                           "below": (-roll_moment_arm(case.car), "length")})


def _advice(case: Case) -> Choice:
    ends = [EndOptions(case, end) for end in ENDS]
    left_out = [end.left_out for end in ends if end.left_out]
    good = [end for end in ends if not end.left_out]
    moves, why = _in_order(case, good)
    reasons = [*_about_driver(case, moves), *drive_caveat(case, moves), *why, *_rollover_warning(case)]
    travel = travel_reasons(case)
    if case.phase != "middle":
        return _on_the_move(case, travel, reasons, moves, left_out)
    reasons.insert(0, Reason("trade-rule", case.sliding, {"symptom": case.symptom}))
    if stop_comes_first(case):
        return _choice(case, "bump stop first", [*travel, *reasons], moves, left_out)
    reasons = [*travel, *reasons]
    if _too_soft_for_bars(case, moves, left_out):
        springs = effect_of_springs(
            case.car, case.thresholds.springs_up, near=case.fitted.near, thresholds=case.thresholds
        )
        return _choice(
            case,
            "raise roll stiffness first",
            [_raise(case, springs), *_both_bars(case), *reasons],
            moves,
            left_out,
            springs,
        )
    if not moves:
        return _choice(case, "not the bars", [Reason("not-the-bars"), *reasons], (), left_out)
    return _choice(case, "change a bar", reasons, moves, left_out)


def _on_the_move(case, travel, reasons, moves, left_out) -> Choice:
    """The way in and out: first a stop or the power that makes the gap, then dampers, a bar after those."""
    traction = traction_reasons(case)
    ahead = "bump stop first" if stop_comes_first(case) else "traction first" if traction else "dampers first"
    reasons = [*travel, *traction, *damper_reasons(case, moves), *reasons]
    return _choice(case, ahead, reasons, moves, left_out)


def _too_soft_for_bars(case, moves, left_out) -> bool:
    """Whether roll stiffness comes before balance: the car wallows, or camber has turned the rule round."""
    turned = any(left.reason.code == "reversed" for left in left_out)
    return case.whole_car_too_soft or bool(case.too_soft_at and (turned or not moves))


def _in_order(case, good):
    """The moves, best first, and why in that order."""
    if case.phase == "exit":
        moves = sorted(
            (with_traction(case, end.move) for end in good), key=lambda move: -drive_after(case, move)
        )
        return moves, drive_reasons(case)
    if len(good) == 2:
        return _both_ends(case, {end.direction: end for end in good})
    return _one_end(case, good[0]) if good else ([], [])


def _both_ends(case, ends):
    """The stiffening or the softening move first; a step that is too coarse after one that is not."""
    bears, why = can_bear_more(case, ends["stiffer"].move, ends["softer"].move)
    order = ("stiffer", "softer") if bears else ("softer", "stiffer")
    moves = sorted((ends[direction].move for direction in order), key=_too_coarse)
    so = "so-stiffen" if moves[0].direction == "stiffer" else "so-soften"
    return moves, [why, Reason(so, moves[0].end)]


def _one_end(case, end):
    moves = [end.move, *_more_or_fewer(end)]
    only = Reason("only-this-end", end.end)
    return moves, [can_bear_more(case, end.move)[1], only] if end.direction == "stiffer" else [only]


def _too_coarse(move):
    return any(reason.code == "one-step-is-too-much" for reason in move.reasons)


def _more_or_fewer(end: EndOptions) -> list[Move]:
    """The same end with the first step alone, or with one step more."""
    move = end.move
    place = end.usable.index(move.to_hole)
    hole = end.usable[0] if place else next(iter(end.usable[1:]), None)
    why = Reason("first-step-alone" if place else "one-step-more", end.end)
    return [] if hole is None else [replace(move, to_hole=hole, effect=end.effect(hole), reasons=(why,))]


def can_bear_more(case: Case, move: Move, instead: Move | None = None) -> tuple[bool, Reason]:
    """Whether the car can bear the stiffening move, and the figure that says so.

    Already stiff by its roll gradient, too little load left on the inside wheel of that end at the
    limit, or a lower limit for the car than softening the other end (`instead`) would leave: then
    the other end is softened (common practice; the figures are in `Thresholds`).
    """
    limits, after = case.thresholds, move.effect.after
    roll, inside = case.fitted.roll_gradient, after.end(move.end).inside_load_at_limit
    wanted = limits.inside_load_left * case.car.axle_weight(move.end) / 2
    numbers = {"roll": (roll, "roll gradient"), "stiff": (limits.already_stiff, "roll gradient")}
    if roll < limits.already_stiff:
        return False, Reason("already-stiff", move.end, numbers=numbers)
    if inside < wanted:
        return False, Reason(
            "inside-wheel-too-light",
            move.end,
            numbers={"inside": (inside, "load"), "wanted": (wanted, "load")},
        )
    if instead and instead.effect.after.limit - after.limit >= limits.limit_felt:
        return False, Reason(
            "costs-limit",
            move.end,
            numbers={"stiffer": (after.limit, G), "softer": (instead.effect.after.limit, G)},
        )
    return True, Reason("can-bear-more", move.end, numbers={**numbers, "inside": (inside, "load")})


def _about_driver(case, moves):
    """What the sheet says of the driver's complaint, where it does not agree."""
    if not driver_alone_decides(case):
        return []
    against = case.cure * case.fitted.lead > case.thresholds.nearly_even
    with_drive = end_with_drive(case) == case.sliding
    said = Reason(
        "sheet-says-even" if not against else "coasting-disagrees" if with_drive else "sheet-disagrees",
        case.sliding,
        numbers={end: (case.fitted.held(end), G) for end in ENDS},
    )
    return [said, Reason("one-step-only")] if moves else [said]


def _rollover_warning(case):
    fitted = case.fitted
    if fitted.rollover > case.thresholds.rollover_margin * fitted.limit:
        return []
    return [
        Reason("near-rolling-over", numbers={"rollover": (fitted.rollover, G), "limit": (fitted.limit, G)})
    ]


def _both_bars(case):
    """What both bars at their stiffest would do, where a stiffer position is free."""
    if not any(free_holes(case.car, end, "stiffer") for end in ENDS):
        return []
    front, rear = (case.car.axle(end).positions or None for end in ENDS)
    effect = effect_of(case.car, front, rear, case.driven, case.fitted.near, case.thresholds)
    return [
        Reason(
            "both-bars-stiffer",
            words={"front_hole": str(front or "none"), "rear_hole": str(rear or "none")},
            numbers={"before": (effect.before.limit, G), "after": (effect.after.limit, G)},
        )
    ]


def _raise(case, springs):
    roll = case.fitted.roll_gradient
    return Reason(
        "raise-roll-stiffness",
        words={"kind": class_by_roll(roll)},
        numbers={
            "roll": (roll, "roll gradient"),
            "step": (stiffness_step(case.car, case.thresholds), "roll stiffness"),
            "springs": (case.thresholds.springs_up - 1, "share"),
            "before": (springs.before.limit, G),
            "after": (springs.after.limit, G),
            **{end: (case.own_gain[end], CHANGE) for end in ENDS},
        },
    )
