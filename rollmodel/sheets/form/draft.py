"""What is typed so far, kept in a file: a kernel that ends or a full disk loses nothing typed before."""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass, field
from pathlib import Path

from rollmodel.disk import write_whole
from rollmodel.sheets.form.layout import BLANK
from rollmodel.units import FAMILIES

NAME = "car-form-draft.json"
FORMAT, FORMAT_VERSION = "rollmodel car form", 1
LARGEST = 500_000  # bytes; a full form has a fiftieth of that


class DraftError(RuntimeError):
    """The draft could not be kept; one plain sentence."""


@dataclass
class Draft:
    """A form as it stands.

    Attributes
    ----------
    family : str
        Unit family of the form.
    answers : dict of str to str
        By path.
    before : dict of str to str
        What stood there before it was last filled from a sheet; to be brought back.
    file : str
        File name typed for the sheet; empty while the offered one stands.
    """

    family: str = FAMILIES[0]
    answers: dict[str, str] = field(default_factory=lambda: dict(BLANK))
    before: dict[str, str] = field(default_factory=dict)
    file: str = ""


class DraftFile:
    """The draft in a folder.

    Parameters
    ----------
    folder : str or Path
    """

    def __init__(self, folder):
        self.path = Path(folder) / NAME
        self.note = ""  # what somebody ought to be told, such as a damaged file

    def read(self) -> Draft:
        """The draft; a blank one where there is none. A damaged file is set aside whole, see ``note``."""
        try:
            if not self.path.exists():
                return Draft()
            return _draft(self._content())
        except OSError as error:
            self.note = f"The draft in {self.path} could not be read ({error.strerror or error})."
        except (ValueError, TypeError, KeyError, RecursionError):
            self._set_aside()
        return Draft()

    def _content(self):
        if self.path.stat().st_size > LARGEST:
            raise ValueError("too large")
        return json.loads(self.path.read_text(encoding="utf-8"))

    def _set_aside(self) -> None:
        copies = (self.path.with_suffix(f".damaged-{number}.json") for number in range(1, 1000))
        copy = next(copy for copy in copies if not copy.exists())
        try:
            os.rename(self.path, copy)
            self.note = f"The draft {NAME} was damaged. It is now {copy.name}; the form is begun anew."
        except OSError as error:
            self.note = f"The draft {self.path} is damaged and cannot be moved ({error.strerror or error})."

    def write(self, draft: Draft) -> None:
        """Keep a draft in place of the last one.

        Raises
        ------
        DraftError
            It cannot be written; the last one stands.
        """
        clean = json.dumps({"format": FORMAT, "format_version": FORMAT_VERSION, **asdict(draft)}, indent=1,
                           ensure_ascii=True)  # ASCII: whatever was typed, a file takes it
        try:
            write_whole(self.path, clean + "\n")
        except OSError as error:
            raise DraftError(f"The draft cannot be kept in {self.path} ({error.strerror or error}). What you "
                             "typed stays here while this page runs; save the sheet, or free some space.") \
                from None


def _draft(content: dict) -> Draft:
    if (content["format"], content["format_version"]) != (FORMAT, FORMAT_VERSION):
        raise ValueError("not a draft of this version")
    draft = Draft(*(content[name] for name in ("family", "answers", "before", "file")))
    pairs = (pair for one in (draft.answers, draft.before) for pair in dict(one).items())
    texts = [draft.file, *(text for pair in pairs for text in pair)]
    if draft.family not in FAMILIES or not all(isinstance(text, str) for text in texts):
        raise ValueError("a field of the wrong type")
    return draft
