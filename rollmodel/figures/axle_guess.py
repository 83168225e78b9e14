"""The learner's predicted force at the left wheel, beside the axle seen from behind."""

from rollmodel.figures import marks
from rollmodel.figures.axle_behind import SIDES, VALUES_AT, WHEEL_AT, AxleScene
from rollmodel.units import show

BESIDE = SIDES[0] * (WHEEL_AT + 3.4)  # left of the left wheel, clear of its own arrow


def add(drawing: marks.Drawing, scene: AxleScene) -> None:
    """Make the arrow and its words on an axle's picture, hidden; the scale is that of the other arrows."""
    drawing.fixed["top force"] = scene.top_force
    drawing.parts["guess"] = marks.arrow(drawing.ax, drawing.look, "guess", thickness=1.4)
    drawing.parts["guess word"] = marks.words(drawing.ax, drawing.look, BESIDE, VALUES_AT, role="guess")
    mark(drawing, None)


def mark(drawing: marks.Drawing, force: float | None) -> None:
    """Show a predicted force at the left wheel, upwards positive, [N]; None hides it."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(force is not None)
    if force is None:
        return
    high = drawing.fixed["ground"] - 0.6
    low = high - drawing.fixed["arrow"] * abs(force) / drawing.fixed["top force"]
    marks.point(
        drawing["guess"], *((BESIDE, y) for y in ((low, high) if force > 0 else (high, low))), smallest=0.05
    )
    marks.say(drawing["guess word"], f"your guess\n{show(force, 'load', drawing.family)}")
