"""What a car sheet may hold, as text: made from the table that reads the sheets, so the two agree."""

from __future__ import annotations

import textwrap

from rollmodel.advice import SHORT
from rollmodel.sheets.schema import TABLES, Field
from rollmodel.units import FAMILIES, KINDS

WIDTH = 80
_HEADS = {"": "At the top", "tyre": "[tyre]", "axle": "[front] and [rear]",
          "damper": "[front.damper], [rear.damper], at the damper",
          "bar": "[front.bar], [rear.bar]; leave the table out where there is no bar",
          "blade": '[front.bar.blade], [rear.bar.blade]; with arms = "blade", in place of holes'}
_START = """Every value with a dimension is text with its unit, "65 N/mm" or "371 lbf/in"; a
bare number is taken for a ratio alone. Motion ratios are component travel over
wheel travel. * marks what must be there. Any table may hold a note. A value may
say how well it is known, "470 mm ± 20 mm": 19 times in 20 within that."""
_BLADES = """Blade angles: the softest first, 0 deg lying flat, 90 deg on edge. With
angle_from = "on edge" they are counted from on edge. A list that falls (90, 45,
0 deg) is read as from on edge too: the softest comes first, which leaves no
other reading. hole picks the angle in use."""
_RATES = """A bar's rates, where a bench or its maker's table gives one for every hole, may
stand in place of all its sizes, also of those with a *: rates = ["24 N/mm",
"29 N/mm"]. Each is the rate at one link with the other link held, bushings and
links in it; in roll each link feels twice as much. Give rates or sizes, not
both. Without sizes nothing is said of the bar's stress."""


def sheet_fields() -> str:
    """Every table and field with its unit, believable range and place of measurement."""
    before = textwrap.fill(f"Before you measure. {SHORT}", WIDTH)
    blocks = [_START, *(_table(key) for key in TABLES), _RATES, _BLADES, before]
    return "\n\n".join(blocks) + "\n"


def _table(key: str) -> str:
    lines = [_HEADS[key]]
    for field in TABLES[key]:
        if field.name != "note":
            name = f"  {field.name + ('*' if field.required else ''):<24}"
            lines += [*_wrapped(_takes(field), name), *_wrapped(field.where)]
    return "\n".join(lines)


def _wrapped(text: str, first: str = " " * 26) -> list[str]:
    """Lines of the page's width; what is joined by a hard space stays on one line."""
    lines = textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=" " * 26)
    return [line.replace("\xa0", " ") for line in lines]


def _takes(field: Field) -> str:
    if field.words:
        return ", ".join(f'"{word}"'.replace(" ", "\xa0") for word in field.words)
    if field.kind not in KINDS:
        return field.kind
    labels = (KINDS[field.kind].unit(family).label for family in FAMILIES)
    units = " or ".join(dict.fromkeys(label.replace("·", "*").replace("²", "^2") for label in labels))
    some = "list, " if field.many else "one or a list, " if field.one_or_many else ""
    low, unit = str(field.low).partition(" ")[::2]
    span = f"{low} to {field.high}" if str(field.high).endswith(unit) else f"{field.low} to {field.high}"
    return f"{some}{units or 'bare number'}; {span}"
