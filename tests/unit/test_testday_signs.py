"""Signs of a small roll: noise turns no sign, and a sign that really is reversed is still told."""

from dataclasses import replace
from math import radians

import numpy as np
import pytest

from rollmodel.advice.window import times_as_stiff
from rollmodel.car import GRAVITY
from rollmodel.cli import main
from rollmodel.sheets import training_car, training_cars
from rollmodel.testday.channels import Channels
from rollmodel.testday.faults import DayError
from rollmodel.testday.gradients import gradient, run_slope
from rollmodel.testday.runs import Setup, settled_runs
from rollmodel.testday.sample import plan_for, sample_csv, simulate_car
from rollmodel.testday.signs import settle_signs
from rollmodel.testday.simulate import CAREFUL
from rollmodel.testday.suspects import about_the_sheet
from rollmodel.testday.trial import scaled
from tests.unit.testday_cases import plain_run


def stiff_car():
    """A low car on hard springs, invented; it rolls far less than a careful day's noise."""
    car = times_as_stiff(training_car("single-seater"), 2.5)
    return replace(car, cg_height=0.35 * car.cg_height)


def stiff_day(noise, seed):
    """A simulated day of it, signs after ISO 8855."""
    car = stiff_car()
    return simulate_car(car, plan_for(car), scaled(CAREFUL, noise), seed)


def rows_of(driven, roll):
    run = driven.run.astype(str)
    accel = driven.speed**2 / 30.0
    return Channels("a file", driven.time, accel, False, driven.steer, roll, run, driven.direction, ())


@pytest.mark.parametrize("noise", (1.0, 3.0))
def test_noise_on_a_car_that_hardly_rolls_is_no_reversed_sign(noise):
    """Slopes of roll come out on either side of nil; the runs are read, and the roll is said to be small."""
    either = 0
    for seed in range(12):
        driven = stiff_day(noise, seed)
        runs, notes = settled_runs([rows_of(driven, driven.roll)])
        slopes = [run_slope(run, "roll").slope for run in runs]
        found = gradient(Setup("before", tuple(runs)), "roll gradient")
        if min(slopes) < 0 < max(slopes):
            either += 1
            names = [run.name for run, slope in zip(runs, slopes, strict=True) if slope < 0]
            assert len(notes) == 1 and notes[0].startswith("Roll is too small to be read"), notes
            assert all(name in notes[0] for name in names) and "Mend" not in notes[0]
        assert not any("opposite to ISO" in note for note in notes)
        assert abs(found.value) < radians(0.5) / GRAVITY
    assert either >= 8


@pytest.mark.parametrize("car", sorted(training_cars()))
@pytest.mark.parametrize("seed", range(4))
def test_a_roll_sign_that_really_is_reversed_in_one_run_is_still_refused(car, seed):
    """Every training car at a careful day's noise: its slope stands clear of the noise."""
    driven = simulate_car(training_car(car), seed=seed)
    turned = np.where(driven.run == 3, -driven.roll, driven.roll)
    with pytest.raises(DayError, match="one sign in a file, run 1 left and the other in a file, run 3 left"):
        settled_runs([rows_of(driven, turned)])


def test_a_small_roll_written_the_other_way_round_throughout_is_turned():
    """Steer after ISO and roll the other way, on a stiff car whose single runs do not all tell."""
    car = times_as_stiff(training_car("single-seater"), 2.5)
    for seed in range(6):
        driven = simulate_car(car, plan_for(car), scaled(CAREFUL, 1.5), seed)
        plain, turned = (
            gradient(Setup("before", tuple(settled_runs([rows_of(driven, roll)])[0])), "roll gradient")
            for roll in (driven.roll, -driven.roll)
        )
        assert turned.value == pytest.approx(plain.value) and plain.value > 0


def test_runs_of_a_few_points_tell_no_sign_and_refuse_nothing():
    """Two points of noise are no slope: such a run has the sign of the others, and is set aside later."""
    one, other = plain_run(name="run 1"), plain_run(name="run 3").taken(slice(0, 2))
    settled, notes = settle_signs([one, replace(other, roll=other.roll[::-1])])
    assert notes == [] and np.all(settled[1].roll == other.roll[::-1])


def test_a_small_roll_that_noise_makes_large_is_not_blamed_on_units():
    """0.30 ± 0.25 beside 0.04 by the sheet is seven times as much and tells nothing; 0.30 ± 0.02 does."""
    unit = radians(1) / GRAVITY
    kept = gradient(Setup("before", (plain_run(), plain_run(-1))), "roll gradient")
    codes = []
    for half in (0.25, 0.02):
        found = replace(kept, value=0.30 * unit, low=(0.30 - half) * unit, high=(0.30 + half) * unit)
        codes.append([one.code for one in about_the_sheet(found, 0.04 * unit)])
    assert codes == [["absolute"], ["far-from-sheet"]]


def test_the_command_reads_the_package_s_own_sample_of_a_car_that_hardly_rolls(tmp_path, capsys):
    """Files for ``rollmodel runs``, several days: a result, the roll said to be small, no refusal."""
    car, said = stiff_car(), 0
    for seed in range(4):
        for name, number in (("before", 2 * seed), ("after", 2 * seed + 1)):
            driven = simulate_car(car, plan_for(car), CAREFUL, number)
            (tmp_path / f"{name}.csv").write_text(sample_csv(car, driven, 30.0), encoding="utf-8")
        assert main(["runs", *(str(tmp_path / f"{name}.csv") for name in ("before", "after"))]) == 0
        printed = capsys.readouterr()
        words = " ".join(printed.out.split())
        assert printed.err == "" and "Roll gradient: Not resolved" in words
        said += "Roll is too small to be read in single runs" in words
    assert said >= 3
