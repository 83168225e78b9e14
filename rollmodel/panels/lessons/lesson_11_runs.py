"""Lesson 11's fourth panel: runs before and after, simulated or the learner's own, and the verdict."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from html import escape

from rollmodel.figures import two_runs
from rollmodel.panels.advising import listed
from rollmodel.panels.controls import Choice, Slider, Switch
from rollmodel.panels.lessons.lesson_11_files import FilesForm
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.panels.shown import text
from rollmodel.panels.test_day import move_of, move_words, shared, tested, tested_known
from rollmodel.reports.runs import (
    NOTE,
    number,
    outlier_sentences,
    pair,
    sentences,
    taken_for_granted,
    verdicts,
)
from rollmodel.testday.analysis import Analysis, Sheet
from rollmodel.testday.compare import SEEN
from rollmodel.testday.plan import clearer
from rollmodel.testday.trial import Day, expected_of, read_day, setups
from rollmodel.testday.wishes import Read, made
from rollmodel.units import label

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday")
ROLL, STEER = "roll gradient", "understeer gradient"


@dataclass(frozen=True, eq=False)
class Result:
    """What the picture and the words are made from."""

    scene: two_runs.Scene
    day: Day | None  # None: the learner's own files

    @property
    def analysis(self) -> Analysis:
        return self.scene.analysis

    def predicted(self, quantity: str) -> float:
        """What the sheet says of the latest setup that is shown, [rad/(m/s^2)]."""
        said = next(one.predicted for one in self.analysis.differences if one.quantity == quantity)
        return said.after if self.scene.both else said.before


@lru_cache(maxsize=32)
def span_for(day: Day, doubts) -> two_runs.Span:
    """Scales that stay while noise, runs and days change."""
    return two_runs.span_of(read_day(Day(day.before, day.after), doubts))


class RunsPanel(Panel):
    """A change, a test day, and whether the runs after it are shown; or two files of the learner's own."""

    name = "runs"
    title = "Read the runs: did it work?"
    large = "High"
    high = {"both": True}
    low = {"both": True, "noise": 3.0}

    def __init__(self, lesson=None):
        super().__init__(lesson)
        self.widget.add_class("rm-wide")

    @property
    def car(self):
        return tested(self.lesson)

    @property
    def size(self):
        return two_runs.size(self.look)

    @property
    def own(self) -> Read | None:
        """The learner's files, while the picture shows them; another car's are another's."""
        car, read = self.kept.get("own", (None, None))
        return read if car == self.car else None

    def controls(self):
        chosen = {move: words for words, move in move_words(self.car).items()}
        return [
            Choice("change", "The change", tuple(chosen.values()), chosen[move_of(self.lesson)]),
            Choice("day", "Day", DAYS, DAYS[0]),
            Switch("both", "Show the runs after the change", False),
            Switch("gust", "A gust spoils one step", False),
            Slider("noise", "Noise, times a careful day's", "ratio", 0.2, 3.0, 1.0, (0.1, 0.1), 1),
            Slider("runs", "Runs each way round", "ratio", 2, 8, 3, (1, 1), 0),
            Slider("bar", "The real bar's rate, part of the sheet's", "share", 0.6, 1.1, 0.85, (5, 5), 0),
        ]

    def compute(self, values):
        if self.own:
            return Result(
                two_runs.Scene(self.own.analysis, values.both, two_runs.span_of(self.own.analysis)), None
            )
        day = self._day(values)
        doubts = tested_known(self.lesson).doubts
        return Result(two_runs.Scene(read_day(day, doubts), values.both, span_for(day, doubts)), day)

    def draw(self, figure, result):
        return two_runs.draw(figure, result.scene, self.look, self.family)

    def update(self, artists, result):
        self._scene = result.scene
        two_runs.update(artists, result.scene)

    def describe(self, result):
        if not result.scene.both:
            return self.describe_now(result)
        told = verdicts(result.analysis.differences)
        return f"{self._whose(result)} {' '.join(told)} {self._predicted(result)}"

    def describe_now(self, result):
        return (
            f"{self._whose(result)} Before the change: {self._gradients(result)}, with the interval of the "
            f"repetitions behind each sign.{self._beside(result)}"
            + " The runs after it are in the picture too; commit, and their verdict stands here."
            * result.scene.both
        )

    def withhold(self, artists, on):
        two_runs.withhold(artists, self._scene, on)

    def mark(self, artists, guess):
        two_runs.mark(artists, self._scene, self._asked(), guess)

    def prediction(self):
        if self.own:
            return None
        words = {move: words for words, move in move_words(self.car).items()}[move_of(self.lesson)]
        asked = self._asked()
        beside = {ROLL: "steer", STEER: "roll"}[asked]
        return Prediction(
            question=f"{words}. The same runs are driven again. What should the {asked} do, by the sheet? "
            f"Write down, too, what you expect of the {beside}.",
            noun=asked,
            kind=asked,
            quantity=lambda result: result.predicted(asked),
            before={},
            after={"both": True},
            same=two_runs.LEAST_TOLD,
        )

    def below(self):
        self.words, self.files = text(css="rm-advice"), FilesForm(self)
        return [self.caption, self.words, self.files.widget]

    def more_names(self):
        return self.files.names() | {".rm-advice .widget-html-content": {"aria-live": "polite"}}

    def after(self, result):
        for name, one in self.rows.items():
            if name != "both" and self.own:
                one.enable(False)
        self.files.follow()
        if result is None:
            self.words.value = ""
            return
        shared(self.lesson)["read"] = tested(self.lesson), self._read(result)
        self.words.value = self._more(result) if result.scene.both and not self.card.pending else ""

    # ---- what the form below asks for ----

    def show_own(self, read: Read | None) -> None:
        """Show the learner's own files, or the simulated day again."""
        self.kept["own"] = (self.car, read)
        self.restyle()
        if read:
            self.set(both=True)

    def no_verdict(self) -> None:
        """Take away the verdict on older runs, which would stand above the refusal of newer files."""
        self.words.value = ""
        whose = "the files read before" if self.own else "the simulated day"
        words = f"No verdict: the files below were refused. The picture is still that of {whose}."
        self.caption.value = words
        self.picture.add_class("rm-stale")
        self._name_everything(words)

    @property
    def cars_first(self) -> tuple:
        """The car before and after the change that the plan chose."""
        return self.car, made(self.car, *move_of(self.lesson))

    @property
    def cars(self) -> tuple:
        """The car before and after the change that the controls name."""
        move = move_words(self.car)[self.values.change]
        return self.car, made(self.car, *move)

    # ---- how it works ----

    def _day(self, values) -> Day:
        move = move_words(self.car)[values.change]
        return Day(
            self.car,
            made(self.car, *move),
            values.noise,
            round(values.runs),
            1 + DAYS.index(values.day),
            values.bar,
            values.gust,
        )

    def _asked(self) -> str:
        """The gradient that the change moves more beside its scatter."""
        return clearer(expected_of(*self.cars_first, tested_known(self.lesson).doubts))

    def _read(self, result) -> Read:
        if self.own:
            return self.own
        before, after = setups(result.day)
        sheet = Sheet(result.day.before, result.day.after, tested_known(self.lesson).doubts)
        return Read(before, after, sheet, result.analysis)

    def _whose(self, result):
        return "Your own files." if result.day is None else "Simulated runs: nobody drove these."

    def _gradients(self, result):
        found = {q: two_runs.gradients_of(result.analysis, q).get("before") for q in two_runs.CHANNELS}
        told = (f"{q} {pair(one.value, one.half_width, q)} {label(q)}" for q, one in found.items() if one)
        runs = len(result.analysis.before.runs)
        return f"{', '.join(told)}, from {runs} runs"

    def _beside(self, result):
        """The measured understeer gradient beside the sheet's slope over the same points."""
        one = next((one for one in result.analysis.differences if one.quantity == STEER), None)
        if one is None or one.predicted is None:
            return ""
        said = one.predicted.before
        place = "within" if one.before.low <= said <= one.before.high else "outside"
        return (
            f" Over the same points the sheet's curve has {number(said, STEER)} {label(STEER)}: "
            f"{place} the interval of the {STEER}."
        )

    def _predicted(self, result):
        told = (
            f"{one.quantity} {number(one.predicted.change, one.quantity, True)} ±"
            f"{number(one.predicted.uncertainty, one.quantity)} {label(one.quantity)}"
            for one in result.analysis.differences
            if one.predicted
        )
        return f"The sheet predicted: {', '.join(told)}."

    def _more(self, result):
        """What to suspect, the outliers with the figures without them, and what was taken for granted."""
        analysis = result.analysis
        blocks = [
            ("What to suspect", sentences(analysis.suspicions, self.family) or [self._nothing(analysis)]),
            ("Outliers: shown, and kept", [*outlier_sentences(analysis), *self._without(analysis)]),
            ("Taken for granted", taken_for_granted(analysis)),
        ]
        said = "".join(f"<em>{escape(title)}</em>{listed(lines)}" for title, lines in blocks if lines)
        return f"{said}<p>{escape(NOTE)}</p>"

    def _nothing(self, analysis):
        seen = all(one.verdict == SEEN for one in analysis.differences)
        return "Nothing: both gradients moved as predicted." if seen else "Nothing that these runs point at."

    def _without(self, analysis):
        return [
            f"Without them the {one.quantity} changes by "
            f"{pair(one.value, one.half_width, one.quantity, True)} "
            f"{label(one.quantity)}: {one.verdict}."
            for one in analysis.without_outliers
            if any(odd.quantity == one.quantity for found in analysis.outliers.values() for odd in found)
        ]
