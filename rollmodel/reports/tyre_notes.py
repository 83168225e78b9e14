"""What a sheet's tyre and camber fields leave out of the figures, in words."""

from __future__ import annotations

from rollmodel.car import Car
from rollmodel.physics.tyre import knows_camber

ENDS = ("front", "rear")
_OF_CURVE = {
    "falling grip": "With the falling grip curve the cornering stiffness does not depend on load, so a bar "
                    "hardly moves the understeer gradient at 0.3 g. Judge a change by the limits.",
    "magic formula 2006": "The magic formula 2006 curve is one passenger-car tyre, good for loads of about 1 "
                          "to 8 kN. Its pull to one side is left out: it grips alike both ways round.",
}


def tyre_notes(car: Car) -> list[str]:
    """One sentence for each thing that a reader of the figures must know of the tyre; often none.

    Parameters
    ----------
    car : Car
    """
    if knows_camber(car.tyre):
        return _roll_costs_no_camber(car)
    return [_OF_CURVE[car.tyre.curve], *_camber_not_used(car)]


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
