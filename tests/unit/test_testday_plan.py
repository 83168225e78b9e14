"""The plan of a test day: steps, what should be seen, how many runs, when to stop; and the printed page."""

import re
from dataclasses import replace
from html import unescape

import numpy as np
import pytest

from rollmodel.advice import choose
from rollmodel.car import GRAVITY, CarError
from rollmodel.cli import main
from rollmodel.physics.balance import limits, understeer_angle
from rollmodel.physics.corner import settled_corner
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.reports.run_sheet import LONGEST_TITLE, STOPS, run_sheet
from rollmodel.sheets import training_car
from rollmodel.testday.doubts import doubts_of
from rollmodel.testday.expected import expected
from rollmodel.testday.plan import LOWEST, STEP, make_plan
from rollmodel.testday.power import WANTED, chance_of_seeing
from rollmodel.testday.sample import plan_for, simulate_car
from tests.unit.testday_cases import DEG_PER_G

SALOON = training_car("saloon")
AFTER = SALOON.with_holes(rear=3)


@pytest.fixture(scope="module")
def plan():
    return make_plan(SALOON, AFTER, doubts_of(SALOON), 30.0)


def test_steps_follow_the_standard_and_stop_short_of_either_limit(plan):
    accel = np.array([step.lateral_acceleration for step in plan.steps])
    assert accel[0] == LOWEST and np.allclose(np.diff(accel), STEP)
    assert (
        accel[-1]
        <= 0.8 * min(float(limits(car, driven=True).lower) for car in (SALOON, AFTER))
        < accel[-1] + STEP
    )
    assert [step.speed**2 / 30.0 for step in plan.steps] == pytest.approx(accel)


def test_the_table_is_the_models_own_corner(plan):
    step = plan.steps[-1]
    for i, car in enumerate((SALOON, AFTER)):
        assert step.roll[i] == pytest.approx(float(settled_corner(car, step.lateral_acceleration).roll_angle))
        beyond = float(understeer_angle(car, step.lateral_acceleration, driven=True))
        assert step.steer[i] == pytest.approx(SALOON.wheelbase / 30.0 + beyond)


def test_what_should_be_seen_has_the_change_better_known_than_either_figure(plan):
    for one in plan.expected.values():
        assert 0 < one.uncertainty_of_change < one.uncertainty
    gradients = [
        float(roll_gradient(car, axle_stiffness(car.front), axle_stiffness(car.rear)))
        for car in (SALOON, AFTER)
    ]
    found = plan.expected["roll gradient"]
    assert [found.before, found.after] == pytest.approx(gradients, rel=1e-6)


def test_the_uncertainty_of_a_change_is_that_of_draws():
    doubts, draw, changes = doubts_of(SALOON), np.random.default_rng(7), []
    from rollmodel.testday.doubts import moved

    for _ in range(300):
        car = SALOON
        for doubt in doubts:
            car = moved(car, doubt.name, doubt.standard * draw.normal())
        pair = [
            float(roll_gradient(one, axle_stiffness(one.front), axle_stiffness(one.rear)))
            for one in (car, car.with_holes(rear=3))
        ]
        changes.append(pair[1] - pair[0])
    found = expected(SALOON, AFTER, doubts, 1.0, 4.0)["roll gradient"]
    assert found.uncertainty_of_change == pytest.approx(
        2 * np.std(changes), rel=0.15
    )  # 300 draws: 4 % each way


def test_the_count_of_runs_shows_each_change_as_often_as_wanted(plan):
    for quantity, count in plan.runs.items():
        change, scatter = plan.expected[quantity].change, plan.scatter[quantity]
        assert chance_of_seeing(change, scatter, count) >= WANTED
    noisy = make_plan(SALOON, AFTER, [], scatter={"roll gradient": 0.3 * DEG_PER_G})
    assert noisy.runs["roll gradient"] > plan.runs["roll gradient"] and noisy.runs_each_way == max(
        noisy.runs.values()
    )
    blind = make_plan(SALOON, AFTER, [], scatter={"roll gradient": 9 * DEG_PER_G})
    assert blind.runs["roll gradient"] is None and blind.runs_each_way == plan.runs["understeer gradient"]
    assert "not even 60 runs" in run_sheet(blind)


def test_a_wheel_that_lifts_below_the_top_step_is_a_reason_to_stop():
    hatch = replace(training_car("hatch"), cg_height=0.62)
    stops = make_plan(hatch, hatch.with_holes(rear=1), []).stops
    lifts = [stop for stop in stops if stop.code == "wheel-lifts"]
    assert [stop.end for stop in lifts] == ["rear"]
    assert 0 < lifts[0].numbers["lift"][0] < stops[0].numbers["top"][0]
    assert {stop.code for stop in stops} == set(STOPS)


def test_what_is_no_single_change_or_no_car_to_test_is_refused():
    with pytest.raises(CarError, match="wanted one change"):
        make_plan(SALOON, SALOON, [])
    with pytest.raises(CarError, match="wanted one change"):
        make_plan(SALOON, SALOON.with_holes(2, 3), [])
    ice = replace(SALOON, tyre=replace(SALOON.tyre, grip_scale=0.2))
    with pytest.raises(CarError, match="no room for steps"):
        make_plan(ice, ice.with_holes(rear=3), [])


def text_of(page):
    return unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page.partition("<body>")[2])))


def test_the_page_holds_the_change_the_numbers_the_stops_and_the_cautions(plan):
    text = text_of(run_sheet(plan))
    assert "Rear bar stiffer: hole 1 to hole 3." in text and "Circle of radius 30 m" in text
    change = plan.expected["roll gradient"].change / DEG_PER_G
    assert f"{change:+.3f} ± " in text and f"Drive {plan.runs_each_way} runs left" in text
    assert "certifies nothing" in text and "closed course" in text and "maker's torque" in text
    assert "{" not in text and "nan" not in text and "None" not in text
    assert f"{plan.steps[-1].lateral_acceleration / GRAVITY:.2f}" in text


def test_the_page_is_whole_in_itself(plan):
    page = run_sheet(plan)
    assert not re.search(r"(https?:|//|<script|<img|<link|@import|url\()", page.replace("</", "<"))


def test_text_from_a_sheet_is_escaped_and_a_long_title_is_cut():
    hostile = replace(SALOON, title='<script>alert("x")</script> & ' + "long " * 100)
    page = run_sheet(make_plan(hostile, hostile.with_holes(rear=3), []))
    assert "<script>" not in page and "&lt;script&gt;" in page
    assert len(unescape(re.search(r"<h1>Run sheet: (.*)</h1>", page)[1])) <= LONGEST_TITLE


def test_us_units_and_the_steering_wheel(plan):
    wheel = make_plan(SALOON, AFTER, [], 30.48, steering_ratio=15.0)
    text = text_of(run_sheet(wheel, "US customary"))
    assert (
        "mph" in text
        and "km/h" not in text
        and "radius 100 ft" in text
        and "Steer at the steering wheel" in text
    )
    steer = np.degrees(15 * wheel.steps[0].steer[0])
    assert f"{steer:.1f}" in text


@pytest.fixture
def run(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)

    def run(*arguments):
        code = main(["plan", *map(str, arguments)])
        printed = capsys.readouterr()
        return code, printed.out, printed.err

    return run


def test_the_command_takes_the_change_from_the_advice(run, tmp_path):
    code, out, err = run("saloon", "--symptom", "understeer")
    first = choose(SALOON, "understeer").first
    assert (code, err) == (0, "") and f"hole {first.from_hole} to hole {first.to_hole}" in out
    page = (tmp_path / "run-sheet.html").read_text(encoding="utf-8")
    assert "The trade&#39;s rule for understeer" in page
    code, _, err = run("saloon", "--symptom", "understeer")
    assert code == 2 and "is there already" in err
    assert run("saloon", "--symptom", "understeer", "--replace")[0] == 0


@pytest.mark.parametrize(
    "arguments, message",
    [
        (("saloon",), "wanted one of --symptom"),
        (("saloon", "--symptom", "understeer", "--change", "rear", "2"), "wanted one of --symptom"),
        (("hatch", "--symptom", "understeer"), "no bar change to test: Leave the bars"),
        (("saloon", "--change", "rear", "7"), "wanted a rear hole from 1"),
        (("saloon", "--change", "rear", "2", "--scatter-roll", "0"), "--scatter-roll"),
        (("saloon", "--change", "rear", "2", "--scatter-steer", "0 deg/g"), "wanted a scatter above zero"),
        (("saloon", "--change", "rear", "2", "--radius", "2 m"), "--radius"),
        (("saloon", "--change", "rear", "2", "--into", "no/such/folder/x.html"),
         "there is no folder no/such/folder"),
    ],
)
def test_each_refusal_is_one_message_and_exit_2(run, arguments, message):
    code, out, err = run(*arguments)
    assert (code, out) == (2, "") and message in err and len(err.strip().splitlines()) == 1


@pytest.mark.parametrize("name", ["coupe", "saloon"])
def test_a_healthy_car_is_not_stopped_for_its_roll_and_one_far_off_is(name):
    """Simulated with the noise that we state, the sensor's zero in it; a height far off is seen."""
    car = training_car(name)
    made = make_plan(car, car.with_holes(rear=3), doubts_of(car), 30.0)
    numbers = next(stop for stop in made.stops if stop.code == "roll-off").numbers
    off, floor = (numbers[key][0] for key in ("off", "floor"))
    wanted = np.array([step.roll[0] for step in made.steps])
    bound = np.maximum(off * wanted, floor)
    accel = [step.lateral_acceleration for step in made.steps]
    tall = replace(car, cg_height=1.5 * car.cg_height)

    def roll_of_both_ways(one, seed):
        drawn = simulate_car(one, plan_for(car), seed=seed)
        near = [np.abs(drawn.speed**2 / 30.0 - level) < 0.1 for level in accel]  # m/s^2
        left, right = (
            np.array([np.mean(drawn.roll[rows & (drawn.direction == way)]) for rows in near])
            for way in (1, -1)
        )
        return (left - right) / 2  # the zero falls out of half the difference, whatever its sign

    for seed in range(5):
        assert np.all(np.abs(roll_of_both_ways(car, seed) - wanted) < bound)
    assert np.any(np.abs(roll_of_both_ways(tall, 1) - wanted) > bound)


def test_the_page_says_its_paper(plan):
    assert "size: A4" in run_sheet(plan) and "size: letter" in run_sheet(plan, "US customary")
