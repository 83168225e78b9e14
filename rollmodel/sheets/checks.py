"""What must hold between the fields of a sheet, said in the words and units that were typed."""

from __future__ import annotations

from itertools import pairwise

from rollmodel.car import CURVES, GRAVITY
from rollmodel.sheets.schema import RATES_REPLACE
from rollmodel.sheets.tables import Table
from rollmodel.units import family_of, show

_SLACK = 1 + 1e-9  # conversion between units may move the last digit
# Radius of gyration in roll over track: published cars lie between 0.33 and 0.39; well outside those.
LEAST_GYRATION, MOST_GYRATION = 0.15, 0.8
_FALLING = ("peak_grip", "grip_drop_per_kN", "cornering_stiffness")


def faults(top: Table):
    """Every fault between fields, from the top of the sheet down."""
    yield from _weights(top)
    yield from _roll_inertia(top)
    if "tyre" in top.tables:
        yield from _tyre(top.tables["tyre"], top)
    for axle in (top.tables[end] for end in ("front", "rear") if end in top.tables):
        yield from _axle(axle)
        bar = axle.tables.get("bar")
        if bar is not None:
            yield from _bar(bar)


def axle_mass(top: Table, end: str) -> float:
    """Mass that one axle carries, [kg]."""
    share = top.si["front_weight_share"]
    return top.si["mass"] * (share if end == "front" else 1 - share)


def _weights(top: Table):
    if not top.has("mass", "front_weight_share"):
        return
    for end in ("front", "rear"):
        axle = top.tables.get(end)
        if axle and axle.has("unsprung_mass") and axle.si["unsprung_mass"] >= axle_mass(top, end):
            carried = show(axle_mass(top, end), "mass", family_of(axle.typed["unsprung_mass"]))
            yield (f"{axle.at('unsprung_mass')}: wanted less than this axle carries ({carried}), "
                   f"given {axle.given('unsprung_mass')}; it is both wheels of one axle, not the whole car")


def _roll_inertia(top: Table):
    """A sprung mass that sits nearer its axis, or further out, than a car's can."""
    if not top.has("roll_inertia", "mass", "cg_height") or not all(
            end in top.tables and top.tables[end].has("track", "unsprung_mass") for end in ("front", "rear")):
        return
    ends = top.tables["front"].si, top.tables["rear"].si
    sprung = top.si["mass"] - sum(end["unsprung_mass"] for end in ends)
    track = sum(end["track"] for end in ends) / 2
    low = sprung * (LEAST_GYRATION * track) ** 2
    high = sprung * ((MOST_GYRATION * track) ** 2 + top.si["cg_height"] ** 2)
    if not low <= top.si["roll_inertia"] <= high and sprung > 0:
        family = family_of(top.typed["roll_inertia"])
        low, high = (show(one, "inertia", family) for one in (low, high))
        yield (f"{top.at('roll_inertia')}: wanted {low} to {high} for this sprung mass and track, given "
               f"{top.given('roll_inertia')}; check figure and unit, or leave it out: it is estimated")


def _tyre(tyre: Table, top: Table):
    curve = tyre.si.get("curve")
    if curve in CURVES and curve != "falling grip":
        yield from (f'{tyre.at(name)}: belongs to the curve "falling grip", given with '
                    f'"{curve}"; leave it out or change the curve'
                    for name in _FALLING if name in tyre.typed)
    elif curve == "falling grip":
        yield from (f'{tyre.at(name)}: missing; the curve "falling grip" needs it'
                    for name in _FALLING if name not in tyre.typed)
        yield from _grip_left(tyre, top)


def _grip_left(tyre: Table, top: Table):
    """Grip must be left with a whole axle's load on one tyre, the most it ever carries."""
    if not (tyre.has("peak_grip", "grip_drop_per_kN") and top.has("mass", "front_weight_share")):
        return
    most = GRAVITY * max(axle_mass(top, end) for end in ("front", "rear"))
    if tyre.si["grip_drop_per_kN"] * most >= tyre.si["peak_grip"]:
        yield (f"{tyre.at('grip_drop_per_kN')}: no grip is left when one tyre carries its whole axle "
               f"({show(most, 'load')}), given {tyre.given('grip_drop_per_kN')} with peak_grip "
               f"{tyre.given('peak_grip')}; a road tyre loses about 0.03 per kN")


def _axle(axle: Table):
    if "bump_stop_rate" in axle.typed and "bump_travel" not in axle.typed:
        yield f"{axle.at('bump_travel')}: missing; bump_stop_rate needs the travel at which the stop is met"


def _bar(bar: Table):
    if "rates" in bar.typed:
        yield from _rates(bar)
        return
    if bar.has("wall", "outer_diameter") and 2 * bar.si["wall"] > bar.si["outer_diameter"] * _SLACK:
        yield (f"{bar.at('wall')}: wanted at most half the outer_diameter ({bar.given('outer_diameter')}), "
               f"given {bar.given('wall')}; leave it out for a solid bar")
    if bar.has("support_spacing", "centre_length") and (
            bar.si["support_spacing"] > bar.si["centre_length"] * _SLACK):
        yield (f"{bar.at('support_spacing')}: wanted at most the centre_length "
               f"({bar.given('centre_length')}), given {bar.given('support_spacing')}")
    if bar.si.get("arms") == "blade" or "blade" in bar.tables:
        yield from _blade_arms(bar)
    else:
        yield from _plain_arms(bar)


def _rates(bar: Table):
    """Known rates stand in place of every size: with both, nobody could say which of them counts."""
    if sizes := [name for name in RATES_REPLACE if name in bar.typed]:
        yield (f"{bar.at('rates')}: wanted in place of every size, given with {', '.join(sizes)}; leave out "
               "the sizes to count on the rates, or the rates to have them worked out")
    elif bar.has("rates"):
        rates = bar.si["rates"]
        if any(second <= first for first, second in pairwise(rates)):
            yield (f"{bar.at('rates')}: wanted the softest first, each stiffer than the one before, given "
                   f"{_listed(bar, 'rates')}{_turned([-rate for rate in rates])}")
        yield from _position(bar, len(rates), "hole")


def _plain_arms(bar: Table):
    if "holes" not in bar.typed:
        yield f'{bar.at("holes")}: missing; wanted a list of lengths, softest first, such as ["200 mm"]'
    elif bar.has("holes"):
        holes = bar.si["holes"]
        if any(second >= first for first, second in zip(holes, holes[1:], strict=False)):
            yield (f"{bar.at('holes')}: wanted the softest (longest) first, each shorter than the one "
                   f"before, given {_listed(bar, 'holes')}{_turned(holes)}")
        yield from _position(bar, len(holes), "hole")
        yield from _arm_length(bar)


def _arm_length(bar: Table):
    if not bar.has("arm_length"):
        return
    lengths, holes = bar.si["arm_length"], bar.si["holes"]
    many = isinstance(lengths, tuple)
    if many and len(lengths) != len(holes):
        yield (f"{bar.at('arm_length')}: wanted one value, or one for each of the {len(holes)} holes, "
               f"given {len(lengths)}")
    elif any(along * _SLACK < hole
             for along, hole in zip(lengths if many else (lengths,), holes, strict=False)):
        yield (f"{bar.at('arm_length')}: wanted no less than the square distance of its hole "
               f"({_listed(bar, 'holes')}), given {_listed(bar, 'arm_length')}")


def _blade_arms(bar: Table):
    blade = bar.tables.get("blade")
    if bar.has("arms") and bar.si["arms"] != "blade":
        yield (f'{bar.at("arms")}: wanted "blade" when there is a [{bar.path}.blade] table, '
               f"given {bar.given('arms')}")
        return
    if blade is None:
        if "blade" not in bar.typed:
            yield f'[{bar.path}.blade]: the whole table is missing; arms = "blade" needs it'
        return
    yield from (f"{bar.at(name)}: does not go with blades; {instead}"
                for name, instead in (("holes", f"the angles in [{blade.path}] take their place"),
                                      ("arm_length", f"give length in [{blade.path}]")) if name in bar.typed)
    if blade.has("width", "thickness") and blade.si["thickness"] > blade.si["width"] * _SLACK:
        yield (f"{blade.at('thickness')}: wanted at most the width ({blade.given('width')}), "
               f"given {blade.given('thickness')}; the two are swapped?")
    if blade.has("angles"):
        if not in_order(blade.si["angles"], blade.si.get("angle_from")):
            yield (f"{blade.at('angles')}: wanted the softest first, each stiffer than the one before, given "
                   f"{_listed(blade, 'angles')}{_blade_hint(blade)}")
        yield from _position(bar, len(blade.si["angles"]), "angle")


def in_order(angles, angle_from: str | None) -> bool:
    """Whether blade angles run from soft to stiff: rising from flat, or falling from on edge."""
    rising, falling = (all((b - a) * sign > 0 for a, b in zip(angles, angles[1:], strict=False))
                       for sign in (1, -1))
    return {"flat": rising, "on edge": falling, None: rising or falling}[angle_from]


def _blade_hint(blade: Table) -> str:
    start = blade.si.get("angle_from", "flat")
    return {"flat": "; from flat they rise", "on edge": "; from on edge they fall"}[start]


def _position(bar: Table, count: int, word: str):
    """The hole in use must exist; with a single one it need not be given."""
    if "hole" not in bar.typed and count > 1:
        yield (f"{bar.at('hole')}: missing; wanted the {word} in use, a whole number from 1 (softest) "
               f"to {count} (stiffest)")
    elif bar.has("hole") and not 1 <= bar.si["hole"] <= count:
        there = f"a whole number from 1 to {count}" if count > 1 else "1, the only one there is"
        yield f"{bar.at('hole')}: wanted {there}, given {bar.given('hole')}; there is no such {word}"


def _turned(numbers) -> str:
    rising = all(second > first for first, second in zip(numbers, numbers[1:], strict=False))
    return "; turn the list round, and count hole anew" if rising else ""


def _listed(table: Table, name: str) -> str:
    typed = table.typed[name]
    shown = typed if isinstance(typed, list) else [typed]
    return ", ".join(str(item) for item in shown[:6]) + (", ..." if len(shown) > 6 else "")
