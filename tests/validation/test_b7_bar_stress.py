"""Stress of a whole bar

No paper: the bar of B2 as frame elements by `PyNiteFEA`, both links pulled apart by 1000 N. Stresses are
worked out here from the end forces of its members: torque and both bending moments where the bushing or the
bend is, and at the root of the arm. The package gives the same from the difference in wheel travel that the
frame's links then have.

Computed by a second route. Nominal stresses of straight members, as the package says; no bend, hole or clamp.
"""

import functools
import math

import numpy as np

from rollmodel.car import Bar, Blade
from rollmodel.physics.stress import bar_stress
from tests.validation import frame
from tests.validation.evidence import SECOND_ROUTE, check

SOURCE = "B7"
SIZES = (0.1143, 0.01905, 0.00508)  # of a blade: length, width, thickness, m
BARS = {
    "solid, square arms, bushings at the bends": Bar(0.022, 0.9, 0.6, (0.2,)),
    "tube, bushings 0.6 m apart": Bar(0.022, 0.9, 0.6, (0.2,), wall=0.003, support_spacing=0.6),
    "arms swept outward, bushings 0.7 m apart": Bar(0.024, 0.9, 0.6, (0.2,), arm_lengths=(0.25,),
                                                    support_spacing=0.7),
    "arms swept inward, bushings at the bends": Bar(0.024, 0.9, 0.6, (0.2,), arm_lengths=(0.25,),
                                                    arm_sweep="inward"),
    **{f"{tip} blades at {turn} deg from flat": Bar(
        0.01905, 0.3048, 0.55, wall=0.003048, arms="blade", support_spacing=0.28,
        blade=Blade(*SIZES, (math.radians(turn),), tip))
        for tip in ("free", "guided") for turn in (30, 60)},
}  # fmt: skip


@functools.cache
def by_frame(name):
    """Shear and bending of the centre section and bending of the arm [Pa], and the wheels' difference [m]."""
    bar = BARS[name]
    model = frame.bar_frame(bar)
    radius, bore = bar.outer_diameter / 2, bar.outer_diameter / 2 - (bar.wall or bar.outer_diameter / 2)
    second = math.pi / 4 * (radius**4 - bore**4)
    inboard = "bushing" if "left bushing" in model.nodes else "end"
    bending = [np.hypot(*frame.bending_and_torque(model, *place)[0]) for place in centre_places(inboard)]
    _, torque = frame.bending_and_torque(model, f"left {inboard}", "middle", f"left {inboard}")
    root, _ = frame.bending_and_torque(model, "left tip", "left end", "left end")
    left, right = (float(model.nodes[f"{side} tip"].DY["Combo 1"]) for side in ("left", "right"))
    return (torque * radius / (2 * second), max(bending) * radius / second, arm_stress(bar, root),
            (left - right) / bar.link_motion_ratio)  # fmt: skip


def centre_places(inboard):
    """Where the centre section may bend most: at the bend and at the bushing."""
    yield f"left {inboard}", "middle", f"left {inboard}"
    if inboard == "bushing":
        yield "left end", "left bushing", "left end"


def arm_stress(bar, moments):
    """At the surface of a round arm; at the corner of a blade, whose two moments are about its own axes."""
    if not bar.blade:
        radius, bore = bar.outer_diameter / 2, bar.outer_diameter / 2 - (bar.wall or bar.outer_diameter / 2)
        return np.hypot(*moments) * radius / (math.pi / 4 * (radius**4 - bore**4))
    wide, thin = bar.blade.width, bar.blade.thickness
    about_stiff, about_soft = np.abs(moments)
    return about_stiff * 6 / (thin * wide**2) + about_soft * 6 / (wide * thin**2)


def test_stresses():
    for name, bar in BARS.items():
        shear, centre, arm, travel = by_frame(name)
        ours = bar_stress(bar, travel)
        rows = {"link force": (frame.PULL, ours.link_force, "N", 1),
                "shear stress of the centre section": (shear, ours.shear, "MPa", 1e6),
                "bending stress of the centre section": (centre, ours.centre_bending, "MPa", 1e6),
                "bending stress at the root of the arm": (arm, ours.arm_bending, "MPa", 1e6)}  # fmt: skip
        for result, (theirs, mine, unit, by) in rows.items():
            check(SOURCE, f"{name}: {result}", f"{theirs / by:.3f}", mine[0] / by, unit, SECOND_ROUTE)


def test_a_guide_bends_the_centre_section():
    """Without the sideways push of a guided blade the centre section would seem a tenth as bent."""
    free, guided = (by_frame(f"{tip} blades at 30 deg from flat")[1] for tip in ("free", "guided"))
    assert guided > 10 * free
