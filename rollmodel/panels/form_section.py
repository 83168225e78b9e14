"""Lines of the form under one heading; optional ones are folded away until asked for."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels.form_line import FormLine
from rollmodel.panels.shown import button, close_tree, text
from rollmodel.sheets.form import Section, Verdict
from rollmodel.sheets.form.assumed import assumed


class FormSection:
    """A heading, or a button that unfolds, and the lines below it.

    Parameters
    ----------
    form : CarForm
        Asked for family and answers, told what is typed.
    section : Section
    """

    def __init__(self, form, section: Section):
        self.form, self.section, self.lines = form, section, {}
        self.open = not section.optional
        self.head = self._head()
        self.taken, self.box = text(css="rm-taken"), widgets.VBox([])
        self.widget = widgets.VBox([self.head, self.taken, self.box])
        self.widget.add_class(f"rm-section-{section.name}")

    def _head(self):
        if not self.section.optional:
            return text(f"<h3>{escape(self.section.title)}</h3>")
        fold = button("", lambda *_: self.unfold(not self.open))
        fold.add_class(self._fold)
        fold.add_class("rm-fold")
        return fold

    @property
    def _fold(self) -> str:
        return f"rm-fold-{self.section.name}"

    def unfold(self, on: bool = True) -> None:
        """Show the lines, or fold them away; what was typed in them stays."""
        self.open = on
        self.lay(self.section)
        self.form.refresh()

    def lay(self, section: Section) -> None:
        """Lay out what is asked for now; a line that stays is kept, with the focus that may be in it."""
        self.section = section
        if section.optional:
            mark = "▾" if self.open else "▸"
            self.head.description = f"{mark} {section.title} (may be left out)"
            self.head.layout.display = None if section.lines else "none"
        shown = section.lines if self.open else ()
        wanted = {line: self.lines.get(line) or self._made(line) for line in shown}
        gone = [line for line in self.lines.values() if line not in wanted.values()]
        self.lines = wanted
        self.box.children = [line.widget for line in wanted.values()]
        for line in gone:
            close_tree(line.widget)

    def _made(self, line) -> FormLine:
        made = FormLine(line, self.form.family, self.form.typed)
        made.show(self.form.draft.answers)
        return made

    def show(self) -> None:
        """Every box as the answers have it."""
        for line in self.lines.values():
            line.explain(self.form.family)
            line.show(self.form.draft.answers)

    def say(self, verdict: Verdict, missing_too: bool) -> None:
        """What is wrong, line by line, and under the part's name what is taken for what is not given."""
        taken = assumed(self.section, self.form.draft.answers) if self.section.optional else ""
        self.taken.value = escape(taken)
        for line in self.lines.values():
            line.say(verdict, missing_too)

    def holds(self, paths) -> bool:
        """Whether any of these paths is asked for here."""
        return any(path in paths for line in self.section.lines for path in line.paths)

    def names(self) -> dict:
        """Attributes for assistive technology, by CSS selector."""
        names = {f".rm-section-{self.section.name}": {"role": "group", "aria-label": self.section.title}}
        if self.section.optional:
            names[f".{self._fold}"] = {"aria-expanded": str(self.open).lower()}
        return names | {css: more for line in self.lines.values() for css, more in line.names().items()}
