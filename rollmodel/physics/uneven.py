"""What sharing its load unevenly costs a pair of tyres, as it is done on paper."""

import numpy as np

from rollmodel.car import Tyre
from rollmodel.physics.tyre import peak_side_force


def peak_grip_at(tyre: Tyre, load):
    """Most side force over load, ``mu = F / Fz``, of one upright tyre, [-].

    Parameters
    ----------
    tyre : Tyre
    load : float or array
        Above zero, [N].
    """
    return peak_side_force(tyre, load) / np.asarray(load, dtype=float)


def grip_drop_between(tyre: Tyre, light, heavy):
    """How fast grip falls with load, from two readings off the curve: `k`, [1/N].

    ``k = (mu_light - mu_heavy) / (heavy - light)``

    Parameters
    ----------
    tyre : Tyre
    light, heavy : float or array
        Two loads above zero, [N].

    Notes
    -----
    Derived here. On all of the project's curves grip falls in a straight line: any two loads give one `k`.

    Examples
    --------
    >>> round(1e6 * float(grip_drop_between(Tyre(), 2000.0, 6000.0)), 1)  # per MN
    22.1
    """
    fall = peak_grip_at(tyre, light) - peak_grip_at(tyre, heavy)
    return fall / (np.asarray(heavy, dtype=float) - light)


def uneven_pair_loss(grip_drop, transfer):
    """Peak side force that a pair loses against an even pair: ``2 k dF^2``, [N].

    Parameters
    ----------
    grip_drop : float or array
        `k`, [1/N].
    transfer : float or array
        `dF`, what the outside tyre gains and the inside tyre loses, at most the even load, [N].

    Notes
    -----
    Derived here: ``(mu_0 - k W)(W)`` summed at ``W + dF`` and ``W - dF``, taken from twice its value at `W`.
    Exact where grip falls in a straight line with load.

    Examples
    --------
    >>> round(float(uneven_pair_loss(22.1e-6, 2000.0)), 1)
    176.8
    """
    return 2 * grip_drop * np.asarray(transfer, dtype=float) ** 2
