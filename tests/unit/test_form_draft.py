"""The form's draft on disk: whole or as it was, whatever goes wrong."""

import json
import os

import pytest

from rollmodel.sheets.form import BLANK
from rollmodel.sheets.form.draft import NAME, Draft, DraftError, DraftFile


def test_a_draft_comes_back_with_whatever_was_typed(tmp_path):
    draft = Draft(
        "US customary", {"mass": "2844 lb", "title": 'Čar \u2028 \ud800 "x"'}, {"mass": "1 kg"}, "a.toml"
    )
    DraftFile(tmp_path).write(draft)
    assert DraftFile(tmp_path).read() == draft


def test_without_a_draft_the_form_is_blank(tmp_path):
    assert DraftFile(tmp_path).read() == Draft() and Draft().answers == BLANK
    assert DraftFile(tmp_path / "not there").read() == Draft()


@pytest.mark.parametrize(
    "content",
    [
        "",
        "{",
        "[]",
        "null",
        '{"format": "x"}',
        "\x00",
        "9" * 5000,
        "[" * 99999,
        json.dumps(
            {
                "format": "rollmodel car form",
                "format_version": 1,
                "family": "metric",
                "answers": {"mass": 3},
                "before": {},
                "file": "",
            }
        ),
        json.dumps(
            {
                "format": "rollmodel car form",
                "format_version": 1,
                "family": "imperial",
                "answers": {},
                "before": {},
                "file": "",
            }
        ),
        json.dumps(
            {
                "format": "rollmodel car form",
                "format_version": 1,
                "family": "metric",
                "answers": [],
                "before": 3,
                "file": "",
            }
        ),
    ],
)
def test_a_damaged_draft_is_set_aside_whole(tmp_path, content):
    (tmp_path / NAME).write_text(content, encoding="utf-8")
    file = DraftFile(tmp_path)
    assert file.read() == Draft() and "damaged" in file.note
    aside = [path for path in tmp_path.iterdir() if "damaged" in path.name]
    assert len(aside) == 1 and aside[0].read_text(encoding="utf-8") == content
    DraftFile(tmp_path).write(Draft())


def test_a_disk_that_is_full_leaves_the_last_draft(tmp_path, monkeypatch):
    file = DraftFile(tmp_path)
    file.write(Draft(file="first.toml"))

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(DraftError, match="No space left.*stays here"):
        file.write(Draft(file="second.toml"))
    assert DraftFile(tmp_path).read().file == "first.toml" and [p.name for p in tmp_path.iterdir()] == [NAME]
