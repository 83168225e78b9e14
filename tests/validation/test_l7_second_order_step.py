"""Overshoot of a damped second-order system

Any controls text: a step overshoots by exp(-pi z / sqrt(1 - z^2)), damping ratio z. The same step by the
controls library `control` (tests only), and by integrating a whole car's corner in time.

The percentages are published (in every such text; which one is not recorded). The steps are computed by a
second route.
"""

from dataclasses import replace

import control
import numpy as np

from rollmodel.car import Damper
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.roll_mode import overshoot, roll_mode
from rollmodel.physics.transient import roll_against_time
from tests.validation.build import axle, car
from tests.validation.evidence import PUBLISHED, SECOND_ROUTE, check

SOURCE = "L7"
OVERSHOOT = {0.1: "72.9", 0.2: "52.7", 0.3: "37.2", 0.5: "16.3", 0.7: "4.6"}


def damped_car(ratio):
    """A car whose roll is damped in that ratio: the dampers' rate goes straight into it."""
    end = axle(1.5, 0.06, 40.0, 0.3, 30e3, damper=Damper(1000.0, 1.0))
    one = replace(car(end, end, 1000.0, 0.5, 0.5), roll_inertia=400.0)
    rate = 1000.0 * ratio / float(roll_mode(one).damping_ratio)
    end = replace(end, damper=Damper(rate, 1.0))
    return replace(one, front=end, rear=end)


def test_formula():
    for ratio, figure in OVERSHOOT.items():
        check(
            SOURCE,
            f"overshoot of a step at damping ratio {ratio}",
            figure,
            100 * overshoot(ratio),
            "%",
            PUBLISHED,
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


def test_whole_car_in_time():
    """The body of a car thrown into a corner in no time, gently enough that no wheel lifts."""
    for ratio in OVERSHOOT:
        one = damped_car(ratio)
        history = roll_against_time(one, BuildUp(2.0, 0.0, 40.0, 0.0, 0.0), step=0.001)
        held = history.time < 40.0
        roll = history.roll_angle[held]
        settled = 2.0 / float(roll_mode(one).net_stiffness) * one.sprung_mass * 0.44
        assert np.isclose(roll[-1], settled, rtol=1e-4)
        figure = f"{100 * (roll.max() / settled - 1):.2f}"
        check(
            SOURCE,
            f"overshoot of a car's roll at damping ratio {ratio}, integrated",
            figure,
            100 * overshoot(ratio),
            "%",
            SECOND_ROUTE,
        )
