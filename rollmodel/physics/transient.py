"""Roll against time: the body on its springs, bars and dampers while the corner builds up and ends.

Each axle's load transfer is kept in four parts: springs and bar, dampers, links, unsprung mass.
"""

import warnings
from dataclasses import dataclass
from functools import cached_property
from itertools import count

import numpy as np
from scipy.integrate import solve_ivp

from rollmodel.car import GRAVITY, Car, CarError
from rollmodel.checked import is_finite
from rollmodel.physics.build_up import BuildUp
from rollmodel.physics.corner import geometric_transfer, rollover_acceleration, unsprung_transfer
from rollmodel.physics.dampers import ENDS, require_dampers
from rollmodel.physics.roll import at_centre_of_gravity
from rollmodel.physics.roll_mode import require_standing
from rollmodel.physics.roll_motion import Body
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness

MOST_INSTANTS = 1_000_000
MOST_SLOPES = 100_000  # a believable car takes three thousand
_OVER = np.radians(45.0)  # a body this far over is taken to have rolled
_ACCURACY = {"method": "LSODA", "rtol": 1e-7, "atol": 1e-9}  # stiff where a damper is weak


class NotFollowed(CarError):
    """A car that moves too fast, or whose dampers act too fast, to be followed in time."""

    def __init__(self):
        super().__init__("roll_inertia, chassis_torsion, [front.damper] and [rear.damper] rate: wanted a "
                         "swing that can be followed in time, given one far too fast; check their units")


@dataclass(frozen=True)
class AxleHistory:
    """One axle against time. Transfers in N, per wheel: what the outside wheel gains."""

    elastic: np.ndarray  # through springs, bar and bump stop
    dampers: np.ndarray
    geometric: np.ndarray  # through the links, by way of the roll centre
    unsprung: np.ndarray
    half_weight: float  # static load of one wheel, N
    track: float
    roll_angle: np.ndarray  # of the body at this axle, rad

    @property
    def parts(self):
        """The four parts by name, in the order in which a figure stacks them, [N]."""
        return {"springs and bar": self.elastic, "dampers": self.dampers,
                "links": self.geometric, "unsprung": self.unsprung}

    @property
    def load_transfer(self):
        """Sum of the four parts, [N]."""
        return self.elastic + self.dampers + self.geometric + self.unsprung

    @property
    def inside(self):
        """Load of the wheel on the inside of the corner, never below zero, [N]."""
        return np.maximum(self.half_weight - self.load_transfer, 0.0)

    @property
    def outside(self):
        """Load of the wheel on the outside of the corner, never below zero, [N]."""
        return np.maximum(self.half_weight + self.load_transfer, 0.0)

    @property
    def lifted(self):
        """Whether one of the two wheels is off the ground, bool."""
        return np.abs(self.load_transfer) >= self.half_weight * (1 - 1e-9)

    @property
    def roll_moment(self):
        """``t dF``, what this axle carries of the whole overturning moment, [N*m]."""
        return self.track * self.load_transfer


@dataclass(frozen=True)
class RollHistory:
    """A whole corner against time; every array has one entry per instant."""

    build_up: BuildUp
    time: np.ndarray  # s
    lateral_acceleration: np.ndarray  # m/s^2
    roll_angle: np.ndarray  # of the body at its centre of gravity, rad
    roll_rate: np.ndarray  # rad/s
    inertia_moment: np.ndarray  # sum(I_i phi_i''), N*m
    gravity_moment: np.ndarray  # g sum(m_s,i (h_s - z_i) phi_i), N*m
    front: AxleHistory
    rear: AxleHistory

    def axle(self, end: str) -> AxleHistory:
        """The "front" or the "rear" axle."""
        return {"front": self.front, "rear": self.rear}[end]

    @cached_property
    def middle(self) -> int:
        """Which instant is the settled middle: the last one before the corner is let go."""
        return int(np.searchsorted(self.time, self.build_up.release_starts)) - 1

    @property
    def front_share(self):
        """Front share of the overturning moment, ``t_f dF_f / sum(t dF)``, [-].

        nan where the sum is below a thousandth of its largest: a share of nothing says nothing.
        """
        whole = self.front.roll_moment + self.rear.roll_moment
        some = np.abs(whole) > 1e-3 * np.max(np.abs(whole))
        return np.divide(self.front.roll_moment, whole, out=np.full(whole.shape, np.nan), where=some)

    def damper_share(self, end: str):
        """The dampers' part of an axle's load transfer, against its settled load transfer, [-].

        Parameters
        ----------
        end : {"front", "rear"}

        Returns
        -------
        numpy.ndarray
            One number per instant; at ``middle`` it is nil once the roll has settled.
        """
        return self.axle(end).dampers / self.axle(end).load_transfer[self.middle]


def roll_against_time(car: Car, build_up: BuildUp, front: AxleStiffness | None = None,
                      rear: AxleStiffness | None = None, step: float = 0.005) -> RollHistory:
    """Roll and each axle's load transfer in four parts while a corner builds up, holds and ends.

    ``I phi'' + sum(M_i) - m_s g h' phi = m_s h' a_y(t)``,
    ``M_i = K_i psi_i + C_i psi_i' = K_tyre,i (phi - psi_i)``

    and, at axle i,

    ``dF_i = (K_i psi_i + C_i psi_i' + m_s,i a_y z_i + m_u,i a_y h_u,i) / t_i``.

    The whole balances at every instant:
    ``sum(t_i dF_i) = m a_y h + g sum(m_s,i (h_s - z_i) phi_i) - sum(I_i phi_i'')``.

    Parameters
    ----------
    car : Car
        With dampers at both ends. Its roll inertia is estimated when it gives none.
    build_up : BuildUp
        Lateral acceleration against time.
    front, rear : AxleStiffness, optional
        One other setup than the car's own.
    step : float, optional
        Time between the instants returned, [s]; it does not touch the accuracy.

    Returns
    -------
    RollHistory

    Raises
    ------
    CarError
        When an end has no damper, the car does not stand up, or it rolls over in this corner; when the
        step is no step of this corner.
    NotFollowed
        When the car moves too fast for the integrator.

    Notes
    -----
    Derived here. `psi` is the roll across the suspension, the rest of the body's roll is in the tyres;
    with rigid tyres it is the body's own and the equation the textbook's second-order one. `K_i` and
    `C_i` are springs with bar and dampers across the suspension. A chassis that twists makes two
    bodies, front and rear, joined by its torsion; the inertia is then shared as the sprung mass is. A
    wheel that lifts caps springs and dampers of its axle together, so that no load is negative and the
    settled middle is that of :func:`rollmodel.physics.corner.settled_corner`. A chassis a thousand times
    as stiff as the suspensions counts as rigid. Left out: roll that couples with yaw, the lag of the tyres,
    unequal bump and rebound, the roll inertia of the axles, the speed at which a lifted wheel droops.

    Examples
    --------
    >>> from rollmodel.car import Axle, Car, Damper, Tyre
    >>> from rollmodel.physics.build_up import BuildUp
    >>> end = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...            spring_rate=60e3, spring_motion_ratio=0.7, damper=Damper(4000.0, 0.7))
    >>> car = Car("example", "rear", 1250.0, 0.52, 2.5, 0.48, Tyre(), end, end)
    >>> corner = roll_against_time(car, BuildUp(6.0, rise_time=0.4, hold_time=2.5, release_time=0.4))
    >>> bool(abs(corner.damper_share("front")[corner.middle]) < 1e-3)
    True
    >>> round(float(corner.front.dampers.max()))
    286
    """
    require_dampers(car)
    _require_step(build_up, step)
    stiff = {"front": front or axle_stiffness(car.front), "rear": rear or axle_stiffness(car.rear)}
    require_standing(car, stiff["front"], stiff["rear"])
    body = Body(car, stiff)
    return _history(body, build_up, *_integrate(body, build_up, step))


def _require_step(build_up: BuildUp, step):
    """At least two instants before the corner is let go, and not more than memory holds."""
    low, high = build_up.ends / MOST_INSTANTS, build_up.release_starts / 2
    if not (is_finite(step) and low <= step <= high):
        raise CarError(f"step: wanted at least {low:.2g} s, for a million instants, and at most {high:.2g} "
                       f"s, half the time until the corner is let go; given {step!r}")


def _integrate(body: Body, build_up: BuildUp, step):
    """States at evenly spaced instants; the integrator starts afresh wherever a_y(t) has a kink."""
    time = np.arange(0.0, build_up.ends + step / 2, step)
    state, states, asked = body.at_rest, [], count()

    def slopes(now, state, last):
        if next(asked) > MOST_SLOPES:
            raise NotFollowed()
        return body.slopes(build_up.at(min(now, last)).item(), state)

    for start, end in build_up.pieces:
        inside = time[(time >= start) & (time < end)]
        held = np.nextafter(end, start)  # a piece keeps its own side of a jump at its end
        with warnings.catch_warnings(action="ignore", category=UserWarning):  # a failure is refused below
            run = solve_ivp(slopes, (start, end), state, args=(held,), t_eval=np.append(inside, end),
                            events=_turned_over(body), **_ACCURACY)
        if run.status == 1:
            _refuse(body, build_up, run.t_events[0])
        if not run.success:
            raise NotFollowed()
        states.append(run.y[:, :-1])
        state = run.y[:, -1]
    last = time >= build_up.ends
    return time, np.hstack([*states, np.repeat(state[:, None], np.count_nonzero(last), axis=1)])


def _turned_over(body: Body):
    def left_to_go(_time, state, _last):
        return _OVER - max(map(abs, body.angles(state)[0]))

    left_to_go.terminal = True
    return left_to_go


def _refuse(body: Body, build_up: BuildUp, when):
    held = float(rollover_acceleration(body.car, *body.stiff.values())) / GRAVITY
    raise CarError(f"peak: wanted a lateral acceleration that the car survives, given "
                   f"{build_up.peak / GRAVITY:.3g} g at which it rolls over after {float(when[0]):.2f} s; "
                   f"settled, it stands up to {held:.3g} g")


def _history(body: Body, build_up: BuildUp, time, states) -> RollHistory:
    a = build_up.at(time)
    rolls, rates, across = body.angles(states)
    parts = [np.array([end.parts(*instant) for instant in zip(a, *rows, strict=True)]).T
             for end, *rows in zip(body.ends, rolls, rates, across, strict=True)]
    axles = [_axle_history(body.car, end, a, *part, roll)
             for end, part, roll in zip(ENDS, parts, rolls, strict=True)]
    left = body.left_over(a, rolls, [part.sum(axis=0) for part in parts])
    return RollHistory(build_up, time, a, at_centre_of_gravity(body.car, *rolls),
                       at_centre_of_gravity(body.car, *rates), sum(left),
                       GRAVITY * sum(push * roll for push, roll in zip(body.pushes, rolls, strict=True)),
                       *axles)


def _axle_history(car: Car, end, a, springs, dampers, roll) -> AxleHistory:
    track = car.axle(end).track
    return AxleHistory(springs / track, dampers / track, geometric_transfer(car, end, a),
                       unsprung_transfer(car, end, a), car.axle_weight(end) / 2, track, roll)
