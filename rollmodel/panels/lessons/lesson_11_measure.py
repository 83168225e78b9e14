"""Lesson 11's first panel: a day's readings typed in step by step, and the numbers that they give."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from rollmodel.figures import doubt_bars, line_fit, pads
from rollmodel.panels import still
from rollmodel.panels.advising import listed
from rollmodel.panels.canvas import Canvas
from rollmodel.panels.lesson import capital, load
from rollmodel.panels.shown import Shown, button, row, text
from rollmodel.panels.test_day import known_car
from rollmodel.panels.turns import follow
from rollmodel.panels.typed_line import TypedLine, alert
from rollmodel.reports.measure import advice, pair, sources
from rollmodel.sheets import training_cars
from rollmodel.testday.carry import RESULTS
from rollmodel.testday.faults import DayError
from rollmodel.testday.form import (
    EXAMPLE_CAR,
    LINES,
    STEPS,
    all_found,
    checked,
    example_texts,
    explicit,
    found_in,
    in_family,
    texts_read,
)
from rollmodel.testday.into_sheet import written
from rollmodel.testday.known import carried, save_sheet

SHOWN_FIRST = {
    "weights": "Corner weights",
    "front jacking": "Jacking",
    "height": "Raising one end",
}  # the strip
NO_READINGS = "no readings in this step yet"


class MeasurePanel(Shown):
    """Boxes, the picture of the step, the numbers with their uncertainties, and a new sheet from them."""

    def __init__(self, lesson):
        super().__init__(
            lesson, "measure", "Measure the car: each reading in, each number out with its doubt"
        )
        self.kept.setdefault("typed", {})
        self._carried_for = None
        self._build()
        self.restyle()

    # ---- for whoever uses the panel ----

    @property
    def step(self):
        """The job that is shown."""
        return next(one for one in STEPS if one.name == self.steps.value)

    @property
    def texts(self) -> dict[str, str]:
        """What stands in the boxes, with units."""
        return self._start() | {key: typed for key, (typed, _) in self.kept["typed"].items()}

    @property
    def known(self):
        """The car as its sheet has it."""
        return known_car(self.lesson)

    def type(self, key: str, words: str) -> None:
        """What the learner typed into a box."""
        line = LINES[key]
        self.kept["typed"][key] = (explicit(line, words, self.family), self.family)
        self.lines[key].say("")
        try:
            checked(line, self.kept["typed"][key][0])
        except DayError as fault:
            self.lines[key].say(fault.faults[0])
        self.refresh()

    def restyle(self) -> None:
        """Another look, other units or another car."""
        self.dress()
        self.canvas.clear(line_fit.size(self.lesson.look))
        for key, line in self.lines.items():
            line.put(self._in_box(key))
        self.refresh()

    def refresh(self) -> None:
        """Guide, boxes, picture and numbers of the step."""
        step, place = self.step, [one.name for one in STEPS].index(self.step.name)
        self.guide.value = escape(step.guide)
        for key, line in self.lines.items():
            line.widget.layout.display = None if LINES[key] in step.lines else "none"
        self.back.disabled, self.next.disabled = place == 0, place == len(STEPS) - 1
        try:
            self._show(step)
        except (DayError, ValueError) as fault:
            self._withdraw(fault)

    def save(self, *_) -> None:
        """The numbers into a new sheet, which the lesson then speaks of."""
        try:
            found = all_found(self.texts, self.known.car)
            path = save_sheet(self.known, found, self.name.box.value, self.family)
            car = load(path)
        except (DayError, ValueError, OSError) as fault:
            self.saved.value = alert(fault)
            return
        self.kept["typed"] = {key: (words, self.family) for key, words in self.texts.items()}
        self.lesson.change(car=car, sheet=path)
        self.saved.value = (
            f"Saved as {escape(str(path.resolve()))}. The lesson speaks of this sheet from here "
            "on: its stated "
            "uncertainties go into the plan and the verdict below."
        )

    def fill_in(self, *_) -> None:
        """The example's readings into every box."""
        self.kept["typed"] = {key: (words, "metric") for key, words in example_texts().items()}
        self._forget_messages()

    def empty(self, *_) -> None:
        """Nothing into any box."""
        self.kept["typed"] = dict.fromkeys(LINES, ("", "metric"))
        self._forget_messages()

    def stored(self) -> dict:
        """The last step's picture and words, and a strip of three steps."""
        shots = [(words, *self._shot(name)) for name, words in SHOWN_FIRST.items()]
        main = self._shot("given")
        return still.bundle(self.title, main, shots)

    # ---- how it works ----

    def _build(self):
        self.steps = widgets.Dropdown(options=[(one.title, one.name) for one in STEPS])
        self.steps.value = self.kept.get("step", STEPS[0].name)
        self.steps.add_class("rm-step")
        follow(self.steps, self._turned)
        self.back = button("Back", lambda *_: self._turn(-1))
        self.next = button("Next step", lambda *_: self._turn(1))
        tools = [button("Fill in the example", self.fill_in), button("Empty every box", self.empty)]
        self.guide, self.note = text(css="rm-guide"), text()
        self.lines = {key: TypedLine(key, line.words, self.type) for key, line in LINES.items()}
        self.canvas, self.image = Canvas(line_fit.size(self.lesson.look)), widgets.Image(format="png")
        self.caption, self.trouble, self.numbers = text(css="rm-caption"), text(css="rm-message"), text()
        self.name = TypedLine("sheet name", "Name of the new sheet", lambda *_: None, "such as my-car.toml")
        self.saved = text(css="rm-reply")
        side = widgets.VBox([line.widget for line in self.lines.values()])
        side.add_class("rm-controls")
        picture = widgets.VBox([self.image, self.trouble, self.caption, self.numbers])
        picture.add_class("rm-picture")
        self.picture = picture
        keep = widgets.VBox(
            [
                row(self.name.widget, button("Save as a new sheet and use it", self.save), css="rm-form"),
                self.saved,
            ]
        )
        keep.add_class("rm-card")
        self.fill(
            text(f"<strong>{escape(self.title)}</strong>"),
            row(self.steps, self.back, self.next, *tools),
            self.note,
            self.guide,
            row(side, picture, css="rm-body"),
            keep,
        )

    def _turn(self, by):
        names = [one.name for one in STEPS]
        self.steps.value = names[min(max(names.index(self.steps.value) + by, 0), len(names) - 1)]

    def _turned(self, change):
        self.kept["step"] = change["new"]
        self.picture.add_class("rm-stale")  # the last step's picture, until this one's is drawn
        self.refresh()

    def _start(self):
        """The example's readings stand ready on the car that they were invented for."""
        ready = self.lesson.sheet == training_cars()[EXAMPLE_CAR]
        return dict(example_texts()) if ready else dict.fromkeys(LINES, "")

    def _in_box(self, key):
        words, family = self.kept["typed"].get(key, (self._start()[key], "metric"))
        return words if family == self.family else in_family(LINES[key], words, self.family)

    def _forget_messages(self):
        for line in self.lines.values():
            line.say("")
        self.saved.value = ""
        self.restyle()

    def _show(self, step):
        png, words = self._picture(self.canvas, step)
        self.image.value, self.caption.value, self.trouble.value = png, escape(words), ""
        self.picture.remove_class("rm-stale")
        self.numbers.value = self._numbers(step)
        example = self.texts == dict(example_texts())
        self.note.value = "The readings in the boxes are an example, invented for this course." * example
        self._name_all(words)

    def _withdraw(self, fault):
        self.trouble.value, self.caption.value, self.numbers.value = alert(fault), "", ""
        self.picture.add_class("rm-stale")
        self._name_all("The picture waits: " + "; ".join(map(str, getattr(fault, "faults", [fault]))))

    def _name_all(self, words):
        names = {"img.widget-image": {"alt": words}, ".rm-step select": {"aria-label": "Step"}}
        names[".rm-reply .widget-html-content"] = {"aria-live": "polite"}
        names[".rm-caption .widget-html-content"] = {"aria-live": "polite"}
        for line in [*self.lines.values(), self.name]:
            names |= line.names()
        self.set_names(names)

    def _shot(self, name):
        canvas = Canvas(line_fit.size(self.lesson.look))
        step = next(one for one in STEPS if one.name == name)
        return self._picture(canvas, step, small=True)

    def _picture(self, canvas, step, small=False):
        """The step's picture, drawn afresh, for each step has another, and the same in words."""
        canvas.clear(line_fit.size(self.lesson.look))
        draw, scene, words = self._scene(step)
        canvas.hold(draw(canvas.figure, scene, self.lesson.look, self.family))
        return (canvas.small_png() if small else canvas.png()), words

    def _scene(self, step):
        if step.name == "given":
            bars = self._bars()
            return doubt_bars.draw, bars, doubt_bars.describe(bars)
        readings = texts_read(self.texts, [*step.tables, "corner_weights"])
        if step.name == "weights":
            scene = pads.of_readings(readings)
            return pads.draw, scene, pads.describe(scene, self.family)
        scene = {
            "height": lambda: line_fit.of_raising(readings),
            "front jacking": lambda: line_fit.of_jacking("front", readings),
            "rear jacking": lambda: line_fit.of_jacking("rear", readings),
            "bench": lambda: line_fit.of_bench(readings),
        }[step.name]()
        return line_fit.draw, scene, line_fit.describe(scene, self.family)

    def _carried(self):
        """What the sheet predicts with these readings; it takes about a second, so it is kept."""
        asked = self.lesson.car, self.lesson.sheet, tuple(sorted(self.texts.items()))
        if self._carried_for is None or self._carried_for[0] != asked:
            found = all_found(self.texts, self.known.car)
            self._carried_for = asked, carried(self.known, found)
        return self._carried_for[1]

    def _bars(self):
        results, doubts = self._carried()
        return [
            doubt_bars.Bar(
                f"{capital(RESULTS[one.name][1])}: {pair(one, self.family)}",
                tuple(one.shares.values()),
                sources(one, list(doubts)),
            )
            for one in results
        ]

    def _numbers(self, step):
        """Each number of the step with its uncertainty, what the readings showed, and what to improve."""
        found = found_in(step, self.texts, self.known.car)
        lines = [
            f"{capital(one.words)}: {written(one.value, one.uncertainty, one.kind, self.family)}"
            + f" ({one.how})" * bool(one.how)
            for one in found
        ]
        notes = [f"{capital(one.words)}: {note}" for one in found for note in one.notes]
        blocks = [listed([*lines, *notes]) if found else f"<p>{NO_READINGS.capitalize()}.</p>"]
        if step.name == "given":
            results, doubts = self._carried()
            blocks.append(
                f"<em>Measure better first</em>{listed(advice(results, list(doubts), self.family))}"
            )
        return "".join(blocks)
