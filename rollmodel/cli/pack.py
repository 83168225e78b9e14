"""``rollmodel pack``: what the class gets, exercises or an assessment; nothing in it gives answers away."""

from pathlib import Path

from rollmodel.cli.common import UNITS, Refusal, say, whole_number
from rollmodel.cli.open_lessons import source_folder


def add_arguments(parser) -> None:
    """The options of the command."""
    parser.add_argument(
        "--into",
        metavar="PLACE",
        help="folder to be made, or a file with --zip; class-pack or class-assessment when left out",
    )
    parser.add_argument("--zip", action="store_true", help="one packed file in place of a folder")
    parser.add_argument(
        "--lessons", nargs="+", type=whole_number, metavar="N", help="only these lessons; all when left out"
    )
    parser.add_argument(
        "--assessment",
        action="store_true",
        help="one notebook in assessment mode in place of the "
        "exercises: nothing is said about right or wrong",
    )
    parser.add_argument("--paper", metavar="FILE", help="the questions of this paper, in assessment mode")
    parser.add_argument("--title", metavar="TEXT", help="of the assessment")
    parser.add_argument(
        "--units", choices=tuple(UNITS), default="metric", help="units that the notebooks start with"
    )


def run(args) -> int:
    """Make the pack; 0 when it is there, 2 when it was refused."""
    from rollmodel.marking.pack import PackError, make_pack
    from rollmodel.marking.paper import PaperError
    from rollmodel.disk import PlaceTaken

    try:
        paper = _paper(args)
        into = _place(args, paper)
        notes = make_pack(
            into, source_folder() / "exercises", args.lessons, paper, UNITS[args.units], args.zip
        )
    except (PackError, PaperError, PlaceTaken) as refusal:
        raise Refusal(f"rollmodel pack: {refusal}") from None
    except OSError as error:
        raise Refusal(f"rollmodel pack: {error.filename or args.into}: {error.strerror or error}") from None
    for note in notes:
        say(f"note: {note}")
    say(f"{into} is what the class gets." + (_MARK_WITH if paper else ""))
    return 0


_MARK_WITH = " Keep the paper.toml that is in it, to mark with: rollmodel mark FOLDER --paper paper.toml"


def _paper(args):
    """The paper for an assessment; None for exercises."""
    from rollmodel.marking.assessment import assessment_paper
    from rollmodel.marking.paper import read_paper

    if args.paper is not None:
        if args.lessons or args.title:
            raise Refusal(
                "rollmodel pack: a paper has its own questions and title; leave --lessons and --title out"
            )
        return _fit_for_assessment(read_paper(args.paper))
    if not args.assessment:
        return None
    paper = assessment_paper(args.title or "Assessment", args.lessons)
    if not paper.marks:
        raise Refusal(
            f"rollmodel pack: the bank has no question to assess lesson {', '.join(map(str, args.lessons))}"
        )
    return paper


def _fit_for_assessment(paper):
    """A notebook in assessment mode asks no question that is for practice only."""
    unfit = [question.id for question in paper.questions if "assessment" not in question.pools]
    if unfit:
        raise Refusal(f"rollmodel pack: for practice only, not for an assessment: {', '.join(unfit)}")
    return paper


def _place(args, paper) -> Path:
    name = args.into or f"class-{'pack' if paper is None else 'assessment'}"
    return Path(f"{name}.zip" if args.zip and not name.endswith(".zip") else name)
