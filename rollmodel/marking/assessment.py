"""The notebook of an assessment: the questions of a paper in assessment mode, each with its blank."""

from __future__ import annotations

import re
from collections.abc import Iterable

import nbformat

import rollmodel
from rollmodel.marking.harmless import plain
from rollmodel.marking.paper import Paper, paper_of
from rollmodel.questions import bank
from rollmodel.questions.draws import EXAMPLE

KERNEL = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}
START = re.compile(r"\bwork\s*=\s*start\(")
INSTALL = f"This needs the package rollmodel, version {rollmodel.__version__}, in the Python of your Jupyter."
_AFRESH = "# NameError further down? Python was started afresh: run the cells from the top."


def start_source(mode: str, family: str) -> str:
    """The first code of a notebook: practice and assessment differ here and nowhere else."""
    words = [f'"{EXAMPLE}"']
    words += [] if mode == "practice" else [f'mode="{mode}"']
    words += [] if family == "metric" else [f'units="{family}"']
    call = f"work = start({', '.join(words)})  # put your own code word here"
    return f"{_AFRESH}\nfrom rollmodel.questions import start\n\n{call}\nwork"


def assessment_paper(title: str, lessons: Iterable[int] | None = None) -> Paper:
    """A paper of every question of the assessment pool, of these lessons or of all, with the usual marks."""
    wanted = None if lessons is None else set(lessons)
    return paper_of(
        title,
        [
            one
            for one in bank.all_questions()
            if "assessment" in one.pools and (wanted is None or one.lesson in wanted)
        ],
    )


def assessment_notebook(paper: Paper, family: str = "metric") -> nbformat.NotebookNode:
    """The notebook that the class works in. It holds no number: each is drawn when a learner runs it."""
    cells = [_text("start", _head(paper)), _code("code-word", start_source("assessment", family))]
    for number, (name, marks) in enumerate(paper.marks.items(), start=1):
        cells += [
            _text(f"question-{number}", f"## Question {number} ({_marks(marks)})"),
            _code(f"ask-{number}", f'work.ask("{name}")'),
            _code(f"answer-{number}", f'work.answer("{name}", "")'),
        ]
    cells += [_text("end", _END), _code("progress", "work.progress()")]
    return nbformat.v4.new_notebook(cells=cells, metadata=KERNEL)


def _marks(marks: float) -> str:
    return f"{marks:g} mark{'' if marks == 1 else 's'}"


def _head(paper: Paper) -> str:
    minutes = round(sum(question.minutes for question in paper.questions))
    return f"""# {_title(paper)}

**{len(paper.marks)} questions, {_marks(paper.most)}, about {minutes} minutes.**

1. Put the code word that you were told to use, or one of your own, in place of `"{EXAMPLE}"` in the next
   cell. It decides your numbers. **With `"{EXAMPLE}"` nothing is kept.** Run the cell with Shift+Enter.
2. Run the cell of each question to read it. Type your answer between the quotes in the cell below it, with
   its unit, and run that cell.
3. You are told whether an answer could be kept and read. You are not told whether it is right.
4. You may change an answer as often as you like. The last one that you ran counts.

{INSTALL}"""


def _title(paper: Paper) -> str:
    """One line of plain text: a title is no place for markup."""
    return re.sub(r"([\\`*_{}\[\]<>#|$&])", r"\\\1", plain(paper.title or "Assessment", 200))


_END = """## Before you hand in

Run the last cell: it lists the questions for which an answer is kept. Hand in the file that lies beside this
notebook and is called `answers-YOUR_CODE_WORD-assessment.json`. Do not change it. This notebook itself is not
marked."""


def _text(name: str, source: str) -> nbformat.NotebookNode:
    return nbformat.v4.new_markdown_cell(source, id=name)


def _code(name: str, source: str) -> nbformat.NotebookNode:
    return nbformat.v4.new_code_cell(source, id=name)
