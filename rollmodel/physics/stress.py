"""Stress in a bar at the travel its own car reaches. A figure to look at, not a certificate.

Nominal stresses of straight members. Bends, welds, bushing clamps, splines, holes, corrosion and the
number of load cycles are all left out, and they are where bars break.
"""

from dataclasses import dataclass

import numpy as np

from rollmodel.car import Bar, Car, CarError
from rollmodel.physics.bar import (
    arm_lengths,
    blade_root_gives,
    check_sizes,
    effective_link_motion_ratio,
    levers,
    link_rates_one_end_held,
    surface_shear_stress,
)
from rollmodel.physics.corner import AxleLoads, settled_corner
from rollmodel.physics.section_stress import (
    blade_root_stress,
    guide_push,
    largest_shear,
    round_bending_stress,
    von_mises,
)
from rollmodel.physics.sections import round_polar_second_moment
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness


@dataclass(frozen=True)
class BarStress:
    """What one bar sees. Every field broadcasts over travel and holes; nothing here is certified."""

    travel_difference: np.ndarray  # outside wheel travel less inside, relative to the body, m
    link_force: np.ndarray  # square to the arm, N
    torque: np.ndarray  # in the centre section, N*m
    twist: np.ndarray  # of the centre section, end to end, rad
    shear: np.ndarray  # at the surface of the centre section, Pa
    centre_bending: np.ndarray  # at the bushing, Pa; nil with bushings at square arms without guides
    arm_bending: np.ndarray  # at the root of the arm, Pa; nan for arms taken as rigid
    allowable: float | None = None  # given by the user, as a tensile stress, Pa

    @property
    def centre_combined(self):
        """Von Mises stress of the centre section at its worst place, [Pa]."""
        return von_mises(self.centre_bending, self.shear)

    @property
    def centre_largest_shear(self):
        """Largest shear stress of the centre section at its worst place, [Pa]."""
        return largest_shear(self.centre_bending, self.shear)

    @property
    def largest(self):
        """The larger of centre section and arm root, von Mises, [Pa]."""
        return np.fmax(self.centre_combined, self.arm_bending)

    @property
    def where(self):
        """"centre section" or "arm root", whichever is worse."""
        arm = np.nan_to_num(self.arm_bending, nan=-np.inf) > self.centre_combined
        return np.where(arm, "arm root", "centre section")

    @property
    def share_of_allowable(self):
        """Largest stress over the user's allowable, [-]; nan when none was given."""
        return self.largest / (np.nan if self.allowable is None else self.allowable)


def bar_stress(bar: Bar, travel_difference, allowable: float | None = None) -> BarStress:
    """Stress in a bar at every hole for a given difference in wheel travel.

    Link force ``F = k_b MR d`` (one end held, whole difference), torque ``T = F a``, surface shear
    ``16 T D / (pi (D^4 - d^4))``. The arms' bending takes its part of the travel first, so the centre
    section twists less than the travel over the lever.

    Parameters
    ----------
    bar : Bar
    travel_difference : float or array
        `d`, left wheel less right wheel, relative to the body; the last axis of the answer is one of
        holes, so give an array a last axis of one, [m].
    allowable : float, optional
        What the user allows, as a tensile stress, [Pa].

    Returns
    -------
    BarStress
        One entry per hole or blade angle, softest first.

    Raises
    ------
    CarError
        When the allowable is not a finite number above zero, or the bar is known by its rates alone.

    Notes
    -----
    Derived here from the compliances of :mod:`rollmodel.physics.bar`. Linear: a stress beyond yield
    is a sign that the bar would take a set, not a prediction of it.

    Examples
    --------
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=1.0, holes=(0.20,),
    ...           arms="rigid")
    >>> float(np.round(bar_stress(bar, 0.05).shear[0] / 1e6))
    242.0
    """
    if allowable is not None and not (np.isfinite(allowable) and allowable > 0):
        raise CarError(f"allowable: wanted a finite stress above zero, given {allowable!r} Pa")
    check_sizes(bar, "stress of a bar")
    tip_travel = effective_link_motion_ratio(bar) * np.asarray(travel_difference, dtype=float)
    force = np.abs(link_rates_one_end_held(bar) * tip_travel)
    torque = force * levers(bar)
    polar = round_polar_second_moment(bar.outer_diameter, bar.inner_diameter)
    return BarStress(np.broadcast_to(np.asarray(travel_difference, dtype=float), force.shape),
                     force, torque, torque * bar.centre_length / (bar.shear_modulus * polar),
                     surface_shear_stress(torque, bar.outer_diameter, bar.inner_diameter),
                     _centre_bending(bar, force), _arm_bending(bar, force), allowable)


def _centre_bending(bar: Bar, force):
    """At the bushing: the link sits outboard of it, and a guided blade's end is pushed sideways."""
    sweep = np.sqrt(np.maximum(arm_lengths(bar) ** 2 - levers(bar) ** 2, 0))
    overhang = (bar.centre_length - (bar.support_spacing or bar.centre_length)) / 2
    reach = sweep * (1 if bar.arm_sweep == "outward" else -1) + overhang
    worst = np.maximum(np.abs(reach), sweep)  # at the bushing, or where the arm begins
    moment = force * np.hypot(worst, _guide_push(bar) * levers(bar))
    return round_bending_stress(moment, bar.outer_diameter, bar.inner_diameter)


def _guide_push(bar: Bar):
    """Of a blade's guide per newton of its link, [-]; nil without one."""
    if bar.blade is None or bar.blade.tip == "free":
        return 0.0
    return guide_push(bar.blade.width, bar.blade.thickness, np.array(bar.blade.angles), _root_gives(bar))


def _root_gives(bar: Bar):
    return blade_root_gives(bar) * 3 * bar.youngs_modulus / bar.blade.length**3


def _arm_bending(bar: Bar, force):
    if bar.arms == "rigid":
        return np.full_like(force, np.nan)
    if bar.arms == "same section":
        return round_bending_stress(force * arm_lengths(bar), bar.outer_diameter, bar.inner_diameter)
    blade = bar.blade
    return blade_root_stress(force, blade.length, blade.width, blade.thickness,
                             np.array(blade.angles), blade.tip, _root_gives(bar))


def travel_difference(stiff: AxleStiffness, loads: AxleLoads):
    """Outside wheel travel less inside, relative to the body, in a settled corner, [m].

    ``d = t psi`` with `psi` the part of the roll that the suspension takes: the moment through springs
    and bar over their roll stiffness. The tyres take the rest of the body's roll.

    Parameters
    ----------
    stiff : AxleStiffness
    loads : AxleLoads
        The same axle in the corner.

    Returns
    -------
    float or array
        [m].

    Notes
    -----
    Derived here. Once on the bump stop, the stop shares the moment. Right with a wheel off the ground
    too, where the moment stays and the body rolls on.
    """
    moment = loads.elastic * stiff.track
    stop = stiff.suspension_roll_on_stop - stiff.suspension_roll
    met = 2 * stiff.stop_travel / stiff.track
    free = moment / stiff.suspension_roll
    held = np.copysign(stop * np.where(np.isfinite(met), met, 0.0), moment)
    stopped = (moment + held) / stiff.suspension_roll_on_stop
    return stiff.track * np.where(np.abs(free) > met, stopped, free)


def outside_travel(stiff: AxleStiffness, loads: AxleLoads):
    """Bump travel of the outside wheel, relative to the body, in a settled corner, [m].

    Half of :func:`travel_difference`; with a wheel on its bump stop less, for the body rises there by
    ``h = s (|d|/2 - g) / (2 k_w + s)``. Below zero, in droop, where the body leans inward.

    Parameters
    ----------
    stiff : AxleStiffness
    loads : AxleLoads
        The same axle in the corner.

    Returns
    -------
    float or array
        [m].

    Notes
    -----
    Derived here; see :attr:`rollmodel.physics.stiffness.AxleStiffness.stop_rate_in_roll`. With both
    wheels on the ground; with one in the air the body may rise further.
    """
    return _travel(stiff, loads, 1)


def inside_travel(stiff: AxleStiffness, loads: AxleLoads):
    """The same of the inside wheel, [m]: below zero, in droop, unless the body leans inward.

    Parameters
    ----------
    stiff : AxleStiffness
    loads : AxleLoads

    Returns
    -------
    float or array
        [m].
    """
    return _travel(stiff, loads, -1)


def _travel(stiff: AxleStiffness, loads: AxleLoads, side):
    half = travel_difference(stiff, loads) / 2
    beyond = np.maximum(np.abs(half) - stiff.stop_travel, 0.0)
    return side * half - stiff.stop_rate / (2 * stiff.spring_wheel_rate + stiff.stop_rate) * beyond


def stress_in_corner(car: Car, end: str, lateral_acceleration, front: AxleStiffness | None = None,
                     rear: AxleStiffness | None = None, allowable: float | None = None) -> BarStress:
    """Stress in one end's bar, at the hole in use, in a settled corner.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float or array
        [m/s^2].
    front, rear : AxleStiffness, optional
        The other end's setup may differ from the car's own; this end is taken at the car's own hole.
    allowable : float, optional
        What the user allows, as a tensile stress, [Pa].

    Returns
    -------
    BarStress
        nan where the car rolls over.

    Raises
    ------
    CarError
        When there is no bar at that end, or the allowable is not above zero.

    Notes
    -----
    The travel of a settled corner on level ground. Kerbs and one-wheel bumps reach further: for them
    give :func:`bar_stress` the full travel of one wheel.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, bar=bar)
    >>> car = Car("example", "rear", 1250.0, 0.5, 2.5, 0.48, Tyre(), axle, axle)
    >>> stress = stress_in_corner(car, "front", 9.0)
    >>> round(float(stress.shear) / 1e6)
    121
    """
    axle = car.axle(end)
    if axle.bar is None:
        raise CarError(f"[{end}.bar]: wanted a bar to work out its stress, given none at this end")
    own = axle_stiffness(axle)
    setup = {"front": front, "rear": rear, end: own}
    corner = settled_corner(car, lateral_acceleration, setup["front"], setup["rear"])
    travel = np.where(corner.rolls_over, np.nan, travel_difference(own, corner.axle(end)))
    every = bar_stress(axle.bar, travel[..., None], allowable)
    hole = axle.bar.hole - 1
    fields = {name: value[..., hole] for name, value in vars(every).items() if name != "allowable"}
    return BarStress(**fields, allowable=allowable)
