"""The setup map the plain way: one setup and one lateral acceleration at a time, scipy's scalar solvers.

The same equations of `rollmodel.physics`, called with single numbers; only the solving differs.
"""

from math import radians

import numpy as np
from scipy.optimize import brentq, minimize_scalar

from rollmodel.car import GRAVITY
from rollmodel.physics.corner import rollover_acceleration, settled_corner
from rollmodel.physics.pair import axle_arguments, axle_side_force
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness_for

ENDS = ("front", "rear")


def top(tyre, loads):
    """Largest side force of an axle and its slip angle: a coarse look, then scipy's bounded minimiser."""
    looks = [radians(degrees) for degrees in range(0, 61, 2)]
    best = max(looks, key=lambda slip: axle_side_force(tyre, slip, *loads))
    bounds = (max(best - radians(2), 0.0), best + radians(2))
    found = minimize_scalar(
        lambda slip: -axle_side_force(tyre, slip, *loads),
        bounds=bounds,
        method="bounded",
        options={"xatol": 1e-8},
    )
    return -found.fun, found.x


def loads_of(car, end, acceleration):
    corner = settled_corner(car, acceleration)
    return [float(x) for x in axle_arguments(car.axle(end), corner.axle(end))]


def slip_angle(car, end, acceleration):
    """nan where the end cannot hold the corner."""
    loads, need = loads_of(car, end, acceleration), car.axle_mass(end) * acceleration
    largest, at = top(car.tyre, loads)
    if need > largest:
        return np.nan
    return brentq(lambda slip: axle_side_force(car.tyre, slip, *loads) - need, -radians(20), at, xtol=1e-14)


def limit(car, end):
    """Lateral acceleration at which an end has no more to give; nan where the car rolls over first."""
    over = min(float(rollover_acceleration(car)) * (1 - 1e-9), 8 * GRAVITY)

    def spare(acceleration):
        return top(car.tyre, loads_of(car, end, acceleration))[0] - car.axle_mass(end) * acceleration

    return brentq(spare, 0.02 * GRAVITY, over, xtol=1e-11) if spare(over) < 0 else np.nan


def setup_map(car, accelerations):
    """Slip angles (end, front hole, rear hole, acceleration) and limits (end, front hole, rear hole)."""
    shape = (2, car.front.positions, car.rear.positions)
    slips, limits = np.empty((*shape, len(accelerations))), np.empty(shape)
    for i in range(shape[1]):
        for j in range(shape[2]):
            one = car.with_holes(i + 1, j + 1)
            for k, end in enumerate(ENDS):
                slips[k, i, j] = [slip_angle(one, end, a) for a in accelerations]
                limits[k, i, j] = limit(one, end)
    return slips, limits


def many_setups(car, number):
    """The same of a grid of bar rates as `whole_map.many_setups`, a pair of rates at a time."""
    rates = np.linspace(0.0, 60e3, round(number**0.5))
    return [one_setup(car, front, rear) for front in rates for rear in rates]


def one_setup(car, front_rate, rear_rate):
    """Roll gradient and both load transfers at 0.8 g."""
    front, rear = axle_stiffness_for(car.front, front_rate), axle_stiffness_for(car.rear, rear_rate)
    corner = settled_corner(car, 0.8 * GRAVITY, front, rear)
    return roll_gradient(car, front, rear), corner.front.load_transfer, corner.rear.load_transfer
