"""One line of the form: a box for the car or for each end, what it is, where one finds it, what is wrong."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels.shown import row, text
from rollmodel.panels.turns import follow
from rollmodel.sheets.form import BAR_KINDS, Line, Verdict, label
from rollmodel.sheets.form.examples import example
from rollmodel.sheets.form.typed import unit

_LEFT_OUT = "left out"
_CHOOSE = "choose"
_WORDS = ("title", "note")
_SHARE = "52, 52 % and 0.52 are all the same."


def css(path: str) -> str:
    """Class of the box of a path."""
    return "rm-f-" + path.replace(".", "-").replace("_", "-")


def _bare(field, shown: str) -> str:
    """What becomes of a number typed without a unit."""
    if field and field.kind == "share":
        return _SHARE
    return f"A bare number is in {shown}." if shown else ""


class FormLine:
    """The widgets of a line.

    Parameters
    ----------
    line : Line
    family : str
    typed : callable
        Called with path and text when the learner has typed or chosen.
    """

    def __init__(self, line: Line, family: str, typed):
        self.line, self._typed, self._quiet, self._faulty = line, typed, False, ()
        self.boxes = {path: self._box(path) for path in line.paths}
        self.help, self.message = text(css="rm-help"), text(css="rm-message")
        for part, one in (("help", self.help), ("said", self.message)):
            one.add_class(self._css(part))
        self.widget = row(*self.boxes.values(), self.help, self.message, css="rm-line")
        self.explain(family)

    def _css(self, part: str) -> str:
        return f"rm-{part}-{self.line.key or 'car'}-{self.line.name}".replace("_", "-")

    def _box(self, path: str):
        options = self._options()
        name = {"description": label(path)}
        if options:
            box = widgets.Dropdown(options=options, value="", **name)
        elif self.line.name == "note":
            box = widgets.Textarea(continuous_update=False, rows=3, **name)
        else:
            box = widgets.Text(continuous_update=False, **name)
        box.add_class(css(path))
        follow(box, lambda change: self._quiet or self._typed(path, change["new"]))
        return box

    def _options(self) -> list[tuple[str, str]]:
        """What a list offers, with the words that the sheet has for it; nothing for a typed box."""
        field = self.line.field
        if field is None:
            return [(words, kind) for kind, words in BAR_KINDS.items()]
        if not field.words:
            return []
        words = [word for word in field.words if (self.line.name, word) != ("arms", "blade")]
        return [(_CHOOSE if field.required else _LEFT_OUT, ""), *((word, word) for word in words)]

    def explain(self, family: str) -> None:
        """What it is, in which unit, where one finds it and what a training car has there."""
        shown = unit(self.line.field.kind, family) if self.line.field else ""
        parts = (
            self.line.words.what,
            self.line.words.how,
            self.line.may_be_left_out,
            _bare(self.line.field, shown),
            self._sample(family),
        )
        self.help.value = escape(" ".join(part for part in parts if part))
        for box in self.boxes.values() if shown else ():
            box.placeholder = shown

    def _sample(self, family: str) -> str:
        """What a training car has there; a list shows what it takes, and words need no example."""
        if self._options() or self.line.name in _WORDS:
            return ""
        found = example(self.line, family)
        return f"Example, {found}." if found else ""

    def show(self, answers: dict[str, str]) -> None:
        """Bring the boxes in line with the answers."""
        self._quiet = True
        for path, box in self.boxes.items():
            self._show(box, answers.get(path, ""))
        self._quiet = False

    def _show(self, box, value: str) -> None:
        if isinstance(box, widgets.Dropdown) and value not in [option for _, option in box.options]:
            box.options = [*box.options, (f"{value} (not known)", value)]
        box.value = value

    def say(self, verdict: Verdict, missing_too: bool) -> None:
        """What the sheet says of each box, in its own words; of an empty one only once it was asked for."""
        said = {
            path: [
                *verdict.refused.get(path, []),
                *([verdict.missing[path]] if missing_too and path in verdict.missing else []),
            ]
            for path in self.boxes
        }
        self._faulty = tuple(path for path, faults in said.items() if faults)
        lines = [
            f"<strong>{escape(label(path))}</strong>: {escape(fault)}"
            for path, faults in said.items()
            for fault in faults
        ]
        words = f'<div role="alert">{"<br>".join(lines)}</div>' if lines else ""
        looks = [
            f"<strong>{escape(label(path))}: look again.</strong> It {escape(verdict.odd[path])}"
            for path in self.boxes
            if path in verdict.odd and path not in self._faulty
        ]
        words += f'<div role="status">{"<br>".join(looks)}</div>' if looks else ""
        if self.message.value != words:
            self.message.value = words

    def names(self) -> dict:
        """Attributes for assistive technology: what it is and what is wrong belong to the box."""
        ids = [self._css(part) + "-id" for part in ("help", "said")]
        inside = {
            f".{self._css(part)} .widget-html-content": {"id": ids[number]}
            for number, part in enumerate(("help", "said"))
        }
        boxes = {
            f".{css(path)} {kind}": {
                "aria-describedby": " ".join(ids),
                "aria-invalid": str(path in self._faulty).lower(),
            }
            for path in self.boxes
            for kind in ("input", "select", "textarea")
        }
        return inside | boxes
