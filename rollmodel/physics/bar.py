"""How stiff a bar is at its link: torsion, bending arms, supports, blades, and what sits in series.

Every rate here belongs to **one** link. Two rates are in use and each function says which:

one end held
    force at one link per metre of its travel while the other link does not move, `k_b`;
in roll
    force at each link per metre of its own travel while the links move apart by equal
    amounts, `2 k_b`. The bar twists twice as much for the same link travel.

Compliances (m/N, of one link, in roll) add, because everything along one half of the bar
carries the same link force.
"""

import numpy as np

from rollmodel.car import Bar, CarError
from rollmodel.physics.sections import (
    rectangle_second_moment,
    round_polar_second_moment,
    round_second_moment,
)


def torsion_rate_one_end_held(shear_modulus, polar_second_moment, centre_length, lever):
    """Link rate from twist of the centre section alone, one end held: ``G J / (L a^2)``, [N/m].

    Parameters
    ----------
    shear_modulus : float or array
        `G`, [Pa].
    polar_second_moment : float or array
        `J` of the centre section, [m^4].
    centre_length : float or array
        `L`, between the arms, [m].
    lever : float or array
        `a`, square distance from bar axis to link, [m].

    Notes
    -----
    Saint-Venant torsion of a round section; rigid arms.

    Examples
    --------
    >>> print(round(torsion_rate_one_end_held(79e9, 3.4558e-8, 0.9, 0.25) / 1000, 1))
    48.5
    """
    return shear_modulus * polar_second_moment / (centre_length * np.asarray(lever) ** 2)


def torsion_compliance(shear_modulus, polar_second_moment, centre_length, lever):
    """Compliance of one link in roll from twist of the centre section: ``L a^2 / (2 G J)``, [m/N]."""
    return 0.5 / torsion_rate_one_end_held(shear_modulus, polar_second_moment, centre_length, lever)


def cantilever_compliance(length, youngs_modulus, second_moment):
    """Compliance of an arm that bends as a cantilever: ``l^3 / (3 E I)``, [m/N]."""
    return np.asarray(length) ** 3 / (3 * youngs_modulus * second_moment)


def blade_compliance(length, width, thickness, angle, youngs_modulus, tip="free", root_gives=0.0):
    """Compliance of a blade arm turned about its own axis, [m/N].

    With a free tip compliances add,
    ``l^3/(3E) (cos^2 beta / I_flat + sin^2 beta / I_edge)``; with a tip that cannot move
    sideways and a root built in stiffnesses add,
    ``3E/l^3 (I_flat cos^2 beta + I_edge sin^2 beta)``. A root that gives sideways lies between.

    Parameters
    ----------
    length, width, thickness : float or array
        Free length, long and short side of the section, [m].
    angle : float or array
        `beta`, 0 lying flat (soft), pi/2 on edge (stiff), [rad].
    youngs_modulus : float
        [Pa].
    tip : {"free", "guided"}
        Whether the tip may move sideways.
    root_gives : float or array, optional
        How far the guide's push lets the tip move sideways because the root turns, [m/N]; see
        :func:`root_sideways_compliance`. No part of a free tip.

    Notes
    -----
    Unsymmetrical bending, small deflections, no twist of the blade (derived here; a rectangle
    has no product of inertia about its own axes). Guided: the guide pushes sideways until the tip
    stands still, ``c_vv - c_vs^2 / (c_ss + c_root)`` of the blade's compliances up and sideways.

    Examples
    --------
    >>> print(round(1e-3 / blade_compliance(0.15, 0.020, 0.004, np.pi / 2, 207e9), 3))
    490.667
    """
    flat = cantilever_compliance(length, youngs_modulus, rectangle_second_moment(width, thickness))
    edge = cantilever_compliance(length, youngs_modulus, rectangle_second_moment(thickness, width))
    cos, sin = np.cos(angle), np.sin(angle)
    free = cos**2 * flat + sin**2 * edge
    if tip == "free":
        return free
    return free - (sin * cos * (flat - edge)) ** 2 / (sin**2 * flat + cos**2 * edge + root_gives)


def root_sideways_compliance(centre_length, support_spacing, lever, youngs_modulus, second_moment):
    """Sideways travel of a blade's tip, per newton of its guide, because the centre section bends, [m/N].

    ``a^2 (S/6 + c) / (E I)``: the guide's push, a lever `a` away, turns the end of the centre section.

    Parameters
    ----------
    centre_length, support_spacing : float
        Between the blades, and between the bushings `S`; ``c = (L - S)/2`` is the overhang, [m].
    lever : float or array
        `a`, from the bar's axis to the link, [m].
    youngs_modulus, second_moment : float
        [Pa], [m^4].

    Notes
    -----
    Derived here. Two blades turned alike, one the mirror image of the other: in roll both guides push
    the same way, so the moment falls in a straight line to nil at mid-span. The bar is held along its
    axis; bushings do not give sideways and do not resist tilting.

    Examples
    --------
    >>> print(round(1e9 * root_sideways_compliance(0.9, 0.9, 0.2, 206e9, 1.15e-8), 1))
    2532.7
    """
    overhang = (centre_length - support_spacing) / 2
    return np.asarray(lever) ** 2 * (support_spacing / 6 + overhang) / (youngs_modulus * second_moment)


def blade_root_gives(bar: Bar) -> np.ndarray:
    """:func:`root_sideways_compliance` of a bar with blades, one entry per angle, [m/N]."""
    return root_sideways_compliance(
        bar.centre_length, bar.support_spacing or bar.centre_length, levers(bar), bar.youngs_modulus,
        round_second_moment(bar.outer_diameter, bar.inner_diameter))


def centre_bending_compliance(centre_length, support_spacing, sweep_offset, youngs_modulus,
                              second_moment):
    """Compliance of one link in roll from bending of the centre section, [m/N].

    The link force acts outboard of its bushing by ``e + c``, where ``c`` is the overhang of
    the centre section beyond the bushing and ``e`` how far the link sits outboard of the arm.
    In roll the two ends pull in opposite directions, so the moment falls in a straight line
    to nil at mid-span. With ``S`` the support spacing::

        [ ((e + c)^3 - e^3) / 3 + (e + c)^2 S / 6 ] / (E I)

    Parameters
    ----------
    centre_length, support_spacing : float
        Between the arms, and between the bushings (at most the centre length), [m].
    sweep_offset : float or array
        `e`, positive with arms swept outward, negative inward, [m].
    youngs_modulus, second_moment : float
        [Pa], [m^4].

    Notes
    -----
    Derived here from the bending energy (Castigliano). Bushings taken as simple supports that
    do not resist tilting.
    """
    overhang = (centre_length - support_spacing) / 2
    reach = np.asarray(sweep_offset) + overhang
    outside = (reach**3 - np.asarray(sweep_offset) ** 3) / 3
    return (outside + reach**2 * support_spacing / 6) / (youngs_modulus * second_moment)


def check_sizes(bar: Bar, what: str) -> None:
    """Refuse what only a bar's sizes can tell.

    Parameters
    ----------
    bar : Bar
    what : str
        What is asked for, as the message begins.

    Raises
    ------
    CarError
        The bar is known by its rates alone.
    """
    if bar.rates is not None:
        raise CarError(f"{what}: wanted a bar's sizes, given its rates alone; give the sizes in the sheet, "
                       "in place of the rates")


def levers(bar: Bar) -> np.ndarray:
    """Square distance from bar axis to link at each hole or blade angle, [m], softest first."""
    check_sizes(bar, "levers")
    if bar.blade is None:
        return np.array(bar.holes)
    lever = bar.holes[0] if bar.holes else bar.blade.length
    return np.full(len(bar.blade.angles), lever)


def arm_lengths(bar: Bar) -> np.ndarray:
    """Length along the arm at each hole, [m]; the lever itself when the arms are not swept."""
    return levers(bar) if bar.arm_lengths is None else np.array(bar.arm_lengths)


def compliance_parts(bar: Bar) -> dict[str, np.ndarray]:
    """Compliance of one link in roll at each hole or blade angle, by what bends or twists, [m/N].

    Returns
    -------
    dict of str to numpy.ndarray, each of shape (positions,)
        ``twist`` of the centre section, ``arm`` bending, ``centre bending``, ``bushing``, ``link``.
    """
    check_sizes(bar, "parts of the compliance")
    size, inner = bar.outer_diameter, bar.inner_diameter
    a, along = levers(bar), arm_lengths(bar)
    second_moment = round_second_moment(size, inner)
    offset = np.sqrt(np.maximum(along**2 - a**2, 0)) * (1 if bar.arm_sweep == "outward" else -1)
    nothing = np.zeros_like(a)
    return {
        "twist": torsion_compliance(bar.shear_modulus, round_polar_second_moment(size, inner),
                                    bar.centre_length, a),
        "arm": _arm_compliance(bar, along, second_moment),
        "centre bending": centre_bending_compliance(
            bar.centre_length, bar.support_spacing or bar.centre_length, offset,
            bar.youngs_modulus, second_moment),
        "bushing": nothing + (1 / bar.bushing_rate if bar.bushing_rate else 0),
        "link": nothing + (1 / bar.link_rate if bar.link_rate else 0),
    }


def _arm_compliance(bar: Bar, along, second_moment):
    if bar.arms == "rigid":
        return np.zeros_like(along)
    if bar.arms == "same section":
        return cantilever_compliance(along, bar.youngs_modulus, second_moment)
    blade = bar.blade
    return blade_compliance(blade.length, blade.width, blade.thickness, np.array(blade.angles),
                            bar.youngs_modulus, blade.tip, blade_root_gives(bar))


def link_rates_in_roll(bar: Bar) -> np.ndarray:
    """Rate at each link **in roll** (both ends moving apart, `2 k_b`), per hole, [N/m].

    From the bar's sizes; twice its rates with one end held where those are given.
    """
    if bar.rates is not None:
        return 2 * np.array(bar.rates)
    return 1 / sum(compliance_parts(bar).values())


def link_rates_one_end_held(bar: Bar) -> np.ndarray:
    """Rate at one link with the other **held** (`k_b`), per hole, [N/m]: half the rate in roll."""
    return link_rates_in_roll(bar) / 2


def leaning_link_ratio(lean_at_arm, lean_at_pickup):
    """Travel of the bar's arm over travel of the pick-up through a leaning link, [-].

    ``cos(lean at pick-up) / cos(lean at arm)``: a rigid link moves alike along itself at both ends.
    A lean at the pick-up passes on less. A lean at the arm shortens the lever that the link really
    has, so the arm moves further and the bar feels stiffer.

    Parameters
    ----------
    lean_at_arm, lean_at_pickup : float or array
        Angle between the link and the direction in which that end of it travels, [rad].

    Notes
    -----
    Derived here from the motion of a rigid link, small travels.

    Examples
    --------
    >>> round(float(leaning_link_ratio(0.0, np.radians(20))), 4)
    0.9397
    """
    return np.cos(lean_at_pickup) / np.cos(lean_at_arm)


def effective_link_motion_ratio(bar: Bar) -> float:
    """Travel of the bar's arm over wheel travel, with what leaning links change, [-]."""
    return bar.link_motion_ratio * leaning_link_ratio(bar.link_lean_at_arm, bar.link_lean_at_pickup)


def surface_shear_stress(torque, outer_diameter, inner_diameter=0.0):
    """Shear stress at the bar's surface: ``16 T D / (pi (D^4 - d^4))``, [Pa]."""
    return 16 * torque * outer_diameter / (np.pi * (outer_diameter**4 - inner_diameter**4))
