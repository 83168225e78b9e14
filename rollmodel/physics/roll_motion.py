"""The equations of motion of roll: two axles with springs, bars, dampers and tyres under one body or two.

Written for one state at a time in plain numbers: the integrator asks thousands of times.
"""

from math import copysign, inf

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.corner import geometric_transfer, unsprung_transfer
from rollmodel.physics.dampers import ENDS, damper_roll_rate
from rollmodel.physics.roll import roll_moments_per_acceleration
from rollmodel.physics.roll_mode import roll_inertia
from rollmodel.physics.stiffness import AxleStiffness

AS_GOOD_AS_RIGID = 1000  # times the roll stiffness of both suspensions: the ends lean alike to 1 in 1000


class End:
    """One axle: what it passes to the body, and how fast its suspension moves while it does. Scalars."""

    def __init__(self, car: Car, end: str, stiff: AxleStiffness):
        self.rate_at_rest = float(stiff.suspension_roll)
        self.stop_extra = float(stiff.suspension_roll_on_stop - stiff.suspension_roll)
        self.stop_angle = 2 * stiff.stop_travel / stiff.track
        self.damping = damper_roll_rate(car.axle(end))
        self.tyre = float(stiff.tyre_roll)
        self.rigid_tyre = self.tyre == inf
        self.half = car.axle(end).track * car.axle_weight(end) / 2
        self.by_other_paths = car.axle(end).track * (
            geometric_transfer(car, end, 1.0) + unsprung_transfer(car, end, 1.0))

    def _within(self, moment, acceleration):
        """No wheel is lifted further than up, [N*m]."""
        other = self.by_other_paths * acceleration
        return min(max(moment, -self.half - other), self.half - other)

    def _springs(self, across):
        """Springs and bar in a straight line, steeper once the outside wheel is on its stop, [N*m]."""
        beyond = max(abs(across) - self.stop_angle, 0.0)
        return self.rate_at_rest * across + copysign(self.stop_extra * beyond, across)

    def passed(self, acceleration, roll, rate, across):
        """Moment on the body [N*m] and rate of roll across the suspension [rad/s]."""
        if self.rigid_tyre:
            return self._within(self._springs(roll) + self.damping * rate, acceleration), rate
        moment = self._within(self.tyre * (roll - across), acceleration)
        return moment, (moment - self._springs(across)) / self.damping

    def parts(self, acceleration, roll, rate, across):
        """Springs' and dampers' parts of that moment, [N*m]."""
        moment, _ = self.passed(acceleration, roll, rate, across)
        springs = self._within(self._springs(roll if self.rigid_tyre else across), acceleration)
        return springs, moment - springs


def _chassis_that_twists(car: Car, stiff):
    """The chassis, or None where it is so stiff that its twist moves no figure: to follow that takes ages."""
    suspensions = sum(float(one.suspension_roll) for one in stiff.values())
    twists = car.chassis_torsion is not None and car.chassis_torsion < AS_GOOD_AS_RIGID * suspensions
    return car.chassis_torsion if twists else None


class Body:
    """The equations of motion. A state: roll and its rate, one of each or front and rear, and the roll
    across each suspension, front and rear."""

    def __init__(self, car: Car, stiff: dict[str, AxleStiffness]):
        self.car, self.stiff = car, stiff
        self.ends = [End(car, end, stiff[end]) for end in ENDS]
        self.pushes = [float(one) for one in roll_moments_per_acceleration(car)]
        self.torsion = _chassis_that_twists(car, stiff)
        shares = [car.sprung_mass_at(end) / car.sprung_mass for end in ENDS]
        self.inertias = [roll_inertia(car) * share for share in shares]

    @property
    def at_rest(self):
        """Before the corner."""
        return np.zeros(4 if self.torsion is None else 6)

    def angles(self, state):
        """Roll front and rear, its rates, and the roll across each suspension; rows of states too."""
        if self.torsion is None:
            roll, rate, *across = state
            return (roll, roll), (rate, rate), across
        return tuple(state[:2]), tuple(state[2:4]), state[4:]

    def left_over(self, acceleration, rolls, moments):
        """What is left at each end to speed its roll up, [N*m]."""
        twist = 0.0 if self.torsion is None else self.torsion * (rolls[0] - rolls[1])
        return [push * (acceleration + GRAVITY * roll) - moment - chassis for push, roll, moment, chassis
                in zip(self.pushes, rolls, moments, (twist, -twist), strict=True)]

    def slopes(self, acceleration, state):
        """Time derivative of a state, for the integrator."""
        rolls, rates, across = self.angles(state.tolist())
        moments, moves = zip(*map(End.passed, self.ends, (acceleration,) * 2, rolls, rates, across),
                             strict=True)
        left = self.left_over(acceleration, rolls, moments)
        if self.torsion is None:
            return rates[0], sum(left) / sum(self.inertias), *moves
        return *rates, left[0] / self.inertias[0], left[1] / self.inertias[1], *moves
