"""How well a bar's rate is known when its steel and its sizes are known only so well."""

from dataclasses import dataclass, fields, replace

import numpy as np

from rollmodel.car import Bar, CarError
from rollmodel.physics.bar import arm_lengths, check_sizes, effective_link_motion_ratio, link_rates_in_roll

SHEAR_MODULUS_RANGE = (74.1e9, 82.7e9)  # Pa, spring steels by grade, handbook tables
# Parts of the calculated rate that an installed bar lacks; common figures, no source.
INSTALLED_SOFTER = (0.10, 0.25)
COVERAGE = 2.0  # expanded uncertainty over standard uncertainty, about 95 %


@dataclass(frozen=True)
class Tolerances:
    """Plus-or-minus limits of what goes into a bar's rate; 0 means taken as exact.

    Parameters
    ----------
    shear_modulus : float, optional
        Half the handbook's range when left out, [Pa].
    youngs_modulus : float, optional
        [Pa].
    outer_diameter, wall : float, optional
        [m]. At a given outer diameter; the bore follows.
    hole : float, optional
        Of the square distance from bar axis to link, [m].
    centre_length : float, optional
        [m].
    blade_thickness : float, optional
        [m].
    link_motion_ratio : float, optional
        Counts only for the rate at the wheel, [-].

    Raises
    ------
    CarError
        One message for each limit that is negative or not finite.
    """

    shear_modulus: float = (SHEAR_MODULUS_RANGE[1] - SHEAR_MODULUS_RANGE[0]) / 2
    youngs_modulus: float = 0.0
    outer_diameter: float = 0.0
    wall: float = 0.0
    hole: float = 0.0
    centre_length: float = 0.0
    blade_thickness: float = 0.0
    link_motion_ratio: float = 0.0

    def __post_init__(self):
        faults = [f"{f.name}: wanted a tolerance of zero or more, given {getattr(self, f.name)!r}"
                  for f in fields(self)
                  if not (np.isfinite(getattr(self, f.name)) and getattr(self, f.name) >= 0)]
        if faults:
            raise CarError(faults)


def shifted(bar: Bar, name: str, change: float) -> Bar:
    """The same bar with one of its tolerated sizes changed, every hole alike.

    Parameters
    ----------
    bar : Bar
    name : str
        A field of :class:`Tolerances`.
    change : float
        Added to it, [m or Pa, as that size].

    Returns
    -------
    Bar
        The same bar where it has no such size (the wall of a solid bar, the blade of a round arm).

    Raises
    ------
    CarError
        When the change makes a bar that cannot be.
    """
    if name == "wall" and bar.wall is None or name == "blade_thickness" and bar.blade is None:
        return bar
    if name == "blade_thickness":
        return replace(bar, blade=replace(bar.blade, thickness=bar.blade.thickness + change))
    if name == "centre_length":
        supports = None if bar.support_spacing is None else bar.support_spacing + change
        return replace(bar, centre_length=bar.centre_length + change, support_spacing=supports)
    return _with_hole_moved(bar, change) if name == "hole" else replace(
        bar, **{name: getattr(bar, name) + change})


def _with_hole_moved(bar: Bar, change: float) -> Bar:
    """Link holes drilled a little further out, along the arm as well as square to the bar."""
    along = None if bar.arm_lengths is None else tuple(arm_lengths(bar) + change)
    blade = None if bar.blade is None else replace(bar.blade, length=bar.blade.length + change)
    return replace(bar, holes=tuple(hole + change for hole in bar.holes), arm_lengths=along, blade=blade)


def _solid_where_filled(bar: Bar) -> Bar:
    """A tube with a wall up to its middle is a solid bar, and its wall has nothing to vary."""
    filled = bar.wall is not None and bar.inner_diameter < 1e-3 * bar.outer_diameter
    return replace(bar, wall=None) if filled else bar


def rate_of(bar: Bar, at: str = "link") -> np.ndarray:
    """Rate of a bar in roll at each hole, at the link or at the wheel, [N/m].

    Parameters
    ----------
    bar : Bar
    at : {"link", "wheel"}

    Returns
    -------
    numpy.ndarray
        `2 k_b`, or `2 k_b MR^2`, [N/m].

    Raises
    ------
    CarError
        When ``at`` is neither word.

    Notes
    -----
    As :func:`rollmodel.physics.bar.link_rates_in_roll`.
    """
    if at not in ("link", "wheel"):
        raise CarError(f"at: wanted 'link' or 'wheel', given {at!r}")
    ratio = 1.0 if at == "link" else effective_link_motion_ratio(bar)
    return link_rates_in_roll(bar) * ratio**2


def sensitivity(bar: Bar, name: str, at: str = "link") -> np.ndarray:
    """Change of the rate per change of one size, by central difference, [N/m per its unit].

    Parameters
    ----------
    bar : Bar
    name : str
        A field of :class:`Tolerances`.
    at : {"link", "wheel"}

    Returns
    -------
    numpy.ndarray
        Per hole; nil for a size that the bar does not have.

    Notes
    -----
    Over two parts in a hundred thousand of the size, where a power of it is a straight line to ten
    digits. For torsion alone the rate goes as ``G D^4 / (L a^2)``, so per cent for per cent it is
    1, 4, -1 and -2.

    Examples
    --------
    >>> bar = Bar(outer_diameter=0.025, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,), arms="rigid")
    >>> print(np.round(sensitivity(bar, "outer_diameter") * bar.outer_diameter / rate_of(bar), 4))
    [4.]
    """
    check_sizes(bar, "spread of a bar's rate")
    step = 1e-5 * _size(bar, name)
    return (rate_of(shifted(bar, name, step), at) - rate_of(shifted(bar, name, -step), at)) / (2 * step)


def _size(bar: Bar, name: str) -> float:
    if name == "hole":
        return bar.holes[-1] if bar.holes else bar.blade.length
    if name == "blade_thickness":
        return 1e-3 if bar.blade is None else bar.blade.thickness
    return getattr(bar, name) or 1e-3


@dataclass(frozen=True)
class RateSpread:
    """A bar's rate with its uncertainty. Arrays have one entry per hole, rates in N/m."""

    rate: np.ndarray  # in roll, as calculated
    contributions: dict[str, np.ndarray]  # standard uncertainty from each source
    limits: dict[str, np.ndarray]  # the most each source can do on its own
    at: str  # "link" or "wheel"

    @property
    def standard(self):
        """Standard uncertainty: the contributions added as squares, [N/m]."""
        return np.sqrt(sum(part**2 for part in self.contributions.values()))

    @property
    def expanded(self):
        """The figure to put behind the plus-or-minus sign, twice the standard one, [N/m]."""
        return COVERAGE * self.standard

    @property
    def relative(self):
        """Expanded uncertainty over the rate, [-]."""
        return self.expanded / self.rate

    @property
    def shares(self):
        """Part of the squared uncertainty that each source brings, [-]; they add up to 1."""
        whole = np.where(self.standard > 0, self.standard, 1.0) ** 2
        return {name: part**2 / whole for name, part in self.contributions.items()}

    @property
    def worst_case(self):
        """All limits at once, each on its bad side, [N/m]."""
        return sum(np.abs(part) for part in self.limits.values())

    @property
    def installed_range(self):
        """Lowest and highest rate to expect when the bar is measured on the car, [N/m].

        Installed bars measure 10 to 25 % softer than calculated (common figures, no source): brackets,
        bushings, links and arms give. That is a shift to one side, larger than most tolerances, and no
        part of the plus-or-minus figure.
        """
        return self.rate * (1 - INSTALLED_SOFTER[1]), self.rate * (1 - INSTALLED_SOFTER[0])


def rate_spread(bar: Bar, tolerances: Tolerances | None = None, at: str = "link") -> RateSpread:
    """A bar's rate at every hole with its uncertainty and where that comes from.

    ``u^2 = sum((dk/dx_i)^2 u_i^2)``, with ``u_i = limit / sqrt(3)`` for limits of which nothing is
    known but that the size lies between them.

    Parameters
    ----------
    bar : Bar
    tolerances : Tolerances, optional
        Only the spread of the shear modulus when left out.
    at : {"link", "wheel"}, optional
        Rate at the link (`2 k_b`) or at the wheel (`2 k_b MR^2`).

    Returns
    -------
    RateSpread

    Raises
    ------
    CarError
        When ``at`` is neither word, or the bar is known by its rates alone.

    Notes
    -----
    JCGM 100:2008 (GUM), 4.3.7 for the rectangle and 5.1.2 for the sum (from memory). Sizes are taken
    as independent and the rate as a straight line across the limits, good to about 1 % of the
    uncertainty at 5 % limits; the turn of a blade is left out because there it is not. The spread of
    the shear modulus is that between grades: a bar of known grade has less.

    Examples
    --------
    >>> bar = Bar(outer_diameter=0.025, centre_length=0.9, link_motion_ratio=0.6, holes=(0.2,), arms="rigid")
    >>> spread = rate_spread(bar, Tolerances(outer_diameter=0.0001))
    >>> print(f"{spread.rate[0] / 1000:.1f} +/- {spread.expanded[0] / 1000:.1f} N/mm")
    169.0 +/- 11.0 N/mm
    >>> print(round(spread.shares["shear_modulus"][0], 2))
    0.92
    """
    tolerances, bar = tolerances or Tolerances(), _solid_where_filled(bar)
    limits = {f.name: sensitivity(bar, f.name, at) * getattr(tolerances, f.name)
              for f in fields(tolerances)}
    return RateSpread(rate_of(bar, at), {name: np.abs(part) / np.sqrt(3) for name, part in limits.items()},
                      limits, at)
