"""How much drive the tyres can pass in a corner with an open differential."""

from functools import reduce

import numpy as np

from rollmodel.car import Car
from rollmodel.physics.balance import drive_shares
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.driven import left_by_ellipse
from rollmodel.physics.pair import axle_arguments, slip_for_force
from rollmodel.physics.stiffness import AxleStiffness
from rollmodel.physics.tyre import peak_side_force, side_force


def inside_wheel_drive(car: Car, end: str, lateral_acceleration, front: AxleStiffness | None = None,
                       rear: AxleStiffness | None = None):
    """Drive force the inside wheel of one end can still pass beside its side force, [N].

    ``sqrt(F_max^2 - F_y^2)`` at the inside wheel's own load and the axle's slip angle (friction
    ellipse). nan where the end cannot hold the corner.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float or array
        [m/s^2].
    front, rear : AxleStiffness, optional
        Other setups than the car's own; arrays broadcast.

    Notes
    -----
    Derived here. The slip angle is that of the coasting car and the wheel is taken upright for its
    largest force. Longitudinal load transfer, which helps the rear and hurts the front, is left out.
    """
    corner = settled_corner(car, np.abs(lateral_acceleration), front, rear)  # the other way it is the mirror
    loads = axle_arguments(car.axle(end), corner.axle(end))
    slip = slip_for_force(car.tyre, car.axle_mass(end) * corner.lateral_acceleration, *loads)
    _, inside, _, lean = loads
    return left_by_ellipse(peak_side_force(car.tyre, inside),
                           side_force(car.tyre, slip, inside, lean)) + 0 * slip


def open_differential_drive(car: Car, lateral_acceleration, front: AxleStiffness | None = None,
                            rear: AxleStiffness | None = None):
    """Drive force of the whole car at which an inside driven wheel spins, open differentials, [N].

    An open differential gives both wheels the same, so an axle passes twice what its inside wheel
    can. With all-wheel drive the first axle to spin sets it, each with its share of the drive.

    Parameters
    ----------
    car, lateral_acceleration, front, rear
        As for `inside_wheel_drive`.
    """
    drives = [2 * inside_wheel_drive(car, end, lateral_acceleration, front, rear) / share
              for end, share in drive_shares(car).items() if share]
    return reduce(np.minimum, drives)
