"""Side force of one tyre from slip angle, load and camber.

Slip angle is positive in the sense that pushes the car towards the inside of the corner.
Camber here is the lean towards the inside of the corner: positive helps.
"""

import numpy as np

from rollmodel.car import CarError, Tyre
from rollmodel.physics.tyre_2006 import car_tyre_2006, magic_2006_peak, magic_2006_stiffness

MAGIC_1987 = {  # lateral force: load in kN, slip and camber in degrees, force in N
    "C": 1.30, "a1": -22.1, "a2": 1011.0, "a3": 1078.0, "a4": 1.82, "a5": 0.208, "a6": 0.0,
    "a7": -0.354, "a8": 0.707, "a9": 0.028, "a10": 0.0, "a11": 14.8, "a12": 0.022, "a13": 0.0,
}
_A = MAGIC_1987
MEASURED = {  # loads for which a curve was measured, about; by their sources, N
    "magic formula 1987": (0.0, 8000.0),
    "magic formula 2006": (1000.0, 8000.0),
    "falling grip": (0.0, np.inf),
}


def magic_peak(load):
    """Peak side force of the 1987 formula, ``D = a1 Fz^2 + a2 Fz`` (Fz in kN), [N]."""
    kilonewtons = np.asarray(load) / 1000
    return (_A["a1"] * kilonewtons + _A["a2"]) * kilonewtons


def magic_stiffness(load):
    """Slope at no slip, ``BCD = a3 sin(a4 atan(a5 Fz))`` in N/deg, returned in [N/rad]."""
    return np.degrees(_A["a3"] * np.sin(_A["a4"] * np.arctan(_A["a5"] * np.asarray(load) / 1000)))


def magic_curvature(load):
    """Curvature ``E = a6 Fz^2 + a7 Fz + a8`` of the 1987 formula (Fz in kN), [-]."""
    kilonewtons = np.asarray(load) / 1000
    return (_A["a6"] * kilonewtons + _A["a7"]) * kilonewtons + _A["a8"]


def magic_formula_1987(slip, load, camber=0.0, grip_scale=1.0):
    """Side force by the Magic Formula with its published 1987 coefficients, [N].

    ``Fy = D sin(C atan(Bx - E(Bx - atan Bx))) + Sv``, ``x = slip + Sh``.

    Parameters
    ----------
    slip : float or array
        Slip angle, [rad].
    load : float or array
        Vertical load, zero or more, [N].
    camber : float or array
        Lean towards the inside of the corner, [rad]. ``Sh = a9 gamma``,
        ``Sv = (a10 Fz^2 + a11 Fz) gamma``, ``B`` falls by ``a12 |gamma|``.
    grip_scale : float or array
        Multiplies the peak `D`; the slope at no slip stays, [-].

    Notes
    -----
    Bakker, Nyborg & Pacejka, Tyre Modelling for Use in Vehicle Dynamics Studies, SAE 870421
    (1987); coefficients second-hand. Measured to about 8 kN and 15 deg; beyond that it is a guess.

    Examples
    --------
    >>> round(float(magic_formula_1987(np.radians(4), 4000.0)), 2)
    3096.61
    """
    kilonewtons = np.maximum(np.asarray(load, dtype=float), 1e-6) / 1000
    gamma = np.degrees(camber)
    peak = magic_peak(1000 * kilonewtons) * grip_scale
    slope = np.radians(magic_stiffness(1000 * kilonewtons))
    curvature = magic_curvature(1000 * kilonewtons)
    b = slope / (_A["C"] * peak) * (1 - _A["a12"] * np.abs(gamma))
    bx = b * (np.degrees(slip) + _A["a9"] * gamma)
    shape = np.sin(_A["C"] * np.arctan(bx - curvature * (bx - np.arctan(bx))))
    return peak * shape + (_A["a10"] * kilonewtons + _A["a11"]) * kilonewtons * gamma


def falling_grip_peak(load, peak_grip, grip_drop):
    """Peak side force ``mu Fz`` with ``mu = mu_0 - k Fz``, never below zero, [N].

    Parameters
    ----------
    load : float or array
        [N].
    peak_grip : float
        `mu_0`, [-].
    grip_drop : float
        `k`, loss of grip per newton of load, [1/N].

    Examples
    --------
    >>> round(float(falling_grip_peak(4000.0, 1.3, 30e-6)))
    4720
    """
    load = np.maximum(np.asarray(load, dtype=float), 0)
    return np.maximum(peak_grip - grip_drop * load, 0) * load


def load_of_most_force(tyre: Tyre):
    """Load beyond which more load means less peak side force on the falling grip curve, [N].

    ``mu_0 / (2 k)``, the top of ``(mu_0 - k Fz) Fz``; inf where grip does not fall, or on another curve.

    Examples
    --------
    >>> round(load_of_most_force(Tyre("falling grip", 1.0, 1.3, 0.19e-3, 5e4)))
    3421
    """
    return tyre.peak_grip / (2 * tyre.grip_drop) if tyre.grip_drop else np.inf


def falling_grip_force(slip, load, peak_grip, grip_drop, cornering_stiffness):
    """Side force of the falling-grip tyre: rises with slip, reaches its peak and stays there, [N].

    The brush curve ``F = D (1 - (1 - x)^3)``, ``x = C tan(slip) / (3 D)`` up to 1.

    Notes
    -----
    E. Fiala's brush model (1954) as in Pacejka, Tyre and Vehicle Dynamics, ch. 3 (from memory).
    """
    peak = np.maximum(falling_grip_peak(load, peak_grip, grip_drop), 1e-9)
    x = np.clip(cornering_stiffness * np.tan(slip) / (3 * peak), -1, 1)
    return peak * np.sign(x) * (1 - (1 - np.abs(x)) ** 3)


def knows_camber(tyre: Tyre) -> bool:
    """Whether a leaning tyre gives another side force than an upright one on the car's curve."""
    return tyre.curve == "magic formula 1987"


def side_force(tyre: Tyre, slip, load, camber=0.0):
    """Side force of the car's own tyre, [N]; arrays broadcast. Camber counts on the 1987 formula alone.

    Raises
    ------
    CarError
        When a slip angle lies beyond 90 deg.
    """
    if np.any(np.abs(slip) > np.pi / 2):
        raise CarError(f"slip: wanted an angle in rad within 90 deg ({np.pi / 2:.2f} rad), given "
                       f"{float(np.nanmax(np.abs(slip))):g}")
    if tyre.curve == "falling grip":
        return falling_grip_force(slip, load, tyre.grip_scale * tyre.peak_grip,
                                  tyre.grip_scale * tyre.grip_drop, tyre.cornering_stiffness)
    if tyre.curve == "magic formula 2006":
        return car_tyre_2006(slip, load, tyre.grip_scale)
    return magic_formula_1987(slip, load, camber, tyre.grip_scale)


def peak_side_force(tyre: Tyre, load):
    """Largest side force of one upright tyre at a load, the grip-load curve, never below zero, [N]."""
    load = np.maximum(np.asarray(load, dtype=float), 0)
    if tyre.curve == "falling grip":
        return tyre.grip_scale * falling_grip_peak(load, tyre.peak_grip, tyre.grip_drop)
    if tyre.curve == "magic formula 2006":
        return tyre.grip_scale * np.maximum(-magic_2006_peak(load), 0)  # minus: the source's signs
    return tyre.grip_scale * np.maximum(magic_peak(load), 0)


def cornering_stiffness(tyre: Tyre, load):
    """Slope of side force at no slip, one upright tyre, [N/rad]; nil for a wheel in the air."""
    if tyre.curve == "falling grip":
        return np.where(np.asarray(load) > 0, tyre.cornering_stiffness, 0.0)
    if tyre.curve == "magic formula 2006":
        return -magic_2006_stiffness(load)
    return magic_stiffness(load)
