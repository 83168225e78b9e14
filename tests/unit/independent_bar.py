"""The second road, first part: a sheet's values with their units, scanning tools, and the bar.

Plain floats; shares no code with the package. The bar by strain energy summed over slices (derived here).
"""

import math
import re

G = 9.80665
POUND, INCH = 0.45359237, 0.0254
LBF = POUND * G
DEG = math.pi / 180
OTHER = {"front": "rear", "rear": "front"}
UNITS = {
    "mm": 1e-3,
    "m": 1.0,
    "in": INCH,
    "ft": 12 * INCH,
    "kg": 1.0,
    "lb": POUND,
    "%": 0.01,
    "deg": DEG,
    "rad": 1.0,
    "N/mm": 1e3,
    "N/m": 1.0,
    "kN/m": 1e3,
    "lbf/in": LBF / INCH,
    "kgf/mm": G * 1e3,
    "N*m/deg": 1 / DEG,
    "N*m/rad": 1.0,
    "kN*m/rad": 1e3,
    "lbf*ft/deg": LBF * 12 * INCH / DEG,
    "N*s/m": 1.0,
    "N*s/mm": 1e3,
    "lbf*s/in": LBF / INCH,
    "GPa": 1e9,
    "Mpsi": 1e6 * LBF / INCH**2,
    "N/deg": 1 / DEG,
    "lbf/deg": LBF / DEG,
    "N/rad": 1.0,
    "1/kN": 1.0,
}


def number(value):
    """A sheet's value in SI (per kN for the loss of grip)."""
    if not isinstance(value, str):
        return value
    figure, unit = re.fullmatch(r"([-+.\deE]+)\s*(.*)", value).groups()
    return float(figure) * UNITS[unit]


def halve(condition, low, high, steps=70):
    """Where a condition turns from true to false."""
    for _ in range(steps):
        middle = (low + high) / 2
        low, high = (middle, high) if condition(middle) else (low, middle)
    return (low + high) / 2


def top_of(force):
    """Largest value of a force over slip up to 60 degrees and where it lies: a scan, then finer ones."""
    best, width = 30 * DEG, 30 * DEG
    for step in range(6):
        tries = (best + width * (i / 20 - 1) for i in range(41)) if step else (i * DEG for i in range(1, 61))
        best = max(tries, key=lambda slip: force(max(slip, 1e-6)))
        width = 2 * DEG if step == 0 else width / 10
    return force(best), best


def blade_compliance(blade, hole, young, root_turn=0.0):
    """Tip deflection per newton of a thin cantilever turned about its own axis, free or guided.

    ``root_turn``: how far a guide's newton moves the tip because the root turns with the centre section.
    """
    length, wide, thin = (number(blade[name]) for name in ("length", "width", "thickness"))
    angles = [number(angle) for angle in blade["angles"]]
    if blade.get("angle_from", "flat") == "on edge" or angles[0] > angles[-1]:
        angles = [math.pi / 2 - angle for angle in angles]
    flat, edge = (length**3 / (3 * young * b * h**3 / 12) for b, h in ((wide, thin), (thin, wide)))
    c2, s2 = math.cos(angles[hole - 1]) ** 2, math.sin(angles[hole - 1]) ** 2
    if blade.get("tip") != "guided":
        return c2 * flat + s2 * edge
    both = math.sqrt(c2 * s2) * (flat - edge)  # sideways travel for a newton up, and the other way about
    guide = -both / (s2 * flat + c2 * edge + root_turn)  # newtons that keep the tip where it is sideways
    return c2 * flat + s2 * edge + both * guide


def bar_wheel_rate_in_roll(bar):
    """Force at one wheel per metre of its own travel, the other moving as far the other way, N/m."""
    if bar is None:
        return 0.0
    shear, young = number(bar.get("shear_modulus", "79.3 GPa")), number(bar.get("youngs_modulus", "206 GPa"))
    outer = number(bar["outer_diameter"])
    inner = outer - 2 * number(bar["wall"]) if "wall" in bar else 0.0
    second = math.pi / 64 * (outer**4 - inner**4)
    centre, hole = number(bar["centre_length"]), bar.get("hole", 1)
    blade = bar.get("blade")
    if blade:
        lever = number(blade.get("lever", blade["length"]))
        along = lever
    else:
        holes = [number(one) for one in bar["holes"]]
        lever = holes[hole - 1]
        given = bar.get("arm_length", holes)
        along = number(given[hole - 1]) if isinstance(given, list) else number(given) * lever / holes[0]
    # One newton up at this link, one down at the other: twice the energy of half the bar is the travel.
    energy = lever**2 / (2 * shear * 2 * second) * centre / 2
    aside = math.sqrt(max(along**2 - lever**2, 0)) * (-1 if bar.get("arm_sweep") == "inward" else 1)
    support = number(bar.get("support_spacing", bar["centre_length"]))
    energy += sum_of_bending(centre, support, aside) / (2 * young * second)
    if bar["arms"] == "same section":
        slices, step = 4000, along / 4000
        energy += sum(((i + 0.5) * step) ** 2 for i in range(slices)) * step / (2 * young * second)
    travel = 2 * energy
    if blade:  # a guide's newton puts the lever's moment on the centre section, falling to nil at mid-span
        turn = lever**2 * sum_of_turning(centre, support) / (young * second)
        travel += blade_compliance(blade, hole, young, turn)
    travel += sum(1 / number(bar[name]) for name in ("bushing_rate", "link_rate") if name in bar)
    at_arm, at_pickup = (number(bar.get(f"link_lean_at_{end}", "0 deg")) for end in ("arm", "pickup"))
    # The force along the link is what both ends share: the arm feels its part square to the arm.
    arm_force_per_pickup_force = math.cos(at_arm) / math.cos(at_pickup)
    ratio = bar["link_motion_ratio"] / arm_force_per_pickup_force
    return ratio**2 / travel


def sum_of_turning(centre, support, slices=4000):
    """Integral of the squared moment over half the centre section for a couple of one at its end."""
    step = centre / 2 / slices
    return sum(min((i + 0.5) * step / (support / 2), 1) ** 2 for i in range(slices)) * step


def sum_of_bending(centre, support, aside, slices=4000):
    """Integral of the squared bending moment over half the centre section for one newton at the link."""

    def moment(x):  # x from mid-span outwards; bushing at half the support spacing
        arm = centre / 2 + aside
        if x > support / 2:
            return arm - x
        return (arm - support / 2) * x / (support / 2)

    step = centre / 2 / slices
    return sum(moment((i + 0.5) * step) ** 2 for i in range(slices)) * step
