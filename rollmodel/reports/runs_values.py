"""What the runs say, as plain values for a program, each with its unit in the key."""

from __future__ import annotations

import math

from rollmodel.car import GRAVITY
from rollmodel.reports.runs import outlier_sentences, sentences
from rollmodel.testday.analysis import Analysis, remarks
from rollmodel.testday.compare import Difference
from rollmodel.testday.gradients import Gradient
from rollmodel.testday.runs import Setup

_PER_G = math.degrees(1) * GRAVITY


def runs_values(analysis: Analysis) -> dict:
    """The analysis as plain values; None where there is no figure."""
    return _plain(
        {
            "simulated": any(setup.simulated for setup in analysis.setups),
            "from_g": analysis.range[0] / GRAVITY,
            "to_g": analysis.range[1] / GRAVITY,
            "setups": [_setup(setup) for setup in analysis.setups],
            "gradients": {one.quantity: gradient_values(one) for one in analysis.gradients},
            "predicted_deg_per_g": {name: _PER_G * value for name, value in analysis.predicted.items()},
            "differences": {one.quantity: difference_values(one) for one in analysis.differences},
            "without_outliers": {one.quantity: _either(one) for one in analysis.without_outliers},
            "outliers": outlier_sentences(analysis),
            "suspect": [
                {"code": one.code, "text": text}
                for one, text in zip(analysis.suspicions, sentences(analysis.suspicions), strict=True)
            ],
        }
    )


def _setup(setup: Setup) -> dict:
    return {
        "name": setup.name,
        "set_aside": list(setup.set_aside),
        "notes": [*setup.notes, *remarks(setup)],
        "runs": [
            {
                "name": run.name,
                "points": run.points,
                "lateral_acceleration_g": [a / GRAVITY for a in run.lateral_acceleration],
                "steer_deg": _degrees(run.steer),
                "roll_deg": _degrees(run.roll),
            }
            for run in setup.runs
        ],
    }


def _degrees(values):
    return None if values is None else [math.degrees(value) for value in values]


def _either(one) -> dict:
    return difference_values(one) if isinstance(one, Difference) else gradient_values(one)


def gradient_values(one: Gradient) -> dict:
    """One gradient as plain values."""
    left, right = one.sides or (None, None)
    return {
        "deg_per_g": _PER_G * one.value,
        "low_deg_per_g": _PER_G * one.low,
        "high_deg_per_g": _PER_G * one.high,
        "left_deg_per_g": left and _PER_G * left,
        "right_deg_per_g": right and _PER_G * right,
        "sides_differ": one.sides_differ,
        "degrees_of_freedom": one.degrees_of_freedom,
        "from_repetitions": one.repeated,
        "runs": {run.run: _PER_G * run.slope for run in one.runs},
    }


def difference_values(one: Difference) -> dict:
    """One difference as plain values."""
    predicted = one.predicted
    return {
        "before": gradient_values(one.before),
        "after": gradient_values(one.after),
        "change_deg_per_g": _PER_G * one.value,
        "low_deg_per_g": _PER_G * one.low,
        "high_deg_per_g": _PER_G * one.high,
        "verdict": one.verdict,
        "size": one.size or None,
        "degrees_of_freedom": one.degrees_of_freedom,
        "run_scatter_deg_per_g": _PER_G * one.scatter,
        "smallest_change_seen_deg_per_g": _PER_G * one.smallest_seen,
        "predicted_change_deg_per_g": predicted and _PER_G * predicted.change,
        "predicted_uncertainty_deg_per_g": predicted and _PER_G * predicted.uncertainty,
        "runs_each_way_for_prediction": one.runs_for_prediction,
    }


def _plain(value):
    if isinstance(value, dict):
        return {name: _plain(item) for name, item in value.items()}
    if isinstance(value, list):
        return [_plain(item) for item in value]
    if value is None or isinstance(value, (str, bool, int)):
        return value
    return float(value) if math.isfinite(value) else None
