"""The car from above in a left-hand corner: four contact patches sized by the load they carry."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.adding_up import shown_apart, wheel_loads
from rollmodel.car import Car
from rollmodel.figures import guess, marks
from rollmodel.physics.corner import SettledCorner, settled_corner
from rollmodel.physics.stiffness import AxleStiffness
from rollmodel.units import show

ENDS = ("front", "rear")
G = "lateral acceleration"


@dataclass(frozen=True)
class CarScene:
    """Loads on the four tyres. Pairs are front and rear."""

    lateral_acceleration: float  # m/s^2
    inside: tuple[float, float]  # N
    outside: tuple[float, float]  # N
    transfer: tuple[float, float]  # from inside to outside wheel, N
    lifted: tuple[bool, bool]  # the inside wheel
    front_share: float | None  # of the overturning moment; None when there is none
    rolls_over: bool = False
    asked: float | None = None  # more than the car can hold, where that was asked for: drawn at less, m/s^2

    def load(self, n: int, out: bool) -> float:
        return (self.outside if out else self.inside)[n]

    def shown(self, n: int, family: str) -> tuple[float, float, float]:
        """Inside, outside and what moves between them at one end, rounded so that they add up, [N]."""
        return wheel_loads(self.inside[n], self.outside[n], family)


def in_corner(car: Car, lateral_acceleration: float, front: AxleStiffness | None = None,
              rear: AxleStiffness | None = None) -> CarScene:
    """The car in a settled left-hand corner; lateral acceleration in [m/s^2], single setups."""
    return of_corner(settled_corner(car, lateral_acceleration, front, rear))


def of_corner(corner: SettledCorner) -> CarScene:
    """The car in a corner that is worked out already; single numbers."""
    ends, at = [corner.axle(end) for end in ENDS], float(corner.lateral_acceleration)
    return CarScene(at, *(tuple(float(getattr(axle, name)) for axle in ends)
                          for name in ("inside", "outside", "load_transfer")),
                    tuple(bool(axle.lifted) for axle in ends), float(corner.front_share) if at else None,
                    bool(corner.rolls_over))


# Sheet units; the car's nose points right, its left (inside) wheels lie on top.
MIDDLE, AXLES, WHEELS = 10.6, (9.0, -9.0), 4.9
PATCH_WIDE, PATCH_LONG = 1.8, 3.4  # across the tread; along it, at the axle's mean load
EVEN_WIDE = PATCH_WIDE + 0.5  # the dashed outline
VALUES = WHEELS + EVEN_WIDE / 2 + 0.4  # where the words begin, clear of the outline
LONGEST_ARROW = 6.2
CROWDED = 1.35  # type size from which there is room for the numbers alone
BODY = [(12.4, 1.6), (11.2, 2.9), (4.5, 3.3), (-4.5, 3.5), (-11.6, 3.3), (-12.4, 2.4)]
BODY = np.array(BODY + [(x, -y) for x, y in BODY[::-1]]) + (0, MIDDLE)


def draw(ax_or_figure, scene: CarScene, look, family="metric") -> marks.Drawing:
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.sheet(ax)
    drawing.fixed["brief"] = marks.across(ax, look.font_size) > CROWDED
    marks.face(ax, look, marks.SURFACE, 0.5, zorder=1).set_xy(BODY)
    for x, end in zip((16.2, -15.6), ENDS, strict=True):
        marks.words(ax, look, x, MIDDLE, end, role=end)
    marks.words(ax, look, 16.2, MIDDLE - 5.6, "dashed:\nno load\nmoved", small=True)
    turn = marks.arrow(ax, look, thickness=1.2, connectionstyle="arc3,rad=0.35")
    marks.point(turn, (14.2, MIDDLE + 1.6), (16.6, MIDDLE + 5.6))
    wheels = [(n, out) for n in range(2) for out in (False, True)]
    parts["patches"] = [marks.face(ax, look, look.colours[ENDS[n]], 0.5, zorder=4) for n, _ in wheels]
    dashes = {"thickness": 0.5, "linestyle": (0, (2, 1.5)), "zorder": 4.5}
    parts["even"] = [marks.stroke(ax, look, **dashes) for _ in wheels]
    parts["values"] = [marks.words(ax, look, AXLES[n], MIDDLE + _side(out) * VALUES,
                                   va="top" if out else "bottom") for n, out in wheels]
    parts["across"] = [marks.arrow(ax, look, end, 1.4) for end in ENDS]
    parts["moved"] = [marks.words(ax, look, AXLES[n] - side * 0.9, MIDDLE, ha=align, ground=None)
                      for n, side, align in ((0, 1, "right"), (1, -1, "left"))]
    parts["title"] = marks.words(ax, look, 0, ax.get_ylim()[1] - 1)
    parts["guess"] = marks.stroke(ax, look, "guess", zorder=5, visible=False)
    parts["guess word"] = marks.words(ax, look, role="guess", text="your guess", visible=False, small=True)
    update(drawing, scene)
    return drawing


def _side(out):
    return -1 if out else 1


def update(drawing: marks.Drawing, scene: CarScene) -> None:
    """Move everything to other loads."""
    for n in range(2):
        for out in (False, True):
            _patch(drawing, scene, n, out)
        long = LONGEST_ARROW * scene.transfer[n] / _mean(scene, n)
        marks.point(drawing["across"][n], (AXLES[n], MIDDLE + long / 2), (AXLES[n], MIDDLE - long / 2), 0.05)
        marks.say(drawing["moved"][n], _moved(drawing, scene.shown(n, drawing.family)[2]))
    weight = "normal" if scene.asked is None else "bold"
    marks.say(drawing["title"], _title(scene, drawing.family), fontweight=weight)


def _moved(drawing, transfer):
    words = f"{show(transfer, 'load', drawing.family)}\nmoves out" if transfer > 0.5 else "none\nmoves"
    return words.split("\n")[0] if drawing.fixed["brief"] else words


def _mean(scene, n):
    return (scene.inside[n] + scene.outside[n]) / 2


def _patch(drawing, scene, n, out):
    """One contact patch, the outline of an even share around it, and the load beside it."""
    which, load = 2 * n + out, scene.load(n, out)
    x, y = AXLES[n], MIDDLE + _side(out) * WHEELS
    up = scene.lifted[n] and not out
    long = PATCH_LONG * (1 if up else load / _mean(scene, n))
    drawing["patches"][which].set_xy(marks.box(x, y, long, PATCH_WIDE))
    drawing["patches"][which].set_fill(not up)
    outline = marks.box(x, y, PATCH_LONG, EVEN_WIDE)
    drawing["even"][which].set_data(*np.vstack([outline, outline[:1]]).T)
    place = "outside" if out else "inside"
    shown = scene.shown(n, drawing.family)[int(out)]
    value = "0, off the ground" if up else show(shown, "load", drawing.family)
    marks.say(drawing["values"][which], f"{value}\n{place}" if out else f"{place}\n{value}")


def _title(scene, family):
    if scene.asked is not None:
        asked, drawn, _ = shown_apart(scene.asked, scene.lateral_acceleration, G, family)
        return f"It cannot hold {asked}: drawn at {drawn}"
    speed = show(scene.lateral_acceleration, G, family, 2)
    return f"From above, turning left at {speed}" + (": the car rolls over" if scene.rolls_over else "")


def mark(drawing: marks.Drawing, scene: CarScene, end: str, load: float | None) -> None:
    """Outline the patch of a predicted load on the inside wheel of one end, [N]; None takes it away."""
    for name in ("guess", "guess word"):
        drawing[name].set_visible(load is not None)
    if load is None:
        return
    n = ENDS.index(end)
    where = guess.place(load, (0.0, 2 * _mean(scene, n)))
    x, y, long = AXLES[n], MIDDLE + WHEELS, PATCH_LONG * where.at / _mean(scene, n)
    outline = marks.box(x, y, long, PATCH_WIDE + 1.0)
    drawing["guess"].set_data(*np.vstack([outline, outline[:1]]).T)
    word = drawing["guess word"]
    if where.beyond:
        why = "above the axle's load" if where.way > 0 else "less than nothing"
        words = f"{end} inside: {guess.PLAIN} {show(load, 'load', drawing.family)}, {why}"
        line = marks.up(drawing.ax, 1.3 * drawing.look.font_size)
        marks.say(word, words, 0, drawing.ax.get_ylim()[1] - 1 - line, fontsize=drawing.look.small)
    else:
        beside = x + (5.2 if n else -5.2)
        marks.say(word, guess.PLAIN, beside, y + 0.4, fontsize=drawing.look.font_size)


def describe(scene: CarScene, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    def ends(values):
        texts = [show(value, "load", family) for value in values]
        return f"{texts[0]} at the front and {texts[1]} at the rear"

    opening = _title(scene, family).split(":")[0]
    if scene.front_share is None:
        return f"{opening}: no load moves. Each wheel carries half its axle's load: {ends(scene.outside)}."
    _, outside, moved = zip(*(scene.shown(n, family) for n in range(len(ENDS))), strict=True)
    up = [end for end, lifted in zip(ENDS, scene.lifted, strict=True) if lifted]
    off = ("", f" The inside {' and '.join(up)} wheel is off the ground.",
           " Both inside wheels are off the ground.")[len(up)]
    over = " The car rolls over." if scene.rolls_over else ""
    return (f"{opening}: {ends(moved)} move from the inside to the outside wheel, the front takes "
            f"{show(scene.front_share, 'share', family)} of the overturning moment. "
            f"Outside wheels carry {ends(outside)}.{off}{over}")
