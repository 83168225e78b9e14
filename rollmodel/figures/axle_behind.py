"""The axle seen from behind: body, wheels, springs, and the anti-roll bar whose arms part in roll.

Two uses: wheels moved by hand under a body that stays level (lesson 1), and the axle in a settled
left-hand corner with the loads on its two tyres (lesson 5).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from rollmodel.car import GRAVITY, Axle, Car
from rollmodel.figures import marks
from rollmodel.physics.axle import wheel_loads
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stiffness import AxleStiffness, axle_stiffness
from rollmodel.units import show


@dataclass(frozen=True)
class AxleScene:
    """What the picture shows. Pairs are left and right as seen from behind, looking forward."""

    end: str
    lateral_acceleration: float | None  # m/s^2; None: wheels moved under a level body
    roll: float  # of the body, towards the right, rad; what the picture has room for when it rolls over
    travel: tuple[float, float]  # of each wheel above its resting place, m
    force: tuple[float, float]  # load on each tyre, or its change when the wheels are moved, N
    second_force: tuple[float, float]  # change of load in the corner; the bar's part when moved, N
    bar_apart: float | None  # travel of the left link above the right one, m; None without a bar
    track: float
    factor: float  # how many times roll and travel are enlarged
    top_force: float  # the force that fills the longest arrow, N
    lifted: bool = False
    rolls_over: bool = False

    @property
    def on_ground(self) -> bool:
        """Whether this is the car in a corner, not an axle on lifting plates."""
        return self.lateral_acceleration is not None


def by_travel(axle: Axle, left: float, right: float, stiff: AxleStiffness | None = None,
              largest: float = 0.06, factor: float = 2.0, top_force: float | None = None) -> AxleScene:
    """The axle on two lifting plates with its body held level: what travel does to each wheel's load.

    Parameters
    ----------
    axle : Axle
    left, right : float
        Wheel travel, positive up (bump), [m].
    stiff : AxleStiffness, optional
        Another setup than the axle's own; single numbers.
    largest : float
        Largest travel that will be asked for, [m].
    factor : float
        How many times the travel is enlarged.
    top_force : float, optional
        The force that fills the longest arrow, [N]; that of the largest travel in roll when left out.
        Give it where the rates can change, so that arrows of different rates compare.
    """
    stiff = stiff or axle_stiffness(axle)
    springs, bar = float(stiff.spring_wheel_rate), float(stiff.bar_wheel_rate)
    return AxleScene("", None, 0.0, (left, right), _pair(wheel_loads(springs, bar, left, right)),
                     _pair(wheel_loads(0.0, bar, left, right)), _apart(axle, left - right), axle.track,
                     factor, top_force or float(wheel_loads(springs, bar, largest, -largest)[0]))


def in_corner(car: Car, end: str, lateral_acceleration: float, front: AxleStiffness | None = None,
              rear: AxleStiffness | None = None, factor: float | None = None) -> AxleScene:
    """One axle in a settled left-hand corner: roll, the loads on its tyres, a wheel off the ground.

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    lateral_acceleration : float
        [m/s^2].
    front, rear : AxleStiffness, optional
        Other setups than the car's own; single numbers.
    factor : float, optional
        How many times the roll is enlarged; :func:`tidy_factor` of the car when left out.
    """
    corner, axle = settled_corner(car, lateral_acceleration, front, rear), car.axle(end)
    loads = corner.axle(end)
    stiff = {"front": front, "rear": rear}[end] or axle_stiffness(axle)
    factor, transfer = factor or tidy_factor(car), float(loads.load_transfer)
    roll = MOST_LEAN / factor if corner.rolls_over else float(loads.roll_angle)
    held = _roll_on_the_ground(loads, stiff, roll)
    suspension = held * float(stiff.total_roll / stiff.suspension_roll)
    return AxleScene(end, lateral_acceleration, roll, (axle.track * (roll - held), 0.0),
                     (float(loads.inside), float(loads.outside)), (-transfer, transfer),
                     _apart(axle, -axle.track * suspension), axle.track, factor, car.axle_weight(end),
                     bool(loads.lifted), bool(corner.rolls_over))


@lru_cache(maxsize=32)
def tidy_factor(car: Car) -> float:
    """How many times to enlarge the roll so that the car on its softest holes fits the picture at 1 g."""
    softest = car.with_holes(*(1 if car.axle(end).bar else None for end in ("front", "rear")))
    corner = settled_corner(softest, np.linspace(0, 1, 21) * GRAVITY)
    most = MOST_LEAN / np.nanmax([corner.front.roll_angle, corner.rear.roll_angle])
    return max((f for f in (1, 2, 3, 4, 5) if f <= most), default=1)


def _pair(values):
    return tuple(float(value) for value in values)


def _apart(axle: Axle, wheels_apart):
    return None if axle.bar is None else axle.bar.link_motion_ratio * wheels_apart


def _roll_on_the_ground(loads, stiff: AxleStiffness, roll):
    """The part of the roll that suspension and tyres take; the rest turns the lifted axle as a whole."""
    return min(roll, float(loads.elastic) * loads.track / float(stiff.total_roll)) if loads.lifted else roll


# Where things lie, in sheet units from the middle of the axle and from the ground.
SIDES = (-1, 1)
CORNER_GROUND, PLATE_GROUND, VALUES_AT = 5.4, 7.6, 1.9
MOST_LEAN = np.radians(12)  # further, and the body would touch the wheels as drawn
WHEEL_AT, WHEEL_WIDE, WHEEL_HIGH, HUB = 12.0, 2.8, 8.0, 3.6
ARM_AT = WHEEL_AT - WHEEL_WIDE / 2
PIVOT, SPRING_AT, SEAT = (4.0, 3.4), 8.3, 8.2
BODY = np.array([(-5, 3), (-5, 8.2), (-9.3, 8.2), (-9.3, 9.8), (-7.4, 12.8)])
BODY = np.vstack([BODY, BODY[::-1] * (-1, 1)])
BODY_ABOUT = (0.0, 3.4)
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
    marks.say(drawing["title"], _title(scene, drawing.family))
    marks.say(drawing["roll"], _roll_words(scene, drawing.family), *body([(0, 10.4)])[0])


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
    marks.say(drawing["bar word"], _bar_words(scene, drawing.family, "\n"), 0, drawing.fixed["ground"] + 0.6)


def _bar_words(scene, family, gap=" "):
    if scene.bar_apart is None:
        return "no bar"
    apart = abs(scene.bar_apart)
    return f"bar not{gap}twisted" if apart < 5e-5 else f"bar ends{gap}{show(apart, 'length', family)} apart"


def _force(drawing, scene, n):
    """The arrow under a plate and the words beside it."""
    side, plate = SIDES[n], drawing["plates"][n].get_xy()[0, 1]
    high, low = plate - 0.1, plate - 0.1 - drawing.fixed["arrow"] * abs(scene.force[n]) / scene.top_force
    tail, tip = (low, high) if scene.force[n] > 0 else (high, low)
    marks.point(drawing["forces"][n], (side * WHEEL_AT, tail), (side * WHEEL_AT, tip), smallest=0.05)
    marks.say(drawing["values"][n], _value_words(scene, n, drawing.family), side * (WHEEL_AT - 1.2),
              VALUES_AT)
    marks.say(drawing["words"][n], _side_words(scene, n, drawing.family),
              side * (WHEEL_AT + WHEEL_WIDE / 2 + 0.8), plate + 0.5 + WHEEL_HIGH / 2)


def _value_words(scene, n, family):
    if not scene.on_ground:
        return f"{_signed(scene.force[n], family)}\nbar {_signed(scene.second_force[n], family)}"
    load = "0, off the ground" if scene.lifted and n == 0 else show(scene.force[n], "load", family)
    return f"{load}\n{_signed(scene.second_force[n], family)}"


def _side_words(scene, n, family):
    if scene.on_ground:
        return ("inside", "outside")[n]
    return _height(scene.travel[n], family, "\n")


def _height(travel, family, gap=" "):
    if abs(travel) < 5e-5:
        return "level"
    return f"{'up' if travel > 0 else 'down'}{gap}{show(abs(travel), 'length', family)}"


def _signed(force, family):
    text = show(force, "load", family)
    return text if text[0] in "-0" else f"+{text}"


def _title(scene, family):
    if not scene.on_ground:
        return f"Wheels moved, body held level{_drawn(scene, ' ')}"
    return (f"{scene.end.capitalize()} axle from behind, turning left at "
            f"{show(scene.lateral_acceleration, 'lateral acceleration', family, 2)}")


def _roll_words(scene, family):
    if not scene.on_ground:
        return "body level"
    if scene.rolls_over:
        return "rolls over"
    return f"rolls {show(scene.roll, 'angle', family)}{_drawn(scene, chr(10))}"


def _drawn(scene, gap):
    return f"{gap}(drawn {scene.factor:g} times)" if scene.factor > 1 else ""


def describe(scene: AxleScene, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    return _corner_conclusion(scene, family) if scene.on_ground else _travel_conclusion(scene, family)


def _travel_conclusion(scene, family):
    left, right = scene.travel
    force, bar = ([_signed(f, family) for f in pair] for pair in (scene.force, scene.second_force))
    does = ("There is no bar at this axle." if scene.bar_apart is None else
            "Nothing is moved, so nothing changes." if left == right == 0 else
            "The bar does nothing: both wheels travel together." if abs(left - right) < 1e-9 else
            f"Of this the bar gives {bar[0]} and {bar[1]}.")
    return (f"Axle from behind, body held level. Left wheel {_height(left, family)}, right wheel "
            f"{_height(right, family)}: the loads change by {force[0]} and {force[1]}. {does}")


def _corner_conclusion(scene, family):
    where = f"turning left at {show(scene.lateral_acceleration, 'lateral acceleration', family, 2)}"
    if scene.rolls_over:
        return (f"{scene.end.capitalize()} axle from behind, {where}: both inside wheels are up and the car "
                "rolls over.")
    inside = ("the inside wheel is off the ground, so the other end takes what comes on top" if scene.lifted
              else f"the inside wheel keeps {show(scene.force[0], 'load', family)}")
    return (f"{scene.end.capitalize()} axle from behind, {where}: the body rolls "
            f"{show(scene.roll, 'angle', family)} to the right, the outside wheel carries "
            f"{show(scene.force[1], 'load', family)}, {inside}. {_bar_words(scene, family).capitalize()}.")
