"""From rows to runs: steady stretches, where runs begin, signs, the accelerometer that leans."""

from dataclasses import replace
from math import radians

import numpy as np
import pytest

from rollmodel.car import GRAVITY
from rollmodel.testday.channels import Channels, level
from rollmodel.testday.faults import DayError
from rollmodel.testday.runs import read_setup, settled_runs
from rollmodel.testday.signs import settle_signs
from rollmodel.testday.steady import clock, joined, steady_windows
from tests.unit.testday_cases import BEND, DEG_PER_G, PLAN, QUIET, ROLL, STEER, csv, driven, plain_run, setup


def windows(values, step=0.1, limit=0.25, hold=3.0):
    time = np.arange(len(values)) * step
    when, found = clock(time, np.zeros(len(time), bool), hold)
    return steady_windows(when, found, [(np.asarray(values, float), limit)], hold)


def test_a_held_level_is_cut_into_windows_of_three_seconds():
    assert windows(np.full(100, 2.0)) == [(0, 30), (30, 60), (60, 90)]


def test_what_is_too_short_or_drifts_is_no_steady_stretch():
    assert windows(np.full(28, 2.0)) == []
    assert windows(np.linspace(0, 20, 200)) == []  # 1 m/s^2 every second
    assert windows(np.linspace(0, 2, 200), limit=0.25) != []  # a slow climb of 0.1 m/s^2 every second


def test_fast_noise_that_averages_out_is_steady():
    noisy = 2.0 + np.random.default_rng(1).normal(0, 0.3, 400)
    assert len(windows(noisy, step=0.02)) == 2


@pytest.mark.parametrize("broken", ["gap", "time begins anew", "another run"])
def test_no_window_reaches_across_a_break(broken):
    time = np.concatenate([np.arange(0, 2, 0.1), np.arange(0, 2, 0.1) + (8 if broken == "gap" else 2)])
    breaks = np.zeros(40, bool)
    if broken == "time begins anew":
        time[20:] -= 2
    breaks[20] = broken == "another run"
    when, step = clock(time, breaks, 3.0)
    assert steady_windows(when, step, [(np.ones(40), 0.1)], 3.0) == []


def test_windows_on_one_level_are_one_stretch_and_a_slow_drift_is_cut():
    values = np.concatenate([np.full(60, 2.0), np.full(60, 2.5)])
    when = np.arange(120) * 0.1
    pairs = [(0, 30), (30, 60), (60, 90), (90, 120)]
    assert joined(pairs, when, values, 0.25, 3.0) == [(0, 60), (60, 120)]
    climb = np.linspace(0, 1.2, 120)
    assert len(joined(pairs, when, climb, 0.25, 3.0)) == 4


def test_steady_points_of_quiet_runs_are_the_steps_that_were_held():
    for run in setup(noise=QUIET).runs:
        assert run.lateral_acceleration == pytest.approx(
            PLAN.levels, abs=0.15
        )  # part of the climb is in a window
        assert run.steer == pytest.approx(BEND + STEER * run.lateral_acceleration)
        assert run.roll == pytest.approx(ROLL * run.lateral_acceleration)


def channels(rows, **change):
    plain = Channels(
        "a.csv",
        rows.time,
        rows.speed**2 / PLAN.radius,
        False,
        rows.steer,
        rows.roll,
        rows.run.astype(str),
        rows.direction,
        (),
    )
    return replace(plain, **change)


def test_runs_are_told_apart_without_a_column_for_them():
    rows = driven(noise=QUIET)
    labelled = settled_runs([channels(rows)])[0]
    for change in (
        {"label": None},
        {"label": None, "direction": np.zeros(len(rows.time), int)},
        {"label": None, "time": np.arange(len(rows.time)) / PLAN.rate},
    ):
        found = settled_runs([channels(rows, **change)])[0]
        assert [run.direction for run in found] == [run.direction for run in labelled]
        assert [run.points for run in found] == [run.points for run in labelled]


def test_a_table_without_time_is_taken_row_by_row(tmp_path):
    path = tmp_path / "by hand.csv"
    path.write_text(
        "# radius: 30 m\ndirection,speed [km/h],steer [deg],roll [deg]\n"
        + "".join(
            f"{way},{speed},{4.8 + 0.01 * speed},{0.05 * speed}\n"
            for way in ("left", "right") * 2
            for speed in (20, 30, 40, 50)
        ),
        encoding="utf-8",
    )
    found = read_setup([path], "before")
    assert [(run.direction, run.points) for run in found.runs] == [(1, 4), (-1, 4)] * 2


def test_standing_still_is_no_cornering():
    still = Channels(
        "a", np.arange(100) / 10, np.full(100, 0.1), False, np.zeros(100), None, None, np.ones(100, int), ()
    )
    with pytest.raises(DayError, match="no steady stretch of 3 s"):
        settled_runs([still])


def test_rows_too_far_apart_are_refused_with_the_way_out(tmp_path):
    path = tmp_path / "slow.csv"
    path.write_text(
        "time [s],lateral acceleration [g],roll [deg]\n0,0.1,1\n5,0.2,2\n10,0.3,3\n", encoding="utf-8"
    )
    with pytest.raises(DayError, match="leave the time column out"):
        read_setup([path], "before")


def test_short_runs_are_set_aside_and_said_and_none_left_is_refused(tmp_path):
    path = tmp_path / "a.csv"
    rows = "".join(f"1,{0.1 * i:.1f},{i}\n" for i in range(1, 6)) + "2,0.3,3\n2,0.4,4\n"
    path.write_text("run,lateral acceleration [g],roll [deg]\n" + rows, encoding="utf-8")
    found = read_setup([path], "before")
    assert (
        len(found.runs) == 1 and "run 2" in found.set_aside[0] and "2 steady point(s)" in found.set_aside[0]
    )
    path.write_text("run,lateral acceleration [g],roll [deg]\n2,0.3,3\n2,0.4,4\n", encoding="utf-8")
    with pytest.raises(DayError, match="no run has enough steady points"):
        read_setup([path], "before")


SIGNS = {  # how a file writes left and right turns: (lateral acceleration, steer, roll), and what is said
    "after ISO 8855": ((1, 1, 1), (-1, -1, -1), []),
    "right turns positive": ((-1, -1, -1), (1, 1, 1), ["Steer has the sign opp", "Roll has the sign opp"]),
    "roll alone reversed": ((1, 1, -1), (-1, -1, 1), ["Roll has the sign opp"]),
    "sizes alone": ((1, 1, 1), (1, 1, 1), ["Steer has the same", "Roll has the same"]),
    "roll as a size": ((1, 1, 1), (-1, -1, 1), ["Roll has the same"]),
}


@pytest.mark.parametrize("name", SIGNS)
def test_every_way_to_write_signs_gives_the_same_runs(name):
    left, right, said = SIGNS[name]
    runs = []
    for way, signs in ((1, left), (-1, right)):
        run = plain_run(way)
        runs.append(
            replace(
                run,
                lateral_acceleration=signs[0] * run.lateral_acceleration,
                steer=signs[1] * run.steer,
                roll=signs[2] * run.roll,
            )
        )
    settled, notes = settle_signs(runs)
    for run in settled:
        assert run.lateral_acceleration == pytest.approx(plain_run().lateral_acceleration)
        assert run.steer == pytest.approx(plain_run().steer) and run.roll == pytest.approx(plain_run().roll)
    assert len(notes) == len(said) and all(
        note.startswith(start) for note, start in zip(notes, said, strict=True)
    )


def test_two_runs_the_same_way_round_that_contradict_each_other_are_refused():
    one, other = plain_run(name="run 1"), plain_run(name="run 3")
    with pytest.raises(DayError, match="steer has one sign in run 1 and the other in run 3"):
        settle_signs([one, replace(other, steer=-other.steer)])


def test_a_roll_sensor_with_its_zero_off_by_more_than_the_roll_is_still_understood():
    run = plain_run()
    settled, notes = settle_signs([replace(run, roll=run.roll - radians(5))])
    assert notes == [] and np.polyfit(settled[0].lateral_acceleration, settled[0].roll, 1)[
        0
    ] == pytest.approx(ROLL)


def test_an_accelerometer_that_leans_reads_g_times_the_sine_of_roll_too_much():
    accel, roll = 6.0, radians(4.0)
    reading = accel * np.cos(roll) + GRAVITY * np.sin(roll)  # along an axis turned up by the roll angle
    assert level(reading, roll) == pytest.approx(accel)


def test_lean_is_taken_out_of_whole_runs(tmp_path):
    rows, path = driven(noise=QUIET), tmp_path / "a.csv"
    felt = rows.speed**2 / PLAN.radius * np.cos(rows.roll) + GRAVITY * np.sin(np.abs(rows.roll))
    text = csv(replace(rows, speed=felt / 3.6)).replace("speed [km/h]", "accelerometer [m/s^2]")
    path.write_text(text, encoding="utf-8")
    found = read_setup([path], "before")
    run = found.runs[0]
    assert np.polyfit(run.lateral_acceleration, run.roll, 1)[0] == pytest.approx(3.0 * DEG_PER_G, rel=1e-3)
    assert "g times the sine" in found.notes[-1]


def test_files_of_one_setup_must_name_the_same_holes(tmp_path):
    for hole in (1, 2):
        (tmp_path / f"{hole}.csv").write_text(
            f"# rear hole: {hole}\n" + csv(driven(noise=QUIET)), encoding="utf-8"
        )
    with pytest.raises(DayError, match="rear hole 1 and 2"):
        read_setup([tmp_path / "1.csv", tmp_path / "2.csv"], "before", 30.0)
