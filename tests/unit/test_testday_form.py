"""The guided entry, links on the scales, what a form asks of a plan: what is typed and what comes of it."""

import math

import pytest
from scipy.stats import norm

from rollmodel.car import GRAVITY
from rollmodel.physics.preload import loads_with_preload
from rollmodel.sheets import read_text, training_car, training_cars
from rollmodel.testday.faults import DayError
from rollmodel.testday.form import LINES, all_found, checked, example_texts, explicit, in_family, texts_read
from rollmodel.testday.form_steps import STEPS
from rollmodel.testday.known import known, save_new, save_sheet
from rollmodel.testday.lap import chance_of_quicker, circle_time
from rollmodel.testday.links import diagonal_gain, gain_typed, link_behind
from rollmodel.testday.predict import predicted_gradient
from rollmodel.testday.readings import EXAMPLE, TABLES, read_readings
from rollmodel.testday.trial import Day, read_day, setups
from rollmodel.testday.typed_text import apart, with_unit
from rollmodel.testday.wishes import moves, radius_typed, ratio_typed, read_files, scatter_typed
from rollmodel.units import UnitError

COUPE = training_car("coupe")


def day(**changes):
    return Day(COUPE, COUPE.with_holes(rear=3), **changes)


@pytest.mark.parametrize(
    "typed, parts",
    [
        ("336, 335, 336 kg", ["336 kg", "335 kg", "336 kg"]),
        ("336;335;336 kg", ["336 kg", "335 kg", "336 kg"]),
        ("21,3; 14,2 mm", ["21.3 mm", "14.2 mm"]),
        ("336 kg, 741 lb", ["336 kg", "741 lb"]),
        ("1, 2", ["1", "2"]),
        ("", []),
        (" , ,", []),
    ],
)
def test_a_list_as_typed_comes_apart(typed, parts):
    assert apart(typed) == parts


def test_a_bare_number_takes_the_unit_of_the_family():
    assert with_unit("5", "length", "US customary") == "5 in"
    assert with_unit("5 mm", "length", "US customary") == "5 mm"
    assert with_unit("0.16", "roll gradient") == "0.16 deg/g"
    assert explicit(LINES["front.track"], "60", "US customary") == "60 in"


def test_the_form_reads_the_example_as_its_file_is_read():
    readings = texts_read(dict(example_texts()), list(TABLES))
    assert readings == read_readings(EXAMPLE)


def test_every_field_of_the_readings_but_the_dampers_has_a_box():
    every = {f"{table}.{field.name}" for table, fields in TABLES.items() for field in fields}
    left = {name for name in every if ".damper." in name}
    assert set(LINES) == every - left


def test_other_units_give_the_same_numbers():
    texts = dict(example_texts())
    american = {
        key: in_family(LINES[key], text, "US customary") if text else "" for key, text in texts.items()
    }
    assert american["corner_weights.scale"] == "2.2 lb"
    for one, other in zip(all_found(texts, COUPE), all_found(american, COUPE), strict=True):
        # Texts are rounded to a hundredth of a pound and a thousandth of an inch; height is the worst served.
        assert other.value == pytest.approx(one.value, rel=2e-2)


def test_an_empty_form_has_no_numbers_and_limits_alone_are_no_readings():
    assert all_found({}, COUPE) == []
    assert all_found({"front.spring.reading": "0.5 mm", "cg_height.wheelbase": "2.48 m"}, COUPE) == []


def test_height_wants_the_corner_weights_too():
    texts = {key: text for key, text in example_texts().items() if not key.startswith("corner")}
    with pytest.raises(DayError, match="needs the level weights"):
        all_found(texts, COUPE)


@pytest.mark.parametrize(
    "key, text, wanted",
    [
        ("corner_weights.front_left", "336, abc kg", "Front left pad: number 2 in the list"),
        ("front.spring.part", "5 kg", "Front spring's travel at the same steps"),
        ("cg_height.raised", "left", 'one of "front", "rear"'),
        ("front.bar.hole", "two", "a whole number"),
        ("front.track", "1.5 m ± x", "one number on each side"),
        ("corner_weights.front_left", "9" * 400, "Front left pad"),
        ("front.track", "\x00", "Front track"),
    ],
)
def test_a_box_refuses_in_its_own_name(key, text, wanted):
    with pytest.raises(DayError) as caught:
        checked(LINES[key], text)
    assert wanted in caught.value.faults[0] and len(caught.value.faults[0]) < 300


def test_a_fault_of_two_boxes_names_the_box_and_not_the_table():
    texts = {**example_texts(), "front.link.part": "1, 2, 3 mm"}
    with pytest.raises(DayError, match="Front link's travel at the same steps: wanted as many as wheel has"):
        texts_read(texts, ["front.link"])


def test_steps_hold_each_box_once():
    keys = [line.key for step in STEPS for line in step.lines]
    assert len(keys) == len(set(keys)) == len(LINES)


# ---- links ----


@pytest.mark.parametrize("end", ["front", "rear"])
def test_gain_of_the_diagonal_and_back(end):
    gain = diagonal_gain(COUPE, end, 0.004)
    assert link_behind(COUPE, end, gain) == pytest.approx(0.004, rel=1e-6)
    off = {f"{end}_difference": 0.004}
    straight = loads_with_preload(COUPE, **off).diagonal - loads_with_preload(COUPE).diagonal
    # The slope is taken over a micrometre; to a millionth it is that of a straight line.
    assert gain * GRAVITY == pytest.approx(float(straight), rel=1e-5)


def test_a_gain_as_typed():
    assert gain_typed("12") == 12.0 and gain_typed("-5 kg") == -5.0
    assert gain_typed("10", "US customary") == pytest.approx(4.536, abs=5e-4)
    with pytest.raises(UnitError, match="what the diagonal gained"):
        gain_typed("5 mm")


# ---- what a plan and files are asked for ----


def test_boxes_of_a_plan():
    assert radius_typed("") is None and radius_typed("30") == 30.0
    assert radius_typed("100", "US customary") == pytest.approx(30.48)
    assert ratio_typed("15") == 15.0 and ratio_typed(" ") is None
    assert scatter_typed("", "roll gradient") == {}
    assert scatter_typed("0.1", "roll gradient")["roll gradient"] == pytest.approx(
        math.radians(0.1) / GRAVITY
    )
    for call in (
        lambda: radius_typed("3"),
        lambda: ratio_typed("x"),
        lambda: scatter_typed("-1", "roll gradient"),
        lambda: scatter_typed("1 mm", "roll gradient"),
    ):
        with pytest.raises(DayError):
            call()


def test_moves_are_every_other_hole():
    assert moves(COUPE) == [("front", 1), ("front", 3), ("rear", 1), ("rear", 3)]


@pytest.mark.parametrize(
    "boxes, wanted",
    [
        ({}, "runs before"),
        ({"before": "a.csv"}, "runs after"),
        ({"before": "a.csv", "after": "'a.csv'"}, "given twice"),
        ({"before": "no.csv", "after": "none.csv"}, "no such file"),
    ],
)
def test_files_that_are_not_there(boxes, wanted):
    with pytest.raises(DayError, match=wanted):
        read_files(known(COUPE, None), COUPE.with_holes(rear=3), boxes)


# ---- a car and its sheet ----


def test_a_sheet_is_never_written_over(tmp_path):
    one = known(COUPE, training_cars()["coupe"])
    found = all_found(dict(example_texts()), COUPE)
    path = save_sheet(one, found, str(tmp_path / "new"))
    assert path.name == "new.toml" and read_text(path.read_text(encoding="utf-8")).title == COUPE.title
    with pytest.raises(DayError, match="is there already"):
        save_sheet(one, found, str(path))
    with pytest.raises(DayError, match="without a sheet"):
        save_sheet(known(COUPE, None), found, str(tmp_path / "other"))


@pytest.mark.parametrize("name", ["", "  ", "\n", "a" * 300, "x\x00y"])
def test_names_that_are_none(tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(DayError):
        save_new(name, "text", ".toml")
    assert list(tmp_path.iterdir()) == []


# ---- the simulated day ----


def test_a_day_is_the_same_each_time_and_another_number_another_day():
    slopes = [read_day(day(number=number), ()).differences[0].value for number in (1, 2)]
    setups.cache_clear()
    read_day.cache_clear()
    assert read_day(day(), ()).differences[0].value == slopes[0] != slopes[1]


def test_fewer_runs_are_the_first_of_the_many():
    few, many = setups(day(runs=2))[0], setups(day(runs=5))[0]
    for one, other in zip(few.runs, many.runs, strict=False):
        assert one.roll == pytest.approx(other.roll, abs=1e-12)


def test_without_noise_the_runs_give_the_model_s_own_change():
    both = setups(day(noise=1e-4))
    found = read_day(day(noise=1e-4), ())
    for one in found.differences:
        ends = [
            predicted_gradient(car, setup, one.quantity)
            for car, setup in zip((COUPE, COUPE.with_holes(rear=3)), both, strict=True)
        ]
        # Noise of a ten-thousandth, and curves put through 60 points: three thousandths cover both.
        assert one.value == pytest.approx(ends[1] - ends[0], rel=3e-3)
        # The sheet's own figure takes seven points of a curve that bends, the runs thirteen: a tenth.
        assert one.predicted.change == pytest.approx(one.value, rel=0.1)


def test_a_softer_real_bar_shows_in_the_gradient_and_in_the_change():
    soft, right = (read_day(day(bar=bar, noise=1e-4), ()).differences[0] for bar in (0.6, 1.0))
    assert soft.before.value > right.before.value and abs(soft.value) < abs(right.value)


def test_a_gust_is_found_as_an_outlier_and_kept():
    calm, blown = (read_day(day(gust=gust), ()) for gust in (False, True))
    odd = [one for one in blown.outliers["after"] if one.point is not None]
    assert {one.quantity for one in odd} == {"roll gradient", "understeer gradient"}
    count = sum(run.points for run in blown.after.runs)
    assert count == sum(run.points for run in calm.after.runs)


# ---- laps ----


def test_lap_of_a_circle_against_speed():
    speed = math.sqrt(9.0 * 40.0)
    assert circle_time(9.0, 40.0) == pytest.approx(2 * math.pi * 40.0 / speed)


@pytest.mark.parametrize("gain, scatter, laps", [(0.1, 0.3, 1), (-0.2, 0.4, 3), (0.0, 0.3, 5)])
def test_chance_of_a_quicker_lap_against_the_difference_s_distribution(gain, scatter, laps):
    """Second road: the mean difference is normal with the two variances added."""
    spread = math.hypot(scatter / math.sqrt(laps), scatter / math.sqrt(laps))
    assert chance_of_quicker(gain, scatter, laps) == pytest.approx(1 - norm(gain, spread).cdf(0.0))
