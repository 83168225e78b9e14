"""Overshoot of a damped second-order system

Any controls text: a step overshoots by exp(-pi z / sqrt(1 - z^2)), damping ratio z. The same step by the
controls library `control` (tests only). Then a whole car thrown into a corner: the overshoot read off the
package's own history in time, against the matrix exponential of the two equations.

The percentages are published in every such text, but which one is not recorded: second-hand, author not
recorded. The steps are computed by a second route.
"""

import math
from dataclasses import replace

import control
import numpy as np
from scipy.linalg import expm

from rollmodel.car import GRAVITY, Damper
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.roll_mode import overshoot
from rollmodel.physics.transient import roll_against_time
from tests.validation.build import axle, car
from tests.validation.evidence import NO_AUTHOR, SECOND_ROUTE, check

SOURCE = "L7"
OVERSHOOT = {0.1: "72.9", 0.2: "52.7", 0.3: "37.2", 0.5: "16.3", 0.7: "4.6"}


def damped_car(damper_rate):
    """A car of two equal ends on rigid tyres; its sprung mass lies 0.44 m above the roll axis."""
    end = axle(1.5, 0.06, 40.0, 0.3, 30e3, damper=Damper(damper_rate, 1.0))
    return replace(car(end, end, 1000.0, 0.5, 0.5), roll_inertia=400.0)


def test_formula():
    for ratio, figure in OVERSHOOT.items():
        check(
            SOURCE,
            f"overshoot of a step at damping ratio {ratio}",
            figure,
            100 * overshoot(ratio),
            "%",
            NO_AUTHOR,
        )


def test_controls_library():
    for ratio in OVERSHOOT:
        step = control.step_info(control.tf([1], [1, 2 * ratio, 1]), T=np.linspace(0, 60, 60001))
        check(
            SOURCE,
            f"overshoot at damping ratio {ratio} by the controls library",
            f"{step['Overshoot']:.2f}",
            100 * overshoot(ratio),
            "%",
            SECOND_ROUTE,
        )


def exact_overshoot(stiffness, damping, inertia):
    """Of a step, by the matrix exponential of the two first-order equations at 1 ms steps."""
    once = expm(np.array([[0, 1], [-stiffness / inertia, -damping / inertia]]) * 0.001)
    state, largest = np.array([-1.0, 0.0]), 0.0  # away from the settled angle, in settled angles
    for _ in range(2000):
        state = once @ state
        largest = max(largest, state[0])
    return largest


def test_whole_car_in_time():
    """The body of a car thrown into a corner in no time, gently enough that no wheel lifts."""
    for ratio in OVERSHOOT:
        stiffness = 2 * 30e3 * 1.5**2 / 2 - 1000.0 * GRAVITY * 0.44
        damping = 2 * ratio * math.sqrt(stiffness * 400.0)
        one = damped_car(damping / (2 * 1.5**2 / 2))
        history = roll_against_time(one, BuildUp(2.0, 0.0, 40.0, 0.0, 0.0), step=0.001)
        roll = history.roll_angle[history.time < 40.0]
        assert np.isclose(roll[-1], 2.0 / stiffness * 1000.0 * 0.44, rtol=1e-4)
        check(
            SOURCE,
            f"a car's roll at damping ratio {ratio}: overshoot of the package's history in time",
            f"{100 * exact_overshoot(stiffness, damping, 400.0):.2f}",
            100 * (roll.max() / roll[-1] - 1),
            "%",
            SECOND_ROUTE,
        )
