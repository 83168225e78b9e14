"""Corner weights: mass, front share, left share and diagonal, each with its uncertainty."""

from __future__ import annotations

from rollmodel.testday.measured import Measured, of, repeated

CORNERS = ("front_left", "front_right", "rear_left", "rear_right")

DIAGONAL_MATTERS = 0.005  # of the weight: a smaller wedge is not worth a word (our own figure)


def corners(readings: dict[str, list[float]], scale: float) -> dict:
    """Each corner's mean with its uncertainty, [kg].

    Parameters
    ----------
    readings : dict of str to list of float
        Repeated readings of each corner, by `CORNERS`, [kg].
    scale : float
        What each pad is right to, plus or minus, [kg].
    """
    return {
        corner: repeated(readings[corner], scale, f"{corner.replace('_', ' ')} pad") for corner in CORNERS
    }


def from_corners(pads: dict) -> list[Measured]:
    """Mass, front share, left share and diagonal of a car on four pads.

    ``m = sum``; front share ``(FL + FR) / m``; left ``(FL + RL) / m``; diagonal ``(FL + RR) / m``.

    Parameters
    ----------
    pads : dict
        From `corners`.

    Notes
    -----
    The pads' errors are taken as independent. Level floor, wheels straight, brakes off, the car rolled
    to and fro and settled before each weighing. A diagonal away from what the two shares alone would
    give shows a preloaded bar or uneven springs: see the length of the links before anything else.
    """
    total = sum(pads.values())
    front, left = pads["front_left"] + pads["front_right"], pads["front_left"] + pads["rear_left"]
    diagonal = pads["front_left"] + pads["rear_right"]
    how = "four pads, readings repeated"
    return [
        of(total, "mass", "mass of the car as weighed", "mass", how),
        of(front / total, "front_weight_share", "front share of the weight", "share", how),
        of(left / total, "left share", "left share of the weight", "share"),
        of(
            diagonal / total,
            "diagonal share",
            "front left and rear right together",
            "share",
            notes=_diagonal_notes(front / total, left / total, diagonal / total),
        ),
    ]


def _diagonal_notes(front, left, diagonal) -> list[str]:
    """Whether the diagonal is what the shares alone explain: ``f l + (1 - f)(1 - l)``."""
    expected = front * left + (1 - front) * (1 - left)
    off = diagonal - expected
    if abs(off.nominal_value) <= max(2 * off.std_dev, DIAGONAL_MATTERS):
        return []
    heavy = "front left and rear right" if off.nominal_value > 0 else "front right and rear left"
    points = f"{100 * abs(off.nominal_value):.1f} points"
    return [
        f"The car stands {points} heavier on {heavy} than its shares explain: a preloaded bar, uneven "
        "springs or a floor that is not level."
    ]
