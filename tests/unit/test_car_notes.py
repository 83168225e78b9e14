"""Notes under the car table and in its JSON, stress of the bars, and the units a sheet is answered in."""

import json
from dataclasses import replace

import numpy as np
import pytest

from rollmodel import sheets
from rollmodel.car import GRAVITY, Tyre
from rollmodel.cli import main
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.stress import stress_in_corner
from rollmodel.reports.car import car_values, read_car
from rollmodel.reports.car_notes import car_notes
from rollmodel.reports.car_table import car_table
from tests.unit.advice_cars import car, single_seater
from tests.unit.plain_car import CAR, with_ends

COUPE = sheets.training_car("coupe")


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


def test_the_fields_say_what_a_bump_stops_rate_is(printed):
    assert "the rate at the wheel; in roll the body rises on its springs" in printed("car", "--fields")


def test_a_body_that_leans_inward_is_told_with_the_wheel_that_meets_its_stop():
    high = {"roll_centre_height": 0.6}
    stop = {**high, "bump_travel": 0.005, "bump_stop_rate": 1e5}
    one = with_ends(COUPE, stop, high, cg_height=0.3)
    values = car_values(read_car(one, 0.8 * GRAVITY))
    assert "The body leans into the corner (-1.50 deg/g)" in notes(one)
    assert "The inside front wheel is on its bump stop." in notes(one) and "outside front" not in notes(one)
    assert values["front"]["bump_travel_mm"] < 0 and values["front"]["bump_travel_used_share"] is None
    assert "of the travel there is [%] in droop in droop" in table(one)
    unrated = with_ends(one, {"bump_stop_rate": None})
    assert "The inside front wheel needs more bump travel than there is" in notes(unrated)
    assert "leans into" not in notes(sheets.training_car("coupe"))


def test_a_lifted_inside_wheel_does_not_hide_the_stop_or_its_missing_rate():
    one = with_ends(COUPE, {"bump_travel": 0.005, "bump_stop_rate": 5e4}, cg_height=0.7)
    lift = read_car(one, 0.5 * GRAVITY).front.lift / GRAVITY
    for at in (0.98 * lift, 1.05 * lift):
        assert "The outside front wheel is on its bump stop." in notes(one, at)
        assert car_values(read_car(one, at * GRAVITY))["front"]["on_bump_stop"]
    assert "The inside front wheel is off the ground" in notes(one, 1.05 * lift)
    unrated = notes(with_ends(one, {"bump_stop_rate": None}), 1.0)
    assert "inside front wheel is off the ground" in unrated and "gives no bump_stop_rate" in unrated


def test_roll_that_jumps_as_a_wheel_lifts_is_told():
    """The front alone holds less than gravity tips until its stop, which makes up to twice its springs."""
    soft = {"spring_rate": 12e3, "bar": None, "bump_travel": 0.07, "bump_stop_rate": 2e6}
    one = with_ends(CAR, soft, {"spring_rate": 150e3}, cg_height=0.7)
    rear = read_car(one, 0.45 * GRAVITY).rear
    below, above = (float(settled_corner(one, rear.lift * part).roll_angle) for part in (0.9999, 1.0001))
    assert (rear.roll_before_lift, rear.roll_after_lift) == pytest.approx((below, above), rel=1e-3)
    said = "At 0.544 g, where the inside rear wheel lifts, the roll jumps from 3.09 deg to 5.78"
    assert said in notes(one, 0.5)
    assert "jumps" not in notes(sheets.training_car("hatch"), 0.9)


@pytest.mark.parametrize(("mass", "curve", "said"), [
    (3500.0, "1987", "The outside front tyre carries 13950 N; the magic formula 1987 curve was measured up"),
    (3500.0, "2006", "The outside front tyre carries 13950 N; the magic formula 2006 curve was measured up"),
    (240.0, "2006", "N; the magic formula 2006 curve was measured from about 1000 N"),
    (1290.0, "1987", None), (1290.0, "2006", None)])
def test_loads_that_nobody_measured_are_told_with_load_and_number(mass, curve, said):
    light = {"unsprung_mass": 25.0} if mass < 1000 else {}
    one = with_ends(COUPE, light, light, mass=mass, tyre=Tyre(f"magic formula {curve}"))
    assert said in notes(one) if said else "was measured" not in notes(one)


def test_loads_beyond_the_top_of_the_falling_grip_curve_are_told(printed, sheet):
    grip = 'peak_grip = 1.3\ngrip_drop_per_kN = 0.19\ncornering_stiffness = "900 N/deg"\n'
    path = sheet(text_of("coupe").replace('"magic formula 1987"\n', f'"falling grip"\n{grip}'))
    said = "side force falls with load beyond 3421 N"
    assert said in printed("car", path, "--at", "0.5g")
    ask = ("choose", path, "--symptom", "understeer", "--when", "middle")
    assert said in printed(*ask) and said in " ".join(json.loads(printed(*ask, "--json"))["notes"])
    assert "falls with load beyond 769 lbf" in printed("car", path, "--at", "0.5g", "--units", "us")
    assert "falls with load" not in printed("car", "single-seater")
