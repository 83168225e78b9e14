"""The two tyres of an axle working at one slip angle."""

from functools import partial

import numpy as np

from rollmodel.car import Axle, Tyre
from rollmodel.physics.corner import AxleLoads
from rollmodel.physics.roots import find_root
from rollmodel.physics.tyre import falling_grip_peak, side_force

_HIGHEST_SLIP = np.radians(60.0)  # the peak is looked for from no slip to here
_LOOKS = (13, 9, 9, 9, 9, 9)  # slip angles tried across the bracket, narrower each time
_PIECE = 20_000  # axles looked at together; more would only fill memory


def lean_into_corner(axle: Axle, roll_angle):
    """Camber of outside and inside wheel as lean towards the inside of the corner, [rad].

    Static camber helps the outside wheel and hurts the inside one; the part of the roll that
    the linkage does not give back leans both outward. Each counts only where the sheet gives it.
    ``camber_recovery`` is a part of the whole body roll, the tyres' own share of it included; left out,
    roll costs no camber.
    """
    static = -(axle.camber or 0.0)
    left = 0.0 if axle.camber_recovery is None else 1 - axle.camber_recovery
    lost = left * np.nan_to_num(roll_angle)
    return static - lost, -static - lost


def axle_side_force(tyre: Tyre, slip, outside, inside, lean_outside=0.0, lean_inside=0.0):
    """Side force of both tyres at one slip angle, [N]."""
    return (side_force(tyre, slip, outside, lean_outside)
            + side_force(tyre, slip, inside, lean_inside))


def largest_axle_force(tyre: Tyre, outside, inside, lean_outside=0.0, lean_inside=0.0):
    """The most an axle can give, and the slip angle at which it gives it.

    The largest **sum at one slip angle**, not the sum of the two peaks.

    Returns
    -------
    force : array
        [N].
    slip : array
        [rad].
    """
    loads = (outside, inside, lean_outside, lean_inside)
    if tyre.curve == "falling grip":
        return _falling_grip_largest(tyre, *np.broadcast_arrays(*(np.asarray(x, float) for x in loads))[:2])
    return highest_over_slip(partial(axle_side_force, tyre), *loads)


def highest_over_slip(force, *arguments):
    """Top of a curve over slip angle, and the slip angle where it lies; arrays broadcast.

    Parameters
    ----------
    force : callable
        ``force(slip, *arguments)``, [N].
    *arguments : float or array
        One entry per curve.

    Returns
    -------
    force : array
        [N].
    slip : array
        From 0 to 60 deg, [rad].
    """
    arguments = np.broadcast_arrays(*(np.asarray(x, dtype=float) for x in arguments))
    shape, flat = arguments[0].shape, [x.ravel() for x in arguments]
    pieces = [_top(force, [x[i:i + _PIECE] for x in flat]) for i in range(0, max(flat[0].size, 1), _PIECE)]
    top, slip = (np.concatenate(part).reshape(shape) for part in zip(*pieces, strict=True))
    return top, slip


def _top(force, arguments):
    low, high = np.zeros_like(arguments[0]), np.full_like(arguments[0], _HIGHEST_SLIP)
    for points in _LOOKS:
        middle, step, shift = _best_of(force, low, high, points, arguments)
        low, high = middle - step, middle + step
    slip = middle + step * shift
    return force(slip, *arguments), slip


def _best_of(force, low, high, points, arguments):
    """The best of evenly spaced tries, their step, and where between them a parabola puts the top, in steps.

    Each look narrows the bracket to one step either side; the last steps are 0.005 deg, where the
    parabola is right to about 1e-7 rad.
    """
    step = (high - low) / (points - 1)
    tries = low + step * np.arange(points)[:, None]
    sums = force(tries, *arguments)
    best = np.clip(np.argmax(sums, axis=0), 1, points - 2)
    before, top, after = (np.take_along_axis(sums, (best + i)[None], axis=0)[0] for i in (-1, 0, 1))
    shift = (before - after) / 2 / np.minimum(before - 2 * top + after, -1e-30)
    return low + step * best, step, np.clip(shift, -1, 1)


def _falling_grip_largest(tyre: Tyre, outside, inside):
    peaks = [tyre.grip_scale * falling_grip_peak(load, tyre.peak_grip, tyre.grip_drop)
             for load in (outside, inside)]
    slip = np.arctan(3 * np.maximum(*peaks) / tyre.cornering_stiffness)
    return peaks[0] + peaks[1], slip


def slip_for_force(tyre: Tyre, force, outside, inside, lean_outside=0.0, lean_inside=0.0):
    """Slip angle on the rising side at which the axle gives a side force, [rad]; nan if it cannot."""
    loads = (outside, inside, lean_outside, lean_inside)
    return rising_root(partial(axle_side_force, tyre), force, *largest_axle_force(tyre, *loads), *loads)


def rising_root(force, wanted, largest, at, *arguments):
    """Slip angle up to the top of a curve where it gives the force wanted, [rad]; nan if it never does.

    Parameters
    ----------
    force : callable
        ``force(slip, *arguments)``, [N].
    wanted : float or array
        [N].
    largest, at : array
        Top of the curve [N] and where it lies [rad].
    *arguments : float or array
        Handed on to `force`, in its own units.
    """
    wanted, largest, at, *arguments = np.broadcast_arrays(
        *(np.asarray(x, dtype=float) for x in (wanted, largest, at, *arguments)))
    within = wanted <= largest
    found = find_root(
        lambda slip, demand, *others: force(slip, *others) - demand,
        (np.full(at.shape, -np.radians(20)), at), args=(np.where(within, wanted, 0.0), *arguments),
        tolerances={"xatol": 1e-13, "xrtol": 1e-12})
    return np.where(within, found.x, np.nan)


def axle_arguments(axle: Axle, loads: AxleLoads):
    """Loads and leans of an axle in the corner, in the order the functions above take them."""
    return (loads.outside, loads.inside, *lean_into_corner(axle, loads.roll_angle))
