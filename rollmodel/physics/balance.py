"""Which end gives up first: slip angles, understeer gradient, and the limit of each end."""

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.corner import rollover_acceleration, settled_corner
from rollmodel.physics.driven import largest_beside_drive, slip_beside_drive
from rollmodel.physics.pair import axle_arguments, largest_axle_force, slip_for_force
from rollmodel.physics.roots import find_root
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.physics.tyre import cornering_stiffness

ENDS = ("front", "rear")
OTHER = {"front": "rear", "rear": "front"}
_STEP = 1e-3 * GRAVITY  # for slopes, m/s^2
_HIGHEST = 8 * GRAVITY  # limits are looked for up to here, m/s^2


def drive_shares(car: Car) -> dict[str, float]:
    """Part of the drive force at each end; all-wheel drive shares it as the weight lies."""
    front = {"front": 1.0, "rear": 0.0, "all": car.front_weight_share}[car.drive]
    return {"front": front, "rear": 1 - front}


def slip_angles(car: Car, lateral_acceleration, front: AxleStiffness | None = None,
                rear: AxleStiffness | None = None, driven: bool = False):
    """Front and rear slip angle in the settled corner, [rad]; nan where an end cannot hold it.

    Each axle supplies its own mass share times the lateral acceleration. ``driven`` adds the
    force that holds the speed, ``sum(Fy_i sin(slip_i))``, at the driven end by friction ellipse.
    """
    return _slips(car, settled_corner(car, lateral_acceleration, front, rear), driven)


def _slips(car: Car, corner, driven):
    loads = {end: axle_arguments(car.axle(end), corner.axle(end)) for end in ENDS}
    need = {end: car.axle_mass(end) * corner.lateral_acceleration for end in ENDS}
    both = (np.stack(pair) for pair in zip(*loads.values(), strict=True))  # one search serves both ends
    slips = dict(zip(ENDS, slip_for_force(car.tyre, np.stack(list(need.values())), *both), strict=True))
    if driven:
        slips = _driven_slips(car, loads, need, slips)
    return slips["front"], slips["rear"]


def _driven_slips(car, loads, need, slips):
    """Each driven end in turn until neither moves: the other end's drag is part of its drive force."""
    shares = {end: share for end, share in drive_shares(car).items() if share}
    for _ in range(1 if len(shares) == 1 else 50):
        before, slips = slips, dict(slips)
        for end, share in shares.items():
            drag = need[OTHER[end]] * np.sin(slips[OTHER[end]])
            slips[end] = slip_beside_drive(car.tyre, share, need[end], drag, *loads[end])
        if all(np.allclose(slips[e], before[e], rtol=0, atol=1e-12, equal_nan=True) for e in ENDS):
            break
    return slips


def understeer_angle(car: Car, lateral_acceleration, front=None, rear=None, driven=False):
    """``alpha_f - alpha_r``: steer beyond ``L/R`` in the settled corner, positive understeer, [rad]."""
    slips = slip_angles(car, lateral_acceleration, front, rear, driven)
    return slips[0] - slips[1]


def understeer_angle_and_gradient(car: Car, lateral_acceleration, front=None, rear=None, driven=False):
    """Understeer angle [rad] and its slope against lateral acceleration [rad/(m/s^2)], in one solve.

    The slope is taken at constant radius (ISO 4138, SAE J670) by central difference over
    0.002 g; nan past the limit.
    """
    a = np.asarray(lateral_acceleration, dtype=float)
    rates = (0 if s is None else s.bar_wheel_rate_in_roll for s in (front, rear))
    a = np.broadcast_to(a, np.broadcast_shapes(a.shape, *(np.shape(rate) for rate in rates)))
    below, angle, above = understeer_angle(car, a + _STEP * np.arange(-1, 2).reshape(3, *[1] * a.ndim),
                                           front, rear, driven)
    return angle, (above - below) / (2 * _STEP)


def understeer_gradient(car: Car, lateral_acceleration=0.3 * GRAVITY, front=None, rear=None, driven=False):
    """Slope of the understeer angle against lateral acceleration at constant radius, [rad/(m/s^2)].

    ISO 4138, SAE J670. By central difference over 0.002 g; nan past the limit.
    """
    return understeer_angle_and_gradient(car, lateral_acceleration, front, rear, driven)[1]


def small_slip_gradient(car: Car, corner) -> np.ndarray:
    """Hand check: ``m_f / C_f - m_r / C_r`` with the stiffnesses at the loads in force, [rad/(m/s^2)].

    It counts no camber and no drive: both tyres of an axle stand upright. :func:`understeer_gradient`
    counts them, so on a car whose sheet gives camber the two differ, at small slip too.
    """
    terms = []
    for end in ENDS:
        loads = corner.axle(end)
        terms.append(car.axle_mass(end) / (cornering_stiffness(car.tyre, loads.outside)
                                           + cornering_stiffness(car.tyre, loads.inside)))
    return terms[0] - terms[1]


@dataclass(frozen=True)
class Limits:
    """What each end can hold, [m/s^2]; nan where the car rolls over first."""

    front: np.ndarray
    rear: np.ndarray
    rollover: np.ndarray

    @property
    def lower(self):
        """The car's limit: the smaller of the two, or rolling over."""
        return np.fmin(np.fmin(self.front, self.rear), self.rollover)

    @property
    def gap(self):
        """Front limit less rear limit, [m/s^2]: below zero the front gives up first."""
        return self.front - self.rear

    @property
    def end(self):
        """"front" or "rear", whichever gives up first; "rollover" where neither does."""
        front, rear = np.nan_to_num(self.front, nan=np.inf), np.nan_to_num(self.rear, nan=np.inf)
        word = np.where(front <= rear, "front", "rear")
        return np.where(np.isinf(front) & np.isinf(rear), "rollover", word)


def spare_side_force(car: Car, end: str, lateral_acceleration, front=None, rear=None, driven=False,
                     open_differential=False):
    """What an end could still give beyond what the corner asks of it, [N]; negative past its limit."""
    corner = settled_corner(car, lateral_acceleration, front, rear)
    need = {e: car.axle_mass(e) * corner.lateral_acceleration for e in ENDS}
    loads = {e: axle_arguments(car.axle(e), corner.axle(e)) for e in ENDS}
    if driven and drive_shares(car)[end]:
        return _spare_beside_drive(car, end, need, loads, open_differential)
    return largest_axle_force(car.tyre, *loads[end])[0] - need[end]


def _spare_beside_drive(car, end, need, loads, alike):
    """The same at a driven end; an other end past its own limit is taken to work at its peak."""
    shares, other = drive_shares(car), OTHER[end]
    at = {e: largest_axle_force(car.tyre, *loads[e])[1] for e in ENDS}
    drag = need[end] * np.sin(at[end])
    slip = slip_beside_drive(car.tyre, shares[other], need[other], drag, *loads[other],
                             open_differential=alike)
    drag = need[other] * np.sin(np.where(np.isnan(slip), at[other], slip))
    return largest_beside_drive(car.tyre, shares[end], need[end], drag, *loads[end],
                                open_differential=alike)[0] - need[end]


def limits(car: Car, front: AxleStiffness | None = None, rear: AxleStiffness | None = None,
           driven: bool = False, open_differential: bool = False) -> Limits:
    """Lateral acceleration at which each end has no more to give, and at which the car rolls over.

    Parameters
    ----------
    car : Car
    front, rear : AxleStiffness, optional
        Other setups; arrays broadcast. Shapes as returned.
    driven : bool
        Add the force that holds the speed.
    open_differential : bool
        With ``driven``: both wheels of a driven end push alike, as an open differential has it, and the end
        holds no more from where the inside one spins. Else each tyre pushes as its grip allows, which asks
        the least of an end.

    Notes
    -----
    Friction ellipse (common practice). Left out: drag of the air and of rolling, load transfer fore and aft,
    the yaw moment of unequal pushes.
    """
    front, rear = front or axle_stiffness(car.front), rear or axle_stiffness(car.rear)
    over = rollover_acceleration(car, front, rear)
    return Limits(*_limits_of_both_ends(car, front, rear, driven, open_differential, over), over)


def _limits_of_both_ends(car, front, rear, driven, alike, over):
    """Roots of the spare side force below rolling over, nan where there is none; front first.

    The bar rates travel with them as arguments, one per setup. Beyond rolling over there is no roll
    angle and so no lean of the wheels: the search must not look there.
    """
    rates = [np.broadcast_to(s.bar_wheel_rate_in_roll, np.shape(over)).astype(float) for s in (front, rear)]
    is_front = np.reshape([True, False], (2, *[1] * np.ndim(over)))

    def spare(a, front_rate, rear_rate, is_front):
        setup = _with_bar(front, front_rate), _with_bar(rear, rear_rate)
        if driven:
            return np.where(is_front, *(spare_side_force(car, end, a, *setup, driven, alike) for end in ENDS))
        return _spare_of_either(car, is_front, settled_corner(car, a, *setup))

    top = np.stack(2 * [np.minimum(over * (1 - 1e-9), _HIGHEST)])
    found = find_root(spare, (np.zeros_like(top), top), args=(*rates, is_front),
                      tolerances={"xatol": 1e-10, "xrtol": 1e-11})
    return np.where(found.success, found.x, np.nan)


def _spare_of_either(car, is_front, corner):
    """Spare side force without drive, of the front where asked and of the rear elsewhere, [N]."""
    front, rear = (axle_arguments(car.axle(end), corner.axle(end)) for end in ENDS)
    loads = [np.where(is_front, *both) for both in zip(front, rear, strict=True)]
    mass = np.where(is_front, *(car.axle_mass(end) for end in ENDS))
    return largest_axle_force(car.tyre, *loads)[0] - mass * corner.lateral_acceleration


def _with_bar(stiff: AxleStiffness, rate) -> AxleStiffness:
    return replace(stiff, bar_wheel_rate_in_roll=rate)
