"""Too soft or too stiff: where more roll stiffness at one end gains that end grip, and where it loses some.

Stiffening one end does two things to that end. The body rolls less, so its tyres lean outward less and
lose less side force to camber; and the end takes more of the load transfer, so its two tyres share
their load less evenly and lose more to that. Below the crossing the first wins, above it the second.
"""

from dataclasses import dataclass, replace

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.balance import ENDS, OTHER
from rollmodel.physics.corner import SettledCorner, geometric_transfer, settled_corner, unsprung_transfer
from rollmodel.physics.pair import axle_arguments, largest_axle_force
from rollmodel.physics.roll import roll_moments_per_acceleration
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.physics.tyre import MAGIC_1987
from rollmodel.physics.tyre_2006 import straight_line_2006

_LOOKS = 201  # stiffnesses tried across a range before the top is closed in on


def at_roll_stiffness(stiff: AxleStiffness, total) -> AxleStiffness:
    """The axle with its bar made such that springs, bar and tyre together give a roll stiffness.

    ``K_bar = 1 / (1/K - 1/K_tyre) - K_springs``, below zero where the springs alone are too stiff.

    Parameters
    ----------
    stiff : AxleStiffness
    total : float or array
        Wanted, above zero and below the tyres' own roll stiffness, [N*m/rad].

    Raises
    ------
    ValueError
        When the tyres alone are softer than that.
    """
    total = np.asarray(total, dtype=float)
    if np.any(total <= 0) or np.any(total >= stiff.tyre_roll):
        raise ValueError(f"total: wanted above zero and below the tyres' own roll stiffness "
                         f"({float(stiff.tyre_roll):.0f} N*m/rad), given {total}")
    bar = 1 / (1 / total - 1 / stiff.tyre_roll) - stiff.spring_roll
    return replace(stiff, bar_wheel_rate_in_roll=2 * bar / stiff.track**2)


def corner_at_roll_stiffness(car: Car, end: str, lateral_acceleration, total) -> SettledCorner:
    """The settled corner with one axle brought to a roll stiffness by its bar, the other end left alone.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float or array
        [m/s^2].
    total : float or array
        Roll stiffness of this axle, springs, bar and tyre, [N*m/rad]; broadcasts.
    """
    stiff = {e: axle_stiffness(car.axle(e)) for e in ENDS}
    stiff[end] = at_roll_stiffness(stiff[end], total)
    return settled_corner(car, lateral_acceleration, stiff["front"], stiff["rear"])


def axle_grip_against_stiffness(car: Car, end: str, lateral_acceleration, total):
    """The most side force of one axle against its own roll stiffness, the other end left alone, [N].

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float or array
        At which loads and roll are taken, [m/s^2].
    total : float or array
        Roll stiffness of this axle, springs, bar and tyre, [N*m/rad]; broadcasts.

    Returns
    -------
    array
        The largest sum of both tyres at one slip angle, [N]; nan where the car would roll over.

    Notes
    -----
    The whole model: lift of a wheel, bump stops, gravity's share, the car's own tyre. Derived here.

    Examples
    --------
    >>> from rollmodel.car import Axle, Tyre
    >>> soft = Axle(track=1.5, unsprung_mass=90.0, unsprung_cg_height=0.3, roll_centre_height=0.05,
    ...             spring_rate=26e3, spring_motion_ratio=1.0, camber_recovery=0.7)
    >>> car = Car("example", "rear", 1300.0, 0.5, 2.5, 0.55, Tyre(), soft, soft)
    >>> print(np.round(axle_grip_against_stiffness(car, "front", 7.0, np.array([5e3, 10e3, 60e3]))))
    [5728. 5735. 5681.]
    """
    corner = corner_at_roll_stiffness(car, end, lateral_acceleration, total)
    grip = largest_axle_force(car.tyre, *axle_arguments(car.axle(end), corner.axle(end)))[0]
    return np.where(corner.rolls_over, np.nan, grip)


def crossing(car: Car, end: str, lateral_acceleration: float, low: float, high: float) -> float | None:
    """Roll stiffness of one axle at which its grip is largest, by search, [N*m/rad].

    Parameters
    ----------
    car, end
        As for `axle_grip_against_stiffness`.
    lateral_acceleration : float
        [m/s^2].
    low, high : float
        The range looked at, [N*m/rad].

    Returns
    -------
    float or None
        None where grip has no top inside the range: it rises, or falls, all the way.
    """
    bracket = _around_the_top(car, end, lateral_acceleration, low, high)
    if bracket is None:
        return None
    closer = bracket  # two hundred stiffnesses at once cost little more than one: search in ever finer steps
    while closer is not None and closer[2] - closer[0] > 1e-7 * closer[1]:
        bracket = closer
        closer = _around_the_top(car, end, lateral_acceleration, bracket[0], bracket[2])
    return (closer or bracket)[1]  # closer is none where steps are too fine for grip to tell apart


def _around_the_top(car, end, lateral_acceleration, low, high) -> tuple[float, float, float] | None:
    """Three stiffnesses of which the middle one has the most grip; None where that is at an end."""
    tries = np.linspace(low, high, _LOOKS)
    grip = axle_grip_against_stiffness(car, end, lateral_acceleration, tries)
    if np.all(np.isnan(grip)):
        return None
    best = int(np.nanargmax(grip))
    if best in (0, _LOOKS - 1) or np.isnan(grip[[best - 1, best + 1]]).any():
        return None
    return tuple(float(one) for one in tries[best - 1:best + 2])


@dataclass(frozen=True)
class HandAxle:
    """One axle as it can be worked out on paper: falling grip, side force lost in a straight line to camber.

    ``F = mu_0 W - k (W^2 / 2 + 2 dF^2) - c W kappa phi + 2 c gamma dF``, with ``dF = dF_0 + K phi / t`` and
    ``phi = M a / (K + K_other)``.

    Notes
    -----
    Derived here: grip falling in a straight line with load on each of the two tyres, side force lost to
    camber in proportion to load and lean. Small angles, rigid chassis, both wheels on the ground, the peaks
    of both tyres summed.
    """

    weight: float  # `W` on both tyres, N
    track: float  # `t`, m
    other_stiffness: float  # `K_other`, the other axle's roll stiffness, N*m/rad
    roll_moment: float  # `M a`, of the sprung mass about the roll axis, N*m
    fixed_transfer: float  # `dF_0`, through the links and of the unsprung mass, N
    peak_grip: float  # `mu_0`, at no load
    grip_drop: float  # `k`, 1/N
    camber_loss: float  # `c`, side force lost per load and lean, 1/rad
    camber_left: float  # `kappa`, the part of the roll that the linkage does not give back
    static_lean: float = 0.0  # `gamma`, of the outside wheel into the corner at rest, rad

    def roll_angle(self, stiffness):
        """``phi = M a / (K + K_other)``, [rad]."""
        return self.roll_moment / (np.asarray(stiffness) + self.other_stiffness)

    def load_transfer(self, stiffness):
        """``dF = dF_0 + K phi / t``, [N]."""
        return self.fixed_transfer + stiffness * self.roll_angle(stiffness) / self.track

    def lost_to_uneven_load(self, stiffness):
        """``2 k dF^2``, [N]."""
        return 2 * self.grip_drop * self.load_transfer(stiffness) ** 2

    def lost_to_camber(self, stiffness):
        """``c W kappa phi``: both wheels lean outward with the body, [N]."""
        return self.camber_loss * self.weight * self.camber_left * self.roll_angle(stiffness)

    def gained_from_static_camber(self, stiffness):
        """``2 c gamma dF``: the outside wheel leans the right way, the inside one the wrong way, [N]."""
        return 2 * self.camber_loss * self.static_lean * self.load_transfer(stiffness)

    def grip(self, stiffness):
        """The most side force of the axle, [N]."""
        even = self.peak_grip * self.weight - self.grip_drop * self.weight**2 / 2
        return (
            even
            - self.lost_to_uneven_load(stiffness)
            - self.lost_to_camber(stiffness)
            + self.gained_from_static_camber(stiffness)
        )

    def loss_per_transfer(self, load_transfer):
        """Side force lost for a little more load transfer, ``4 k dF - 2 c gamma``, [-]."""
        return 4 * self.grip_drop * np.asarray(load_transfer) - 2 * self.camber_loss * self.static_lean

    def slope(self, stiffness):
        """Grip gained per roll stiffness added at this end, [rad/m].

        ``phi / (K + K_other) (c W kappa - (4 k dF - 2 c gamma) K_other / t)``
        """
        gain = self.camber_loss * self.weight * self.camber_left
        loss = self.loss_per_transfer(self.load_transfer(stiffness)) * self.other_stiffness / self.track
        return self.roll_angle(stiffness) / (stiffness + self.other_stiffness) * (gain - loss)

    def other_stiffness_at_crossing(self, load_transfer):
        """The other end's roll stiffness at which stiffening this end neither gains nor loses, [N*m/rad].

        ``K_other = c W kappa t / (4 k dF - 2 c gamma)``: below it a stiffer bar at this end raises this
        end's grip, above it lowers it.
        """
        return (
            self.camber_loss
            * self.weight
            * self.camber_left
            * self.track
            / self.loss_per_transfer(load_transfer)
        )

    @property
    def transfer_at_top(self) -> float:
        """The load transfer at which this end's grip is largest, [N].

        ``dF = (c W kappa t / K_other + 2 c gamma) / (4 k)``
        """
        leaning = self.weight * self.camber_left * self.track / self.other_stiffness + 2 * self.static_lean
        return self.camber_loss * leaning / (4 * self.grip_drop)

    @property
    def stiffness_at_top(self) -> float | None:
        """This end's own roll stiffness at which its grip is largest, [N*m/rad].

        ``K = K_other E t / (M a - E t)`` with ``E = dF_top - dF_0``. None where grip falls with stiffness
        from the start, or rises however stiff the end is made.
        """
        moment = (self.transfer_at_top - self.fixed_transfer) * self.track
        if not 0 < moment < self.roll_moment:
            return None
        return self.other_stiffness * moment / (self.roll_moment - moment)


def hand_axle(car: Car, end: str, lateral_acceleration: float, refined: bool = False) -> HandAxle:
    """The numbers of one axle for the calculation on paper.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float
        At which loads and roll are taken, [m/s^2].
    refined : bool, optional
        Count static camber and gravity's share of the roll too. Gravity takes ``m_s g h'`` from what the
        other end holds: ``K_other - m_s g h'`` stands in the place of ``K_other``.

    Notes
    -----
    The 1987 formula gives ``mu_0 = a2``, ``k = -a1`` and ``c = a11`` (peaks times the car's grip scale), the
    2006 one ``mu_0 = pDy2 - pDy1`` and ``k = pDy2 / Fz0``. It and the falling-grip curve know no camber, so
    there `c` is nil.

    Examples
    --------
    A front axle of 7 kN on a 1.5 m track that gives back half of the roll, 1.8 kN of load transfer:

    >>> by_hand = HandAxle(7000.0, 1.5, 40e3, 3000.0, 600.0, 1.011, 22.1e-6, np.degrees(14.8e-3), 0.5)
    >>> print(np.round(np.radians(by_hand.other_stiffness_at_crossing(1800.0))))  # N*m/deg
    488.0
    """
    axle, a = car.axle(end), lateral_acceleration
    moments = sum(roll_moments_per_acceleration(car))
    other = float(axle_stiffness(car.axle(OTHER[end])).total_roll) - (GRAVITY * moments if refined else 0.0)
    left = 0.0 if axle.camber_recovery is None else 1 - axle.camber_recovery
    fixed = geometric_transfer(car, end, a) + unsprung_transfer(car, end, a)
    return HandAxle(
        car.axle_weight(end),
        axle.track,
        other,
        a * moments,
        float(fixed),
        *_hand_tyre(car.tyre),
        left,
        -(axle.camber or 0.0) if refined else 0.0,
    )


def _hand_tyre(tyre):
    """`mu_0`, `k` [1/N] and `c` [1/rad] of the car's tyre."""
    if tyre.curve == "falling grip":
        return tyre.grip_scale * tyre.peak_grip, tyre.grip_scale * tyre.grip_drop, 0.0
    if tyre.curve == "magic formula 2006":
        grip, drop = straight_line_2006()
        return tyre.grip_scale * grip, tyre.grip_scale * drop, 0.0
    per_kilonewton = 1e-3
    return (
        tyre.grip_scale * MAGIC_1987["a2"] * per_kilonewton,
        -tyre.grip_scale * MAGIC_1987["a1"] * per_kilonewton**2,
        float(np.degrees(MAGIC_1987["a11"])) * per_kilonewton,
    )
