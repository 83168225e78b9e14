"""What a class gets: no key, no solution, nobody's answers; and what comes back from it is marked."""

import re
import zipfile
from pathlib import Path

import nbformat
import pytest

import make_exercises
from rollmodel import units
from rollmodel.cli import main
from rollmodel.disk import PlaceTaken
from rollmodel.marking.assessment import assessment_notebook, assessment_paper
from rollmodel.marking.pack import PackError, for_class, make_pack
from rollmodel.marking.paper import Paper, read_paper
from rollmodel.marking.run import mark_class
from rollmodel.questions import bank, pose, right_answer, start
from rollmodel.questions.draws import EXAMPLE
from rollmodel.questions.records import Numeric, Open

EXERCISES, SOLUTIONS = make_exercises.EXERCISES, make_exercises.SOLUTIONS
CODE_WORDS = [EXAMPLE, *(f"learner {number}" for number in range(40))]
FIGURE = re.compile(r"\d+(?:\.\d+)?")


@pytest.fixture(scope="module", params=["exercises", "assessment"])
def pack(request, tmp_path_factory):
    """An untouched pack, as one text and as a folder."""
    into = tmp_path_factory.mktemp("pack") / "pack"
    make_pack(into, EXERCISES, paper=assessment_paper("Test") if request.param == "assessment" else None)
    return into


def whole_text(folder):
    """All that is in a pack's files but the ids of cells, whose digits are drawn at random."""
    return "\n".join(text_of(path) for path in sorted(folder.rglob("*")) if path.is_file())


def text_of(path):
    text = path.read_text(encoding="utf-8")
    return re.sub(r'^ *"id": "[\w-]+",\n', "", text, flags=re.MULTILINE) if path.suffix == ".ipynb" else text


def asked_in(folder):
    return sorted(set(re.findall(r'work\.answer\(\\"([\w-]+)', whole_text(folder))))


def digits(text):
    """The figures of a number without point and zeros about: what somebody would look for."""
    return text.replace(".", "").strip("0")


def test_an_untouched_pack_contains_no_key_value(pack):
    """Every question in it, 41 code words, both modes, both unit families: no key is in any file.

    Looked for are the key with its unit, to three and to four figures, and any key of four figures alone:
    shorter ones meet question numbers and totals by chance.
    """
    names = asked_in(pack)
    assert len(names) > 50
    text = whole_text(pack)
    there = {digits(figure) for figure in FIGURE.findall(text)}
    for name in names:
        for posed in every_posed(bank.question(name)):
            right = right_answer(posed)
            number = digits(FIGURE.search(right)[0])
            assert len(number) < 4 or number not in there, (name, posed.code_word, right)
            assert not any(typed in text for typed in typed_forms(posed) if " " in typed), (name, right)


def typed_forms(posed):
    kind, family = posed.question.kind, posed.family
    shown, unit = units.to_display(posed.key, kind, family), units.label(kind, family)
    return [right_answer(posed), *(f"{shown:.{places}g} {unit}".strip() for places in (3, 4))]


def every_posed(question):
    if not isinstance(question, Numeric):
        return []
    return [
        pose(question, word, family, mode)
        for word in CODE_WORDS
        for family in units.FAMILIES
        for mode in ("practice", "assessment")
    ]


def test_the_look_for_keys_would_find_one(pack):
    """The solutions, looked at in the same way, do hold keys: the test above can fail."""
    work = start(EXAMPLE)
    there = {
        digits(figure)
        for path in SOLUTIONS.glob("*.ipynb")
        for figure in FIGURE.findall(path.read_text(encoding="utf-8"))
    }
    keys = [
        digits(FIGURE.search(right_answer(work.posed(name)))[0])
        for name in asked_in(pack)
        if isinstance(bank.question(name), Numeric) and "exercise" in bank.question(name).pools
    ]
    assert sum(key in there for key in keys) > 0.5 * len(keys)


def test_a_pack_holds_no_output_no_answer_and_no_word_of_a_solution(pack):
    notebooks = [nbformat.read(path, as_version=4) for path in pack.rglob("*.ipynb")]
    cells = [cell for notebook in notebooks for cell in notebook.cells]
    code = [cell for cell in cells if cell.cell_type == "code"]
    assert code and all(cell.outputs == [] and cell.execution_count is None for cell in code)
    answers = [line for cell in code for line in cell.source.splitlines() if "work.answer(" in line]
    assert answers and all(line.endswith(', "")') for line in answers)
    text = "\n".join(cell.source for cell in cells)
    secret = [words for one in bank.all_questions() for words in secrets(one)]
    assert len(secret) > 200 and [words for words in secret if words in text] == []
    for solution in SOLUTIONS.glob("*.ipynb"):
        tagged = [
            cell.source
            for cell in nbformat.read(solution, as_version=4).cells
            if "solution" in cell.metadata.get("tags", [])
        ]
        lines = [
            line.strip()
            for source in tagged
            for line in source.splitlines()
            if len(line.strip()) > 25 and " " in line.strip()
        ]
        assert [line for line in lines if line in text] == []


def secrets(question):
    """Fixed words that would give a question away: worked lines, help, rubric, sample answers."""
    lines = [*question.worked, *re.split(r"(?<=[.?]) ", f"{question.hint} {question.process}")]
    if isinstance(question, Open):
        lines += [one.text for one in (*question.rubric, *question.samples)]
    return [line for line in lines if len(line) > 25]


def test_a_pack_holds_no_file_but_notebooks_paper_and_a_first_word(pack):
    names = {path.relative_to(pack).as_posix() for path in pack.rglob("*") if path.is_file()}
    exercises = {f"exercises/{path.name}" for path in EXERCISES.glob("*.ipynb")} | {"READ-ME-FIRST.txt"}
    assert names in (exercises, {"assessment.ipynb", "paper.toml"})


def test_exercises_of_a_pack_are_the_exercises(pack):
    for path in pack.glob("exercises/*.ipynb"):
        ours = nbformat.read(EXERCISES / path.name, as_version=4).cells
        assert [
            (cell.cell_type, cell.id, cell.source) for cell in nbformat.read(path, as_version=4).cells
        ] == [(cell.cell_type, cell.id, cell.source) for cell in ours]


def touched():
    """An exercise after an instructor has worked in it."""
    notebook = nbformat.read(EXERCISES / "lesson-01.ipynb", as_version=4)
    for cell in notebook.cells:
        cell.source = cell.source.replace('start("example")', 'start("my word", units="US customary")')
        cell.source = cell.source.replace('", "")', '", "126 N/mm")')
    notebook.cells.append(
        nbformat.v4.new_code_cell("key = 126  # N/mm\nwork.answer('rate-in-roll', f'{key} N/mm')")
    )
    notebook.cells.append(nbformat.v4.new_code_cell("!cat ~/.ssh/id_rsa"))
    notebook.cells.append(nbformat.v4.new_raw_cell("126"))
    notebook.metadata["secret"] = "126"
    return notebook


def test_a_touched_exercise_is_made_untouched(tmp_path):
    clean, left_out = for_class(touched())
    text = nbformat.writes(clean)
    assert left_out == 3 and "126" not in text and "my word" not in text and "ssh" not in text
    whole, none = for_class(nbformat.read(EXERCISES / "lesson-01.ipynb", as_version=4))
    assert none == 0 and nbformat.writes(whole) == text
    folder = tmp_path / "exercises"
    folder.mkdir()
    nbformat.write(touched(), folder / "lesson-01.ipynb")
    (folder / "answers-my_word-practice.json").write_text("{}", encoding="utf-8")
    notes = make_pack(tmp_path / "pack", folder)
    assert notes == ["lesson-01.ipynb: 3 cells left out, whose code is not the exercise's own"]
    assert not list((tmp_path / "pack").rglob("answers*"))


def test_one_content_makes_one_packed_file(tmp_path):
    for name in ("one.zip", "two.zip"):
        make_pack(tmp_path / name, EXERCISES, [1, 2], zipped=True)
    assert zipfile.ZipFile(tmp_path / "one.zip").namelist() == [
        "one/READ-ME-FIRST.txt",
        "one/exercises/lesson-01.ipynb",
        "one/exercises/lesson-02.ipynb",
    ]
    first, second = (
        [
            zipfile.ZipFile(tmp_path / name).read(entry)
            for entry in zipfile.ZipFile(tmp_path / name).namelist()
        ]
        for name in ("one.zip", "two.zip")
    )
    assert first == second and sorted(path.name for path in tmp_path.iterdir()) == ["one.zip", "two.zip"]


def run_cells(notebook, folder, changed=lambda source: source):
    """Run a notebook's code from top to bottom; what each answer cell says."""
    names, said = {}, []
    for cell in (cell for cell in notebook.cells if cell.cell_type == "code"):
        source = changed(cell.source).replace("start(", f"start(folder={str(folder)!r}, code_word=", 1)
        *before, last = source.splitlines()
        exec("\n".join(before), names)
        value = eval(last, names)
        said += [value.plain] if "work.answer(" in source else []
    return said


@pytest.mark.parametrize("family", units.FAMILIES)
def test_an_untouched_assessment_runs_through_and_keeps_nothing(tmp_path, family):
    paper = assessment_paper("Test", [1, 2])
    said = run_cells(assessment_notebook(paper, family), tmp_path)
    assert len(said) == len(paper.marks) and all(line.startswith("Not answered yet.") for line in said)
    assert list(tmp_path.iterdir()) == []


def test_from_pack_to_marks(tmp_path):
    """Packed, worked by two learners, handed in, marked by the paper of the pack."""
    assert main(["pack", "--assessment", "--lessons", "1", "10", "--into", str(tmp_path / "pack")]) == 0
    notebook = nbformat.read(tmp_path / "pack" / "assessment.ipynb", as_version=4)
    paper = read_paper(tmp_path / "pack" / "paper.toml")
    (tmp_path / "class").mkdir()
    closed = [one for one in paper.questions if not isinstance(one, Open)]
    for word, answered in (("blue kestrel", closed), ("red fox", closed[:3])):

        def work_in(source, word=word, answered=answered):
            for one in answered:
                text = right_answer(pose(one, word, "metric", "assessment"))
                source = source.replace(f'answer("{one.id}", "")', f'answer("{one.id}", "{text}")')
            return source.replace('"example"', f'"{word}"')

        said = run_cells(notebook, tmp_path / "class", work_in)
        assert sum(line.startswith("Noted: ") for line in said) == len(answered)
        assert not any("Right" in line or "Not yet" in line for line in said)
    report = mark_class(tmp_path / "class", tmp_path / "out", paper=paper, processes=1)
    assert {row.code_word: row.marks for row in report.rows} == {"blue kestrel": len(closed), "red fox": 3}


def test_an_answer_under_the_examples_code_word_is_not_called_noted(tmp_path):
    """In an assessment nobody may work for an hour and keep nothing without being told at each answer."""
    work = start(EXAMPLE, mode="assessment", folder=tmp_path)
    said = work.answer("rate-in-roll", "60 N/mm")
    assert said.plain.startswith("This answer is not kept") and said.verdict is None
    assert "Noted" not in said.plain and list(tmp_path.iterdir()) == []
    assert (
        "Noted"
        in start("blue kestrel", mode="assessment", folder=tmp_path).answer("rate-in-roll", "60 N/mm").plain
    )


@pytest.mark.parametrize(
    "title", ["# Big", "<script>alert(1)</script>", "![x](http://example.org/x.png)", "a\nb", "$x$"]
)
def test_a_title_is_text_and_nothing_else(title):
    notebook = assessment_notebook(Paper(title, {"rate-in-roll": 1.0}))
    first = notebook.cells[0].source.splitlines()[0]
    assert first.startswith("# ") and not re.search(r"(?<!\\)[<\[$]", first)


@pytest.mark.parametrize(
    "arguments, words",
    [
        (["--lessons", "77"], "no exercises for lesson 77"),
        (["--assessment", "--lessons", "77"], "no question to assess lesson 77"),
        (["--paper", "nothing.toml"], "cannot be read"),
        (["--paper", "nothing.toml", "--title", "x"], "leave --lessons and --title out"),
        (["--paper", "practice.toml"], "for practice only"),
        (["--into", "taken"], "is there already"),
        (["--units", "imperial"], "--units"),
        (["--assessment", "--title", "x" * 201], "at most 200 characters, given 201"),
        (["--assessment", "--title", "a\u202eb"], "given U+202E in it"),
        (["--assessment", "--title", "a\x1bb"], "given U+001B in it"),
        (["--assessment", "--title", " "], "--title: wanted some words"),
        (["--title", "Bars"], "add --assessment"),
        (["--only", "exercises", "--lessons", "1", "--into", "/"], "wanted the name of a new place"),
        (["--only", "exercises", "--into", ".", "--replace"], "wanted the name of a new place"),
        (["--assessment", "--into", ".."], "wanted the name of a new place"),
        (["--assessment", "--into", ""], "wanted the name of a new place"),
    ],
)
def test_refusals(tmp_path, monkeypatch, capsys, arguments, words):
    monkeypatch.chdir(tmp_path)
    Path("taken").mkdir()
    Path("practice.toml").write_text("[marks]\nthicker-bar = 1", encoding="utf-8")
    assert main(["pack", *arguments]) == 2
    assert words in capsys.readouterr().err
    assert sorted(path.name for path in tmp_path.iterdir()) == ["practice.toml", "taken"]


def test_a_pack_with_the_longest_title_is_marked(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["pack", "--assessment", "--lessons", "1", "--title", "x" * 200]) == 0
    assert read_paper(Path("class-assessment/paper.toml")).title == "x" * 200
    assert "paper.toml, which you keep" in capsys.readouterr().out


def test_a_broken_notebook_is_named(tmp_path):
    (tmp_path / "lesson-01.ipynb").write_text("{", encoding="utf-8")
    with pytest.raises(PackError, match="lesson-01.ipynb is not a whole notebook"):
        make_pack(tmp_path / "pack", tmp_path)
    with pytest.raises(PlaceTaken):
        make_pack(tmp_path, EXERCISES)
