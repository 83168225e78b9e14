"""Section constants of round bars, tubes and rectangles, in m^4."""

import numpy as np


def round_polar_second_moment(outer_diameter, inner_diameter=0.0):
    """Polar second moment of a bar or tube: ``J = pi/32 (D^4 - d^4)``, [m^4].

    Parameters
    ----------
    outer_diameter, inner_diameter : float or array
        Diameters, not radii, [m].

    Examples
    --------
    >>> print(round(round_polar_second_moment(0.026, 0.018) * 1e8, 4))
    3.4558
    """
    return np.pi / 32 * (np.asarray(outer_diameter) ** 4 - np.asarray(inner_diameter) ** 4)


def round_second_moment(outer_diameter, inner_diameter=0.0):
    """Second moment for bending of a bar or tube, half the polar one, [m^4]."""
    return round_polar_second_moment(outer_diameter, inner_diameter) / 2


def rectangle_second_moment(width, height):
    """Second moment of a rectangle, bent across its height: ``width height^3 / 12``, [m^4]."""
    return np.asarray(width) * np.asarray(height) ** 3 / 12


def rectangle_torsion_constant(long_side, short_side):
    """Saint-Venant torsion constant of a rectangle, ``k long short^3``, [m^4].

    The exact series: ``k = 1/3 [1 - 192/pi^5 (s/l) sum tanh(n pi l / 2 s) / n^5]``, n odd.

    Notes
    -----
    Timoshenko & Goodier, Theory of Elasticity, article on torsion of rectangular bars.

    Examples
    --------
    >>> print(round(rectangle_torsion_constant(0.002, 0.001) * 1e12 / 2, 5))
    0.22868
    """
    ratio = np.asarray(long_side) / np.asarray(short_side)
    n = np.arange(1, 40, 2).reshape((-1,) + (1,) * ratio.ndim)
    series = np.sum(np.tanh(n * np.pi * ratio / 2) / n**5, axis=0)
    factor = (1 - 192 / np.pi**5 / ratio * series) / 3
    return factor * np.asarray(long_side) * np.asarray(short_side) ** 3
