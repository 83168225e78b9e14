"""Files of runs: what is read, what is set aside and said, what is refused with one message."""

import time
from dataclasses import replace

import numpy as np
import pytest

from rollmodel.testday.channels import channels_of
from rollmodel.testday.faults import DayError
from rollmodel.testday.run_file import read_run_file
from rollmodel.testday.runs import read_setup
from tests.unit.testday_cases import QUIET, csv, driven

ROWS = "10,1,2\n20,2,3\n30,3,4\n"
HEAD = "speed [km/h],steer [deg],roll [deg]\n"


@pytest.fixture
def file(tmp_path):
    def written(text, name="runs.csv", encoding="utf-8"):
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode(encoding))
        return path

    return written


def test_units_come_from_the_header(file):
    one = read_run_file(
        file("lateral acceleration [m/s^2],steer [rad],roll (mrad),speed [mph]\n5,0.02,30,40\n")
    )
    assert one.values["lateral acceleration"][0] == 5 and one.values["steer"][0] == 0.02
    assert one.values["roll"][0] == pytest.approx(0.03) and one.values["speed"][0] == pytest.approx(
        40 * 0.44704
    )


@pytest.mark.parametrize(
    "text",
    [
        "Speed [km/h];Steer [deg];Roll [deg]\n10,5;1,25;2\n20,5;2;3\n",
        "Speed [km/h]\tSteer [deg]\tRoll [deg]\n10.5\t1.25\t2\n20.5\t2\t3\n",
        '"Speed [km/h]","Steer [deg]","Roll [deg]"\r\n10.5,1.25,2\r\n20.5,2,3\r\n',
        "speed (km/h), steer angle (deg), body_roll (deg), oil [bar],\n10.5, 1.25, 2, 4,\n20.5, 2, 3, 4,\n",
        "# a note\n\nspeed [km/h],steer [deg],roll [deg]\n\n10.5,1.25,2\n\n20.5,2,3\n,,\n",
    ],
)
def test_locales_separators_and_blank_lines_give_the_same(file, text):
    one = read_run_file(file(text))
    assert np.round(one.values["speed"] * 3.6, 9).tolist() == [10.5, 20.5]
    assert np.degrees(one.values["steer"]).tolist() == pytest.approx([1.25, 2])
    assert one.rows == 2


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "cp1252"])
def test_a_degree_sign_in_any_usual_encoding(file, encoding):
    one = read_run_file(file("speed [km/h],steering wheel [°]\n10,90\n", encoding=encoding))
    assert one.values["steering wheel"][0] == pytest.approx(np.pi / 2)


def test_remarks_above_the_header(file):
    one = read_run_file(
        file(
            "# simulated: yes\n# radius: 30 m\n# steering ratio: 15\n# direction: right\n"
            "# rear hole: 2\n" + HEAD + ROWS
        )
    )
    assert (one.radius, one.steering_ratio, one.simulated, one.holes) == (30.0, 15.0, True, {"rear": 2})
    assert set(one.direction) == {-1}


def test_a_few_unbelievable_values_are_set_aside_and_said(file):
    one = read_run_file(file(HEAD + "10,1,2\n" * 300 + "1e300,1,2\n10,inf,2\n"))
    assert np.isnan(one.values["speed"]).sum() == 1 and np.isnan(one.values["steer"]).sum() == 1
    assert len(one.notes) == 2 and "line 302" in one.notes[0] and "line 303" in one.notes[1]


REFUSED = {
    "no unit": ("speed,steer [deg]\n10,1\n", 'column "speed": no unit'),
    "wrong unit": ("speed [mm],steer [deg]\n10,1\n", "mm is a length"),
    "no such unit": ("speed [kmh],steer [deg]\n10,1\n", "km/h was meant?"),
    "two of a kind": ("speed [km/h],speed [mph],steer [deg]\n1,1,1\n", "the header names it 2 times"),
    "misspelt": ("sped [km/h],steer [deg]\n10,1\n", '"sped [km/h]" was meant for "speed"?'),
    "nothing to fit": ("speed [km/h],oil [bar]\n10,1\n", 'no column "steer [deg]"'),
    "both steers": ("speed [km/h],steer [deg],steering wheel [deg]\n10,1,15\n", "keep the one"),
    "units in cells": (HEAD + "10 km/h,1,2\n", 'line 2, speed: wanted a plain number, given "10 km/h"'),
    "mixed decimals": (
        "speed [km/h];roll [deg]\n10,5;1\n10.5;2\n",
        "decimal points and decimal commas are mixed",
    ),
    "thousands": ("speed [km/h];time [s];roll [deg]\n1;1.234,5;2\n", "between thousands"),
    "comma twice": ("speed [km/h],roll [deg]\n10,5,1,5\n", "part the columns with semicolons"),
    "long line far down": (HEAD + ROWS * 100 + "1,2,3,4\n", "line 302 has 4 values, the header names 3"),
    "wrong unit throughout": (HEAD + "10,900,2\n" * 3, "check the unit in the header"),
    "no header": (ROWS, "no header line"),
    "empty": ("", "no header line"),
    "only a header": (HEAD, "no rows below it"),
    "one column": ("a" * 200_000, "only one column"),
    "open quote": (HEAD + '"10,1,2\n', "a quotation mark is opened and not closed"),
    "spreadsheet": (b"PK\x03\x04" + bytes(50), "save it as CSV"),
    "not text": (b"speed\x00\x01\x02", "this is no text"),
    "direction": ("speed [km/h],steer [deg],direction\n10,1,left\n10,1,up\n", "line 3, direction"),
    "radius without a unit": ("# radius: 30\n" + HEAD + ROWS, "# radius: wanted a radius from 5 m to 500 m"),
    "radius of a toy": ("# radius: 30 mm\n" + HEAD + ROWS, "# radius"),
    "steering ratio": ("# steering ratio: fast\n" + HEAD + ROWS, "# steering ratio"),
    "hole": ("# rear hole: middle\n" + HEAD + ROWS, "# rear hole"),
    "two radii": (
        "# radius: 30 m\n# radius: 40 m\n" + HEAD + ROWS,
        '# radius: given twice, "30 m" and "40 m"',
    ),
    "UTF-32": ((HEAD + ROWS).encode("utf-32"), "this text is in UTF-32; save it as UTF-8"),
    "many columns": (",".join(f"c{i}" for i in range(600)) + "\n", "at most 500"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_each_refusal_names_the_file_and_the_fault(file, name):
    text, message = REFUSED[name]
    with pytest.raises(DayError) as refused:
        read_run_file(file(text))
    assert message in str(refused.value) and str(refused.value).startswith("runs.csv: ")
    assert len(str(refused.value)) < 400


def test_what_is_no_plain_file_is_refused(tmp_path):
    for path in (
        tmp_path,
        tmp_path / "none.csv",
        "/dev/null" if tmp_path.anchor == "/" else tmp_path,
        "a\0b",
    ):
        with pytest.raises(DayError):
            read_run_file(path)


def test_rows_with_gaps_are_left_out_and_said(file):
    channels = channels_of(read_run_file(file(HEAD + "10,1,2\n20,,3\n30,3,4\n")), radius=30.0)
    assert channels.lateral_acceleration == pytest.approx((np.array([10, 30]) / 3.6) ** 2 / 30)
    assert channels.notes == ("runs.csv: 1 of 3 rows have gaps and are left out.",)
    with pytest.raises(DayError, match="no row has every value"):
        channels_of(read_run_file(file(HEAD + "10,,2\n20,1,\n")), radius=30.0)


def test_a_dash_is_a_gap_as_an_empty_cell_is(file):
    for gap in ("", "-", "–", "N/A"):
        channels = channels_of(read_run_file(file(HEAD + f"10,1,2\n20,{gap},3\n30,3,4\n")), radius=30.0)
        assert channels.notes == ("runs.csv: 1 of 3 rows have gaps and are left out.",)


CLOCKS = {
    "every row has the same time, 5 s": lambda rows: replace(rows, time=np.full(len(rows.time), 5.0)),
    "it runs backwards; sort the rows": lambda rows: replace(
        rows, **{name: getattr(rows, name)[::-1] for name in vars(rows)}
    ),
    "is it in milliseconds? Then write time [ms]": lambda rows: replace(
        rows, time=np.round(1000 * rows.time)
    ),
}


@pytest.mark.parametrize("message", CLOCKS)
def test_a_clock_that_tells_nothing_is_refused_by_what_is_the_matter(file, message):
    text = csv(CLOCKS[message](driven(noise=QUIET)))
    with pytest.raises(DayError) as refused:
        read_setup([file(text)], "before", radius=30.0)
    assert message in str(refused.value) and "leave the time column out" not in str(refused.value)


def test_negative_speeds_and_rows_written_twice_are_noted(file):
    rows = driven(noise=QUIET)
    turned = read_setup([file(csv(rows, speed=lambda speed: -speed))], "before", radius=30.0)
    assert any("every speed is negative" in note for note in turned.notes)
    twice = replace(rows, **{name: np.repeat(getattr(rows, name), 2) for name in vars(rows)})
    doubled = read_setup([file(csv(twice))], "before", radius=30.0)
    assert any("50% of the rows have the time of the row above" in note for note in doubled.notes)


def test_a_radius_ten_times_too_large_is_named_once(file):
    with pytest.raises(DayError) as refused:
        read_setup([file(csv(driven(noise=QUIET)))], "before", radius=300.0)
    said = str(refused.value)
    assert said.count("300 m") == 1 and "check the radius of 300 m and the unit of speed" in said
    assert "and 5 more runs in the same way" in said


def test_speed_needs_a_radius_and_a_steering_wheel_a_ratio(file):
    with pytest.raises(DayError, match="--radius"):
        channels_of(read_run_file(file(HEAD + ROWS)))
    wheel = read_run_file(file("speed [km/h],steering wheel [deg]\n10,30\n"))
    with pytest.raises(DayError, match="--steering-ratio"):
        channels_of(wheel, radius=30.0)
    assert np.degrees(channels_of(wheel, 30.0, 15.0).steer) == pytest.approx([2.0])


def test_speed_and_radius_that_contradict_the_measured_acceleration_are_said(file):
    text = (
        "speed [km/h],lateral acceleration [g],roll [deg]\n" + "36,0.34,2\n" * 4
    )  # 10 m/s on 30 m is 0.34 g
    assert channels_of(read_run_file(file(text)), 30.0).notes == ()
    (said,) = channels_of(read_run_file(file(text)), 60.0).notes
    assert "2.00 times speed squared over radius" in said


def test_a_million_rows_are_read_and_cut_into_runs_within_ten_seconds(file):
    rows = driven(noise=QUIET)
    table = np.column_stack(
        [rows.time, rows.run, rows.direction > 0, rows.speed * 3.6, np.degrees(rows.steer)]
    )
    many = np.tile(table, (1_000_000 // len(table) + 1, 1))
    many[:, 1] = np.repeat(np.arange(len(many) // len(table)) * 10, len(table)) + many[:, 1]
    lines = [
        f"{t:.2f},{run:.0f},{'left' if left else 'right'},{v:.2f},{s:.3f}"
        for t, run, left, v, s in many.tolist()
    ]
    path = file("time [s],run,direction,speed [km/h],steer [deg]\n" + "\n".join(lines) + "\n")
    start = time.perf_counter()
    found = read_setup([path], "before", radius=30.0)
    assert time.perf_counter() - start < 10  # seconds; about 2 on the machine it was written on
    assert len(found.runs) == 6 * (len(many) // len(table))


def test_the_sample_text_is_read_back(file):
    rows = driven(noise=QUIET)
    found = read_setup([file(csv(rows))], "before", radius=30.0)
    assert [run.name for run in found.runs][:2] == ["runs.csv, run 1 left", "runs.csv, run 2 right"]
    assert found.notes == () and found.set_aside == ()
