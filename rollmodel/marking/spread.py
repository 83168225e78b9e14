"""Work spread over processors: results in the order of the jobs, and only a few of them waiting at a time."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from itertools import islice
from multiprocessing import get_context

AT_A_TIME = 16  # jobs sent to a process together
AHEAD = 4  # such lots that each process may be ahead of what was taken
FEW = 60  # jobs; starting processes takes longer than these


class WorkLost(RuntimeError):
    """A process ended before its work was done; one plain sentence."""


def processors() -> int:
    """How many this program may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def spread(
    work: Callable, jobs: list, prepare: Callable, given: tuple = (), processes: int | None = None
) -> Iterator:
    """The result of each job, in order.

    Parameters
    ----------
    work : callable
        Takes one job. A function at the top of a module, as it is sent to other processes.
    jobs : list
    prepare : callable
        Called once in each process before any work, with ``given``.
    given : tuple
    processes : int, optional
        As many as there are processors when left out.

    Raises
    ------
    WorkLost
        The system ended one of the processes.
    """
    number = processors() if processes is None else processes
    if number <= 1 or len(jobs) <= FEW:
        prepare(*given)
        yield from map(work, jobs)
        return
    try:
        # begun afresh, not forked: a fork of a program with threads, as numpy's, may wait for ever
        with ProcessPoolExecutor(number, get_context("spawn"), prepare, given) as pool:
            yield from _in_order(pool, work, jobs, number)
    except BrokenProcessPool:
        raise WorkLost(
            "a process that was marking ended before its work was done, perhaps for want of memory; "
            "try again with --processes 1"
        ) from None


def _in_order(pool: ProcessPoolExecutor, work: Callable, jobs: list, number: int) -> Iterator:
    waiting: deque = deque()
    lots = _lots(jobs)
    try:
        for lot in lots:
            waiting.append(pool.submit(_all_of, work, lot))
            if len(waiting) >= AHEAD * number:
                yield from waiting.popleft().result()
        while waiting:
            yield from waiting.popleft().result()
    finally:
        for future in waiting:
            future.cancel()


def _lots(jobs: Iterable) -> Iterator[list]:
    rest = iter(jobs)
    while lot := list(islice(rest, AT_A_TIME)):
        yield lot


def _all_of(work: Callable, lot: list) -> list:
    return [work(job) for job in lot]
