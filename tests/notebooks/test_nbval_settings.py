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


@pytest.fixture
def exit_code(tmp_path):
    """Run the project's own notebook comparison on one cell with this stored output."""

    def run(html, plain, picture="AAAA"):
        data = {"text/html": html, "text/plain": plain, "image/png": picture}
        cell = new_code_cell(SHOWN, execution_count=1, outputs=[new_output("display_data", data=data)])
        nbformat.write(new_notebook(cells=[cell]), tmp_path / "one.ipynb")
        command = [
            sys.executable,
            "-m",
            "pytest",
            "-q",
            "-p",
            "no:cacheprovider",
            f"--rootdir={ROOT}",
            "-c",
            str(ROOT / "pyproject.toml"),
            str(tmp_path / "one.ipynb"),
        ]
        return subprocess.run(command, cwd=ROOT, capture_output=True, timeout=120).returncode

    return run


def test_another_picture_passes(exit_code):
    assert exit_code('<img alt="12.5 N/mm" src="data:image/png;base64,BBBB">', "12.5 N/mm", "BBBB") == 0


@pytest.mark.parametrize(
    ("html", "plain"),
    [
        ('<img alt="12.6 N/mm" src="data:image/png;base64,AAAA">', "12.5 N/mm"),
        ('<img alt="12.5 N/mm" src="data:image/png;base64,AAAA">', "12.6 N/mm"),
    ],
)
def test_another_number_fails(exit_code, html, plain):
    assert exit_code(html, plain) == 1
