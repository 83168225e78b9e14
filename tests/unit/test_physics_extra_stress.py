"""Bar stress: member forces against a 3-D frame library, energy, and a printed example."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from Pynite import FEModel3D

from rollmodel.car import Blade, CarError
from rollmodel.physics.bar import compliance_parts, link_rates_one_end_held
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.section_stress import (
    blade_root_stress,
    largest_shear,
    rectangle_bending_stress,
    round_bending_stress,
    von_mises,
)
from rollmodel.physics.sections import round_polar_second_moment, round_second_moment
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.stress import bar_stress, outside_travel, stress_in_corner, travel_difference
from tests.unit.physics_extra_car import a_bar, a_car

BENT = {
    "square": a_bar(link_motion_ratio=1.0),
    "bushings inboard": a_bar(link_motion_ratio=1.0, support_spacing=0.6),
    "swept out": a_bar(link_motion_ratio=1.0, arm_lengths=(0.26, 0.24, 0.21)),
    "swept out, bushings inboard": a_bar(link_motion_ratio=1.0, arm_lengths=(0.26, 0.24, 0.21),
                                         support_spacing=0.7),
    "swept in, bushings inboard": a_bar(link_motion_ratio=1.0, arm_lengths=(0.23, 0.21, 0.19),
                                        arm_sweep="inward", support_spacing=0.8),
}


def frame_forces(bar, force):
    """Tip travel, torque, moment at the worst place of the centre and at the arm root, by finite elements."""
    lever = bar.holes[bar.hole - 1]
    along = bar.arm_lengths[bar.hole - 1] if bar.arm_lengths else lever
    sweep = np.sqrt(max(along**2 - lever**2, 0)) * (1 if bar.arm_sweep == "outward" else -1)
    end, bushing = bar.centre_length / 2, (bar.support_spacing or bar.centre_length) / 2
    places = {"tip": (end + sweep, lever), "end": (end, 0.0)}
    if bushing < end:
        places["bushing"] = (bushing, 0.0)
    nodes = [(f"l {name}", -x, z) for name, (x, z) in places.items()] + [("middle", 0.0, 0.0)]
    nodes += [(f"r {name}", x, z) for name, (x, z) in reversed(places.items())]
    model = FEModel3D()
    model.add_material("steel", bar.youngs_modulus, bar.shear_modulus, 0.3, 7850)
    second = round_second_moment(bar.outer_diameter, bar.inner_diameter)
    model.add_section("tube", 3e-4, second, second, 2 * second)
    for name, x, z in nodes:
        model.add_node(name, x, 0, z)
    members = [f"{a[0]}-{b[0]}" for a, b in pairwise(nodes)]
    for name, (a, b) in zip(members, pairwise(nodes), strict=True):
        model.add_member(name, a[0], b[0], "steel", "tube")
    held = "bushing" if bushing < end else "end"
    model.def_support(f"l {held}", True, True, True)
    model.def_support(f"r {held}", False, True, True)
    model.def_support("middle", False, False, False, True)  # in roll the bar does not turn as a whole
    model.add_node_load("l tip", "FY", force)
    model.add_node_load("r tip", "FY", -force)
    model.analyze_linear()
    centre = [m for m in members if "tip" not in m]

    def worst(names):
        return max(np.abs([model.members[n].max_moment(d) for n in names for d in ("My", "Mz")]
                          + [model.members[n].min_moment(d) for n in names for d in ("My", "Mz")]))

    travel = model.nodes["l tip"].DY["Combo 1"] - model.nodes["r tip"].DY["Combo 1"]
    return travel, abs(model.members[centre[-1]].max_torque()), worst(centre), worst([members[0]])


@pytest.mark.parametrize("bar", BENT.values(), ids=BENT)
@pytest.mark.parametrize("hole", [1, 3])
def test_forces_match_frame_finite_elements(bar, hole):
    bar = replace(bar, hole=hole)
    found = bar_stress(bar, 0.05)
    force = found.link_force[hole - 1]
    travel, torque, centre, arm = frame_forces(bar, force)
    # Same beams on both sides: rounding of the library's solve, its bars being one piece each.
    assert travel == pytest.approx(0.05, rel=1e-6)
    assert found.torque[hole - 1] == pytest.approx(torque, rel=1e-6)
    tube = (bar.outer_diameter, bar.inner_diameter)
    assert found.centre_bending[hole - 1] == pytest.approx(
        round_bending_stress(centre, *tube), rel=1e-6, abs=1.0)
    assert found.arm_bending[hole - 1] == pytest.approx(round_bending_stress(arm, *tube), rel=1e-6)


def test_unsymmetrical_bending_as_beer_and_johnston_print_it():
    """Mechanics of Materials: 1.5 x 3.5 in, 1600 lbf*in at 30 deg, 1062 psi (published, second-hand)."""
    psi, inch, pound_inch = 6894.757, 0.0254, 0.1129848
    moment = 1600 * pound_inch
    stress = rectangle_bending_stress(moment * np.sin(np.pi / 6), moment * np.cos(np.pi / 6),
                                      3.5 * inch, 1.5 * inch)
    assert stress / psi == pytest.approx(1062, abs=0.5)


@pytest.mark.parametrize("tip", ["free", "guided"])
@pytest.mark.parametrize("degrees", [0, 10, 45, 80, 90])
def test_blade_root_by_the_flexure_formula_at_all_four_corners(tip, degrees):
    """Deflection first, then curvature, then strain at each corner: no section modulus used."""
    length, width, thickness, youngs, force = 0.15, 0.020, 0.004, 207e9, 80.0
    beta = np.radians(degrees)
    flat, edge = width * thickness**3 / 12, thickness * width**3 / 12
    # Travel across the thin side (u) and the wide side (v) from the energy's stationary point.
    rates = 3 * youngs / length**3 * np.array([flat, edge])
    direction = np.array([np.cos(beta), np.sin(beta)])
    moved = force * direction / (rates if tip == "free" else rates @ direction**2)
    curvature = 3 * moved / length**2
    corners = [(s * thickness / 2, r * width / 2) for s in (1, -1) for r in (1, -1)]
    strains = [curvature @ corner for corner in corners]
    ours = blade_root_stress(force, length, width, thickness, beta, tip)
    assert ours == pytest.approx(youngs * max(strains), rel=1e-12)


def test_blades_are_stressed_at_every_angle():
    blade = Blade(length=0.2, width=0.022, thickness=0.005, angles=(0.0, np.pi / 4, np.pi / 2))
    bar = a_bar(holes=(), arms="blade", blade=blade, hole=1)
    found = bar_stress(bar, 0.03)
    assert found.arm_bending.shape == (3,) and np.all(found.arm_bending > 0)
    assert np.all(np.diff(found.torque) > 0)


def test_work_at_the_links_is_the_strain_energy():
    """``F d / 2`` with the whole difference ``d`` against torsion and two cantilevers, integrated."""
    bar = a_bar(link_motion_ratio=1.0)
    d = 0.04
    found = bar_stress(bar, d)
    for i, arm in enumerate(bar.holes):
        along = np.linspace(0, arm, 2001)
        bending = (found.link_force[i] * along) ** 2 / (
            2 * bar.youngs_modulus * round_second_moment(bar.outer_diameter, bar.inner_diameter))
        twisting = found.torque[i] ** 2 * bar.centre_length / (
            2 * bar.shear_modulus * round_polar_second_moment(bar.outer_diameter, bar.inner_diameter))
        inside = twisting + 2 * np.trapezoid(bending, along)
        assert found.link_force[i] * d / 2 == pytest.approx(inside, rel=1e-6)  # 2000 trapezia


def test_twist_takes_its_share_of_the_travel_and_no_more():
    bar = a_bar(link_motion_ratio=0.8, support_spacing=0.7, bushing_rate=2e6, link_rate=5e6)
    found, parts = bar_stress(bar, 0.05), compliance_parts(bar)
    share = parts["twist"] / sum(parts.values())
    assert found.twist * np.array(bar.holes) == pytest.approx(share * 0.8 * 0.05, rel=1e-12)
    rigid = replace(bar, arms="rigid", support_spacing=None, bushing_rate=None, link_rate=None)
    whole = bar_stress(rigid, 0.05).twist * np.array(bar.holes)
    assert whole == pytest.approx(0.8 * 0.05, rel=1e-12)
    assert np.all(bar_stress(rigid, 0.05).shear > found.shear)


def test_stiffer_hole_is_more_stress_for_the_same_wheel_travel():
    for bar in (a_bar(), a_bar(arms="rigid"), a_bar(support_spacing=0.6)):
        found = bar_stress(bar, 0.05)
        assert np.all(np.diff(found.shear) > 0)
        assert np.all(np.diff(found.largest) > 0)
        assert np.all(np.diff(found.twist) > 0)


def test_stiffer_hole_on_the_car_is_more_stress_in_the_same_corner():
    stresses = [float(stress_in_corner(a_car().with_holes(front=hole), "front", 9.0).shear)
                for hole in (1, 2, 3)]
    assert stresses == sorted(stresses)


def test_travel_is_the_body_roll_less_what_the_tyres_take():
    """By the roll angle instead of the moment: ``d = t (phi - moment / K_tyre)``."""
    car = a_car()
    corner = settled_corner(car, np.array([2.0, 5.0, 8.0]))
    for end in ("front", "rear"):
        stiff, loads = axle_stiffness(car.axle(end)), corner.axle(end)
        psi = loads.roll_angle - loads.elastic * stiff.track / stiff.tyre_roll
        assert travel_difference(stiff, loads) == pytest.approx(stiff.track * psi, rel=1e-12)


def test_travel_on_the_bump_stop_balances_the_forces_at_the_wheels():
    """Springs, bar and stop at the two wheels, from their travels, give the moment back and no weight."""
    car = a_car(rear={"bump_travel": 0.02, "bump_stop_rate": 60e3})
    corner = settled_corner(car, 8.5)
    stiff, loads = axle_stiffness(car.rear), corner.rear
    assert loads.on_stop
    d, up = travel_difference(stiff, loads), outside_travel(stiff, loads)
    outside = stiff.spring_wheel_rate * up + stiff.bar_wheel_rate * d + 60e3 * (up - 0.02)
    inside = stiff.spring_wheel_rate * (up - d) - stiff.bar_wheel_rate * d
    assert (outside - inside) * stiff.track / 2 == pytest.approx(loads.elastic * stiff.track, rel=1e-9)
    assert outside + inside == pytest.approx(0, abs=1e-9 * outside)


def test_a_lifted_wheel_stops_the_stress_from_rising():
    car = a_car(rear={"spring_rate": 220e3}, cg_height=0.67)
    first, second = stress_in_corner(car, "rear", np.array([9.0, 9.5])).torque
    corner = settled_corner(car, np.array([9.0, 9.5]))
    assert corner.rear.lifted.all()
    assert second <= first  # the moment left to springs and bar is what links and axle do not take


def test_stress_in_a_corner_by_the_long_way_round():
    car = a_car()
    corner = settled_corner(car, 7.0)
    stiff = axle_stiffness(car.front)
    psi = float(corner.front.roll_angle - corner.front.elastic * stiff.track / stiff.tyre_roll)
    bar = car.front.bar
    force = link_rates_one_end_held(bar)[1] * bar.link_motion_ratio * psi * stiff.track
    shear = 16 * force * 0.20 * 0.024 / (np.pi * (0.024**4 - 0.016**4))
    found = stress_in_corner(car, "front", 7.0, allowable=400e6)
    assert float(found.shear) == pytest.approx(shear, rel=1e-12)
    assert float(found.share_of_allowable) == pytest.approx(float(found.largest) / 400e6)
    assert np.isnan(stress_in_corner(car, "front", 7.0).share_of_allowable)


def test_combined_figures_have_their_textbook_limits():
    assert von_mises(0.0, 1.0) == pytest.approx(np.sqrt(3))
    assert von_mises(1.0, 0.0) == 1.0
    assert largest_shear(2.0, 0.0) == 1.0
    # Mohr's circle, by eigenvalues of the stress tensor.
    tensor = np.array([[120.0, 80, 0], [80, 0, 0], [0, 0, 0]])
    principal = np.linalg.eigvalsh(tensor)
    assert largest_shear(120.0, 80.0) == pytest.approx((principal.max() - principal.min()) / 2)
    mises = np.sqrt(sum((a - b) ** 2 for a, b in zip(principal, np.roll(principal, 1), strict=True)) / 2)
    assert von_mises(120.0, 80.0) == pytest.approx(mises)


def test_worst_place_is_named():
    long_arms = a_bar(holes=(0.4, 0.3, 0.2))
    found = bar_stress(long_arms, 0.05)
    assert set(np.unique(found.where)) <= {"centre section", "arm root"}
    # Square arms of the bar's own section: sqrt(3) tau against s = 2 tau, so the root is the worse.
    assert list(found.where) == ["arm root"] * 3
    assert list(bar_stress(a_bar(arms="rigid"), 0.05).where) == ["centre section"] * 3
    assert np.isnan(bar_stress(a_bar(arms="rigid"), 0.05).arm_bending).all()


def test_travels_of_either_sign_and_in_arrays():
    bar = a_bar()
    many = bar_stress(bar, np.array([[-0.05], [0.0], [0.05]]))
    assert many.shear.shape == (3, 3)
    assert many.shear[0] == pytest.approx(many.shear[2])
    assert np.all(many.shear[1] == 0)


def test_refusals():
    with pytest.raises(CarError, match=r"^\[rear.bar\]: wanted a bar"):
        stress_in_corner(a_car(rear={"bar": None}), "rear", 5.0)
    with pytest.raises(CarError, match="^allowable: wanted a finite stress above zero, given 0 Pa"):
        bar_stress(a_bar(), 0.05, allowable=0)
    over = stress_in_corner(a_car(), "front", 40.0)
    assert np.isnan(over.shear)
