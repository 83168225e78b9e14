"""What comes before the spanner, and where a bar is not the cure. The one source of both; common practice."""

CAUTIONS = {
    "one-change": (
        "One change at a time, at one end, on a closed course. Measure before and after. If it feels worse, "
        "put it back."
    ),
    "support": (
        "To move the links, support the car: stands on firm, level ground before anybody reaches under it. "
        "Never work under a car held by a jack alone; use stands rated for it, with the wheels chocked."
    ),
    "alike": "Move both links of a bar alike: the same hole on both sides.",
    "by-hand": (
        "Then move the suspension through its whole travel by hand: bar, arms and links must touch nothing."
    ),
    "torque": (
        "Tighten to the maker's torque figures. Do the final torque of bushings at ride height, as the maker "
        "says. Check both again after the first run."
    ),
    "rules": "Local rules and a qualified inspection come first. This package certifies nothing.",
}

FIVE_PARTS = {  # what no caution may lack, however short: the part, and words that stand in all of ours
    "support": ("never", "jack alone"),
    "torque": ("maker's torque figures",),
    "one change": ("ne change at a time", "closed course"),
    "rules": ("ocal rules", "qualified inspection"),
    "certifies nothing": ("certif", "nothing"),
}

SHORT = (
    "Support a raised car on stands rated for it, on firm, level ground, with the wheels chocked; never on a "
    "jack alone. Use the maker's torque figures. One change at a time, on a closed course. Local rules and a "
    "qualified inspection come first. These figures certify nothing."
)  # where the list has no room: the end of a lesson or of its exercises, a form, a command's last lines


def missing_parts(words: str) -> list[str]:
    """Which of the five parts a caution lacks.

    Examples
    --------
    >>> missing_parts(SHORT), missing_parts("Use the maker's torque figures.")
    ([], ['support', 'one change', 'rules', 'certifies nothing'])
    """
    said = " ".join(words.split()).lower()
    return [part for part, needed in FIVE_PARTS.items() if not all(one in said for one in needed)]


WHEN_NOT = {
    "entry-exit": "Not for the way in or out: dampers carry load there.",
    "wheel-up": "Not at an end whose inside wheel is off the ground: its bar has nothing left to do.",
    "too-soft": "Not on a car that wallows: more roll stiffness comes first.",
    "rough": "Not as a cure on rough ground: a stiffer bar joins the two wheels and costs grip over bumps.",
}
