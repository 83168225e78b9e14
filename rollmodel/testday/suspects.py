"""What to suspect when a test says something else than the sheet, each suspicion with its reason."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from rollmodel.car import Car
from rollmodel.testday.compare import NOT_RESOLVED, OPPOSITE, SEEN, Difference
from rollmodel.testday.gradients import Gradient
from rollmodel.testday.reach import USUAL, beyond_limit, top, unlike_runs, unlike_setups
from rollmodel.testday.runs import Setup

SENTENCES = {
    "no-repetitions": (
        "There are no repetitions the same way round, so nobody can say what repeats. Drive each way "
        "at least three times."
    ),
    "few-repetitions": (
        "There are fewer than three runs each way round; ISO 4138 recommends three or more. The interval is "
        "wide for that reason alone."
    ),
    "one-way": (
        "Only one way round was driven. A slope of the track or a bent steering linkage is in the figures; "
        "drive both ways."
    ),
    "too-small": (
        "The predicted change of {predicted} is smaller than what these runs can show ({smallest}). That is "
        "no proof that nothing changed."
    ),
    "more-runs": "About {runs} runs each way round, before and again after, would show the predicted change.",
    "hopeless": (
        "Even sixty runs each way would not show the predicted change. Make a larger one, or calm the "
        "scatter: same line, same tyre temperature, no wind."
    ),
    "either": (
        "The interval holds the predicted change of {predicted} as well as zero. Such runs tell the two "
        "apart four times in five; this time they did not. Drive some more of the same."
    ),
    "should-have-shown": (
        "{quantity}: the interval leaves out the predicted change of {predicted}. The change is probably "
        "smaller than predicted, or did not reach the wheels. Look for a link loose or worn, a bar that "
        "slips in its bushings, an inside wheel off the ground, the wrong hole."
    ),
    "probably-smaller": (
        "{quantity}: the interval leaves out the predicted change of {predicted}; it may be smaller than "
        "predicted. The {other} did change, so most likely the bar works. More runs would tell how large "
        "each change is."
    ),
    "beyond-limit": (
        "The runs reach {top}, the sheet's car slides at {limit}. Check the unit of speed in the header, the "
        "radius and the sheet's tyres before anything else."
    ),
    "unlike-reach": (
        "Before the change the runs reach {before}, after it {after}. Check that both files have speed in "
        "the same unit and the same radius, before anything else."
    ),
    "unlike-runs": (
        "{one} and {other} differ by more than runs of one day do, in how far they reach ({top_one} and "
        "{top_other}) or in how they roll. Check the unit of speed, the radius and the run's name in every "
        "row."
    ),
    "beyond-usual": (
        "The runs reach {top}: more than a car without wings usually holds. Check the unit of speed in the "
        "header and the radius; a car sheet (--sheet) would tell more."
    ),
    "swapped": (
        "With the files the other way round it would fit the prediction: were before and after swapped?"
    ),
    "other-end": (
        "Roll moved as predicted and the balance the other way: was the change made at the other end of the "
        "car?"
    ),
    "stiffer-for-softer": (
        "Roll moved against the prediction: was the link moved to a stiffer hole instead of a softer one, or "
        "the other way round? Holes are counted from the softest, the longest arm."
    ),
    "tyres": (
        "Look at what else changed between the runs: tyre pressures and temperatures, fuel, wind, the "
        "track's grip. Run the first setup once more; it should repeat."
    ),
    "preload": (
        "A link of the wrong length preloads the bar. With the car level, its bolt must go in by hand."
    ),
    "larger": (
        "The change is larger than predicted. Check the bar's numbers on the sheet; rollmodel learn can "
        "fit them."
    ),
    "smaller": (
        "The change is smaller than predicted. An installed bar is often 10 to 25 % softer than calculated "
        "(common figures, no source): brackets, bushings and links give."
    ),
    "absolute": (
        "Before the change the runs give {measured}, the sheet {predicted}. The sheet itself is not right "
        "yet: {look}."
    ),
    "far-from-sheet": (
        "Before the change the runs give {measured}, the sheet {predicted}, {ratio} times as much or as "
        "little. No usual error of a sheet is so large: check the units of speed and roll and the radius."
    ),
    "steering-wheel": (
        "Without lateral acceleration the runs ask for a steer of {measured}, the bend alone needs {bend}: "
        "{ratio} times as much. Is that the steering wheel's angle, or a wrong unit or radius?"
    ),
    "sides-differ": (
        "Left and right differ by more than their scatter ({left} and {right}). Look at corner weights, a "
        "preloaded link, tyre pressures and the slope of the track."
    ),
}

FAR = 1.8  # ratio of roll gradients from which units come under suspicion: mph for km/h makes 2.6
_LOOK = {
    "roll gradient": "look at the height of the centre of gravity, the spring rates and the motion ratios",
    "understeer gradient": "look at the tyres, the pressures and the toe",
}
Shown = Callable[[float, str], str]


@dataclass(frozen=True)
class Suspicion:
    """One thing to look at."""

    code: str
    quantity: str = ""
    words: dict[str, str] = field(default_factory=dict)
    numbers: dict[str, tuple[float, str]] = field(default_factory=dict)  # name to (SI, kind)

    def sentence(self, show: Shown) -> str:
        """The sentence with its numbers, ``show(value, kind)`` turning each into text."""
        shown = {name: show(value, kind) for name, (value, kind) in self.numbers.items()}
        return SENTENCES[self.code].format(**self.words, **shown)


def suspicions(differences: list[Difference]) -> list[Suspicion]:
    """What to suspect after a comparison, the likeliest first.

    Parameters
    ----------
    differences : list of Difference
        One for each gradient.

    Returns
    -------
    list of Suspicion
        Empty where every gradient moved as predicted and both setups are well tested.
    """
    found = [*_about_the_test(differences[0])]
    found += _about_all(differences)
    for one in differences:
        found += _about_one(one, [other.quantity for other in differences if other.verdict == SEEN])
    return found


def _about_the_test(one: Difference) -> list[Suspicion]:
    if one.degrees_of_freedom < 1:
        return [Suspicion("no-repetitions")]
    few = [Suspicion("few-repetitions")] if one.runs_each_way < 3 else []
    return few + ([Suspicion("one-way")] if one.ways < 2 else [])


def _about_all(differences: list[Difference]) -> list[Suspicion]:
    verdicts = {one.quantity: one.verdict for one in differences}
    wrong = [one for one in differences if one.verdict == OPPOSITE]
    if not wrong:
        return []
    if all(one.verdict == OPPOSITE and _fits_turned(one) for one in differences):
        return [Suspicion("swapped"), Suspicion("stiffer-for-softer"), Suspicion("tyres")]
    if verdicts.get("roll gradient") == SEEN:
        return [Suspicion("other-end"), Suspicion("tyres"), Suspicion("preload")]
    if verdicts.get("roll gradient") == OPPOSITE:
        return [Suspicion("stiffer-for-softer"), Suspicion("tyres")]
    return [Suspicion("tyres"), Suspicion("preload")]


def _fits_turned(one: Difference) -> bool:
    half = np.hypot(one.half_width, one.predicted.uncertainty)
    return bool(abs(one.value + one.predicted.change) <= half)


def _about_one(one: Difference, seen: list[str]) -> list[Suspicion]:
    """What to suspect of one gradient, given which gradients were seen to change."""
    if one.predicted is None or not np.isfinite(one.predicted.change):
        return []
    kind, change = one.quantity, one.predicted.change
    if one.verdict == SEEN and one.size in ("larger", "smaller"):
        return [Suspicion(one.size, kind)]
    if one.verdict != NOT_RESOLVED or one.degrees_of_freedom < 1 or not change:
        return []
    if not _holds_prediction(one):
        return _left_out(kind, change, seen)
    runs = one.runs_for_prediction
    after = Suspicion("more-runs", kind, {"runs": str(runs)}) if runs else Suspicion("hopeless", kind)
    if abs(change) >= one.smallest_seen:
        return [Suspicion("either", kind, numbers={"predicted": (change, kind)})]
    numbers = {"predicted": (change, kind), "smallest": (one.smallest_seen, kind)}
    return [Suspicion("too-small", kind, numbers=numbers), after]


def _left_out(quantity: str, change: float, seen: list[str]) -> list[Suspicion]:
    """A prediction outside the interval: a change that another gradient shows did reach the wheels."""
    words, numbers = {"quantity": quantity.capitalize()}, {"predicted": (change, quantity)}
    if seen:
        return [Suspicion("probably-smaller", quantity, {**words, "other": seen[0]}, numbers)]
    return [Suspicion("should-have-shown", quantity, words, numbers), Suspicion("preload")]


def _holds_prediction(one: Difference) -> bool:
    """Whether the interval of the change holds the predicted change too, within its own uncertainty."""
    half = np.hypot(one.half_width, one.predicted.uncertainty)
    return bool(abs(one.value - one.predicted.change) <= half)


def about_the_sheet(found: Gradient, predicted: float, uncertainty: float = 0.0) -> list[Suspicion]:
    """Whether one setup's gradient itself is what the sheet says.

    Parameters
    ----------
    found : Gradient
    predicted : float
        By the sheet, [rad/(m/s^2)].
    uncertainty : float, optional
        Of the prediction, [rad/(m/s^2)].
    """
    if not abs(found.value - predicted) > np.hypot(found.half_width, uncertainty):
        return []
    numbers = {"measured": (found.value, found.quantity), "predicted": (predicted, found.quantity)}
    sizes = sorted((abs(found.value), abs(predicted)))
    if found.quantity == "roll gradient" and sizes[0] > 0 and found.is_far_from(predicted, FAR):
        ratio = sizes[1] / sizes[0]
        return [Suspicion("far-from-sheet", found.quantity, {"ratio": f"{ratio:.1f}"}, numbers)]
    return [Suspicion("absolute", found.quantity, {"look": _LOOK[found.quantity]}, numbers)]


def about_reach(setups: list[Setup], car: Car | None = None) -> list[Suspicion]:
    """Whether runs reach beyond the car's limit or very differently far, as with a wrong unit of speed.

    Parameters
    ----------
    setups : list of Setup
        One or two, as read.
    car : Car, optional
        The sheet's.

    Raises
    ------
    DayError
        Runs far beyond the limit of the sheet's car.
    """
    found = []
    if car is not None and (beyond := beyond_limit(setups, car)):
        found.append(Suspicion("beyond-limit", "", {}, _accelerations(("top", "limit"), beyond)))
    if car is None and (most := max(map(top, setups))) > USUAL:
        found.append(Suspicion("beyond-usual", "", {}, _accelerations(("top",), (most,))))
    if len(setups) > 1 and (tops := unlike_setups(*setups)):
        found.append(Suspicion("unlike-reach", "", {}, _accelerations(("before", "after"), tops)))
    for pair in filter(None, map(unlike_runs, setups)):
        tops = [float(run.lateral_acceleration.max()) for run in pair]
        words = {"one": pair[0].name, "other": pair[1].name}
        found.append(Suspicion("unlike-runs", "", words, _accelerations(("top_one", "top_other"), tops)))
    return found


def _accelerations(names, values) -> dict[str, tuple[float, str]]:
    return {name: (value, "lateral acceleration") for name, value in zip(names, values, strict=True)}


def about_sides(found: Gradient) -> list[Suspicion]:
    """Whether left and right differ by more than their scatter."""
    if not found.sides_differ or found.sides is None:
        return []
    left, right = found.sides
    return [
        Suspicion(
            "sides-differ",
            found.quantity,
            numbers={"left": (left, found.quantity), "right": (right, found.quantity)},
        )
    ]


def about_steer(found: Gradient, car: Car, radius: float) -> list[Suspicion]:
    """Whether the steer at no lateral acceleration is that of the bend, ``L / R``.

    Parameters
    ----------
    found : Gradient
        The understeer gradient.
    car : Car
    radius : float
        Of the circle, [m].
    """
    bend = car.wheelbase / radius
    ratio = found.intercept / bend
    if 0.6 < ratio < 1.6:  # wide: the line through a curve that bends misses the start by some
        return []
    numbers = {"measured": (found.intercept, "angle"), "bend": (bend, "angle")}
    return [Suspicion("steering-wheel", found.quantity, {"ratio": f"{ratio:.2g}"}, numbers)]
