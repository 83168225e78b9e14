"""Whether the present cell was run in one go with the cell before it, as "Run All Cells" does.

A learner who runs cells one at a time is asked to predict before the controls open. Run All, an
export and a test must come to the end by themselves. The kernel gets no word of which it is; but in
Run All the next cell starts as soon as the one before has ended, which no hand does.
"""

import time

HAND = 0.4  # s; quicker than anybody reads a cell and presses Shift+Enter again

_times = {"ended": None, "gap": 0.0}


def watch(shell) -> None:
    """Note when cells start and end in an IPython shell; asking twice does no harm."""
    for event, note in (("pre_run_cell", _started), ("post_run_cell", _ended)):
        if note not in shell.events.callbacks[event]:
            shell.events.register(event, note)


def in_one_go() -> bool:
    """Whether nobody can have read the cell before this one; also so where no cells are watched."""
    return _times["ended"] is None or _times["gap"] < HAND


def _started(*_):
    if _times["ended"] is not None:
        _times["gap"] = time.monotonic() - _times["ended"]


def _ended(*_):
    _times["ended"] = time.monotonic()
