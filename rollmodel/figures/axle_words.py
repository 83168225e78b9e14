"""What the picture of the axle says: its titles and values, and the words instead of it."""

from __future__ import annotations

from rollmodel.figures.axle_scene import AxleScene
from rollmodel.units import show


def bar_words(scene: AxleScene, family: str, gap: str = " ") -> str:
    """How far the bar's ends have parted."""
    if scene.bar_apart is None:
        return "no bar"
    apart = abs(scene.bar_apart)
    return f"bar not{gap}twisted" if apart < 5e-5 else f"bar ends{gap}{show(apart, 'length', family)} apart"


def value_words(scene: AxleScene, n: int, family: str) -> str:
    """The load under a wheel and its change, or the change and the bar's part of it."""
    if not scene.on_ground:
        return f"{_signed(scene.force[n], family)}\nbar {_signed(scene.second_force[n], family)}"
    load = "0, off the ground" if scene.lifted and n == 0 else show(scene.force[n], "load", family)
    return f"{load}\n{_signed(scene.second_force[n], family)}"


def side_words(scene: AxleScene, n: int, family: str) -> str:
    """Which wheel it is, or how far it has been moved."""
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


def title(scene: AxleScene, family: str) -> str:
    """The line over the picture."""
    if not scene.on_ground:
        return f"Wheels moved, body held level{_drawn(scene, ' ')}"
    return (f"{scene.end.capitalize()} axle from behind, turning left at "
            f"{show(scene.lateral_acceleration, 'lateral acceleration', family, 2)}")


def roll_words(scene: AxleScene, family: str) -> str:
    """The body's roll and how it is drawn."""
    if not scene.on_ground:
        return "body level"
    if scene.rolls_over:
        return "rolls over"
    return f"{scene.end} rolls {show(scene.roll, 'angle', family)}{_drawn(scene, chr(10))}"


def _drawn(scene, gap):
    """That travel or roll is drawn larger than it is."""
    what = "" if scene.on_ground else "travel "
    return f"{gap}({what}drawn {scene.factor:g}× as far)" if scene.factor > 1 else ""


def describe(scene: AxleScene, family: str = "metric") -> str:
    """The conclusion and the key numbers in words."""
    return _corner_conclusion(scene, family) if scene.on_ground else _travel_conclusion(scene, family)


def _travel_conclusion(scene, family):
    left, right = scene.travel
    force, bar = ([_or_nothing(f, family) for f in pair] for pair in (scene.force, scene.second_force))
    does = ("There is no bar at this axle." if scene.bar_apart is None else
            "Nothing is moved, so nothing changes." if left == right == 0 else
            "The bar does nothing: both wheels travel together." if abs(left - right) < 1e-9 else
            ("The bar gives nothing of this. " if set(bar) == {"nothing"} else
             f"Of this the bar gives {bar[0]} and {bar[1]}. ") + _link_words(scene, family))
    return (f"Axle from behind, body held level. Left wheel {_height(left, family)}, right wheel "
            f"{_height(right, family)}: the loads change by {_both(force, family)}. {does}")


def _both(changes, family):
    """Two changes in a sentence; two nothings are told as the number that they are."""
    return show(0.0, "load", family) if set(changes) == {"nothing"} else " and ".join(changes)


def _or_nothing(force, family):
    """A change of load in a sentence."""
    return "nothing" if float(show(force, "load", family).split()[0]) == 0 else _signed(force, family)


def _link_words(scene, family):
    """Why the bar's ends part by less than the wheels."""
    wheels = abs(scene.travel[0] - scene.travel[1])
    apart, ratio = abs(scene.bar_apart), show(abs(scene.bar_apart) / wheels, "ratio", family)
    return (f"The wheels are {show(wheels, 'length', family)} apart in height, the bar's ends "
            f"{show(apart, 'length', family)}: each link moves {ratio} times as far as its wheel.")


def _corner_conclusion(scene, family):
    where = f"turning left at {show(scene.lateral_acceleration, 'lateral acceleration', family, 2)}"
    if scene.rolls_over:
        return (f"{scene.end.capitalize()} axle from behind, {where}: both inside wheels are up and the car "
                "rolls over.")
    inside = ("the inside wheel is off the ground, so the other end takes what comes on top" if scene.lifted
              else f"the inside wheel keeps {show(scene.force[0], 'load', family)}")
    return (f"{scene.end.capitalize()} axle from behind, {where}: the body rolls "
            f"{show(scene.roll, 'angle', family)} to the right, the outside wheel carries "
            f"{show(scene.force[1], 'load', family)}, {inside}. {bar_words(scene, family).capitalize()}.")
