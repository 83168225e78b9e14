"""Dampers in roll: what an axle's two dampers are worth across its suspension."""

from rollmodel.car import Axle, Car, CarError
from rollmodel.physics.stiffness import roll_stiffness, wheel_rate

ENDS = ("front", "rear")


def damper_roll_rate(axle: Axle) -> float:
    """Roll moment of an axle's two dampers per rate of roll across the suspension, [N*m*s/rad].

    ``C = c MR^2 t^2 / 2``, as for springs.

    Parameters
    ----------
    axle : Axle
        With a damper.

    Returns
    -------
    float
        [N*m*s/rad].

    Raises
    ------
    CarError
        When the axle has no damper.

    Notes
    -----
    Derived here: each wheel moves at ``t/2`` times the rate of roll. One rate for bump and rebound;
    a real damper's curve bends, so use its mean rate at the speeds met in roll (0.05 to 0.1 m/s at
    the damper, common practice).

    Examples
    --------
    >>> from rollmodel.car import Axle, Damper
    >>> axle = Axle(track=1.5, unsprung_mass=80.0, unsprung_cg_height=0.3, roll_centre_height=0.08,
    ...             spring_rate=60e3, spring_motion_ratio=0.7, damper=Damper(4000.0, 0.7))
    >>> round(damper_roll_rate(axle), 1)
    2205.0
    """
    if axle.damper is None:
        raise CarError(_missing_damper("axle"))
    return float(roll_stiffness(wheel_rate(axle.damper.rate, axle.damper.motion_ratio), axle.track))


def _missing_damper(end):
    return (f"[{end}.damper] rate: wanted a damper at this end, given none; "
            f"add the table with its rate and motion_ratio")


def require_dampers(car: Car) -> None:
    """Refuse a car whose roll cannot be followed in time: no damper at one end or at both.

    Parameters
    ----------
    car : Car

    Raises
    ------
    CarError
        One message for each end without a damper.
    """
    faults = [_missing_damper(end) for end in ENDS if car.axle(end).damper is None]
    if faults:
        raise CarError(faults)
