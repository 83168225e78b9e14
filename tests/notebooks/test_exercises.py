"""Exercises and their solutions: the same but for the blanks, right where solved, silent where blank."""

import json

import nbformat
import pytest

import make_exercises
from rollmodel.questions import right_answer, start
from rollmodel.questions.records import Numeric

SOLUTIONS = make_exercises.solutions()
LESSONS = [f"lesson-{n:02d}" for n in range(1, 12)]


@pytest.fixture(params=SOLUTIONS, ids=lambda path: path.stem)
def pair(request):
    """A solution and the exercise made from it."""
    paths = request.param, make_exercises.EXERCISES / request.param.name
    return tuple(nbformat.read(path, as_version=4) for path in paths)


def plain(cell):
    """What a reader sees below a cell."""
    return "\n".join(output.get("data", {}).get("text/plain", "") for output in cell.get("outputs", ()))


def code_tagged(notebook, tag):
    return [cell for cell in notebook.cells if cell.cell_type == "code" and tag in make_exercises.tags(cell)]


def answered(notebook):
    """Ids of the questions that a notebook answers, in order."""
    return [name.strip('"') for cell in notebook.cells if cell.cell_type == "code"
            for name in make_exercises.ANSWER.findall(cell.source)]


def test_every_lesson_taught_has_its_pair():
    assert {path.stem for path in SOLUTIONS} >= set(LESSONS)
    exercises = {path.name for path in make_exercises.EXERCISES.glob("*.ipynb")}
    assert exercises == {path.name for path in SOLUTIONS}


def test_exercises_are_made_from_the_solutions(pair):
    solution, exercise = pair
    assert make_exercises.cells(exercise) == make_exercises.cells(make_exercises.blanked(solution))


def test_they_differ_in_the_blanks_alone(pair):
    """Looked at without the tool that makes them: cells that are not tagged are in both, word for word."""
    solution, exercise = pair
    common = [cell.source for cell in solution.cells if "solution" not in cell.metadata.get("tags", [])]
    assert [cell.source for cell in exercise.cells if "answer" not in cell.metadata.get("tags", [])] == common
    assert answered(exercise) == answered(solution)


def test_every_solution_is_found_right(pair):
    solution, _ = pair
    solved = [cell for cell in code_tagged(solution, "solution") if "work.answer(" in cell.source]
    assert len(solved) == len(answered(solution)) >= 8
    assert [cell.id for cell in solved if not plain(cell).startswith(("Right: ", "Noted. A person"))] == []
    assert not any("rounded" in plain(cell) for cell in solved)


def test_an_untouched_exercise_says_not_answered_yet(pair):
    _, exercise = pair
    blanks = code_tagged(exercise, "answer")
    assert len(blanks) == len(answered(exercise))
    assert all(plain(cell).startswith("Not answered yet.") for cell in blanks)
    assert all(cell.source.endswith(', "")') for cell in blanks)


def test_three_rungs(pair):
    """A worked example, the same question with a step blank, then fresh questions, one of them open."""
    _, exercise = pair
    text = "\n".join(cell.source for cell in exercise.cells if cell.cell_type == "code")
    example = text.split('work.example("')[1].split('"')[0]
    names = answered(exercise)
    assert any(name.startswith(f"{example}/") for name in names) and example in names
    assert len([name for name in names if not name.startswith(example)]) >= 6


def test_no_solution_is_left_in_an_exercise(pair):
    """Neither a line of a solution nor, below any cell, an answer to a question that is asked."""
    solution, exercise = pair
    text = json.dumps(exercise, ensure_ascii=False)
    lines = [line.strip() for cell in solution.cells if "solution" in make_exercises.tags(cell)
             for line in cell.source.splitlines() if len(line.strip()) > 20]
    assert [line for line in lines if line in text] == []
    work = start("example")
    shown = "\n".join(plain(cell) for cell in exercise.cells)
    for name in answered(exercise):
        posed = work.posed(name)
        if isinstance(posed.question, Numeric):
            assert f" {right_answer(posed)}" not in shown, name


def imported(notebook):
    return [line for cell in notebook.cells if cell.cell_type == "code"
            for line in cell.source.splitlines() if line.startswith(("from ", "import "))]


def test_an_exercise_needs_only_the_questions(pair):
    """A solution may draw its figure as well."""
    solution, exercise = pair
    needed = ("from rollmodel.questions import start", "from math import")
    figure = "from rollmodel.panels.solved import picture"
    assert all(line.startswith(needed) for line in imported(exercise))
    assert all(line.startswith((*needed, figure)) for line in imported(solution))


def test_a_solution_has_its_figure_and_the_exercise_none(pair):
    """The figure shows the answer, so it goes with the blanks."""
    drawn = [[cell for cell in notebook.cells if "picture(" in cell.source] for notebook in pair]
    assert drawn[0] and not drawn[1]
    assert all(len(plain(cell)) >= 40 and any("image/png" in output["data"] for output in cell.outputs)
               for cell in drawn[0])


def test_nothing_was_kept_beside_the_notebooks():
    kept = [path for folder in (make_exercises.EXERCISES, make_exercises.SOLUTIONS)
            for path in folder.glob("*answers-*")]
    assert kept == []
