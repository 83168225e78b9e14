"""The form's head: units, and what it is filled from."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels.shown import button, row, text
from rollmodel.panels.turns import follow
from rollmodel.sheets import SheetError, training_cars
from rollmodel.sheets.form import BLANK
from rollmodel.sheets.form.examples import start_answers
from rollmodel.sheets.form.saving import open_sheet
from rollmodel.units import FAMILIES

BLANK_SHEET, ON_DISK = "a blank form", "a sheet that you have"


class FormStart:
    """Units, large type, and filling the form from a blank, a training car or a sheet on disk."""

    def __init__(self, form):
        self.form = form
        self.units = widgets.Dropdown(options=FAMILIES, value=form.family, description="Units")
        self.projector = widgets.Checkbox(form.lesson.look.projector, description="Projector", indent=False)
        self.source = widgets.Dropdown(
            options=[BLANK_SHEET, *training_cars(), ON_DISK], description="Start from"
        )
        self.path = widgets.Text(
            placeholder="my-car.toml", description="File of the sheet", continuous_update=False
        )
        self.path.layout.display = "none"
        self.message = text(css="rm-message")
        self.message.add_class("rm-start-said")
        self.back = button("Bring back what stood here before", lambda *_: self.bring_back())
        self.widget = widgets.VBox(
            [
                row(self.units, self.projector, css="rm-form"),
                row(
                    self.source,
                    self.path,
                    button("Fill the form", lambda *_: self.fill()),
                    self.back,
                    css="rm-form",
                ),
                self.message,
            ]
        )
        self._listen()
        self.show()

    def _listen(self):
        follow(self.units, lambda change: self.form.lesson.change(family=change["new"]))
        follow(self.projector, lambda change: self.form.lesson.change(projector=change["new"]))
        follow(self.source, lambda change: self._chosen(change["new"]))

    def _chosen(self, source: str) -> None:
        self.path.layout.display = None if source == ON_DISK else "none"

    def names(self) -> dict:
        """Attributes for assistive technology, by CSS selector."""
        return {".rm-start-said .widget-html-content": {"aria-live": "polite"}}

    def show(self) -> None:
        """The way back is offered while there is something to bring back."""
        self.back.layout.display = None if self.form.draft.before else "none"

    def fill(self) -> None:
        """Fill the form; what stood there is kept, to be brought back."""
        try:
            answers, said = self._answers()
        except SheetError as error:
            self._say(f"The form stays as it is. {error}", alert=True)
            return
        self.form.replace(answers)
        self._say(said)

    def _answers(self):
        source = self.source.value
        if source == BLANK_SHEET:
            return dict(BLANK), "The form is blank."
        if source != ON_DISK:
            return (
                start_answers(source, self.form.family) | {"title": "My car", "note": ""},
                f"Filled from the {source}, whose numbers are invented. Put your own in their place.",
            )
        answers, unknown = open_sheet(self.path.value)
        left = f" Left out, for no sheet has it: {', '.join(unknown)}." if unknown else ""
        return answers, f"Filled from {self.path.value.strip()}. Remarks after a # are not taken over.{left}"

    def bring_back(self) -> None:
        """Swap what stands in the form and what stood there before."""
        self.form.replace(dict(self.form.draft.before))
        self._say("Brought back. The button swaps the two again.")

    def _say(self, words: str, alert: bool = False) -> None:
        role = ' role="alert"' if alert else ""
        self.message.value = f"<div{role}>{escape(words)}</div>"
