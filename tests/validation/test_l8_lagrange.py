"""The roll angle from Lagrange's equations

No paper: a body on two roll springs, free to turn about an axis that moves sideways at a given
acceleration, set down in `sympy.physics.mechanics` (tests only) and its equations of motion derived there.

Every figure is computed by a second route: the derivation gives phi = m a h / (K - m g h) for a rigid body,
and the two angles of a body whose chassis twists.
"""

import functools

import sympy as sp
from sympy.physics import mechanics

from rollmodel.car import GRAVITY
from rollmodel.physics.roll import solve_roll
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "L8"
m_f, m_r, h_f, h_r, g, a, k_f, k_r, k_c, inertia = sp.symbols(
    "m_f m_r h_f h_r g a K_f K_r K_c I", positive=True
)
VALUES = {m_f: 640, m_r: 520, h_f: 0.41, h_r: 0.36, g: GRAVITY, a: 5.0, k_f: 42e3, k_r: 31e3, k_c: 250e3}


def _settled(angles, masses, arms, potential):
    """Angles at which bodies on an accelerating axis come to rest, small angles, by Lagrange's method.

    The axis moves sideways as ``-a t^2/2``, so that the body is thrown to the positive side.
    """
    time = mechanics.dynamicsymbols._t
    frame = mechanics.ReferenceFrame("N")
    origin = mechanics.Point("O")
    origin.set_vel(frame, -a * time * frame.y)
    energy = -potential
    for name, (angle, mass, arm) in enumerate(zip(angles, masses, arms, strict=True)):
        body = frame.orientnew(f"B{name}", "Axis", [-angle, frame.x])
        centre = origin.locatenew(f"C{name}", arm * body.z)
        speed = centre.pos_from(origin).dt(frame) + origin.vel(frame)
        energy += mass * speed.dot(speed) / 2 + inertia * angle.diff(time) ** 2 / 2
        energy -= mass * g * arm * sp.cos(angle)
    equations = mechanics.LagrangesMethod(energy, angles).form_lagranges_equations()
    rest = {angle.diff(time, order): 0 for angle in angles for order in (2, 1)}
    still = equations.doit().subs(rest)
    flat = {angle: sp.Symbol(f"phi_{name}") for name, angle in enumerate(angles)}
    small = [
        sp.series(line.subs(flat), unknown, 0, 2).removeO().expand()
        for line, unknown in zip(still, flat.values(), strict=True)
    ]
    return sp.solve(small, list(flat.values()))


@functools.cache
def rigid():
    (phi,) = mechanics.dynamicsymbols("phi,")
    found = _settled([phi], [m_f], [h_f], k_f * phi**2 / 2)
    return next(iter(found.values()))


@functools.cache
def twisting():
    phi, psi = mechanics.dynamicsymbols("phi psi")
    potential = (k_f * phi**2 + k_r * psi**2 + k_c * (phi - psi) ** 2) / 2
    return tuple(_settled([phi, psi], [m_f, m_r], [h_f, h_r], potential).values())


def test_rigid_body():
    assert sp.simplify(rigid() - m_f * a * h_f / (k_f - m_f * g * h_f)) == 0
    theirs = float(sp.deg(rigid().subs(VALUES)))
    moment = 640 * 0.41
    ours, _ = solve_roll((moment, 0.0), (42e3, 0.0), (moment * 5.0, 0.0), 0.0)
    check(
        SOURCE,
        "roll angle of a rigid body, 640 kg at 0.41 m on 42 kN*m/rad at 5 m/s^2",
        f"{theirs:.6f}",
        float(sp.deg(ours)),
        "deg",
        SECOND_ROUTE,
    )


def test_body_that_twists():
    moments = (640 * 0.41, 520 * 0.36)
    ours = solve_roll(moments, (42e3, 31e3), [5.0 * moment for moment in moments], 1 / 250e3)
    for end, angle, theirs in zip(("front", "rear"), ours, twisting(), strict=True):
        check(
            SOURCE,
            f"{end} roll angle of a body that twists, 250 kN*m/rad between its ends",
            f"{float(sp.deg(theirs.subs(VALUES))):.6f}",
            float(sp.deg(angle)),
            "deg",
            SECOND_ROUTE,
        )
