"""Four wheels on uneven ground: what a bar costs in wheel load when the axles are twisted apart.

The car stands, or crosses slowly. With four contacts the loads can change in one way only, from one
diagonal to the other (and a little sideways where the body leans), so one twist decides them all.
"""

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.car import Car
from rollmodel.physics.roll import chassis_compliance, roll_moments_per_acceleration, solve_roll
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness

ENDS = ("front", "rear")


def torsion_in_series(front_roll, rear_roll, compliance=0.0):
    """Twisting stiffness of the whole car between its axles: ``1/(1/K_f + 1/K_r + c)``, [N*m/rad].

    Parameters
    ----------
    front_roll, rear_roll : float or array
        Roll stiffness of each axle with its tyres in series, [N*m/rad].
    compliance : float, optional
        Of the chassis, 0 for rigid, [rad/(N*m)].

    Returns
    -------
    float or array
        Moment per angle between the ground under the front and under the rear axle, [N*m/rad].

    Notes
    -----
    Derived here: the same moment runs through both axles and the chassis, so their twists add.
    Gravity's share is left out; it is counted in :func:`wheel_loads_on_ground`.

    Examples
    --------
    >>> round(torsion_in_series(60e3, 40e3))
    24000
    """
    return 1 / (1 / np.asarray(front_roll) + 1 / np.asarray(rear_roll) + compliance)


@dataclass(frozen=True)
class FourLoads:
    """Load on each wheel, never below zero, [N]; arrays broadcast over setups and heights."""

    front_left: np.ndarray
    front_right: np.ndarray
    rear_left: np.ndarray
    rear_right: np.ndarray

    @property
    def by_wheel(self):
        """The four loads by name, [N]."""
        return {"front left": self.front_left, "front right": self.front_right,
                "rear left": self.rear_left, "rear right": self.rear_right}

    @property
    def lifted(self):
        """Bool for each wheel: whether it has no load left and hangs."""
        nothing = 1e-9 * sum(self.by_wheel.values())  # rounding of the whole weight
        return {wheel: load <= nothing for wheel, load in self.by_wheel.items()}

    @property
    def diagonal(self):
        """Load on the front left and rear right wheels together, [N]."""
        return self.front_left + self.rear_right

    @property
    def diagonal_share(self):
        """Part of the whole weight on the front left and rear right wheels, [-]; half when even."""
        return self.diagonal / (self.diagonal + self.front_right + self.rear_left)


def wheel_loads_on_ground(car: Car, front_left=0.0, front_right=0.0, rear_left=0.0, rear_right=0.0,
                          front: AxleStiffness | None = None, rear: AxleStiffness | None = None) -> FourLoads:
    """Wheel loads of the standing car with the ground at each wheel raised by a height.

    At axle i, whose ground leans by ``theta_i = (left - right) / t_i``:
    ``dF_i = K_i (theta_i - phi_i) / t_i``, with the body's roll angles from
    :func:`rollmodel.physics.roll.solve_roll`, gravity's share and chassis torsion included.

    Parameters
    ----------
    car : Car
        The same on its left and right.
    front_left, front_right, rear_left, rear_right : float or array
        Height of the ground under each wheel, up positive, [m].
    front, rear : AxleStiffness, optional
        Other setups than the car's own.

    Returns
    -------
    FourLoads
        nan where the car would not stand on the wheels that are left.

    Notes
    -----
    Derived here. Raising one wheel changes the same diagonal as raising the one opposite: axle
    totals stay, by statics. A wheel that has lost all its load hangs, and the rest are those of a
    car on three wheels. It stops being true for quick bumps (masses and dampers are left out),
    for heights that change the track or load a bump stop, and for a body tilted so far that its
    weight moves fore and aft.

    Examples
    --------
    >>> from rollmodel.car import Axle, Car, Tyre
    >>> end = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...            spring_rate=60e3, spring_motion_ratio=0.7)
    >>> car = Car("example", "rear", 1250.0, 0.5, 2.5, 0.48, Tyre(), end, end)
    >>> loads = wheel_loads_on_ground(car, front_left=0.02)
    >>> [round(float(load)) for load in loads.by_wheel.values()]
    [3201, 2928, 2907, 3222]
    """
    stiff = (front or axle_stiffness(car.front), rear or axle_stiffness(car.rear))
    angles = ((np.asarray(front_left) - front_right) / car.front.track,
              (np.asarray(rear_left) - rear_right) / car.rear.track)
    return loads_from_axle_angles(car, angles, stiff)


def loads_from_axle_angles(car: Car, angles, stiff) -> FourLoads:
    """Wheel loads of the standing car from the angle that the ground, or a bar, puts at each axle.

    Parameters
    ----------
    car : Car
    angles : pair of float or array
        Front and rear, raising the left wheel positive, [rad].
    stiff : pair of AxleStiffness

    Returns
    -------
    FourLoads
        nan where the car would not stand on the wheels that are left.

    Notes
    -----
    Derived here; the limits are those of :func:`wheel_loads_on_ground`.
    """
    free = _axle_moments(car, angles, [s.total_roll for s in stiff], (0.0, 0.0))
    caps = [car.axle(end).track * car.axle_weight(end) / 2 for end in ENDS]
    used = [np.abs(moment) / cap for moment, cap in zip(free, caps, strict=True)]
    first = (used[0] > 1) & (used[0] >= used[1]), (used[1] > 1) & (used[1] > used[0])
    moments = free
    for i, up in enumerate(first):
        held = [caps[i] * np.sign(free[i]) * (i == j) for j in (0, 1)]
        rates = [s.total_roll * (i != j) for j, s in enumerate(stiff)]
        moments = np.where(up, _axle_moments(car, angles, rates, held), moments)
    stands = [np.abs(moment) <= cap * (1 + 1e-12) for moment, cap in zip(moments, caps, strict=True)]
    return _four_loads(car, *np.where(stands[0] & stands[1], moments, np.nan))


def _axle_moments(car: Car, angles, rates, held):
    """Moment of each axle on the body: its rate times its twist, or a moment held by a lifted wheel."""
    pushed = [rate * angle + moment for rate, angle, moment in zip(rates, angles, held, strict=True)]
    roll = solve_roll(roll_moments_per_acceleration(car), rates, pushed, chassis_compliance(car))
    found = [push - rate * phi for push, rate, phi in zip(pushed, rates, roll, strict=True)]
    return np.stack(np.broadcast_arrays(*found))


def _four_loads(car: Car, front_moment, rear_moment) -> FourLoads:
    loads = []
    for end, moment in zip(ENDS, (front_moment, rear_moment), strict=True):
        half, change = car.axle_weight(end) / 2, moment / car.axle(end).track
        loads += [np.maximum(half + change, 0.0), np.maximum(half - change, 0.0)]
    return FourLoads(*loads)


@dataclass(frozen=True)
class WarpCost:
    """Load that a wheel gains or loses per metre of warp, both ways, [N/m].

    Warp is the height by which the left wheel stands above the right one at the front while it
    stands as far below it at the rear. Front left and rear right gain, the other two lose.
    """

    front: np.ndarray
    rear: np.ndarray
    front_without_bars: np.ndarray
    rear_without_bars: np.ndarray
    first_lift: np.ndarray  # warp at which the first wheel hangs, m

    @property
    def diagonal(self):
        """What one diagonal gains and the other loses, [N/m]."""
        return self.front + self.rear

    @property
    def diagonal_without_bars(self):
        """The same with both bars unhooked, [N/m]."""
        return self.front_without_bars + self.rear_without_bars

    @property
    def times_as_much(self):
        """Load change with the bars over load change without, [-]: the price of the bars."""
        return self.diagonal / self.diagonal_without_bars


def without_bar(stiff: AxleStiffness) -> AxleStiffness:
    """The same axle with its bar unhooked.

    Parameters
    ----------
    stiff : AxleStiffness

    Returns
    -------
    AxleStiffness
    """
    return replace(stiff, bar_wheel_rate_in_roll=0.0 * np.asarray(stiff.bar_wheel_rate_in_roll))


def warp_cost(car: Car, front: AxleStiffness | None = None, rear: AxleStiffness | None = None) -> WarpCost:
    """What the bars cost on a cross-axle bump: load change per metre of warp, with and without them.

    Parameters
    ----------
    car : Car
    front, rear : AxleStiffness, optional
        Other setups than the car's own; arrays broadcast.

    Returns
    -------
    WarpCost

    Notes
    -----
    With roll centres at the height of the sprung centre of gravity this is
    ``dF_i = K_warp (1/t_f + 1/t_r) / t_i`` with :func:`torsion_in_series`. Limits as in
    :func:`wheel_loads_on_ground`.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> car = Car("example", "rear", 1250.0, 0.52, 2.5, 0.48, Tyre(), axle, axle)
    >>> cost = warp_cost(car)
    >>> print(round(cost.diagonal / 1000, 1), "N per mm,", round(cost.times_as_much, 2), "times")
    48.9 N per mm, 1.88 times
    """
    front, rear = front or axle_stiffness(car.front), rear or axle_stiffness(car.rear)
    with_bars = _per_metre(car, front, rear)
    without = _per_metre(car, without_bar(front), without_bar(rear))
    lifts = [car.axle_weight(end) / 2 / np.abs(rate) for end, rate in zip(ENDS, with_bars, strict=True)]
    return WarpCost(*with_bars, *without, np.minimum(*lifts))


def _per_metre(car: Car, front, rear):
    """Front left's and rear right's gain per metre of warp, all four wheels on the ground, [N/m]."""
    angles = (1 / car.front.track, -1 / car.rear.track)
    moments = _axle_moments(car, angles, [front.total_roll, rear.total_roll], (0.0, 0.0))
    return moments[0] / car.front.track, -moments[1] / car.rear.track
