"""Height of the centre of gravity by raising one end on the scales."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from uncertainties import umath

from rollmodel.testday.measured import Measured, of, repeated, straight_line, within_limits

LITTLE_TILT = 0.06  # rad; below this the scales see next to nothing


@dataclass(frozen=True)
class Raising:
    """One end raised in steps, the other on its pads. SI."""

    raised: str  # "front" or "rear"
    lift: tuple[float, ...]  # how far the raised wheels' support was lifted, m
    load: tuple[float, ...]  # on both pads of the end that stays down, kg, one for each lift
    wheelbase: float  # m
    wheel_radius: tuple[float, float]  # of the end that stays down and of the raised one, loaded, m
    tape: float = 0.003  # what each length is right to, plus or minus, m
    scale: float = 1.0  # the same of each axle load, kg


def tilt(lift, wheelbase, rise=0.0):
    """Angle by which the car tilts when one end is raised, [rad].

    The line between the wheel centres has the length ``sqrt(L^2 + d^2)`` and rises by ``d`` when level,
    by ``d + H`` when raised::

        theta = asin((d + H) / sqrt(L^2 + d^2)) - atan(d / L)

    Parameters
    ----------
    lift : float or ufloat
        `H`, of the raised wheels' support, [m].
    wheelbase : float or ufloat
        `L`, [m].
    rise : float or ufloat, optional
        `d`, radius of the raised wheels less that of the others, [m].

    Notes
    -----
    Derived here. Wheels round, suspension locked, the raised wheels on a level support.
    """
    length = umath.sqrt(wheelbase**2 + rise**2)
    return umath.asin((rise + lift) / length) - umath.atan(rise / wheelbase)


def arm(load_share, tan_tilt, wheelbase, rise=0.0):
    """How far the centre of gravity lies behind the wheels that stay down, along the tilted car, [m].

    With `R` the load on the wheels that stay down, `W` the whole weight and moments about the raised
    wheels' vertical line::

        (1 - R / W) (L - d tan(theta)) = a - (h - r) tan(theta)

    which is what is returned. Level it is ``a``; it falls in a straight line with ``tan(theta)``, by the
    height of the centre of gravity above the centre of the wheels that stay down.

    Parameters
    ----------
    load_share : float or ufloat
        `R / W`, [-].
    tan_tilt : float or ufloat
        ``tan(theta)``, [-].
    wheelbase, rise : float or ufloat
        `L` and `d`, [m].

    Notes
    -----
    Derived here by statics: both supports push straight up, for the wheels roll freely. For wheels of one
    radius it is the usual ``h = r + (R - R_level) L / (W tan(theta))``.
    """
    return (1 - load_share) * (wheelbase - rise * tan_tilt)


def cg_height(raising: Raising, mass, level_load) -> Measured:
    """Height of the centre of gravity above the ground, level, from one lift or more.

    Parameters
    ----------
    raising : Raising
    mass : ufloat
        Whole car as it is raised, [kg].
    level_load : ufloat
        On the end that stays down, level, [kg].

    Returns
    -------
    Measured
        Its uncertainty counts scales, tape and, from two lifts on, the scatter about the line, whichever
        is larger.

    Notes
    -----
    The weight that moves is small: some ten kilograms for a lift of half a metre. That is why the height
    comes out to a few centimetres only. Fuel that runs forward and springs that move are not counted:
    lock the suspension, and fill or empty the tank.
    """
    base, down, up = _lengths(raising)
    tans, arms = _points(raising, mass, level_load, base, up - down)
    middle = sum(tans) / len(tans)
    slope = sum((t - middle) * a for t, a in zip(tans, arms, strict=True)) / sum(
        (t - middle) ** 2 for t in tans
    )
    height = down - slope
    line = straight_line([t.nominal_value for t in tans], [a.nominal_value for a in arms])
    extra = np.nan_to_num(line.slope_uncertainty)
    if extra > height.std_dev:
        height = within_limits(height.nominal_value, np.sqrt(3) * extra)
    return of(
        height,
        "cg_height",
        "height of the centre of gravity",
        "length",
        f"{raising.raised} raised on the scales",
        _notes(tans, arms, line, mass),
    )


def _lengths(raising: Raising):
    down, up = (within_limits(radius, raising.tape, "wheel radius") for radius in raising.wheel_radius)
    return within_limits(raising.wheelbase, raising.tape, "wheelbase"), down, up


def _points(raising: Raising, mass, level_load, base, rise):
    """Tangent of the tilt and the arm, level first and then at each lift."""
    tans, arms = [0 * base], [arm(level_load / mass, 0.0, base, rise)]
    for lift, load in zip(raising.lift, raising.load, strict=True):
        tans.append(umath.tan(tilt(within_limits(lift, raising.tape, "lift"), base, rise)))
        arms.append(arm(repeated([load], raising.scale, "raised load") / mass, tans[-1], base, rise))
    return tans, arms


def _notes(tans, arms, line, mass) -> list[str]:
    moved = abs(arms[-1].nominal_value - arms[0].nominal_value)
    notes = []
    if tans[-1].nominal_value < LITTLE_TILT:
        notes.append(
            f"The steepest tilt is {np.degrees(np.arctan(tans[-1].nominal_value)):.1f} deg: raise the end "
            "further if it can be done safely, for the uncertainty falls with the tilt."
        )
    if line.bends:
        notes.append("The points bend: did the springs move, or the fuel run?")
    if moved < 1e-9:
        notes.append("The load did not change with the lift; was it read?")
    return notes
