"""The way in and the way out: dampers first, and what an open differential makes of a bar."""

from dataclasses import replace

import numpy as np

from rollmodel.advice.case import Case
from rollmodel.advice.moves import GAP, G, Move
from rollmodel.advice.numbers import Effect, stiffness_at
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import ENDS
from rollmodel.car import CarError
from rollmodel.physics.balance import drive_shares
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.drive_limit import drive_limit, end_drive
from rollmodel.physics.traction import open_differential_drive
from rollmodel.physics.transient import NotFollowed, roll_against_time

_NO_DRIVE = 1.0  # N; a drive or a change of it below this is none
_SETTLING = 6.0  # s, for the roll to come to rest before the middle is read


def damper_reasons(case: Case, moves=()) -> list[Reason]:
    """Why dampers come first on the way in and out, with their part in newtons, which way and how far."""
    found = _damper_numbers(case)
    size = _damper_size(case, moves) if found.code == "damper-numbers" else []
    return [Reason("dampers-first", words={"phase": _WAY[case.phase]}), found, _damper_direction(case),
            *size, Reason("same-in-the-middle")]


def _damper_size(case, moves):
    """What one change of the sliding end's dampers does, beside one hole of a bar."""
    step, end = case.thresholds.damper_step, case.sliding
    word, when, factor = ("less", "in", 1 - step) if case.phase == "entry" else ("more", "out", 1 + step)
    part = abs(_part(_with_damping(case.car, end, factor), case, end, when)
               - _part(case.car, case, end, when))
    yield Reason("damper-size", end, {"change": word}, {"step": (step, "share"), "part": (part, "load")})
    if moves:
        move = moves[0]
        hole = abs(move.one_step.after.end(end).outside_load - move.one_step.before.end(end).outside_load)
        yield Reason("damper-size-hole", end, {"move_end": move.end, "direction": move.direction},
                     {"hole": (hole, "load"), "near": (case.fitted.near, G)})


def _part(car, case, end, when):
    return damper_parts(car, case.fitted.near, case.thresholds.build_time)[end, when]


def _with_damping(car, end, factor):
    axle = car.axle(end)
    return replace(car, **{end: replace(axle, damper=replace(axle.damper, rate=factor * axle.damper.rate))})


_WAY = {"entry": "way in", "exit": "way out"}


def _damper_direction(case):
    """The sliding end softer in roll on the way in; on the way out the rate of roll has the other sign."""
    code = "damper-direction" if case.phase == "entry" else "damper-direction-exit"
    return Reason(code, case.sliding, {"symptom": case.symptom})


def _damper_numbers(case):
    without = [end for end in ENDS if case.car.axle(end).damper is None]
    if without:
        return Reason("no-damper-numbers", words={"ends": " and ".join(f"the {end}" for end in without)})
    time, near = case.thresholds.build_time, case.fitted.near
    try:
        parts = damper_parts(case.car, near, time)
    except NotFollowed:
        return Reason("roll-not-followed")
    except CarError:  # dampers at both ends, and it stands: what is left is rolling over in time
        return Reason("rolls-over-on-the-way-in", numbers={"time": (time, "time"), "near": (near, G)})
    return Reason("damper-numbers", numbers={"time": (time, "time"), "near": (near, G), **{
        f"{end}_{when}": (value, "load") for (end, when), value in parts.items()}})


def damper_parts(car, lateral_acceleration: float, time: float) -> dict[tuple[str, str], float]:
    """Largest damper part of each end's load transfer on the way in and out, and in the middle, [N].

    Keys are (end, "in" | "out" | "mid"); on the way out it has the other sign.
    """
    corner = BuildUp(lateral_acceleration, rise_time=time, hold_time=_SETTLING, release_time=time)
    history = roll_against_time(car, corner)
    out = {}
    for end in ENDS:
        dampers = history.axle(end).dampers
        out[end, "in"] = float(np.max(dampers[:history.middle]))
        out[end, "out"] = float(np.min(dampers[history.middle:]))
        out[end, "mid"] = float(dampers[history.middle])
    return out


def driven_ends(car) -> list[str]:
    return [end for end, share in drive_shares(car).items() if share]


def exit_acceleration(case: Case) -> float:
    """The lateral acceleration still asked of the tyres when the power goes on, [m/s^2]."""
    return case.thresholds.on_exit * case.fitted.limit if case.near is None else case.near


def drive_before_and_after(case: Case, effect: Effect) -> tuple[float, float]:
    """The most drive the car passes on the way out, open differentials, before and after a change, [N]."""
    pairs = [(reading.front_hole, reading.rear_hole) for reading in (effect.before, effect.after)]
    found = drive_limit(case.car, exit_acceleration(case), *stiffness_at(case.car, pairs))
    return float(found[0]), float(found[1])


def with_traction(case: Case, move: Move) -> Move:
    """The move with what it does to the drive, as a reason."""
    before, after = drive_before_and_after(case, move.effect)
    if abs(after - before) < _NO_DRIVE:
        return move
    code = "costs-traction" if after < before else "keeps-traction"
    reason = Reason(code, move.end, numbers={"before": (before, "load"), "after": (after, "load"),
                                             "near": (exit_acceleration(case), G)})
    return replace(move, reasons=(*move.reasons, reason))


def drive_after(case: Case, move: Move) -> float:
    return drive_before_and_after(case, move.effect)[1]


def limiting_end(case: Case) -> str:
    """The driven end that has no more drive to give first, each end with its share."""
    shares, near = drive_shares(case.car), exit_acceleration(case)
    return min(
        driven_ends(case.car), key=lambda end: float(end_drive(case.car, end, near).drive) / shares[end]
    )


def traction_reasons(case: Case) -> list[Reason]:
    """That the power itself makes a good part of the oversteer of a driven rear; empty where it does not."""
    if case.phase != "exit" or case.sliding != "rear" or "rear" not in driven_ends(case.car):
        return []
    before, after, limits = case.coasting, case.fitted, case.thresholds
    taken = after.gap - before.gap
    if not (after.gap > 0 and taken >= max(limits.limit_felt, limits.good_part * after.gap)):
        return []
    return [Reason("power-takes-grip", "rear", numbers={
        "driven": (after.rear.limit, G), "coasting": (before.rear.limit, G),
        "before": (before.rear_and_front, GAP), "after": (after.rear_and_front, GAP)})]


def drive_reasons(case: Case) -> list[Reason]:
    """What the inside driven wheel can do on the way out, and what the model leaves out there."""
    return [_inside_wheel(case), Reason("fore-and-aft")]


def _inside_wheel(case):
    near, end = exit_acceleration(case), limiting_end(case)
    if bool(settled_corner(case.car, near).axle(end).lifted):
        return Reason("inside-driven-wheel-up", end, numbers={"near": (near, G)})
    begins, most = (float(drive(case.car, near)) for drive in (open_differential_drive, drive_limit))
    numbers = {"near": (near, G), "most": (most, "load")}
    if begins < _NO_DRIVE:
        return Reason("inside-driven-wheel-spent", end, numbers=numbers)
    return Reason("open-differential", end, numbers={**numbers, "begins": (begins, "load"),
                                               "part": (near / case.fitted.limit, "share")})
