"""What the tests of the advice ask of a choice."""

OPPOSITE = {"understeer": "oversteer", "oversteer": "understeer"}


def left_out(choice):
    return {left.end: left.reason.code for left in choice.left_out}


def change(move):
    return move.end, move.direction, move.from_hole, move.to_hole


def number(choice, code, name):
    """A number of a reason, wherever in the advice the reason stands; of a pair the second less the first."""
    reasons = [*choice.reasons, *(left.reason for left in choice.left_out)]
    reasons += [reason for move in choice.moves for reason in move.reasons]
    value = next(reason for reason in reasons if reason.code == code).numbers[name][0]
    return value[1] - value[0] if isinstance(value, tuple) else value
