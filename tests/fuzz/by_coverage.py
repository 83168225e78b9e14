"""Inputs made by atheris: it watches which lines of the package run, and changes what reached new ones."""

from __future__ import annotations

import contextlib
import io
import os
from pathlib import Path


def watch() -> None:
    """Instrument the package; to be called before it is loaded."""
    import atheris

    with contextlib.redirect_stderr(io.StringIO()), atheris.instrument_imports(include=["rollmodel"]):
        import rollmodel.cli.car
        import rollmodel.cli.runs
        import rollmodel.marking.pages
        import rollmodel.marking.scoring
        import rollmodel.questions
        import rollmodel.reports.car
        import rollmodel.reports.runs
        import rollmodel.sheets
        import rollmodel.testday.analysis  # noqa: F401


def run(target, count: int, seed: int, tally, keep: Path, finish) -> None:
    """Feed so many inputs to ``tally``, then leave with what ``finish`` returns: atheris never returns."""
    import atheris

    corpus = keep / "seeds"
    corpus.mkdir()
    for number, data in enumerate(target.seeds()):
        (corpus / f"{number:04d}").write_bytes(data)
    words = keep / "words"
    words.write_text("".join(f'"{_quoted(word)}"\n' for word in target.words if len(word) < 60))
    options = [ f"-seed={seed}", "-max_len=8192", f"-dict={words}", "-timeout=60", "-verbosity=0",
               "-rss_limit_mb=0", f"-artifact_prefix={keep}/"]  # fmt: skip

    def one(data: bytes) -> None:
        tally(data)
        if tally.fed == count:
            os._exit(finish())

    atheris.Setup(["fuzz", *options, str(corpus)], one)
    atheris.Fuzz()


def _quoted(word: bytes) -> str:
    return "".join(f"\\x{byte:02X}" for byte in word)
