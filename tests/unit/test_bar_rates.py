"""A bar known by its rates alone: the same car as from its sizes; a plain sentence where sizes are wanted."""

import json
import math
import tomllib
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from rollmodel.advice import choose, readings
from rollmodel.car import Bar, CarError
from rollmodel.cli import main
from rollmodel.panels.controls import Hole
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_02
from rollmodel.physics.balance import limits
from rollmodel.physics.bar import compliance_parts, levers, link_rates_in_roll, link_rates_one_end_held
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.spread import rate_spread
from rollmodel.physics.stiffness import axle_stiffness, bar_wheel_rates_in_roll
from rollmodel.physics.stress import bar_stress
from rollmodel.reports.car import car_values, read_car
from rollmodel.reports.learn import learned_numbers
from rollmodel.sheets import (
    SheetError,
    from_values,
    read_text,
    to_sheet,
    to_values,
    training_car,
    training_cars,
)
from rollmodel.sheets.schema import RATES_REPLACE
from rollmodel.testday.bench import with_steel
from rollmodel.testday.doubts import doubts_of, moved
from rollmodel.testday.into_sheet import sheet_with
from rollmodel.testday.learn import Observation, learn
from rollmodel.testday.measure import measure
from rollmodel.testday.readings import readings_of
from tests.unit.random_cars import bars, cars

COUPE = training_car("coupe")


def by_rates(bar):
    """The same bar known by its rates at the link, one end held, alone."""
    if bar is None:
        return None
    rates = tuple(link_rates_one_end_held(bar).tolist())
    return Bar(None, None, bar.link_motion_ratio, hole=bar.hole, rates=rates,
               link_lean_at_arm=bar.link_lean_at_arm, link_lean_at_pickup=bar.link_lean_at_pickup)


def in_order(bar):
    """Whether each hole is stiffer than the one before, as a sheet wants it; odd swept arms are not."""
    rates = [] if bar is None else link_rates_one_end_held(bar).tolist()
    return all(after > before * (1 + 1e-6) for before, after in pairwise(rates))


def with_rates(car, ends=("front", "rear")):
    return replace(car, **{end: replace(car.axle(end), bar=by_rates(car.axle(end).bar)) for end in ends})


@given(bars())
def test_the_bar_itself_has_the_same_rates(bar):
    assume(in_order(bar))
    known = by_rates(bar)
    assert link_rates_in_roll(known) == pytest.approx(link_rates_in_roll(bar), rel=1e-9)
    assert known.positions == bar.positions


@given(cars(), st.sampled_from((("front",), ("rear",), ("front", "rear"))), st.floats(1.0, 6.0))
def test_rates_worked_out_from_sizes_give_the_same_car(car, ends, accel):
    assume(in_order(car.front.bar) and in_order(car.rear.bar))
    known = with_rates(car, ends)
    for end in ("front", "rear"):
        if car.axle(end).bar:
            rates = [bar_wheel_rates_in_roll(one.axle(end)) for one in (car, known)]
            assert rates[1] == pytest.approx(rates[0], rel=1e-9)
        stiff = [axle_stiffness(one.axle(end)) for one in (car, known)]
        assert float(stiff[1].total_roll) == pytest.approx(float(stiff[0].total_roll), rel=1e-9)
    both = [settled_corner(one, accel) for one in (car, known)]
    for name in ("roll_angle", "front_share"):
        here, there = (float(getattr(one, name)) for one in both)
        assert here == pytest.approx(there, rel=1e-9, abs=1e-12, nan_ok=True), name


@given(st.sampled_from(sorted(training_cars())))
def test_limits_advice_and_report_are_those_of_the_sizes(name):
    car = training_car(name)
    known = with_rates(car)
    assert float(limits(known).lower) == pytest.approx(float(limits(car).lower), rel=1e-9)
    pairs = [(front, rear) for front in range(1, car.front.positions + 1)
             for rear in range(1, car.rear.positions + 1)]
    for here, there in zip(readings(car, pairs), readings(known, pairs), strict=True):
        assert there.lead == pytest.approx(here.lead, rel=1e-9, abs=1e-9)
    steps = [(move.end, move.from_hole, move.to_hole) if move else None
             for move in (choose(one, "understeer", "middle").first for one in (car, known))]
    assert steps[0] == steps[1]
    values = [car_values(read_car(one, 5.0)) for one in (car, known)]
    for end in ("front", "rear"):
        told = values[1][end]
        for stress in ("bar_surface_shear_stress_MPa", "bar_largest_stress_von_mises_MPa"):
            assert told.pop(stress) is None
        for field, value in told.items():
            if value is None:
                assert values[0][end][field] is None, field
                continue
            assert value == pytest.approx(values[0][end][field], rel=1e-9, nan_ok=True), field


@pytest.mark.parametrize("family", ["metric", "US customary"])
def test_a_sheet_goes_round_and_comes_back(family):
    known = with_rates(COUPE)
    text = to_sheet(known, family)
    assert "rates = [" in text and not any(f"\n{name} =" in text.partition("[front.bar]")[2].partition(
        "[rear]")[0] for name in RATES_REPLACE)
    back = read_text(text)
    assert back.front.bar.rates == pytest.approx(known.front.bar.rates, rel=1e-6)
    assert replace(back.front.bar, rates=known.front.bar.rates) == known.front.bar


def tables(**bar):
    found = to_values(with_rates(COUPE))
    found["front"]["bar"] |= bar
    return found


@pytest.mark.parametrize(
    "changed, words",
    [
        ({"outer_diameter": "26 mm", "holes": ["220 mm"]}, "rates: wanted in place of every size, given with "
         "outer_diameter, holes; leave out the sizes to count on the rates, or the rates"),
        ({"shear_modulus": "79 GPa"}, "given with shear_modulus"),
        ({"rates": ["60 N/mm", "50 N/mm", "40 N/mm"]}, "softest first, .*turn the list round, and count"),
        ({"rates": ["50 N/mm", "50 N/mm"]}, "each stiffer than the one before"),
        ({"rates": ["50 N/mm"], "hole": 2}, "hole: wanted 1, the only one there is, given 2"),
        ({"rates": "50 N/mm"}, "put it in square brackets"),
        ({"rates": []}, "list at least one"),
        ({"rates": ["50 N/m"], "hole": 1}, '"50 N/mm" was meant'),
        ({"rates": ["30 40 N/mm"]}, "several were meant. Put a comma between each two"),
        ({"rates": ["50 mm"]}, "mm is a length; write it in N/mm or lbf/in"),
    ],
)
def test_what_cannot_be_meant_is_refused_in_one_sentence(changed, words):
    with pytest.raises(SheetError, match=words) as refused:
        from_values(tables(**changed))
    assert len(refused.value.faults) == 1 and refused.value.faults[0].startswith("[front.bar] ")


def test_without_rates_sizes_are_asked_for_as_before():
    found = tables()
    del found["front"]["bar"]["rates"]
    with pytest.raises(SheetError) as refused:
        from_values(found)
    assert {"outer_diameter", "centre_length", "arms", "holes"} <= {
        fault.partition("] ")[2].partition(":")[0] for fault in refused.value.faults}


@pytest.mark.parametrize("changed", [{"rates": ()}, {"rates": (2.0, 1.0)}, {"rates": (0.0, 1.0)}, {"hole": 3},
                                     {"rates": (math.nan,)}, {"outer_diameter": 0.02}, {"wall": 0.002},
                                     {"link_motion_ratio": 0.0}, {"link_lean_at_arm": 2.0}])
def test_a_record_that_cannot_be_is_refused(changed):
    good = Bar(None, None, 0.6, hole=1, rates=(20e3, 30e3))
    with pytest.raises(CarError):
        replace(good, **changed)


@pytest.mark.parametrize("asked", [levers, compliance_parts, rate_spread, lambda bar: bar_stress(bar, 0.02)])
def test_what_only_sizes_can_tell_says_so(asked):
    with pytest.raises(CarError, match="wanted a bar's sizes, given its rates alone; give the sizes"):
        asked(by_rates(COUPE.front.bar))


def test_the_command_says_which_rate_is_meant_and_that_stress_is_out_of_reach(tmp_path, capsys):
    sheet = tmp_path / "bench.toml"
    sheet.write_text(to_sheet(with_rates(COUPE)), encoding="utf-8")
    assert main(["car", str(sheet)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "no sizes no sizes" in said and "no bar" not in said
    assert "[front.bar] rates are taken at the link, square to the arm, with the other link held" in said
    assert "Without sizes nothing can be said of this bar's stress." in said
    assert "Bar stress is that of straight steel" not in said
    assert main(["car", str(sheet), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["front"]["bar_surface_shear_stress_MPa"] is None
    assert main(["car", "--fields"]) == 0
    assert "in place of every size" in " ".join(capsys.readouterr().out.split())


def test_a_hole_of_such_a_bar_has_a_number_and_no_length():
    control = Hole.of("hole", "Front hole", by_rates(COUPE.front.bar))
    assert control.named(2, "metric") == "Front hole 2 of 3" and control.noun == "hole"
    assert Hole.of("hole", "Front hole", COUPE.front.bar).named(2, "metric").endswith(" mm")


def test_lesson_2_works_on_the_bar_with_sizes_or_says_what_it_lacks():
    assert lesson_02.holed_axle(with_rates(COUPE, ("front",))) == COUPE.rear
    lesson = Lesson("02", with_rates(COUPE))
    assert lesson.stand_in.startswith("This lesson needs a bar with its sizes, not its rates alone.")


def test_how_well_rates_are_known_counts_as_that_of_the_bar():
    known = with_rates(COUPE)
    (usual,) = (doubt for doubt in doubts_of(known) if doubt.name == "front.bar.rate")
    assert (usual.value, usual.limit, usual.stated) == (1.0, 0.10, False)
    used = known.front.bar.rates[known.front.bar.hole - 1]
    (told,) = (one for one in doubts_of(known, {"front.bar.rates": 0.03 * used})
               if one.name == "front.bar.rate")
    assert told.stated and told.limit == pytest.approx(0.03, rel=1e-12)
    stiffer = moved(known, "front.bar.rate", 0.05)
    assert stiffer.front.bar.rates == pytest.approx(1.05 * np.array(known.front.bar.rates), rel=1e-12)
    assert with_steel(COUPE.front.bar, 1.05).shear_modulus == pytest.approx(1.05 * 79.3e9)


def test_the_bench_beside_such_a_sheet_fits_no_steel_and_says_where_its_rate_goes():
    loads = (100, 200, 300, 400)  # N, on a bar of 60 N/mm
    bench = {"hole": 2, "load": [f"{n} N" for n in loads], "deflection": [f"{n / 60:.4f} mm" for n in loads]}
    read = readings_of({"front": {"bar": bench}})
    (found,) = measure(read, with_rates(COUPE))
    assert found.value == pytest.approx(60e3, rel=1e-3) and not found.in_sheet
    said = found.notes[-1]
    assert "no steel to fit" in said and "write it into [front.bar] rates, number 2" in said
    fitted = [one.name for one in measure(read, COUPE)][1:]
    assert fitted == ["front.bar.shear_modulus", "front.bar.youngs_modulus"]


def test_what_runs_teach_goes_into_the_rates():
    known = with_rates(COUPE)
    doubt = next(one for one in doubts_of(known) if one.name == "front.bar.rate")

    def rolls(car):
        return [float(settled_corner(car, 4.0).roll_angle)]

    seen = [Observation("roll", "angle", rolls(moved(known, "front.bar.rate", -0.06))[0], 1e-6)]
    fit = learn(known, [doubt], seen, rolls)
    text = sheet_with(to_sheet(known), learned_numbers(fit, known))
    learned = read_text(text).front.bar.rates
    assert learned == pytest.approx(0.94 * np.array(known.front.bar.rates), rel=2e-3)
    written = tomllib.loads(text)["front"]["bar"]["rates"]
    assert ["±" in rate for rate in written] == [False, True, False], "at the hole in use alone"
