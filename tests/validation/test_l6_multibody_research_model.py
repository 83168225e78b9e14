"""Roll of two cars by a research model with 29 states

The registry package `commonroad-vehicle-models` (BSD-3), the vehicle models of a motion-planning benchmark:
M. Althoff, G. Würsching, "CommonRoad: Vehicle Models" (2020), parameter sets 1 and 2 of its multi-body
model.

Roll stiffness, gradient, frequency and damping are computed from published inputs. The settled corner is
computed by a second route: the package's own equations, integrated here until nothing changes any more. Two
of their flexibilities that ours leaves out are switched off for that: sideways give of the tyre, and of the
joint between body and axle. In roll and in the springs' moments the two agree within 1 %. In the whole
overturning moment they do not: ours is 9 % larger, for the reason given under the table.
"""

import functools
import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
from scipy.integrate import solve_ivp
from vehiclemodels.init_mb import init_mb
from vehiclemodels.parameters_vehicle1 import parameters_vehicle1
from vehiclemodels.parameters_vehicle2 import parameters_vehicle2
from vehiclemodels.vehicle_dynamics_mb import vehicle_dynamics_mb

from rollmodel.car import Damper
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.roll_mode import roll_mode
from rollmodel.physics.stiffness import axle_stiffness_for
from tests.validation.build import axle, car
from tests.validation.evidence import COMPUTED, SECOND_ROUTE, check

SOURCE = "L6"
SETS = {1: parameters_vehicle1, 2: parameters_vehicle2}
THEIR_GRAVITY = 9.81
POUND = (
    9.80665 / THEIR_GRAVITY
)  # the package's pound-force is 9.81 m/s^2 times a pound; the figures use the true one
FIGURES = {
    1: ("56201", "60.54", "7.340", "1.4145", "0.2576"),
    2: ("51325", "59.27", "7.320", "1.4209", "0.3189"),
}
GRAVITY_DIFFERS = (
    "0.001 deg/g: gravity's share of the roll moment is taken at 9.81 there, at 9.80665 m/s^2 here"
)
BODY_FREE = (
    "1 %: their body also pitches, sinks and leans with sines and cosines kept, and their tyres give under "
    "the unsprung masses and the links as well; the handbook rule of tyre and suspension in series leaves "
    "that out"
)

OVERTURNING = (
    "10 %: a real difference of 9 %, ours the larger. Ours closes with statics, m a h and gravity's share; "
    "in their equations heights at the axles count from the squashed tyre, and the side pull of the leaning "
    "springs is not given its arm about the axle, while the wheel's own lean is added. The next row takes "
    "these over"
)
WHAT_IS_LEFT = "0.6 %: sines and cosines, and the body's pitch and heave, which ours leaves out"


def their_car(number, spring_scale=1.0, tyre=True):
    """A parameter set as our records; its anti-roll bars become bars with a rate at the wheel."""
    p = SETS[number]()
    ends = [
        replace(
            axle(track, centre, unsprung, p.R_w, spring * spring_scale, damper=Damper(damping, 1.0)),
            tyre_vertical_rate=p.K_zt if tyre else None,
        )
        for track, centre, unsprung, spring, damping in (
            (p.T_f, p.h_raf, p.m_uf, p.K_sf, p.K_sdf),
            (p.T_r, p.h_rar, p.m_ur, p.K_sr, p.K_sdr),
        )
    ]
    inertia = p.I_Phi_s + p.m_s * p.h_s**2  # both roll centres lie on the ground
    one = replace(car(*ends, p.m_s, p.b / (p.a + p.b), p.h_s, p.a + p.b), roll_inertia=inertia)
    pairs = zip(ends, (p.K_tsf, p.K_tsr), strict=True)
    bars = [axle_stiffness_for(end, -2 * bar / end.track**2) for end, bar in pairs]
    return one, *bars


@functools.cache
def their_settled_corner(number):
    """Integrate their equations at 20 m/s and 0.02 rad of steer until settled."""
    p = SETS[number]()
    p.K_lt, p.K_ras, p.K_rad = 0.0, 1e3 * p.K_ras, 30 * p.K_rad
    speed, steer = 20.0, 0.02

    def slopes(time, state):
        hold_speed = np.clip(2 * (speed - state[3]), -2, 2)
        return vehicle_dynamics_mb(list(state), [steer if time < 1 else 0.0, hold_speed], p)

    state = np.array(init_mb([0, 0, 0, speed, 0, 0, 0], p), dtype=float)
    for piece in ((0, 1), (1, 12)):
        state = solve_ivp(slopes, piece, state, method="LSODA", rtol=1e-8, atol=1e-9).y[:, -1]
    assert np.abs(slopes(12, state)[5:]).max() < 1e-6, "not settled"
    return _what_they_say(p, state)


def _what_they_say(p, state):
    """Their state in our words; a left-hand corner, so the left wheels are the inner ones."""
    roll, squash, lean = -state[6], (state[16], state[21]), (-state[13], -state[18])
    stiff = [
        spring * track**2 / 2 - bar
        for spring, track, bar in ((p.K_sf, p.T_f, p.K_tsf), (p.K_sr, p.T_r, p.K_tsr))
    ]
    tracks = zip((p.T_f, p.T_r), lean, strict=True)
    tilt = [p.K_zt * track**2 / 2 * math.sin(angle) for track, angle in tracks]
    return SimpleNamespace(
        lateral_acceleration=state[3] * state[5],
        roll=roll,
        squash=squash,
        lean=lean,
        elastic=[k * (roll - angle) for k, angle in zip(stiff, lean, strict=True)],
        overturning=sum(tilt),
        p=p,
    )


def test_from_the_parameters():
    for number, (stiffness, share, gradient, frequency, damping) in FIGURES.items():
        one, front, rear = their_car(number, POUND, tyre=False)
        total = front.total_roll + rear.total_roll
        mode = roll_mode(one, front, rear)
        check(SOURCE, f"set {number}: roll stiffness", stiffness, total, "N*m/rad", COMPUTED)
        check(
            SOURCE, f"set {number}: front share of it", share, 100 * front.total_roll / total, "%", COMPUTED
        )
        check(
            SOURCE,
            f"set {number}: roll gradient with gravity's share",
            gradient,
            math.degrees(roll_gradient(one, front, rear)) * THEIR_GRAVITY,
            "deg/g",
            COMPUTED,
            tolerance=0.001,
            because=GRAVITY_DIFFERS,
        )
        check(
            SOURCE,
            f"set {number}: frequency of the roll mode",
            frequency,
            mode.natural_frequency,
            "Hz",
            COMPUTED,
        )
        check(SOURCE, f"set {number}: its damping ratio", damping, mode.damping_ratio, kind=COMPUTED)


def test_settled_corner():
    for number in SETS:
        theirs = their_settled_corner(number)
        ours = settled_corner(*_at(number, theirs))
        where = f"set {number} at {theirs.lateral_acceleration:.2f} m/s^2"
        figure = f"{math.degrees(theirs.roll):.3f}"
        check(
            SOURCE,
            f"{where}: roll angle",
            figure,
            math.degrees(ours.roll_angle),
            "deg",
            SECOND_ROUTE,
            tolerance=0.01 * float(figure),
            because=BODY_FREE,
        )
        for end, moment in zip(("front", "rear"), theirs.elastic, strict=True):
            check(
                SOURCE,
                f"{where}: moment through the {end} springs and bar",
                f"{moment:.0f}",
                ours.axle(end).elastic * ours.axle(end).track,
                "N*m",
                SECOND_ROUTE,
                tolerance=0.01 * moment,
                because=BODY_FREE,
            )


def _at(number, theirs):
    one, front, rear = their_car(number)
    return one, theirs.lateral_acceleration, front, rear


def test_their_overturning_moment_is_ours_less_what_their_equations_leave_out():
    for number in SETS:
        theirs = their_settled_corner(number)
        ours = settled_corner(*_at(number, theirs))
        whole = ours.front.roll_moment + ours.rear.roll_moment
        where = f"set {number} at {theirs.lateral_acceleration:.2f} m/s^2"
        figure = f"{theirs.overturning:.0f}"
        check(
            SOURCE,
            f"{where}: overturning moment, as it stands",
            figure,
            whole,
            "N*m",
            SECOND_ROUTE,
            tolerance=0.1 * theirs.overturning,
            because=OVERTURNING,
        )
        check(
            SOURCE,
            f"{where}: overturning moment, ours with the three differences taken over",
            figure,
            whole + _differences(number, theirs),
            "N*m",
            SECOND_ROUTE,
            tolerance=0.006 * theirs.overturning,
            because=WHAT_IS_LEFT,
        )


def _differences(number, theirs):
    """Heights over the squashed tyre, the leaning springs' side pull, the wheels' own lean, [N*m]."""
    one, p = their_car(number)[0], theirs.p
    masses = [one.axle_mass(end) for end in ("front", "rear")]
    pairs = zip(masses, theirs.squash, strict=True)
    squashed = sum(mass * theirs.lateral_acceleration * squash for mass, squash in pairs)
    springs = one.sprung_mass * THEIR_GRAVITY * p.R_w * theirs.roll
    lean = sum(mass * THEIR_GRAVITY * p.R_w * angle for mass, angle in zip(masses, theirs.lean, strict=True))
    return lean - squashed - springs


def test_tyre_rate_matters():
    one, front, rear = their_car(1)
    rigid = their_car(1, tyre=False)
    assert roll_gradient(one, front, rear) > 1.15 * roll_gradient(*rigid)
