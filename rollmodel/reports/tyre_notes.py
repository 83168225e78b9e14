"""What a sheet's tyre and camber fields leave out of the figures, in words."""

from __future__ import annotations

from rollmodel.car import Car

ENDS = ("front", "rear")


def tyre_notes(car: Car) -> list[str]:
    """One sentence for each thing that a reader of the figures must know of the tyre; often none.

    Parameters
    ----------
    car : Car
    """
    return _falling_grip(car) if car.tyre.curve == "falling grip" else _roll_costs_no_camber(car)


def _falling_grip(car):
    notes = ["With the falling grip curve the cornering stiffness does not depend on load, so a bar hardly "
             "moves the understeer gradient at 0.3 g. Judge a change by the limits."]
    given = [field for field in ("camber", "camber_recovery")
             if any(getattr(car.axle(end), field) is not None for end in ENDS)]
    if given:
        notes.append(f"The falling grip curve knows no camber: {' and '.join(given)} on the sheet "
                     f"{'is' if len(given) == 1 else 'are'} not used.")
    return notes


def _roll_costs_no_camber(car):
    without = [end for end in ENDS if car.axle(end).camber_recovery is None]
    if not without:
        return []
    return [f"camber_recovery is left out at the {' and the '.join(without)}: there roll costs no camber."]
