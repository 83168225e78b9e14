"""Sheets for the comparison with the second road: each a training car with something changed."""

import copy
import tomllib
from pathlib import Path

CARS = Path(__file__).resolve().parents[2] / "rollmodel" / "cars"

CASES = {  # name: training car, lateral acceleration in g, what is changed; None takes a field or table out
    "no bars, rigid tyres, no camber": (
        "coupe",
        0.7,
        {
            "front.bar": None,
            "rear.bar": None,
            "front.tyre_vertical_rate": None,
            "rear.tyre_vertical_rate": None,
            "front.camber": None,
            "rear.camber": None,
            "front.camber_recovery": None,
            "rear.camber_recovery": None,
            "chassis_torsion": None,
        },
    ),
    "other holes, rear bar left out": ("coupe", 0.9, {"front.bar.hole": 3, "rear.bar": None}),
    "camber given, recovery not": (
        "coupe",
        1.0,
        {"front.camber_recovery": None, "rear.camber_recovery": None, "front.camber": "-3.5 deg"},
    ),
    "US customary": (
        "coupe",
        1.0,
        {
            "mass": "2844 lb",
            "wheelbase": "97.6 in",
            "cg_height": "18.5 in",
            "chassis_torsion": "6640 lbf*ft/deg",
            "front.track": "59.8 in",
            "front.unsprung_mass": "185 lb",
            "front.spring_rate": "371 lbf/in",
            "front.tyre_vertical_rate": "1313 lbf/in",
            "front.bar.outer_diameter": "1.02 in",
            "front.bar.wall": "0.157 in",
            "front.bar.holes": ["8.66 in", "7.87 in", "7.09 in"],
            "front.bar.shear_modulus": "11.5 Mpsi",
            "front.bar.youngs_modulus": "29.9 Mpsi",
            "rear.roll_centre_height": "3.7 in",
        },
    ),
    "falling grip": (
        "coupe",
        0.8,
        {
            "tyre": {
                "curve": "falling grip",
                "peak_grip": 1.25,
                "grip_drop_per_kN": 0.035,
                "cornering_stiffness": "1300 N/deg",
                "grip_scale": 0.95,
            }
        },
    ),
    "falling grip, front drive, loss with its unit": (
        "hatch",
        0.5,
        {
            "tyre": {
                "curve": "falling grip",
                "peak_grip": 1.1,
                "grip_drop_per_kN": "0.03 1/kN",
                "cornering_stiffness": "62000 N/rad",
            }
        },
    ),
    "magic formula 2006": ("coupe", 0.9, {"tyre.curve": "magic formula 2006"}),
    "magic formula 2006, less grip, front drive": (
        "hatch",
        0.5,
        {"tyre.curve": "magic formula 2006", "tyre.grip_scale": 0.8},
    ),
    "a chassis that twists": ("coupe", 1.0, {"chassis_torsion": "700 N*m/deg"}),
    "a chassis that twists, rear wheel up": ("hatch", 1.0, {"chassis_torsion": "1500 N*m/deg"}),
    "front wheel up": (
        "coupe",
        1.0,
        {
            "front.bar.outer_diameter": "38 mm",
            "front.bar.wall": None,
            "cg_height": "620 mm",
            "rear.bar": None,
            "rear.spring_rate": "40 N/mm",
        },
    ),
    "on the bump stops": (
        "gravel",
        0.8,
        {
            "front.bump_travel": "25 mm",
            "front.bump_stop_rate": "60 N/mm",
            "rear.bump_travel": "35 mm",
            "rear.bump_stop_rate": "45 N/mm",
        },
    ),
    "supports inboard, swept out, leaning links": (
        "saloon",
        0.8,
        {
            "front.bar.support_spacing": "600 mm",
            "front.bar.arm_sweep": "outward",
            "front.bar.arm_length": "310 mm",
            "front.bar.link_lean_at_arm": "12 deg",
            "front.bar.link_lean_at_pickup": "-8 deg",
            "front.bar.link_rate": "2500 N/mm",
            "front.bar.hole": 2,
            "rear.bar.arm_length": ["250 mm", "222 mm", "199 mm"],
            "rear.bar.hole": 2,
        },
    ),
    "blades counted from on edge, tip guided, own lever": (
        "single-seater",
        1.2,
        {
            "front.bar.blade.angles": ["90 deg", "60 deg", "25 deg", "0 deg"],
            "front.bar.hole": 3,
            "rear.bar.blade.angles": ["80 deg", "50 deg"],
            "rear.bar.blade.angle_from": "on edge",
            "rear.bar.blade.tip": "guided",
            "rear.bar.blade.lever": "4.3 in",
        },
    ),
    "rolls over before it slides": (
        "gravel",
        0.6,
        {"cg_height": "950 mm", "tyre.grip_scale": 1.3, "front.bar.outer_diameter": "26 mm"},
    ),
    "slides below 0.3 g": ("coupe", 0.25, {"tyre.grip_scale": 0.25}),
    "roll centre below ground": ("coupe", 1.0, {"front.roll_centre_height": "-40 mm"}),
}


def sheet(name: str) -> dict:
    """The tables of a training car."""
    return tomllib.loads((CARS / f"{name}.toml").read_text(encoding="utf-8"))


def changed(base: str, changes: dict) -> dict:
    """A training car with fields put in, replaced, or taken out."""
    tables = copy.deepcopy(sheet(base))
    for path, value in changes.items():
        *inside, last = path.split(".")
        table = tables
        for name in inside:
            table = table[name]
        if value is None:
            table.pop(last, None)
        else:
            table[last] = value
    return tables
