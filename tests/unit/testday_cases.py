"""Runs of known gradients for the tests of the test day, in memory and as files."""

from dataclasses import replace
from math import radians

import numpy as np

from rollmodel.car import GRAVITY
from rollmodel.testday.channels import Channels
from rollmodel.testday.runs import Run, Setup, settled_runs
from rollmodel.testday.simulate import CAREFUL, Plan, simulate

DEG_PER_G = radians(1) / GRAVITY
RADIUS, BEND = 30.0, 2.5 / 30.0  # m, rad: a wheelbase of 2.5 m on a circle of 30 m
ROLL, STEER = 3.0 * DEG_PER_G, 0.4 * DEG_PER_G
PLAN = Plan(radius=RADIUS, rate=10.0)
QUIET = replace(
    CAREFUL, **dict.fromkeys(("speed", "steer", "roll", "reading", "zero", "steer_run", "roll_run"), 0.0)
)


def driven(roll=ROLL, steer=STEER, seed=1, noise=CAREFUL, plan=PLAN):
    """Simulated rows of a car with straight-line roll and steer."""
    return simulate(lambda a: roll * a, lambda a: BEND + steer * a, plan, noise, seed)


def setup(roll=ROLL, steer=STEER, seed=1, noise=CAREFUL, plan=PLAN, name="before"):
    """The same rows as a setup, through everything but the file."""
    rows = driven(roll, steer, seed, noise, plan)
    channels = Channels(
        name,
        rows.time,
        rows.speed**2 / plan.radius,
        False,
        rows.steer,
        rows.roll,
        rows.run.astype(str),
        rows.direction,
        (),
    )
    return Setup(name, tuple(settled_runs([channels])[0]))


def plain_run(direction=1, slope=STEER, count=8, name="run", bend=BEND, offset=0.0):
    """Exact points on a straight line, nothing simulated."""
    accel = np.linspace(1.0, 6.0, count)
    return Run(
        name,
        direction,
        accel,
        bend + offset + slope * accel,
        ROLL * accel,
        np.arange(1.0, count + 1),
        np.ones(count, int),
    )


def csv(rows, header=("time [s]", "run", "direction", "speed [km/h]", "steer [deg]", "roll [deg]"), **change):
    """Rows as the text of a file, or with columns changed: ``csv(rows, roll=lambda roll: -roll)``."""
    table = {
        "time": rows.time,
        "run": rows.run,
        "direction": np.where(rows.direction > 0, "left", "right"),
        "speed": rows.speed * 3.6,
        "steer": np.degrees(rows.steer),
        "roll": np.degrees(rows.roll),
    }
    table = {name: change.get(name, lambda same: same)(values) for name, values in table.items()}
    picked = [table[name.split(" [")[0]] for name in header]
    lines = [
        ",".join(f"{cell:.4f}" if isinstance(cell, float) else str(cell) for cell in row)
        for row in zip(*(column.tolist() for column in picked), strict=True)
    ]
    return "\n".join([",".join(header), *lines]) + "\n"
