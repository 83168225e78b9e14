"""What the car sheet says that the same runs should have given."""

from __future__ import annotations

import numpy as np
from statsmodels.regression.linear_model import OLS

from rollmodel.car import Car
from rollmodel.physics.balance import understeer_angle
from rollmodel.physics.corner import settled_corner
from rollmodel.testday.gradients import CHANNELS, sides_design
from rollmodel.testday.runs import FEWEST, Setup


def roll_of(car: Car, lateral_acceleration):
    """Roll angle of the model in the settled corner, [rad].

    Parameters
    ----------
    car : Car
    lateral_acceleration : array
        [m/s^2].
    """
    return settled_corner(car, lateral_acceleration).roll_angle


def steer_of(car: Car, lateral_acceleration, radius: float | None = None, driven: bool = True):
    """Steer at the road wheel of the model at constant radius: ``L / R`` and the understeer angle, [rad].

    nan past the limit.

    Parameters
    ----------
    car : Car
    lateral_acceleration : array
        [m/s^2].
    radius : float, optional
        Of the circle, [m]; the bend's own share is left out when left out.
    driven : bool, optional
        Count the force that holds the speed.
    """
    bend = 0.0 if radius is None else car.wheelbase / radius
    return bend + understeer_angle(car, lateral_acceleration, driven=driven)


def predicted_gradient(car: Car, setup: Setup, quantity: str) -> float:
    """The gradient that the model gives at the very points of the runs, [rad/(m/s^2)].

    The model's curve is put through the same treatment as the readings, so a curve that bends over the
    range is compared like with like.

    Parameters
    ----------
    car : Car
    setup : Setup
    quantity : {"roll gradient", "understeer gradient"}

    Returns
    -------
    float
        nan where the model's car cannot hold enough of the points.
    """
    model = {"roll": roll_of, "steer": steer_of}[CHANNELS[quantity]]
    sizes = [run.points for run in setup.runs]
    every = np.concatenate([run.lateral_acceleration for run in setup.runs])
    curves = np.split(model(car, np.maximum(every, 0.0)), np.cumsum(sizes)[:-1])
    slopes = [_slope(run.lateral_acceleration, curve) for run, curve in zip(setup.runs, curves, strict=True)]
    if np.isnan(slopes).any():
        return float("nan")
    return float(OLS(slopes, sides_design(setup.runs)).fit().params[0])


def _slope(accel, curve) -> float:
    held = np.isfinite(curve)
    return float(np.polyfit(accel[held], curve[held], 1)[0]) if held.sum() >= FEWEST else float("nan")
