"""A second tyre, with coefficients of 2006

H. B. Pacejka, Tyre and Vehicle Dynamics, 2nd edition, Butterworth-Heinemann (2006), Table A3.1: a 205/60R15
tyre, side force at pure slip without camber, in the book's signs.

The coefficients are typed in from the source, and that second-hand (read in a quotation of the table): their
rows show the typing, nothing else. The forces are computed from published inputs.
"""

import numpy as np

from rollmodel.physics import tyre_2006
from tests.validation.evidence import COMPUTED, TYPED, check

SOURCE = "T2"
COEFFICIENTS = {
    "Fz0": "4000",
    "pCy1": "1.193",
    "pDy1": "-0.990",
    "pDy2": "0.145",
    "pEy1": "-1.003",
    "pEy2": "-0.537",
    "pEy3": "-0.083",
    "pKy1": "-14.95",
    "pKy2": "2.130",
    "pKy4": "2",
    "pHy1": "0.003",
    "pHy2": "-0.001",
    "pVy1": "0.045",
    "pVy2": "-0.024",
}
FORCES = ((4000, -6, "3594.760"), (4000, 6, "-3346.435"), (2000, -2, "918.296"), (6000, 15, "-5306.947"))


def test_coefficients():
    for name, printed in COEFFICIENTS.items():
        check(SOURCE, f"coefficient {name}", printed, tyre_2006.MAGIC_2006[name], kind=TYPED)
        assert tyre_2006.MAGIC_2006[name] == float(printed)


def test_side_force():
    for load, slip, figure in FORCES:
        check(
            SOURCE,
            f"side force at {load} N, {slip} deg",
            figure,
            tyre_2006.magic_formula_2006(np.radians(slip), load),
            "N",
            COMPUTED,
        )


def test_slope():
    check(
        SOURCE,
        "slope at the nominal load",
        "-46009.14",
        tyre_2006.magic_2006_stiffness(4000.0),
        "N/rad",
        COMPUTED,
    )
