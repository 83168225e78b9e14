"""The learner's predicted force at the left wheel, beside the axle seen from behind."""

from rollmodel.figures import guess, marks
from rollmodel.figures.axle_behind import SIDES, VALUES_AT, WHEEL_AT, AxleScene
from rollmodel.units import show

BESIDE = SIDES[0] * (WHEEL_AT + 3.4)  # left of the left wheel, clear of its own arrow


def add(drawing: marks.Drawing, scene: AxleScene) -> None:
    """Make the arrow and its words on an axle's picture, hidden; the scale is that of the other arrows."""
    drawing.fixed["top force"] = scene.top_force
    drawing.parts["guess"] = marks.arrow(drawing.ax, drawing.look, "guess", thickness=1.4)
    drawing.parts["guess word"] = marks.words(drawing.ax, drawing.look, BESIDE, VALUES_AT, role="guess")
    drawing.parts["guess beyond"] = marks.words(drawing.ax, drawing.look, BESIDE - 0.8, role="guess",
                                                small=True, text="off the\nscale", ha="right")
    mark(drawing, None)


def mark(drawing: marks.Drawing, force: float | None) -> None:
    """Show a predicted force at the left wheel, upwards positive, [N]; None hides it."""
    for name in ("guess", "guess word", "guess beyond"):
        drawing[name].set_visible(force is not None)
    if force is None:
        return
    longest = drawing.fixed["top force"]
    where = guess.place(force, (-longest, longest))
    high = drawing.fixed["ground"] - 0.6
    low = high - drawing.fixed["arrow"] * abs(where.at) / longest
    if where.beyond:
        low = max(low, VALUES_AT + 1.8)  # clear of the words, which say how much it is
    marks.point(
        drawing["guess"], *((BESIDE, y) for y in ((low, high) if force > 0 else (high, low))), smallest=0.05
    )
    marks.say(drawing["guess word"], f"{guess.PLAIN}\n{show(force, 'load', drawing.family)}")
    drawing["guess beyond"].set(visible=where.beyond, y=(low + high) / 2)
