"""Make the exercise notebooks from the solutions, so that the two differ in the blanks alone.

    python .dev/make_exercises.py            make them all, run them, store their outputs
    python .dev/make_exercises.py --check    make nothing; name those that are not what their solution gives

A cell of a solution that is tagged "solution" is what a learner does not get: text is left out, and of code
only the calls that give an answer stay, with empty quotes. Every other cell is taken over as it is.
"""

import argparse
import re
import sys
from pathlib import Path

import nbformat

import store_outputs

ROOT = Path(__file__).resolve().parent.parent
SOLUTIONS, EXERCISES = ROOT / "solutions", ROOT / "exercises"
ANSWER = re.compile(r'work\.answer\(\s*("[^"]+")')


def main() -> int:
    """Make or check; 1 when a notebook failed or differs."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--check", action="store_true", help="make nothing; name the notebooks that differ")
    handle = is_made if parser.parse_args().check else make
    results = [handle(path) for path in solutions()]
    return 0 if all(results) else 1


def solutions() -> list[Path]:
    """Every solution notebook."""
    return sorted(SOLUTIONS.glob("*.ipynb"))


def make(solution: Path) -> bool:
    """Write one exercise notebook, run it and store its outputs."""
    path = EXERCISES / solution.name
    path.parent.mkdir(exist_ok=True)
    nbformat.write(blanked(nbformat.read(solution, as_version=4)), path)
    return store_outputs.store(path)


def is_made(solution: Path) -> bool:
    """Whether the exercise's cells are what its solution gives."""
    path = EXERCISES / solution.name
    made = path.exists() and cells(nbformat.read(path, as_version=4)) == cells(
        blanked(nbformat.read(solution, as_version=4))
    )
    print(f"{'as made' if made else 'DIFFERS'}  {path}")
    return made


def cells(notebook: nbformat.NotebookNode) -> list[tuple]:
    """What counts in the comparison: everything but the outputs."""
    return [(cell.cell_type, cell.id, cell.source, list(tags(cell))) for cell in notebook.cells]


def tags(cell: nbformat.NotebookNode) -> list[str]:
    return cell.metadata.get("tags", [])


def blanked(notebook: nbformat.NotebookNode) -> nbformat.NotebookNode:
    """A solution with its blanks, without outputs."""
    kept = [blank(cell) if "solution" in tags(cell) else without_output(cell) for cell in notebook.cells]
    return nbformat.v4.new_notebook(cells=[cell for cell in kept if cell], metadata=notebook.metadata)


def blank(cell: nbformat.NotebookNode) -> nbformat.NotebookNode | None:
    """The cell with the answers taken out; None when nothing is left of it."""
    if cell.cell_type != "code":
        return None
    lines = [f'work.answer({name}, "")' for name in ANSWER.findall(cell.source)]
    if not lines:
        return None
    return nbformat.v4.new_code_cell("\n".join(lines), id=cell.id, metadata={"tags": ["answer"]})


def without_output(cell: nbformat.NotebookNode) -> nbformat.NotebookNode:
    if cell.cell_type != "code":
        return nbformat.v4.new_markdown_cell(cell.source, id=cell.id, metadata=cell.metadata)
    return nbformat.v4.new_code_cell(cell.source, id=cell.id, metadata=cell.metadata)


if __name__ == "__main__":
    sys.exit(main())
