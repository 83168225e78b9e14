"""Run notebooks from a clean kernel and store their outputs in one stable form.

    python .dev/store_outputs.py lessons/01-*.ipynb      run, tidy and store in place
    python .dev/store_outputs.py                         the same for every notebook of the project
    python .dev/store_outputs.py --check                 run all, store nothing, name those that are stale

What changes from run to run is left out: live widget views, clock times, editor state. What a reader sees
when nothing runs stays: the figure with its text alternative, its picture and the plain text. `--check`
compares pictures too, byte by byte, so run it on the machine that stored them.
"""

import argparse
import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError

ROOT = Path(__file__).resolve().parent.parent
FOLDERS = ("lessons", "exercises", "solutions")
LIVE_VIEW = "application/vnd.jupyter.widget-view+json"
KEPT_METADATA = ("tags", "jupyter", "slideshow", "editable", "deletable")
NOTEBOOK_METADATA = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}


def main() -> int:
    """Store or check; 1 when a notebook failed or is stale."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("notebooks", nargs="*", type=Path, help="every notebook of the project when left out")
    parser.add_argument(
        "--check", action="store_true", help="store nothing; name the notebooks that are stale"
    )
    args = parser.parse_args()
    handle = is_fresh if args.check else store
    results = [handle(path) for path in args.notebooks or all_notebooks()]
    return 0 if all(results) else 1


def all_notebooks() -> list[Path]:
    """Every notebook that a person is given."""
    found = (path for folder in FOLDERS for path in (ROOT / folder).rglob("*.ipynb"))
    return sorted(path for path in found if ".ipynb_checkpoints" not in path.parts)


def store(path: Path) -> bool:
    """Run one notebook and write its outputs into it; a notebook that fails is left as it was."""
    text = text_of_fresh_run(path)
    if text is None:
        return False
    part = path.with_name(path.name + ".part")
    part.write_text(text, encoding="utf-8")
    part.replace(path)
    print(f"stored  {path}")
    return True


def is_fresh(path: Path) -> bool:
    """Whether a fresh run gives what is stored."""
    fresh = text_of_fresh_run(path) == path.read_text(encoding="utf-8")
    print(f"{'fresh' if fresh else 'STALE'}   {path}")
    return fresh


def text_of_fresh_run(path: Path) -> str | None:
    """The notebook's file after a run from a clean kernel; None, with the reason on stderr, on failure."""
    notebook = nbformat.read(path, as_version=4)
    client = NotebookClient(
        notebook,
        timeout=300,
        kernel_name="python3",
        store_widget_state=False,
        resources={"metadata": {"path": str(path.resolve().parent)}},
    )
    try:
        client.execute()
    except CellExecutionError as failure:
        print(f"FAILED  {path}\n{failure}", file=sys.stderr)
        return None
    tidy(notebook)
    return nbformat.writes(notebook) + "\n"


def tidy(notebook: nbformat.NotebookNode) -> None:
    """Leave out what differs from run to run."""
    notebook.metadata = nbformat.from_dict(NOTEBOOK_METADATA)
    notebook.nbformat_minor = max(notebook.nbformat_minor, 5)
    for cell in notebook.cells:
        cell.metadata = nbformat.from_dict(
            {key: cell.metadata[key] for key in KEPT_METADATA if key in cell.metadata}
        )
        for output in cell.get("outputs", ()):
            output.get("data", {}).pop(LIVE_VIEW, None)


def untidy(notebook: nbformat.NotebookNode) -> list[str]:
    """What keeps a stored notebook from being in the stable form; empty when it is."""
    faults = [
        f"{kind}: {', '.join(extra)}"
        for kind, extra in (
            ("notebook metadata", sorted(set(notebook.metadata) - set(NOTEBOOK_METADATA))),
            (
                "cell metadata",
                sorted({key for cell in notebook.cells for key in cell.metadata} - set(KEPT_METADATA)),
            ),
        )
        if extra
    ]
    code = [cell for cell in notebook.cells if cell.cell_type == "code" and cell.source.strip()]
    if [cell.execution_count for cell in code] != list(range(1, len(code) + 1)):
        faults.append("not stored after one run from top to bottom of a clean kernel")
    outputs = [output for cell in code for output in cell.outputs]
    if any(LIVE_VIEW in output.get("data", {}) for output in outputs):
        faults.append("a live widget view is stored")
    if any(output.output_type == "error" or output.get("name") == "stderr" for output in outputs):
        faults.append("an error or a warning is stored")
    return faults


if __name__ == "__main__":
    sys.exit(main())
