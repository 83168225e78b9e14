"""What the model takes where an optional part of the form is not answered: said under the part's own name."""

from __future__ import annotations

from rollmodel.car import Tyre
from rollmodel.sheets.form.layout import BLANK, Section

_TAKEN = {
    ("tyre", "curve"): f'the tyre curve "{BLANK["tyre.curve"]}", the course\'s road tyre',
    ("tyre", "grip_scale"): f"a grip scale of {Tyre.grip_scale:g}",
    ("axle", "tyre_vertical_rate"): "tyres that do not give under load",
    ("axle", "bump_stop_rate"): "no bump stop",
    ("axle", "camber"): "no camber at rest",
    ("axle", "camber_recovery"): "roll that costs no camber",
    ("damper", "rate"): "no dampers",
    ("", "chassis_torsion"): "a rigid chassis",
    ("", "roll_inertia"): "a roll inertia that is estimated",
}


def assumed(section: Section, answers: dict[str, str]) -> str:
    """One sentence on what is taken for the answers not given; empty where all are, or none is taken.

    Examples
    --------
    >>> from rollmodel.sheets.form.layout import sections
    >>> body = sections(BLANK)[-1]
    >>> assumed(body, {"roll_inertia": "500 kg*m^2"})
    'Not given, so the model takes: a rigid chassis.'
    """
    taken = [_TAKEN[line.key, line.name] + _where(line, answers) for line in section.lines
             if (line.key, line.name) in _TAKEN and _open(line, answers)]
    return f"Not given, so the model takes: {'; '.join(taken)}." if taken else ""


def _open(line, answers) -> list[str]:
    """The line's places that nobody has answered; what a blank form begins with is no answer."""
    return [path for path in line.paths if answers.get(path, "") in ("", BLANK.get(path))]


def _where(line, answers) -> str:
    """At which end, where the other is given."""
    places = _open(line, answers)
    return "" if len(places) == len(line.paths) else f" at the {places[0].partition('.')[0]}"
