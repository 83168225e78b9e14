"""Motion ratio by jacking a wheel in steps: part travel against wheel travel."""

from __future__ import annotations

import numpy as np
from uncertainties import ufloat

from rollmodel.testday.measured import Measured, of, straight_line

PARTS = {"spring": "spring_motion_ratio", "damper": "damper.motion_ratio", "link": "bar.link_motion_ratio"}


def motion_ratio(end: str, part: str, wheel, travel, reading: float) -> Measured:
    """Part travel over wheel travel, the slope of a straight line through the steps, [-].

    Parameters
    ----------
    end : {"front", "rear"}
    part : {"spring", "damper", "link"}
    wheel, travel : sequence of float
        Positions of the wheel and of the part at each step, from any zero, [m].
    reading : float
        What each reading is right to, plus or minus, [m].

    Returns
    -------
    Measured
        The larger of the two: from the scatter about the line, or from how well each step is read.

    Notes
    -----
    The sign is dropped: a spring that shortens as the wheel rises has a ratio above zero. Derived here:
    the uncertainty of the slope from the readings is ``u sqrt(1 + MR^2) / sqrt(sum((x - mean)^2))``.
    """
    wheel, travel = np.asarray(wheel, dtype=float), np.asarray(travel, dtype=float)
    line = straight_line(wheel, travel)
    spread = np.sqrt(np.sum((wheel - wheel.mean()) ** 2))
    read = reading / np.sqrt(3) * np.sqrt(1 + line.slope**2) / spread
    return of(
        ufloat(abs(line.slope), max(read, np.nan_to_num(line.slope_uncertainty))),
        f"{end}.{PARTS[part]}",
        f"{end} motion ratio of the {part}",
        "ratio",
        f"jacking in {len(wheel)} steps",
        _notes(wheel, travel, line),
    )


def _notes(wheel, travel, line) -> list[str]:
    notes = [f"Scatter about the straight line {1000 * line.scatter:.2f} mm."]
    if line.bends:
        order = np.argsort(wheel)
        ratios = np.abs(np.gradient(travel[order], wheel[order]))
        notes.append(
            f"The ratio is not constant: about {ratios[:2].mean():.3f} at one end of the travel and "
            f"{ratios[-2:].mean():.3f} at the other. The line gives the middle; take the steps about ride "
            "height."
        )
    return notes
