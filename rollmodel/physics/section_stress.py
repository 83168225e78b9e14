"""Nominal stresses of straight round and rectangular members, and how two at one place are added."""

import numpy as np

from rollmodel.physics.sections import rectangle_second_moment


def round_bending_stress(moment, outer_diameter, inner_diameter=0.0):
    """Stress at the surface of a round bar or tube in bending: ``32 M D / (pi (D^4 - d^4))``, [Pa].

    Parameters
    ----------
    moment : float or array
        [N*m].
    outer_diameter, inner_diameter : float
        [m].

    Returns
    -------
    float or array
        [Pa].

    Notes
    -----
    Any text on strength of materials; below yield, away from bends and holes.

    Examples
    --------
    >>> round(round_bending_stress(100.0, 0.02) / 1e6, 2)
    127.32
    """
    return 32 * moment * outer_diameter / (np.pi * (outer_diameter**4 - inner_diameter**4))


def rectangle_bending_stress(flat_moment, edge_moment, width, thickness):
    """Largest stress of a rectangle bent about both its axes, at a corner, [Pa].

    ``6 M_flat / (w t^2) + 6 M_edge / (t w^2)``

    Parameters
    ----------
    flat_moment, edge_moment : float or array
        Bending it across its thin side, and across its wide side, [N*m].
    width, thickness : float
        `w` and `t`, the long and the short side, [m].

    Returns
    -------
    float or array
        [Pa].

    Notes
    -----
    Unsymmetrical bending; Beer & Johnston, Mechanics of Materials: 1.5 x 3.5 in, 1600 lbf*in at
    30 deg give 1062 psi.

    Examples
    --------
    >>> print(round(rectangle_bending_stress(10.0, 0.0, 0.02, 0.004) / 1e6, 1))
    187.5
    """
    flat = np.abs(flat_moment) * thickness / 2 / rectangle_second_moment(width, thickness)
    edge = np.abs(edge_moment) * width / 2 / rectangle_second_moment(thickness, width)
    return flat + edge


def guide_push(width, thickness, angle, root_gives=0.0):
    """Sideways push of a blade's guide per newton of its link, ``c_vs / (c_ss + c_root)``, [-].

    Parameters
    ----------
    width, thickness : float or array
        [m].
    angle : float or array
        0 lying flat (soft), pi/2 on edge (stiff), [rad].
    root_gives : float or array, optional
        As for :func:`blade_root_stress`, [1/m^4].

    Returns
    -------
    float or array
        Nil lying flat and on edge.

    Notes
    -----
    Derived here; see :func:`rollmodel.physics.bar.blade_compliance`.

    Examples
    --------
    >>> print(round(float(guide_push(0.02, 0.004, np.pi / 4)), 3))
    0.923
    """
    flat, edge = np.cos(angle), np.sin(angle)
    gives_flat = 1 / rectangle_second_moment(width, thickness)
    gives_edge = 1 / rectangle_second_moment(thickness, width)
    aside = flat * edge * (gives_flat - gives_edge)
    return aside / (edge**2 * gives_flat + flat**2 * gives_edge + root_gives)


def blade_root_stress(force, length, width, thickness, angle, tip="free", root_gives=0.0):
    """Largest bending stress at the root of a blade arm turned about its own axis, [Pa].

    Parameters
    ----------
    force : float or array
        At the link, square to the blade and to the bar, [N].
    length, width, thickness : float
        [m].
    angle : float or array
        0 lying flat (soft), pi/2 on edge (stiff), [rad].
    tip : {"free", "guided"}
        A guided tip cannot move sideways; its guide pushes back and changes the split.
    root_gives : float or array, optional
        Sideways compliance of the root times ``3 E / l^3``, [1/m^4]; nil for a root built in.

    Returns
    -------
    float or array
        [Pa].

    Notes
    -----
    Derived here. Free: the force's own parts along the two sides, ``F cos beta`` and ``F sin beta``.
    Guided: the guide adds a force sideways, as large as it takes to keep the tip where it is.

    Examples
    --------
    >>> print(np.round(blade_root_stress(80.0, 0.15, 0.02, 0.004, np.array([0.0, np.pi / 2])) / 1e6))
    [225.  45.]
    """
    flat, edge = np.cos(angle), np.sin(angle)
    if tip == "guided":
        guide = guide_push(width, thickness, angle, root_gives)
        flat, edge = flat - guide * edge, edge + guide * flat
    return rectangle_bending_stress(force * length * flat, force * length * edge, width, thickness)


def von_mises(bending, shear):
    """One figure for bending and torsion at the same place: ``sqrt(s^2 + 3 tau^2)``, [Pa].

    Parameters
    ----------
    bending, shear : float or array
        [Pa].

    Returns
    -------
    float or array
        To hold against a tensile yield or fatigue strength, [Pa].

    Notes
    -----
    Distortion energy, any text on strength of materials; ductile steel.

    Examples
    --------
    >>> round(float(von_mises(100e6, 100e6)) / 1e6)
    200
    """
    return np.sqrt(np.asarray(bending) ** 2 + 3 * np.asarray(shear) ** 2)


def largest_shear(bending, shear):
    """Largest shear stress under bending and torsion: ``sqrt((s/2)^2 + tau^2)``, [Pa].

    Parameters
    ----------
    bending, shear : float or array
        [Pa].

    Returns
    -------
    float or array
        To hold against a strength in shear, [Pa].

    Notes
    -----
    Mohr's circle, any text on strength of materials.

    Examples
    --------
    >>> print(round(largest_shear(120e6, 80e6) / 1e6))
    100
    """
    return np.sqrt((np.asarray(bending) / 2) ** 2 + np.asarray(shear) ** 2)
