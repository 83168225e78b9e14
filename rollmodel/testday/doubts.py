"""How well each number of a car sheet is known: as the sheet says, else as usual means give it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import radians

from rollmodel.car import Car
from rollmodel.physics.spread import shifted
from rollmodel.sheets.schema import TABLES
from rollmodel.testday.bench import with_steel

# Plus or minus, about 95 %: starting figures of our own for usual workshop means, in SI or as a part of the
# value. The sheet's own figure behind a plus-or-minus sign goes before these.
_ABSOLUTE = {
    "front_weight_share": 0.005,
    "wheelbase": 0.005,
    "cg_height": 0.025,
    "track": 0.005,
    "unsprung_cg_height": 0.010,
    "roll_centre_height": 0.020,
    "spring_motion_ratio": 0.02,
    "camber": radians(0.25),
    "camber_recovery": 0.15,
    "bar.link_motion_ratio": 0.02,
}
_RELATIVE = {
    "mass": 0.005,
    "chassis_torsion": 0.20,
    "tyre.grip_scale": 0.05,
    "tyre.peak_grip": 0.05,
    "tyre.grip_drop": 0.20,
    "tyre.cornering_stiffness": 0.10,
    "unsprung_mass": 0.10,
    "spring_rate": 0.03,
    "tyre_vertical_rate": 0.15,
    "bar.rate": 0.10,
}
_NOT_SHEET_NAMES = {"tyre.grip_drop": "tyre.grip_drop_per_kN"}  # ours: the sheet's
_BAR_SIZES = {  # the sheet's name: that of physics.spread
    "outer_diameter": "outer_diameter",
    "wall": "wall",
    "holes": "hole",
    "centre_length": "centre_length",
    "blade.thickness": "blade_thickness",
}
_WORDS = {  # where the name alone would not read well
    "front_weight_share": "front share of the weight",
    "cg_height": "centre of gravity's height",
    "chassis_torsion": "torsional stiffness of the chassis",
    "tyre.grip_scale": "grip of the tyres",
    "tyre.peak_grip": "grip of the tyres at no load",
    "tyre.grip_drop": "loss of grip with load",
    "tyre.cornering_stiffness": "cornering stiffness of the tyres",
    "unsprung_cg_height": "height of the unsprung mass",
    "spring_motion_ratio": "spring's motion ratio",
    "tyre_vertical_rate": "tyre's vertical rate",
    "bar.link_motion_ratio": "link's motion ratio",
    "bar.rate": "bar rate as installed",
    "bar.outer_diameter": "bar diameter",
    "bar.holes": "holes of the bar's arm",
    "bar.wall": "wall of the bar",
    "bar.centre_length": "length of the bar",
    "bar.blade.thickness": "blade thickness",
}


@dataclass(frozen=True)
class Doubt:
    """One number of a car and how well it is known."""

    name: str  # "front.spring_rate"; "front.bar.rate" is a factor on the bar's steel, 1 as the sheet has it
    value: float  # SI
    limit: float  # behind the plus-or-minus sign, about 95 %, SI
    stated: bool  # whether the sheet says so; else a usual figure

    @property
    def words(self) -> str:
        """What it is, in plain words."""
        end, bare = _end_and_rest(self.name)
        return f"{end} {_WORDS.get(bare, bare.replace('_', ' '))}".strip()

    @property
    def standard(self) -> float:
        """Standard uncertainty, half the limit, [SI]."""
        return self.limit / 2


def doubts_of(car: Car, stated: dict[str, float] | None = None) -> list[Doubt]:
    """Every number of a car that bears on roll and balance, with its uncertainty.

    Parameters
    ----------
    car : Car
    stated : dict of str to float, optional
        From ``sheets.read_uncertainties``, [SI].

    Returns
    -------
    list of Doubt

    Notes
    -----
    An uncertainty of the shear modulus counts as that of the bar's rate; where the sheet gives rates, the
    largest of theirs, taken as that of the hole in use. The shape of the tyre's curve is
    not varied: what it is wrong by comes on top of everything here.
    """
    stated = stated or {}
    names = [name for name in (*_ABSOLUTE, *_RELATIVE) if not _of_axle(name)]
    names += [
        f"{end}.{name}" for end in ("front", "rear") for name in (*_ABSOLUTE, *_RELATIVE) if _of_axle(name)
    ]
    names += [name for name in stated if _is_bar_size(name)]
    found = [_doubt(car, name, stated) for name in names if has(car, name)]
    return [doubt for doubt in found if doubt.limit > 0]


def _of_axle(name: str) -> bool:
    return name not in (
        "mass",
        "front_weight_share",
        "wheelbase",
        "cg_height",
        "chassis_torsion",
    ) and not name.startswith("tyre.")


def _is_bar_size(name: str) -> bool:
    return _end_and_rest(name)[1].removeprefix("bar.") in _BAR_SIZES


def doubt_is_learnable(doubt: Doubt) -> bool:
    """Whether runs may teach it: sizes of a bar are not learned one by one but as the bar's rate."""
    return not _is_bar_size(doubt.name)


def kind_of(name: str) -> str:
    """The kind of quantity of a number by its dotted name, a key of ``units.KINDS``."""
    end, rest = _end_and_rest(name)
    if rest == "bar.rate":
        return "ratio"
    *path, field = rest.split(".")
    key = path[-1] if path else "axle" if end else ""
    return next(one.kind for one in TABLES[key] if field in (one.name, one.target))


def sheet_name(name: str) -> str:
    """The number's name as the sheet has it."""
    return _NOT_SHEET_NAMES.get(name, name)


def _end_and_rest(name: str) -> tuple[str, str]:
    start, _, rest = name.partition(".")
    return (start, rest) if start in ("front", "rear") else ("", name)


def _doubt(car: Car, name: str, stated: dict[str, float]) -> Doubt:
    value, bare = value_of(car, name), _end_and_rest(name)[1]
    given = stated.get(sheet_name(name))
    if bare == "bar.rate":
        given = _of_steel(car, name, stated)
    if given is not None:
        return Doubt(name, value, given, True)
    return Doubt(name, value, _ABSOLUTE[bare] if bare in _ABSOLUTE else abs(value) * _RELATIVE[bare], False)


def _of_steel(car: Car, name: str, stated: dict[str, float]) -> float | None:
    bar = car.axle(name.partition(".")[0]).bar
    field, whole = "shear_modulus", bar.shear_modulus
    if bar.rates is not None:
        field, whole = "rates", bar.rates[bar.hole - 1]
    given = stated.get(name.replace("bar.rate", f"bar.{field}"))
    return None if given is None else given / whole


def has(car: Car, name: str) -> bool:
    """Whether the car has this number at all."""
    return value_of(car, name) is not None


def value_of(car: Car, name: str) -> float | None:
    """A number of the car by its dotted name, [SI]; None where the car lacks it."""
    end, rest = _end_and_rest(name)
    bar = car.axle(end).bar if end else None
    if rest == "bar.rate":
        return None if bar is None else 1.0
    if rest == "bar.holes":
        return bar.holes[bar.hole - 1] if bar and bar.holes and not bar.blade else None
    value = car
    for part in name.split("."):
        value = None if value is None else getattr(value, part, None)
    return value


def moved(car: Car, name: str, change: float) -> Car:
    """The car with one number changed.

    Parameters
    ----------
    car : Car
    name : str
        As `Doubt.name`.
    change : float
        Added to it, [SI].

    Raises
    ------
    CarError
        The change makes a car that cannot be.
    """
    end, rest = _end_and_rest(name)
    if rest == "bar.rate":
        return _with_bar(car, end, with_steel(car.axle(end).bar, 1 + change))
    if _is_bar_size(name):
        return _with_bar(car, end, shifted(car.axle(end).bar, _BAR_SIZES[rest.removeprefix("bar.")], change))
    return _replaced(car, name.split("."), change)


def _with_bar(car: Car, end: str, bar) -> Car:
    return replace(car, **{end: replace(car.axle(end), bar=bar)})


def _replaced(record, path: list[str], change: float):
    first, *rest = path
    old = getattr(record, first)
    return replace(record, **{first: _replaced(old, rest, change) if rest else old + change})
