"""Faults of a car sheet, each naming table and field, all reported together."""

from __future__ import annotations

from difflib import get_close_matches

MOST_SHOWN = 25


class SheetError(ValueError):
    """A car sheet that cannot be used.

    Attributes
    ----------
    faults : list of str
        One line for each fault: table, field, what was wanted, what was given, the likely mend.
    """

    def __init__(self, faults, name: str = ""):
        self.faults = [faults] if isinstance(faults, str) else list(faults)
        self.name = name
        super().__init__(self._text())

    def _text(self) -> str:
        start = f"{self.name}: " if self.name else ""
        if len(self.faults) == 1:
            return start + self.faults[0]
        lines = [f"{start}{len(self.faults)} faults", *(f"  - {fault}" for fault in self.faults[:MOST_SHOWN])]
        if len(self.faults) > MOST_SHOWN:
            lines.append(f"  and {len(self.faults) - MOST_SHOWN} more; mend these first")
        return "\n".join(lines)


def at(path: str, field: str = "") -> str:
    """Where in the sheet: ``[front.bar] wall``, or ``top of the sheet, mass``."""
    table = f"[{path}]" if path else "top of the sheet"
    if not field:
        return table
    return f"{table} {field}" if path else f"{table}, {field}"


def nearest(word: str, known) -> str | None:
    """The known name closest to a misspelt one, or None when none is close."""
    found = get_close_matches(word.lower().replace("-", "_").replace(" ", "_"), list(known), n=1, cutoff=0.6)
    return found[0] if found else None
