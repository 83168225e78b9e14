"""A bar as a 3-D frame of beam elements, by the general-purpose library PyNiteFEA.

Axes of the frame: x along the bar, y up, z along the arms. Bushings hold y and z and let the bar turn
and tilt; one of them holds x. Beam elements without shear deflection (Euler and Bernoulli's beam), as
the package takes them.
"""

import math
from itertools import pairwise

from Pynite import FEModel3D

from rollmodel.car import Bar
from rollmodel.physics.bar import arm_lengths, levers
from rollmodel.physics.sections import (
    rectangle_second_moment,
    rectangle_torsion_constant,
    round_polar_second_moment,
    round_second_moment,
)

PULL = 1000.0  # N


def bar_tips(bar: Bar, position: int = 1, other_end: str = "pulled down") -> tuple[float, float]:
    """Travel of the left and right link [m] with the left one pulled up by ``PULL``.

    Parameters
    ----------
    other_end : {"pulled down", "held"}
        What the right link does. Pulled down, both bushings let the bar turn about its own axis as one
        piece; that turn is held at mid-span, where in roll the bar does not turn.
    """
    model = FEModel3D()
    model.add_material("steel", bar.youngs_modulus, bar.shear_modulus, 0.3, 7850)
    names = _points(model, bar, position)
    _sections(model, bar)
    for start, end in pairwise(names):
        is_arm = "tip" in start or "tip" in end
        turn = math.degrees(bar.blade.angles[position - 1]) if is_arm and bar.blade else 0.0
        model.add_member(f"{start} {end}", start, end, "steel", "arm" if is_arm else "round", turn)
    left, right = ("left bushing", "right bushing") if "left bushing" in names else ("left end", "right end")
    model.def_support(left, True, True, True)
    model.def_support(right, False, True, True)
    model.add_node_load("left tip", "FY", PULL)
    if other_end == "held":
        model.def_support("right tip", False, True, False)
    else:
        model.def_support("middle", False, False, False, True)
        model.add_node_load("right tip", "FY", -PULL)
    model.analyze_linear()
    return tuple(float(model.nodes[f"{side} tip"].DY["Combo 1"]) for side in ("left", "right"))


def _points(model, bar, position):
    """Add the nodes from the left tip to the right one; their names in order."""
    lever, along = levers(bar)[position - 1], arm_lengths(bar)[position - 1]
    offset = math.sqrt(max(along**2 - lever**2, 0)) * (1 if bar.arm_sweep == "outward" else -1)
    end = bar.centre_length / 2
    bushing = (bar.support_spacing or bar.centre_length) / 2
    half = [("end", end, 0.0)] + ([("bushing", bushing, 0.0)] if bushing < end else [])
    points = [("tip", end + offset, lever), *half]
    names = []
    for name, x, z in points:
        names.append(model.add_node(f"left {name}", -x, 0, z))
    names.append(model.add_node("middle", 0, 0, 0))
    for name, x, z in reversed(points):
        names.append(model.add_node(f"right {name}", x, 0, z))
    return names


def _sections(model, bar):
    outer, inner = bar.outer_diameter, bar.inner_diameter
    bending, twist = round_second_moment(outer, inner), round_polar_second_moment(outer, inner)
    model.add_section("round", math.pi / 4 * (outer**2 - inner**2), bending, bending, twist)
    if bar.blade:
        _blade_section(model, bar.blade)
    else:
        stiffer = 1e6 if bar.arms == "rigid" else 1.0
        model.add_section("arm", 1.0, bending * stiffer, bending * stiffer, twist * stiffer)


def _blade_section(model, blade):
    """A strip: at no turn it lies flat, soft against a force along y."""
    soft = rectangle_second_moment(blade.width, blade.thickness)
    stiff = rectangle_second_moment(blade.thickness, blade.width)
    model.add_section(
        "arm",
        blade.width * blade.thickness,
        stiff,
        soft,
        rectangle_torsion_constant(blade.width, blade.thickness),
    )


def clamped_blade_tip(blade, position: int, youngs_modulus: float) -> float:
    """Travel up [m] of the tip of one blade built in at its root, under ``PULL`` up."""
    model = FEModel3D()
    model.add_material("steel", youngs_modulus, youngs_modulus / 2.6, 0.3, 7850)
    _blade_section(model, blade)
    model.add_node("root", 0, 0, 0)
    model.add_node("tip", 0, 0, blade.length)
    model.add_member("blade", "root", "tip", "steel", "arm", math.degrees(blade.angles[position - 1]))
    model.def_support("root", True, True, True, True, True, True)
    if blade.tip == "guided":
        model.def_support("tip", True)
    model.add_node_load("tip", "FY", PULL)
    model.analyze_linear()
    return float(model.nodes["tip"].DY["Combo 1"])
