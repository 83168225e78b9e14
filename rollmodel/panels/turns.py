"""One at a time: what the learner does on a page is dealt with by one thread at any moment.

Newer kernels may deal with one control in a thread of its own while another control, or a cell, is at work
in the main one. Panels share a lesson, a figure and what is remembered, so each waits for its turn.
"""

from collections.abc import Callable
from functools import wraps
from threading import RLock

_TURN = RLock()


def in_turn(action: Callable) -> Callable:
    """The same action, which waits until nobody else is at work and keeps the others waiting."""

    @wraps(action)
    def one_at_a_time(*of, **more):
        with _TURN:
            return action(*of, **more)

    return one_at_a_time


class MadeInTurn(type):
    """The class of classes whose objects are made in turn: nobody meets one that is half made."""

    def __call__(cls, *of, **more):
        with _TURN:
            return super().__call__(*of, **more)


def follow(widget, action: Callable) -> None:
    """Call an action, in turn, with each change of a widget's value."""
    widget.observe(in_turn(action), "value")
