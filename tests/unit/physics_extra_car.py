"""One invented car for the tests of transients, warp, preload, stress and traction, easy to vary."""

from dataclasses import replace

from rollmodel.car import Axle, Bar, Car, Damper, Tyre


def a_bar(**changes):
    given = {"outer_diameter": 0.024, "centre_length": 0.95, "link_motion_ratio": 0.6,
                 "holes": (0.22, 0.20, 0.18), "hole": 2, "wall": 0.004}
    return Bar(**{**given, **changes})


def an_axle(**changes):
    given = {"track": 1.50, "unsprung_mass": 84.0, "unsprung_cg_height": 0.31, "roll_centre_height": 0.06,
                 "spring_rate": 62e3, "spring_motion_ratio": 0.72, "tyre_vertical_rate": 230e3,
                 "damper": Damper(rate=4200.0, motion_ratio=0.72), "bar": a_bar()}
    return Axle(**{**given, **changes})


def a_car(front=None, rear=None, **changes):
    """A car whose two ends differ in everything; ``front`` and ``rear`` change an end's fields."""
    rear_end = {"track": 1.46, "unsprung_mass": 78.0, "unsprung_cg_height": 0.30, "roll_centre_height": 0.11,
                    "spring_rate": 55e3, "spring_motion_ratio": 0.68, "tyre_vertical_rate": 245e3,
                    "damper": Damper(rate=3600.0, motion_ratio=0.70),
                    "bar": a_bar(outer_diameter=0.020, centre_length=0.90, link_motion_ratio=0.55,
                              wall=None, holes=(0.24, 0.21, 0.18))}
    given = {"title": "invented for the tests", "drive": "rear", "mass": 1290.0, "front_weight_share": 0.53,
                 "wheelbase": 2.48, "cg_height": 0.48, "tyre": Tyre(), "chassis_torsion": 4.5e5}
    return Car(**{**given, "front": an_axle(**(front or {})), "rear": an_axle(**{**rear_end, **(rear or {})}),
                  **changes})


def rigid_tyres(car):
    return replace(car, front=replace(car.front, tyre_vertical_rate=None),
                   rear=replace(car.rear, tyre_vertical_rate=None))
