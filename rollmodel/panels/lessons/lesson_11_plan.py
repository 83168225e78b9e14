"""Lesson 11's third panel: the run sheet for one change, on the page and as a page to print."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.panels import still
from rollmodel.panels.advising import listed
from rollmodel.panels.shown import Shown, button, row, text
from rollmodel.panels.test_day import choose_move, move_of, move_words, shared, tested, tested_known
from rollmodel.panels.turns import follow
from rollmodel.panels.typed_line import TypedLine, alert
from rollmodel.reports.run_sheet import run_sheet, sheet_values
from rollmodel.testday.faults import DayError
from rollmodel.testday.known import save_new
from rollmodel.testday.wishes import plan_wished

BOXES = {
    "radius": ("Radius of the circle", "30 m when left empty"),
    "steering ratio": ("Steering ratio", "road wheel when left empty"),
    "roll gradient": ("Scatter of one run's roll gradient", "a starting figure when left empty"),
    "understeer gradient": ("Scatter of one run's understeer gradient", "a starting figure when left empty"),
}


class PlanPanel(Shown):
    """One change, what it should show, how many runs show it, when to stop; saved as a page."""

    def __init__(self, lesson):
        super().__init__(lesson, "plan", "Plan the day: the run sheet for one change")
        self._build()
        self.restyle()

    @property
    def boxes(self) -> dict[str, str]:
        """What was typed."""
        return {key: line.box.value for key, line in self.lines.items()}

    def restyle(self) -> None:
        """Another car, other units: the list of changes, and the plan."""
        self.dress()
        try:
            words = move_words(tested(self.lesson))
            now = {move: one for one, move in words.items()}[move_of(self.lesson)]
        except (ValueError, KeyError) as fault:
            words, now = {}, None
            self.plan, self.page.value, self.trouble.value = None, "", alert(fault)
        self._quiet = True
        self.change.options, self.change.value = tuple(words), now
        self._quiet = False
        if words:
            self.refresh()

    def refresh(self, *_) -> None:
        """Plan again, or say what stands in the way; the last plan stays below, dimmed."""
        try:
            self.plan = self._plan(self.boxes)
        except (DayError, ValueError) as fault:
            self.trouble.value = alert(fault)
            self.page.add_class("rm-old")
            return
        shared(self.lesson)["plan"] = tested(self.lesson), self.plan
        self.trouble.value, self.page.value = "", page_html(self.plan, self.family)
        self.page.remove_class("rm-old")

    def save(self, *_) -> None:
        """The page to print, as a new file."""
        try:
            path = save_new(self.name.box.value, run_sheet(self._plan(self.boxes), self.family), ".html")
        except (DayError, ValueError) as fault:
            self.saved.value = alert(fault)
            return
        self.saved.value = (
            f"Saved as {escape(str(path.resolve()))}. Open it in a browser and print it: it fits one page."
        )

    def stored(self) -> dict:
        """The plan for the first change, in words."""
        plan = self._plan({})
        return still.words(self.title, page_html(plan, self.family), page_plain(plan, self.family))

    # ---- how it works ----

    def _build(self):
        self._quiet, self.plan = False, None
        self.change = widgets.Dropdown()
        self.change.add_class("rm-change")
        follow(self.change, self._chosen)
        self.lines = {key: TypedLine(key, words, self._typed, hint) for key, (words, hint) in BOXES.items()}
        for key, words in self.kept.get("boxes", {}).items():
            self.lines[key].put(words)
        self.name = TypedLine("page name", "Name of the page", lambda *_: None, "such as run-sheet.html")
        self.trouble, self.page, self.saved = (
            text(css="rm-message"),
            text(css="rm-page"),
            text(css="rm-reply"),
        )
        keep = [row(self.name.widget, button("Save the page", self.save), css="rm-form"), self.saved]
        card = widgets.VBox(keep)
        card.add_class("rm-card")
        self.fill(
            text(f"<strong>{escape(self.title)}</strong>"),
            widgets.VBox([text("The change", "rm-label"), self.change]),
            row(*(line.widget for line in self.lines.values()), css="rm-form"),
            self.trouble,
            self.page,
            card,
        )
        names = {".rm-change select": {"aria-label": "The change to plan for"}}
        names |= {
            f".{css} .widget-html-content": {"aria-live": "polite"} for css in ("rm-message", "rm-reply")
        }
        for line in [*self.lines.values(), self.name]:
            names |= line.names()
        self.set_names(names)

    def _chosen(self, change):
        """The runs below are then about this change too."""
        if self._quiet or change["new"] is None:
            return
        choose_move(self.lesson, move_words(tested(self.lesson))[change["new"]])
        self.refresh()
        for one in list(self.lesson._shown):
            if one is not self and hasattr(one, "show_own"):
                one.restyle()

    def _typed(self, key, words):
        self.kept.setdefault("boxes", {})[key] = words
        self.refresh()

    def _plan(self, boxes):
        return plan_wished(tested_known(self.lesson), *move_of(self.lesson), boxes, self.family)


def page_html(plan, family: str) -> str:
    """The run sheet's contents, laid out for the screen."""
    values = sheet_values(plan, family)
    seen = "".join(
        f'<tr><th scope="row">{escape(one["words"])}, {escape(one["unit"])}</th><td>{one["before"]}</td>'
        f"<td>{one['after']}</td><td>{one['known']}</td><td><strong>{one['change']}</strong></td></tr>"
        for one in values["seen"]
    )
    heads = "".join(
        f'<th scope="col">{head}</th>' for head in ("before", "after", "each known to ±", "change")
    )
    drive = (
        f"<strong>Drive {values['repetitions']} runs left and {values['repetitions']} right, make "
        "the change, "
        f"drive as many again.</strong> {escape(values['runs'])} {escape(values['scatter'])}"
    )
    steps = values["steps"]
    speeds = f"{len(steps)} steps, from {steps[0]['speed']} to {steps[-1]['speed']} {values['speed_unit']}"
    return (
        f"<p><strong>{escape(values['change'])}</strong> Baseline: {escape(values['baseline'])}. Circle of "
        f"radius {values['radius']}, {speeds}.</p>"
        f"<table><tr><td></td>{heads}</tr>{seen}</table>"
        f"<p>{drive}</p><p>{escape(values['method'])}</p>"
        f"<div class='rm-two'><div><em>Stop when</em>{listed(values['stops'])}</div>"
        f"<div><em>Cautions</em>{listed(values['cautions'])}</div></div>"
    )


def page_plain(plan, family: str) -> str:
    """The same as text."""
    values = sheet_values(plan, family)
    seen = (
        f"{one['words']}, {one['unit']}: {one['before']} before, {one['after']} after, change {one['change']}"
        for one in values["seen"]
    )
    lines = [
        values["change"],
        *seen,
        values["runs"],
        "Stop when",
        *values["stops"],
        "Cautions",
        *values["cautions"],
    ]
    return "\n".join(lines)
