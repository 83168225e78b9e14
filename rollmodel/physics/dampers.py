"""Dampers in roll: what they are worth across the suspension, and to the body behind a tyre that gives."""

import numpy as np

from rollmodel.car import Axle, Car, CarError
from rollmodel.physics.stiffness import AxleStiffness, roll_stiffness, wheel_rate

ENDS = ("front", "rear")


def damper_roll_rate(axle: Axle) -> float:
    """Roll moment of an axle's two dampers per rate of roll across the suspension, [N*m*s/rad].

    ``C = c MR^2 t^2 / 2``, as for springs.

    Parameters
    ----------
    axle : Axle
        With a damper.

    Returns
    -------
    float
        [N*m*s/rad].

    Raises
    ------
    CarError
        When the axle has no damper.

    Notes
    -----
    Derived here: each wheel moves at ``t/2`` times the rate of roll. One rate for bump and rebound;
    a real damper's curve bends, so use its mean rate at the speeds met in roll (0.05 to 0.1 m/s at
    the damper, common practice).

    Examples
    --------
    >>> from rollmodel.car import Axle, Damper
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, damper=Damper(4000.0, 0.7))
    >>> round(damper_roll_rate(axle), 1)
    2205.0
    """
    if axle.damper is None:
        raise CarError(_missing_damper("axle"))
    return float(roll_stiffness(wheel_rate(axle.damper.rate, axle.damper.motion_ratio), axle.track))


def _missing_damper(end):
    return (f"[{end}.damper] rate: wanted a damper at this end, given none; "
            f"add the table with its rate and motion_ratio")


def require_dampers(car: Car) -> None:
    """Refuse a car whose roll cannot be followed in time: no damper at one end or at both.

    Parameters
    ----------
    car : Car

    Raises
    ------
    CarError
        One message for each end without a damper.
    """
    faults = [_missing_damper(end) for end in ENDS if car.axle(end).damper is None]
    if faults:
        raise CarError(faults)


def damping_behind_tyre(damper_roll, suspension_roll, tyre_roll):
    """What a damper is worth to the body when the tyre gives too, [N*m*s/rad].

    ``C_body = C (K_tyre / (K_tyre + K_suspension))^2``

    Only that part of the body's roll which the suspension takes works the damper; the factor counts
    twice, once for its speed and once for its moment at the body.

    Parameters
    ----------
    damper_roll : float or array
        `C` across the suspension, from :func:`damper_roll_rate`, [N*m*s/rad].
    suspension_roll : float or array
        Springs and bar of the axle, without the tyre, [N*m/rad].
    tyre_roll : float or array
        The axle's two tyres on their own, `inf` when rigid, [N*m/rad].

    Returns
    -------
    float or array
        [N*m*s/rad]; `C` itself for a rigid tyre.

    Notes
    -----
    Derived here, from the power lost: ``C psi'^2`` with ``psi = phi K_tyre/(K_tyre + K_suspension)``.
    It holds while ``C omega`` is small beside ``K_tyre + K_suspension``, which at a car's roll
    frequency is a matter of 1 or 2 %. Without the factor the damping ratio of a road car comes out
    about a third too high. The tyre's own damping is left out.

    Examples
    --------
    >>> round(damping_behind_tyre(2205.0, 40e3, 250e3))
    1639
    """
    return damper_roll / (1 + suspension_roll / np.asarray(tyre_roll, dtype=float)) ** 2


def roll_damping(axle: Axle, stiff: AxleStiffness):
    """Roll moment of an axle's dampers per rate of *body* roll, tyre in series, [N*m*s/rad].

    Parameters
    ----------
    axle : Axle
        With a damper.
    stiff : AxleStiffness
        The same axle's stiffness; arrays of setups give an array.

    Returns
    -------
    float or array
        `C_i` in ``I phi'' + C phi' + (K - m_s g h') phi = m_s h' a_y``, [N*m*s/rad].

    Raises
    ------
    CarError
        When the axle has no damper.

    Notes
    -----
    :func:`damping_behind_tyre` of :func:`damper_roll_rate`; limits as there.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> from rollmodel.physics.stiffness import axle_stiffness
    >>> print(round(roll_damping(axle, axle_stiffness(axle))))
    1367
    """
    return damping_behind_tyre(damper_roll_rate(axle), stiff.suspension_roll, stiff.tyre_roll)
