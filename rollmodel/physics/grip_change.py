"""What a change of setup does to the most side force of one axle, by its two causes."""

from dataclasses import dataclass, replace

from rollmodel.car import Car
from rollmodel.physics.balance import spare_side_force
from rollmodel.physics.stiffness import AxleStiffness

Setup = tuple[AxleStiffness, AxleStiffness]


@dataclass(frozen=True)
class GripChange:
    """Side force that an axle gains or loses by a change, [N]."""

    by_load: float  # its two tyres share their load more or less evenly
    by_lean: float  # its tyres lean more or less outward

    @property
    def whole(self) -> float:
        """Both together, [N]."""
        return self.by_load + self.by_lean


def axle_grip(car: Car, end: str, lateral_acceleration: float, setup: Setup) -> float:
    """The most side force of one axle with the loads and lean of a settled corner, [N].

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float
        At which loads and roll are taken, [m/s^2].
    setup : pair of AxleStiffness
        Front and rear.
    """
    spare = spare_side_force(car, end, lateral_acceleration, *setup)
    return float(spare + car.axle_mass(end) * lateral_acceleration)


def grip_change(car: Car, end: str, lateral_acceleration: float, before: Setup, after: Setup) -> GripChange:
    """How a change of setup moves the most side force of one axle.

    ``by_load`` is the change on the same car with all wheels upright; ``by_lean`` is what camber adds to it.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float
        At which loads and roll are taken, [m/s^2].
    before, after : pair of AxleStiffness
        Front and rear.

    Notes
    -----
    Derived here. Each is the largest sum of both tyres at one slip angle, so the parts need not agree to the
    last newton with the sum of two peaks.

    Examples
    --------
    >>> from rollmodel.car import Axle, Tyre
    >>> from rollmodel.physics.stiffness import axle_stiffness_for
    >>> end = Axle(track=1.5, unsprung_mass=90.0, unsprung_cg_height=0.3, roll_centre_height=0.05,
    ...            spring_rate=60e3, spring_motion_ratio=0.7, camber_recovery=0.5)
    >>> car = Car("example", "rear", 1300.0, 0.5, 2.5, 0.48, Tyre(), end, end)
    >>> soft, stiff = (axle_stiffness_for(end, rate) for rate in (10e3, 40e3))
    >>> change = grip_change(car, "front", 7.0, (soft, soft), (stiff, soft))
    >>> print(round(change.by_load), round(change.by_lean), round(change.whole))
    -48 33 -15
    """
    def moved(one: Car) -> float:
        return (axle_grip(one, end, lateral_acceleration, after)
                - axle_grip(one, end, lateral_acceleration, before))

    by_load = moved(_upright(car))
    return GripChange(by_load, moved(car) - by_load)


def _upright(car: Car) -> Car:
    """The same car with camber not counted."""
    ends = (replace(axle, camber=None, camber_recovery=None) for axle in (car.front, car.rear))
    return replace(car, **dict(zip(("front", "rear"), ends, strict=True)))
