"""What a car sheet may hold: every table and field, its kind, its believable range, where it is measured.

Ranges run from a light single-seater on small wheels to a heavy saloon. They are tight enough that a
slip of unit (N/m for N/mm, m for mm, rad for deg) falls outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from rollmodel.car import ARMS, CURVES, DRIVES
from rollmodel.units import parse


@dataclass(frozen=True)
class Field:
    """One field of one table."""

    name: str
    kind: str  # a key of units.KINDS, or "text", "word", "whole number"
    low: str | float = 0  # believable range, both ends included
    high: str | float = 0
    required: bool = False
    many: bool = False  # a list
    one_or_many: bool = False  # one value or a list
    words: tuple[str, ...] = ()
    attribute: str = ""  # the record's name for it, when it has another
    where: str = ""  # where the number comes from
    example: str = ""  # for messages, when the kind's own does not suit

    @property
    def target(self) -> str:
        return self.attribute or self.name

    @property
    def range(self) -> tuple[float, float]:
        """Believable range, [SI]."""
        return _bound(self.low, self.kind), _bound(self.high, self.kind)


@lru_cache(maxsize=256)
def _bound(text: str | float, kind: str) -> float:
    return parse(text, kind)


DRIVES_SAID = {  # what people call the drive, in small letters without - : what a sheet calls it
    **dict.fromkeys(("fwd", "front wheel", "front wheels", "front wheel drive"), "front"),
    **dict.fromkeys(("rwd", "back", "back wheel drive", "rear wheel", "rear wheels",
                     "rear wheel drive"), "rear"),
    **dict.fromkeys(("awd", "4wd", "4x4", "both", "four wheel drive", "4 wheel drive", "all wheels",
                     "all wheel drive"), "all"),
}


def _text(name, where="", required=False):
    return Field(name, "text", required=required, where=where)


def _word(name, words, required=False, where="", attribute=""):
    return Field(name, "word", words=words, required=required, where=where, attribute=attribute)


_NOTE = _text("note")
_PLATES = "corner scales under all four wheels, driver aboard"
_BENCH = "spring tester"
_TAPE = "tape measure"

TOP = (
    _text("title"),
    _word("drive", DRIVES, True, "which wheels are driven"),
    Field("mass", "mass", "150 kg", "3500 kg", True, where=_PLATES + ", half fuel"),
    Field("front_weight_share", "share", "25 %", "75 %", True, where=_PLATES),
    Field("wheelbase", "long length", "1.2 m", "3.9 m", True, example="2.48 m",
          where=_TAPE + ", hub to hub"),
    Field("cg_height", "length", "150 mm", "1100 mm", True, example="470 mm",
          where="corner scales with one end raised"),
    Field("chassis_torsion", "roll stiffness", "200 N*m/deg", "100000 N*m/deg",
          where="twist rig, or the maker's figure; rigid when left out"),
    Field("roll_inertia", "inertia", "8 kg*m^2", "2500 kg*m^2",
          where="swing test, or estimated; of the sprung mass about the roll axis"),
    _NOTE,
)

TYRE = (
    _word("curve", CURVES, True,
          "which side-force curve; magic formula 2006 is a second road tyre, without camber"),
    Field("grip_scale", "ratio", 0.2, 3.0, where="skidpad; multiplies the peak side force"),
    Field("peak_grip", "ratio", 0.3, 3.5, where="tyre test: grip at no load"),
    Field("grip_drop_per_kN", "grip drop", "0 1/kN", "0.4 1/kN", attribute="grip_drop",
          where="tyre test: loss of grip per kN of load"),
    Field("cornering_stiffness", "cornering stiffness", "100 N/deg", "6000 N/deg",
          where="tyre test, one tyre: side force per degree at small slip"),
    _NOTE,
)

AXLE = (
    Field("track", "long length", "0.8 m", "2.1 m", True, where=_TAPE + ", tread centre to tread centre"),
    Field("unsprung_mass", "mass", "8 kg", "400 kg", True, example="84 kg",
          where="scales, parts off the car: both wheels, hubs, half of arms and shafts"),
    Field("unsprung_cg_height", "length", "100 mm", "600 mm", True, example="310 mm",
          where=_TAPE + ", about the hub's height"),
    Field("roll_centre_height", "length", "-300 mm", "600 mm", True, example="55 mm",
          where="drawn from the pick-up points, measured from the ground"),
    Field("spring_rate", "rate", "8 N/mm", "700 N/mm", True, where=_BENCH),
    Field("spring_motion_ratio", "ratio", 0.15, 1.8, True,
          where="jacking test: spring travel over wheel travel"),
    Field("tyre_vertical_rate", "rate", "50 N/mm", "900 N/mm",
          where="load plate at working pressure; rigid when left out"),
    Field("bump_travel", "length", "5 mm", "400 mm", example="70 mm",
          where=_TAPE + ", ride height to bump stop, at the wheel"),
    Field("bump_stop_rate", "rate", "2 N/mm", "2000 N/mm",
          where=_BENCH + ", times the stop's motion ratio squared: the rate at the wheel; in roll the body "
                "rises on its springs, so the axle feels less of it"),
    Field("camber", "angle", "-8 deg", "5 deg",
          where="camber gauge; negative leans in at the top; used with magic formula 1987 alone"),
    Field("camber_recovery", "ratio", -1.0, 2.0,
          where="camber gauge, body rolled: part of the whole body roll, the tyres' squash in it, that the "
                "wheels do not lean with; left out, roll costs no camber; used with magic formula 1987 "
                "alone"),
    _NOTE,
)

DAMPER = (
    Field("rate", "damper rate", "100 N*s/m", "60000 N*s/m", True, where="damper tester"),
    Field("motion_ratio", "ratio", 0.15, 1.8, True, where="jacking test: damper travel over wheel travel"),
    _NOTE,
)

BAR = (
    Field("outer_diameter", "length", "5 mm", "70 mm", True, where="calliper"),
    Field("wall", "length", "0.5 mm", "30 mm", example="4 mm",
          where="ultrasonic gauge or cut end; solid when left out"),
    Field("centre_length", "length", "80 mm", "1900 mm", True, example="950 mm",
          where=_TAPE + ", between the arms"),
    _word("arms", ARMS, True, "look: does the arm bend?"),
    Field("holes", "length", "20 mm", "600 mm", many=True, example='"220 mm", "200 mm"',
          where=_TAPE + ", square from bar axis to link, softest (longest) first"),
    Field("rates", "rate", "3 N/mm", "3000 N/mm", many=True, example='"24 N/mm", "29 N/mm"',
          where="bench or maker's table, one for each hole, softest first: at the link, square to the "
                "arm, the other link held; in place of every size"),
    Field("hole", "whole number", where="look: which hole the link is in, counted from the softest"),
    Field("arm_length", "length", "20 mm", "900 mm", example="250 mm", one_or_many=True,
          attribute="arm_lengths",
          where=_TAPE + ", along a swept arm; one value belongs to the first hole"),
    _word("arm_sweep", ("outward", "inward"), where="look: which way a swept arm points"),
    Field("support_spacing", "length", "60 mm", "1900 mm", example="700 mm",
          where=_TAPE + ", between the bushings"),
    Field("bushing_rate", "rate", "20 N/mm", "1000000 N/mm", where=_BENCH + ", as felt at the link"),
    Field("link_rate", "rate", "20 N/mm", "1000000 N/mm", where=_BENCH),
    Field("link_motion_ratio", "ratio", 0.03, 1.8, True, where="jacking test: link travel over wheel travel"),
    Field("link_lean_at_arm", "angle", "-60 deg", "60 deg", where="protractor: away from square to the arm"),
    Field("link_lean_at_pickup", "angle", "-60 deg", "60 deg",
          where="protractor: away from the pick-up's line of travel"),
    Field("shear_modulus", "modulus", "20 GPa", "95 GPa",
          where="steel maker's sheet; 79.3 GPa when left out"),
    Field("youngs_modulus", "modulus", "50 GPa", "250 GPa",
          where="steel maker's sheet; 206 GPa when left out"),
    _NOTE,
)

RATES_REPLACE = ("outer_diameter", "wall", "centre_length", "arms", "holes", "arm_length", "arm_sweep",
                 "support_spacing", "bushing_rate", "link_rate", "shear_modulus", "youngs_modulus", "blade")

BLADE = (
    Field("length", "length", "20 mm", "600 mm", True, example="150 mm",
          where=_TAPE + ", free length, bar axis to link"),
    Field("width", "length", "5 mm", "120 mm", True, example="20 mm",
          where="calliper, long side of the section"),
    Field("thickness", "length", "1 mm", "40 mm", True, example="4 mm", where="calliper, short side"),
    Field("angles", "angle", "0 deg", "90 deg", True, many=True, example='"0 deg", "45 deg"',
          where="protractor: 0 deg lying flat (soft), 90 deg on edge (stiff), softest first"),
    _word("angle_from", ("flat", "on edge"), where="what the angles are measured from; flat when left out"),
    _word("tip", ("free", "guided"), where="look: may the tip move sideways? free when left out"),
    Field("lever", "length", "20 mm", "600 mm", example="150 mm",
          where=_TAPE + ", square from bar axis to link; the blade's length when left out"),
    _NOTE,
)

TABLES = {"": TOP, "tyre": TYRE, "axle": AXLE, "damper": DAMPER, "bar": BAR, "blade": BLADE}

PARTS = {"": {"tyre": "tyre", "front": "axle", "rear": "axle"},  # table: the tables inside it
         "axle": {"damper": "damper", "bar": "bar"}, "bar": {"blade": "blade"}}
NEEDED = {"": ("tyre", "front", "rear")}


def parts(table: str) -> dict[str, str]:
    """Names of the tables that may stand inside a table, and which table of the schema each is."""
    return PARTS.get(table, {})
