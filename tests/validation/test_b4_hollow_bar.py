"""A hollow bar, worked by hand

No paper: the torsion formulas of any strength-of-materials text (J = pi/32 (D^4 - d^4), rate G J / (L a^2))
for a tube 26/18 mm, 900 mm long, arms of 250 mm, G 79 GPa, rigid arms.

Computed by a second route: by hand, outside this package. D^4 = 26^4 = 456976 and d^4 = 18^4 = 104976, so J =
352000 pi/32 = 34557.5 mm^4; G J / L = 79000 x 34557.5 / 900 = 3033.4 N*m/rad; over a^2 = 0.0625 m^2 that is
48.53 N/mm at one link with the other held, and 97.07 N/mm at each in roll.
"""

from rollmodel.physics.bar import link_rates_in_roll, link_rates_one_end_held
from rollmodel.physics.sections import round_polar_second_moment
from tests.validation.build import round_bar
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "B4"
TUBE = round_bar(0.026, 0.9, 0.25, wall=0.004, shear_modulus=79e9)


def test_hollow_bar():
    polar = round_polar_second_moment(TUBE.outer_diameter, TUBE.inner_diameter)
    held = link_rates_one_end_held(TUBE)[0]
    check(
        SOURCE,
        "polar second moment",
        "3.4558",
        polar * 1e8,
        "1e-8 m^4",
        SECOND_ROUTE,
    )
    check(SOURCE, "torsional rate over the whole bar", "3033", held * 0.25**2, "N*m/rad", SECOND_ROUTE)
    check(SOURCE, "rate at one link, the other held", "48.5", held / 1000, "N/mm", SECOND_ROUTE)
    check(
        SOURCE,
        "rate at each link in roll, twice that",
        "97.1",
        link_rates_in_roll(TUBE)[0] / 1000,
        "N/mm",
        SECOND_ROUTE,
    )
