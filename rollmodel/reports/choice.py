"""The advice as text for a person and as values for a program."""

import textwrap

from rollmodel.advice import CAUTIONS, WHEN_NOT, Choice
from rollmodel.reports.choice_numbers import reading_values, rows, shower
from rollmodel.reports.tyre_notes import tyre_notes

WIDTH = 80
_LABEL, _COLUMN = 47, 11

_NOTE = ("Settled corner, {wheels}. Extra steer is at the road wheel, beyond what the bend itself asks for; "
         "above zero is understeer.")

_AHEAD = {
    "bump stop first": "Look at the travel and the bump stop first; a bar only after that.",
    "traction first": "Traction first: the throttle. Then dampers and bars.",
    "dampers first": "Dampers first; a bar only after that.",
    "raise roll stiffness first": "Raise the roll stiffness of the whole car first.",
    "not the bars": "Leave the bars: no free position helps.",
    "no advice": "No set-up advice for this car.",
}


def choice_values(choice: Choice, family: str = "metric", notes=()) -> dict:
    """The advice as plain values with the unit in each key; sentences in the given family.

    Parameters
    ----------
    choice : Choice
    family : str
        One of ``units.FAMILIES``.
    notes : list of str
        How the sheet was read, see `rollmodel.sheets.remarks`.
    """
    show = shower(family)
    return {
        "car": choice.car.title,
        "symptom": choice.symptom,
        "when": choice.phase,
        "verdict": choice.verdict,
        "fitted": reading_values(choice.fitted),
        "first_choice": _move_values(choice.first, show),
        "second_choice": _move_values(choice.second, show),
        "third_choice": _move_values(choice.third, show),
        "stiffer_springs": choice.springs and reading_values(choice.springs.after),
        "reasons": [_reason_values(reason, show) for reason in choice.reasons],
        "left_out": [
            {
                "end": left.end,
                "direction": left.direction,
                **_reason_values(left.reason, show),
                "after": left.move and reading_values(left.move.effect.after),
            }
            for left in choice.left_out
        ],
        "notes": [*notes, *_tyre(choice, family)],
        "when_not": list(WHEN_NOT.values()),
        "cautions": list(CAUTIONS.values()),
    }


def _move_values(move, show):
    return move and {
        "end": move.end,
        "direction": move.direction,
        "from_hole": move.from_hole,
        "to_hole": move.to_hole,
        "steps": move.steps,
        "before": reading_values(move.effect.before),
        "after": reading_values(move.effect.after),
        "after_one_step": reading_values(move.one_step.after),
        "reasons": [_reason_values(reason, show) for reason in move.reasons],
    }


def _reason_values(reason, show):
    return {"code": reason.code, "text": reason.sentence(show)}


def choice_text(choice: Choice, family: str = "metric", notes=()) -> str:
    """The advice as text, 80 columns wide: what to change first, the numbers, why, what else.

    Parameters
    ----------
    choice, family, notes
        As for `choice_values`.
    """
    show = shower(family)
    blocks = [
        _head(choice),
        _what_first(choice),
        *([] if choice.verdict == "no advice" else [_table(choice, family, notes)]),
        _why(choice, show),
        _fallback("SECOND CHOICE", choice, choice.second, show),
        _fallback("OR", choice, choice.third, show),
        _left_out(choice, show),
        *([] if choice.verdict == "no advice" else [_listed("When not", WHEN_NOT.values())]),
        _listed("Cautions", CAUTIONS.values()),
    ]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _wrapped(text: str, first: str = "", later: str = "") -> str:
    return textwrap.fill(
        text, WIDTH, initial_indent=first, subsequent_indent=later or first, break_on_hyphens=False
    )


def _listed(title: str, sentences) -> str:
    return "\n".join([_wrapped(title), *(_wrapped(sentence, "  - ", "    ") for sentence in sentences)])


_PHASE = {
    "entry": "on the way into the corner",
    "middle": "in the middle of the corner",
    "exit": "on the way out of the corner",
}


def _head(choice):
    fitted = "; ".join(_fitted(choice.car, end) for end in ("front", "rear"))
    return "\n".join(
        [
            _wrapped(f"{choice.car.title}: {choice.symptom} {_PHASE[choice.phase]}"),
            _wrapped(f"{choice.car.drive.capitalize()}-wheel drive. Fitted: {fitted}."),
        ]
    )


def place(car, end: str, number: int) -> str:
    """ "hole 2" or, on blade arms, "blade position 2"."""
    return f"{'hole' if car.axle(end).bar.blade is None else 'blade position'} {number}"


def _fitted(car, end):
    axle = car.axle(end)
    return f"no {end} bar" if axle.bar is None else f"{end} {place(car, end, axle.hole)} of {axle.positions}"


def change_words(car, move) -> str:
    """ "Rear bar stiffer: hole 1 to hole 3 (2 steps)."."""
    steps = "1 step" if move.steps == 1 else f"{move.steps} steps"
    return (
        f"{move.end.capitalize()} bar {move.direction}: {place(car, move.end, move.from_hole)} to "
        f"{place(car, move.end, move.to_hole)} ({steps})."
    )


def headline(choice) -> str:
    """What comes first, in one line: the bar change to make, or what comes before a bar."""
    return _AHEAD[choice.verdict] if choice.first is None else change_words(choice.car, choice.first)


def _what_first(choice):
    return _wrapped(f"{'FIRST' if choice.first is None else 'FIRST CHOICE'}: {headline(choice)}")


def _table(choice, family, notes):
    """The fitted setup beside what each choice makes of it."""
    columns = [("fitted", choice.fitted)]
    if choice.springs:
        columns.append(("springs up", choice.springs.after))
    columns += [
        (name, move.effect.after)
        for name, move in (("first", choice.first), ("second", choice.second), ("or", choice.third))
        if move
    ][: 3 - len(columns)]
    show = shower(family)
    named = {
        "slope_at": show(choice.fitted.slope_at, "lateral acceleration"),
        "near": show(choice.fitted.near, "lateral acceleration"),
    }
    lines = [f"{'':{_LABEL}}" + "".join(f"{title:>{_COLUMN}}" for title, _ in columns)]
    lines += [
        f"{label.format(**named):{_LABEL}}" + "".join(f"{cell(reading):>{_COLUMN}}" for _, reading in columns)
        for label, cell in rows(family)
    ]
    return "\n".join(
        [
            *lines,
            _wrapped(
                _NOTE.format(
                    wheels="with the force that holds the speed" if choice.phase == "exit" else "coasting"
                )
            ),
            *(_wrapped(note, "* ", "  ") for note in (*notes, *_tyre(choice, family))),
        ]
    )


def _tyre(choice, family):
    return tyre_notes(choice.car, {end: choice.fitted.end(end).outside_load for end in ("front", "rear")},
                      family)


def _why(choice, show):
    reasons = [*choice.reasons, *(choice.first.reasons if choice.first else ())]
    return _listed("Why", [reason.sentence(show) for reason in reasons])


def _fallback(rank, choice, move, show):
    if move is None:
        return ""
    title = f"{rank}: {change_words(choice.car, move)}"
    return _listed(title, [reason.sentence(show) for reason in move.reasons])


def _left_out(choice, show):
    if not choice.left_out:
        return ""
    return _listed(
        "Left out",
        [
            f"{left.end.capitalize()} {left.direction}: {left.reason.sentence(show)}"
            for left in choice.left_out
        ],
    )
