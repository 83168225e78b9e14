"""The two commands of the README, and that the automatic checks run the same."""

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = re.findall(r"^ {4}((?:python3|py) -m venv .*)$", README, re.MULTILINE)


def test_readme_gives_two_commands_and_their_windows_forms():
    assert len(COMMANDS) == 4


def test_windows_forms_say_the_same():
    unix, windows = COMMANDS[:2], COMMANDS[2:]
    swapped = [line.replace(".venv/bin/", ".venv\\Scripts\\").replace("python3 -m", "py -m") for line in unix]
    assert swapped == windows


def test_automatic_checks_run_the_readme_command():
    lines = [line.strip() for line in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()]
    assert COMMANDS[1] in lines


def test_every_file_that_the_readme_links_is_there():
    links = re.findall(r"\]\(([^)#:]+)\)", README)
    assert [link for link in links if not (ROOT / link).exists()] == []
