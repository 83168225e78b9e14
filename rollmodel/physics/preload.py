"""Bar preload: what links of unequal length do to the four wheel loads of the standing car.

Sign: a positive link difference is a left link that is too long for its bar, taken as pressing the
left wheel *down*, as a link does that stands on the suspension arm and carries the bar's arm on top.
Where the bar hangs below its pick-ups the sign turns round.
"""

import numpy as np

from rollmodel.car import Axle, Car, CarError
from rollmodel.physics.bar import effective_link_motion_ratio
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.physics.warp import ENDS, FourLoads, loads_from_axle_angles


def _require_bar(axle: Axle, end: str):
    if axle.bar is None:
        raise CarError(f"[{end}] link difference: wanted 0 because there is no bar at this end; "
                       f"leave it out, or add the [{end}.bar] table")


def preload_force(axle: Axle, stiff: AxleStiffness, link_difference, end: str = "axle"):
    """Force that the bar puts into each wheel while the wheels cannot move, [N].

    ``F = k_b MR delta``, with `k_b` the link rate with one end held: two wheels held still and one
    link too long by `delta` twist the bar as on the bench.

    Parameters
    ----------
    axle : Axle
        With a bar.
    stiff : AxleStiffness
        The same axle's stiffness, for the hole in use.
    link_difference : float or array
        `delta`, left link less right link beyond what fits, [m].
    end : {"front", "rear"}, optional
        For the message only.

    Returns
    -------
    float or array
        Down on the left wheel, up on the right one, [N].

    Raises
    ------
    CarError
        When the axle has no bar.

    Notes
    -----
    Derived here. For links that lean, `delta` is the gap at the end of the bar's arm.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> from rollmodel.physics.stiffness import axle_stiffness
    >>> print(round(preload_force(axle, axle_stiffness(axle), 0.005)))
    136
    """
    _require_bar(axle, end)
    return stiff.bar_wheel_rate * np.asarray(link_difference) / effective_link_motion_ratio(axle.bar)


def preload_angle(axle: Axle, stiff: AxleStiffness, link_difference, end: str = "axle"):
    """Ground lean that would do to the car what the preload does, [rad].

    ``theta = F t / (K_springs + K_bar)``

    Parameters
    ----------
    axle, stiff, link_difference, end
        As for :func:`preload_force`.

    Returns
    -------
    float or array
        Positive as though the ground under the left wheel were raised, [rad].

    Raises
    ------
    CarError
        When the axle has no bar.

    Notes
    -----
    Derived here: a spring with a force built in acts as the same spring, stretched by
    force over rate. The rate is that of the suspension alone; the tyre follows in series.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> from rollmodel.physics.stiffness import axle_stiffness
    >>> print(round(np.degrees(preload_angle(axle, axle_stiffness(axle), 0.005)), 3))
    0.168
    """
    force = preload_force(axle, stiff, link_difference, end)
    return force * axle.track / stiff.suspension_roll


def loads_with_preload(car: Car, front_difference=0.0, rear_difference=0.0,
                       front: AxleStiffness | None = None, rear: AxleStiffness | None = None) -> FourLoads:
    """Four wheel loads of the car standing on level ground with links of unequal length.

    Parameters
    ----------
    car : Car
        The same on its left and right but for the links.
    front_difference, rear_difference : float or array
        Left link less right link beyond what fits, see the sign above, [m].
    front, rear : AxleStiffness, optional
        Other holes than those in use; they must belong to this car's own bars.

    Returns
    -------
    FourLoads
        Never negative; a wheel without load left is reported as lifted.

    Raises
    ------
    CarError
        When a difference is given for an end without a bar.

    Notes
    -----
    Derived here; tyres in series and chassis torsion included, see
    :func:`rollmodel.physics.warp.wheel_loads_on_ground` for the limits. Axle totals stay, and
    side totals move only by what the lean of the body shifts, so a preload hides from anybody who
    adds the scales up by axle or by side: look at the diagonal.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> end = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...            spring_rate=60e3, spring_motion_ratio=0.7, bar=bar)
    >>> car = Car("example", "rear", 1250.0, 0.5, 2.5, 0.48, Tyre(), end, end)
    >>> loads = loads_with_preload(car, front_difference=0.005)
    >>> [round(float(load)) for load in loads.by_wheel.values()]
    [3130, 2999, 2994, 3135]
    """
    stiff = {"front": front or axle_stiffness(car.front), "rear": rear or axle_stiffness(car.rear)}
    angles = [0.0 if np.all(np.asarray(delta) == 0) else preload_angle(car.axle(end), stiff[end], delta, end)
              for end, delta in zip(ENDS, (front_difference, rear_difference), strict=True)]
    return loads_from_axle_angles(car, angles, tuple(stiff.values()))


def diagonal_per_link_difference(car: Car, end: str, front: AxleStiffness | None = None,
                                 rear: AxleStiffness | None = None):
    """Load that the front left and rear right wheels gain per metre of link difference, [N/m].

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
        Where the wrong link is.
    front, rear : AxleStiffness, optional
        Other holes than those in use.

    Returns
    -------
    float or array
        With all four wheels on the ground, [N/m]: positive at the front, negative at the rear.

    Raises
    ------
    CarError
        When that end has no bar.

    Notes
    -----
    Derived here, from two solutions a micrometre apart: the answer is a straight line.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> car = Car("example", "rear", 1250.0, 0.52, 2.5, 0.48, Tyre(), axle, axle)
    >>> print(round(diagonal_per_link_difference(car, "front") / 1000, 1), "N per mm")
    21.5 N per mm
    """
    small = {f"{end}_difference": 1e-6}  # m; far from lifting a wheel, and the answer is a straight line
    changed = loads_with_preload(car, **small, front=front, rear=rear)
    level = loads_with_preload(car, front=front, rear=rear)
    return (changed.diagonal - level.diagonal) / 1e-6


def link_difference_behind(car: Car, end: str, diagonal_change, front: AxleStiffness | None = None,
                           rear: AxleStiffness | None = None):
    """Link difference that explains what the scales showed when the bar was hooked up, [m].

    Shorten the left link by this much (or lengthen the right one) and the preload is nil.

    Parameters
    ----------
    car : Car
        With the driver aboard, on level scales.
    end : {"front", "rear"}
        The end whose link was connected.
    diagonal_change : float or array
        Gain of front left and rear right together on connecting the link, [N].
    front, rear : AxleStiffness, optional
        Other holes than those in use.

    Returns
    -------
    float or array
        [m].

    Raises
    ------
    CarError
        When that end has no bar.

    Notes
    -----
    Derived here, the straight-line answer turned round; true while no wheel hangs.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> car = Car("example", "rear", 1250.0, 0.52, 2.5, 0.48, Tyre(), axle, axle)
    >>> print(round(1000 * link_difference_behind(car, "front", 120.0), 2), "mm")
    5.59 mm
    """
    return np.asarray(diagonal_change) / diagonal_per_link_difference(car, end, front, rear)


def link_difference_that_fits(axle: Axle, travel_difference, end: str = "axle"):
    """Left link less right link for nil preload when the two sides do not sit alike, [m].

    ``delta = MR (z_l - z_r)``

    Parameters
    ----------
    axle : Axle
        With a bar.
    travel_difference : float or array
        Wheel travel in bump, left less right, as the car stands with its driver aboard, [m].
    end : {"front", "rear"}, optional
        For the message only.

    Returns
    -------
    float or array
        How much *shorter* the left link has to be than the right one, [m].

    Raises
    ------
    CarError
        When the axle has no bar.

    Notes
    -----
    Derived here: the left wheel stands further up, so its end of the bar is reached with a shorter link.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> print(round(1000 * link_difference_that_fits(axle, 0.004), 2), "mm")
    2.4 mm
    """
    _require_bar(axle, end)
    return effective_link_motion_ratio(axle.bar) * np.asarray(travel_difference)
