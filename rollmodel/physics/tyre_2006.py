"""A second tyre: side force with the published 2006 coefficients of one passenger-car tyre, 205/60R15.

Signs are the source's own: a positive slip angle gives a negative side force. The tyre is not
quite the same to both sides (ply steer and conicity), so neither is its curve.
"""

import numpy as np

MAGIC_2006 = {
    "Fz0": 4000.0, "pCy1": 1.193, "pDy1": -0.990, "pDy2": 0.145, "pEy1": -1.003, "pEy2": -0.537,
    "pEy3": -0.083, "pKy1": -14.95, "pKy2": 2.130, "pKy4": 2.0, "pHy1": 0.003, "pHy2": -0.001,
    "pVy1": 0.045, "pVy2": -0.024,
}
_P = MAGIC_2006


def load_change(load):
    """``dfz = (Fz - Fz0) / Fz0``, how far the load is from the nominal one, [-]."""
    return (np.asarray(load, dtype=float) - _P["Fz0"]) / _P["Fz0"]


def magic_2006_peak(load):
    """``D = (pDy1 + pDy2 dfz) Fz``, negative in the source's signs, [N]."""
    return (_P["pDy1"] + _P["pDy2"] * load_change(load)) * load


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
    load = np.maximum(np.asarray(load, dtype=float), 1e-3)
    change, peak = load_change(load), magic_2006_peak(load)
    x = np.tan(slip) + _P["pHy1"] + _P["pHy2"] * change
    bx = magic_2006_stiffness(load) / (_P["pCy1"] * peak) * x
    curvature = (_P["pEy1"] + _P["pEy2"] * change) * (1 - _P["pEy3"] * np.sign(x))
    shape = np.sin(_P["pCy1"] * np.arctan(bx - curvature * (bx - np.arctan(bx))))
    return peak * shape + load * (_P["pVy1"] + _P["pVy2"] * change)
