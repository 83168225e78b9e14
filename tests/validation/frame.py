"""A bar as a 3-D frame of beam elements, by the general-purpose library PyNiteFEA.

Nothing but the record of the bar is shared with the package: sections and levers are worked out here.

Axes of the frame: x along the bar, y up, z along the arms. Bushings hold y and z and let the bar turn
and tilt; the ends of the centre section are held along x, so that it does not stretch. The tip of a guided
blade is held along x too. Beam elements without shear deflection (Euler and Bernoulli's beam), as the package
takes them.
"""

import math
from itertools import pairwise

import numpy as np
from Pynite import FEModel3D

from rollmodel.car import Bar

PULL = 1000.0  # N


def bar_frame(bar: Bar, position: int = 1, other_end: str = "pulled down") -> FEModel3D:
    """The bar, solved, with the left link pulled up by ``PULL``.

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
    guided = bar.blade is not None and bar.blade.tip == "guided"
    support = "bushing" if "left bushing" in names else "end"
    for side in ("left", "right"):
        model.def_support(f"{side} end", True)
        model.def_support(f"{side} {support}", True, True, True)
        model.def_support(f"{side} tip", guided, other_end == "held" and side == "right")
    model.add_node_load("left tip", "FY", PULL)
    if other_end == "pulled down":
        model.def_support("middle", False, False, False, True)
        model.add_node_load("right tip", "FY", -PULL)
    model.analyze_linear()
    return model


def bar_tips(bar: Bar, position: int = 1, other_end: str = "pulled down") -> tuple[float, float]:
    """Travel of the left and right link [m] of :func:`bar_frame`."""
    nodes = bar_frame(bar, position, other_end).nodes
    return tuple(float(nodes[f"{side} tip"].DY["Combo 1"]) for side in ("left", "right"))


def lever_and_offset(bar: Bar, position: int = 1) -> tuple[float, float]:
    """How far the link lies from the bar's axis, and how far outboard of the arm's root, [m]."""
    if bar.blade:
        return bar.blade.length, 0.0
    lever = bar.holes[position - 1]
    along = bar.arm_lengths[position - 1] if bar.arm_lengths else lever
    offset = math.sqrt(max(along**2 - lever**2, 0))
    return lever, offset if bar.arm_sweep == "outward" else -offset


def _points(model, bar, position):
    """Add the nodes from the left tip to the right one; their names in order."""
    lever, offset = lever_and_offset(bar, position)
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
    radius = bar.outer_diameter / 2
    bore = 0.0 if bar.wall is None else radius - bar.wall
    bending = math.pi / 4 * (radius**4 - bore**4)
    model.add_section("round", math.pi * (radius**2 - bore**2), bending, bending, 2 * bending)
    if bar.blade:
        _blade_section(model, bar.blade)
    else:
        stiffer = 1e6 if bar.arms == "rigid" else 1.0
        model.add_section("arm", 1.0, bending * stiffer, bending * stiffer, 2 * bending * stiffer)


def _blade_section(model, blade):
    """A strip: at no turn it lies flat, soft against a force along y."""
    wide, thin = blade.width, blade.thickness
    stiff, soft = thin * wide**3 / 12, wide * thin**3 / 12
    model.add_section("arm", wide * thin, stiff, soft, _strip_torsion(wide, thin))


def _strip_torsion(wide, thin):
    """Saint-Venant's constant of a rectangle, the usual short form; a straight blade does not twist."""
    return wide * thin**3 * (1 / 3 - 0.21 * thin / wide * (1 - (thin / wide) ** 4 / 12))


def bending_and_torque(model, start: str, end: str, at: str) -> tuple[np.ndarray, float]:
    """Two bending moments and the torque [N*m] of a member at one of its two nodes, from its end forces."""
    member = model.members[f"{start} {end}"]
    forces = member.f("Combo 1").ravel()  # three forces and three moments at the start, then at the end
    moments = forces[3:6] if at == start else forces[9:12]
    return moments[1:], float(abs(moments[0]))


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
