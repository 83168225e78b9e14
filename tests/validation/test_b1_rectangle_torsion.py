"""Torsion constant of a rectangle

S. P. Timoshenko, J. N. Goodier, Theory of Elasticity, article on the torsion of rectangular bars: the
constant k in J = k (long side) (short side)^3.

The factors to five digits are computed from published inputs (the book's exact series, whose printed table
has three digits). The same is computed by a second route: warping finite elements of the library
`sectionproperties`.
"""

import functools

from sectionproperties.analysis import Section
from sectionproperties.pre.library import rectangular_section

from rollmodel.physics.sections import rectangle_torsion_constant
from tests.validation.evidence import COMPUTED, SECOND_ROUTE, check

SOURCE = "B1"
FACTORS = {
    1: "0.14058",
    1.5: "0.19576",
    2: "0.22868",
    3: "0.26332",
    4: "0.28081",
    6: "0.29832",
    8: "0.30707",
    10: "0.31233",
}


def test_factor():
    for ratio, printed in FACTORS.items():
        check(
            SOURCE,
            f"factor k, long side {ratio} times the short one",
            printed,
            rectangle_torsion_constant(ratio, 1.0) / ratio,
            kind=COMPUTED,
        )


@functools.cache
def by_finite_elements(width):
    """Torsion constant of a rectangle 4 mm thick, [mm^4]; kept, the evidence page asks for it too."""
    section = Section(rectangular_section(d=width, b=4).create_mesh(mesh_sizes=[0.05]))
    section.calculate_geometric_properties()
    section.calculate_warping_properties()
    return section.get_j()


def test_finite_elements():
    for width in (4, 8, 20):
        check(
            SOURCE,
            f"torsion constant of {width} x 4 mm by finite elements",
            f"{by_finite_elements(width):.1f}",
            rectangle_torsion_constant(width, 4.0),
            "mm^4",
            SECOND_ROUTE,
        )
