"""The axle seen from behind: body, wheels, springs, and the anti-roll bar whose arms part in roll.

Two uses: wheels moved by hand under a body that stays level (lesson 1), and the axle in a settled
left-hand corner with the loads on its two tyres (lesson 5).
"""

from __future__ import annotations

import numpy as np

from rollmodel.figures import marks
from rollmodel.figures.axle_scene import AxleScene, by_travel, in_corner
from rollmodel.figures.axle_words import bar_words, describe, roll_words, side_words, title, value_words

__all__ = ["AxleScene", "by_travel", "describe", "draw", "in_corner", "update"]

# Where things lie, in sheet units from the middle of the axle and from the ground.
SIDES = (-1, 1)
CORNER_GROUND, PLATE_GROUND, VALUES_AT = 5.4, 7.6, 1.9
WHEEL_AT, WHEEL_WIDE, WHEEL_HIGH, HUB = 12.0, 2.8, 8.0, 3.6
ARM_AT = WHEEL_AT - WHEEL_WIDE / 2
PIVOT, SPRING_AT, SEAT = (4.0, 3.4), 8.3, 8.2
BODY = np.array([(-5, 3), (-5, 8.2), (-9.3, 8.2), (-9.3, 9.8), (-7.4, 12.8)])
BODY = np.vstack([BODY, BODY[::-1] * (-1, 1)])
BODY_ABOUT = (0.0, 3.4)
HEAD, LEAST_HEAD = 0.8, 0.6  # length of a whole arrow head, and the part of it that still reads as one
BAR_HALF, BAR_HIGH, LINK_AT, LINK_LONG = 5.2, 4.6, 6.5, 1.8


def draw(ax_or_figure, scene: AxleScene, look, family="metric") -> marks.Drawing:
    """Lay out the axle; scale of the drawing and enlargement belong to the scene and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.sheet(ax)
    ground = drawing.fixed["ground"] = CORNER_GROUND if scene.on_ground else PLATE_GROUND
    drawing.fixed["arrow"] = (ground - 1.2) / (1.0 if scene.on_ground else 1.6)
    parts["plates"] = [marks.face(ax, look, marks.METAL, zorder=2) for _ in range(2)]
    parts["wheels"] = [marks.face(ax, look, thickness=0.8, zorder=3) for _ in range(2)]
    parts["treads"] = [marks.stroke(ax, look, thickness=0.3, zorder=3.1) for _ in range(2)]
    parts["body"] = marks.face(ax, look, marks.SURFACE, 0.8, zorder=2.5)
    parts["arms"] = [marks.stroke(ax, look, zorder=3.4) for _ in range(2)]
    parts["springs"] = [marks.stroke(ax, look, "plain", 0.8, zorder=3.3) for _ in range(2)]
    parts["bar"] = marks.stroke(ax, look, "bar", 3.2, linestyle="solid", zorder=4, solid_joinstyle="round")
    parts["links"] = [marks.stroke(ax, look, thickness=0.6, marker="o", markersize=look.line_width * 1.6,
                                   zorder=4.1) for _ in range(2)]
    parts["forces"] = [marks.arrow(ax, look, thickness=1.4) for _ in range(2)]
    parts["words"] = [marks.words(ax, look, ha=side) for side in ("right", "left")]
    parts["values"] = [marks.words(ax, look, ha=side) for side in ("left", "right")]
    parts["title"] = marks.words(ax, look, 0, ax.get_ylim()[1] - 1)
    parts["roll"] = marks.words(ax, look, ground=marks.SURFACE)
    parts["bar word"] = marks.words(ax, look, role="bar")
    update(drawing, scene)
    return drawing


def update(drawing: marks.Drawing, scene: AxleScene) -> None:
    """Move everything to another state of the same axle."""
    enlarge = scene.factor * 2 * WHEEL_AT / scene.track
    lean = scene.factor * scene.roll
    ground = drawing.fixed["ground"]

    def body(points):
        """Points of the body, given standing upright above the ground, after it has leant right."""
        return marks.turned(points, -lean, BODY_ABOUT) + (0, ground)

    drawing["body"].set_xy(body(BODY))
    feet = [_wheel(drawing, scene, n, ground, enlarge * scene.travel[n]) for n in range(2)]
    for n, foot in enumerate(feet):
        _suspend(drawing, n, foot, body)
        _force(drawing, scene, n)
    _bar(drawing, scene, feet, body)
    marks.say(drawing["title"], title(scene, drawing.family))
    marks.say(drawing["roll"], roll_words(scene, drawing.family), *body([(0, 10.4)])[0])


def _wheel(drawing, scene, n, ground, up):
    """One wheel at its height; returns where its arm meets it."""
    side = SIDES[n]
    corners = marks.box(side * WHEEL_AT, ground + up + WHEEL_HIGH / 2, WHEEL_WIDE, WHEEL_HIGH)
    drawing["wheels"][n].set_xy(corners)
    grooves = corners[0, 0] + WHEEL_WIDE * np.repeat([0.25, 0.5, 0.75], 3)
    drawing["treads"][n].set_data(grooves, np.tile([corners[0, 1], corners[2, 1], np.nan], 3))
    plate = 0.0 if scene.on_ground else up
    drawing["plates"][n].set_xy(marks.box(side * WHEEL_AT, ground + plate - 0.25, 2 * WHEEL_WIDE, 0.5))
    return np.array([side * ARM_AT, ground + up + HUB])


def _on_arm(n, foot, body, x):
    """The point of a suspension arm at a distance from the middle of the axle."""
    inner = body([(SIDES[n] * PIVOT[0], PIVOT[1])])[0]
    return inner + (foot - inner) * (x - PIVOT[0]) / (ARM_AT - PIVOT[0])


def _suspend(drawing, n, foot, body):
    """The suspension arm and the spring that stands on it."""
    drawing["arms"][n].set_data(*np.transpose([_on_arm(n, foot, body, PIVOT[0]), foot]))
    seat = body([(SIDES[n] * SPRING_AT, SEAT)])[0]
    drawing["springs"][n].set_data(*marks.coil(_on_arm(n, foot, body, SPRING_AT), seat, 1.8).T)


def _bar(drawing, scene, feet, body):
    """The bar on the body, its arms coming towards the reader, each tip hung from its suspension arm."""
    ends = body([(side * BAR_HALF, BAR_HIGH) for side in SIDES])
    hooks = [_on_arm(n, foot, body, LINK_AT) for n, foot in enumerate(feet)]
    tips = [hook - (0, LINK_LONG) for hook in hooks]
    drawing["bar"].set_data(*np.transpose([tips[0], *ends, tips[1]]))
    for mark, tip, hook in zip(drawing["links"], tips, hooks, strict=True):
        mark.set_data(*np.transpose([tip, hook]))
    there = scene.bar_apart is not None
    for mark in (drawing["bar"], *drawing["links"]):
        mark.set_visible(there)
    marks.say(drawing["bar word"], bar_words(scene, drawing.family, "\n"), 0, drawing.fixed["ground"] + 0.6)


def _force(drawing, scene, n):
    """The arrow under a plate and the words beside it."""
    side, plate = SIDES[n], drawing["plates"][n].get_xy()[0, 1]
    long = drawing.fixed["arrow"] * abs(scene.force[n]) / scene.top_force
    high, low = plate - 0.1, plate - 0.1 - long
    # A head longer than its arrow would reach back over the plate.
    drawing["forces"][n].set_mutation_scale(drawing.look.font_size * np.clip(long / HEAD, LEAST_HEAD, 1.0))
    tail, tip = (low, high) if scene.force[n] > 0 else (high, low)
    marks.point(drawing["forces"][n], (side * WHEEL_AT, tail), (side * WHEEL_AT, tip), smallest=0.03)
    marks.say(drawing["values"][n], value_words(scene, n, drawing.family), side * (WHEEL_AT - 1.2),
              VALUES_AT)
    marks.say(drawing["words"][n], side_words(scene, n, drawing.family),
              side * (WHEEL_AT + WHEEL_WIDE / 2 + 0.8), plate + 0.5 + WHEEL_HIGH / 2)
