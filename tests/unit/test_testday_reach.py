"""A wrong unit of speed is refused or suspected, whatever else it would make the runs say."""

from dataclasses import replace

import numpy as np
import pytest

from rollmodel.sheets import training_car, training_cars
from rollmodel.testday.analysis import Sheet, analyse
from rollmodel.testday.channels import channels_of
from rollmodel.testday.faults import DayError
from rollmodel.testday.from_runs import learn_from_runs
from rollmodel.testday.run_file import read_run_file
from rollmodel.testday.runs import read_setup
from rollmodel.testday.sample import plan_for, sample_csv, simulate_car
from rollmodel.testday.trial import Day, read_day

MPH = (1.609344) ** 2  # what km/h read as mph multiplies v^2/R by


@pytest.fixture(scope="module")
def coupe():
    return training_car("coupe")


@pytest.fixture
def file(tmp_path, coupe):
    def written(name, unit="km/h", change=None, seed=1):
        text = sample_csv(coupe, simulate_car(coupe, plan_for(coupe), seed=seed), 30.0)
        path = tmp_path / f"{name}.csv"
        path.write_text((change or (lambda same: same))(text).replace("[km/h]", f"[{unit}]"), "utf-8")
        return path

    return written


def codes(analysis):
    return [one.code for one in analysis.suspicions]


def test_speed_and_radius_beyond_four_g_are_refused_by_unit_and_radius(file):
    with pytest.raises(DayError, match=r"speed in m/s on a radius of 30 m gives up to 1\d.\d\d g, at most"):
        read_setup([file("before", "m/s")], "before")


def test_a_few_speeds_beyond_four_g_are_set_aside_and_said(tmp_path):
    path = tmp_path / "runs.csv"
    path.write_text("# radius: 30 m\nspeed [km/h],roll [deg]\n" + "40,2\n" * 300 + "300,2\n", "utf-8")
    found = channels_of(read_run_file(path))
    assert len(found.lateral_acceleration) == 300 and "1 value(s) of speed set aside" in found.notes[0]


def test_runs_in_mph_are_beyond_the_sheets_car(file, coupe):
    pair = [read_setup([file(name, "mph")], name) for name in ("before", "after")]
    after = coupe.with_holes(rear=3)
    with pytest.raises(DayError, match="the sheet's car slides at 1.00 g; check the unit of speed"):
        analyse(*pair, Sheet(coupe, after))
    with pytest.raises(DayError, match="check the unit of speed"):
        learn_from_runs(*pair, Sheet(coupe, after))
    assert "beyond-usual" in codes(analyse(*pair))


def test_runs_somewhat_beyond_the_sheets_limit_are_said_first(file, coupe):
    runs = read_setup([file("before")], "before")
    faster = replace(
        runs,
        runs=tuple(replace(run, lateral_acceleration=1.6 * run.lateral_acceleration) for run in runs.runs),
    )
    assert codes(analyse(faster, None, Sheet(coupe)))[0] == "beyond-limit"


def test_one_file_in_another_unit_is_said_first(file):
    pair = read_setup([file("before")], "before"), read_setup([file("after", "mph")], "after")
    assert codes(analyse(*pair))[0] == "beyond-usual" and codes(analyse(*pair))[1] == "unlike-reach"


def test_runs_of_one_file_in_two_units_are_suspected(file):
    def half(text):
        rows = [line.split(",") for line in text.splitlines()]
        for row in rows:
            if row[0][0].isdigit() and int(row[1]) > 3:
                row[3] = f"{float(row[3]) / np.sqrt(MPH):.2f}"
        return "\n".join(",".join(row) for row in rows) + "\n"

    mixed = read_setup([file("before", change=half)], "before")
    assert codes(analyse(mixed))[0] == "unlike-runs"
    no_roll = replace(mixed, runs=tuple(replace(run, roll=None) for run in mixed.runs))
    assert codes(analyse(no_roll))[0] == "unlike-runs"


@pytest.mark.parametrize("name", training_cars())
def test_ordinary_runs_of_every_training_car_are_under_no_suspicion_of_units(name, tmp_path):
    car = training_car(name)
    suspects = {"unlike-runs", "unlike-reach", "beyond-limit", "beyond-usual", "far-from-sheet"}
    for seed in (1, 2, 3):
        path = tmp_path / f"{seed}.csv"
        path.write_text(sample_csv(car, simulate_car(car, plan_for(car), seed=seed), 30.0), "utf-8")
        assert not suspects & set(codes(analyse(read_setup([path], "before"), None, Sheet(car))))


@pytest.mark.parametrize("name", training_cars())
def test_a_gust_or_a_day_of_usual_scatter_makes_no_runs_unlike(name):
    car = training_car(name)
    end = next((one for one in ("rear", "front") if car.axle(one).bar and car.axle(one).positions > 1), None)
    if end is None:
        assert not car.rear.bar and not car.front.bar  # nothing to change on such a car
        return
    hole = car.axle(end).hole
    after = car.with_holes(**{end: hole + 1 if hole < car.axle(end).positions else hole - 1})
    for day in range(1, 7):
        said = codes(read_day(Day(car, after, 1.0, 3, day, 0.85, True), ()))
        assert not {"unlike-runs", "unlike-reach", "beyond-limit"} & set(said)
