"""The same map by the package, in one call over every pair of holes."""

import numpy as np

from rollmodel.car import GRAVITY
from rollmodel.physics.balance import limits, slip_angles
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness_for, stiffness_of_every_hole


def accelerations(number=200):
    return np.linspace(0.01, 1.2, number) * GRAVITY


def setup_map(car, at):
    """Slip angles and limits of every pair of holes; the understeer angle is their difference."""
    front, rear = stiffness_of_every_hole(car)
    slips = np.stack(slip_angles(car, at, front, rear))
    found = limits(car, front, rear)
    return slips, slips[0] - slips[1], np.stack([found.front[..., 0], found.rear[..., 0]])


def many_setups(car, number):
    """Roll gradient and both load transfers at 0.8 g for a grid of front and rear bar rates."""
    side = round(number**0.5)
    rates = np.linspace(0.0, 60e3, side)
    front = axle_stiffness_for(car.front, rates[:, None])
    rear = axle_stiffness_for(car.rear, rates[None, :])
    corner = settled_corner(car, 0.8 * GRAVITY, front, rear)
    return roll_gradient(car, front, rear), corner.front.load_transfer, corner.rear.load_transfer
