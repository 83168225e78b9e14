"""The standing car by energy alone: eight unknowns, springs between points, tyres that only push.

No roll stiffness, no series rule and no lever rule of the package is used. Unknowns, from the level
car: body heave, pitch, roll at the front and at the rear, and the height of each of four wheels.
Each row below is the stretch of one spring; the energy is half its rate times the stretch squared.
"""

import numpy as np

from rollmodel.car import GRAVITY
from rollmodel.physics.bar import effective_link_motion_ratio, link_rates_one_end_held

WHEELS = ("front left", "front right", "rear left", "rear right")


def _body_at(car, end, left):
    """Height of the body over one wheel, as a row of the eight unknowns."""
    ahead = car.wheelbase * ((1 - car.front_weight_share) if end == "front" else -car.front_weight_share)
    row = np.zeros(8)
    row[0], row[1] = 1.0, ahead
    row[2 if end == "front" else 3] = (1 if left else -1) * car.axle(end).track / 2
    return row


def _springs(car, link_differences):
    """(row, offset, rate) of everything but the tyres."""
    wheel = np.eye(8)[4:]
    for i, end in enumerate(("front", "rear")):
        axle = car.axle(end)
        up = [wheel[2 * i + j] - _body_at(car, end, left=j == 0) for j in (0, 1)]  # wheel travel, bump
        for travel in up:
            yield travel * axle.spring_motion_ratio, 0.0, axle.spring_rate
        if axle.bar:
            # A left link too long by delta pushes its wheel down until the travel has fallen by it.
            twist = effective_link_motion_ratio(axle.bar) * (up[0] - up[1])
            yield twist, link_differences[i], link_rates_one_end_held(axle.bar)[axle.bar.hole - 1]
    yield np.eye(8)[2] - np.eye(8)[3], 0.0, car.chassis_torsion or 1e12


def _gravity(car):
    """What leaning takes away: each share of the sprung mass at its height above its roll axis."""
    matrix = np.zeros((8, 8))
    for i, end in ((2, "front"), (3, "rear")):
        arm = car.sprung_cg_height - car.axle(end).roll_centre_height
        matrix[i, i] = -GRAVITY * car.sprung_mass_at(end) * arm
    return matrix


def wheel_loads_by_energy(car, heights=(0, 0, 0, 0), link_differences=(0, 0)):
    """Loads front left, front right, rear left, rear right, [N], whichever tyres touch."""
    weights = np.repeat([car.axle_weight("front") / 2, car.axle_weight("rear") / 2], 2)
    touching = np.ones(4, bool)
    for _ in range(4):
        loads = np.where(touching, _solve(car, np.asarray(heights, float), link_differences, weights,
                                          touching), np.inf)
        if loads.min() >= 0:
            return np.where(touching, loads, 0.0)
        touching[np.argmin(loads)] = False  # the emptiest wheel leaves first, then look again
    raise AssertionError("no contact left")


def _solve(car, heights, link_differences, weights, touching):
    stiffness, pull = _gravity(car), np.zeros(8)
    for row, offset, rate in _springs(car, link_differences):
        stiffness += rate * np.outer(row, row)
        pull -= rate * offset * row
    rates = np.repeat([car.front.tyre_vertical_rate, car.rear.tyre_vertical_rate], 2)
    for i in range(4):
        row = np.eye(8)[4 + i]
        if touching[i]:
            stiffness += rates[i] * np.outer(row, row)
            pull += rates[i] * heights[i] * row
        else:
            pull -= weights[i] * row  # the tyre no longer carries what it carried
    moved = np.linalg.solve(stiffness, pull)
    return weights + rates * (heights - moved[4:])
