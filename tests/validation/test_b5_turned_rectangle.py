"""A rectangle bent at an angle, and the blade arm

F. P. Beer, E. R. Johnston, Mechanics of Materials, chapter on unsymmetrical bending: a beam of 1.5 x 3.5 in
under a moment of 1600 lbf*in at 30 deg to its stiff axis.

The stress is published (chapter from memory; the edition is not recorded). The chapter's neutral axis, 72.4
deg, has no row: the package works out none. The blade, 4 x 20 mm, 150 mm long, E 207 GPa, is computed by a
second route: sums outside this package, and frame elements.
"""

import math

import numpy as np

from rollmodel.car import Blade
from rollmodel.physics.bar import blade_compliance
from rollmodel.physics.section_stress import rectangle_bending_stress
from tests.validation import frame
from tests.validation.evidence import PUBLISHED, SECOND_ROUTE, check

SOURCE = "B5"
RATES = {
    0: "490.667",
    15: "188.161",
    30: "70.0952",
    45: "37.7436",
    60: "25.8246",
    75: "20.9756",
    90: "19.6267",
}  # N/mm by angle from on edge, deg
YOUNGS_MODULUS = 207e9


def blade(from_edge, tip="free"):
    """The blade with one angle; the package counts angles from lying flat."""
    return Blade(0.15, 0.020, 0.004, (math.radians(90 - from_edge),), tip)


def rate(one):
    return 1 / float(
        blade_compliance(one.length, one.width, one.thickness, one.angles[0], YOUNGS_MODULUS, one.tip)
    )


def test_textbook_beam():
    """Inches and pounds straight in: the formula knows no units."""
    moment, angle = 1600.0, math.radians(30)
    ours = rectangle_bending_stress(moment * math.sin(angle), moment * math.cos(angle), 3.5, 1.5)
    result = "largest stress in a 1.5 x 3.5 in beam, 1600 lbf*in at 30 deg"
    check(SOURCE, result, "1062", ours, "psi", PUBLISHED)


def test_blade_with_a_free_tip():
    for from_edge, figure in RATES.items():
        check(
            SOURCE,
            f"blade with a free tip, {from_edge} deg from on edge",
            figure,
            rate(blade(from_edge)) / 1000,
            "N/mm",
            SECOND_ROUTE,
        )


def test_blade_by_frame_elements():
    for from_edge in RATES:
        for tip in ("free", "guided"):
            one = blade(from_edge, tip)
            by_frame = 1e-3 * frame.PULL / frame.clamped_blade_tip(one, 1, YOUNGS_MODULUS)
            check(
                SOURCE,
                f"{tip} tip, {from_edge} deg from on edge, by frame elements",
                f"{by_frame:.4f}",
                1e-3 * rate(one),
                "N/mm",
                SECOND_ROUTE,
            )


def test_adding_stiffnesses_is_wrong_for_a_free_tip():
    free, guided = ([rate(blade(angle, tip)) for angle in RATES] for tip in ("free", "guided"))
    assert np.allclose([free[0], free[-1]], [guided[0], guided[-1]], rtol=1e-12)
    assert guided[3] > 6 * free[3]
