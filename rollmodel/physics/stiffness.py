"""From the spring and the bar to the wheel, and from the wheel to roll stiffness of the axle."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from rollmodel.car import Axle, Car, CarError
from rollmodel.checked import is_whole
from rollmodel.physics.bar import effective_link_motion_ratio, link_rates_in_roll


def wheel_rate(component_rate, motion_ratio):
    """Rate at the wheel of a spring or bar: ``k MR^2``, [N/m].

    Parameters
    ----------
    component_rate : float or array
        At the spring or link, [N/m].
    motion_ratio : float or array
        *Component travel over wheel travel*, [-]. Some books use the inverse.

    Examples
    --------
    >>> round(wheel_rate(65e3, 0.70))
    31850
    """
    return component_rate * np.asarray(motion_ratio) ** 2


def roll_stiffness(wheel_rate_in_roll, track):
    """Roll stiffness of an axle from equal rates at its two wheels: ``k t^2 / 2``, [N*m/rad].

    Parameters
    ----------
    wheel_rate_in_roll : float or array
        What each wheel feels in roll, [N/m]: `k_w` for springs, `2 k_b` for a bar.
    track : float or array
        [m].

    Examples
    --------
    >>> roll_stiffness(20e3, 1.5)
    22500.0
    """
    return wheel_rate_in_roll * track**2 / 2


def in_series(first, second):
    """Two stiffnesses one behind the other, ``1/(1/a + 1/b)``; ``inf`` stands for rigid.

    Both in one unit, [N/m] or [N*m/rad], which is that of the answer.
    """
    return 1 / (1 / np.asarray(first, dtype=float) + 1 / np.asarray(second, dtype=float))


@dataclass(frozen=True)
class AxleStiffness:
    """Rates at one wheel [N/m] and roll stiffness of the axle [N*m/rad].

    The bar's fields, and those made from them, may be arrays with one entry per setup. What is made
    from them is worked out once and kept: a corner asks for it hundreds of times.
    """

    spring_wheel_rate: float
    bar_wheel_rate_in_roll: np.ndarray  # 2 k_b MR^2, what each wheel feels in roll
    track: float
    tyre_vertical_rate: float = np.inf
    stop_travel: float = np.inf  # outside wheel travel at which the bump stop is met, m
    stop_rate: float = 0.0  # of the bump stop at the wheel

    @cached_property
    def bar_wheel_rate(self):
        """Bar rate at one wheel with the other held, `k_b MR^2`, [N/m]."""
        return self.bar_wheel_rate_in_roll / 2

    @cached_property
    def spring_roll(self):
        """Roll stiffness from the springs, [N*m/rad]."""
        return roll_stiffness(self.spring_wheel_rate, self.track)

    @cached_property
    def bar_roll(self):
        """Roll stiffness from the bar, [N*m/rad]."""
        return roll_stiffness(self.bar_wheel_rate_in_roll, self.track)

    @cached_property
    def tyre_roll(self):
        """Roll stiffness of the two tyres on their own, [N*m/rad]; inf when rigid."""
        return roll_stiffness(self.tyre_vertical_rate, self.track)

    @cached_property
    def suspension_roll(self):
        """Springs and bar together, without the tyre, [N*m/rad]."""
        return self.spring_roll + self.bar_roll

    @cached_property
    def total_roll(self):
        """Springs and bar together with the tyre in series, [N*m/rad]."""
        return in_series(self.suspension_roll, self.tyre_roll)

    @cached_property
    def stop_angle(self):
        """Roll angle at which the outside wheel meets its bump stop, [rad]; inf without a stop."""
        return self.stop_moment / self.total_roll

    @cached_property
    def stop_moment(self):
        """Moment through springs and bar at which the bump stop is met, [N*m]; inf without a stop."""
        return 2 * self.stop_travel / self.track * self.suspension_roll

    @cached_property
    def stop_rate_in_roll(self):
        """What one bump stop adds at its wheel in roll, ``2 k_w s / (2 k_w + s)``, [N/m].

        One stop pushes on one wheel only, and the two wheels together still carry no more than the
        axle's weight. So the body rises on its two springs until the sum is right again: the stop acts
        in series with both of them. Derived here from ``2 k_w h + s (h + r - g) = 0``, with `r` the
        travel from roll, `h` the travel that both wheels share and `g` the travel before the stop.
        """
        return in_series(self.stop_rate, 2 * self.spring_wheel_rate) if self.stop_rate else 0.0

    @cached_property
    def suspension_roll_on_stop(self):
        """Springs, bar and one bump stop, without the tyre: the stop adds ``k t^2 / 4``, [N*m/rad]."""
        return self.suspension_roll + self.stop_rate_in_roll * self.track**2 / 4

    @cached_property
    def total_roll_on_stop(self):
        """Roll stiffness once the outside wheel is on its bump stop, tyre in series, [N*m/rad]."""
        return in_series(self.suspension_roll_on_stop, self.tyre_roll)


def bar_wheel_rates_in_roll(axle: Axle) -> np.ndarray:
    """Bar rate at the wheel in roll (`2 k_b MR^2`) at each hole, [N/m]; one zero without a bar."""
    if axle.bar is None:
        return np.zeros(1)
    return wheel_rate(link_rates_in_roll(axle.bar), effective_link_motion_ratio(axle.bar))


def axle_stiffness(axle: Axle, hole: int | None = None) -> AxleStiffness:
    """Wheel rates and roll stiffness of an axle at one hole (the one in use when left out).

    Raises
    ------
    CarError
        When there is no such hole.
    """
    rates, hole = bar_wheel_rates_in_roll(axle), (axle.hole or 1) if hole is None else hole
    if not is_whole(hole, 1, len(rates)):
        raise CarError(f"hole: wanted a whole number from 1 to {len(rates)}, given {hole!r}")
    return axle_stiffness_for(axle, rates[int(hole) - 1])


def axle_stiffness_for(axle: Axle, bar_wheel_rate_in_roll) -> AxleStiffness:
    """The same for any bar rate at the wheel in roll, a number or an array of setups, [N/m]."""
    stop = axle.bump_travel is not None and axle.bump_stop_rate is not None
    return AxleStiffness(
        spring_wheel_rate=wheel_rate(axle.spring_rate, axle.spring_motion_ratio),
        bar_wheel_rate_in_roll=bar_wheel_rate_in_roll,
        track=axle.track,
        tyre_vertical_rate=np.inf if axle.tyre_vertical_rate is None else axle.tyre_vertical_rate,
        stop_travel=axle.bump_travel if stop else np.inf,
        stop_rate=axle.bump_stop_rate if stop else 0.0,
    )


def stiffness_of_every_hole(car: Car) -> tuple[AxleStiffness, AxleStiffness]:
    """Front and rear stiffness of every pair of holes, shaped (front, 1, 1) and (1, rear, 1).

    The last axis is left free for lateral acceleration.
    """
    front, rear = bar_wheel_rates_in_roll(car.front), bar_wheel_rates_in_roll(car.rear)
    return (axle_stiffness_for(car.front, front[:, None, None]),
            axle_stiffness_for(car.rear, rear[None, :, None]))
