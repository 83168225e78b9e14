"""In which order a lesson is told: a change from before to after; apart from it the tasks at the keyboard."""

from __future__ import annotations

import re
from collections.abc import Iterator

from rollmodel.handouts.pieces import Tasks, Words
from rollmodel.panels.panel import Panel

AT_THE_SCREEN = "at-the-screen"  # tag of a cell that makes sense only beside the running lesson
_TASKS = re.compile(r"\*\*Tasks?\b[.:]?\s*(.*?)\*\*\s*", re.DOTALL)
_LIST = re.compile(r"\d+\. ")


def predicted_states(panel: Panel) -> list[tuple[str, dict]]:
    """The change that a panel asks to be predicted, then what else it shows beside its start.

    Parameters
    ----------
    panel : Panel
        With a prediction.

    Returns
    -------
    list of (str, dict)
        "Before", "After", and "Also" for each further state, with control values that differ from the start.
    """
    asked, start = panel.card.asked, vars(panel.start_values())
    moved = asked.before | asked.after
    ends = [{name: start[name] for name in moved} | end for end in (asked.before, asked.after)]
    seen = [start | end for end in ends]
    more = [changes for changes in (panel.low, panel.high) if start | changes not in seen]
    return [*zip(("Before", "After"), ends, strict=True), *(("Also", changes) for changes in more)]


def divided(markdown: str, panel: str) -> Iterator[Words | Tasks]:
    """Prose in turn with the tasks in it: a paragraph that begins with that word, and its numbered list.

    Examples
    --------
    >>> [type(one).__name__ for one in divided("One.\\n\\n**Tasks**\\n\\n1. Two.\\n\\n## Three", "A panel")]
    ['Words', 'Tasks', 'Words']
    """
    waiting, in_tasks = [], False
    for chunk in re.split(r"\n\s*\n", markdown):
        begins = _TASKS.match(chunk)
        goes_on = in_tasks and _LIST.match(chunk)
        if waiting and (begins or in_tasks) and not goes_on:
            yield _piece(waiting, in_tasks, panel)
            waiting = []
        in_tasks = bool(begins or goes_on)
        waiting.append(_TASKS.sub(r"\1 ", chunk, count=1).strip() if begins else chunk)
    yield _piece(waiting, in_tasks, panel)


def _piece(chunks: list[str], tasks: bool, panel: str) -> Words | Tasks:
    text = "\n\n".join(filter(None, chunks))
    return Tasks(panel, text[:1].upper() + text[1:]) if tasks else Words(text)
