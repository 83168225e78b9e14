"""A form that makes a car sheet: every field explained, every refusal beside its box, nothing typed lost."""

from __future__ import annotations

from html import escape

from rollmodel.advice import SHORT
from rollmodel.panels import still
from rollmodel.panels.form_line import css
from rollmodel.panels.form_saving import FormSaving
from rollmodel.panels.form_section import FormSection
from rollmodel.panels.form_start import FormStart
from rollmodel.panels.lesson import capital
from rollmodel.panels.shown import Shown
from rollmodel.sheets.form import BLANK, judge, sections
from rollmodel.sheets.form.draft import DraftError, DraftFile
from rollmodel.sheets.form.layout import every_path
from rollmodel.sheets.form.typed import complete

TITLE = "Your own car"
_DECIDE = ("tyre.curve", "front.bar", "rear.bar")  # answers that change what else is asked for


class CarForm(Shown):
    """The form as a whole; its draft lies in a folder and comes back with the next kernel.

    Parameters
    ----------
    lesson : Lesson
    folder : str or pathlib.Path, optional
        Where the draft is kept.
    """

    def __init__(self, lesson, folder="."):
        super().__init__(lesson, "car form", TITLE)
        self.file, self.trouble, self.asked = DraftFile(folder), "", False
        self.draft = self.kept.setdefault("draft", None) or self.file.read()
        self.trouble = self.file.note
        self.kept["draft"] = self.draft
        lesson.family = self.draft.family
        self.verdict = judge(self.draft.answers)
        self.start, self.saving = FormStart(self), FormSaving(self)
        self.parts = [FormSection(self, section) for section in sections(self.draft.answers)]
        self.fill(self.start.widget, *(part.widget for part in self.parts), self.saving.widget)
        self._unfold_what_is_used()
        self.refresh()

    def _unfold_what_is_used(self) -> None:
        """Optional parts with something in them stand open."""
        given = {path for path, answer in self.draft.answers.items() if answer and BLANK.get(path) != answer}
        self._lay()
        for part in self.parts:
            part.open = part.open or part.holds(given)
        self._lay()

    def _lay(self) -> None:
        for part, section in zip(self.parts, sections(self.draft.answers), strict=True):
            part.lay(section)

    def typed(self, path: str, raw: str) -> None:
        """Take one answer: kept at once, judged at once, shown again with its unit."""
        self.draft.answers[path] = complete(raw, every_path()[path].field, self.family)
        if path in _DECIDE:
            self._lay()
        self.keep()
        for part in self.parts:
            if part.holds((path,)):
                part.show()
        self.refresh()

    def replace(self, answers: dict[str, str]) -> None:
        """Other answers for the whole form; the present ones can be brought back."""
        self.draft.before, self.draft.answers = self.draft.answers, answers
        self.draft.file, self.asked = "", False
        self._unfold_what_is_used()
        self.keep()
        self._show()

    def keep(self) -> None:
        """The draft goes to the disk; where it cannot, the form says so and goes on."""
        try:
            self.file.write(self.draft)
            self.trouble = ""
        except DraftError as error:
            self.trouble = str(error)

    def refresh(self) -> None:
        """Judge the answers, and bring every message in line."""
        self.verdict = judge(self.draft.answers)
        for part in self.parts:
            part.say(self.verdict, self.asked)
        self.saving.show(self.verdict, self.trouble)
        self.start.show()
        self.set_names(self._names())

    def _names(self) -> dict:
        parts = (self.start, *self.parts, self.saving)
        return {selector: more for part in parts for selector, more in part.names().items()}

    def ask_for_missing(self) -> None:
        """From now on an empty box that is needed says so beside it."""
        self.asked = True
        self.refresh()

    def go_to_next(self) -> None:
        """Put the focus in the first box that is refused or missing, unfolding its part."""
        wanting = {*self.verdict.refused, *self.verdict.missing}
        first = next((path for path in every_path() if path in wanting), None)
        if first is None:
            return
        for part in self.parts:
            if part.holds((first,)) and not part.open:
                part.unfold()
        self.ask_for_missing()
        self.access.focus(*(f".{css(first)} {kind}" for kind in ("input", "select", "textarea")))

    def restyle(self):
        """Follow the units and the projector switch; what was typed stays as it was typed."""
        self.dress()
        if self.draft.family != self.family:
            self.draft.family = self.family
            self.keep()
        self._show()

    def _show(self) -> None:
        for part in self.parts:
            part.show()
        self.refresh()

    def stored(self):
        """What a form on paper would ask for: every needed field, what it is, where one finds it."""
        blank = sections(dict(BLANK) | {"front.bar": "holes", "rear.bar": "holes"})
        lines = [line for section in blank if not section.optional for line in section.lines]
        rows = [
            (capital(line.words.label), f"{line.words.what} {line.may_be_left_out}".strip(), line.words.how)
            for line in lines
        ]
        cells = "".join(f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in one)}</tr>" for one in rows)
        titles = "".join(f'<th scope="col">{one}</th>' for one in ("What", "What it is", "Where you find it"))
        table = (
            f"<p>Run this cell to fill in the form. It asks for this; more may be added.</p>"
            f"<p>{escape(SHORT)}</p><table><tr>{titles}</tr>{cells}</table>"
        )
        plain = [SHORT, *(f"{head}: {what} {how}".strip() for head, what, how in rows)]
        return still.words(self.title, table, "\n".join(plain))
