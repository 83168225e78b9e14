"""The numbers that pictures show: taken from the drawn marks or the words, held against a second road."""

import re
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from rollmodel.car import GRAVITY, Bar, Tyre
from rollmodel.figures import (
    axle_behind,
    bar_rate_holes,
    bar_section,
    before_after,
    car_above,
    corner_in_time,
    grip_load,
    hole_map,
    transfer_paths,
    two_regimes,
    understeer_curve,
)
from rollmodel.figures.look import DPI, Look
from rollmodel.physics.balance import limits, understeer_gradient
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.pair import axle_arguments, largest_axle_force
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.physics.transient import roll_against_time
from rollmodel.physics.tyre import side_force
from tests.unit.figure_states import COUPE, GRAVEL, HATCH, NM_PER_DEG, SINGLE, SWEPT, hill, setup

LOOK = Look()
LBF, INCH = 4.4482216152605, 0.0254


def drawn(picture, result, family="metric"):
    figure = Figure(figsize=LOOK.size, dpi=DPI)
    FigureCanvasAgg(figure)
    return picture.draw(figure, result, LOOK, family)


def numbers(text, unit):
    return [float(found) for found in re.findall(rf"([+-]?\d+(?:\.\d+)?) {re.escape(unit)}(?![\w/·])", text)]


def width(patch):
    corners = patch.get_xy()
    return np.ptp(corners[:, 0])


def test_wheels_moved_by_the_axle_matrix():
    """F_l = (k_w + k_b) z_l - k_b z_r, worked here by hand for 30 mm on the left alone."""
    spring, bar = 65e3 * 0.70**2, float(axle_stiffness(COUPE.front).bar_wheel_rate)
    text = axle_behind.describe(axle_behind.by_travel(COUPE.front, 0.03, 0.0))
    left, right, bar_left, bar_right = numbers(text, "N")
    assert [left, right] == [round((spring + bar) * 0.03), round(-bar * 0.03)]
    assert [bar_left, bar_right] == [round(bar * 0.03), -round(bar * 0.03)]
    us = numbers(axle_behind.describe(axle_behind.by_travel(COUPE.front, 0.03, 0.0), "US customary"), "lbf")
    assert us[0] == round((spring + bar) * 0.03 / LBF)


def test_both_wheels_up_leaves_the_bar_alone():
    scene = axle_behind.by_travel(COUPE.front, 0.05, 0.05)
    assert "does nothing" in axle_behind.describe(scene)
    assert drawn(axle_behind, scene)["bar word"].get_text() == "bar not\ntwisted"


def test_bar_ends_part_by_the_motion_ratio():
    """100 mm between the wheels, 0.62 mm of link for each: 62 mm between the ends."""
    scene = axle_behind.by_travel(COUPE.front, 0.05, -0.05)
    assert "62 mm apart" in drawn(axle_behind, scene)["bar word"].get_text().replace("\n", " ")


def test_force_arrows_are_as_long_as_their_loads():
    drawing = drawn(axle_behind, axle_behind.in_corner(COUPE, "front", 0.8 * GRAVITY))
    loads = settled_corner(COUPE, 0.8 * GRAVITY).front
    long = [np.ptp(arrow._posA_posB, axis=0)[1] for arrow in drawing["forces"]]
    assert long[1] / long[0] == pytest.approx(float(loads.outside / loads.inside), rel=1e-9)


def test_body_is_drawn_at_its_enlarged_angle():
    scene = axle_behind.in_corner(COUPE, "front", 0.9 * GRAVITY)
    body = drawn(axle_behind, scene)["body"].get_xy()
    plain = axle_behind.BODY
    edge, level = body[9] - body[0], plain[9] - plain[0]
    angle = np.arctan2(level[1], level[0]) - np.arctan2(edge[1], edge[0])
    assert scene.factor > 1
    assert angle == pytest.approx(scene.factor * float(settled_corner(COUPE, 0.9 * GRAVITY).front.roll_angle))


def test_lifted_wheel_leaves_its_plate_and_lands_where_the_model_lets_it():
    """Just before the wheel lifts it touches the plate; after, the gap grows with lateral acceleration."""
    def gap(g):
        drawing = drawn(axle_behind, axle_behind.in_corner(HATCH, "rear", g * GRAVITY))
        return drawing["wheels"][0].get_xy()[:, 1].min() - drawing["plates"][0].get_xy()[:, 1].max()
    assert not settled_corner(HATCH, 0.6 * GRAVITY).rear.lifted and settled_corner(HATCH,
                                                                                   0.8 * GRAVITY).rear.lifted
    assert gap(0.6) == pytest.approx(0)
    assert 0 < gap(0.8) < gap(0.95)


def test_no_body_touches_its_wheels_up_to_one_g():
    for car in (COUPE, HATCH, GRAVEL, SINGLE):
        for end in ("front", "rear"):
            body = drawn(axle_behind, axle_behind.in_corner(car, end, 1.0 * GRAVITY))["body"].get_xy()
            assert np.abs(body[:, 0]).max() < axle_behind.ARM_AT + 0.2, (car.title, end)


def test_rolling_over_is_said():
    scene = axle_behind.in_corner(GRAVEL, "front", 1.6 * GRAVITY)
    assert "rolls over" in axle_behind.describe(scene)
    assert drawn(axle_behind, scene)["roll"].get_text() == "rolls over"
    assert "rolls over" in car_above.describe(car_above.in_corner(GRAVEL, 1.6 * GRAVITY))


def test_patches_are_as_long_as_their_loads():
    scene, corner = car_above.in_corner(COUPE, 0.9 * GRAVITY), settled_corner(COUPE, 0.9 * GRAVITY)
    long = [width(patch) for patch in drawn(car_above, scene)["patches"]]
    loads = [float(corner.axle(end).__getattribute__(side)) for end in ("front", "rear")
             for side in ("inside", "outside")]
    means = np.repeat([COUPE.axle_weight(end) / 2 for end in ("front", "rear")], 2)
    assert np.allclose(long, car_above.PATCH_LONG * np.array(loads) / means)


def test_lifted_patch_is_hollow_and_says_so():
    drawing = drawn(car_above, car_above.in_corner(HATCH, 1.0 * GRAVITY))
    assert [patch.get_fill() for patch in drawing["patches"]] == [True, True, False, True]
    assert "0, off the ground" in drawing["values"][2].get_text()


def test_car_from_above_in_pounds():
    corner = settled_corner(COUPE, 0.9 * GRAVITY)
    found = numbers(car_above.describe(car_above.in_corner(COUPE, 0.9 * GRAVITY), "US customary"), "lbf")
    wanted = [corner.front.load_transfer, corner.rear.load_transfer, corner.front.outside,
              corner.rear.outside]
    # Rounded so that wheels and transfer add up as printed: each at most a whole pound off.
    assert found == pytest.approx([float(force) / LBF for force in wanted], abs=1.0)


def test_loss_of_an_uneven_pair_is_the_closed_form():
    """4 +- 2 kN on the 1987 formula loses 2 |a1| dF^2 = 176.8 N (computed from published inputs), each tyre
    at its own best slip angle; at one slip angle a little more, up to 5 %, found by trying every angle."""
    pairs = grip_load.Pairs(Tyre(), (2000.0, 6000.0), (3000.0, 5000.0))
    slips = np.radians(np.linspace(0.0, 30.0, 30_001))
    for end, by_hand in (("front", 176.8), ("rear", 176.8 / 4)):
        most = sum(side_force(Tyre(), slips, load) for load in getattr(pairs, end)).max()
        assert pairs.loss(end) == pytest.approx(2 * pairs.even(end)[1] - most, abs=1e-3)
        assert by_hand - 0.05 <= pairs.loss(end) <= 1.05 * by_hand
        assert f"loses {pairs.loss(end):.0f} N" in grip_load.describe(pairs)


def test_magnified_gap_is_the_loss_at_the_same_scale_both_ways():
    drawing = drawn(grip_load, grip_load.in_corner(COUPE, 1.0 * GRAVITY))
    pairs, deep = grip_load.in_corner(COUPE, 1.0 * GRAVITY), drawing.fixed["deep"]
    for end in grip_load.ENDS:
        mean, even = drawing[f"{end} mean"], drawing[f"{end} even"]
        assert (even.get_ydata()[0] - mean.get_ydata()[0]) * deep * 2 == pytest.approx(pairs.loss(end))
        chord = drawing[f"{end} near chord"]
        middle = np.mean(chord.get_ydata())
        assert middle == pytest.approx(mean.get_ydata()[0])
        loupe, ax = mean.axes, drawing.ax
        per_pixel = [(np.ptp(a.get_xlim()) * x / a.bbox.width, np.ptp(a.get_ylim()) * y / a.bbox.height)
                     for a, x, y in ((loupe, drawing.fixed[f"{end} wide"], deep), (ax, 1.0, 1.0))]
        across, up = (near / whole for near, whole in zip(*per_pixel, strict=True))
        assert across == pytest.approx(up, rel=0.02)


def test_paths_lie_end_on_end_and_add_up():
    drawing = drawn(transfer_paths, transfer_paths.in_corner(COUPE, 0.9 * GRAVITY))
    loads = settled_corner(COUPE, 0.9 * GRAVITY).front
    parts = [float(part) for part in (loads.elastic, loads.geometric, loads.unsprung)]
    bars = drawing["front bars"]
    assert np.allclose([width(bar) for bar in bars], parts)
    assert np.allclose([bar.get_xy()[:, 0].max() for bar in bars], np.cumsum(parts))
    assert drawing["front total"].get_xdata()[0] == pytest.approx(sum(parts))
    assert drawing["front cap"].get_xdata()[0] == pytest.approx(COUPE.axle_weight("front") / 2)


def test_roll_centre_below_ground_takes_away():
    """The links' part lies left of nil and the line of the whole left of the longest bar's end."""
    drawing = drawn(transfer_paths, transfer_paths.in_corner(SINGLE, 1.5 * GRAVITY))
    links, total = drawing["rear bars"][1].get_xy()[:, 0], drawing["rear total"].get_xdata()[0]
    assert links.min() < 0 and links.max() == pytest.approx(0)
    assert total == pytest.approx(float(settled_corner(SINGLE, 1.5 * GRAVITY).rear.load_transfer))
    assert drawing.ax.get_xlim()[0] < links.min()


def test_curve_ends_at_the_lower_limit_with_the_models_slope():
    held = limits(COUPE)
    one = understeer_curve.curve(COUPE)
    assert one.limit == pytest.approx(float(held.lower), rel=1e-6)
    slope = np.interp(0.31 * GRAVITY, one.acceleration, one.angle) - np.interp(0.29 * GRAVITY,
                                                                               one.acceleration, one.angle)
    # Read off a polyline of 60 points: a tenth of the slope is what it can resolve.
    assert slope / (0.02 * GRAVITY) == pytest.approx(float(understeer_gradient(COUPE)), rel=0.1)
    text = understeer_curve.describe(understeer_curve.compare(COUPE, setup(COUPE, 3, 1), setup(COUPE, 1, 3)))
    wanted = [float(limits(COUPE, *setup(COUPE, *pair)).lower) / GRAVITY for pair in ((3, 1), (1, 3))]
    assert [float(f) for f in re.findall(r"first at (\d\.\d+) g", text)] == [round(g, 3) for g in wanted]


def test_a_guess_is_drawn_with_its_slope_and_goes_away():
    change = understeer_curve.compare(COUPE, setup(COUPE, 2, 2), setup(COUPE, 1, 3))
    drawing = drawn(understeer_curve, change)
    understeer_curve.mark(drawing, np.radians(0.5) / GRAVITY)  # 0.5 deg/g
    x, y = drawing["guess"].get_data()
    assert drawing["guess"].get_visible() and (y[1] - y[0]) / (x[1] - x[0]) == pytest.approx(0.5)
    understeer_curve.mark(drawing, None)
    assert not drawing["guess"].get_visible() and not drawing["guess word"].get_visible()


@pytest.mark.parametrize("picture, result, guess, shown", [
    (bar_rate_holes, bar_rate_holes.of_axle(COUPE.front), 50e3, 50.0),
    (before_after, before_after.compare(COUPE, setup(COUPE, 2, 2), setup(COUPE, 1, 3)), 1.05 * GRAVITY,
     1.05)])
def test_guesses_as_level_lines(picture, result, guess, shown):
    drawing = drawn(picture, result)
    assert not drawing["guess"].get_visible()
    picture.mark(drawing, guess)
    picture.update(drawing, result)
    high = drawing.fixed["rates"].span[1] if "rates" in drawing.fixed else 1.0
    assert drawing["guess"].get_visible()
    assert np.allclose(high * np.array(drawing["guess"].get_ydata()), shown)


def test_guess_of_the_top_stands_upright():
    drawing = drawn(two_regimes, hill(700, 300))
    two_regimes.mark(drawing, 900 * NM_PER_DEG)
    two_regimes.update(drawing, hill(200, 900))
    assert drawing["guess"].get_visible() and np.allclose(drawing["guess"].get_xdata(), 900)
    two_regimes.mark(drawing, None)
    assert not drawing["guess"].get_visible()


def test_rate_goes_with_one_over_lever_squared_for_rigid_arms():
    bar = Bar(0.022, 0.9, 0.6, (0.2, 0.1), 1, arms="rigid")
    curve = bar_rate_holes.of_axle(replace(COUPE.front, bar=bar))
    assert curve.rates[1] / curve.rates[0] == pytest.approx(4.0)
    assert np.ptp(curve.rate * curve.setting**2) == pytest.approx(0, abs=1e-6 * curve.rate[0])


def test_curve_passes_through_the_positions_and_stiffens_late():
    """Free tip: half-way between the two rates lies well past half-way in angle."""
    curve = bar_rate_holes.of_axle(SINGLE.front, 4)
    assert np.allclose(np.interp(curve.settings, curve.setting, curve.rate), curve.rates, rtol=2e-3)
    half = float(re.search(r"reached at (\d+) deg", bar_rate_holes.describe(curve))[1])
    assert 55 < half < 75
    swept = bar_rate_holes.of_axle(replace(COUPE.front, bar=SWEPT))
    assert np.allclose(np.interp(-swept.settings, -swept.setting, swept.rate), swept.rates, rtol=2e-3)


def test_map_has_the_limits_of_each_pair_and_its_best():
    chart = hole_map.of_car(COUPE)
    held = [[limits(COUPE, *setup(COUPE, f, r)) for r in (1, 2, 3)] for f in (1, 2, 3)]
    wanted = np.array([[float(one.lower) for one in row] for row in held])
    assert np.allclose(chart.grip, wanted, rtol=1e-8)
    texts = [text.get_text() for text in drawn(hole_map, chart)["numbers"]]
    assert texts == [f"{g / GRAVITY:.3f}" for g in wanted.ravel()]
    assert chart.best == tuple(np.argwhere(wanted == wanted.max())[0] + 1)


def test_line_divides_the_pairs_by_who_gives_up_first():
    """Cells on the two sides of each piece of the line have gaps of opposite sign; none is missing."""
    rng = np.random.default_rng(3)
    gap = rng.normal(size=(4, 5))
    x, y = hole_map._divide(gap < 0)
    pieces = np.column_stack([x, y]).reshape(-1, 3, 2)
    middles = pieces[:, :2].mean(axis=1)
    for (x_at, y_at), upright in zip(middles, pieces[:, 0, 0] == pieces[:, 1, 0], strict=True):
        step = (0.5, 0) if upright else (0, 0.5)
        pair = [gap[round(y_at + s * step[1]) - 1, round(x_at + s * step[0]) - 1] for s in (-1, 1)]
        assert pair[0] * pair[1] < 0
    changes = np.sum(np.diff(gap < 0, axis=0)) + np.sum(np.diff(gap < 0, axis=1))
    assert len(pieces) == changes > 0


def test_the_map_names_its_line_where_it_has_one_and_says_together_where_the_limits_are_alike():
    whole = hole_map.of_car(COUPE)
    turned = np.abs(whole.gap)
    turned[0, 2] *= -1
    drawing = drawn(hole_map, replace(whole, gap=turned))
    assert drawing["head"].get_text().endswith(hole_map.DIVIDED) and len(drawing["divide"].get_xdata())
    hole_map.update(drawing, replace(whole, gap=-np.abs(whole.gap)))
    assert drawing["head"].get_text() == hole_map.HEAD and not len(drawing["divide"].get_xdata())
    alike = replace(whole, gap=np.full((3, 3), 0.0004 * GRAVITY), chosen=whole.best)
    assert "both ends give up together" in hole_map.describe(alike)
    apart = replace(alike, gap=np.full((3, 3), 0.0006 * GRAVITY))
    assert "the rear gives up 0.001 g before the other end" in hole_map.describe(apart)


def test_balance_bars_point_to_the_end_that_gives_up_first():
    chart = replace(hole_map.of_car(COUPE),
                    gap=np.array([[-0.2, 0.1, 0.0], [0.3, -0.3, np.nan], [0.1, 0.1, 0.1]]))
    drawing = drawn(hole_map, chart)
    for end, sign in (("front", -1), ("rear", 1)):
        ends = np.asarray(drawing[end].get_xdata()).reshape(-1, 3)
        reach = (ends[:, 1] - ends[:, 0]).reshape(3, 3)
        assert np.allclose(reach, 0.4 * np.where(chart.gap * sign > 0, chart.gap, 0) / 0.3)


def test_map_without_a_bar_at_one_end():
    text = hole_map.describe(hole_map.of_car(GRAVEL))
    assert "no rear bar" in text and "no other hole" in text


def _history(car, *times):
    from rollmodel.physics.build_up import BuildUp
    return roll_against_time(car, BuildUp(0.9 * GRAVITY, *times))


def test_surfaces_in_time_sum_to_the_whole():
    history = _history(COUPE, 0.2, 2, 0.2)
    drawing = drawn(corner_in_time, corner_in_time.of_history(history))
    n = len(history.time)
    for end in corner_in_time.ENDS:
        total = np.zeros(n)
        for way in ("gains", "losses"):
            for area in drawing[f"{end} {way}"]:
                near, far = area.get_xy()[:n, 1], area.get_xy()[n:2 * n, 1][::-1]
                total += far - near
        assert np.allclose(total, history.axle(end).load_transfer)
        assert np.allclose(drawing[f"{end} whole"].get_ydata(), history.axle(end).load_transfer)


def test_dampers_are_seen_going_in_and_out_and_not_in_the_middle():
    """A corner held for three seconds: below half a newton in the middle, hundreds on the way in and out."""
    corner = corner_in_time.of_history(_history(COUPE, 0.2, 3, 0.2))
    most, least = corner.damper_peaks("front")
    assert most > 100 and least < -100 and abs(corner.in_the_middle("front", "dampers")) < 0.5
    assert f"{most:.0f} N on the way in, 0 N in the middle" in corner_in_time.describe(corner)


def test_which_way_grip_goes_where_the_car_is():
    for now, gains in ((300, True), (1400, False)):
        assert hill(700, now).gains is gains
        assert ("raises" if gains else "lowers") in two_regimes.describe(hill(700, now))
    assert "no top" in two_regimes.describe(hill(1600, 400))


def test_regimes_of_a_soft_car():
    """Grip at the searched top is no less than anywhere on the curve, and the line stands there."""
    low, high = 200 * NM_PER_DEG, 1500 * NM_PER_DEG
    result = two_regimes.of_car(COUPE, "rear", 0.9 * GRAVITY, low, high)
    drawing = drawn(two_regimes, result)
    highest = result.stiffness[np.nanargmax(result.grip)]
    assert abs(result.top - highest) <= result.stiffness[1] - result.stiffness[0]
    assert drawing["top line"].get_xdata()[0] == pytest.approx(result.top / NM_PER_DEG)
    assert result.now == pytest.approx(float(axle_stiffness(COUPE.rear).total_roll))
    assert result.grip_now == pytest.approx(float(largest_axle_force(COUPE.tyre, *axle_arguments(
        COUPE.rear, settled_corner(COUPE, 0.9 * GRAVITY).rear))[0]), rel=1e-4)  # read off a polyline


def test_bar_is_drawn_to_scale():
    """Length, lever and diameter measured off the sheet have the bar's own proportions."""
    drawing = drawn(bar_section, bar_section.of_bar(COUPE.front.bar, 3))
    (x_left, x_right), (y_links, _) = drawing["links"].get_data()
    centre = drawing["centre"].get_xy()
    axis = drawing["axis"].get_ydata()[0]
    assert (x_right - x_left) / (axis - y_links) == pytest.approx(0.95 / 0.18)
    assert np.ptp(centre[:, 1]) / (axis - y_links) == pytest.approx(0.026 / 0.18)
    outer, inner = drawing["tube"]
    assert inner.get_radius() / outer.get_radius() == pytest.approx(18 / 26)


def test_swept_arm_has_its_own_length():
    drawing = drawn(bar_section, bar_section.of_bar(SWEPT, 1))
    (x, y), axis = (np.array(drawing["links"].get_data())[:, 1], drawing["axis"].get_ydata()[0])
    root = bar_section.PLAN_AT + drawing.fixed["plan"] * SWEPT.centre_length / 2
    assert np.hypot(x - root, y - axis) / drawing.fixed["plan"] == pytest.approx(0.24)


@pytest.mark.parametrize("hole, seen", [(1, 25e-3), (7, 5e-3), (4, (25e-3 + 5e-3) / 2**0.5)])
def test_blade_looks_as_wide_as_it_is_turned(hole, seen):
    """From above: flat the full width, on edge the thickness, at 45 deg both together over root two."""
    drawing = drawn(bar_section, bar_section.of_bar(SINGLE.front.bar, hole))
    assert width(drawing["arms"][1]) / drawing.fixed["plan"] == pytest.approx(seen)


def test_bar_in_words():
    text = bar_section.describe(bar_section.of_bar(COUPE.front.bar, 2), "US customary")
    held, roll = numbers(text, "lbf/in")
    assert roll == pytest.approx(2 * held, abs=1)  # each is rounded to a whole lbf/in
    assert f"{0.95 / INCH:.3f} in between the arms" in text


def test_posts_name_the_lower_limit():
    change = before_after.compare(COUPE, setup(COUPE, 3, 1), setup(COUPE, 1, 3))
    held = limits(COUPE, *setup(COUPE, 1, 3))
    drawing = drawn(before_after, change)
    lower = min(float(held.front), float(held.rear)) / GRAVITY
    assert drawing["verdict"].get_text() == f"The {held.end} gives up first, at {lower:.3f} g"
    for end in before_after.ENDS:
        assert drawing[f"{end} after"].get_ydata()[0] == pytest.approx(float(getattr(held, end)) / GRAVITY)
    assert drawing["car"].get_ydata()[0] == pytest.approx(lower)


def test_posts_of_a_car_that_rolls_over():
    """Very grippy tyres on a tall car: neither end gives up, and the picture says what happens instead."""
    tall = replace(GRAVEL, cg_height=0.8, tyre=Tyre(grip_scale=2.0),
                   front=replace(GRAVEL.front, spring_rate=90e3),
                   rear=replace(GRAVEL.rear, spring_rate=90e3))
    same = setup(tall, 1, None)
    change = before_after.compare(tall, same, same)
    assert change.after.end == "rollover"
    assert "rolls over" in before_after.describe(change)
    assert "rolls over" in drawn(before_after, change)["verdict"].get_text()
