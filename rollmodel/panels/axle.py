"""Lesson 1: the axle on two lifting plates, and what its bar does in each way of moving."""

from dataclasses import replace

from rollmodel.figures import axle_behind, axle_guess
from rollmodel.panels.controls import Slider
from rollmodel.panels.panel import Panel
from rollmodel.panels.predicting import Prediction
from rollmodel.physics.stiffness import axle_stiffness, axle_stiffness_for
from rollmodel.units import show

LARGEST = 0.05  # wheel travel at the ends of the sliders, m
UP = 0.03


class AxlePanel(Panel):
    """Both wheels of the front axle moved by hand, the body held level."""

    name = "axle"
    title = "The front axle from behind, on two lifting plates"
    low, high = {"right": UP}, {"right": -UP}
    presets = {"Both up": {"left": UP, "right": UP}, "Opposite ways": {"left": UP, "right": -UP},
               "Left one alone": {"left": UP, "right": 0.0}}

    def controls(self):
        stiff = axle_stiffness(self.car.front)
        return [
            Slider("left", "Left wheel travel", "length", -LARGEST, LARGEST, UP, steps=(1, 0.05)),
            Slider("right", "Right wheel travel", "length", -LARGEST, LARGEST, 0.0, steps=(1, 0.05)),
            Slider("spring", "Spring rate at the wheel", "rate", 10e3, 80e3, float(stiff.spring_wheel_rate)),
            Slider("bar", "Bar rate at the wheel, other wheel held", "rate", 0.0, 60e3,
                   float(stiff.bar_wheel_rate)),
        ]

    def compute(self, values):
        stiff = replace(axle_stiffness_for(self.car.front, 2 * values.bar), spring_wheel_rate=values.spring)
        return axle_behind.by_travel(self.car.front, values.left, values.right, stiff, LARGEST)

    def draw(self, figure, result):
        drawing = axle_behind.draw(figure, result, self.look, self.family)
        axle_guess.add(drawing, result)
        return drawing

    def update(self, artists, result):
        axle_behind.update(artists, result)

    def describe(self, result):
        return axle_behind.describe(result, self.family)

    def prediction(self):
        up = show(UP, "length", self.family)
        return Prediction(
            question=f"The left wheel is up by {up}, the right one is level. Then the right wheel goes up by "
                     f"{up} too. What does the force at the left wheel do?",
            noun="force at the left wheel", kind="load", quantity=lambda scene: scene.force[0],
            before={"left": UP, "right": 0.0}, after={"left": UP, "right": UP}, same=20.0)

    def mark(self, artists, guess):
        axle_guess.mark(artists, guess)
