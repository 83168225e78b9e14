"""Bump stops: the travel that a corner uses, and what a stop does to the balance."""

from rollmodel.advice.case import Case
from rollmodel.advice.moves import GAP, G
from rollmodel.advice.numbers import EndReading
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import ENDS

_BOTH, _LIMIT = "in the working corner and at the limit", "at the limit"


def travel_reasons(case: Case) -> list[Reason]:
    """Every end of the fitted car whose travel is used up, and the gap with and without the stops."""
    reasons = [_used_up(case, end) for end in ENDS if case.fitted.end(end).stop_reached_at_limit]
    if not any(reason.code == "on-bump-stop" for reason in reasons):
        return reasons
    gaps = {
        "gap": (case.fitted.rear_and_front, GAP),
        "without": (case.without_stops.rear_and_front, GAP),
    }
    reasons.append(Reason("bump-stop-gap", numbers=gaps))
    if _made_by_stop(case):
        reasons.append(Reason("stop-first", numbers={"part": (part_by_stop(case), "share")}))
    return reasons


def stop_comes_first(case: Case) -> bool:
    """Whether the stop makes a good part of the gap, or is met at the sliding end with a rate nobody gave."""
    sliding = case.fitted.end(case.sliding)
    return _made_by_stop(case) or (sliding.stop_reached and not sliding.stop_counted)


def part_by_stop(case: Case) -> float:
    """Part of the gap on the driver's side that the stops make, [-]; nan where there is no gap."""
    return (case.fitted.gap - case.without_stops.gap) / case.fitted.gap if case.fitted.gap else float("nan")


def _made_by_stop(case):
    limits, gap = case.thresholds, case.fitted.gap
    if not any(case.fitted.end(end).stop_reached_at_limit for end in ENDS) or not case.cure * gap < 0:
        return False
    felt = abs(gap - case.without_stops.gap) >= limits.limit_felt
    return felt and part_by_stop(case) >= limits.good_part


def _used_up(case, end):
    reading = case.fitted.end(end)
    code = "on-bump-stop" if reading.stop_counted else "travel-used-up"
    where = _BOTH if reading.stop_reached else _LIMIT
    return Reason(code, end, {"where": where}, {**_travels(reading), "near": (case.fitted.near, G)})


def _travels(reading: EndReading):
    return {
        "used": (reading.bump_travel, "length"),
        "at_limit": (reading.bump_travel_at_limit, "length"),
        "there": (reading.bump_travel_there, "length"),
    }


def stops_met_by(effect) -> list[Reason]:
    """Ends that a change brings to the end of their travel."""
    return [
        Reason("meets-bump-stop", end, numbers={
            name: value for name, value in _travels(effect.after.end(end)).items() if name != "used"})
        for end in ENDS
        if effect.after.end(end).stop_reached_at_limit and not effect.before.end(end).stop_reached_at_limit
    ]
