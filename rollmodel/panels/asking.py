"""Questions on the page: recall at the top of a lesson, exercises with an answer box."""

from __future__ import annotations

import time
from html import escape

import ipywidgets as widgets

from rollmodel.panels import still
from rollmodel.panels.shown import Shown, button, row, text
from rollmodel.panels.turns import follow
from rollmodel.questions import Posed, check, feedback, pose, question, recall_for
from rollmodel.questions.records import Choice, Open

LATE = 0.3  # s; nobody reads a reply and chooses again within it


class Ask:
    """One question with a place for the answer; checks it and says more at each further try.

    Parameters
    ----------
    posed : Posed
        The question with its numbers.
    kept : dict
        Remembers what was typed between runs of the cell.
    css : str
        Class of this question, unique on its part of the page.
    """

    def __init__(self, posed: Posed, kept: dict, css: str):
        self.posed, self.kept, self.css = posed, kept, css
        self.wording, self.reply = text(), text(css="rm-reply")
        self.entry = self._entry()
        self.check_button = button("Check", lambda *_: self.check())
        self.widget = widgets.VBox(
            [self.wording, row(self.entry, self.check_button, css="rm-form"), self.reply]
        )
        self.widget.add_class("rm-card")
        self.widget.add_class(css)
        self._quiet, self._checked = False, -LATE
        self.put(posed)

    @property
    def is_choice(self) -> bool:
        return isinstance(self.posed.question, Choice)

    def put(self, posed: Posed) -> None:
        """The question in the present units; with fresh numbers nothing of an old answer stays."""
        drawn = posed.id, posed.code_word, posed.occasion
        if self.kept.get("drawn") != drawn:
            self.kept.clear()
            self.kept["drawn"] = drawn
        self.posed, self._quiet = posed, True
        self.wording.value = wording(posed, options=not self.is_choice)
        if self.is_choice:
            self.entry.options = [(f"{letter}. {words}", letter) for letter, words in posed.options]
        self.entry.value = self.kept.get("given") if self.is_choice else self.kept.get("given", "")
        self._quiet = False
        self._say()

    def _chosen_late(self):
        """A choice that arrives just after its Check was made before it: the page sends presses at once."""
        if time.monotonic() - self._checked < LATE:
            overtaken = (self.kept.get("given") or "").strip()
            self.kept["tries"] = [one for one in self.kept.get("tries", ()) if one != overtaken]
            self.check()

    def check(self) -> None:
        """Take what stands in the answer box."""
        self._checked, self.kept["answered"] = time.monotonic(), self.posed
        given = self.entry.value or ""
        if given.strip():
            tries = self.kept.setdefault("tries", [])
            tries += [] if given.strip() in tries else [given.strip()]
        self.kept["given"] = given if given or not self.is_choice else None
        self._say()

    def names(self) -> dict:
        """Attributes for assistive technology."""
        said = f"Your answer. {self.posed.text}"
        return {f".{self.css} {kind}": {"aria-label": said} for kind in ("input[type=text]", "textarea")} | {
            f".{self.css} .widget-radio-box": {"role": "radiogroup", "aria-label": self.posed.text},
            f".{self.css} .rm-reply .widget-html-content": {"aria-live": "polite"},
        }

    def _entry(self):
        if self.is_choice:
            radio = widgets.RadioButtons(options=[], layout={"width": "auto"})
            follow(radio, lambda change: self._quiet or self._chosen_late())
            return radio
        if isinstance(self.posed.question, Open):
            return widgets.Textarea(rows=4, layout={"width": "100%"})
        box = widgets.Text(continuous_update=False, layout={"width": "260px"})
        follow(box, lambda change: self._quiet or self.check())
        return box

    def _say(self):
        posed = self.kept.get("answered", self.posed)  # other units are no reason for another verdict
        verdict = check(posed, self.kept.get("given"))
        attempt = sum(check(posed, given).read for given in self.kept.get("tries", ()))
        said = feedback(posed, verdict, max(1, attempt))
        spare = self.is_choice and verdict.status == "not answered"  # the buttons show what is wanted
        lines = "" if spare else "".join(f"<br>{escape(line)}" for line in said.lines)
        self.reply.value = f"<strong>{escape(said.headline)}</strong>{lines}"


def wording(posed: Posed, options: bool = True) -> str:
    """A question's text as HTML, with its options where they are not shown another way."""
    letters = "".join(f"<br>{letter}. {escape(words)}" for letter, words in posed.options)
    return escape(posed.text) + (letters if options else "")


def plain(posed: Posed) -> str:
    """The same as text."""
    return "\n".join([posed.text, *(f"   {letter}. {words}" for letter, words in posed.options)])


def stored(title: str, posed) -> dict:
    """What a notebook keeps of questions: their wording, never an answer."""
    items = "".join(f"<li>{wording(one)}</li>" for one in posed)
    lines = (f"{number}. {plain(one)}" for number, one in enumerate(posed, start=1))
    return still.words(title, f"<ol>{items}</ol>", "\n".join(lines))


class Recall(Shown):
    """Three short questions from earlier lessons; fresh numbers at the press of a button."""

    def __init__(self, lesson):
        asked = recall_for(lesson.number, lesson.code_word, lesson.family)
        earlier = any(one.question.lesson for one in asked)
        title = "Three questions from earlier lessons" if earlier else "Three questions to warm up"
        super().__init__(lesson, "recall", title)
        self.asks = [
            Ask(posed, self.kept.setdefault(n, {}), f"rm-recall-{n}") for n, posed in enumerate(self._posed())
        ]
        self.fill(
            text(f"<strong>{escape(self.title)}</strong>"),
            *(ask.widget for ask in self.asks),
            button("New numbers", self.again),
        )
        self._set_names()

    def _posed(self):
        """The first draw belongs to the code word; later ones to the code word and the count."""
        count = self.kept.setdefault("draws", 0)
        first = recall_for(self.lesson.number, self.lesson.code_word, self.family)
        if not count:
            return first
        return [
            pose(one.question, one.code_word, self.family, f"{one.occasion} again {count}") for one in first
        ]

    def again(self, *_) -> None:
        """The same questions with fresh numbers."""
        self.kept["draws"] += 1
        for ask, posed in zip(self.asks, self._posed(), strict=True):
            ask.put(posed)
        self._set_names()

    def restyle(self):
        self.dress()
        for ask, posed in zip(self.asks, self._posed(), strict=True):
            ask.put(posed)
        self._set_names()

    def _set_names(self):
        self.set_names({selector: names for ask in self.asks for selector, names in ask.names().items()})

    def stored(self):
        return stored(self.title, recall_for(self.lesson.number, self.lesson.code_word, self.family))


class Exercise(Shown):
    """One question of the bank, for practice inside a lesson. Nothing is written to a file."""

    def __init__(self, lesson, question_id: str):
        self.question = question(question_id)
        super().__init__(lesson, f"exercise {question_id}", "Exercise")
        self.ask = Ask(self._posed(), self.kept, "rm-exercise")
        self.fill(self.ask.widget)
        self.set_names(self.ask.names())

    def _posed(self):
        return pose(self.question, self.lesson.code_word, self.family)

    def restyle(self):
        self.dress()
        self.ask.put(self._posed())
        self.set_names(self.ask.names())

    def stored(self):
        return stored(self.title, [self._posed()])
