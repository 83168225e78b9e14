"""Lateral acceleration against time: it rises, holds and is let go."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from rollmodel.car import CarError
from rollmodel.checked import is_finite

SHAPES = ("smooth", "linear")


@dataclass(frozen=True)
class BuildUp:
    """A corner as the car feels it: lateral acceleration that rises, holds and goes.

    Parameters
    ----------
    peak : float
        Lateral acceleration while it holds, above zero, [m/s^2].
    rise_time : float
        From nothing to the peak, zero or more; 0 is a step, [s].
    hold_time : float
        At the peak, above zero, [s].
    release_time : float
        From the peak to nothing, zero or more, [s].
    settle_time : float, optional
        Straight ahead afterwards, zero or more, [s].
    shape : {"smooth", "linear"}, optional
        How it rises and goes: half a cosine, or a straight line.

    Raises
    ------
    CarError
        One message for each value that cannot be used.

    Notes
    -----
    Derived here. This is what the car feels, not what the driver steers: tyres and yaw come between
    the two and make it later and slower than the steering wheel.

    Examples
    --------
    >>> BuildUp(6.0, rise_time=0.4, hold_time=1.0, release_time=0.4).at([0.0, 0.2, 0.9, 1.6])
    array([0., 3., 6., 3.])
    """

    peak: float
    rise_time: float
    hold_time: float
    release_time: float
    settle_time: float = 1.0
    shape: str = "smooth"

    def __post_init__(self):
        faults = [f"{name}: wanted a finite number above zero, given {getattr(self, name)!r}"
                  for name in ("peak", "hold_time")
                  if not (is_finite(getattr(self, name)) and getattr(self, name) > 0)]
        faults += [f"{name}: wanted zero or more seconds, given {getattr(self, name)!r}"
                   for name in ("rise_time", "release_time", "settle_time")
                   if not (is_finite(getattr(self, name)) and getattr(self, name) >= 0)]
        if self.shape not in SHAPES:
            faults.append(f"shape: wanted one of {', '.join(map(repr, SHAPES))}, given {self.shape!r}")
        if faults:
            raise CarError(faults)

    @property
    def release_starts(self) -> float:
        """When the corner is let go, [s]."""
        return self.rise_time + self.hold_time

    @property
    def release_ends(self) -> float:
        """When the car runs straight again, [s]."""
        return self.release_starts + self.release_time

    @property
    def ends(self) -> float:
        """When the record ends, [s]."""
        return self.release_ends + self.settle_time

    @property
    def pieces(self) -> list[tuple[float, float]]:
        """Start and end of each smooth piece that takes any time, [s]."""
        corners = (0.0, self.rise_time, self.release_starts, self.release_ends, self.ends)
        return [(start, end) for start, end in pairwise(corners) if end > start]

    def at(self, time):
        """Lateral acceleration at an instant; at a jump, the value after it.

        Parameters
        ----------
        time : float or array
            Since the corner began, [s].

        Returns
        -------
        float or array
            [m/s^2].
        """
        time = np.asarray(time, dtype=float)
        level = np.minimum(_climb(time, self.rise_time),
                           1 - _climb(time - self.release_starts, self.release_time))
        return self.peak * (level if self.shape == "linear" else (1 - np.cos(np.pi * level)) / 2)


def _climb(time, duration):
    """From 0 to 1 over a duration, at once when there is none."""
    return np.minimum(np.maximum(time / duration, 0), 1) if duration > 0 else np.where(time >= 0, 1.0, 0.0)
