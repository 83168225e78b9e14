"""Notes under the car table and in its JSON, stress of the bars, and the units a sheet is answered in."""

import json
from dataclasses import replace

import numpy as np
import pytest

from rollmodel import sheets
from rollmodel.car import GRAVITY, Tyre
from rollmodel.cli import main
from rollmodel.physics.stress import stress_in_corner
from rollmodel.reports.car import car_values, read_car
from rollmodel.reports.car_notes import car_notes
from rollmodel.reports.car_table import car_table
from tests.unit.advice_cars import car, single_seater


def notes(one, at=0.8):
    return " ".join(car_notes(read_car(one, at * GRAVITY)))


def table(one, at=0.8):
    reading = read_car(one, at * GRAVITY)
    return " ".join(car_table(reading, "metric", car_notes(reading)).split())


@pytest.fixture
def printed(capsys):
    def printed(*arguments):
        assert main([str(argument) for argument in arguments]) == 0
        return " ".join(capsys.readouterr().out.split())
    return printed


@pytest.fixture
def sheet(tmp_path):
    def sheet(text):
        (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
        return tmp_path / "mine.toml"
    return sheet


def text_of(name):
    return sheets.training_cars()[name].read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(sheets.training_cars()))
def test_stress_of_each_bar_at_the_corners_travel(name):
    one = sheets.training_car(name)
    values = car_values(read_car(one, 0.7 * GRAVITY))
    for end in ("front", "rear"):
        stress = values[end]["bar_surface_shear_stress_MPa"]
        if one.axle(end).bar is None:
            assert stress is None
            continue
        found = stress_in_corner(one, end, 0.7 * GRAVITY)
        assert stress == pytest.approx(float(found.shear) / 1e6)
        assert values[end]["bar_largest_stress_von_mises_MPa"] == pytest.approx(float(found.largest) / 1e6)


def test_stress_by_hand():
    """Link force times lever is the torque, ``16 T / (pi D^3)`` its stress in a solid bar on rigid arms."""
    one = car()
    reading = read_car(one, 0.5 * GRAVITY)
    bar, travel = one.front.bar, 2 * reading.front.bump_travel
    held = reading.front.stiffness.bar_wheel_rate / bar.link_motion_ratio**2
    torque = held * bar.link_motion_ratio * travel * bar.holes[bar.hole - 1]
    assert reading.front.bar_shear == pytest.approx(16 * torque / (np.pi * bar.outer_diameter**3))


def test_no_allowable_is_said_where_there_is_a_bar():
    assert "No allowable given: ask the bar's maker" in notes(car())
    bare = replace(car(), front=replace(car().front, bar=None), rear=replace(car().rear, bar=None))
    assert "allowable" not in notes(bare) and "no bar" in table(bare)


def test_camber_recovery_left_out_costs_no_camber():
    coupe = sheets.training_car("coupe")
    said = "roll costs no camber"
    assert said not in notes(coupe)
    one = replace(coupe, rear=replace(coupe.rear, camber_recovery=None))
    assert "camber_recovery is left out at the rear: there roll costs no camber" in notes(one)
    both = replace(one, front=replace(coupe.front, camber_recovery=None))
    assert "at the front and the rear" in notes(both)


def test_falling_grip_uses_no_camber_and_hardly_moves_the_small_gradient(printed):
    cambered = replace(single_seater(), front=replace(single_seater().front, camber=-0.03))
    assert "camber on the sheet is not used" in notes(cambered)
    assert "not used" not in notes(single_seater())
    assert "cornering stiffness does not depend on load" in notes(single_seater())
    ask = ("choose", "single-seater", "--symptom", "oversteer", "--when", "middle")
    assert "cornering stiffness does not depend on load" in printed(*ask)
    assert "does not depend on load" in " ".join(json.loads(printed(*ask, "--json"))["notes"])
    assert "does not depend on load" not in printed("choose", "coupe", *ask[2:])


def test_the_2006_curve_uses_no_camber_and_says_what_is_left_out(printed, sheet):
    second = replace(sheets.training_car("coupe"), tyre=Tyre("magic formula 2006"))
    assert "The magic formula 2006 curve knows no camber: camber and camber_recovery on the" in notes(second)
    assert "Its pull to one side is left out" in notes(second)
    assert "roll costs no camber" not in notes(second)  # it never does here
    assert "2006" not in notes(sheets.training_car("coupe"))
    path = sheet(text_of("coupe").replace("formula 1987", "formula 2006"))
    assert "Its pull to one side is left out" in " ".join(json.loads(printed("car", path, "--json"))["notes"])


def test_table_and_json_say_the_same(printed):
    found = json.loads(printed("car", "hatch", "--at", "0.9g", "--json"))["notes"]
    shown = printed("car", "hatch", "--at", "0.9g")
    assert len(found) >= 3 and all(note in shown for note in found)


def test_words_that_keep_the_table_from_contradicting_itself():
    hatch = table(sheets.training_car("hatch"), 0.9)
    assert "(all wheels down, off the stops)" in hatch and "tyres' squash in it" in hatch
    assert "tyres' squash" not in table(car())  # rigid tyres
    assert "Front share of overturning moment" in hatch
    assert "beyond the tyres" not in hatch  # its inside rear wheel lifts below the limit
    coupe = table(sheets.training_car("coupe"))
    assert "(beyond the tyres: slides first) beyond -" in coupe


def test_limits_that_print_alike_are_nearly_together():
    even = replace(car(), front_weight_share=0.5)
    assert "both ends nearly together" in table(even)
    assert "the front gives up first: understeer" in table(sheets.training_car("coupe"))


def blades(angles, more=""):
    text = text_of("single-seater")
    start = text.index("angles = ")
    return text[:start] + f"angles = {angles}\n{more}\n" + text[text.index("\n", start) + 1:]


def test_a_falling_list_of_blade_angles_is_read_as_from_on_edge_and_says_so(printed, sheet):
    falling = '["90 deg", "60 deg", "30 deg", "0 deg"]'
    said = "[front.bar.blade] angles fall from 90 deg to 0 deg: read as counted from on edge"
    path = sheet(blades(falling))
    assert said in printed("car", path)
    assert said in json.loads(printed("car", path, "--json"))["notes"][0]
    ask = ("--symptom", "oversteer", "--when", "middle")
    assert said in printed("choose", path, *ask)
    told = printed("car", sheet(blades(falling, 'angle_from = "on edge"')))
    assert "angles fall" not in told and "angles fall" not in printed("car", "single-seater")


def test_a_sheet_wholly_in_us_units_is_answered_in_them(printed, sheet):
    us = sheet(sheets.to_sheet(sheets.training_car("coupe"), "US customary"))
    ask = ("--symptom", "understeer", "--when", "middle")
    assert "[lbf/in]" in printed("car", us) and "[N/mm]" in printed("car", us, "--units", "metric")
    assert "keep 215 lbf" in printed("choose", us, *ask) and " N " not in printed("choose", us, *ask)
    assert "[N/mm]" in printed("car", "coupe") and "[lbf/in]" in printed("car", "coupe", "--units", "us")


def test_one_metric_value_makes_a_sheet_metric(printed, sheet):
    text = sheets.to_sheet(sheets.training_car("coupe"), "US customary")
    line = next(line for line in text.splitlines() if line.startswith("wheelbase"))
    assert "[N/mm]" in printed("car", sheet(text.replace(line, 'wheelbase = "2.48 m"')))


def test_the_fields_say_what_camber_recovery_counts(printed):
    said = printed("car", "--fields")
    assert "part of the whole body roll, the tyres' squash in it" in said
    assert "left out, roll costs no camber" in said and "used with magic formula 1987 alone" in said
