"""Links of a bar set on the scales: what the diagonal says of their lengths."""

from __future__ import annotations

from rollmodel.car import GRAVITY, Car
from rollmodel.physics.preload import diagonal_per_link_difference, link_difference_behind, preload_force
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.testday.faults import DayError
from rollmodel.testday.typed_text import with_unit
from rollmodel.units import UnitError, parse, quoted

MOST_OFF = 0.030  # m: a link that is off by more is the wrong link


def diagonal_gain(car: Car, end: str, difference: float, hole: int | None = None) -> float:
    """What front left and rear right together gain, as scales show it, [kg].

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    difference : float
        Left link less right link beyond what fits, [m].
    hole : int, optional
        In use at that end; the car's own when left out.
    """
    return float(diagonal_per_link_difference(car, end, **_stiff(car, end, hole))) * difference / GRAVITY


def link_behind(car: Car, end: str, gain: float, hole: int | None = None) -> float:
    """By how much the left link is too long when the diagonal gained so much on hooking the bar up, [m].

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    gain : float
        Of front left and rear right together, [kg].
    hole : int, optional
        In use at that end.
    """
    return float(link_difference_behind(car, end, gain * GRAVITY, **_stiff(car, end, hole)))


def force_at_wheel(car: Car, end: str, difference: float, hole: int | None = None) -> float:
    """What a link that is off puts into each wheel while the wheels cannot move, [N].

    Parameters
    ----------
    car : Car
    end : {"front", "rear"}
    difference : float
        [m].
    hole : int, optional
    """
    axle = car.axle(end)
    return float(preload_force(axle, axle_stiffness(axle, hole), difference, end))


def _stiff(car: Car, end: str, hole: int | None) -> dict:
    return {end: axle_stiffness(car.axle(end), hole)}


def gain_typed(text: str, family: str = "metric") -> float:
    """A gain of the diagonal as typed, [kg]; a bare number is in the family's unit.

    Raises
    ------
    UnitError
        In one sentence.
    """
    try:
        return parse(with_unit(text, "mass", family), "mass")
    except UnitError as error:
        raise UnitError(
            f"wanted what the diagonal gained, such as 12 kg or -12 kg, given {quoted(text[:40])}"
            f"{f': {error.mend}' if error.mend else ''}"
        ) from None


def checked_link(difference: float) -> float:
    """The same, refused where no such link would go in.

    Raises
    ------
    DayError
    """
    if abs(difference) > MOST_OFF:
        raise DayError(
            f"that would be a link {1000 * abs(difference):.0f} mm off: look at the readings, at the floor "
            "and at the springs first"
        )
    return difference
