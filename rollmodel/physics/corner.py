"""The settled corner: roll angle, load transfer by path at each end, wheels off the ground.

Each axle is in one of up to five states: free, on a bump stop or with a wheel lifted, the last two to
either side. Within a state the moment through springs and bar is a straight line in the roll angle,
so each pair of states has a closed solution; the one that agrees with itself is the answer.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np

from rollmodel.car import GRAVITY, Car, CarError
from rollmodel.physics.roll import (
    at_centre_of_gravity,
    chassis_compliance,
    roll_moments_per_acceleration,
    solve_roll,
)
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness

_SLACK = 1e-9  # relative; states meet at their borders, so rounding decides nothing


@dataclass(frozen=True)
class AxleLoads:
    """One axle in the corner. Loads in N, per wheel; transfer: the outside wheel's gain."""

    load_transfer: np.ndarray
    elastic: np.ndarray  # through springs, bar and bump stop
    geometric: np.ndarray  # through the links, by way of the roll centre
    unsprung: np.ndarray
    inside: np.ndarray
    outside: np.ndarray
    lifted: np.ndarray  # bool, the inside wheel
    on_stop: np.ndarray  # bool, also beside a lifted wheel: the outside wheel on its bump stop, or the
    # inside one where the body leans inward
    roll_angle: np.ndarray  # of the body at this axle, rad
    track: float

    @property
    def outside_lifted(self):
        """Whether the outside wheel is up: a body that leans inward can do that, bool."""
        return self.outside <= 0

    @property
    def leans_inward(self):
        """Whether springs and bar carry load to the inside wheel, bool."""
        return self.elastic < 0

    @property
    def roll_moment(self):
        """``t dF``, what this axle carries of the whole overturning moment, [N*m]."""
        return self.track * self.load_transfer


@dataclass(frozen=True)
class SettledCorner:
    """Every field broadcasts over lateral acceleration and setups."""

    lateral_acceleration: np.ndarray  # m/s^2
    roll_angle: np.ndarray  # of the body at its centre of gravity, rad; nan where it rolls over
    front: AxleLoads
    rear: AxleLoads
    rolls_over: np.ndarray  # bool; the loads are then those at the point of rolling over

    def axle(self, end: str) -> AxleLoads:
        return {"front": self.front, "rear": self.rear}[end]

    @property
    def front_share(self):
        """Front share of the overturning moment: ``t_f dF_f / sum(t dF)``, [-]; nan at rest."""
        with np.errstate(invalid="ignore"):
            return self.front.roll_moment / (self.front.roll_moment + self.rear.roll_moment)


def geometric_transfer(car: Car, end: str, lateral_acceleration):
    """Load transfer through the links: ``m_s,i a_y z_i / t_i``, [N]."""
    axle = car.axle(end)
    return car.sprung_mass_at(end) * lateral_acceleration * axle.roll_centre_height / axle.track


def unsprung_transfer(car: Car, end: str, lateral_acceleration):
    """Load transfer of the axle's own unsprung mass: ``m_u,i a_y h_u,i / t_i``, [N]."""
    axle = car.axle(end)
    return axle.unsprung_mass * lateral_acceleration * axle.unsprung_cg_height / axle.track


def elastic_caps(car: Car, end: str, lateral_acceleration):
    """The moments through springs and bar at which the outside and the inside wheel lift, [N*m].

    The first is reached only by a body that leans inward, or in a corner the other way.
    """
    other = (geometric_transfer(car, end, lateral_acceleration)
             + unsprung_transfer(car, end, lateral_acceleration))
    half = car.axle_weight(end) / 2
    return car.axle(end).track * (-half - other), car.axle(end).track * (half - other)


def _states(stiff: AxleStiffness, caps, both_ways):
    """(lifted, slope, offset) of the elastic moment in each state, ``slope * phi + offset``.

    Few bodies lean inward; then the two states of that side come last.
    """
    free, stop = stiff.total_roll, stiff.total_roll_on_stop
    yield False, free, 0.0
    for side, cap in ((1, caps[1]), (-1, caps[0]))[:1 + both_ways]:
        if np.any(np.isfinite(stiff.stop_angle)):
            yield False, stop, side * (free - stop) * stiff.stop_angle
        yield True, 0.0, cap


def _elastic_moment(stiff: AxleStiffness, caps, roll):
    """The whole curve: free, steeper on a bump stop, level once a wheel is up, [N*m]."""
    moment = stiff.total_roll * roll
    if np.any(np.isfinite(stiff.stop_angle)):
        beyond = np.maximum(np.abs(roll) - stiff.stop_angle, 0)
        moment = moment + np.copysign((stiff.total_roll_on_stop - stiff.total_roll) * beyond, roll)
    return np.clip(moment, *caps)


def _agrees(state, stiff: AxleStiffness, caps, roll):
    """Whether a roll angle lies where that state holds: there its line is the curve."""
    slack = _SLACK * (np.abs(caps).max(axis=0) + np.abs(stiff.total_roll * roll))
    return np.abs(_elastic_moment(stiff, caps, roll) - (state[1] * roll + state[2])) <= slack


def settled_corner(car: Car, lateral_acceleration, front: AxleStiffness | None = None,
                   rear: AxleStiffness | None = None) -> SettledCorner:
    """Roll, load transfer and wheel loads of the car in a settled corner.

    ``dF_i = (K_i phi_i + m_s,i a_y z_i + m_u,i a_y h_u,i) / t_i``, at most ``W_i / 2``; from there
    the other end takes all further roll moment. The whole balances:
    ``sum(t_i dF_i) = m a_y h + g sum(m_s,i (h_s - z_i) phi_i)``.

    Parameters
    ----------
    car : Car
    lateral_acceleration : float or array
        Below zero the corner the other way: "outside" is then the wheel on its inside, [m/s^2].
    front, rear : AxleStiffness, optional
        Other setups than the car's own; their bar rates may be arrays.

    Raises
    ------
    CarError
        When a lateral acceleration is not finite.

    Notes
    -----
    Left out: jacking and roll-centre movement with travel, steer and compliance effects,
    aerodynamic load, longitudinal load transfer. Derived here; the rigid form is in most chassis
    texts, for example Barton & Fieldhouse, Automotive Chassis Engineering (2018), ch. 5.
    """
    stiff = {"front": front or axle_stiffness(car.front), "rear": rear or axle_stiffness(car.rear)}
    a = np.asarray(lateral_acceleration, dtype=float)
    if not np.isfinite(a).all():
        raise CarError(f"lateral_acceleration: wanted finite numbers, given {lateral_acceleration!r}")
    shape = np.broadcast_shapes(a.shape, *(np.shape(s.bar_wheel_rate_in_roll) for s in stiff.values()))
    moments, compliance = roll_moments_per_acceleration(car), chassis_compliance(car)
    caps = {end: elastic_caps(car, end, a) for end in stiff}
    both_ways = min(moments) < 0 or np.any(a < 0)
    roll = {end: np.full(shape, np.nan) for end in stiff}
    elastic = {end: np.broadcast_to(np.where(a < 0, *caps[end]), shape).copy() for end in stiff}
    lifted = {end: np.ones(shape, bool) for end in stiff}
    open_cases = np.ones(shape, bool)
    pairs = product(*(list(_states(stiff[end], caps[end], both_ways)) for end in ("front", "rear")))
    for one, two in pairs:
        if (one[0] and two[0]) or not open_cases.any():
            continue
        applied = (a * moments[0] - one[2], a * moments[1] - two[2])
        angles = solve_roll(moments, (one[1], two[1]), applied, compliance)
        with np.errstate(invalid="ignore"):
            good = open_cases & np.isfinite(angles[0])
            for end, state, angle in zip(stiff, (one, two), angles, strict=True):
                good &= _agrees(state, stiff[end], caps[end], angle)
        for end, state, angle in zip(stiff, (one, two), angles, strict=True):
            roll[end] = np.where(good, angle, roll[end])
            elastic[end] = np.where(good, state[1] * angle + state[2], elastic[end])
            lifted[end] &= state[0] | ~good
        open_cases = open_cases & ~good
    loads = {end: _axle_loads(car, end, a, stiff[end], elastic[end], roll[end], lifted[end]) for end in stiff}
    return SettledCorner(np.broadcast_to(a, shape), at_centre_of_gravity(car, roll["front"], roll["rear"]),
                         loads["front"], loads["rear"], open_cases)


def _axle_loads(car: Car, end, a, stiff: AxleStiffness, elastic, roll, one_up) -> AxleLoads:
    axle, half = car.axle(end), car.axle_weight(end) / 2
    geometric = np.broadcast_to(geometric_transfer(car, end, a), elastic.shape)
    unsprung = np.broadcast_to(unsprung_transfer(car, end, a), elastic.shape)
    transfer = elastic / axle.track + geometric + unsprung
    transfer = np.where(one_up, np.copysign(half, transfer), transfer)
    on_stop = np.abs(elastic) >= stiff.stop_moment * (1 - _SLACK)
    return AxleLoads(transfer, elastic / axle.track, geometric, unsprung, np.maximum(half - transfer, 0.0),
                     np.maximum(half + transfer, 0.0), one_up & (transfer > 0), on_stop, roll, axle.track)


def highest_before(predicate, shape, top=20 * GRAVITY):
    """The value up to which a condition on lateral acceleration holds, [m/s^2].

    ``predicate`` maps an array of lateral accelerations to bool, true below the answer, false above.
    Each step asks at several places at once (fewer for many setups, to spare memory) and so cuts
    the bracket into as many parts; 64 halvings' worth reaches the last digit of a float.
    """
    parts = 32 if np.prod(shape, dtype=int) <= 1000 else 4
    low, width = np.zeros(shape), np.full(shape, float(top))
    inner = np.arange(1, parts).reshape(-1, *[1] * len(shape))
    for _ in range(int(np.ceil(64 / np.log2(parts)))):
        width = width / parts
        low = low + width * predicate(low + width * inner).sum(axis=0)
    return low


def _setup_shape(front, rear):
    return np.broadcast_shapes(*(np.shape(s.bar_wheel_rate_in_roll) for s in (front, rear)))


def rollover_acceleration(car: Car, front: AxleStiffness | None = None, rear: AxleStiffness | None = None):
    """Lateral acceleration at which both inside wheels are up and the car rolls over, [m/s^2].

    For stiff springs this is ``g t / (2 h)``, the static stability factor.
    """
    front, rear = front or axle_stiffness(car.front), rear or axle_stiffness(car.rear)
    return highest_before(lambda a: ~settled_corner(car, a, front, rear).rolls_over,
                          _setup_shape(front, rear))


def lift_acceleration(car: Car, end: str, front: AxleStiffness | None = None,
                      rear: AxleStiffness | None = None):
    """Lateral acceleration at which the inside wheel of one end lifts, [m/s^2]."""
    front, rear = front or axle_stiffness(car.front), rear or axle_stiffness(car.rear)
    return highest_before(lambda a: ~settled_corner(car, a, front, rear).axle(end).lifted,
                          _setup_shape(front, rear))
