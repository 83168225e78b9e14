"""The README's worked answer is what the command prints, and its sentences keep the command's figures."""

import contextlib
import io
import re
from pathlib import Path

import pytest

from rollmodel.advice import CAUTIONS
from rollmodel.cli import main

README = (Path(__file__).parent.parent / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def printed():
    command = re.search(r"^    rollmodel (choose coupe .*)$", README, re.MULTILINE).group(1)
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert main(command.split()) == 0
    return out.getvalue()


def test_every_line_of_the_worked_answer_is_printed(printed):
    block = re.search(r"```text\n(.*?)```", README, re.DOTALL).group(1)
    lines = [line for line in block.splitlines() if line and line != "..."]
    assert len(lines) > 8
    places = [printed.splitlines().index(line) for line in lines]
    assert places == sorted(places)


def test_the_explanation_uses_figures_of_the_answer(printed):
    said = README.split("What it means.")[1].split("For your own car")[0]
    figures = re.findall(r"\d+\.\d+", said)
    assert len(figures) >= 5
    assert all(figure in printed for figure in figures)


def test_every_caution_of_the_advice_is_in_it():
    plain = " ".join(README.split())
    assert all(caution in plain for caution in CAUTIONS.values())


def test_links_lead_somewhere():
    root = Path(__file__).parent.parent
    for target in re.findall(r"\]\(([^)#]+)\)", README):
        assert (root / target).exists(), target
