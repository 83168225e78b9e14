"""The comparison of notebooks lets pictures differ and nothing else: tried on notebooks made for it."""

import subprocess
import sys
from pathlib import Path

import nbformat
import pytest
from nbformat.v4 import new_code_cell, new_notebook, new_output

ROOT = Path(__file__).resolve().parents[2]
SHOWN = (
    "from IPython.display import display\n"
    "display({'text/html': '<img alt=\"12.5 N/mm\" src=\"data:image/png;base64,AAAA\">',"
    " 'image/png': 'AAAA', 'text/plain': '12.5 N/mm'}, raw=True)"
)


# What is stored, and whether the project's own comparison lets it pass.
STORED = {
    "same": ('<img alt="12.5 N/mm" src="data:image/png;base64,AAAA">', "12.5 N/mm", "AAAA", True),
    "another_picture": ('<img alt="12.5 N/mm" src="data:image/png;base64,BBBB">', "12.5 N/mm", "BBBB", True),
    "another_alternative": (
        '<img alt="12.6 N/mm" src="data:image/png;base64,AAAA">',
        "12.5 N/mm",
        "AAAA",
        False,
    ),
    "another_number": ('<img alt="12.5 N/mm" src="data:image/png;base64,AAAA">', "12.6 N/mm", "AAAA", False),
}


@pytest.fixture(scope="module")
def results(tmp_path_factory):
    """The lines of one run of the comparison over a notebook for each case."""
    folder = tmp_path_factory.mktemp("notebooks")
    for name, (html, plain, picture, _) in STORED.items():
        data = {"text/html": html, "text/plain": plain, "image/png": picture}
        cell = new_code_cell(SHOWN, execution_count=1, outputs=[new_output("display_data", data=data)])
        nbformat.write(new_notebook(cells=[cell]), folder / f"{name}.ipynb")
    options = ["-rA", "-q", "-p", "no:cacheprovider", "--color=no", f"--rootdir={ROOT}"]
    command = [sys.executable, "-m", "pytest", *options, "-c", str(ROOT / "pyproject.toml"), str(folder)]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=180).stdout.splitlines()


@pytest.mark.parametrize("name", STORED)
def test_only_a_picture_may_differ(results, name):
    verdicts = [
        line.split()[0] for line in results if f"{name}.ipynb::" in line and line.split()[0].isupper()
    ]
    assert verdicts == ["PASSED" if STORED[name][3] else "FAILED"]
