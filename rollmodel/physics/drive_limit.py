"""The most drive that an end can pass while it still holds the corner, tyre by tyre.

:mod:`rollmodel.physics.traction` says where the inside driven wheel *begins* to spin, at the slip angle
of the coasting car. Here the slip angle follows the drive: the inside wheel gives up its side force, the
outside wheel takes it over, and the end goes on until the inside wheel spins or the end slides.
"""

from dataclasses import dataclass

import numpy as np

from rollmodel.car import Car, CarError, Tyre
from rollmodel.checked import is_finite
from rollmodel.physics.balance import drive_shares
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.driven import left_beside_drive
from rollmodel.physics.pair import axle_arguments, highest_over_slip
from rollmodel.physics.roots import find_root
from rollmodel.physics.stiffness import AxleStiffness
from rollmodel.physics.tyre import peak_side_force, side_force


def largest_side_force_beside_drive(tyre: Tyre, drive, outside, inside, lean_outside=0.0, lean_inside=0.0,
                                    drive_grip: float = 1.0):
    """The most side force an axle gives at one slip angle while each wheel passes the same drive, [N].

    ``max over slip of sum(Fy_i(slip) sqrt(1 - (Fx / Fx_max,i)^2))``

    Parameters
    ----------
    tyre : Tyre
    drive : float or array
        Of **one** wheel; an open differential gives both the same, [N].
    outside, inside : float or array
        Wheel loads, [N].
    lean_outside, lean_inside : float or array, optional
        Lean towards the inside of the corner, [rad].
    drive_grip : float, optional
        Largest drive over largest side force of one tyre at the same load, [-].

    Returns
    -------
    float or array
        [N].

    Notes
    -----
    Derived here from :func:`left_beside_drive`; both tyres work at one slip angle.

    Examples
    --------
    >>> print(np.round(largest_side_force_beside_drive(Tyre(), np.array([0.0, 1000.0]), 4000.0, 2000.0)))
    [5624. 5207.]
    """
    def force(slip, kept_outside, kept_inside, outside, inside, *leans):
        return (kept_outside * side_force(tyre, slip, outside, leans[0])
                + kept_inside * side_force(tyre, slip, inside, leans[1]))

    kept = [left_beside_drive(drive, _largest_drive(tyre, load, drive_grip)) for load in (outside, inside)]
    return highest_over_slip(force, *kept, outside, inside, lean_outside, lean_inside)[0]


def _largest_drive(tyre: Tyre, load, drive_grip):
    return np.maximum(drive_grip * peak_side_force(tyre, load), 1e-9)  # N; a hanging wheel passes nothing


@dataclass(frozen=True)
class EndDrive:
    """The most one driven end can pass; nan where it cannot hold the corner even when coasting."""

    drive: np.ndarray  # both wheels together, N
    inside_spins: np.ndarray  # bool: the inside wheel spins first; else the end slides first
    shared_by_grip: np.ndarray  # what it could pass if each wheel got drive as it has grip, N

    @property
    def cost_of_open_differential(self):
        """Drive lost because both wheels must get the same, [N]."""
        return self.shared_by_grip - self.drive


def end_drive(car: Car, end: str, lateral_acceleration, front: AxleStiffness | None = None,
              rear: AxleStiffness | None = None, drive_grip: float = 1.0) -> EndDrive:
    """The most drive that one end passes through an open differential while it holds the corner.

    The largest `X` up to ``2 Fx_max,inside`` with
    ``max over slip of sum(Fy_i(slip) sqrt(1 - (X / (2 Fx_max,i))^2)) >= m_i a_y``.

    Parameters
    ----------
    car : Car
        Its ``drive`` does not matter here.
    end : {"front", "rear"}
    lateral_acceleration : float or array
        [m/s^2].
    front, rear : AxleStiffness, optional
        Other setups than the car's own; arrays broadcast.
    drive_grip : float, optional
        Largest drive over largest side force of one tyre at the same load, [-].

    Returns
    -------
    EndDrive

    Raises
    ------
    CarError
        When ``drive_grip`` is not a finite number above zero.

    Notes
    -----
    Derived here. ``shared_by_grip`` has the closed form
    ``sum(Fx_max,i) sqrt(1 - (m_i a_y / F_y,max)^2)``: with every tyre at the same part of its drive, the
    whole axle has one ellipse. It is the most that any differential could pass (within 0.02 %, where
    tyres lean, on the car of `tests/validation`). Left out: load
    transfer fore and aft under acceleration (it helps a driven rear, hurts a driven front), the pull of
    a limited-slip differential on yaw, drag of the tyres, the engine. Not to be used for standing
    starts on split surfaces.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> car = Car("example", "rear", 1250.0, 0.52, 2.5, 0.48, Tyre(), axle, axle)
    >>> found = end_drive(car, "rear", 6.0)
    >>> print(np.round(found.drive), found.inside_spins, np.round(found.cost_of_open_differential))
    3316.0 False 841.0
    """
    if not (is_finite(drive_grip) and drive_grip > 0):
        raise CarError(f"drive_grip: wanted a finite number above zero, given {drive_grip!r}")
    corner = settled_corner(car, np.abs(lateral_acceleration), front, rear)  # the other way it is the mirror
    loads = np.broadcast_arrays(*axle_arguments(car.axle(end), corner.axle(end)))
    need = car.axle_mass(end) * corner.lateral_acceleration
    each = [_largest_drive(car.tyre, load, drive_grip) for load in loads[:2]]
    drive, spins, coasting = _most(car.tyre, need, loads, each[1], drive_grip)
    holds = (need <= coasting) & ~corner.rolls_over
    shared = sum(each) * left_beside_drive(need, coasting)
    return EndDrive(np.where(holds, drive, np.nan), spins & holds, np.where(holds, shared, np.nan))


def _most(tyre: Tyre, need, loads, per_wheel, drive_grip):
    """Drive of both wheels, whether the inside one spins, and the side force when coasting."""
    def spare(drive, need, *loads):
        return largest_side_force_beside_drive(tyre, drive, *loads, drive_grip=drive_grip) - need

    nothing = np.zeros_like(per_wheel)
    coasting, spinning = spare(nothing, 0.0, *loads), spare(per_wheel, 0.0, *loads)
    spins, between = spinning >= need, (spinning < need) & (need < coasting)
    demand = np.where(between, need, (coasting + spinning) / 2)  # only so that every search has a root
    root = find_root(spare, (nothing, per_wheel), args=(demand, *loads),
                     tolerances={"xatol": 1e-9, "xrtol": 1e-10}).x
    drive = np.where(spins, per_wheel, np.where(between, root, 0.0))
    return 2 * drive, spins, coasting


def drive_limit(car: Car, lateral_acceleration, front: AxleStiffness | None = None,
                rear: AxleStiffness | None = None, drive_grip: float = 1.0):
    """The most drive the whole car passes in a corner, by where its engine drives, [N].

    One driven end: what that end passes. All wheels: each end has its share of the drive
    (:func:`rollmodel.physics.balance.drive_shares`), and the first to have no more sets the whole.

    Parameters
    ----------
    car : Car
    lateral_acceleration, front, rear, drive_grip
        As for :func:`end_drive`.

    Returns
    -------
    float or array
        [N]; over the car's mass, the acceleration out of the corner before any drag. nan where an end
        cannot hold the corner.

    Raises
    ------
    CarError
        When ``drive_grip`` is not a finite number above zero.

    Notes
    -----
    The undriven end has to hold the corner too. Limits as in :func:`end_drive`.

    Examples
    --------
    >>> from rollmodel.car import Axle, Car, Tyre
    >>> end = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...            spring_rate=60e3, spring_motion_ratio=0.7)
    >>> car = Car("example", "rear", 1250.0, 0.5, 2.5, 0.48, Tyre(), end, end)
    >>> print(np.round(drive_limit(car, np.array([2.0, 5.0, 8.0]))))
    [5033. 3881. 2128.]
    """
    ends = {end: end_drive(car, end, lateral_acceleration, front, rear, drive_grip).drive
            for end in ("front", "rear")}
    whole = [ends[end] / share if share else np.where(np.isnan(ends[end]), np.nan, np.inf)
             for end, share in drive_shares(car).items()]
    return np.minimum(*whole)
