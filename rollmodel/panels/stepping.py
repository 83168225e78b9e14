"""A hole that is moved by one with buttons too, and what is said when a step leads past the last one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from rollmodel.panels.controls import Hole
from rollmodel.panels.rows import ROWS, HoleRow
from rollmodel.panels.shown import button, row


@dataclass(frozen=True)
class SteppedHole(Hole):
    """A hole with two buttons, "... one hole softer" and "... one hole stiffer".

    Parameters
    ----------
    beyond : callable
        Called with "softer" or "stiffer" when there is no such hole; returns what to say.
    """

    beyond: Callable[[str], str] = field(default=lambda direction: "", compare=False)


class SteppedHoleRow(HoleRow):
    """The slider and box of a hole, and its two buttons."""

    def _make(self):
        end = self.control.text.split()[0]
        self.steps = [
            button(
                f"{end} one {self.control.noun} {direction}",
                lambda *_, direction=direction: self.step(direction),
            )
            for direction in ("softer", "stiffer")
        ]
        return *super()._make(), row(*self.steps)

    def step(self, direction: str) -> None:
        """One hole on, or word of why not."""
        wanted = self.value + (1 if direction == "stiffer" else -1)
        if 1 <= wanted <= len(self.control.places):
            self.take(wanted)
        else:
            self.say(self.control.beyond(direction))

    def enable(self, on):
        super().enable(on)
        for one in self.steps:
            one.disabled = not on


ROWS[SteppedHole] = SteppedHoleRow
