"""The tables of a car sheet: every value read, unknown and missing names reported."""

from __future__ import annotations

from dataclasses import dataclass, field

from rollmodel.sheets import values
from rollmodel.sheets.faults import at, nearest
from rollmodel.sheets.plus_minus import apart, fits
from rollmodel.sheets.schema import NEEDED, RATES_REPLACE, TABLES, parts
from rollmodel.units import UnitError, quoted

_HOMES = {"": "at the top of the sheet", "tyre": "in [tyre]", "axle": "in [front] or [rear]",
          "damper": "in [front.damper] or [rear.damper]", "bar": "in [front.bar] or [rear.bar]",
          "blade": "in [front.bar.blade] or [rear.bar.blade]"}
_ALL_NAMES = sorted({name for key, fields in TABLES.items()
                     for name in (*(one.name for one in fields), *parts(key))})


@dataclass
class Table:
    """One table as read: values in SI, as typed, how well they are known, and the tables inside it."""

    key: str  # which table of the schema
    path: str  # as the sheet writes it, front.bar
    si: dict = field(default_factory=dict)
    typed: dict = field(default_factory=dict)
    uncertainty: dict[str, float] = field(default_factory=dict)  # of the values that have one, SI
    tables: dict[str, Table] = field(default_factory=dict)

    def has(self, *names: str) -> bool:
        """Whether all these fields were given and could be read."""
        return all(name in self.si for name in names)

    def given(self, name: str) -> str:
        """A field as it was typed, for a message."""
        return values.given(self.typed[name])

    def at(self, name: str = "") -> str:
        return at(self.path, name)


def read_table(raw: dict, faults: list[str], key: str = "", path: str = "") -> Table:
    """Read a table and all inside it; what is wrong is added to ``faults``."""
    table = Table(key, path, typed=dict(raw))
    fields = {one.name: one for one in TABLES[key]}
    for name, value in raw.items():
        if name in parts(key):
            _read_part(table, name, value, faults)
        elif name in fields:
            try:
                plain, spread = apart(fields[name], value)
                table.si[name] = values.read(fields[name], plain)
                if spread is not None:
                    table.uncertainty[name] = fits(fields[name], table.si[name], spread, value)
            except (values.Fault, UnitError) as fault:
                faults.append(f"{table.at(name)}: {fault}")
        else:
            faults.append(_unknown(table, name, value))
            table.typed.setdefault(_meant(table, name), value)  # so that it is not called missing as well
    spared = RATES_REPLACE if key == "bar" and "rates" in table.typed else ()
    faults += [f"{table.at(one.name)}: missing; wanted {values.wanted(one)}"
               for one in TABLES[key] if one.required and one.name not in (*table.typed, *spared)]
    faults += [f"[{name}]: the whole table is missing" for name in NEEDED.get(key, ())
               if name not in table.typed]
    return table


def _read_part(table: Table, name: str, value, faults: list[str]) -> None:
    path = f"{table.path}.{name}" if table.path else name
    if isinstance(value, dict):
        table.tables[name] = read_table(value, faults, parts(table.key)[name], path)
        return
    hint = "; single square brackets were meant?" if isinstance(value, list) else ""
    faults.append(f"[{path}]: wanted a table that starts with the line [{path}], "
                  f"given {values.given(value)}{hint}")


def _own_names(table: Table) -> list[str]:
    return [*(one.name for one in TABLES[table.key]), *parts(table.key)]


def _meant(table: Table, name: str) -> str | None:
    """The name of this table that a misspelt one stands for; None when a name of another table is nearer."""
    near = None if _homes(name) else nearest(name, _ALL_NAMES)
    return near if near in _own_names(table) else None


def _unknown(table: Table, name: str, value) -> str:
    """A name that does not belong, with the place or the name that was probably meant."""
    what = "table" if isinstance(value, dict) else "field"
    start = f"{table.at()}: unknown {what} {quoted(name)}"
    if _homes(name):
        return f"{start}; it belongs {_homes(name)[0]}"
    if _meant(table, name):
        return f'{start}; "{_meant(table, name)}" was meant?'
    elsewhere = nearest(name, _ALL_NAMES)
    if elsewhere:
        return f'{start}; "{elsewhere}" was meant? That belongs {_homes(elsewhere)[0]}'
    inside = parts(table.key) if what == "table" else _own_names(table)
    return start + (f"; wanted one of {', '.join(inside)}" if inside else "; no table belongs in here")


def _homes(name: str) -> list[str]:
    """The places in which a field or table of this name belongs."""
    inside = [_HOMES[key] for key, names in ((key, parts(key)) for key in TABLES) if name in names]
    return inside + [_HOMES[key] for key, fields in TABLES.items() if name in [one.name for one in fields]]
