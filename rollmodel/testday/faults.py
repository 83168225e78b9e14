"""What a test day's files are refused with."""

from __future__ import annotations

from rollmodel.sheets import SheetError


class DayError(SheetError):
    """Readings, runs or a log that cannot be used; ``faults`` holds one line for each fault."""
