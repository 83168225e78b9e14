"""Which Python this is. Written so that a Python that is too old can still read it."""

from __future__ import annotations

import sys

from rollmodel.doctor.finding import Finding, good, wrong

OLDEST = (3, 11)


def version() -> Finding:
    """Whether this Python is new enough."""
    have = ".".join(map(str, sys.version_info[:3]))
    wanted = ".".join(map(str, OLDEST))
    if tuple(sys.version_info[:2]) < OLDEST:
        return wrong(
            "Python",
            f"this is Python {have}, at {sys.executable}; {wanted} or newer is wanted.",
            f"Install Python {wanted} or newer, make a new environment with it and install the package "
            "there: the README's first command does both.",
        )
    return good("Python", f"{have}, at {sys.executable}")
