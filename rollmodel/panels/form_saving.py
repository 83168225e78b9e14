"""The form's foot: how far it is, the car's main numbers, and the sheet on disk."""

from __future__ import annotations

from html import escape
from pathlib import Path

import ipywidgets as widgets

from rollmodel.advice import SHORT
from rollmodel.car import Car
from rollmodel.panels.advising import listed
from rollmodel.panels.shown import button, row, text
from rollmodel.panels.turns import follow
from rollmodel.reports.car_line import car_line
from rollmodel.sheets import SheetError
from rollmodel.sheets.form import Verdict, label, sections
from rollmodel.sheets.form.assumed import assumed
from rollmodel.sheets.form.draft import NAME
from rollmodel.sheets.form.saving import here, offered_file, outside, place, save

_NAMED = 6  # missing fields that are named; more would not be read


def progress(verdict: Verdict) -> str:
    """How far the form is, in a sentence or two."""
    again = f" Look again at: {', '.join(map(label, verdict.odd))}." if verdict.odd else ""
    if verdict.car:
        return "Nothing is missing, nothing is refused." + again
    missing, refused = len(verdict.missing), len(verdict.refused)
    names = ", ".join(label(path) for path in list(verdict.missing)[:_NAMED])
    more = f" and {missing - _NAMED} more" if missing > _NAMED else ""
    parts = [
        f"Still missing: {missing}. {names}{more}." if missing else "Nothing is missing.",
        f"Refused: {', '.join(map(label, verdict.refused))}." if refused else "",
    ]
    return " ".join(part for part in parts if part) + again


def _this_car(car: Car, answers: dict[str, str]) -> str:
    """The car's main numbers, with the tyre that they rest on where none was given."""
    tyres = next(section for section in sections(answers) if section.name == "tyres")
    return f"<strong>This car.</strong> {escape(car_line(car))} {escape(assumed(tyres, answers))}"


class FormSaving:
    """Progress, the car in a line, file name, tick and button."""

    def __init__(self, form):
        self.form = form
        self.progress, self.numbers, self.message = (
            text(css=css) for css in ("rm-progress", "rm-numbers", "rm-saved")
        )
        self.file = widgets.Text(description="Save as", continuous_update=False)
        self.file.add_class("rm-file")
        self.replace = widgets.Checkbox(False, description="Replace a file of that name", indent=False)
        self._quiet, self._agreed = False, None  # a place outside the folder, once it was shown
        follow(self.file, lambda change: self._quiet or self._named(change["new"]))
        self.widget = widgets.VBox(
            [
                self.progress,
                row(button("Go to the next open box", lambda *_: form.go_to_next())),
                self.numbers,
                row(self.file, self.replace, button("Save the sheet", lambda *_: self.save()), css="rm-form"),
                self.message,
                text(f"<strong>Before you measure.</strong> {SHORT}"),
            ]
        )
        self.widget.add_class("rm-card")

    def names(self) -> dict:
        """Attributes for assistive technology, by CSS selector."""
        return {
            f".{css} .widget-html-content": {"aria-live": "polite"} for css in ("rm-progress", "rm-saved")
        }

    def _named(self, typed: str) -> None:
        offered = offered_file(self.form.draft.answers.get("title", ""))
        self.form.draft.file = "" if typed.strip() == offered else typed.strip()
        self.form.keep()

    def show(self, verdict: Verdict, trouble: str) -> None:
        """The state of the form; ``trouble`` says why a draft is not kept."""
        draft = self.form.draft
        self._quiet = True
        self.file.value = draft.file or offered_file(draft.answers.get("title", ""))
        self._quiet = False
        kept = escape(trouble) or f"What you type is kept in {NAME}."
        whole = listed(verdict.whole) if verdict.whole else ""
        alert = ' role="alert"' if verdict.whole or trouble else ""
        far = f"<div{alert}><strong>{escape(progress(verdict))}</strong> {kept}{whole}</div>"
        self._put(self.progress, far)
        line = _this_car(verdict.car, draft.answers) if verdict.car else ""
        self._put(self.numbers, line + (listed(verdict.notes) if verdict.notes else ""))

    @staticmethod
    def _put(place, words: str) -> None:
        if place.value != words:
            place.value = words

    def save(self) -> None:
        """Write the sheet, or say in place why not."""
        if self.form.verdict.car is None:
            self.form.ask_for_missing()
            self.message.value = (
                '<div role="alert">Not saved yet: the open boxes above say what they want. '
                "Nothing that you typed is lost.</div>"
            )
            return
        try:
            path = place(self.file.value)
            if outside(path) and self._agreed != path:
                self._agreed = path
                self.message.value = f'<div role="alert">Not saved yet. {escape(_elsewhere(path))}</div>'
                return
            path = save(self.form.draft.answers, self.file.value, self.replace.value)
        except SheetError as error:
            self.message.value = f'<div role="alert">Not saved. {escape(str(error))}</div>'
            return
        self.replace.value, self._agreed = False, None
        self.message.value = used(here(path))


def _elsewhere(path: Path) -> str:
    """Where a sheet outside the folder of the lessons would go, before it goes there."""
    return (f"It would go to {path.absolute().parent.resolve() / path.name}, outside the folder of the "
            f"lessons, {Path.cwd()}. Press Save the sheet again to put it there, or give a name alone, such "
            f"as {path.name}, to keep it beside the lessons.")


def used(name: str) -> str:
    """How a saved sheet is used, as HTML."""
    shown = escape(name)
    ways = (
        f"In any lesson choose <em>a sheet of your own</em> in the list <em>Car</em>, type "
        f"<code>{shown}</code> and press Enter.",
        f'Or write it into the lesson\'s first code cell: <code>start("05", car="{shown}")</code>.',
        f"In a terminal, in the same folder: <code>rollmodel car {shown}</code>.",
    )
    return f"<strong>Saved: {shown}</strong><ul>{''.join(f'<li>{way}</li>' for way in ways)}</ul>"
