"""Every free hole at one end in the direction of the rule, and the verdict on that end."""

from functools import cached_property

from rollmodel.advice.case import Case
from rollmodel.advice.moves import LeftOut, Move, driver_alone_decides, felt, helps
from rollmodel.advice.notes import notes
from rollmodel.advice.numbers import Effect
from rollmodel.advice.objections import objection
from rollmodel.advice.reasons import Reason
from rollmodel.advice.rule import free_holes


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
                    self.effect(self.best), self.effect(self.usable[0]), tuple(notes(self)))

    @cached_property
    def left_out(self) -> LeftOut | None:
        """Why this end is not the one to change, or None."""
        reason = objection(self)
        if reason is None:
            return None
        return LeftOut(self.end, self.direction, reason, self.move if self.usable else None)

    def reason(self, code, words=None, **numbers) -> Reason:
        return Reason(code, self.end, {"direction": self.direction, **(words or {})}, numbers)
