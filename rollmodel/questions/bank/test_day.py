"""What the test-day part says to a question.

That part brings large libraries. They are loaded when a question on a test day is posed, so that every
other lesson and exercise opens without waiting for them.
"""

from __future__ import annotations

import math

from rollmodel.car import GRAVITY

DEG_PER_G = math.radians(1.0) / GRAVITY


def half_interval(scatter: float, each: int, freedom: int) -> float:
    """Half the interval of a difference between two means of ``each`` runs, in the unit of the scatter."""
    from rollmodel.testday import power

    return float(power.half_interval(scatter, each, freedom))


def verdict(value: float, half: float, predicted: float) -> str:
    """The verdict on a change measured to plus or minus ``half``."""
    from rollmodel.testday import compare

    return compare.verdict_on(value - half, value + half, compare.Prediction(0.0, predicted))
