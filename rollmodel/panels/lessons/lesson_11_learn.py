"""Lesson 11's last two parts: what the runs teach about the sheet, and the log."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels import still
from rollmodel.panels.advising import listed
from rollmodel.panels.shown import Shown, button, row, text
from rollmodel.panels.test_day import move_of, shared, tested, tested_known
from rollmodel.panels.typed_line import TypedLine, alert
from rollmodel.reports.learn import NOTE, learned_numbers, number_rows, reading_rows, warnings
from rollmodel.reports.log import entry_of_fit, entry_of_plan, entry_of_runs, log_text
from rollmodel.reports.run_sheet import change_between
from rollmodel.sheets import training_cars
from rollmodel.testday.analysis import Sheet
from rollmodel.testday.faults import DayError
from rollmodel.testday.from_runs import learn_from_runs
from rollmodel.testday.known import save_sheet
from rollmodel.testday.log import Entry, append, log_path, now, read_log
from rollmodel.testday.trial import Day, read_day, setups
from rollmodel.testday.wishes import Read, made, plan_wished
from rollmodel.units import label

AS_DRIVEN = 0.85  # rate of the real bar, part of the sheet's, in the day that is read when no panel has been


def last_read(lesson) -> Read:
    """The runs that the panel above shows for this car; else those of its first day."""
    car, read = shared(lesson).get("read", (None, None))
    if car == tested(lesson):
        return read
    one = tested_known(lesson)
    day = Day(one.car, made(one.car, *move_of(lesson)), bar=AS_DRIVEN)
    before, after = setups(day)
    return Read(before, after, Sheet(day.before, day.after, one.doubts), read_day(day, one.doubts))


class LearnPanel(Shown):
    """What moved, how far, what the runs cannot tell apart; and a new sheet with it."""

    def __init__(self, lesson):
        super().__init__(lesson, "learn", "Learn from the runs: what they say of the sheet")
        self.fit, self.page, self.reply = None, text(css="rm-page"), text(css="rm-reply")
        self.name = TypedLine(
            "learned name", "Name of the new sheet", lambda *_: None, "such as my-car-2.toml"
        )
        keep = [
            row(self.name.widget, button("Save what was learned as a new sheet", self.save), css="rm-form")
        ]
        card = widgets.VBox([*keep, self.reply])
        card.add_class("rm-card")
        self.fill(
            text(f"<strong>{escape(self.title)}</strong>"),
            row(button("Learn from the runs above", self.learn)),
            self.page,
            card,
        )
        names = {f".{css} .widget-html-content": {"aria-live": "polite"} for css in ("rm-page", "rm-reply")}
        self.set_names(names | self.name.names())
        self.restyle()

    def learn(self, *_) -> None:
        """Fit the sheet to the runs that are shown above; a second or two."""
        try:
            read = last_read(self.lesson)
            self.fit = learn_from_runs(read.before, read.after, read.sheet)
        except (DayError, ValueError) as fault:
            self.fit, self.page.value = None, alert(fault)
            return
        self.of, self.car = read, tested(self.lesson)
        shared(self.lesson)["fit"] = tested(self.lesson), self.fit, read.before.simulated
        self.page.value = fit_html(self.fit, read, self.family)

    def restyle(self) -> None:
        """Other units or another car; what was learned of another car goes."""
        self.dress()
        if self.fit is not None and self.car == tested(self.lesson):
            self.page.value = fit_html(self.fit, self.of, self.family)
        else:
            self.fit, self.page.value = None, "Nothing learned yet: press the button."

    def save(self, *_) -> None:
        """The learned numbers into a new sheet."""
        try:
            if self.fit is None:
                raise DayError("nothing learned yet; learn from the runs first")
            one = tested_known(self.lesson)
            path = save_sheet(one, learned_numbers(self.fit, one.car), self.name.box.value, self.family)
        except (DayError, ValueError) as fault:
            self.reply.value = alert(fault)
            return
        self.reply.value = (
            f"Saved as {escape(str(path.resolve()))}. Measure what moved before you believe it."
        )

    def stored(self) -> dict:
        """What the first day's runs teach, in words."""
        read = last_read(self.lesson)
        fit = learn_from_runs(read.before, read.after, read.sheet)
        lines = [*(": ".join((one[0], " to ".join(one[1:]))) for one in number_rows(fit)), *warnings(fit)]
        return still.words(self.title, fit_html(fit, read, self.family), "\n".join(lines))


def fit_html(fit, read: Read, family: str) -> str:
    """Numbers before and after, readings before and after, and what to know about it."""
    simulated = "<p>Simulated runs: nobody drove these.</p>" * read.before.simulated
    return (
        simulated
        + _table(("Number", "by the sheet", "with the runs"), number_rows(fit, family))
        + _table((f"Reading, {label('roll gradient')}", "runs", "sheet", "fitted"), reading_rows(fit))
        + f"<em>What to know about it</em>{listed(warnings(fit))}<p>{escape(NOTE)}</p>"
    )


def _table(heads, rows):
    top = "".join(f'<th scope="col">{escape(head)}</th>' for head in heads)
    body = "".join(
        f'<tr><th scope="row">{escape(first)}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in rest)}</tr>'
        for first, *rest in rows
    )
    return f"<table><tr>{top}</tr>{body}</table>"


class LogPanel(Shown):
    """Plan, runs, lessons learned and notes, kept in a plain file beside the sheet."""

    def __init__(self, lesson):
        super().__init__(lesson, "log", "Keep the log: what was changed, predicted and measured")
        self.note = TypedLine("note", "A note", lambda *_: None, "such as: wind from the west")
        self.reply, self.page = text(css="rm-reply"), text(css="rm-page")
        keeps = {
            "Keep the plan": self._of_plan,
            "Keep the runs": self._of_runs,
            "Keep what was learned": self._of_fit,
        }
        self.buttons = [button(words, lambda *_, make=make: self.keep(make)) for words, make in keeps.items()]
        add = button("Add the note", lambda *_: self.keep(self._of_note))
        self.fill(
            text(f"<strong>{escape(self.title)}</strong>"),
            row(*self.buttons),
            row(self.note.widget, add, css="rm-form"),
            self.reply,
            self.page,
        )
        names = {".rm-reply .widget-html-content": {"aria-live": "polite"}}
        self.set_names(names | self.note.names())
        self.restyle()

    @property
    def path(self):
        """Where the log lies: beside the learner's sheet; for a training car, in the folder of
        this notebook."""
        sheet = self.lesson.sheet
        if sheet is None:
            raise DayError("this car came without a sheet, so there is no place for its log")
        own = sheet not in training_cars().values()
        return log_path(sheet) if own else log_path(sheet.stem, training_cars())

    def keep(self, make) -> None:
        """Add one entry, or say why not; the file is whole whatever happens."""
        try:
            append(self.path, make())
        except (DayError, ValueError, OSError) as fault:
            self.reply.value = alert(fault)
            return
        self.reply.value = f"Added to {escape(str(self.path.resolve()))}."
        self._list()

    def restyle(self) -> None:
        """Another car has another log."""
        self.dress()
        self.reply.value = ""
        self._list()

    def stored(self) -> dict:
        """What the log is; nothing of anybody's own."""
        words = (
            "The log is a plain text file beside the car sheet: 1 block for each plan, set of runs and note."
        )
        return still.words(self.title, f"<p>{escape(words)}</p>", words)

    def _list(self):
        try:
            self.page.value = f"<pre>{escape(log_text(read_log(self.path)))}</pre>"
        except (DayError, ValueError, OSError) as fault:
            self.page.value = alert(fault)

    def _of_plan(self):
        car, plan = shared(self.lesson).get("plan", (None, None))
        if car != tested(self.lesson):
            plan = plan_wished(tested_known(self.lesson), *move_of(self.lesson), {}, self.family)
        return entry_of_plan(plan)

    def _of_runs(self):
        read = last_read(self.lesson)
        words = change_between(read.sheet.before, read.sheet.after)
        return entry_of_runs(read.analysis, words, list(read.files))

    def _of_fit(self):
        car, fit, simulated = shared(self.lesson).get("fit", (None, None, False))
        if car != tested(self.lesson):
            raise DayError("nothing learned yet; press the button above the log first")
        return entry_of_fit(fit, simulated)

    def _of_note(self):
        words = self.note.box.value.strip()
        if not words:
            raise DayError("wanted a note; the box is empty")
        return Entry("note", now(), note=words)
