"""The bar from above, drawn to scale, and its sections enlarged: centre, arms, holes, bushings, blades."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from matplotlib.patches import Circle

from rollmodel.car import Bar
from rollmodel.figures import marks
from rollmodel.figures.look import PAPER
from rollmodel.physics.bar import arm_lengths, levers, link_rates_in_roll, link_rates_one_end_held
from rollmodel.units import show


@dataclass(frozen=True)
class BarScene:
    """A bar at one of its holes, and the largest sizes that the sheet must have room for, [m]."""

    bar: Bar
    widest: float  # over both arms
    longest: float  # arm
    thickest: float  # diameter, or width of a blade

    @property
    def lever(self) -> float:
        return float(levers(self.bar)[self.bar.hole - 1])

    @property
    def along(self) -> np.ndarray:
        """Length along the arm to each hole, [m]."""
        return arm_lengths(self.bar)

    @property
    def leans_out(self) -> np.ndarray:
        """How far each hole lies outboard of the end of the centre section, [m]; below nil: inboard."""
        outward = 1 if self.bar.arm_sweep == "outward" else -1
        return outward * np.sqrt(np.maximum(self.along**2 - levers(self.bar) ** 2, 0))


def of_bar(bar: Bar, hole: int | None = None, room: Bar | None = None) -> BarScene:
    """A bar at one hole.

    Parameters
    ----------
    bar : Bar
    hole : int, optional
        Hole or blade angle in use, counted from 1; the bar's own when left out.
    room : Bar, optional
        The largest bar that the sheet must hold; half as thick again as this one when left out.
    """
    bar = replace(bar, hole=hole or bar.hole)
    big = BarScene(room or bar, 0, 0, 0)
    thickest = max(big.bar.outer_diameter, big.bar.blade.width if big.bar.blade else 0)
    return BarScene(bar, big.bar.centre_length + 2 * max(0.0, float(big.leans_out.max())),
                    float(levers(big.bar).max()), thickest * (1 if room else 1.5))


# Sheet units.
PLAN_AT, PLAN_WIDE, PLAN_TOP, PLAN_DEEP = -6.4, 26.0, 18.2, 9.6
SECTION_AT, SECTION_SIZE = 15.2, 6.4


def draw(ax_or_figure, scene: BarScene, look, family="metric") -> marks.Drawing:
    """Lay out plan and sections; both scales are settled by the room this scene asks for and stay."""
    drawing = marks.start(ax_or_figure, look, family)
    ax, parts = drawing.ax, drawing.parts
    marks.sheet(ax)
    plan = min(PLAN_WIDE / scene.widest, PLAN_DEEP / (1.12 * scene.longest))
    drawing.fixed.update(plan=plan, section=SECTION_SIZE / scene.thickest)
    larger = drawing.fixed["section"] / plan
    marks.words(ax, look, 0, ax.get_ylim()[1] - 1,
                f"The bar from above; its section {larger:.0f} times as large")
    parts["arms"] = [marks.face(ax, look, marks.METAL, zorder=3) for _ in range(2)]
    parts["centre"] = marks.face(ax, look, marks.METAL, zorder=3.1)
    parts["axis"] = marks.stroke(ax, look, thickness=0.35, linestyle=(0, (12, 3, 2, 3)), zorder=3.2)
    parts["bushings"] = [marks.face(ax, look, marks.GREY, zorder=3.5) for _ in range(2)]
    parts["holes"] = marks.dots(ax, look, "bar", marker="o", size=2.4, hollow=True, color="black",
                                markeredgecolor="black", markeredgewidth=look.line_width / 2, zorder=4)
    parts["links"] = marks.dots(ax, look, "bar", marker="o", size=3, zorder=4.2)
    for name in ("length", "lever", "spacing"):
        parts[name] = marks.arrow(ax, look, thickness=0.4, style="<|-|>", mutation_scale=0.6 * look.font_size)
        parts[f"{name} word"] = marks.words(ax, look)
    parts["link word"] = marks.words(ax, look, role="bar")
    parts["rates"] = marks.words(ax, look, PLAN_AT - 1.6, 2.6)
    parts["witness"] = marks.stroke(ax, look, thickness=0.3, zorder=2)
    parts["tube"] = [Circle((SECTION_AT, 0), 1, facecolor=fill, edgecolor=marks.INK, zorder=order,
                            linewidth=look.line_width / 2) for order,
                            fill in ((3, marks.METAL), (3.1, PAPER))]
    for circle in parts["tube"]:
        ax.add_patch(circle)
    parts["tube word"] = marks.words(ax, look)
    parts["blade"] = marks.face(ax, look, marks.METAL)
    parts["level"] = marks.stroke(ax, look, thickness=0.35, linestyle=(0, (12, 3, 2, 3)), zorder=2.5)
    parts["blade word"] = marks.words(ax, look)
    update(drawing, scene)
    return drawing


def update(drawing: marks.Drawing, scene: BarScene) -> None:
    """Another bar on the same sheet and scales."""
    _plan(drawing, scene)
    _lengths(drawing, scene)
    _tube(drawing, scene)
    _blade(drawing, scene)
    marks.say(drawing["rates"],
              "At the link: {} one end held\n{} in roll".format(*_rates(scene, drawing.family)))


def _rates(scene, family):
    """At the link, one end held and in roll, as text."""
    return [show(float(rates(scene.bar)[scene.bar.hole - 1]), "rate", family)
            for rates in (link_rates_one_end_held, link_rates_in_roll)]


def _hole_places(drawing, scene, side):
    """Where the holes of one arm lie on the sheet."""
    scale, bar = drawing.fixed["plan"], scene.bar
    out = PLAN_AT + side * scale * (bar.centre_length / 2 + scene.leans_out)
    return np.column_stack([out, PLAN_TOP - scale * levers(bar)])


def _plan(drawing, scene):
    scale, bar = drawing.fixed["plan"], scene.bar
    thick, half = scale * bar.outer_diameter, scale * bar.centre_length / 2
    drawing["centre"].set_xy(marks.box(PLAN_AT, PLAN_TOP, 2 * half + thick, thick))
    drawing["axis"].set_data([PLAN_AT - half - 2 * thick, PLAN_AT + half + 2 * thick], [PLAN_TOP] * 2)
    spacing = scale * (bar.support_spacing or bar.centre_length - 2 * bar.outer_diameter)
    for side, arm, bushing in zip((-1, 1), drawing["arms"], drawing["bushings"], strict=True):
        arm.set_xy(_arm(drawing, scene, side, thick))
        bushing.set_xy(marks.box(PLAN_AT + side * spacing / 2, PLAN_TOP, 1.2 * thick, 1.9 * thick))
    places = [_hole_places(drawing, scene, side) for side in (-1, 1)]
    drawing["holes"].set_data(*np.vstack(places).T)
    drawing["links"].set_data(*np.array([p[bar.hole - 1] for p in places]).T)


def _arm(drawing, scene, side, thick):
    """Outline of one arm, a little longer than to its last hole; a blade as wide as it looks from above."""
    root = np.array([PLAN_AT + side * drawing.fixed["plan"] * scene.bar.centre_length / 2, PLAN_TOP])
    tip = _hole_places(drawing, scene, side)[0]
    along = (tip - root) / np.hypot(*(tip - root))
    across = np.array([-along[1], along[0]]) / 2
    wide = thick if scene.bar.blade is None else drawing.fixed["plan"] * _seen_from_above(scene.bar)
    end = tip + along * thick
    return [root + across * wide, root - across * wide, end - across * wide, end + across * wide]


def _seen_from_above(bar: Bar) -> float:
    """Width of a turned blade as seen from above, [m]."""
    angle = bar.blade.angles[bar.hole - 1]
    return bar.blade.width * np.cos(angle) + bar.blade.thickness * np.sin(angle)


def _lengths(drawing, scene):
    """The three lengths with their arrows: between the arms, axis to link, between the bushings."""
    scale, bar, family = drawing.fixed["plan"], scene.bar, drawing.family
    half, thick = scale * bar.centre_length / 2, scale * bar.outer_diameter
    y = PLAN_TOP + 1.8 + thick / 2
    marks.point(drawing["length"], (PLAN_AT - half, y), (PLAN_AT + half, y))
    marks.say(drawing["length word"], f"{show(bar.centre_length, 'length', family)} between the arms",
              PLAN_AT, y)
    link = _hole_places(drawing, scene, 1)[bar.hole - 1]
    x = PLAN_AT + half - 2.2 - scale * max(0.0, -float(scene.leans_out.min()))
    marks.point(drawing["lever"], (x, PLAN_TOP), (x, link[1]))
    marks.say(drawing["lever word"], f"lever {show(scene.lever, 'length', family)}", x - 0.6,
              (PLAN_TOP + link[1]) / 2 - 1, ha="right")
    word = "link" if bar.blade else f"link in hole {bar.hole} of {bar.positions}"
    marks.say(drawing["link word"], word, x, link[1] - 1.2, ha="right")
    tails = [((PLAN_AT + side * half, PLAN_TOP), (PLAN_AT + side * half, y)) for side in (-1, 1)]
    tails += [((x - 0.5, link[1]), tuple(link)), *_spacing(drawing, scene)]
    drawing["witness"].set_data(*np.transpose([p for tail in tails for p in (*tail, (np.nan, np.nan))]))


def _spacing(drawing, scene):
    """The arrow between the bushings, under the arms; returns the thin lines that lead down to it."""
    bar, scale = scene.bar, drawing.fixed["plan"]
    half, y = scale * (bar.support_spacing or 0) / 2, PLAN_TOP - 1.12 * scale * scene.longest - 2.8
    drawing["spacing word"].set_visible(half > 0)
    marks.point(drawing["spacing"], (PLAN_AT - half, y), (PLAN_AT + half, y), 0.01)
    if not half:
        return []
    marks.say(drawing["spacing word"], f"bushings {show(bar.support_spacing, 'length', drawing.family)}",
              PLAN_AT, y)
    return [((PLAN_AT + side * half, PLAN_TOP), (PLAN_AT + side * half, y)) for side in (-1, 1)]


def _tube(drawing, scene):
    bar, family = scene.bar, drawing.family
    y = 17.2 if bar.blade else 14.0
    for circle, size in zip(drawing["tube"], (bar.outer_diameter, bar.inner_diameter), strict=True):
        circle.set(center=(SECTION_AT, y), radius=drawing.fixed["section"] * size / 2)
    wall = "solid" if bar.wall is None else f"wall {show(bar.wall, 'length', family)}"
    marks.say(drawing["tube word"], f"{show(bar.outer_diameter, 'length', family)}\n{wall}", SECTION_AT,
              y - SECTION_SIZE / 2 - 1.6)


def _blade(drawing, scene):
    """The blade's section as seen along the arm, the link pushing up and down."""
    blade, scale, y = scene.bar.blade, drawing.fixed["section"], 6.4
    for name in ("blade", "level", "blade word"):
        drawing[name].set_visible(blade is not None)
    if blade is not None:
        angle = blade.angles[scene.bar.hole - 1]
        corners = marks.box(SECTION_AT, y, scale * blade.width, scale * blade.thickness)
        drawing["blade"].set_xy(marks.turned(corners, angle, (SECTION_AT, y)))
        drawing["level"].set_data([SECTION_AT - SECTION_SIZE / 2, SECTION_AT + SECTION_SIZE / 2], [y, y])
        marks.say(drawing["blade word"], _blade_words(scene.bar, drawing.family, "\n"), SECTION_AT,
                  y - SECTION_SIZE / 2 - 1.4)


def _blade_words(bar, family, gap):
    width, thick = (show(v, "length", family) for v in (bar.blade.width, bar.blade.thickness))
    return f"blade {width} x {thick}{gap}{np.degrees(bar.blade.angles[bar.hole - 1]):.0f} deg from flat"


def describe(scene: BarScene, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    bar = scene.bar
    held, roll = _rates(scene, family)
    kind = "solid" if bar.wall is None else f"tube with {show(bar.wall, 'length', family)} wall"
    arm = (f"{_blade_words(bar, family, ' turned ')}" if bar.blade else
           f"lever {show(scene.lever, 'length', family)} at hole {bar.hole} of {bar.positions}")
    return (f"Bar from above: {show(bar.outer_diameter, 'length', family)} {kind}, "
            f"{show(bar.centre_length, 'length', family)} between the arms, {arm}. At the link it is worth "
            f"{held} with the other end held and {roll} in roll.")
