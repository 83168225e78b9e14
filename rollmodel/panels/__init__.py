"""Panels for the lessons: controls, one persistent picture, the same in words. Widgets only.

No equation and no file reading here: a panel asks the model (``physics``), the pictures
(``figures``) and the question bank (``questions``).

A lesson
--------
First code cell of a notebook::

    from rollmodel.panels import start
    lesson = start("01")                     # or start("01", car="hatch"), or start("01", "my-car.toml")

It shows the switches for units, car and projector, which reach every panel and text made with
``lesson``. ``lesson.car``, ``lesson.family``, ``lesson.look`` and ``lesson.show(value, kind)`` are
there for the other cells. Each of these is the last line of its cell::

    Recall(lesson)                           # three questions from earlier lessons
    AxlePanel(lesson)                        # from rollmodel.panels.lessons.lesson_01
    ClassQuestion(lesson)                    # with its twin and the helper that counts hands
    Exercise(lesson, "bar-roll-rate")        # one question of the bank by its id, with an answer box
    lesson.say(lambda l: f"The car has {l.show(l.car.mass, 'mass')}.")     # prose that follows the switches
    lesson.take_away(lambda l: ["The bar works only on the difference.", ...])    # at most five lines

A panel
-------
A complete one. ``compute`` gives the model SI and gets the result; ``draw`` makes every artist once;
``update`` sets data on those artists; ``describe`` says the conclusion and the key numbers. ::

    from dataclasses import replace

    from rollmodel.panels import Hole, Panel, Prediction, Slider
    from rollmodel.physics.stiffness import axle_stiffness
    from rollmodel.units import show, to_display

    class RollStiffnessPanel(Panel):
        name = "roll-stiffness"                   # unique in the lesson: values are remembered by it
        title = "What each hole does to the front axle's roll stiffness"
        low, high = {"hole": 1}, {"hole": 3}      # the outer pictures of the stored strip
        presets = {"Softest": {"hole": 1}}        # buttons; "Reset" is always there

        def controls(self):                       # self.car, self.family, self.look follow the lesson
            return [Hole.of("hole", "Front hole", self.car.front.bar),
                    Slider("spring", "Front spring rate", "rate", 20e3, 120e3, self.car.front.spring_rate)]

        def compute(self, values):                # SI in: values.spring is N/m; errors become one line
            return axle_stiffness(replace(self.car.front, spring_rate=values.spring), values.hole)

        def draw(self, figure, result):           # no pyplot; return all artists that will move
            axes = figure.add_axes((0.3, 0.2, 0.65, 0.7))
            axes.set_xlim(0, 2000)
            shades = [self.look.colours[role] for role in ("plain", "bar")]
            bars = axes.barh(["springs", "bar"], [0, 0], color=shades)
            mark = axes.axvline(0, visible=False, color=self.look.colours["guess"], linestyle=":")
            return {"bars": list(bars), "mark": mark}

        def update(self, artists, result):        # never make an artist here
            for bar, value in zip(artists["bars"], (result.spring_roll, result.bar_roll)):
                bar.set_width(to_display(value, "roll stiffness", self.family))

        def describe(self, result):
            share = result.bar_roll / result.suspension_roll
            whole = show(result.suspension_roll, "roll stiffness", self.family)
            return f"The bar gives {show(share, 'share')} of the axle's roll stiffness of {whole}."

        def prediction(self):                     # optional: locks the controls until committed or skipped
            return Prediction(
                question="The link moves from hole 1 to hole 3. What does the bar's roll stiffness do?",
                noun="bar's roll stiffness", kind="roll stiffness", quantity=lambda r: r.bar_roll,
                before={"hole": 1}, after={"hole": 3}, same=100.0)

        def mark(self, artists, guess):           # guess: where the prediction puts the quantity, SI, or None
            artists["mark"].set_visible(guess is not None)
            artists["mark"].set_xdata([to_display(guess or 0.0, "roll stiffness", self.family)] * 2)

Rules that keep it quick and true
---------------------------------
* Everything that may change is returned by ``draw``; the rest is a background that is painted once.
  Changing limits or labels in ``update`` works and is seen, but paints everything, which takes about
  twice as long. Moving artists are painted last: give them a zorder above the axes.
* Fix the axes' limits from the controls' ranges and the car, so that they stay while controls move.
* Units: give ``self.family`` to ``show`` and ``to_display``. When the family, the look or the car
  changes, the figure is cleared and ``draw`` is called again; nothing else is needed.
* A control's text is its accessible name: unique in the panel, with no unit in it.
* A panel that needs more asks for it: ``size`` of the picture, widgets ``below`` it, words ``after`` it.
* While a prediction is wanted nothing may answer it: give ``describe_now`` words of the present state
  alone, and let ``withhold`` take out of the picture what shows the answer. A commitment is kept per car.
* Whatever ``compute``, ``draw`` or ``describe`` raise becomes one line in the panel, and the picture is
  dimmed and says what it still shows. Raise ``ValueError`` with a plain sentence.

What a reader sees
------------------
A cell with a panel has two outputs: the live one, and the stored picture, strip and words, which the
live one hides. A notebook that is not running, and every export, shows the stored one. Cells run one
at a time lock a panel until its prediction is committed or skipped; in Run All, in an export and in a
test the controls are open and the card says "Not committed" (``pace``).

Tests
-----
``check_panel(MyPanel(lesson))`` from ``tests/panels/panel_checks.py`` moves every control to its ends in
both families and looks at pictures, words, names, stored output, prediction and memory. Name in
``quiet`` the controls that change nothing at the start values; say ``moves_limits=True`` when the axes
follow the data. How long a key press takes: ``python -m tests.bench.panel_latency module:Panel``.
"""

from rollmodel.panels.asking import Exercise, Recall
from rollmodel.panels.classroom import ClassQuestion
from rollmodel.panels.controls import Choice, Hole, Slider, Switch
from rollmodel.panels.header import start
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction

__all__ = [
    "Choice",
    "ClassQuestion",
    "Exercise",
    "Hole",
    "Lesson",
    "Panel",
    "Prediction",
    "Recall",
    "Slider",
    "Switch",
    "start",
]
