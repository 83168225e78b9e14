"""``rollmodel pack``: what a class needs: exercises and handouts for the learners, slides for the projector.

Nothing in the learners' part gives answers away. In their place it makes an assessment.
"""

import os
from pathlib import Path

from rollmodel.cli.common import UNITS, Refusal, say, whole_number
from rollmodel.cli.open_lessons import source_folder

PARTS = ("exercises", "handouts", "slides")


def add_arguments(parser) -> None:
    """The options of the command."""
    parser.add_argument(
        "--into",
        metavar="PLACE",
        help="folder to be made, or a file with --zip; class-pack or class-assessment when left out. Slides "
        "go to a folder beside it, PLACE-slides",
    )
    parser.add_argument("--zip", action="store_true", help="one packed file in place of the learners' folder")
    parser.add_argument(
        "--lessons", nargs="+", type=whole_number, metavar="N", help="only these lessons; all when left out"
    )
    parser.add_argument(
        "--only",
        nargs="+",
        choices=PARTS,
        metavar="PART",
        help=f"only these of {', '.join(PARTS)}; all when left out",
    )
    parser.add_argument(
        "--code-word", metavar="WORD", help="decides the numbers of the warm-up questions on paper and slides"
    )
    parser.add_argument(
        "--replace", action="store_true", help="put the new pack in the place of an earlier one of that name"
    )
    parser.add_argument(
        "--assessment",
        action="store_true",
        help="one notebook in assessment mode in place of the rest: nothing is said about right or wrong",
    )
    parser.add_argument("--paper", metavar="FILE", help="the questions of this paper, in assessment mode")
    parser.add_argument("--title", metavar="TEXT", help="of the assessment")
    parser.add_argument(
        "--units",
        choices=tuple(UNITS),
        default="metric",
        help="units of the pages, and those that the notebooks start with",
    )


def run(args) -> int:
    """Make the pack; 0 when it is there, 2 when it was refused."""
    from rollmodel.disk import PlaceTaken
    from rollmodel.handouts.pieces import LessonFailed
    from rollmodel.marking.pack import PackError
    from rollmodel.marking.paper import PaperError
    from rollmodel.questions.draws import CodeWordError

    try:
        paper = _paper(args)
        return _assessment(args, paper) if paper else _class_pack(args)
    except (CodeWordError, LessonFailed, PackError, PaperError, PlaceTaken) as refusal:
        raise Refusal(f"rollmodel pack: {refusal}") from None
    except OSError as error:
        raise Refusal(f"rollmodel pack: {error.filename or args.into}: {error.strerror or error}") from None


def _assessment(args, paper) -> int:
    from rollmodel.marking.pack import assessment_files

    into = _place(args, "class-assessment")
    files, _ = assessment_files(paper, UNITS[args.units])
    _put(args, into, files)
    say(
        f"{into} holds assessment.ipynb, which the class gets, and paper.toml, which you keep to mark with: "
        "rollmodel mark FOLDER --paper paper.toml. No answer is in paper.toml, so it does no harm to hand it "
        "out too."
    )
    return 0


def _class_pack(args) -> int:
    """Look first whether everything can be put in its place, for running the lessons takes a while."""
    from rollmodel.cli.class_pages import lesson_files, made, names
    from rollmodel.marking.pack import exercise_files
    from rollmodel.marking.placing import check_place, put_folder
    from rollmodel.questions.draws import EXAMPLE, tidy_code_word

    code_word = tidy_code_word(EXAMPLE if args.code_word is None else args.code_word)
    parts = args.only or PARTS
    into, source = _place(args, "class-pack"), source_folder()
    beside = into.with_name(f"{into.name.removesuffix('.zip')}-slides")
    files, notes = (
        exercise_files(source / "exercises", args.lessons, UNITS[args.units])
        if "exercises" in parts
        else ({}, [])
    )
    lessons = lesson_files(source / "lessons", args.lessons) if {"handouts", "slides"} & set(parts) else []
    of_learners = [*files, *(names("handouts", lessons) if "handouts" in parts else ())]
    if of_learners:
        check_place(into, of_learners, args.replace)
    if "slides" in parts:
        check_place(beside, names("", lessons), args.replace)
    handouts, slides = made(lessons, UNITS[args.units], code_word)
    if of_learners:
        _put(args, into, files | (handouts if "handouts" in parts else {}))
        _tell(notes, f"{into} is what the class gets.")
    if "slides" in parts:
        put_folder(beside, slides, args.replace)
        _tell([], f"{beside} is for the projector; it shows the twin of each class question.")
    return 0


def _tell(notes: list[str], words: str) -> None:
    for note in notes:
        say(f"note: {note}")
    say(words)


def _put(args, into: Path, files: dict[str, str]) -> None:
    from rollmodel.marking.placing import put_folder, put_zip

    (put_zip if args.zip else put_folder)(into, files, args.replace)


def _paper(args):
    """The paper for an assessment; None for exercises."""
    from rollmodel.marking.assessment import assessment_paper
    from rollmodel.marking.paper import fit_for_assessment, read_paper

    if args.title is not None and not args.assessment and args.paper is None:
        raise Refusal("rollmodel pack: --title is an assessment's; add --assessment, or leave --title out")
    if (args.paper is not None or args.assessment) and (args.only or args.code_word is not None):
        raise Refusal(
            "rollmodel pack: an assessment has no handouts or slides; leave --only and --code-word out"
        )
    if args.paper is not None:
        if args.lessons or args.title is not None:
            raise Refusal(
                "rollmodel pack: a paper has its own questions and title; leave --lessons and --title out"
            )
        return fit_for_assessment(read_paper(args.paper))
    if not args.assessment:
        return None
    paper = assessment_paper(_title(args.title), args.lessons)
    if not paper.marks:
        raise Refusal(
            f"rollmodel pack: the bank has no question to assess lesson {', '.join(map(str, args.lessons))}"
        )
    return paper


def _title(text: str | None) -> str:
    """The title as typed: one that a paper could not have is refused now, not when it is marked."""
    from rollmodel.marking.paper import title_faults

    if text is None:
        return "Assessment"
    faults = title_faults(text) if text.strip() else ["title: wanted some words, given none"]
    if faults:
        raise Refusal(f"rollmodel pack: --{faults[0]}")
    return text


def _place(args, usual: str) -> Path:
    from rollmodel.disk import named_place

    name = os.fspath(named_place(usual if args.into is None else args.into))
    return Path(f"{name}.zip" if args.zip and not name.endswith(".zip") else name)
