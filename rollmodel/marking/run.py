"""Marking a class's folder from beginning to end: two passes over the files, one at a time in memory.

The first pass finds what can be marked, copies, and which questions were asked. The second marks, and
writes each learner's paper at once; of each learner only a short row is kept for the class's figures.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path

from rollmodel.disk import PlaceTaken, check_free, whole_or_not
from rollmodel.marking.agreement import agreement
from rollmodel.marking.class_report import ClassReport, class_report
from rollmodel.marking.duplicates import Looked, copies, look, shared
from rollmodel.marking.folder import listing
from rollmodel.marking.open_answers import LaidBy, OpenAnswer, open_answers
from rollmodel.marking.outcome import Row, row_of_class, shared_outcomes
from rollmodel.marking.pages import class_page, learner_page
from rollmodel.marking.paper import Paper, paper_of_class
from rollmodel.marking.reading import Aside, NotMarked, read
from rollmodel.marking.rubric import Form, judged
from rollmodel.marking.scoring import mark
from rollmodel.marking.spread import spread
from rollmodel.marking.tables import ANSWERS, Table, answer_lines, write_class_tables


class NothingToMark(ValueError):
    """The folder holds no answer file that can be marked; one plain message."""


@dataclass(frozen=True)
class _Job:
    """One file to be marked."""

    path: str
    name: str
    sheet: str  # name of the learner's page


def mark_class(
    folder,
    into,
    mode: str = "assessment",
    paper: Paper | None = None,
    forms: Sequence[Form] = (),
    processes: int | None = None,
) -> ClassReport:
    """Mark every answer file in a folder; nothing in the folder is changed.

    Parameters
    ----------
    folder : str or os.PathLike
        The class's folder. Answer files may lie in folders below it.
    into : str or os.PathLike
        Folder for the results; it must not be there yet. It appears whole or not at all.
    mode : {"assessment", "practice"}
        Which files are marked; those of the other mode are left alone.
    paper : Paper, optional
        What was asked; when left out, the questions that the class answered.
    forms : sequence of Form, optional
        What one or two markers gave to open answers.
    processes : int, optional

    Returns
    -------
    ClassReport

    Raises
    ------
    NothingToMark, PlaceTaken
    OSError
        The folder cannot be read, or the results cannot be written.
    """
    _check_place(Path(folder), Path(into))
    files, asides, notes = _first_look(folder, mode, processes)
    asked = Counter(question for one in files for question in one.questions)
    paper = paper or paper_of_class(asked, len(files))
    _check_there_is_work(files, asides, paper, mode)
    with whole_or_not(Path(into)) as place:
        return _mark_all(files, asides, notes, paper, mode, forms, place, processes)


def _check_place(folder: Path, into: Path) -> None:
    if into.resolve().is_relative_to(folder.resolve()):
        raise PlaceTaken(
            f"the results would lie inside the class's folder {folder}, in which nothing is changed; "
            "give another place with --into"
        )
    check_free(into)


def _check_there_is_work(files: list, asides: list[Aside], paper: Paper, mode: str) -> None:
    if not files:
        others = Counter(one.kind for one in asides)
        found = ", ".join(f"{count} {kind}" for kind, count in others.items()) or "no file at all"
        raise NothingToMark(f"there is no answer file of mode {mode} that can be marked; found: {found}")
    if not paper.marks:
        raise NothingToMark("no question of the bank was answered in any of these files")


def _first_look(
    folder, mode: str, processes: int | None
) -> tuple[list[Looked], list[Aside], dict[str, tuple[str, ...]]]:
    """What can be marked, in order of name; what cannot; and notes on files that share something, by name."""
    entries = list(listing(folder))
    asides = [one for one in entries if isinstance(one, Aside)]
    found = list(
        spread(
            _look, [one for one in entries if not isinstance(one, Aside)], _no_preparation, (mode,), processes
        )
    )
    asides += [one for one in found if isinstance(one, Aside)]
    files = [one for one in found if isinstance(one, Looked)]
    copied, went_on = copies(files, lambda one: read(one.path, one.name))
    names = {one.name for one in copied}
    kept = [one for one in files if one.name not in names]
    return kept, sorted([*asides, *copied], key=lambda one: one.name), _joined(went_on, shared(kept))


def _joined(*notes: Mapping[str, Sequence[str]]) -> dict[str, tuple[str, ...]]:
    return {name: tuple(line for one in notes for line in one.get(name, ())) for one in notes for name in one}


_given: dict = {}  # what each process was given before its work


def _no_preparation(mode: str) -> None:
    _given["mode"] = mode


def _look(entry: tuple[str, str]) -> Looked | Aside:
    path, name = entry
    try:
        handed = read(path, name)
    except NotMarked as refusal:
        return Aside(name, refusal.kind, refusal.reason)
    if handed.mode != _given["mode"]:
        return Aside(name, "other mode", f"it is a file of {handed.mode}")
    return look(path, handed)


def _mark_all(files, asides, notes, paper, mode, forms, place: Path, processes) -> ClassReport:
    jobs = [
        _Job(one.path, one.name, f"{number:04d}-{one.code_word.replace(' ', '_')}.html")
        for number, one in enumerate(files, start=1)
    ]
    (place / "learners").mkdir()
    marked = spread(_mark, jobs, _prepare, (paper, judged(forms), place), processes)
    rows, sheets, failed, laid_by = _gathered(zip(jobs, marked, strict=True), notes, place)
    open_pages = laid_by.write_out()
    two = agreement(*forms) if len(forms) == 2 else ()
    strange = {row for form in forms for row in form.given} - laid_by.rows
    report = class_report(paper, mode, rows, [*asides, *failed], two, len(strange))
    write_class_tables(report, sheets, place)
    page = class_page(report, sheets, open_pages)
    (place / "class.html").write_text(page, encoding="utf-8", errors="backslashreplace")
    return report


def _gathered(
    marked, notes: Mapping[str, tuple[str, ...]], place: Path
) -> tuple[list[Row], list[str], list[Aside], LaidBy]:
    """Write what is marked as it comes; keep a short row of each learner."""
    rows, sheets, failed = [], [], []
    laid_by, known = LaidBy(place), {}
    with closing(laid_by), Table(place / "answers.csv", ANSWERS) as answers:
        for job, done in marked:
            if isinstance(done, Aside):
                failed.append(done)
                continue
            row, lines, by_hand = done
            answers.add(lines)
            laid_by.add(by_hand)
            rows.append(shared_outcomes(_with_notes(row, notes.get(job.name, ())), known))
            sheets.append(job.sheet)
    return rows, sheets, failed, laid_by


def _with_notes(row: Row, notes: tuple[str, ...]) -> Row:
    return replace(row, notes=(*notes, *row.notes))


def _prepare(paper: Paper, by_people: Mapping, place: Path) -> None:
    _given.update(paper=paper, by_people=by_people, place=place)


def _mark(job: _Job) -> tuple[Row, list[tuple], list[OpenAnswer]] | Aside:
    """Mark one file and write its page; whatever goes wrong with it stops no other."""
    try:
        marked = mark(read(job.path, job.name), _given["paper"], _given["by_people"])
        page = learner_page(marked, _given["paper"])
        done = row_of_class(marked), answer_lines(marked), open_answers(marked.items)
    except NotMarked as refusal:
        return Aside(job.name, refusal.kind, refusal.reason)
    except (
        Exception
    ) as error:  # a fault of ours that one odd file brings out must not lose the class its marks
        return Aside(
            job.name,
            "not marked",
            f"marking it failed ({type(error).__name__}: {error}); mark it by hand, "
            "and tell whoever keeps this package",
        )
    (_given["place"] / "learners" / job.sheet).write_text(page, encoding="utf-8", errors="backslashreplace")
    return done
