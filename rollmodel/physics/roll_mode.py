"""The body's own swing in roll: its inertia, how fast it swings and how soon that dies away."""

from dataclasses import dataclass

import numpy as np

from rollmodel.car import GRAVITY, Car, CarError
from rollmodel.physics.dampers import ENDS, damper_roll_rate, require_dampers
from rollmodel.physics.roll import roll_moment_arm, roll_moments_per_acceleration, stands_up
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness

GYRATION_PER_TRACK = 0.35  # sprung mass in roll, about its own centre of gravity; an estimate


def estimated_roll_inertia(car: Car) -> float:
    """Roll inertia of the sprung mass about the roll axis when nobody has measured it, [kg*m^2].

    ``I = m_s ((0.35 t)^2 + h'^2)``, ``t`` the mean of the two tracks.

    Parameters
    ----------
    car : Car

    Returns
    -------
    float
        An **estimate**, [kg*m^2].

    Notes
    -----
    The second term is the parallel-axis theorem. The first takes the radius of gyration about the
    sprung centre of gravity as 0.35 of the track: computed from published inputs, three parameter
    sets of a research package (``commonroad-vehicle-models``) give 0.336, 0.337 and 0.387. With a
    figure in that range the natural frequency comes out within about 7 %. A car with a cage, a
    high roof or a load at its sides lies outside it: measure.

    Examples
    --------
    >>> from rollmodel.car import Axle, Car, Tyre
    >>> end = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...            spring_rate=60e3, spring_motion_ratio=0.7)
    >>> car = Car("example", "rear", 1250.0, 0.52, 2.5, 0.48, Tyre(), end, end)
    >>> round(estimated_roll_inertia(car))
    499
    """
    radius = GYRATION_PER_TRACK * (car.front.track + car.rear.track) / 2
    return car.sprung_mass * (radius**2 + roll_moment_arm(car) ** 2)


def roll_inertia(car: Car) -> float:
    """The car's own roll inertia about the roll axis, or the estimate when it gives none, [kg*m^2].

    Parameters
    ----------
    car : Car

    Returns
    -------
    float
        [kg*m^2]; see :func:`estimated_roll_inertia` for what the estimate is worth.
    """
    return estimated_roll_inertia(car) if car.roll_inertia is None else car.roll_inertia


def natural_frequency(net_stiffness, inertia):
    """How often the body would swing without dampers: ``sqrt(K_net / I) / (2 pi)``, [Hz].

    Parameters
    ----------
    net_stiffness : float or array
        ``K - m_s g h'``, gravity's share taken off, [N*m/rad].
    inertia : float or array
        About the roll axis, [kg*m^2].

    Returns
    -------
    float or array
        [Hz].

    Notes
    -----
    A weight on a spring, any text on vibration.

    Examples
    --------
    >>> round(float(natural_frequency(49.8e3, 631.0)), 3)
    1.414
    """
    return np.sqrt(np.asarray(net_stiffness) / inertia) / (2 * np.pi)


def damping_ratio(damping, net_stiffness, inertia):
    """Damping over the damping that just stops the swing: ``C / (2 sqrt(K_net I))``, [-].

    Parameters
    ----------
    damping : float or array
        `C` of both axles together, [N*m*s/rad].
    net_stiffness : float or array
        ``K - m_s g h'``, [N*m/rad].
    inertia : float or array
        About the roll axis, [kg*m^2].

    Returns
    -------
    float or array
        Below 1 the body swings past its settled angle; [-].

    Notes
    -----
    Viscous damping, any text on vibration.

    Examples
    --------
    >>> float(damping_ratio(2000.0, 50e3, 500.0))
    0.2
    """
    return damping / (2 * np.sqrt(np.asarray(net_stiffness) * inertia))


def overshoot(ratio):
    """How far a step carries past the settled angle: ``exp(-pi z / sqrt(1 - z^2))``, [-].

    Parameters
    ----------
    ratio : float or array
        Damping ratio `z`, zero or more, [-].

    Returns
    -------
    float or array
        Part of the settled angle; nil from a ratio of 1 upward.

    Notes
    -----
    Any controls text, second-order system. It belongs to a *step*; a real build-up of lateral
    acceleration takes time and overshoots less.

    Examples
    --------
    >>> round(float(overshoot(0.3)), 3)
    0.372
    """
    ratio = np.asarray(ratio, dtype=float)
    below = np.minimum(ratio, 1 - 1e-12)
    return np.where(ratio < 1, np.exp(-np.pi * below / np.sqrt(1 - below**2)), 0.0)


@dataclass(frozen=True)
class RollMode:
    """The body's swing in roll. Every field may be an array of setups."""

    inertia: float  # about the roll axis, kg*m^2
    inertia_is_estimated: bool
    net_stiffness: np.ndarray  # K_f + K_r - m_s g h', N*m/rad
    poles: np.ndarray  # the two of the swing, last axis of 2; complex, 1/s

    @property
    def natural_frequency(self):
        """Without dampers, [Hz]."""
        return natural_frequency(self.net_stiffness, self.inertia)

    @property
    def damping_ratio(self):
        """How soon the swing dies away, ``-(p1 + p2) / (2 sqrt(p1 p2))`` of its two poles, [-].

        With rigid tyres it is the textbook's ``C / (2 sqrt(K I))``.
        """
        first, second = self.poles[..., 0], self.poles[..., 1]
        return -(first + second).real / (2 * np.sqrt((first * second).real))

    @property
    def swing_frequency(self):
        """With dampers, [Hz]; nil for a body that does not swing."""
        return np.abs(self.poles[..., 0].imag) / (2 * np.pi)

    @property
    def overshoot(self):
        """Part of the settled angle by which a step would overshoot, [-]; close, with tyres that give."""
        return overshoot(self.damping_ratio)


def require_standing(car: Car, front: AxleStiffness, rear: AxleStiffness) -> None:
    """Refuse a car that does not stand up.

    Parameters
    ----------
    car : Car
    front, rear : AxleStiffness

    Raises
    ------
    CarError
        When ``K_f + K_r <= m_s g h'`` in any of the setups.
    """
    if not np.all(stands_up(car, front, rear)):
        raise CarError("spring_rate: wanted more roll stiffness than gravity takes "
                       "(K_f + K_r above m_s g h'), given a car that does not stand up; "
                       "check the spring rates, motion ratios and heights")


def roll_mode(car: Car, front: AxleStiffness | None = None, rear: AxleStiffness | None = None) -> RollMode:
    """Natural frequency and damping ratio of the body in roll, both axles on the ground.

    Parameters
    ----------
    car : Car
        With dampers at both ends. Its chassis is taken as rigid.
    front, rear : AxleStiffness, optional
        Other setups than the car's own; arrays broadcast.

    Returns
    -------
    RollMode

    Raises
    ------
    CarError
        When an end has no damper, or the car does not stand up.

    Notes
    -----
    Derived here: the poles of ``I phi'' + sum(K_tyre,i (phi - psi_i)) - m_s g h' phi = 0`` with
    ``C_i psi_i' = K_tyre,i (phi - psi_i) - K_i psi_i`` at each end; with rigid tyres ``psi = phi``. A
    firm damper behind a soft tyre holds the suspension still and the body swings on the tyre: less
    damping than the dampers alone would give. Roll that couples with yaw and side slip, as on a real
    road, swings a little differently.

    Examples
    --------
    >>> from rollmodel.car import Axle, Bar, Car, Damper, Tyre
    >>> bar = Bar(outer_diameter=0.022, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,))
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, tyre_vertical_rate=230e3,
    ...             damper=Damper(4000.0, 0.7), bar=bar)
    >>> car = Car("example", "rear", 1250.0, 0.52, 2.5, 0.48, Tyre(), axle, axle)
    >>> mode = roll_mode(car)
    >>> print(round(mode.natural_frequency, 2), round(mode.damping_ratio, 3))
    2.32 0.19
    """
    require_dampers(car)
    front, rear = front or axle_stiffness(car.front), rear or axle_stiffness(car.rear)
    require_standing(car, front, rear)
    gravity = GRAVITY * sum(roll_moments_per_acceleration(car))
    return RollMode(roll_inertia(car), car.roll_inertia is None,
                    front.total_roll + rear.total_roll - gravity, _swing(car, front, rear, gravity))


def _swing(car: Car, front: AxleStiffness, rear: AxleStiffness, gravity):
    """The two poles of the swing: the pair that oscillates, or the two slowest; last axis of 2."""
    stiff = {"front": front, "rear": rear}
    inertia, shape = roll_inertia(car), np.broadcast_shapes(
        *(np.shape(one.suspension_roll) for one in stiff.values()))
    soft = [end for end in ENDS if np.isfinite(stiff[end].tyre_roll)]
    matrix = np.zeros((*shape, 2 + len(soft), 2 + len(soft)))  # roll, its rate, roll across suspensions
    matrix[..., 0, 1] = 1
    matrix[..., 1, 0] = gravity / inertia
    for end in ENDS:
        damping, tyre, spring = (damper_roll_rate(car.axle(end)), stiff[end].tyre_roll,
                                 stiff[end].suspension_roll)
        if end not in soft:
            matrix[..., 1, 0] -= spring / inertia
            matrix[..., 1, 1] -= damping / inertia
            continue
        at = 2 + soft.index(end)
        matrix[..., 1, 0] -= tyre / inertia
        matrix[..., 1, at] = tyre / inertia
        matrix[..., at, 0] = tyre / damping
        matrix[..., at, at] = -(tyre + spring) / damping
    poles = np.linalg.eigvals(matrix).astype(complex)
    order = np.lexsort((-poles.real, -np.abs(poles.imag)), axis=-1)
    return np.take_along_axis(poles, order[..., :2], axis=-1)
