"""Which fields the form asks for, in which order: it depends on the bars and on the tyre's curve."""

from __future__ import annotations

from dataclasses import dataclass

from rollmodel.sheets.form.words import WORDS, Words
from rollmodel.sheets.schema import RATES_REPLACE, TABLES, Field

ENDS = ("front", "rear")
BAR_KINDS = {"": "not said yet", "none": "no bar", "holes": "bar, links in holes of its arms",
             "blades": "bar with blades as arms", "rates": "bar, its rates known"}
BLANK = {"tyre.curve": "magic formula 1987"}
KIND = "kind"  # of a bar; stands under the table's own path, "front.bar"

_FIELDS = {(key, field.name): field for key, fields in TABLES.items() for field in fields}
FALLING = ("peak_grip", "grip_drop_per_kN", "cornering_stiffness")  # asked for with the curve "falling grip"
_NEEDED_BY_RULE = (("bar", KIND), ("bar", "holes"), ("bar", "rates"), *(("tyre", name) for name in FALLING))
_BLADES_REPLACE = ("arms", "holes", "arm_length", "arm_sweep")
_PLACES = {"": ("",), "tyre": ("tyre.",), "axle": ("front.", "rear."),
           **{key: tuple(f"{end}.{inner}." for end in ENDS)
              for key, inner in (("damper", "damper"), ("bar", "bar"), ("blade", "bar.blade"))}}


@dataclass(frozen=True)
class Line:
    """One thing asked for: of the car, or of one or both ends.

    Attributes
    ----------
    key, name : str
        Table of the schema and field in it.
    paths : tuple of str
        Where in the sheet the answers go.
    """

    key: str
    name: str
    paths: tuple[str, ...]

    @property
    def field(self) -> Field | None:
        """The sheet's field; None for the kind of a bar, which the sheet says by its tables."""
        return _FIELDS.get((self.key, self.name))

    @property
    def words(self) -> Words:
        return WORDS[self.key, self.name]

    @property
    def needed(self) -> bool:
        """Whether a sheet must have it where this line is asked for; of dampers, a sheet may have none."""
        by_rule = (self.key, self.name) in _NEEDED_BY_RULE
        return by_rule or bool(self.field and self.field.required and self.key != "damper")

    @property
    def may_be_left_out(self) -> str:
        """The sentence that says so, when and what is taken then; empty where it is needed."""
        return "" if self.needed else f"May be left out{self.words.left_out}."


@dataclass(frozen=True)
class Section:
    """Lines under one heading; optional ones are folded away at first."""

    name: str
    title: str
    lines: tuple[Line, ...]
    optional: bool = False


_PLAN = (  # name, title, optional, (table, fields)
    ("car", "The car", False, (("", ("title", "drive", "mass", "front_weight_share", "wheelbase",
                                     "cg_height")),)),
    ("ends", "Each end", False, (("axle", ("track", "unsprung_mass", "unsprung_cg_height",
                                           "roll_centre_height", "spring_rate", "spring_motion_ratio")),)),
    ("bars", "Anti-roll bars", False, (
        ("bar", (KIND, "rates", "outer_diameter", "wall", "centre_length", "arms", "holes")),
        ("blade", ("length", "width", "thickness", "angles")),
        ("bar", ("hole", "link_motion_ratio")))),
    ("more", "More about the bars", True, (
        ("bar", ("support_spacing", "arm_length", "arm_sweep", "bushing_rate", "link_rate",
                 "link_lean_at_arm", "link_lean_at_pickup", "shear_modulus", "youngs_modulus")),
        ("blade", ("angle_from", "tip", "lever")))),
    ("tyres", "Tyres", True, (("tyre", ("curve", "grip_scale", *FALLING)),
                              ("axle", ("tyre_vertical_rate",)))),
    ("travel", "Bump stops and camber", True,
     (("axle", ("bump_travel", "bump_stop_rate", "camber", "camber_recovery")),)),
    ("dampers", "Dampers", True, (("damper", ("rate", "motion_ratio")),)),
    ("body", "Chassis and note", True, (("", ("chassis_torsion", "roll_inertia", "note")),)),
)


def sections(answers: dict[str, str]) -> tuple[Section, ...]:
    """What is asked, given what has been answered so far.

    Examples
    --------
    >>> bars = {"front.bar": "blades", "rear.bar": "none"}
    >>> [line.paths for line in sections(bars)[2].lines if line.name == "angles"]
    [('front.bar.blade.angles',)]
    """
    return tuple(Section(name, title, tuple(_lines(plan, answers)), optional)
                 for name, title, optional, plan in _PLAN)


def asked(answers: dict[str, str]) -> dict[str, Line]:
    """Every path that the form asks for now, with its line, in order."""
    return {path: line for section in sections(answers) for line in section.lines for path in line.paths}


def every_path() -> dict[str, Line]:
    """Every path that the form may ever ask for."""
    return {path: Line(key, name, paths) for *_, plan in _PLAN for key, names in plan for name in names
            for paths in (_paths(key, name),) for path in paths}


def label(path: str) -> str:
    """What the box of a path is called, the end's name before it.

    Examples
    --------
    >>> label("front.bar.outer_diameter"), label("mass")
    ('Front bar diameter', 'Mass')
    """
    line, end = every_path()[path], path.partition(".")[0]
    words = line.words.label
    return f"{end.capitalize()} {words}" if end in ENDS else words[:1].upper() + words[1:]


def _lines(plan, answers):
    for key, names in plan:
        for name in names:
            paths = tuple(path for path in _paths(key, name) if applies(path, answers))
            if paths:
                yield Line(key, name, paths)


def _paths(key: str, name: str) -> tuple[str, ...]:
    return tuple(place.rstrip(".") if name == KIND else place + name for place in _PLACES[key])


def applies(path: str, answers: dict[str, str]) -> bool:
    """Whether a path belongs to the sheet, with these bars and this tyre curve."""
    end, _, rest = path.partition(".")
    if end == "tyre":
        return rest not in FALLING or answers.get("tyre.curve") == "falling grip"
    if not rest.startswith("bar."):
        return True
    kind, name = answers.get(f"{end}.bar"), rest.removeprefix("bar.")
    if name.startswith("blade."):
        return kind == "blades"
    if kind == "rates":
        return name not in RATES_REPLACE
    return name != "rates" and (kind == "holes" or (kind == "blades" and name not in _BLADES_REPLACE))
