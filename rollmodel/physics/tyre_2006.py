"""A second tyre: side force with the published 2006 coefficients of one passenger-car tyre, 205/60R15.

Signs are the source's own, a positive slip angle gives a negative side force; only
:func:`car_tyre_2006`, the tyre as a car wears it, has the project's. The tyre measured is not quite
the same to both sides (ply steer and conicity), so neither is its curve; a car's tyre is.
"""

import numpy as np

MAGIC_2006 = {
    "Fz0": 4000.0, "pCy1": 1.193, "pDy1": -0.990, "pDy2": 0.145, "pEy1": -1.003, "pEy2": -0.537,
    "pEy3": -0.083, "pKy1": -14.95, "pKy2": 2.130, "pKy4": 2.0, "pHy1": 0.003, "pHy2": -0.001,
    "pVy1": 0.045, "pVy2": -0.024,
}
_P = MAGIC_2006
_LEAST = 1e-3  # N: a wheel in the air, without a division by nothing


def load_change(load):
    """``dfz = (Fz - Fz0) / Fz0``, how far the load is from the nominal one, [-]."""
    return (np.asarray(load, dtype=float) - _P["Fz0"]) / _P["Fz0"]


def magic_2006_peak(load):
    """``D = (pDy1 + pDy2 dfz) Fz``, negative in the source's signs, [N]."""
    return (_P["pDy1"] + _P["pDy2"] * load_change(load)) * load


def straight_line_2006():
    """Grip at no load [-] and its loss per newton of load [1/N]: ``|D| / Fz = mu_0 - k Fz``.

    Examples
    --------
    >>> grip, drop = straight_line_2006()
    >>> print(round(grip, 3), round(1e6 * drop, 2))  # per MN
    1.135 36.25
    """
    return _P["pDy2"] - _P["pDy1"], _P["pDy2"] / _P["Fz0"]


def magic_2006_stiffness(load):
    """Slope ``K = pKy1 Fz0 sin(pKy4 atan(Fz / (pKy2 Fz0)))``, negative in the source's signs, [N/rad]."""
    angle = np.arctan(np.asarray(load) / (_P["pKy2"] * _P["Fz0"]))
    return _P["pKy1"] * _P["Fz0"] * np.sin(_P["pKy4"] * angle)


def magic_formula_2006(slip, load):
    """Side force without camber, ``Fy = D sin(C atan(Bx - E(Bx - atan Bx))) + Sv``, [N].

    Formula: ``x = tan(slip) + pHy1 + pHy2 dfz``, ``E = (pEy1 + pEy2 dfz)(1 - pEy3 sgn x)``,
    ``B = K / (C D)``, ``Sv = Fz (pVy1 + pVy2 dfz)``.

    Parameters
    ----------
    slip : float or array
        Slip angle, positive gives a negative side force, [rad].
    load : float or array
        Vertical load, zero or more, [N].

    Notes
    -----
    H. B. Pacejka, Tyre and Vehicle Dynamics, 2nd edition (2006), Table A3.1; coefficients second-hand.
    Meant for about 1 to 8 kN and 15 deg. Pure slip, no camber.

    Examples
    --------
    >>> print(round(float(magic_formula_2006(np.radians(-6), 4000.0)), 2))
    3594.76
    """
    load = np.maximum(np.asarray(load, dtype=float), _LEAST)
    change = load_change(load)
    x = np.tan(slip) + _P["pHy1"] + _P["pHy2"] * change
    curvature = _curvature(load) * (1 - _P["pEy3"] * np.sign(x))
    force = _shape(x, magic_2006_peak(load), magic_2006_stiffness(load), curvature)
    return force + load * (_P["pVy1"] + _P["pVy2"] * change)


def _curvature(load):
    """``pEy1 + pEy2 dfz``, the same to both sides, [-]."""
    return _P["pEy1"] + _P["pEy2"] * load_change(load)


def _shape(x, peak, stiffness, curvature):
    """``D sin(C atan(Bx - E(Bx - atan Bx)))`` with ``B = K / (C D)``, [N]."""
    bx = stiffness / (_P["pCy1"] * peak) * x
    return peak * np.sin(_P["pCy1"] * np.arctan(bx - curvature * (bx - np.arctan(bx))))


def car_tyre_2006(slip, load, grip_scale=1.0):
    """Side force of that tyre on a car, alike to both sides, positive with positive slip, [N].

    Parameters
    ----------
    slip : float or array
        Slip angle, positive pushes the car towards the inside of the corner, [rad].
    load : float or array
        Vertical load, zero or more, [N].
    grip_scale : float or array
        Multiplies the peak `D`; the slope at no slip stays, [-].

    Notes
    -----
    The shifts ``pHy``, ``pVy`` and the one-sided curvature ``pEy3`` are left out. They belong to one
    tyre rolling one way: they push it to the same side in a left and in a right corner, at 4 kN by
    1.0 % of its load at no slip, 2.1 % at 4 deg and 4.4 % at 12 deg (half the sum of the two ways), so
    one corner would grip more than the other. The quotation does not say for
    which side of the car it was measured, and a tyre fitted to the other side is turned round: that
    mirrors its conicity but not its ply steer, so neither the tyre nor its mirror would be right
    there. What is left is, within 0.2 % from 1 to 8 kN, the mean of the two directions.

    Examples
    --------
    >>> print(round(float(car_tyre_2006(np.radians(6), 4000.0))))
    3473
    """
    load = np.maximum(np.asarray(load, dtype=float), _LEAST)
    peak = magic_2006_peak(load) * grip_scale
    return -_shape(np.tan(slip), peak, magic_2006_stiffness(load), _curvature(load))
