"""Shear modulus of spring steels

Handbook tables of spring steels (74.1 to 82.7 GPa by grade; the handbook is not recorded) and EN 10089, hot
rolled steels for quenched and tempered springs.

The range is second-hand; the 78.5 GPa of EN 10089 is from memory and is never the only check. The value that
the package takes when a sheet gives none is chosen here, so those two rows compute nothing. What the spread
does to a bar's rate is computed from published inputs.
"""

from rollmodel.car import SHEAR_MODULUS
from rollmodel.physics.bar import link_rates_in_roll
from rollmodel.physics.spread import Tolerances, rate_spread
from tests.validation.build import round_bar
from tests.validation.evidence import COMPUTED, INVENTED, check, check_range

SOURCE = "B6"
LOWEST, HIGHEST = "74.1", "82.7"
SPREAD = "4 %: what the grade alone leaves open; it belongs in the stated uncertainty of any bar rate"


def rate(shear_modulus, arms="rigid"):
    return link_rates_in_roll(round_bar(0.024, 0.95, 0.2, arms=arms, shear_modulus=shear_modulus))[0]


def test_standard_value():
    check_range(
        SOURCE,
        "value taken when none is given, against the handbook's grades (second-hand)",
        LOWEST,
        HIGHEST,
        SHEAR_MODULUS / 1e9,
        "GPa",
        INVENTED,
    )
    check(
        SOURCE,
        "hot-rolled spring steel (EN 10089, from memory) against the value taken when none is given",
        "78.5",
        SHEAR_MODULUS / 1e9,
        "GPa",
        INVENTED,
        tolerance=0.04 * 78.5,
        because=SPREAD,
    )


def test_spread_of_the_rate():
    ends = [1e9 * float(end) for end in (LOWEST, HIGHEST)]
    for end, figure in zip(ends, ("-6.56", "4.29"), strict=True):
        check(
            SOURCE,
            f"rate of a bar with rigid arms at {end / 1e9:g} GPa instead of 79.3",
            figure,
            100 * (rate(end) / rate(79.3e9) - 1),
            "%",
            COMPUTED,
        )
    low, high = (rate(end, "same section") / rate(79.3e9, "same section") - 1 for end in ends)
    assert -0.0656 < low < -0.04 and 0.03 < high < 0.0429  # the arms bend by E, not G


def test_stated_uncertainty_of_a_rate():
    """Half the range in G, as limits of which nothing else is known, is 3.1 % as a standard uncertainty."""
    spread = rate_spread(round_bar(0.024, 0.95, 0.2, arms="rigid"), Tolerances())
    half_range = (float(HIGHEST) - float(LOWEST)) / 2
    standard = 100 * half_range / 79.3 / 3**0.5
    check(
        SOURCE,
        "standard uncertainty of a rigid-armed bar's rate from its steel alone, half range over root 3",
        f"{standard:.2f}",
        100 * spread.standard[0] / spread.rate[0],
        "%",
        COMPUTED,
    )
