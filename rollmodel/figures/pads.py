"""The standing car from above on four scale pads: what each shows, and both diagonals."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rollmodel.car import GRAVITY, Car
from rollmodel.figures import marks
from rollmodel.physics.preload import loads_with_preload
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.testday.readings import Readings
from rollmodel.units import show

CORNERS = ("front_left", "front_right", "rear_left", "rear_right")
DIAGONALS = (("front_left", "rear_right"), ("front_right", "rear_left"))
PLACES = {  # the car's nose points right, its left lies on top
    "front_left": (9.5, 16.4),
    "front_right": (9.5, 4.4),
    "rear_left": (-9.5, 16.4),
    "rear_right": (-9.5, 4.4),
}
MIDDLE, PAD = 10.4, 4.4
BODY = [(12.9, 1.4), (11.6, 3.0), (4.5, 3.4), (-4.5, 3.6), (-12.0, 3.4), (-12.9, 2.4)]
BODY = np.array(BODY + [(x, -y) for x, y in BODY[::-1]]) + (0, MIDDLE)
LONGEST, FULL = 3.4, 0.012  # of an arrow; part of the car's mass that it stands for
SAME = 0.5  # kg: a smaller difference does not show on a scale


@dataclass(frozen=True)
class Scene:
    """What four pads show. Masses as scales give them, [kg], by `CORNERS`."""

    now: tuple[float, ...]
    fits: tuple[float, ...] | None  # with links that fit; None where nothing is compared
    links: str = ""  # in words, which link is off

    def diagonal(self, which: int) -> float:
        """Both corners of a diagonal together, [kg]."""
        return sum(self.now[CORNERS.index(corner)] for corner in DIAGONALS[which])

    @property
    def gain(self) -> float:
        """What front left and rear right together gain over links that fit, [kg]."""
        return 0.0 if self.fits is None else self.diagonal(0) - Scene(self.fits, None).diagonal(0)

    @property
    def whole(self) -> float:
        """The car, [kg]."""
        return sum(self.now)


def with_links(
    car: Car, differences: dict[str, float], holes: dict[str, int | None], words: str = ""
) -> Scene:
    """The car with links that are off by so much.

    Parameters
    ----------
    car : Car
    differences : dict of str to float
        Left link less right link beyond what fits, by end, [m].
    holes : dict of str to int or None
        In use, by end.
    words : str, optional
    """
    stiff = [axle_stiffness(car.axle(end), holes.get(end)) for end in ("front", "rear")]
    off = [differences.get(end, 0.0) for end in ("front", "rear")]
    found = (loads_with_preload(car, *pair, *stiff) for pair in (off, (0.0, 0.0)))
    now, fits = (tuple(float(one.by_wheel[name]) / GRAVITY for name in one.by_wheel) for one in found)
    return Scene(now, fits, words)


def of_readings(readings: Readings) -> Scene | None:
    """The mean of the readings on each pad; None where there are none."""
    table = readings.of("corner_weights")
    return table and Scene(tuple(float(np.mean(table[corner])) for corner in CORNERS), None)


def draw(ax_or_figure, scene: Scene | None, look, family="metric") -> marks.Drawing:
    """Car, pads and diagonals; the car alone where there are no readings."""
    drawing = marks.start(ax_or_figure, look, family)
    ax = drawing.ax
    marks.sheet(ax)
    marks.face(ax, look, marks.SURFACE, 0.5, zorder=1).set_xy(BODY)
    marks.words(ax, look, 16.0, MIDDLE, "front", role="front")
    marks.words(ax, look, -16.0, MIDDLE, "rear", role="rear")
    if scene is None:
        marks.words(ax, look, 0, MIDDLE, "no readings yet", ground=None)
        return drawing
    _parts(drawing)
    update(drawing, scene)
    return drawing


def _parts(drawing):
    """Everything that moves."""
    ax, look, parts = drawing.ax, drawing.look, drawing.parts
    for which, (one, other) in enumerate(DIAGONALS):
        parts[f"diagonal {which}"] = marks.stroke(
            ax,
            look,
            "bar" if which == 0 else "plain",
            x=[PLACES[one][0], PLACES[other][0]],
            y=[PLACES[one][1], PLACES[other][1]],
            zorder=2,
            linestyle="-" if which == 0 else (0, (4, 2)),
        )
    parts["pads"] = [marks.face(ax, look, marks.PAPER, 0.6, zorder=3) for _ in CORNERS]
    parts["even"] = [
        marks.stroke(ax, look, thickness=0.5, linestyle=(0, (2, 1.5)), zorder=3.5) for _ in CORNERS
    ]
    parts["moves"] = [marks.arrow(ax, look, thickness=1.3) for _ in CORNERS]
    parts["values"] = [
        marks.words(
            ax,
            look,
            PLACES[corner][0] + (3.2 if "front" in corner else -3.2),
            PLACES[corner][1],
            ha="left" if "front" in corner else "right",
        )
        for corner in CORNERS
    ]
    parts["sums"] = [
        marks.words(ax, look, 0, MIDDLE + up * 1.3, role=role) for up, role in ((1, "bar"), (-1, "plain"))
    ]
    parts["title"] = marks.words(ax, look, 0, ax.get_ylim()[1] - 1.2)
    parts["guess"] = marks.words(ax, look, 0, 1.2, role="guess", visible=False)


def update(drawing: marks.Drawing, scene: Scene) -> None:
    """Other readings on the pads."""
    mean = scene.whole / 4
    for n, corner in enumerate(CORNERS):
        x, y = PLACES[corner]
        side = PAD * np.sqrt(max(scene.now[n], 0.0) / mean)
        role = "front" if "front" in corner else "rear"
        drawing["pads"][n].set_xy(marks.box(x, y, side, side))
        drawing["pads"][n].set_facecolor(marks.tint(drawing.look.colours[role], 0.35))
        drawing["even"][n].set_visible(scene.fits is not None)
        if scene.fits is not None:
            edge = PAD * np.sqrt(scene.fits[n] / mean)
            outline = marks.box(x, y, edge, edge)
            drawing["even"][n].set_data(*np.vstack([outline, outline[:1]]).T)
        long = LONGEST * np.clip(_change(scene, n) / (FULL * scene.whole), -1, 1)
        marks.point(drawing["moves"][n], (x, y - long / 2), (x, y + long / 2), 0.25)
        marks.say(drawing["values"][n], _value(scene, n, drawing.family))
    for which in (0, 1):
        share = scene.diagonal(which) / scene.whole
        words = f"{show(scene.diagonal(which), 'mass', drawing.family)}, {show(share, 'share')}"
        marks.say(drawing["sums"][which], words)
        drawing[f"diagonal {which}"].set_linewidth(drawing.look.line_width * (0.5 + 8 * max(share - 0.44, 0)))
    marks.say(drawing["title"], _title(scene))


def _change(scene, n):
    """What a pad gains over links that fit, [kg]."""
    return 0.0 if scene.fits is None else scene.now[n] - scene.fits[n]


def _value(scene, n, family):
    if scene.now[n] <= 0:
        return "0\noff its pad"
    value = show(scene.now[n], "mass", family)
    if scene.fits is None:
        return value
    change = _change(scene, n)
    return f"{value}\n({signed(change, family)})" if abs(change) >= SAME else value


def signed(mass: float, family: str) -> str:
    """A mass with its sign, "+4 kg"."""
    text = show(abs(mass), "mass", family)
    return text if text.startswith("0 ") else f"{'+' if mass > 0 else '-'}{text}"


def _title(scene):
    if scene.fits is None:
        return "Four pads: mean of the readings"
    return f"On four pads, {scene.links}" if scene.links else "On four pads, the links fit: no preload"


def mark(drawing: marks.Drawing, corner: str, mass: float | None) -> None:
    """Write a predicted reading of a pad beside it, [kg]; None takes it away."""
    drawing["guess"].set_visible(mass is not None)
    if mass is not None:
        x, y = PLACES[corner]
        marks.say(drawing["guess"], f"your guess: {show(mass, 'mass', drawing.family)}", x, y + 3.4)


def describe(scene: Scene | None, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    if scene is None:
        return "The car on four pads: no readings yet, 0 of 4 pads."
    named = ", ".join(
        f"{corner.replace('_', ' ')} {show(mass, 'mass', family)}"
        for corner, mass in zip(CORNERS, scene.now, strict=True)
    )
    diagonal = (
        f"Front left and rear right carry {show(scene.diagonal(0), 'mass', family)} together, "
        f"{show(scene.diagonal(0) / scene.whole, 'share')} of the car."
    )
    up = [corner.replace("_", " ") for corner, mass in zip(CORNERS, scene.now, strict=True) if mass <= 0]
    lifted = f" The {' and '.join(up)} wheel is off its pad." if up else ""
    return f"{_title(scene)}. The pads show {named}. {diagonal}{lifted}"
