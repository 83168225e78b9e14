"""What a sheet's tyre and camber fields leave out of the figures, in words."""

from __future__ import annotations

from rollmodel.car import Car
from rollmodel.physics.tyre import MEASURED, knows_camber, load_of_most_force
from rollmodel.units import show

ENDS = ("front", "rear")
_OF_CURVE = {
    "falling grip": "With the falling grip curve the cornering stiffness does not depend on load, so a bar "
                    "hardly moves the understeer gradient at 0.3 g. Judge a change by the limits.",
    "magic formula 2006": "The magic formula 2006 curve is one passenger-car tyre, good for loads of about 1 "
                          "to 8 kN. Its pull to one side is left out: it grips alike both ways round.",
}


def tyre_notes(car: Car, outside: dict[str, float], family: str = "metric") -> list[str]:
    """One sentence for each thing that a reader of the figures must know of the tyre; often none.

    Parameters
    ----------
    car : Car
    outside : dict of str to float
        Load of each end's outside wheel in the corner looked at, [N].
    family : str
        One of ``units.FAMILIES``.
    """
    found = [note for end in ENDS for note in _beyond_the_curve(car, end, float(outside[end]), family)]
    if knows_camber(car.tyre):
        return [*found, *_roll_costs_no_camber(car)]
    return [*found, _OF_CURVE[car.tyre.curve], *_camber_not_used(car)]


def _beyond_the_curve(car, end, load, family):
    """A load for which nobody measured the curve, or one beyond which load takes side force away."""
    low, high = MEASURED[car.tyre.curve]
    carries = f"The outside {end} tyre carries {show(load, 'load', family)}"
    if not low <= load <= high:
        bound = f"up to about {show(high, 'load', family)}" if load > high else (
            f"from about {show(low, 'load', family)}")
        yield (f"{carries}; the {car.tyre.curve} curve was measured {bound}. Its grip there, and the limits "
               "given, are a guess.")
    top = load_of_most_force(car.tyre)
    if load > top:
        yield (f"{carries}; on this falling grip curve side force falls with load beyond "
               f"{show(top, 'load', family)}. Check peak_grip and grip_drop_per_kN.")


def _camber_not_used(car):
    given = [field for field in ("camber", "camber_recovery")
             if any(getattr(car.axle(end), field) is not None for end in ENDS)]
    if not given:
        return []
    return [f"The {car.tyre.curve} curve knows no camber: {' and '.join(given)} on the sheet "
            f"{'is' if len(given) == 1 else 'are'} not used."]


def _roll_costs_no_camber(car):
    without = [end for end in ENDS if car.axle(end).camber_recovery is None]
    if not without:
        return []
    return [f"camber_recovery is left out at the {' and the '.join(without)}: there roll costs no camber."]
