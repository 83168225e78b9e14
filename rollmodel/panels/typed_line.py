"""One typed box of a form: what it is, the box, and what is wrong with what stands in it."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

import ipywidgets as widgets

from rollmodel.panels.shown import text
from rollmodel.panels.turns import follow


class TypedLine:
    """A box that keeps what was typed, and says in place why it cannot be used.

    Parameters
    ----------
    key : str
        Unique in its form.
    words : str
        What it is called on screen and to a screen reader.
    changed : callable
        Called with the key and the new text.
    example : str, optional
        Shown in the empty box.
    """

    def __init__(self, key: str, words: str, changed: Callable[[str, str], None], example: str = ""):
        self.key, self.words, self._changed, self._quiet = key, words, changed, False
        self.box = widgets.Text(continuous_update=False, placeholder=example)
        follow(self.box, self._typed)
        self.message = text(css="rm-message")
        self.widget = widgets.VBox([text(escape(words), "rm-label"), self.box, self.message])
        for css in ("rm-typed", self.css):
            self.widget.add_class(css)

    @property
    def css(self) -> str:
        """The class by which the box is found."""
        return "rm-l-" + self.key.replace(".", "-").replace(" ", "-")

    def put(self, words: str) -> None:
        """Show a text without reporting it."""
        self._quiet = True
        self.box.value = words
        self._quiet = False

    def say(self, words: str) -> None:
        """What is wrong, or nothing."""
        self.message.value = f'<span role="alert">{escape(words)}</span>' if words else ""

    def names(self) -> dict:
        """Attributes for assistive technology, by CSS selector."""
        return {f".{self.css} input": {"aria-label": self.words}}

    def _typed(self, change):
        if not self._quiet:
            self._changed(self.key, change["new"])


def faults_in_words(fault: Exception) -> list[str]:
    """What went wrong, a sentence each, without a traceback; with the file's name where one is to blame."""
    name = getattr(fault, "name", "")
    lines = [" ".join(str(one).split()) for one in getattr(fault, "faults", None) or [fault]]
    return [f"{name}: {line}" for line in lines] if name else lines


def alert(fault: Exception | str) -> str:
    """The same as one message on the page."""
    lines = [fault] if isinstance(fault, str) else faults_in_words(fault)
    lines = [line[:1].upper() + line[1:] if line.partition(" ")[0].isalpha() else line for line in lines]
    return f'<span role="alert">{"<br>".join(escape(line) for line in lines)}</span>'
