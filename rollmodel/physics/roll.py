"""How far the body rolls: two axles, a body on its roll axis, a chassis that may twist between them."""

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.stiffness import AxleStiffness


def roll_moment_arm(car: Car) -> float:
    """`h'`: height of the sprung centre of gravity above the roll axis at its own station, [m]."""
    share = car.sprung_mass_at("front") / car.sprung_mass
    axis = share * car.front.roll_centre_height + (1 - share) * car.rear.roll_centre_height
    return car.sprung_cg_height - axis


def roll_moments_per_acceleration(car: Car) -> tuple[float, float]:
    """Front and rear ``m_s,i (h_s - z_i)``, the parts of ``m_s h'``, [kg*m].

    Each end's share of the sprung mass acts at the height of the sprung centre of gravity above
    that end's roll centre; the two add up to ``m_s h'``.
    """
    return tuple(car.sprung_mass_at(end) * (car.sprung_cg_height - car.axle(end).roll_centre_height)
                 for end in ("front", "rear"))


def chassis_compliance(car: Car) -> float:
    """Twist between the axles per N*m, [rad/(N*m)]; 0 for a rigid chassis."""
    return 0.0 if car.chassis_torsion is None else 1 / car.chassis_torsion


def solve_roll(moments, stiffness, applied, compliance):
    """Front and rear roll angle of two axles joined by a chassis of given compliance, [rad].

    ::

        (K_f - g M_f) phi_f + T = A_f
        (K_r - g M_r) phi_r - T = A_r        phi_f - phi_r = c T

    Parameters
    ----------
    moments : pair of float
        `M_f, M_r` = ``m_s,i (h_s - z_i)``, [kg*m].
    stiffness : pair of float or array
        `K_f, K_r`, [N*m/rad].
    applied : pair of float or array
        `A_f, A_r`, the moments not counting gravity's share, [N*m].
    compliance : float
        `c` of the chassis, 0 for rigid, [rad/(N*m)].

    Returns
    -------
    roll_front, roll_rear : array
        nan where the car does not stand up.

    Notes
    -----
    Derived here from moment balance about the roll axis at each end. With ``c = 0`` both angles
    are ``m_s h' a / (K_f + K_r - m_s g h')``.
    """
    front, rear = (k - GRAVITY * m for k, m in zip(stiffness, moments, strict=True))
    determinant = front + rear + compliance * front * rear
    stands = (determinant > 0) & (1 + compliance * front > 0) & (1 + compliance * rear > 0)
    determinant = np.where(stands, determinant, np.nan)
    roll_front = (applied[0] * (1 + compliance * rear) + applied[1]) / determinant
    roll_rear = (applied[1] * (1 + compliance * front) + applied[0]) / determinant
    return roll_front, roll_rear


def at_centre_of_gravity(car: Car, roll_front, roll_rear):
    """Roll angle of the body at its centre of gravity, between the two ends, [rad]."""
    share = car.sprung_mass_at("front") / car.sprung_mass
    return share * np.asarray(roll_front) + (1 - share) * np.asarray(roll_rear)


def roll_gradient(car: Car, front: AxleStiffness, rear: AxleStiffness):
    """Roll angle per lateral acceleration with gravity's share, both axles on the ground, [rad/(m/s^2)].

    ``phi / a_y = m_s h' / (K_f + K_r - m_s g h')`` for a rigid chassis; taken at the centre of
    gravity when the chassis twists. nan where the car does not stand up.
    """
    return roll_gradient_for(car, front.total_roll, rear.total_roll)


def roll_gradient_for(car: Car, front_stiffness, rear_stiffness):
    """The same from the roll stiffness of each axle on its tyres, [rad/(m/s^2)].

    Parameters
    ----------
    car : Car
    front_stiffness, rear_stiffness : float or array
        [N*m/rad].
    """
    moments = roll_moments_per_acceleration(car)
    angles = solve_roll(moments, (front_stiffness, rear_stiffness), moments, chassis_compliance(car))
    return at_centre_of_gravity(car, *angles)


def roll_gradient_without_gravity(car: Car, front_stiffness, rear_stiffness):
    """What it would be if the leaning body's weight did not tip it further, [rad/(m/s^2)].

    ``phi / a_y = m_s h' / (K_f + K_r)`` for a rigid chassis. For comparison; no car rolls so little.

    Parameters
    ----------
    car : Car
    front_stiffness, rear_stiffness : float or array
        [N*m/rad].
    """
    moments = roll_moments_per_acceleration(car)
    angles = solve_roll((0.0, 0.0), (front_stiffness, rear_stiffness), moments, chassis_compliance(car))
    return at_centre_of_gravity(car, *angles)


def least_roll_stiffness(car: Car) -> float:
    """``m_s g h'``: with no more than this in all, a car on a rigid chassis does not stand up, [N*m/rad].

    It is also what gravity takes from the roll stiffness of a car that does.
    """
    return GRAVITY * sum(roll_moments_per_acceleration(car))


def stands_up(car: Car, front: AxleStiffness, rear: AxleStiffness):
    """Whether roll stiffness beats gravity: ``K_f + K_r > m_s g h'``. Bool or array of bool."""
    return np.isfinite(roll_gradient(car, front, rear))
