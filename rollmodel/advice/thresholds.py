"""The figures that the advice turns on, each named, with where it comes from. All may be changed."""

from dataclasses import dataclass
from math import radians

from rollmodel.car import GRAVITY

_DEG_PER_G = radians(1) / GRAVITY  # in rad/(m/s^2)

CLASS_FIGURES = {  # roll gradient, rad/(m/s^2); common practice
    "race": (1 * _DEG_PER_G, 2 * _DEG_PER_G),
    "sports": (2.5 * _DEG_PER_G, 4 * _DEG_PER_G),
    "passenger": (4 * _DEG_PER_G, 7 * _DEG_PER_G),
}


@dataclass(frozen=True)
class Thresholds:
    """Where one piece of advice gives way to another; SI.

    Notes
    -----
    The two roll gradients are the ends of the class figures (common practice). The rest are starting
    figures of our own: change them to what your drivers and your test can tell apart.
    """

    slope_at: float = 0.3 * GRAVITY  # where the understeer gradient is read, m/s^2
    near_limit: float = 0.9  # part of the fitted car's limit at which loads and steer are compared
    on_exit: float = 0.7  # part of the limit still asked of the tyres when the power goes on
    already_stiff: float = CLASS_FIGURES["race"][1]  # roll gradient below which the car is stiff
    too_soft: float = CLASS_FIGURES["passenger"][1]  # roll gradient above which it wallows
    inside_load_left: float = 0.10  # of its standing load, on the inside wheel of the end to stiffen
    limit_felt: float = 0.002 * GRAVITY  # smallest change of the gap between the limits worth a test
    steer_felt: float = radians(0.03)  # the same for steer at the road wheel: 0.5 deg at a 15 to 1 wheel
    swap_margin: float = 0.005 * GRAVITY  # how far a change may carry the car past equal limits
    nearly_even: float = 0.005 * GRAVITY  # a gap below which the sheet calls both ends even, m/s^2
    own_end_gain: float = 1e-4 * GRAVITY  # rise of an end's own limit that counts as a rise
    stiffness_step: float = 0.05  # of the car's roll stiffness, added at one end to look for that rise
    springs_up: float = 1.25  # both ends' springs, tried on a car that is too soft
    chassis_passes: float = 0.8  # part of a bar change that must come through the chassis
    rollover_margin: float = 1.10  # rolling over nearer than this to the tyres' limit is warned of
    good_part: float = 0.25  # of the gap between the limits: a bump stop, or the power, that makes it
    damper_step: float = 0.20  # of an end's damper rate, to show the size of a change
    build_time: float = 0.5  # s, to take or give back the roll on the way in or out


DEFAULTS = Thresholds()


def class_by_roll(roll_gradient: float) -> str:
    """The class whose figures hold a roll gradient, or the gap it falls into.

    Examples
    --------
    >>> class_by_roll(3 * _DEG_PER_G)
    'sports'
    >>> class_by_roll(0.5 * _DEG_PER_G)
    'stiffer than race'
    """
    names = list(CLASS_FIGURES)
    if roll_gradient < 0:
        return "none, it leans inward"
    for name, (low, high) in CLASS_FIGURES.items():
        if low <= roll_gradient <= high:
            return name
    if roll_gradient < CLASS_FIGURES["race"][0]:
        return "stiffer than race"
    if roll_gradient > CLASS_FIGURES["passenger"][1]:
        return "softer than passenger"
    above = next(name for name in names if roll_gradient < CLASS_FIGURES[name][0])
    return f"between {names[names.index(above) - 1]} and {above}"
