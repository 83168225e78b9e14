"""The car, its axles, bars and tyre, as frozen records of plain SI numbers.

Lengths in m, masses in kg, rates in N/m, angles in rad, moduli in Pa. Motion ratios are
*component travel over wheel travel* (usually below 1). A record is checked when it is
made; every fault found is reported together in one :class:`CarError`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields, replace
from itertools import pairwise

from rollmodel.checked import CarError as CarError
from rollmodel.checked import finite, is_finite, is_whole, numbers, one_of, positive, refuse, within_angle

GRAVITY = 9.80665  # standard gravity, m/s^2 (ISO 80000-3)
SHEAR_MODULUS = 79.3e9  # spring steel, Pa; handbook tables give 74.1 to 82.7 GPa by grade
YOUNGS_MODULUS = 206e9  # spring steel, Pa

_SQUARE = 1 + 1e-4  # a square blade's thickness may be a hair over, as its tolerance is tried
DRIVES = ("front", "rear", "all")
ARMS = ("rigid", "same section", "blade")
_SIZES = ("outer_diameter", "centre_length", "holes", "wall", "arm_lengths", "support_spacing",
          "bushing_rate", "link_rate", "blade")  # of a bar; rates that are known stand in their place
_LEANS = ("link_lean_at_arm", "link_lean_at_pickup")
CURVES = ("magic formula 1987", "magic formula 2006", "falling grip")


@dataclass(frozen=True)
class Blade:
    """A blade arm: a thin strip turned about its own long axis to change its stiffness."""

    length: float  # bar axis to link, m
    width: float  # the long side of the section, m
    thickness: float  # the short side of the section, m
    angles: tuple[float, ...]  # rad, from lying flat (soft, 0) to on edge (stiff, pi/2), softest first
    tip: str = "free"  # "free": the tip may move sideways; "guided": it may not

    def __post_init__(self):
        faults = [*positive(self, "length", "width", "thickness"), *numbers(self, "angles")]
        faults += one_of(self, "tip", ("free", "guided"))
        if not faults and self.thickness > self.width * _SQUARE:
            faults.append(f"thickness: wanted at most the width {self.width} m, given {self.thickness} m")
        refuse(faults)
        if not self.angles:
            faults.append("angles: wanted at least one angle, given none")
        if any(not 0 <= angle <= math.pi / 2 + 1e-9 for angle in self.angles):
            faults.append(f"angles: wanted from 0 (flat) to pi/2 (on edge), in rad, given {self.angles}")
        elif any(b <= a for a, b in pairwise(self.angles)):
            faults.append(f"angles: wanted the softest first, each stiffer than the one before, "
                          f"given {self.angles}")
        refuse(faults)


@dataclass(frozen=True)
class Bar:
    """An anti-roll bar: a centre section with an arm at each end, in two bushings; or its rates alone."""

    outer_diameter: float | None  # m
    centre_length: float | None  # between the arms, m
    link_motion_ratio: float  # link travel over wheel travel
    holes: tuple[float, ...] = ()  # square distance from bar axis to link, m, softest (longest) first
    hole: int = 1  # the hole or blade angle in use, counted from 1
    wall: float | None = None  # m; None: a solid bar
    arms: str = "same section"
    arm_lengths: tuple[float, ...] | None = None  # along the arm, m, one per hole; None: as the holes
    arm_sweep: str = "outward"  # where a swept arm points from the end of the centre section
    support_spacing: float | None = None  # between the bushings, m; None: at the arms
    bushing_rate: float | None = None  # N/m at the tip, in series; None: rigid
    link_rate: float | None = None  # N/m, in series; None: rigid
    link_lean_at_arm: float = 0.0  # rad away from square to the arm
    link_lean_at_pickup: float = 0.0  # rad away from the pick-up's line of travel
    blade: Blade | None = None
    shear_modulus: float = SHEAR_MODULUS
    youngs_modulus: float = YOUNGS_MODULUS
    rates: tuple[float, ...] | None = None  # at the link, the other held, N/m per hole; in place of sizes

    def __post_init__(self):
        if self.rates is not None:
            refuse(self._rate_faults())
            return
        faults = list(positive(self, "outer_diameter", "centre_length", "link_motion_ratio", "shear_modulus",
                               "youngs_modulus",
                               optional=("wall", "support_spacing", "bushing_rate", "link_rate")))
        faults += one_of(self, "arms", ARMS)
        faults += one_of(self, "arm_sweep", ("outward", "inward"))
        if not faults and self.wall is not None and self.wall > self.outer_diameter / 2:
            faults.append(f"wall: wanted at most half the outer diameter "
                          f"({1000 * self.outer_diameter / 2:g} mm), given {1000 * self.wall:g} mm")
        if not faults and self.support_spacing is not None and self.support_spacing > self.centre_length:
            faults.append(f"support_spacing: wanted at most the centre length "
                          f"({1000 * self.centre_length:g} mm), given {1000 * self.support_spacing:g} mm")
        faults += [fault for name in _LEANS for fault in within_angle(self, name, 60)]
        faults += numbers(self, "holes")
        if self.arm_lengths is not None:
            faults += numbers(self, "arm_lengths")
        refuse(faults)
        refuse(self._position_faults())

    def _rate_faults(self) -> list[str]:
        faults = [*positive(self, "link_motion_ratio"), *numbers(self, "rates"), *self._hole_fault()]
        faults += [fault for name in _LEANS for fault in within_angle(self, name, 60)]
        if given := [name for name in _SIZES if getattr(self, name) not in (None, ())]:
            faults.append(f"rates: wanted in place of all sizes, given with {', '.join(given)}")
        if not faults and not (self.rates and all(b > a for a, b in pairwise((0, *self.rates)))):
            faults.append(f"rates: wanted above zero, each stiffer than the one before, given {self.rates}")
        return faults

    def _hole_fault(self):
        if not is_whole(self.hole, 1, max(1, self.positions)):
            yield f"hole: wanted a whole number from 1 to {self.positions}, given {self.hole}"

    def _position_faults(self):
        if (self.arms == "blade") != (self.blade is not None):
            yield "blade: wanted a blade table exactly when arms = \"blade\""
            return
        if self.blade is None and not self.holes:
            yield "holes: wanted at least one hole, given none"
        if any(a <= 0 for a in self.holes):
            yield f"holes: wanted finite lengths above zero, given {self.holes}"
        elif any(b >= a for a, b in pairwise(self.holes)):
            yield (f"holes: wanted the softest (longest) first, each shorter than the one before, given "
                   f"{self.holes}")
        yield from self._hole_fault()
        if self.arm_lengths is not None and not (
                len(self.arm_lengths) == len(self.holes)
                and all(along >= hole * (1 - 1e-9)
                        for along, hole in zip(self.arm_lengths, self.holes, strict=True))):
            yield (f"arm_length: wanted no less than the square distance of its hole, {self.holes}, given "
                   f"{self.arm_lengths}")

    @property
    def positions(self) -> int:
        """How many holes, or blade angles, there are to choose from."""
        return len(self.rates or (self.blade.angles if self.blade else self.holes))

    @property
    def inner_diameter(self) -> float:
        """Bore of the tube in m; 0 for a solid bar."""
        return 0.0 if self.wall is None else self.outer_diameter - 2 * self.wall


@dataclass(frozen=True)
class Damper:
    """A damper, linear about its working point."""

    rate: float  # N*s/m at the damper
    motion_ratio: float  # damper travel over wheel travel

    def __post_init__(self):
        refuse(positive(self, "rate", "motion_ratio"))


@dataclass(frozen=True)
class Axle:
    """One end of the car. Masses are for both wheels together."""

    track: float
    unsprung_mass: float
    unsprung_cg_height: float
    roll_centre_height: float  # above the ground; may be negative
    spring_rate: float  # at the spring
    spring_motion_ratio: float  # spring travel over wheel travel
    tyre_vertical_rate: float | None = None  # None: rigid
    bump_travel: float | None = None
    bump_stop_rate: float | None = None  # at the wheel, once bump_travel is used up
    camber: float | None = None  # rad, static; negative: top leans in
    camber_recovery: float | None = None  # part of the roll angle that the linkage gives back
    damper: Damper | None = None
    bar: Bar | None = None

    def __post_init__(self):
        refuse([*positive(self, "track", "unsprung_mass", "unsprung_cg_height", "spring_rate",
                          "spring_motion_ratio",
                          optional=("tyre_vertical_rate", "bump_travel", "bump_stop_rate")),
                *finite(self, "roll_centre_height", optional=("camber_recovery",)),
                *(() if self.camber is None else within_angle(self, "camber", 20))])

    @property
    def hole(self) -> int | None:
        """The hole or blade angle in use, counted from 1; None without a bar."""
        return None if self.bar is None else self.bar.hole

    @property
    def positions(self) -> int:
        return 0 if self.bar is None else self.bar.positions


@dataclass(frozen=True)
class Tyre:
    """Which side-force curve, and how much grip. Same tyre at all four corners."""

    curve: str = "magic formula 1987"
    grip_scale: float = 1.0  # multiplies the peak side force, not the slope at small slip
    peak_grip: float | None = None  # "falling grip": mu at no load
    grip_drop: float | None = None  # "falling grip": loss of mu per newton of load
    cornering_stiffness: float | None = None  # "falling grip": N/rad for one tyre

    def __post_init__(self):
        faults = [*one_of(self, "curve", CURVES), *positive(self, "grip_scale")]
        own = ("peak_grip", "grip_drop", "cornering_stiffness")
        if self.curve == "falling grip":
            missing = [name for name in own if getattr(self, name) is None]
            faults += [f"{name}: wanted for the falling grip curve, not given" for name in missing]
            faults += positive(self, optional=("peak_grip", "cornering_stiffness"))
            if "grip_drop" not in missing and not (is_finite(self.grip_drop) and self.grip_drop >= 0):
                faults.append(f"grip_drop: wanted zero or more, given {self.grip_drop!r}")
        else:
            faults += [f"{name}: belongs to the falling grip curve only"
                       for name in own if getattr(self, name) is not None]
        refuse(faults)


@dataclass(frozen=True)
class Car:
    """A whole car, with driver and fuel as it corners."""

    title: str
    drive: str
    mass: float
    front_weight_share: float  # 0 to 1, of the whole weight
    wheelbase: float
    cg_height: float  # of the whole car
    tyre: Tyre
    front: Axle
    rear: Axle
    chassis_torsion: float | None = None  # N*m/rad between the axles; None: rigid
    roll_inertia: float | None = None  # kg*m^2 of the sprung mass about the roll axis
    note: str = ""

    def __post_init__(self):
        faults = list(positive(self, "mass", "wheelbase", "cg_height",
                               optional=("chassis_torsion", "roll_inertia")))
        faults += one_of(self, "drive", DRIVES)
        if not (is_finite(self.front_weight_share) and 0 < self.front_weight_share < 1):
            faults.append(f"front_weight_share: wanted a part between 0 and 1, "
                          f"given {self.front_weight_share!r}")
        if not faults:
            for name in ("front", "rear"):
                if self.sprung_mass_at(name) <= 0:
                    faults.append(f"[{name}] unsprung_mass: wanted less than the axle carries "
                                  f"({self.axle_mass(name):.0f} kg), "
                                  f"given {getattr(self, name).unsprung_mass:g} kg")
            if not faults and self.sprung_cg_height <= 0:
                faults.append(f"cg_height: wanted a sprung mass above the ground, given one at "
                              f"{1000 * self.sprung_cg_height:.0f} mm; check cg_height "
                              f"({1000 * self.cg_height:g} mm) and both unsprung_cg_height")
        refuse(faults)

    def axle(self, end: str) -> Axle:
        return {"front": self.front, "rear": self.rear}[end]

    def axle_mass(self, end: str) -> float:
        """Mass that one axle carries, sprung and unsprung, kg."""
        return self.mass * (self.front_weight_share if end == "front" else 1 - self.front_weight_share)

    def axle_weight(self, end: str) -> float:
        """Static load on the two tyres of one axle, N."""
        return self.axle_mass(end) * GRAVITY

    def sprung_mass_at(self, end: str) -> float:
        """The sprung mass that one axle carries, kg."""
        return self.axle_mass(end) - self.axle(end).unsprung_mass

    @property
    def sprung_mass(self) -> float:
        return self.sprung_mass_at("front") + self.sprung_mass_at("rear")

    @property
    def sprung_cg_height(self) -> float:
        """Height of the sprung centre of gravity: m h = m_s h_s + sum(m_u h_u), in m."""
        unsprung = sum(a.unsprung_mass * a.unsprung_cg_height for a in (self.front, self.rear))
        return (self.mass * self.cg_height - unsprung) / self.sprung_mass

    def with_holes(self, front: int | None = None, rear: int | None = None) -> Car:
        """The same car with other holes (or blade angles), counted from 1.

        Raises
        ------
        CarError
            When an end has no bar, or no such hole.
        """
        return replace(self, front=_at_hole(self.front, front, "front"),
                       rear=_at_hole(self.rear, rear, "rear"))


def _at_hole(axle: Axle, hole: int | None, end: str) -> Axle:
    if hole is None:
        return axle
    if axle.bar is None:
        raise CarError(f"[{end}] hole: wanted none, there is no bar at this end, given {hole}")
    if not 1 <= hole <= axle.bar.positions:
        raise CarError(f"[{end}] hole: wanted a whole number from 1 to {axle.bar.positions}, given {hole}")
    return replace(axle, bar=replace(axle.bar, hole=hole))


def field_names(record) -> list[str]:
    """Names of a record's fields, in order."""
    return [field.name for field in fields(record)]
