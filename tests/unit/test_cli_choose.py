"""``rollmodel choose``: what is printed, in both unit families, and every refusal with one message."""

import json
import re
import subprocess
import sys

import pytest

from rollmodel.advice import CAUTIONS, choose
from rollmodel.car import GRAVITY
from rollmodel.cli import main
from rollmodel.reports.choice import choice_text, choice_values
from rollmodel.sheets import to_sheet, training_car, training_cars
from tests.unit.advice_cars import heavy_nose, single_seater, tall

ASK = ("--symptom", "understeer", "--when", "middle")


@pytest.fixture
def run(capsys):
    def run(*arguments):
        code = main(["choose", *map(str, arguments)])
        printed = capsys.readouterr()
        return code, printed.out, printed.err
    return run


@pytest.mark.parametrize("name", sorted(training_cars()))
@pytest.mark.parametrize("symptom", ["understeer", "oversteer"])
@pytest.mark.parametrize("when", ["entry", "middle", "exit"])
def test_text_for_every_training_car(run, name, symptom, when):
    code, out, err = run(name, "--symptom", symptom, "--when", when)
    assert (code, err) == (0, "")
    assert max(map(len, out.splitlines())) <= 80
    assert out.splitlines()[0].startswith(training_car(name).title) and symptom in out.splitlines()[0]
    assert "FIRST" in out and "Why" in out and "When not" in out and "Cautions" in out
    assert "nan" not in out and "None" not in out and "{" not in out


def test_the_text_gives_the_change_and_the_numbers_before_and_after(run):
    _, out, _ = run("coupe", *ASK)
    choice = choose(training_car("coupe"), "understeer")
    first = choice.first
    assert (
        f"FIRST CHOICE: {first.end.capitalize()} bar {first.direction}: hole {first.from_hole} to hole" in out
    )
    row = next(line for line in out.splitlines() if line.startswith("Front limit, g"))
    shown = [float(cell) for cell in row.removeprefix("Front limit, g").split()]
    assert shown == pytest.approx(
        [
            reading.front.limit / GRAVITY
            for reading in (choice.fitted, first.effect.after, choice.second.effect.after)
        ],
        abs=0.00005,
    )  # printed to 0.0001 g


def test_us_units_reach_loads_and_leave_g_alone(run):
    metric, us = run("coupe", *ASK)[1], run("coupe", *ASK, "--units", "us")[1]

    def row(text, start):
        return next(line for line in text.splitlines() if line.startswith(start)).rsplit(maxsplit=3)[1:]

    newtons, pounds = row(metric, "Outside front wheel"), row(us, "Outside front wheel")
    assert float(newtons[0]) == pytest.approx(4.4482216 * float(pounds[0]), abs=2.5)  # pounds to the whole
    assert row(metric, "Rear limit, g") == row(us, "Rear limit, g")
    assert " lbf" in us and " N " not in us


def test_json_has_its_units_in_the_keys_and_agrees_with_the_advice(run):
    code, out, _ = run("coupe", *ASK, "--json")
    values, choice = json.loads(out), choose(training_car("coupe"), "understeer")
    assert code == 0
    assert (
        values["verdict"] == "change a bar"
        and values["symptom"] == "understeer"
        and values["when"] == "middle"
    )
    assert values["first_choice"]["to_hole"] == choice.first.to_hole
    assert values["first_choice"]["after"]["limit_g"] == pytest.approx(
        choice.first.effect.after.limit / GRAVITY
    )
    assert values["fitted"]["limit_end"] == choice.fitted.limit_end
    assert values["fitted"]["rear"]["inside_wheel_load_N"] == pytest.approx(choice.fitted.rear.inside_load)
    assert {reason["code"] for reason in values["reasons"]} == {reason.code for reason in choice.reasons}
    assert all(reason["text"].endswith((".", "?")) for reason in values["reasons"])
    assert values["cautions"] == list(CAUTIONS.values())


@pytest.mark.parametrize("name", sorted(training_cars()))
def test_json_is_strict_for_every_training_car(name):
    for symptom in ("understeer", "oversteer"):
        for when in ("entry", "middle", "exit"):
            json.dumps(choice_values(choose(training_car(name), symptom, when)), allow_nan=False)


def test_json_agrees_with_the_car_command(run, capsys):
    """Two commands, one model: the same limits and gradients for the same car."""
    values = json.loads(run("hatch", *ASK, "--json", "--at", "0.6g")[1])["fitted"]
    assert main(["car", "hatch", "--json", "--at", "0.6g"]) == 0
    report = json.loads(capsys.readouterr().out)
    for key in (
        "limit_g",
        "front_limit_g",
        "rear_limit_g",
        "limit_end",
        "roll_gradient_deg_per_g",
        "understeer_gradient_deg_per_g",
        "front_load_transfer_share",
    ):
        assert (
            values[key] == pytest.approx(report[key], rel=1e-6)
            if key != "limit_end"
            else values[key] == report[key]
        )
    for end in ("front", "rear"):
        for key in ("inside_wheel_load_N", "outside_wheel_load_N", "inside_wheel_lifted"):
            assert values[end][key] == pytest.approx(report[end][key], rel=1e-6)


def test_other_holes_are_taken_as_fitted(run):
    _, out, _ = run("coupe", *ASK, "--rear-hole", 3)
    assert "rear hole 3 of 3" in out and "Rear stiffer: Nothing left at the rear" in out


def test_what_counts_as_stiff_may_be_given(run):
    assert "FIRST CHOICE: Rear bar stiffer" in run("coupe", *ASK)[1]
    _, out, _ = run("coupe", *ASK, "--stiff-below", "2.5 deg/g")
    assert "FIRST CHOICE: Front bar softer" in out
    assert "we call a car stiff below 2.50 deg/g" in " ".join(out.split())


def test_a_file_works_as_a_training_car_does(run, tmp_path):
    sheet = tmp_path / "mine.toml"
    sheet.write_text(to_sheet(heavy_nose(), "metric"), encoding="utf-8")
    code, out, _ = run(sheet, *ASK)
    assert code == 0 and "FIRST CHOICE: Rear bar stiffer: hole 1 to hole 4 (3 steps)." in out


def test_blades_have_positions(run):
    assert "blade position" in run("single-seater", *ASK)[1]
    assert "front blade position 3 of 4" in choice_text(choose(single_seater(), "oversteer"))


@pytest.mark.parametrize(
    "arguments, message",
    [
        (("coupe", "--symptom", "push", "--when", "middle"), "--symptom"),
        (("coupe", "--symptom", "understeer"), "--when"),
        (("coupe", *ASK, "--front-hole", "9"), 'from 1 (softest) to 3 (stiffest), given "9"'),
        (("coupe", *ASK, "--at", "0.8"), "no unit"),
        (("coupe", *ASK, "--at", "3g"), "--at: wanted above 0 and below the car's limit"),
        (("coupe", *ASK, "--at", "-1g"), "--at: wanted above 0"),
        (("coupe", *ASK, "--at", "1 mm"), "--at: wanted a lateral acceleration"),
        (("coupe", *ASK, "--stiff-below", "2 deg"), "--stiff-below: wanted a roll gradient"),
        (("coupe", *ASK, "--stiff-below", "-1 deg/g"), "from 0.2 to 12 deg/g"),
        (("coupe", *ASK, "--stiff-below", "40 deg/g"), "from 0.2 to 12 deg/g"),
        (("coupe", *ASK, "--at", "0.6,5g"), "a comma in the number"),
        (("cuope", *ASK), "coupe"),
        (("no/such/sheet.toml", *ASK), "no such file"),
    ],
)
def test_each_refusal_is_one_message_and_exit_2(run, arguments, message):
    code, out, err = run(*arguments)
    assert (code, out) == (2, "")
    assert message in err and "Traceback" not in err and len(err.strip().splitlines()) == 1


def test_no_warning_of_a_library_stands_before_a_refusal():
    command = [sys.executable, "-m", "rollmodel", "choose", "coupe", *ASK, "--at", "0g"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert (done.returncode, done.stdout) == (2, "") and len(done.stderr.splitlines()) == 1
    assert done.stderr.startswith("--at: wanted above 0")


def test_a_value_a_hair_above_the_limit_is_told_apart_from_it(run):
    limit = json.loads(run("coupe", *ASK, "--json")[1])["fitted"]["limit_g"]
    _, _, err = run("coupe", *ASK, "--at", f"{limit + 1e-5:.9f} g")
    known, given = map(float, re.findall(r"(\d\.\d+) g", err))
    assert known < given and known == pytest.approx(limit, abs=1e-5)  # printed until the two differ


def test_a_car_that_rolls_over_first_gets_no_advice_and_exit_2(run, tmp_path):
    sheet = tmp_path / "tall.toml"
    sheet.write_text(to_sheet(tall(), "metric"), encoding="utf-8")
    for extra in ((), ("--json",)):
        code, out, err = run(sheet, *ASK, *extra)
        assert (code, out) == (2, "")
        assert "No set-up advice" in err and "rolls over at 0." in err and "FIRST CHOICE" not in err
        assert "Front limit" not in err and "qualified inspection" in err
