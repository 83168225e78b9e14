"""What the top of a curve of grip against roll stiffness is, and whether the bar can bring the axle there."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.car import Car
from rollmodel.physics.regimes import corner_at_roll_stiffness
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.units import show

ENDS = ("front", "rear")
_BESIDE = 0.01  # of the stiffness at the top: so far below and above it the wheels are looked at


@dataclass(frozen=True)
class KindOfTop:
    """A top, and the axle's roll stiffness with springs alone and at each end of its bar's holes."""

    lifting: tuple[str, ...]  # ends whose inside wheel is up on one side of the top and down on the other
    springs: float  # no bar, N*m/rad
    holes: tuple[float, float] | None  # softest and stiffest, N*m/rad; None without a bar


def of_top(car: Car, end: str, lateral_acceleration: float, top: float) -> KindOfTop:
    """Wheels just below and above the top, and what the bar can reach.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
        Whose roll stiffness is varied.
    lateral_acceleration : float
        At which loads are taken, [m/s^2].
    top : float
        Roll stiffness of the axle with the most grip, [N*m/rad].
    """
    beside = top * np.array([1 - _BESIDE, 1 + _BESIDE])
    corner = corner_at_roll_stiffness(car, end, lateral_acceleration, beside)
    lifting = tuple(each for each in ENDS if np.ptp(corner.axle(each).lifted.astype(int)))
    axle = car.axle(end)
    bare = float(replace(axle_stiffness(axle), bar_wheel_rate_in_roll=0.0).total_roll)
    holes = axle.bar and tuple(float(axle_stiffness(axle, hole).total_roll) for hole in (1, axle.positions))
    return KindOfTop(lifting, bare, holes)


def describe(kind: KindOfTop, top: float, family: str = "metric") -> str:
    """What it is and who gets there, to follow the number of the top."""
    what = (
        f"a kink, where the inside {' and '.join(kind.lifting)} wheel leaves the ground"
        if kind.lifting
        else "a smooth top, lean against uneven load"
    )
    return f"{what}; {_reached(kind, top, family)}"


def _reached(kind, top, family):
    def stiff(value):
        return show(value, "roll stiffness", family)

    if top < kind.springs:
        return f"no bar reaches it, for the springs alone give {stiff(kind.springs)}"
    if kind.holes is None:
        return f"with no bar the axle stays at {stiff(kind.springs)}"
    if top < kind.holes[0]:
        return f"softer than the bar's softest place, {stiff(kind.holes[0])}"
    if top > kind.holes[1]:
        return f"stiffer than the bar's stiffest place, {stiff(kind.holes[1])}"
    return f"within the bar's places, {stiff(kind.holes[0])} to {stiff(kind.holes[1])}"
