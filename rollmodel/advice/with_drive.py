"""The middle of a corner at a steady throttle: what the force that holds the speed makes of the verdict.

Limits in the middle are those of a car that coasts. A car that holds its speed needs a force for it, which
takes side force from the driven tyres; where that turns round which end gives up first, the advice says so.
"""

from rollmodel.advice.case import Case
from rollmodel.advice.moves import CHANGE, FINE, G, Move
from rollmodel.advice.numbers import Reading, readings
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import ENDS, other_end
from rollmodel.advice.thresholds import DEFAULTS, Thresholds


def turned_by_drive(coasting: Reading, driven: Reading, thresholds: Thresholds = DEFAULTS) -> bool:
    """Whether another end gives up first with drive, by a change of the gap that could be felt."""
    ends = {coasting.limit_end, driven.limit_end}
    return ends == set(ENDS) and abs(driven.lead - coasting.lead) >= thresholds.limit_felt


def drive_caveat(case: Case, moves: list[Move]) -> list[Reason]:
    """That the verdict is another with drive, and what the first change does then; empty elsewhere."""
    if case.phase != "middle" or not turned_by_drive(case.coasting, case.held_speed, case.thresholds):
        return []
    return [_turned(case), *(_first_change(case, move) for move in moves[:1])]


def _turned(case):
    end = case.held_speed.limit_end
    says = "The driver says so too" if end == case.sliding else f"The driver says the {other_end(end)}"
    limits = {
        f"{each}_{name}": (reading.held(each), G)
        for each in ENDS
        for name, reading in (("coasting", case.coasting), ("driven", case.held_speed))
    }
    return Reason("drive-turns-it", end, {"says": says}, limits)


def _first_change(case, move):
    pairs = [(one.front_hole, one.rear_hole) for one in (move.effect.before, move.effect.after)]
    before, after = readings(case.car, pairs, True, case.fitted.near, case.thresholds)
    numbers = {"before": (before.limit, FINE), "after": (after.limit, FINE),
               "gap_before": (before.lead, CHANGE), "gap_after": (after.lead, CHANGE)}
    return Reason("drive-and-change", move.end, {"direction": move.direction}, numbers)
