"""Learning from runs: exact answers where there are any, honest ones where there are none."""

import json
from dataclasses import replace

import numpy as np
import pytest

from rollmodel.cli import main
from rollmodel.physics.roll import roll_gradient
from rollmodel.physics.stiffness import axle_stiffness
from rollmodel.reports.learn import learn_text, learned_numbers, warnings
from rollmodel.sheets import read, read_text, read_uncertainties, to_sheet, training_car
from rollmodel.testday.doubts import Doubt, doubts_of, moved, value_of
from rollmodel.testday.faults import DayError
from rollmodel.testday.into_sheet import sheet_with
from rollmodel.testday.learn import Observation, learn
from rollmodel.testday.measure import with_measured
from tests.unit.testday_cases import DEG_PER_G

CAR = training_car("saloon")
AFTER = CAR.with_holes(rear=3)


def rolls(car):
    """Roll gradient before and after: a model that costs nothing."""
    return [
        float(roll_gradient(one, axle_stiffness(one.front), axle_stiffness(one.rear)))
        for one in (car, car.with_holes(rear=3))
    ]


def seen(car, standard=0.02, off=(0.0, 0.0)):
    return [
        Observation(
            f"roll gradient {name}",
            "roll gradient",
            value + error * standard * DEG_PER_G,
            standard * DEG_PER_G,
        )
        for name, value, error in zip(("before", "after"), rolls(car), off, strict=True)
    ]


def doubt(name, limit):
    return Doubt(name, value_of(CAR, name), limit, True)


HEIGHT, BAR = doubt("cg_height", 0.025), doubt("rear.bar.rate", 0.15)


def test_one_number_and_sharp_readings_give_the_true_number_back():
    truth = moved(CAR, "cg_height", 0.013)
    fit = learn(CAR, [HEIGHT], seen(truth, 1e-4), rolls)
    assert fit.numbers[0].value == pytest.approx(truth.cg_height, abs=1e-6)
    assert fit.numbers[0].moved == pytest.approx(0.013, abs=1e-6) and fit.numbers[0].narrowed > 0.99
    assert fit.after == pytest.approx(rolls(truth)) and fit.before == pytest.approx(rolls(CAR))
    assert fit.told == 1 and fit.alike == () and fit.unexplained == []


def test_two_numbers_that_act_differently_are_told_apart():
    truth = moved(moved(CAR, "cg_height", 0.010), "rear.bar.rate", -0.08)
    fit = learn(CAR, [HEIGHT, BAR], seen(truth, 1e-4), rolls)
    assert [one.value for one in sorted(fit.numbers, key=lambda one: one.doubt.name)] == pytest.approx(
        [truth.cg_height, 0.92], rel=2e-3
    )
    assert fit.told == 2 and fit.alike == ()


def test_readings_that_say_nothing_new_move_nothing():
    fit = learn(CAR, [HEIGHT, BAR], seen(CAR), rolls)
    assert all(abs(one.moved) < 1e-6 * one.doubt.limit for one in fit.numbers)


def test_the_answer_is_the_weighing_of_sheet_and_reading_where_all_is_straight():
    reading = Observation("x", "ratio", 1.5, 0.3)
    fit = learn(CAR, [doubt("mass", 60.0)], [reading], lambda car: [(car.mass - CAR.mass) / 30.0])
    # one reading of 1.5 +/- 0.3 standard, the sheet's own 0 +/- 1, all in the sheet's standard uncertainties
    weight = 1 / 0.3**2 / (1 / 0.3**2 + 1)
    assert fit.numbers[0].moved / 30.0 == pytest.approx(1.5 * weight)
    assert fit.numbers[0].uncertainty / 60.0 == pytest.approx(np.sqrt(1 / (1 + 1 / 0.3**2)))


def test_no_number_leaves_what_the_sheet_allows_and_that_is_said():
    truth = moved(CAR, "cg_height", 0.08)
    fit = learn(CAR, [HEIGHT], seen(truth), rolls)
    assert fit.numbers[0].moved == pytest.approx(0.025, rel=1e-3) and fit.numbers[0].at_bound
    assert fit.unexplained == ["roll gradient before", "roll gradient after"]
    text = " ".join(warnings(fit))
    assert "as far as its plus-or-minus sign allows" in text and "still off" in text


def test_numbers_that_do_the_same_are_said_to_be_beyond_telling_apart():
    front, rear = doubt("front.roll_centre_height", 0.02), doubt("rear.roll_centre_height", 0.02)
    fit = learn(CAR, [front, rear], seen(moved(CAR, "cg_height", 0.01), 0.01), rolls)
    assert fit.told == 1 and len(fit.alike) == 1 and set(fit.alike[0]) == {front.name, rear.name}
    assert "cannot tell the" in " ".join(warnings(fit)) and "independent thing(s)" in warnings(fit)[0]


def test_the_ones_that_matter_are_chosen_and_idle_ones_left_alone():
    fit = learn(CAR, doubts_of(CAR), seen(moved(CAR, "cg_height", 0.01)), rolls)
    names = [one.doubt.name for one in fit.numbers]
    assert names[0] == "cg_height" and len(names) <= 6 and "tyre.grip_scale" not in names
    with pytest.raises(DayError, match="nothing to learn"):
        learn(CAR, [doubt("tyre.grip_scale", 0.05)], seen(CAR), rolls)


def test_names_are_taken_and_misspelt_ones_refused():
    fit = learn(CAR, doubts_of(CAR), seen(CAR), rolls, ["rear.bar.rate"])
    assert [one.doubt.name for one in fit.numbers] == ["rear.bar.rate"]
    with pytest.raises(DayError, match='"cg_height" was meant'):
        learn(CAR, doubts_of(CAR), seen(CAR), rolls, ["cgheight"])
    with pytest.raises(DayError, match="there are front_weight_share"):
        learn(CAR, doubts_of(CAR), seen(CAR), rolls, ["colour"])


def test_the_interval_after_learning_holds_the_true_number():
    draw, held = np.random.default_rng(9), 0
    for _ in range(150):
        truth = moved(
            moved(CAR, "cg_height", HEIGHT.standard * draw.normal()),
            "rear.bar.rate",
            BAR.standard * draw.normal(),
        )
        fit = learn(CAR, [HEIGHT, BAR], seen(truth, 0.05, draw.normal(size=2)), rolls)
        held += sum(
            abs(
                one.value
                - value_of(truth, one.doubt.name)
                - (0 if one.doubt.name == "cg_height" else scaled(truth) - 1)
            )
            <= one.uncertainty
            for one in fit.numbers
        )
    assert held / 300 == pytest.approx(0.954, abs=0.04)  # twice the standard one; three deviations of 300


def scaled(car):
    """The factor on the rear bar's steel that a car was made with."""
    return car.rear.bar.shear_modulus / CAR.rear.bar.shear_modulus


def test_what_was_learned_goes_into_a_sheet():
    truth = moved(moved(CAR, "cg_height", 0.012), "rear.bar.rate", -0.1)
    fit = learn(CAR, [HEIGHT, BAR], seen(truth, 1e-3), rolls)
    numbers = learned_numbers(fit, CAR)
    text = sheet_with(to_sheet(CAR), numbers)
    assert rolls(read_text(text)) == pytest.approx(rolls(with_measured(CAR, numbers)), rel=2e-3)
    assert rolls(read_text(text)) == pytest.approx(rolls(truth), rel=5e-3) and "# learned: from runs" in text


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Runs of a car whose centre of gravity is 15 mm higher than its sheet says."""
    into = tmp_path_factory.mktemp("learn")
    truth = replace(CAR, cg_height=CAR.cg_height + 0.015)
    (into / "truth.toml").write_text(to_sheet(truth), encoding="utf-8")
    (into / "mine.toml").write_text(to_sheet(CAR), encoding="utf-8")
    assert main(["sample", str(into / "truth.toml"), "--change", "rear", "3", "--into", str(into)]) == 0
    return into


def command(folder, *more):
    return main(
        [
            "learn",
            str(folder / "before.csv"),
            str(folder / "after.csv"),
            "--sheet",
            str(folder / "mine.toml"),
            *more,
        ]
    )


def test_from_runs_to_a_better_sheet_by_command(folder, capsys):
    assert command(folder, "--into", str(folder / "better.toml"), "--log") == 0
    out = capsys.readouterr().out
    assert out.startswith("SIMULATED") and "Centre of gravity's height" in out and "certify nothing" in out
    assert max(len(line) for line in out.splitlines() if str(folder) not in line) <= 80
    better = read(folder / "better.toml")
    truth = read(folder / "truth.toml")
    assert abs(better.cg_height - truth.cg_height) < abs(CAR.cg_height - truth.cg_height)
    assert read_uncertainties(folder / "better.toml")["cg_height"] < 0.025
    assert (
        main(["log", str(folder / "mine.toml")]) == 0 and "cg_height from 545 mm" in capsys.readouterr().out
    )


def test_one_setup_alone_and_json(folder, capsys):
    assert (
        main(
            [
                "learn",
                str(folder / "before.csv"),
                "--sheet",
                str(folder / "mine.toml"),
                "--json",
                "--numbers",
                "cg_height",
            ]
        )
        == 0
    )
    values = json.loads(capsys.readouterr().out)
    assert (
        len(values["readings"]) == 2 and values["numbers"][0]["name"] == "cg_height" and values["simulated"]
    )
    assert values["numbers"][0]["fitted_si"] > values["numbers"][0]["sheet_si"]


def test_both_units_are_shown(folder):
    fit = learn(CAR, [HEIGHT], seen(CAR), rolls)
    assert " mm" in learn_text(fit) and " in" in learn_text(fit, family="US customary")


@pytest.mark.parametrize(
    "arguments, message",
    [
        ((), "no file of runs given"),
        (("B",), "--sheet: wanted the car sheet"),
        (("B", "--sheet", "saloon", "--numbers", "cgheight"), '"cg_height" was meant?'),
    ],
)
def test_each_refusal_is_one_message_and_exit_2(folder, capsys, arguments, message):
    code = main(
        [
            "learn",
            *(str(folder / "before.csv") if word == "B" else word for word in arguments),
            *(() if "--sheet" in arguments or not message.startswith("no file") else ("--sheet", "saloon")),
        ]
    )
    out, err = capsys.readouterr()
    assert (code, out) == (2, "") and message in err and len(err.strip().splitlines()) == 1
