"""Load transfer of a car whose chassis twists

No paper: two bodies on one roll axis, a torsion spring between them, set down as symbols in `sympy` (tests
only). Each end's load transfer follows from its own roll; the limits of a rigid chassis and of none at all
are taken by sympy and held against the package too.

Computed by a second route, on the invented car of `plain.py`; sections and rates are worked out there.
"""

import functools
from dataclasses import replace

import sympy as sp

from rollmodel.physics.corner import settled_corner
from tests.validation import plain
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "L9"
CAR, AT = plain.invented_car(), 6.0
phi_f, phi_r = sp.symbols("phi_f phi_r")
torsion = sp.Symbol("K_c", positive=True)


@functools.cache
def transfers():
    """Front and rear load transfer [N] and both rolls [rad], as functions of the chassis's torsion."""
    whole, sprung, height = plain.masses(CAR)
    stiff = {end: plain.roll_stiffness(CAR.axle(end)) for end in plain.ENDS}
    rolls = dict(zip(plain.ENDS, (phi_f, phi_r), strict=True))
    energy, pushed = torsion * (phi_f - phi_r) ** 2 / 2, 0
    for end, roll in rolls.items():
        moment = sprung[end] * (height - CAR.axle(end).roll_centre_height)
        energy += stiff[end] * roll**2 / 2 - plain.G * moment * roll**2 / 2
        pushed += moment * AT * roll
    found = sp.solve([sp.diff(energy - pushed, roll) for roll in rolls.values()], [phi_f, phi_r])
    gains = []
    for end, roll in rolls.items():
        axle = CAR.axle(end)
        links = sprung[end] * axle.roll_centre_height + axle.unsprung_mass * axle.unsprung_cg_height
        gains.append((stiff[end] * found[roll] + AT * links) / axle.track)
    return gains


def test_load_transfer():
    for per_degree in (1500, 4000, 12000):
        torsions = per_degree / plain.DEG
        ours = settled_corner(replace(CAR, chassis_torsion=torsions), AT)
        for end, gain in zip(plain.ENDS, transfers(), strict=True):
            theirs = float(gain.subs(torsion, torsions))
            check(SOURCE, f"chassis of {per_degree} N*m/deg: {end} load transfer at 6 m/s^2", f"{theirs:.3f}",
                  ours.axle(end).load_transfer, "N", SECOND_ROUTE)  # fmt: skip


def test_limits():
    for name, at, ours in (
        ("rigid chassis", sp.oo, settled_corner(CAR, AT)),
        ("no chassis between the ends", 0, settled_corner(replace(CAR, chassis_torsion=1e-6), AT)),
    ):
        for end, gain in zip(plain.ENDS, transfers(), strict=True):
            theirs = float(sp.limit(gain, torsion, at))
            check(SOURCE, f"limit of {name}: {end} load transfer at 6 m/s^2", f"{theirs:.3f}",
                  ours.axle(end).load_transfer, "N", SECOND_ROUTE)  # fmt: skip
