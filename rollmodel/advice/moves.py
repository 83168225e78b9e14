"""One end's change and what it does to the balance."""

from dataclasses import dataclass

import numpy as np

from rollmodel.advice.case import Case
from rollmodel.advice.numbers import Effect
from rollmodel.advice.reasons import Reason

G = "lateral acceleration"
CHANGE = "lateral acceleration change"  # shown with its sign and one more digit
FINE = "lateral acceleration fine"  # shown with one more digit
GAP = "lateral acceleration gap"  # of two, the second less the first, as both are shown
STEER = "angle change"


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


def passed(effect: Effect, rigid: Effect) -> float:
    """Part of a change in the front share of load transfer that comes through the chassis, [-].

    1 where the bar would change nothing on a rigid chassis either.
    """
    wanted = rigid.change("front_share")
    return effect.change("front_share") / wanted if abs(wanted) > 1e-9 else 1.0


def driver_alone_decides(case: Case) -> bool:
    """Whether the sheet calls the ends even, or says the other end gives up first."""
    return case.cure * case.fitted.lead > -case.thresholds.nearly_even
