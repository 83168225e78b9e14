"""Whether the present cell was run in one go with the cell before it, as "Run All Cells" does.

A learner who runs cells one at a time is asked to predict before the controls open. Run All, an
export and a test must come to the end by themselves. The kernel gets no word of which it is; but every
request to run a cell says when it was sent. Run All sends all of them at once. A hand never does, even
where it does not wait for a slow machine. A page also names the cell; a program that runs a notebook names
none, and sends the next as soon as the one before has ended.
"""

import time

HAND = 0.2  # s; quicker than anybody presses Shift+Enter again

_cells = {"sent": None, "ended": None, "one go": True}


def watch(shell) -> None:
    """Note when cells are sent and end in an IPython shell; asking twice does no harm."""
    for event, note in (("pre_run_cell", _started), ("post_run_cell", _ended)):
        if note not in shell.events.callbacks[event]:
            shell.events.register(event, note)
            _cells["sent"] = _sent()  # of the cell that asks: it has started already


def in_one_go() -> bool:
    """Whether nobody can have read the cell before this one; also so where no cells are watched."""
    return _cells["one go"]


def _started(info=None):
    sent = _sent()
    if _cells["ended"] is not None:
        at_once = abs(sent - _cells["sent"]) < HAND
        by_a_page = getattr(info, "cell_id", None) is not None
        _cells["one go"] = at_once or (not by_a_page and sent - _cells["ended"] < HAND)
    _cells["sent"] = sent


def _ended(*_):
    _cells["ended"] = time.time()


def _sent() -> float:
    """When the request for the present cell was sent, [s]; now, where the shell does not know."""
    from IPython import get_ipython  # only where cells are run is there a shell to ask

    request = getattr(get_ipython(), "parent_header", None) or {}
    date = request.get("header", request).get("date")
    return date.timestamp() if hasattr(date, "timestamp") else time.time()
