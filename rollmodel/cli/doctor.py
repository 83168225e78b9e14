"""``rollmodel doctor``: what is wrong with this installation, in plain words, each with its mend."""

from __future__ import annotations

import argparse
import textwrap

from rollmodel.cli.common import say

WIDTH = 100


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add what ``rollmodel doctor`` understands."""
    parser.add_argument(
        "--folder",
        metavar="FOLDER",
        help="look at your own copy of the lessons in this folder; the one that rollmodel open takes "
        "when left out",
    )


def run(args: argparse.Namespace) -> int:
    """Say how each thing stands as soon as that is known; returns 1 when anything is not good."""
    from rollmodel.doctor import GOOD, WRONG, examine

    found = []
    for finding in examine(args.folder):
        say(told(finding))
        found.append(finding.state)
    say("")
    if set(found) == {GOOD}:
        say("This installation is good. To begin: rollmodel open")
        return 0
    count = found.count(WRONG)
    say(
        f"{count} {'thing is' if count == 1 else 'things are'} wrong. Mend the first, then run "
        "rollmodel doctor again."
    )
    return 1


def told(finding) -> str:
    """One finding as a paragraph; the mend on lines of its own, whole, so that it can be copied."""
    head = textwrap.fill(
        f"{finding.subject}: {_state(finding)}{finding.said}",
        WIDTH,
        subsequent_indent="    ",
        break_long_words=False,
        break_on_hyphens=False,
    )
    return head + (f"\n    Mend: {finding.mend}" if finding.mend else "")


def _state(finding) -> str:
    return "WRONG, " if finding.state == "wrong" else ""
