"""The axle as two springs and a bar that works only on the difference between the wheels."""

import numpy as np


def axle_matrix(spring_wheel_rate: float, bar_wheel_rate: float) -> np.ndarray:
    """Stiffness matrix of an axle in the two wheel travels (left, right).

    ::

        [F_l]   [k_w + k_b   -k_b     ] [z_l]
        [F_r] = [-k_b        k_w + k_b] [z_r]

    Parameters
    ----------
    spring_wheel_rate : float
        `k_w`, one spring at its wheel, [N/m].
    bar_wheel_rate : float
        `k_b`, force at one wheel per metre of *difference* in wheel travel, [N/m].

    Returns
    -------
    numpy.ndarray, shape (2, 2)
        Symmetric, [N/m].

    Notes
    -----
    Derived here from the sum of the strain energies. Small travels, linear springs.

    Examples
    --------
    >>> axle_matrix(20e3, 10e3) @ [0.01, 0.01]
    array([200., 200.])
    """
    k_w, k_b = spring_wheel_rate, bar_wheel_rate
    return np.array([[k_w + k_b, -k_b], [-k_b, k_w + k_b]])


def heave_rate(spring_wheel_rate, bar_wheel_rate):
    """Rate each wheel feels when both travel together: `k_w`, the bar adds nothing, [N/m]."""
    return spring_wheel_rate + 0 * np.asarray(bar_wheel_rate)


def roll_rate(spring_wheel_rate, bar_wheel_rate):
    """Rate each wheel feels when they travel apart by equal amounts: `k_w + 2 k_b`, [N/m]."""
    return spring_wheel_rate + 2 * np.asarray(bar_wheel_rate)


def one_wheel_rate_other_held(spring_wheel_rate, bar_wheel_rate):
    """Rate one wheel feels over a bump while the other does not travel: `k_w + k_b`, [N/m]."""
    return spring_wheel_rate + np.asarray(bar_wheel_rate)


def one_wheel_rate_other_free(spring_wheel_rate, bar_wheel_rate):
    """Rate one wheel feels while the other keeps its load and is dragged along by the bar, [N/m].

    Formula: ``k_w (k_w + 2 k_b) / (k_w + k_b)``: the matrix with ``F_r = 0`` eliminated.
    """
    k_w, k_b = spring_wheel_rate, np.asarray(bar_wheel_rate)
    return k_w * (k_w + 2 * k_b) / (k_w + k_b)


def wheel_loads(spring_wheel_rate, bar_wheel_rate, left_travel, right_travel):
    """Left and right force from wheel travel, positive in bump, [N]; arrays broadcast."""
    k_w, k_b = spring_wheel_rate, bar_wheel_rate
    twist = k_b * (np.asarray(left_travel) - right_travel)
    return k_w * left_travel + twist, k_w * right_travel - twist
