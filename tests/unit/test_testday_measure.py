"""Measured numbers with their uncertainties, each method against exact readings, draws, or statics."""

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import pytest
from uncertainties import ufloat

from rollmodel.car import Bar
from rollmodel.physics.bar import link_rates_one_end_held
from rollmodel.sheets import read_text, read_uncertainties, training_car, training_cars
from rollmodel.testday.bench import bar_rate, calculated_rate, steel_factor, with_steel
from rollmodel.testday.faults import DayError
from rollmodel.testday.into_sheet import sheet_with, written
from rollmodel.testday.jacking import motion_ratio
from rollmodel.testday.measure import measure, stated_by, with_measured
from rollmodel.testday.measured import repeated, straight_line, within_limits
from rollmodel.testday.readings import EXAMPLE, TABLES, read_readings, readings_of
from rollmodel.testday.tilt import Raising, cg_height, tilt
from rollmodel.testday.weights import CORNERS, corners, from_corners

DRAWS = 400


def exact(value):
    return ufloat(value, 1e-12)  # the library warns of a spread of nil


# statics of a rigid car on two supports, by coordinates and moments: the second road to the tilt formula


def load_when_raised(raised, lift, height, share, mass, base, radii):
    """Load on the end that stays down [kg], by turning every point of the car and taking moments.

    ``radii``: of the front and rear wheels. x runs forward, front wheels at x = base.
    """
    down_at, up_at = (0.0, base) if raised == "front" else (base, 0.0)
    down, up = (radii[1], radii[0]) if raised == "front" else radii
    centre_of_gravity = np.array([base * share, height])
    hub_down, hub_up = np.array([down_at, down]), np.array([up_at, up])
    low, high = 0.0, 1.2
    for _ in range(80):  # the turn that puts the raised hub at its radius above the support, by halving
        angle = (low + high) / 2
        turn = turned(angle if raised == "front" else -angle)
        risen = (turn @ (hub_up - hub_down))[1] + down
        low, high = (angle, high) if risen < up + lift else (low, angle)
    turn = turned(angle if raised == "front" else -angle)
    far = (turn @ (hub_up - hub_down))[0]
    weight_at = (turn @ (centre_of_gravity - hub_down))[0]
    return mass * (1 - weight_at / far)  # moments about the raised wheels' contact


def turned(angle):
    return np.array([[cos(angle), -sin(angle)], [sin(angle), cos(angle)]])


@pytest.mark.parametrize("raised", ["front", "rear"])
@pytest.mark.parametrize("radii", [(0.30, 0.30), (0.28, 0.33)])
def test_the_tilt_formula_agrees_with_statics(raised, radii):
    mass, share, height, base = 1290.0, 0.52, 0.47, 2.48
    lifts = (0.2, 0.4, 0.6)
    loads = tuple(load_when_raised(raised, lift, height, share, mass, base, radii) for lift in lifts)
    down = 1 if raised == "front" else 0
    level = mass * (share if raised == "rear" else 1 - share)
    assert load_when_raised(raised, 0.0, height, share, mass, base, radii) == pytest.approx(level)
    found = cg_height(
        Raising(raised, lifts, loads, base, (radii[down], radii[1 - down]), 1e-6, 1e-6),
        exact(mass),
        exact(level),
    )
    assert found.value == pytest.approx(
        height, abs=1e-6
    )  # from the ground, level, whichever wheels are larger
    assert loads[0] > level and loads == tuple(sorted(loads))


def test_for_equal_wheels_it_is_the_usual_formula():
    mass, level, load, lift, base, radius = 1290.0, 670.8, 684.2, 0.4, 2.48, 0.305
    found = cg_height(Raising("rear", (lift,), (load,), base, (radius, radius)), exact(mass), exact(level))
    angle = tilt(exact(lift), exact(base)).nominal_value
    assert np.sin(angle) == pytest.approx(lift / base)
    assert found.value == pytest.approx(radius + (load - level) * base / (mass * np.tan(angle)))


def test_the_height_is_known_to_centimetres_only_and_better_from_a_steeper_tilt():
    def spread(lift):
        load = load_when_raised("rear", lift, 0.47, 0.52, 1290.0, 2.48, (0.305, 0.305))
        return cg_height(
            Raising("rear", (lift,), (load,), 2.48, (0.305, 0.305)), ufloat(1290, 0.5), ufloat(670.8, 0.5)
        ).uncertainty

    assert spread(0.2) > 1.8 * spread(0.4) > 0.02
    shallow = cg_height(Raising("rear", (0.1,), (674.0,), 2.48, (0.305, 0.305)), exact(1290.0), exact(670.8))
    assert "raise the end" in shallow.notes[0]


def test_the_heights_uncertainty_is_that_of_draws():
    raising = Raising("rear", (0.4,), (684.2,), 2.48, (0.305, 0.305))
    found, draw, heights = (
        cg_height(raising, ufloat(1290, 0.6), ufloat(670.8, 0.6)),
        np.random.default_rng(3),
        [],
    )
    for _ in range(DRAWS):

        def off(limit):
            return limit * draw.uniform(-1, 1)

        radius = 0.305 + off(0.003)  # both hubs share what counts
        one = Raising(
            "rear", (0.4 + off(0.003),), (684.2 + off(1.0),), 2.48 + off(0.003), (radius, radius), 1e-9, 1e-9
        )
        heights.append(
            cg_height(one, exact(1290 + 0.6 * draw.normal()), exact(670.8 + 0.6 * draw.normal())).value
        )
    assert found.uncertainty == pytest.approx(
        2 * np.std(heights), rel=0.15
    )  # 400 draws: 3.5 % each way, and tails


def pads(**change):
    weights = dict(zip(CORNERS, (336.0, 334.0, 309.0, 311.0), strict=True)) | change
    return corners({corner: [weight] for corner, weight in weights.items()}, 1.0)


def test_corner_weights_by_hand():
    mass, front, left, diagonal = from_corners(pads())
    assert mass.value == 1290.0 and mass.uncertainty == pytest.approx(2 * np.sqrt(4 / 3))
    assert front.value == pytest.approx(670 / 1290) and left.value == pytest.approx(645 / 1290)
    assert diagonal.value == pytest.approx(647 / 1290) and diagonal.notes == ()


def test_a_diagonal_that_the_shares_do_not_explain_is_said():
    diagonal = from_corners(pads(front_left=356.0, front_right=314.0, rear_left=289.0, rear_right=331.0))[3]
    assert "heavier on front left and rear right" in diagonal.notes[0]


def test_the_share_of_a_car_whose_pads_err_alike_in_draws():
    draw, found = np.random.default_rng(4), from_corners(pads())[1]
    shares = []
    for _ in range(DRAWS):
        off = draw.uniform(-1, 1, 4)
        fl, fr, rl, rr = np.array([336.0, 334.0, 309.0, 311.0]) + off
        shares.append((fl + fr) / (fl + fr + rl + rr))
    assert found.uncertainty == pytest.approx(2 * np.std(shares), rel=0.12)


def test_repeated_readings_count_scatter_and_instrument():
    one = repeated([10.0, 11.0, 12.0], 0.0)
    assert one.nominal_value == 11.0 and 2 * one.std_dev == pytest.approx(
        4.302653 / np.sqrt(3)
    )  # t of 2, a table
    assert repeated([10.0], 0.3).std_dev == pytest.approx(0.3 / np.sqrt(3)) == within_limits(0, 0.3).std_dev


STEPS = np.arange(-30, 31, 10) / 1000


def test_a_motion_ratio_from_exact_steps_and_its_sign():
    found = motion_ratio("front", "spring", STEPS, -0.7 * STEPS + 0.2, 0.0005)
    assert found.value == pytest.approx(0.7) and found.name == "front.spring_motion_ratio"
    read = 0.0005 / np.sqrt(3) * np.sqrt(1.49) / np.sqrt(np.sum(STEPS**2))
    assert found.uncertainty == pytest.approx(2 * read)


def test_the_interval_of_a_motion_ratio_holds_the_true_one():
    draw, held = np.random.default_rng(6), 0
    for _ in range(DRAWS):
        found = motion_ratio("rear", "link", STEPS, 0.62 * STEPS + draw.normal(0, 0.0004, 7), 0.0)
        held += abs(found.value - 0.62) <= found.uncertainty
    assert held / DRAWS == pytest.approx(0.95, abs=0.033)  # three standard deviations of a count of 400


def test_a_ratio_that_changes_with_travel_is_said():
    bent = motion_ratio("front", "spring", STEPS, 0.7 * STEPS + 2.0 * STEPS**2, 0.0005)
    assert any("not constant" in note for note in bent.notes)
    straight = motion_ratio(
        "front", "spring", STEPS, 0.7 * STEPS + np.array([2, -1, 1, -2, 1, 0, -1]) * 1e-4, 0.0005
    )
    assert not any("not constant" in note for note in straight.notes)


LOADS = np.arange(100.0, 600.0, 100.0)


def test_a_bar_rate_one_end_held_and_play_that_shows():
    found = bar_rate("front", 2, LOADS, LOADS / 55e3, 0.0001)
    assert found.value == pytest.approx(55e3) and not found.in_sheet and "twice" in found.notes[0]
    late = LOADS / 55e3 + np.array([0, 1, 1, 1, 1]) * 0.002
    assert not any("play" in note for note in found.notes)
    assert any("play" in note for note in bar_rate("front", 2, LOADS, late, 0.0001).notes)


@pytest.mark.parametrize("extra", [{}, {"bushing_rate": 400e3, "link_rate": 900e3}, {"arms": "rigid"}])
def test_working_moduli_give_the_measured_rate_back(extra):
    bar = Bar(
        outer_diameter=0.026,
        centre_length=0.95,
        link_motion_ratio=0.62,
        holes=(0.23, 0.20, 0.17),
        wall=0.004,
        **extra,
    )
    wanted = 0.85 * calculated_rate(bar, 2)
    new = with_steel(bar, steel_factor(bar, 2, wanted))
    assert link_rates_one_end_held(new)[1] == pytest.approx(wanted)
    assert np.isnan(steel_factor(replace(bar, bushing_rate=20e3), 2, wanted))


def test_a_straight_line_that_bends_is_told_from_one_that_scatters():
    x, draw = np.linspace(0, 1, 9), np.random.default_rng(8)
    called = sum(straight_line(x, x + draw.normal(0, 0.01, 9)).bends for _ in range(DRAWS))
    assert called <= 12  # 1 % of 400, four more than twice that
    assert straight_line(x, x + 0.2 * x**2 + draw.normal(0, 0.01, 9)).bends


def test_the_example_goes_into_a_sheet_and_the_sheet_stays_readable(tmp_path):
    car, found = training_car("coupe"), measure(read_readings(EXAMPLE), training_car("coupe"))
    text = sheet_with(training_cars()["coupe"].read_text(encoding="utf-8"), found)
    new, expected = read_text(text), with_measured(car, found)
    assert new.cg_height == pytest.approx(expected.cg_height, abs=6e-4)  # written to the millimetre
    assert new.front.bar.shear_modulus == pytest.approx(expected.front.bar.shear_modulus, rel=1e-3)
    assert "# spring tester" in text and "# measured: jacking in 7 steps" in text
    (tmp_path / "new.toml").write_text(text, encoding="utf-8")
    stated = read_uncertainties(tmp_path / "new.toml")
    assert set(stated) == set(stated_by(found))
    assert all(stated[name] == pytest.approx(limit, rel=0.06) for name, limit in stated_by(found).items())


@pytest.mark.parametrize(
    "value, uncertainty, kind, family, text",
    [
        (0.47123, 0.0183, "length", "metric", "471 mm ± 18 mm"),
        (0.47123, 0.0183, "length", "US customary", "18.55 in ± 0.72 in"),
        (1290.0, 0.0, "mass", "metric", "1290 kg"),
        (0.52, 0.0014, "share", "metric", "52.00 % ± 0.14 %"),
        (65e3, 1940.0, "rate", "metric", "65.0 N/mm ± 1.9 N/mm"),
    ],
)
def test_a_number_is_written_as_its_uncertainty_deserves(value, uncertainty, kind, family, text):
    assert written(value, uncertainty, kind, family) == text


def test_the_example_has_readings_of_both_ends_for_every_table_but_the_dampers():
    assert set(read_readings(EXAMPLE).values) == {name for name in TABLES if not name.endswith("damper")}


FRONT = {"wheel": ["0 mm", "10 mm", "20 mm"], "part": ["0 mm", "7 mm", "14 mm"]}
REFUSED = {
    "nothing": ({}, "no readings"),
    "unknown table": ({"corner_weight": {}}, "[corner_weights] was meant?"),
    "unknown field": ({"front": {"spring": {**FRONT, "weel": "1 mm"}}}, '"wheel" was meant?'),
    "missing": ({"front": {"spring": {"wheel": FRONT["wheel"]}}}, "[front.spring] part: missing"),
    "lengths differ": (
        {"front": {"spring": {**FRONT, "part": ["0 mm"]}}},
        "wanted as many as wheel has (3), given 1",
    ),
    "too few": (
        {"front": {"spring": {"wheel": ["0 mm", "9 mm"], "part": ["0 mm", "6 mm"]}}},
        "at least three",
    ),
    "all the same": (
        {"front": {"spring": {"wheel": ["0 mm"] * 3, "part": ["0 mm"] * 3}}},
        "at least three different",
    ),
    "no unit": ({"front": {"spring": {**FRONT, "wheel": [0, 10, 20]}}}, "bare number"),
    "a word": ({"front": {"spring": "soft"}}, '[front]: unknown field "spring"'),
    "a line": ({"hello": 3}, 'unknown line "hello"'),
}


@pytest.mark.parametrize("name", REFUSED)
def test_each_refusal_says_where_and_what(name):
    tables, message = REFUSED[name]
    with pytest.raises(DayError) as refused:
        readings_of(tables, "day.toml")
    assert message in str(refused.value) and str(refused.value).startswith("day.toml: ")


WEIGHTS = {f"{end}_{side}": "320 kg" for end in ("front", "rear") for side in ("left", "right")}
HEIGHT = {
    "raised": "rear",
    "lift": "400 mm",
    "load": "654 kg",
    "wheelbase": "2.5 m",
    "front_wheel_radius": "300 mm",
    "rear_wheel_radius": "300 mm",
}


@pytest.mark.parametrize(
    "tables, message",
    [
        ({"cg_height": HEIGHT}, "add [corner_weights]"),
        ({"corner_weights": WEIGHTS, "cg_height": {**HEIGHT, "load": "600 kg"}}, "not believable"),
        (
            {"corner_weights": WEIGHTS, "cg_height": {**HEIGHT, "lift": "1400 mm"}},
            "at most half the wheelbase",
        ),
        (
            {
                "front": {
                    "bar": {"hole": 9, "load": ["1 N", "2 N", "3 N"], "deflection": ["1 mm", "2 mm", "3 mm"]}
                }
            },
            "from 1 to 3, given 9",
        ),
    ],
)
def test_readings_that_fit_no_car_are_refused(tables, message):
    with pytest.raises(DayError) as refused:
        measure(readings_of(tables), training_car("coupe"))
    assert message in str(refused.value)


def test_a_part_that_the_sheet_lacks_is_named():
    found = measure(readings_of({"front": {"link": FRONT}}))
    bare = training_car("coupe")
    bare = replace(bare, front=replace(bare.front, bar=None))
    with pytest.raises(DayError, match=r"no \[front.bar\] table"):
        with_measured(bare, found)


def test_radians_and_degrees_are_not_confused():
    assert tilt(exact(2.48 * sin(radians(10))), exact(2.48)).nominal_value == pytest.approx(radians(10))
