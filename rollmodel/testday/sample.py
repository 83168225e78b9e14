"""Sample files: runs simulated from a car sheet with noise. Each file says that nobody drove them."""

from __future__ import annotations

import io

import numpy as np
import pandas as pd

from rollmodel.car import Car
from rollmodel.physics.balance import limits
from rollmodel.testday.predict import roll_of, steer_of
from rollmodel.testday.run_file import radius_text
from rollmodel.testday.simulate import CAREFUL, Driven, Noise, Plan, simulate
from rollmodel.units import label, to_display

OF_LIMIT = 0.8  # part of the limit that the runs go up to
_STEP = 0.5  # m/s^2 (ISO 4138: at most)


def plan_for(car: Car, radius: float = 30.0, repetitions: int = 3) -> Plan:
    """Runs in steps of 0.5 m/s^2 up to eight tenths of the car's limit.

    Parameters
    ----------
    car : Car
    radius : float, optional
        [m].
    repetitions : int, optional
        Each way round.
    """
    top = OF_LIMIT * float(limits(car, driven=True).lower)
    return Plan(radius=radius, highest=max(2.0, _STEP * np.floor(top / _STEP)), repetitions=repetitions)


def simulate_car(car: Car, plan: Plan | None = None, noise: Noise = CAREFUL, seed: int = 1) -> Driven:
    """Runs of the model's car with noise.

    Parameters
    ----------
    car : Car
        At the holes in use.
    plan : Plan, optional
        As `plan_for` when left out.
    noise : Noise
    seed : int

    Notes
    -----
    Model and noise are ours: good for practice and for tests of the fits, no evidence about any car.
    """
    plan = plan or plan_for(car)
    grid = np.linspace(
        0.0, 1.15 * plan.highest, 60
    )  # finer than any bend of the curves; the noise goes beyond
    roll, steer = roll_of(car, grid), steer_of(car, grid, plan.radius)
    held = np.isfinite(steer)
    return simulate(
        lambda a: np.interp(a, grid, roll), lambda a: np.interp(a, grid[held], steer[held]), plan, noise, seed
    )


def sample_csv(car: Car, driven: Driven, radius: float, family: str = "metric") -> str:
    """Simulated rows as the text of a file of runs.

    Parameters
    ----------
    car : Car
        For the remarks above the header.
    driven : Driven
    radius : float
        [m].
    family : str, optional
        Units of speed.
    """
    speed = label("speed", family)
    frame = pd.DataFrame(
        {
            "time [s]": driven.time.round(3),
            "run": driven.run,
            "direction": np.where(driven.direction > 0, "left", "right"),
            f"speed [{speed}]": to_display(driven.speed, "speed", family).round(2),
            "steer [deg]": to_display(driven.steer, "angle").round(3),
            "roll [deg]": to_display(driven.roll, "angle").round(3),
        }
    )
    text = io.StringIO()
    frame.to_csv(text, index=False, lineterminator="\n")
    return "\n".join(_remarks(car, radius, family)) + "\n" + text.getvalue()


def _remarks(car: Car, radius: float, family: str):
    yield "# simulated: by rollmodel from a car sheet with noise; nobody drove these runs"
    yield "# car: " + " ".join(car.title.split())
    yield f"# radius: {radius_text(radius, family)}"
    yield "# steer: at the road wheel"
    yield from (f"# {end} hole: {car.axle(end).hole}" for end in ("front", "rear") if car.axle(end).bar)
