"""The middle of a corner at a steady throttle: what the force that holds the speed makes of the verdict.

Limits in the middle are those of a car that coasts. A car that holds its speed needs a force for it, which
takes side force from the driven tyres; where that turns round which end gives up first, the advice says so.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from rollmodel.advice.case import Case
from rollmodel.advice.moves import FINE, GAP, Move
from rollmodel.advice.numbers import Reading
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import ENDS, other_end
from rollmodel.advice.thresholds import DEFAULTS, Thresholds
from rollmodel.car import Car
from rollmodel.physics.balance import Limits, limits


@dataclass(frozen=True)
class Held:
    """What each end holds with the force that holds the speed, or rolling over before that, [m/s^2]."""

    front: float
    rear: float

    @classmethod
    def of(cls, found: Limits, place=()) -> "Held":
        """From one of several setups' limits."""
        front, rear = (np.fmin(one, found.rollover)[place] for one in (found.front, found.rear))
        return cls(float(front), float(rear))

    def held(self, end: str) -> float:
        return getattr(self, end)

    @property
    def lead(self) -> float:
        return self.front - self.rear

    @property
    def limit(self) -> float:
        return min(self.front, self.rear)

    @property
    def limit_end(self) -> str:
        """"front" or "rear", or "rollover" where both come to that."""
        return "rollover" if self.lead == 0.0 else "front" if self.lead < 0 else "rear"


@lru_cache(maxsize=512)
def held_with_drive(car: Car) -> Held:
    """The limits of a car at the holes in use; kept, for a hole is moved back and forth."""
    return Held.of(limits(car, driven=True))


def turned_by_drive(coasting: Reading, driven: Reading | Held, thresholds: Thresholds = DEFAULTS) -> bool:
    """Whether another end gives up first with drive, by a change of the gap that could be felt."""
    ends = {coasting.limit_end, driven.limit_end}
    return ends == set(ENDS) and abs(driven.lead - coasting.lead) >= thresholds.limit_felt


def end_with_drive(case: Case) -> str | None:
    """The end that gives up first with drive, where that turns the verdict for the middle round."""
    driven = held_with_drive(case.car)
    turned = case.phase == "middle" and turned_by_drive(case.fitted, driven, case.thresholds)
    return driven.limit_end if turned else None


def drive_caveat(case: Case, moves: list[Move]) -> list[Reason]:
    """That the verdict is another with drive, and what the first change does then; empty elsewhere."""
    end = end_with_drive(case)
    return [_turned(case, end), *(_first_change(case, move) for move in moves[:1])] if end else []


def _turned(case, end):
    driven = held_with_drive(case.car)
    says = "The driver says so too" if end == case.sliding else f"The driver says the {other_end(end)}"
    limits = {
        f"{each}_{name}": (reading.held(each), FINE)
        for each in ENDS
        for name, reading in (("coasting", case.fitted), ("driven", driven))
    }
    return Reason("drive-turns-it", end, {"says": says}, limits)


def _first_change(case, move):
    before, after = (
        held_with_drive(case.car.with_holes(one.front_hole, one.rear_hole))
        for one in (move.effect.before, move.effect.after)
    )
    numbers = {"before": (before.limit, FINE), "after": (after.limit, FINE),
               "gap_before": ((before.rear, before.front), GAP),
               "gap_after": ((after.rear, after.front), GAP)}
    return Reason("drive-and-change", move.end, {"direction": move.direction}, numbers)
