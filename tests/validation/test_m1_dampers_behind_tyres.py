"""The dampers' own part of the load transfer, with the tyre in series, exactly

No paper: four first-order equations, of the body's roll, its rate, and the roll across each suspension;
spring, bar and damper side by side, the tyre behind them. They are linear while no wheel lifts, so the matrix
exponential (scipy's `expm`) gives every instant exactly, for a step and for a ramp of lateral acceleration.
The package integrates in time. The two poles of the swing are the matrix's own.

Computed by a second route, on the invented car of `plain.py` with dampers; its rates are worked out here.
"""

import functools
import math
from dataclasses import replace

import numpy as np
from scipy.linalg import expm

from rollmodel.car import Damper
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.roll_mode import roll_mode
from rollmodel.physics.transient import roll_against_time
from tests.validation import plain
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "M1"
PEAK, RISE = 4.0, 0.25  # m/s^2, s


@functools.cache
def damped_car():
    car = plain.invented_car(roll_inertia=480.0)
    dampers = Damper(4300.0, 0.72), Damper(3500.0, 0.68)
    ends = zip(plain.ENDS, dampers, strict=True)
    return replace(car, **{end: replace(car.axle(end), damper=damper) for end, damper in ends})


def in_roll(rate, axle):
    return rate * axle.track**2 / 2


@functools.cache
def system():
    """Matrix of the four states, and each end's damper [N*m*s/rad], suspension and tyre [N*m/rad]."""
    car = damped_car()
    _, sprung, height = plain.masses(car)
    push = sum(sprung[end] * (height - car.axle(end).roll_centre_height) for end in plain.ENDS)
    matrix, parts = np.zeros((4, 4)), {}
    matrix[0, 1], matrix[1, 0] = 1.0, plain.G * push / car.roll_inertia
    for at, end in enumerate(plain.ENDS, 2):
        axle = car.axle(end)
        tyre = in_roll(axle.tyre_vertical_rate, axle)
        suspension = 1 / (1 / plain.roll_stiffness(axle) - 1 / tyre)
        damper = in_roll(axle.damper.rate * axle.damper.motion_ratio**2, axle)
        matrix[1, 0] -= tyre / car.roll_inertia
        matrix[1, at] = tyre / car.roll_inertia
        matrix[at, 0], matrix[at, at] = tyre / damper, -(tyre + suspension) / damper
        parts[end] = damper, suspension, tyre
    return matrix, push / car.roll_inertia, parts


def state_at(time, rise):
    """The four states under a lateral acceleration that rises in a straight line to the peak and stays."""
    matrix, input_rate, _ = system()
    wide = np.zeros((6, 6))  # two more states: the lateral acceleration and its slope
    wide[:4, :4], wide[1, 4], wide[4, 5] = matrix, input_rate, 1.0
    state = np.zeros(6)
    if rise:
        state[5] = PEAK / rise
        state = expm(wide * min(time, rise)) @ state
        time = max(time - rise, 0.0)
        state[5] = 0.0 if time else state[5]
    else:
        state[4] = PEAK
    return expm(wide * time) @ state


def dampers_part(end, state):
    """``C psi'`` over the track, [N]."""
    _, suspension, tyre = system()[2][end]
    across = state[2 + plain.ENDS.index(end)]
    return (tyre * (state[0] - across) - suspension * across) / damped_car().axle(end).track


def test_dampers_part():
    for name, rise in (("step", 0.0), (f"ramp of {RISE} s", RISE)):
        history = roll_against_time(damped_car(), BuildUp(PEAK, rise, 3.0, 0.0, 0.0, "linear"), step=0.01)
        for time in (0.05, 0.15, 0.4):
            state, at = state_at(time, rise), int(np.argmin(np.abs(history.time - time)))
            where = f"{name} to {PEAK:g} m/s^2, {time} s in"
            check(SOURCE, f"{where}: roll angle", f"{state[0] / plain.DEG:.4f}",
                  history.roll_angle[at] / plain.DEG, "deg", SECOND_ROUTE)  # fmt: skip
            for end in plain.ENDS:
                check(SOURCE, f"{where}: the {end} dampers' part", f"{dampers_part(end, state):.2f}",
                      history.axle(end).dampers[at], "N", SECOND_ROUTE)  # fmt: skip


def test_poles():
    swing = [one for one in np.linalg.eigvals(system()[0]) if one.imag > 0]
    assert len(swing) == 1
    mode = roll_mode(damped_car())
    ratio, frequency = -swing[0].real / abs(swing[0]), swing[0].imag / (2 * math.pi)
    check(SOURCE, "damping ratio of the swing", f"{ratio:.5f}", mode.damping_ratio, "", SECOND_ROUTE)
    check(SOURCE, "frequency of the swing", f"{frequency:.5f}", mode.swing_frequency, "Hz", SECOND_ROUTE)
