"""The assessor's guide: its blueprint is today's, its figures are the package's, its commands work."""

import inspect
import io
import re
from contextlib import redirect_stdout

import pytest

import assessors_guide
from rollmodel.cli import COMMANDS
from rollmodel.marking import duplicates, flags, folder, paper, reading, rubric, run
from rollmodel.marking.blueprint import aims_table, blueprint, counts_table, tolerance_table
from rollmodel.marking.paper import read_paper
from rollmodel.questions import bank, pose, right_answer
from rollmodel.questions.posed import NEAR
from rollmodel.questions.records import Numeric

TEXT = assessors_guide.GUIDE.read_text(encoding="utf-8")
QUESTIONS = bank.all_questions()


def test_the_blueprint_is_todays():
    fresh = assessors_guide.renewed(TEXT) == TEXT
    assert fresh, "the questions have changed since: run python .dev/assessors_guide.py"


def test_a_change_in_the_bank_would_be_seen():
    assert assessors_guide.renewed(TEXT.replace("| `rate-in-roll` |", "| `rate-in-role` |", 1)) == TEXT


def test_every_question_stands_in_the_blueprint_under_its_aim():
    table = aims_table(QUESTIONS)
    for one in QUESTIONS:
        (line,) = (line for line in table.splitlines() if f"| `{one.id}`" in line)
        assert f"| {one.lesson} | {one.aim} |" in line and f"| {one.level} |" in line


def test_the_counts_add_up():
    lines = [
        [cell.strip() for cell in line.split("|")[1:-1]] for line in counts_table(QUESTIONS).splitlines()[2:]
    ]
    assessed = [one for one in QUESTIONS if "assessment" in one.pools]
    assert lines[-1][0] == "all" and int(lines[-1][4]) == len(assessed)
    for column in range(1, 7):
        assert sum(float(line[column]) for line in lines[:-1]) == float(lines[-1][column])


def test_every_reason_for_a_tolerance_is_given():
    table = tolerance_table(QUESTIONS)
    for one in QUESTIONS:
        if isinstance(one, Numeric):
            assert f"| {one.tolerance.reason} |" in table
    assert " 1e-" not in blueprint(QUESTIONS) and "e-0" not in table


def test_figures_in_the_prose_are_the_packages():
    assert flags.ENOUGH == 30 and "Below 30 learners" in TEXT
    assert NEAR == 3 and "Up to three windows away" in TEXT
    assert paper.ASKED_BY_CLASS == 0.1 and "at least a tenth of the class" in TEXT
    assert rubric.APART == 1 and "differ by no more than one mark" in TEXT
    assert rubric.STEP == 0.5 and "halves if you like" in TEXT
    assert round((flags.ENOUGH - 3) ** -0.5, 1) == 0.2 and "by about 0.2" in TEXT


def test_every_sort_of_file_that_is_set_aside_is_explained():
    text = "".join(inspect.getsource(module) for module in (reading, folder, duplicates, run))
    kinds = set(re.findall(r'(?:NotMarked\(|Aside\([^,]+,|return)\s*"([a-z ]+)"', text))
    kinds |= set(re.findall(r'"(damaged|another sort of file)"', text))
    assert len(kinds) >= 8
    table = TEXT.split("## Which files are set aside")[1].split("## ")[0]
    assert {kind for kind in kinds if kind not in table} == set()


def test_commands_in_the_guide_are_commands():
    named = set(re.findall(r"rollmodel (\w+) ", TEXT)) - {"package"}
    assert {"pack", "mark"} <= named <= set(COMMANDS)
    files = [
        assessors_guide.GUIDE.parent.parent / "rollmodel" / "cli" / f"{name}.py" for name in ("pack", "mark")
    ]
    code = "".join(path.read_text(encoding="utf-8") for path in files)
    assert [one for one in re.findall(r"(?<!-)--([a-z]+)", TEXT) if f'"--{one}"' not in code] == []


def test_the_paper_in_the_guide_is_a_paper(tmp_path):
    path = tmp_path / "paper.toml"
    path.write_text(re.search(r"```toml\n(.*?)```", TEXT, re.DOTALL)[1], encoding="utf-8")
    assert list(read_paper(path).marks) == ["rate-in-roll", "which-change"]


def test_the_lines_for_an_appeal_run():
    block = re.search(r"^( {7}from rollmodel.*?)\n\n", TEXT, re.DOTALL | re.MULTILINE)[1]
    code = "\n".join(line[7:] for line in block.splitlines())
    out = io.StringIO()
    with redirect_stdout(out):
        exec(code, {})
    posed = pose(bank.question("rate-in-roll"), "their code word", "metric", "assessment")
    assert posed.text in out.getvalue() and right_answer(posed) in out.getvalue()


@pytest.mark.parametrize(
    "subject",
    [
        "Tolerances",
        "Appeals",
        "double marking",
        "blueprint",
        "could still compute",
        "How numbers and keys are made",
    ],
)
def test_what_an_assessor_has_to_know_has_its_place(subject):
    assert re.search(rf"^## .*{subject}", TEXT, re.MULTILINE)


def test_the_guide_goes_to_no_class():
    pyproject = (assessors_guide.GUIDE.parent.parent / "pyproject.toml").read_text(encoding="utf-8")
    assert "solutions" not in pyproject.split("[tool.hatch.build.targets.wheel]")[1].split("[tool.pytest")[0]
