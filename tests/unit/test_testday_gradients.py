"""Gradients with their intervals, outliers, the difference of two setups, verdicts, the power of a test."""

from dataclasses import replace

import numpy as np
import pytest
from statsmodels.stats.power import TTestIndPower

from rollmodel.sheets import training_car
from rollmodel.testday.analysis import Sheet, analyse, remarks
from rollmodel.testday.compare import (
    NOT_RESOLVED,
    OPPOSITE,
    SEEN,
    Prediction,
    common_range,
    compare,
    size_beside_prediction,
    verdict_on,
    within,
)
from rollmodel.testday.faults import DayError
from rollmodel.testday.gradients import gradient
from rollmodel.testday.outliers import leave_out, outliers, without
from rollmodel.testday.power import chance_of_seeing, half_interval, runs_needed, smallest_change
from rollmodel.testday.predict import predicted_gradient, steer_of
from rollmodel.testday.runs import Setup
from rollmodel.testday.suspects import SENTENCES, suspicions
from tests.unit.testday_cases import BEND, DEG_PER_G, PLAN, QUIET, ROLL, STEER, plain_run, setup

QUANTITIES = ("roll gradient", "understeer gradient")


def by_hand(*slopes, name="before"):
    """Exact runs of these slopes of steer: (way round, slope in deg/g)."""
    return Setup(
        name,
        tuple(
            plain_run(way, slope * DEG_PER_G, name=f"{name} run {i + 1}")
            for i, (way, slope) in enumerate(slopes)
        ),
    )


def test_quiet_runs_give_the_very_gradients_that_made_them():
    quiet = setup(noise=QUIET)
    assert gradient(quiet, "roll gradient").value == pytest.approx(ROLL, rel=1e-6)
    found = gradient(quiet, "understeer gradient")
    assert found.value == pytest.approx(STEER, rel=1e-6) and found.intercept == pytest.approx(BEND, rel=1e-6)


def test_both_ways_round_count_alike_and_a_zero_that_is_off_falls_out():
    runs = [plain_run(1, 0.5 * DEG_PER_G, offset=0.01, name=str(i)) for i in range(4)]
    runs += [plain_run(-1, 0.3 * DEG_PER_G, offset=-0.01, name=str(i)) for i in range(4, 6)]
    found = gradient(Setup("x", tuple(runs)), "understeer gradient")
    assert found.value == pytest.approx(0.4 * DEG_PER_G) and found.intercept == pytest.approx(BEND)
    assert found.sides == pytest.approx((0.5 * DEG_PER_G, 0.3 * DEG_PER_G)) and found.sides_differ


def test_the_interval_is_students_over_the_runs():
    slopes = [0.35, 0.40, 0.45]
    found = gradient(by_hand(*((1, slope) for slope in slopes)), "understeer gradient")
    half = 4.302653 * np.std(slopes, ddof=1) / np.sqrt(3)  # t of 2 degrees of freedom, from a table
    assert found.half_width / DEG_PER_G == pytest.approx(half, rel=1e-6) and found.degrees_of_freedom == 2
    assert found.sides is None and found.repeated


def test_without_repetitions_the_interval_is_that_of_the_points_and_says_so():
    found = gradient(setup(plan=replace(PLAN, repetitions=1)), "understeer gradient")
    assert not found.repeated and found.low < found.value < found.high and np.isnan(found.scatter)


def test_one_wild_point_is_shown_kept_and_taken_out_beside():
    one = setup()
    runs = list(one.runs)
    steer = runs[2].steer.copy()
    steer[5] += np.radians(2.0)
    runs[2] = replace(runs[2], steer=steer)
    wild = replace(one, runs=tuple(runs))
    found = outliers(wild, "understeer gradient")
    assert [(out.run, out.point) for out in found if out.point is not None] == [(runs[2].name, 5)]
    assert gradient(wild, "understeer gradient").value != gradient(one, "understeer gradient").value
    assert without(wild, found).runs[2].points == runs[2].points - 1
    analysis = analyse(wild)
    kept = next(one for one in analysis.gradients if one.quantity == "understeer gradient")
    assert kept.value == gradient(wild, "understeer gradient").value and analysis.without_outliers


def test_one_wild_run_is_shown():
    odd = by_hand((1, 0.40), (-1, 0.41), (1, 0.40), (-1, 0.40), (1, 0.41), (-1, 0.41), (1, 0.40), (-1, 2.0))
    assert [out.run for out in outliers(odd, "understeer gradient")] == ["before run 8"]


def test_a_curve_that_bends_near_the_limit_makes_no_outliers():
    runs = []
    for i in range(6):
        run = plain_run((1, -1)[i % 2], 0.4 * DEG_PER_G, count=14, name=str(i))
        noise = np.random.default_rng(i).normal(0, 1e-4, 14)
        runs.append(replace(run, steer=run.steer + 2e-5 * run.lateral_acceleration**4 + noise))
    assert outliers(Setup("x", tuple(runs)), "understeer gradient") == []


def test_few_draws_have_outliers_that_are_none():
    found = [bool(outliers(setup(seed=seed), "roll gradient")) for seed in range(60)]
    assert sum(found) <= 6  # 1 % for points and 1 % for runs: 7 or more of 60 has a chance of 1 in 4000


def test_leaving_a_run_out_is_named():
    one = setup()
    left = leave_out(one, ["run 3 left"])
    assert len(left.runs) == 5 and left.set_aside == ("before, run 3 left: left out as asked.",)
    with pytest.raises(DayError, match="could be"):
        leave_out(one, ["left"])
    with pytest.raises(DayError, match="every run was left out"):
        leave_out(one, [run.name for run in one.runs])


def test_a_difference_with_its_interval_by_hand():
    before = by_hand((1, 0.40), (1, 0.44), (-1, 0.40), (-1, 0.44))
    after = by_hand((1, 0.30), (1, 0.34), (-1, 0.30), (-1, 0.34), name="after")
    found = compare(before, after, "understeer gradient")
    scatter = np.sqrt(8 * 0.02**2 / 4)  # eight slopes 0.02 from their means, four means
    half = 2.776445 * scatter * np.sqrt(1 / 4 + 1 / 4)  # t of 4 degrees of freedom, from a table
    assert found.value / DEG_PER_G == pytest.approx(-0.10) and found.degrees_of_freedom == 4
    assert found.half_width / DEG_PER_G == pytest.approx(half, rel=1e-6)
    assert half_interval(found.scatter, 4, 4) == pytest.approx(found.half_width, rel=1e-9)


@pytest.mark.parametrize(
    "low, high, change, verdict",
    [
        (0.1, 0.3, 0.2, SEEN),
        (-0.3, -0.1, -0.2, SEEN),
        (0.1, 0.3, -0.2, OPPOSITE),
        (-0.3, -0.1, 0.2, OPPOSITE),
        (-0.1, 0.3, 0.2, NOT_RESOLVED),
        (0.0, 0.3, 0.2, NOT_RESOLVED),
        (0.1, 0.3, None, SEEN),
        (-0.1, 0.3, None, NOT_RESOLVED),
    ],
)
def test_verdicts(low, high, change, verdict):
    assert verdict_on(low, high, None if change is None else Prediction(1.0, 1.0 + change)) == verdict


def test_size_beside_the_prediction_counts_both_uncertainties():
    assert size_beside_prediction(0.1, 0.3, Prediction(0, 0.25)) == "as predicted"
    assert size_beside_prediction(0.1, 0.3, Prediction(0, 0.5)) == "smaller"
    assert size_beside_prediction(0.1, 0.3, Prediction(0, 0.5, 0.4)) == "as predicted"
    assert size_beside_prediction(-0.9, -0.7, Prediction(0, -0.5)) == "larger"


def test_slopes_are_compared_over_the_range_that_both_reached():
    before, after = setup(noise=QUIET), setup(noise=QUIET, plan=replace(PLAN, highest=5.0), name="after")
    for one in common_range(before, after):
        assert max(run.lateral_acceleration.max() for run in one.runs) < 5.5
    with pytest.raises(DayError, match="no run has 3 steady points"):
        within(before, 6.9, 7.5)


def codes(analysis):
    return [one.code for one in analysis.suspicions]


@pytest.fixture(scope="module")
def saloon():
    car = training_car("saloon")
    return Sheet(car, car.with_holes(rear=3))


def model_setup(car, seed, name, **plan):
    """Runs of the model's own car, steer and roll with scatter."""
    from rollmodel.testday.sample import plan_for, simulate_car

    plan = replace(plan_for(car), rate=10.0, **plan)
    rows = simulate_car(car, plan, seed=seed)
    return setup_of(rows, plan.radius, name)


def setup_of(rows, radius, name):
    from rollmodel.testday.channels import Channels
    from rollmodel.testday.runs import settled_runs

    channels = Channels(
        name,
        rows.time,
        rows.speed**2 / radius,
        False,
        rows.steer,
        rows.roll,
        rows.run.astype(str),
        rows.direction,
        (),
    )
    return Setup(name, tuple(settled_runs([channels])[0]))


def test_a_change_that_was_made_is_seen_as_large_as_predicted(saloon):
    analysis = analyse(
        model_setup(saloon.before, 1, "before"), model_setup(saloon.after, 2, "after"), saloon, 30.0
    )
    assert [one.verdict for one in analysis.differences] == [SEEN, SEEN]
    assert [one.size for one in analysis.differences] == ["as predicted"] * 2
    assert codes(analysis) == []


def test_swapped_files_are_suspected(saloon):
    analysis = analyse(model_setup(saloon.after, 1, "before"), model_setup(saloon.before, 2, "after"), saloon)
    assert [one.verdict for one in analysis.differences] == [OPPOSITE, OPPOSITE]
    assert codes(analysis)[0] == "swapped"


def test_a_change_at_the_other_end_is_suspected(saloon):
    stiffer_front = saloon.before.with_holes(front=2)
    analysis = analyse(
        model_setup(saloon.before, 1, "before"), model_setup(stiffer_front, 2, "after"), saloon
    )
    assert [one.verdict for one in analysis.differences] == [SEEN, OPPOSITE]
    assert codes(analysis)[0] == "other-end"


def test_a_change_that_never_reached_the_wheels_is_suspected(saloon):
    analysis = analyse(
        model_setup(saloon.before, 1, "before"), model_setup(saloon.before, 2, "after"), saloon
    )
    assert [one.verdict for one in analysis.differences] == [NOT_RESOLVED] * 2
    assert "should-have-shown" in codes(analysis)


def test_a_change_that_one_gradient_shows_is_not_said_to_have_missed_the_wheels_by_the_other():
    """A bar at 85 % of its rate: roll leaves out its prediction, the balance is seen as predicted."""
    quiet = (1, 0.40), (1, 0.44), (-1, 0.40), (-1, 0.44), (1, 0.42), (-1, 0.42)
    same = compare(
        by_hand(*quiet),
        by_hand(*quiet, name="after"),
        "understeer gradient",
        Prediction(0.0, -0.3 * DEG_PER_G, 0.01 * DEG_PER_G),
    )
    seen = replace(same, quantity="roll gradient", verdict=SEEN, size="as predicted")
    (one,) = suspicions([same, seen])
    said = one.sentence(lambda value, kind: "-0.300 deg/g")
    assert one.code == "probably-smaller" and "may be smaller than predicted" in said
    assert "The roll gradient did change, so most likely the bar works" in said and "wheels" not in said
    alone = suspicions([same])
    assert [one.code for one in alone] == ["should-have-shown", "preload"]
    assert "probably" in alone[0].sentence(lambda value, kind: "-0.300 deg/g")


def test_a_change_too_small_to_see_says_how_many_runs_would_show_it(saloon):
    small = Sheet(saloon.before, replace(saloon.before, cg_height=saloon.before.cg_height * 1.005))
    analysis = analyse(model_setup(small.before, 1, "before"), model_setup(small.after, 3, "after"), small)
    assert {"too-small"} <= set(codes(analysis)) and {"more-runs", "hopeless"} & set(codes(analysis))


def test_an_interval_that_holds_both_nil_and_the_prediction_blames_nothing():
    before = by_hand((1, 0.40), (1, 0.44), (-1, 0.40), (-1, 0.44), (1, 0.42), (-1, 0.42))
    after = by_hand((1, 0.39), (1, 0.43), (-1, 0.36), (-1, 0.46), (1, 0.36), (-1, 0.40), name="after")
    found = compare(
        before, after, "understeer gradient", Prediction(0.0, -0.07 * DEG_PER_G, 0.03 * DEG_PER_G)
    )
    assert found.verdict == NOT_RESOLVED and found.smallest_seen < 0.07 * DEG_PER_G
    assert [one.code for one in suspicions([found])] == ["either"]


def test_steering_wheel_angles_under_the_wrong_name_are_suspected(saloon):
    before = model_setup(saloon.before, 1, "before")
    wheel = replace(before, runs=tuple(replace(run, steer=15 * run.steer) for run in before.runs))
    assert "steering-wheel" in codes(analyse(wheel, None, saloon, 30.0))
    assert "steering-wheel" not in codes(analyse(before, None, saloon, 30.0))


def test_a_sheet_that_is_wrong_is_said(saloon):
    low = Sheet(replace(saloon.before, cg_height=0.8 * saloon.before.cg_height))
    assert "absolute" in codes(analyse(model_setup(saloon.before, 1, "before"), None, low))


def test_roll_that_no_sheet_is_so_wrong_about_puts_units_under_suspicion(saloon):
    runs = model_setup(saloon.before, 1, "before")
    slow = replace(
        runs,
        runs=tuple(replace(run, lateral_acceleration=run.lateral_acceleration / 2.59) for run in runs.runs),
    )
    assert "far-from-sheet" in codes(analyse(slow, None, saloon))


def test_runs_off_the_standard_are_remarked():
    one = replace(setup(), runs=setup().runs[:1])
    assert [text.split(";")[0] for text in remarks(one)] == ["One way round only", "1 run(s) one way round"]
    assert remarks(setup(noise=QUIET)) == []
    coarse = setup(noise=QUIET, plan=replace(PLAN, step=1.5))
    assert remarks(coarse)[0].startswith("Steps of about 1.5 m/s^2")


def test_two_setups_without_a_common_channel_are_refused():
    one = setup()
    steer = replace(one, runs=tuple(replace(run, roll=None) for run in one.runs))
    roll = replace(one, name="after", runs=tuple(replace(run, steer=None) for run in one.runs))
    with pytest.raises(DayError, match="both need steer, or both need roll"):
        analyse(steer, roll)


def test_the_prediction_is_the_models_curve_put_through_the_same_treatment(saloon):
    quiet = setup(noise=QUIET)
    found = predicted_gradient(saloon.before, quiet, "understeer gradient")
    accel = quiet.runs[0].lateral_acceleration
    first, last = steer_of(saloon.before, accel)[[0, -1]]
    assert found == pytest.approx(
        (last - first) / (accel[-1] - accel[0]), rel=0.1
    )  # the curve bends a little
    high = replace(
        quiet,
        runs=tuple(replace(run, lateral_acceleration=run.lateral_acceleration + 20) for run in quiet.runs),
    )
    assert np.isnan(predicted_gradient(saloon.before, high, "understeer gradient"))


def test_the_chance_of_seeing_agrees_with_a_library_and_with_draws():
    ours = chance_of_seeing(0.10, 0.06, 4, ways=1)  # one way round: two plain groups, as the library has them
    theirs = TTestIndPower().power(0.10 / 0.06, nobs1=4, alpha=0.05)
    assert ours == pytest.approx(theirs, abs=1e-6)
    seen, draw = 0, np.random.default_rng(5)
    for _ in range(400):
        slopes = draw.normal(0.4, 0.05, (2, 6)) + [[0], [0.10]]
        pair = (
            by_hand(*((1 - 2 * (i % 2), s) for i, s in enumerate(one)), name=name)
            for one, name in zip(slopes, ("before", "after"), strict=True)
        )
        seen += compare(*pair, "understeer gradient").verdict == SEEN
    expected = chance_of_seeing(0.10, 0.05, 3)
    assert seen / 400 == pytest.approx(expected, abs=3 * np.sqrt(expected * (1 - expected) / 400))


def test_runs_needed_and_the_smallest_change_agree():
    for change in (0.03, 0.05, 0.2):
        runs = runs_needed(change, 0.05)
        assert chance_of_seeing(change, 0.05, runs) >= 0.80
        assert runs == 3 or chance_of_seeing(change, 0.05, runs - 1) < 0.80
        assert smallest_change(0.05, runs) <= change * (1 + 1e-9)
    assert runs_needed(0.001, 0.05) is None and runs_needed(10, 0.05) == 3


def test_every_suspicion_has_a_sentence_and_every_sentence_is_used():
    import re
    from pathlib import Path

    import rollmodel.testday.suspects as module

    text = Path(module.__file__).read_text(encoding="utf-8").partition("class Suspicion")[2]
    used = set(re.findall(r'Suspicion\(\s*"([a-z-]+)"', text)) | {"larger", "smaller"}
    assert used == set(SENTENCES)


def test_runs_of_unlike_length_of_which_one_is_too_short_for_the_range_are_dealt_with():
    before = by_hand((1, 0.40), (1, 0.44), (-1, 0.40))
    short = plain_run(-1, 0.4 * DEG_PER_G, count=3, name="short")
    short = replace(short, lateral_acceleration=np.array([1.0, 1.2, 2.3]))
    mixed = replace(before, runs=(*before.runs, short))
    kept = within(mixed, 1.1, 6.5)
    assert len(kept.runs) == 3 and kept.set_aside[0].startswith("short: too few points")


def test_studentised_residuals_in_closed_form_are_those_of_a_fit_without_each_point():
    """Second road: the library's own, which fits anew without each point in turn."""
    from statsmodels.regression.linear_model import OLS

    from rollmodel.testday.outliers import studentised

    draw = np.random.default_rng(3)
    fit = OLS(draw.normal(size=40), np.column_stack((np.ones(40), draw.normal(size=(40, 3))))).fit()
    influence = fit.get_influence()
    wanted = influence.resid_studentized_external
    found = studentised(fit.resid, influence.hat_matrix_diag, fit.df_resid)
    assert found == pytest.approx(wanted, rel=1e-9)  # both in doubles
