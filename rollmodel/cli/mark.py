"""``rollmodel mark``: a class's answer files to marks, marked papers and a class report."""

import os
import re
import sys
from pathlib import Path

from rollmodel.cli.common import Refusal, say

SOME_ASIDE = 3  # exit code: the rest is marked, and some files were set aside


def add_arguments(parser) -> None:
    """The options of the command."""
    parser.add_argument("folder", metavar="FOLDER", help="the class's answer files; nothing in it is changed")
    parser.add_argument(
        "--into", metavar="PLACE", help="new folder for the results; marks-FOLDER when left out"
    )
    parser.add_argument(
        "--paper",
        metavar="FILE",
        help="the paper that was set; when left out, the questions that the class answered",
    )
    parser.add_argument(
        "--mode",
        choices=("assessment", "practice"),
        default="assessment",
        help="which answer files are marked; assessment when left out",
    )
    parser.add_argument(
        "--form",
        action="append",
        default=[],
        metavar="FILE",
        help="a filled open-answers.csv; give it twice for two markers",
    )
    parser.add_argument(
        "--processes", type=int, metavar="N", help="as many as there are processors when left out"
    )


def run(args) -> int:
    """Mark; 0 when every answer file is marked, 3 when some were set aside, 2 when nothing could be done."""
    folder = _folder(args.folder)
    into = _place(args.into, folder)
    _two_markers(args.form)
    if args.processes is not None and not 1 <= args.processes <= 256:
        raise Refusal(f"--processes: wanted a whole number from 1 to 256, given {args.processes}")
    report = _marked(args, folder, into)
    say(f"{len(report.rows)} answer files marked. The class report is {into / 'class.html'}")
    if report.waiting:
        say(f"A person has still to decide on {report.waiting:g} marks; the report says where.")
    if report.strange_rows:
        say(
            f"{report.strange_rows} rows of the forms belong to no answer in this folder; they were not used",
            sys.stderr,
        )
    for one in report.asides:
        say(f"set aside: {one.name}: {one.reason}", sys.stderr)
    return SOME_ASIDE if report.asides else 0


def _folder(text: str) -> Path:
    folder = Path(text)
    if not folder.is_dir():
        raise Refusal(f'rollmodel mark: wanted a folder of answer files; there is none called "{text[:80]}"')
    return folder


def _place(text: str | None, folder: Path) -> Path:
    """The place for the results: as asked, or the first free name beside where the command is given."""
    from rollmodel.disk import PlaceTaken, named_place

    if text is not None:
        try:
            return named_place(text)
        except PlaceTaken as refusal:
            raise Refusal(f"rollmodel mark: {refusal}") from None
    name = re.sub(r"[^\w.-]+", "-", folder.resolve().name).strip("-.") or "class"
    names = (Path(f"marks-{name}{'' if number == 1 else f'-{number}'}") for number in range(1, 10_000))
    return next(path for path in names if not os.path.lexists(path))


def _marked(args, folder: Path, into: Path):
    from rollmodel.disk import PlaceTaken
    from rollmodel.marking.paper import PaperError, fit_for_assessment, read_paper
    from rollmodel.marking.rubric import FormError
    from rollmodel.marking.run import NothingToMark, mark_class
    from rollmodel.marking.spread import WorkLost

    try:
        paper = None if args.paper is None else read_paper(args.paper)
        if paper and args.mode == "assessment":
            fit_for_assessment(paper)
        return mark_class(folder, into, args.mode, paper, _forms(args.form), args.processes)
    except (FormError, NothingToMark, PaperError, PlaceTaken, WorkLost) as refusal:
        raise Refusal(f"rollmodel mark: {refusal}") from None
    except OSError as error:
        raise Refusal(
            f"rollmodel mark: {error.filename or into}: {error.strerror or error}. Nothing was marked, "
            "and nothing in the class's folder was changed."
        ) from None


def _two_markers(paths: list[str]) -> None:
    """One marker's form given twice would agree with itself."""
    if len(paths) > 2:
        raise Refusal(f"--form: wanted the forms of one marker or of two, given {len(paths)}")
    if len(paths) == 2 and all(map(os.path.exists, paths)) and os.path.samefile(*paths):
        raise Refusal(f"--form: wanted the forms of two markers, given one file twice, {paths[1][:80]}")


def _forms(paths: list[str]) -> list:
    from rollmodel.marking.rubric import read_form

    return [read_form(path) for path in paths]
