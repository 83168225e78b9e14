"""The kinds of quantity: what each is called, its SI unit, and how each family shows it."""

from __future__ import annotations

from dataclasses import dataclass

FAMILIES = ("metric", "US customary")


class UnitError(ValueError):
    """A value that cannot be used; one plain sentence with what was wanted, given, and the mend.

    ``mend`` is its last part alone, for a caller that can say better what was wanted.
    """

    def __init__(self, message: str, mend: str = ""):
        super().__init__(message)
        self.mend = mend


class OtherKind(UnitError):
    """Well written, in a unit of another kind: a force where a rate was wanted."""


@dataclass(frozen=True)
class Unit:
    """How a quantity is shown in one family."""

    label: str
    decimals: int


@dataclass(frozen=True)
class Kind:
    """A kind of quantity: its SI unit, its unit in each family, and what people type for it."""

    noun: str  # with its article, for messages
    si: str
    metric: Unit
    us: Unit
    examples: tuple[str, str]  # for messages
    usual: tuple[str, ...] = ()  # units that people type, for guesses at a slip
    trim: bool = False  # drop zeros after the point: 470 mm, but 22.5 mm

    def unit(self, family: str = "metric") -> Unit:
        if family not in FAMILIES:
            raise UnitError(f"family: wanted one of {', '.join(FAMILIES)}, given {family!r}")
        return self.metric if family == "metric" else self.us


KINDS = {
    "length": Kind("a length", "m", Unit("mm", 1), Unit("in", 3), ("26 mm", "1.02 in"),
                   ("mm", "m", "in", "cm", "ft"), trim=True),
    "long length": Kind("a length", "m", Unit("m", 3), Unit("in", 2), ("1.52 m", "59.8 in"),
                        ("m", "mm", "in", "ft", "cm")),
    "mass": Kind("a mass", "kg", Unit("kg", 0), Unit("lb", 0), ("1290 kg", "2844 lb"), ("kg", "lb", "tonne")),
    "rate": Kind("a rate (force per length)", "N/m", Unit("N/mm", 1), Unit("lbf/in", 0),
                 ("65 N/mm", "371 lbf/in"), ("N/mm", "lbf/in", "N/m", "kN/m", "kgf/mm", "lbf/ft")),
    "roll stiffness": Kind("a roll stiffness (moment per angle)", "N*m/rad", Unit("N·m/deg", 0),
                           Unit("lbf·ft/deg", 0), ("9000 N*m/deg", "6640 lbf*ft/deg"),
                           ("N*m/deg", "lbf*ft/deg", "N*m/rad", "kN*m/deg", "kN*m/rad", "lbf*ft/rad")),
    "load": Kind("a force", "N", Unit("N", 0), Unit("lbf", 0), ("3200 N", "719 lbf"),
                 ("N", "lbf", "kN", "kgf")),
    "angle": Kind("an angle", "rad", Unit("deg", 2), Unit("deg", 2), ("-2.0 deg", "-0.035 rad"),
                  ("deg", "rad")),
    "lateral acceleration": Kind("a lateral acceleration", "m/s^2", Unit("g", 3), Unit("g", 3),
                                 ("0.6 g", "5.9 m/s^2"), ("g", "m/s^2", "ft/s^2")),
    "roll gradient": Kind("a roll gradient (angle per lateral acceleration)", "rad/(m/s^2)",
                          Unit("deg/g", 2), Unit("deg/g", 2), ("3.4 deg/g", "0.006 rad/(m/s^2)"),
                          ("deg/g", "rad/g", "deg/(m/s^2)", "rad/(m/s^2)")),
    "understeer gradient": Kind("an understeer gradient (angle per lateral acceleration)", "rad/(m/s^2)",
                                Unit("deg/g", 2), Unit("deg/g", 2), ("0.5 deg/g", "0.0009 rad/(m/s^2)"),
                                ("deg/g", "rad/g", "deg/(m/s^2)", "rad/(m/s^2)")),
    "moment": Kind("a moment (force times length)", "N*m", Unit("N·m", 0), Unit("lbf·ft", 0),
                   ("850 N*m", "627 lbf*ft"), ("N*m", "lbf*ft", "kN*m", "lbf*in")),
    "stress": Kind("a stress", "Pa", Unit("MPa", 0), Unit("ksi", 1), ("450 MPa", "65 ksi"),
                   ("MPa", "ksi", "N/mm^2", "psi", "GPa", "Pa")),
    "modulus": Kind("a modulus", "Pa", Unit("GPa", 1), Unit("Mpsi", 2), ("79.3 GPa", "11.5 Mpsi"),
                    ("GPa", "Mpsi", "MPa", "ksi", "psi", "N/mm^2", "Pa")),
    "share": Kind("a share of the whole", "", Unit("%", 1), Unit("%", 1), ("52 %", "52.5 %"), ("%",)),
    "ratio": Kind("a bare number", "", Unit("", 3), Unit("", 3), ("0.70", "1.15")),
    "damper rate": Kind("a damper rate (force per speed)", "N*s/m", Unit("N·s/mm", 2), Unit("lbf·s/in", 1),
                        ("4500 N*s/m", "25.7 lbf*s/in"),
                        ("N*s/m", "N*s/mm", "lbf*s/in", "kN*s/m", "lbf*s/ft")),
    "speed": Kind("a speed", "m/s", Unit("km/h", 0), Unit("mph", 0), ("80 km/h", "50 mph"),
                  ("km/h", "mph", "m/s", "ft/s")),
    "time": Kind("a time", "s", Unit("s", 2), Unit("s", 2), ("0.4 s", "400 ms"), ("s", "ms")),
    "frequency": Kind("a frequency", "Hz", Unit("Hz", 2), Unit("Hz", 2), ("1.4 Hz", "84 1/min"),
                      ("Hz", "1/s")),
    "cornering stiffness": Kind("a cornering stiffness (force per slip angle)", "N/rad", Unit("N/deg", 0),
                                Unit("lbf/deg", 0), ("1200 N/deg", "270 lbf/deg"),
                                ("N/deg", "lbf/deg", "N/rad", "kN/deg", "kN/rad")),
    "grip drop": Kind("a loss of grip per load", "1/N", Unit("1/kN", 4), Unit("1/kip", 4),
                      ("0.03 1/kN", "0.13 1/kip"), ("1/kN", "1/N", "1/kip", "1/lbf")),
    "inertia": Kind("a moment of inertia", "kg*m^2", Unit("kg·m²", 0), Unit("lb·ft²", 0),
                    ("420 kg*m^2", "9970 lb*ft^2"), ("kg*m^2", "lb*ft^2", "slug*ft^2")),
}
