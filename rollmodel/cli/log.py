"""``rollmodel log``: what was planned, driven and found on a car, and notes of your own."""

import json

from rollmodel.cli.common import refusals, say
from rollmodel.cli.testday import log_of


def add_arguments(parser) -> None:
    """The options of the command."""
    parser.add_argument("sheet", metavar="SHEET", help="the car sheet; its log lies beside it")
    parser.add_argument("--note", metavar="TEXT", help="add a note")
    parser.add_argument("--json", action="store_true", help="print one JSON list for a program")


def run(args) -> int:
    """Print the log, after adding the note where there is one."""
    from rollmodel.reports.log import log_text, log_values
    from rollmodel.testday.log import Entry, append, now, read_log

    with refusals():
        path = log_of(args.sheet)
        if args.note is not None:
            append(path, Entry("note", now(), note=args.note))
        entries = read_log(path)
    say(
        json.dumps(log_values(entries), indent=2, ensure_ascii=False)
        if args.json
        else log_text(entries).rstrip("\n")
    )
    return 0
