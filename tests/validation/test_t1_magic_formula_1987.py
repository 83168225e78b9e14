"""The Magic Formula with its coefficients of 1987

E. Bakker, L. Nyborg, H. B. Pacejka, "Tyre Modelling for Use in Vehicle Dynamics Studies", SAE paper
870421 (1987). Lateral force, no camber, no shifts; load in kN, slip angle in degrees, force in N.

The coefficients are typed in from the source, and that second-hand (read in a quotation of the paper): their
rows show the typing, nothing else. The table of forces is computed from published inputs: the paper's formula
worked out from its coefficients outside this package.
"""

import numpy as np

from rollmodel.car import Tyre
from rollmodel.physics import tyre
from rollmodel.physics.pair import largest_axle_force
from tests.validation.evidence import COMPUTED, TYPED, check

SOURCE = "T1"
COEFFICIENTS = {
    "a1": "-22.1",
    "a2": "1011",
    "a3": "1078",
    "a4": "1.82",
    "a5": "0.208",
    "a6": "0",
    "a7": "-0.354",
    "a8": "0.707",
    "C": "1.30",
    "a9": "0.028",
    "a10": "0",
    "a11": "14.8",
    "a12": "0.022",
    "a13": "0",
}
TABLE = """
2 1933.60  708.777 -0.001  676.25 1197.06 1722.54 1928.73 1924.34
4 3690.40 1027.335 -0.709 1009.38 1911.06 3096.61 3676.79 3666.69
6 5270.40 1076.149 -1.417 1071.95 2110.43 3833.10 5166.09 5262.23
8 6673.60 1028.827 -2.125 1029.93 2061.02 4011.22 6253.25 6668.28
"""
SLIPS = (1, 2, 4, 8, 12)


def test_coefficients():
    for name, printed in COEFFICIENTS.items():
        check(SOURCE, f"coefficient {name}", printed, tyre.MAGIC_1987[name], kind=TYPED)
        assert tyre.MAGIC_1987[name] == float(printed)


def test_peak_slope_and_curvature():
    for line in TABLE.split("\n")[1:-1]:
        load, peak, slope, curvature, *_ = line.split()
        newtons = 1000 * float(load)
        check(SOURCE, f"peak D at {load} kN", peak, tyre.magic_peak(newtons), "N", COMPUTED)
        check(
            SOURCE,
            f"slope BCD at {load} kN",
            slope,
            np.radians(tyre.magic_stiffness(newtons)),
            "N/deg",
            COMPUTED,
        )
        check(SOURCE, f"curvature E at {load} kN", curvature, tyre.magic_curvature(newtons), kind=COMPUTED)


def test_side_force():
    for line in TABLE.split("\n")[1:-1]:
        load, _, _, _, *forces = line.split()
        for slip, printed in zip(SLIPS, forces, strict=True):
            ours = tyre.magic_formula_1987(np.radians(slip), 1000 * float(load))
            check(SOURCE, f"side force at {load} kN, {slip} deg", printed, ours, "N", COMPUTED)


def test_largest_slope():
    loads = np.linspace(5.6e3, 5.64e3, 4_000_001)
    slopes = tyre.magic_stiffness(loads)
    check(
        SOURCE,
        "load of the largest slope, tan(pi/(2 a4))/a5",
        "5.61926",
        loads[np.argmax(slopes)] / 1000,
        "kN",
        COMPUTED,
    )
    check(SOURCE, "largest slope, a3", "1078", np.radians(slopes.max()), "N/deg", COMPUTED)


def test_uneven_pair_loses():
    peaks = tyre.peak_side_force(Tyre(), np.array([4000.0, 4000.0, 6000.0, 2000.0]))
    check(
        SOURCE,
        "summed peaks lost by a pair at 4 +/- 2 kN, 2 |a1| dF^2",
        "176.8",
        peaks[:2].sum() - peaks[2:].sum(),
        "N",
        COMPUTED,
    )
    at_one_slip = [largest_axle_force(Tyre(), 4000.0 + d, 4000.0 - d)[0] for d in (0.0, 2000.0)]
    assert at_one_slip[0] - at_one_slip[1] > 176.8  # the two peaks do not lie at one slip angle
