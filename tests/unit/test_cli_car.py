"""``rollmodel car``: what is printed, exit codes, refusals, terminals of all kinds."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from rollmodel import cli, sheets
from rollmodel.car import GRAVITY
from rollmodel.cli import COMMANDS, main
from rollmodel.reports.car import car_values, read_car
from rollmodel.reports.car_notes import car_notes
from rollmodel.reports.car_table import WIDTH, car_table
from rollmodel.reports.sheet_fields import sheet_fields
from rollmodel.sheets.schema import TABLES
from rollmodel.units import FAMILIES
from tests.unit.independent_cases import CASES, changed

CARS = sorted(sheets.training_cars())
TOP_KEYS = {
    "roll_gradient_deg_per_g",
    "front_load_transfer_share",
    "limit_g",
    "limit_end",
    "front_limit_g",
    "rear_limit_g",
    "understeer_gradient_deg_per_g",
    "corner_held",
}
END_KEYS = {
    "spring_wheel_rate_N_per_mm",
    "bar_wheel_rate_in_roll_N_per_mm",
    "spring_roll_stiffness_Nm_per_deg",
    "bar_roll_stiffness_Nm_per_deg",
    "roll_stiffness_Nm_per_deg",
    "load_transfer_N",
    "elastic_N",
    "geometric_N",
    "unsprung_N",
    "inside_wheel_load_N",
    "outside_wheel_load_N",
    "inside_wheel_lifted",
}


def json_of(capsys, *arguments):
    code = main(["car", *arguments, "--json"])
    captured = capsys.readouterr()
    assert (code, captured.err) == (0, "")
    return json.loads(captured.out, parse_constant=lambda word: pytest.fail(f"{word} is not JSON"))


def refused(capsys, *arguments):
    """The one message of a refused command."""
    code = main(list(arguments))
    captured = capsys.readouterr()
    assert code == 2 and captured.out == "" and "Traceback" not in captured.err
    return captured.err


def shell(*arguments, **options):
    environment = {**os.environ, **options.pop("env", {})}
    return subprocess.run(
        [sys.executable, "-m", "rollmodel", *arguments],
        capture_output=True,
        timeout=120,
        env=environment,
        cwd="/",
        **options,
    )


@pytest.mark.parametrize("name", CARS)
def test_json_has_the_agreed_keys_and_balances(name, capsys):
    values = json_of(capsys, name)
    assert values.keys() >= TOP_KEYS
    car = sheets.training_car(name)
    for end in ("front", "rear"):
        numbers = values[end]
        assert numbers.keys() >= END_KEYS
        parts = numbers["elastic_N"] + numbers["geometric_N"] + numbers["unsprung_N"]
        assert parts == pytest.approx(numbers["load_transfer_N"], rel=1e-9)  # sums of doubles
        weight = numbers["inside_wheel_load_N"] + numbers["outside_wheel_load_N"]
        assert weight == pytest.approx(car.axle_weight(end), rel=1e-9)
        assert numbers["inside_wheel_load_N"] >= 0
    assert values["limit_g"] == min(values["front_limit_g"], values["rear_limit_g"])
    assert values["limit_g"] == values[f"{values['limit_end']}_limit_g"]


def test_json_of_a_path_in_any_folder(tmp_path, monkeypatch, capsys):
    (tmp_path / "mine.toml").write_text(
        sheets.to_sheet(sheets.training_car("coupe"), "US customary"), encoding="utf-8"
    )
    monkeypatch.chdir(tmp_path)
    by_name, by_path = json_of(capsys, "coupe"), json_of(capsys, "mine.toml")
    assert by_path["limit_g"] == pytest.approx(by_name["limit_g"], rel=1e-6)  # seven written digits


def test_a_file_goes_before_a_training_car_of_that_name_a_folder_does_not(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    os.mkdir("coupe")
    assert json_of(capsys, "coupe")["title"] == "College coupe"
    Path("saloon").write_text(sheets.training_cars()["hatch"].read_text(encoding="utf-8"), encoding="utf-8")
    assert json_of(capsys, "saloon")["title"] == "College hatch"


def test_lateral_acceleration(capsys):
    one, two = json_of(capsys, "coupe", "--at", "0.6g"), json_of(capsys, "coupe", "--at", "5.88399 m/s^2")
    assert one["lateral_acceleration_g"] == pytest.approx(0.6)
    assert one["front"]["load_transfer_N"] == pytest.approx(two["front"]["load_transfer_N"])
    assert json_of(capsys, "coupe", "--at", "0.6", "g") == one
    whole = json_of(capsys, "coupe")
    assert one["front"]["load_transfer_N"] == pytest.approx(0.6 * whole["front"]["load_transfer_N"])
    assert one["limit_g"] == whole["limit_g"]


def test_other_holes(capsys):
    found = json_of(capsys, "coupe", "--front-hole", "1", "--rear-hole", "3")
    car = sheets.training_car("coupe").with_holes(1, 3)
    reading = read_car(car)
    assert found == json.loads(json.dumps(car_values(reading, car_notes(reading))))
    assert (found["front"]["hole"], found["rear"]["hole"], found["front"]["holes"]) == (1, 3, 3)


def test_driven_wheels_cost_grip_at_their_own_end(capsys):
    coasting, driven = json_of(capsys, "coupe"), json_of(capsys, "coupe", "--driven")
    assert driven["rear_limit_g"] < coasting["rear_limit_g"] - 0.01
    assert driven["front_limit_g"] == coasting["front_limit_g"]
    assert driven["driven"] is True


def test_beyond_the_tyres_the_loads_are_still_printed(capsys):
    values = json_of(capsys, "coupe", "--at", "1.3g")
    assert values["corner_held"] is False and values["front"]["outside_wheel_load_N"] > 0
    assert json_of(capsys, "coupe", "--at", "1.0g")["corner_held"] is True
    assert main(["car", "coupe", "--at", "1.3g"]) == 0
    assert "The tyres cannot hold 1.300 g" in capsys.readouterr().out


def test_a_lifted_wheel(capsys):
    values = json_of(capsys, "hatch", "--at", "0.9g")
    assert values["rear"]["inside_wheel_lifted"] is True and values["rear"]["inside_wheel_load_N"] == 0
    assert values["rear"]["inside_wheel_lifts_at_g"] < values["limit_g"]
    assert main(["car", "hatch", "--at", "0.9g"]) == 0
    text = capsys.readouterr().out
    assert "0, lifted" in text and "inside rear wheel is off the ground" in text


def test_rolling_over_is_refused_with_the_figure(capsys):
    message = refused(capsys, "car", "coupe", "--at", "2g")
    figure = json_of(capsys, "coupe")["rollover_g"]
    assert f"rolls over at {figure:.3f} g" in message and "2.000 g" in message
    proposed = message.rsplit("--at ", 1)[1].strip()
    assert main(["car", "coupe", "--at", proposed]) == 0  # the advice in the message works


def written(tmp_path, case):
    base, _, changes = CASES[case]
    sheets.write(changed(base, changes), tmp_path / "case.toml")
    return str(tmp_path / "case.toml")


def test_figures_that_do_not_exist_are_null(tmp_path, capsys):
    path = written(tmp_path, "rolls over before it slides")
    values = json_of(capsys, path, "--at", "0.5g")
    names = ("limit_g", "limit_end", "front_limit_g", "rear_limit_g")
    assert [values[name] for name in names] == [None] * 4 and values["rollover_g"] < 1
    assert main(["car", path, "--at", "0.5g"]) == 0
    assert "rolls over before either end slides" in capsys.readouterr().out


def test_no_understeer_gradient_past_the_limit(tmp_path, capsys):
    path = written(tmp_path, "slides below 0.3 g")
    assert json_of(capsys, path, "--at", "0.2g")["understeer_gradient_deg_per_g"] is None
    assert main(["car", path, "--at", "0.2g"]) == 0
    assert "none: 0.3 g is past the limit" in capsys.readouterr().out


def test_a_car_without_bars(tmp_path, capsys):
    path = written(tmp_path, "no bars, rigid tyres, no camber")
    values = json_of(capsys, path)
    assert values["front"]["hole"] is None and values["front"]["bar_wheel_rate_in_roll_N_per_mm"] == 0
    assert "no front bar" in refused(capsys, "car", path, "--front-hole", "1")
    assert main(["car", path]) == 0 and "no bar" in capsys.readouterr().out


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("name", [*CARS, *CASES])
def test_table_fits_and_its_numbers_are_those_of_the_json(name, family):
    base, at, changes = CASES.get(name, (name, 0.8, {}))
    reading = read_car(sheets.from_values(changed(base, changes)), at * GRAVITY)
    text = car_table(reading, family)
    assert max(map(len, text.splitlines())) <= WIDTH and "nan" not in text and "inf" not in text
    rows = {line[:54].strip(): line[54:].split() for line in text.splitlines() if "[" in line[:54]}
    values = car_values(reading)
    newton = 1.0 if family == "metric" else 1 / 4.4482216152605  # lbf, exact by definition
    unit = "N" if family == "metric" else "lbf"
    for i, end in enumerate(("front", "rear")):
        assert float(rows[f"Outside wheel load [{unit}]"][i]) == pytest.approx(
            values[end]["outside_wheel_load_N"] * newton, abs=0.51
        )  # whole newtons or pounds are shown
        limit = values[f"{end}_limit_g"]
        shown = rows["This end gives up at [g]"][i * (1 if limit is not None else 2)]
        assert shown == "rolls" if limit is None else float(shown) == pytest.approx(limit, abs=0.00051)


def test_blade_angles_are_shown_as_they_were_read(capsys):
    assert main(["car", "single-seater"]) == 0
    line = next(line for line in capsys.readouterr().out.splitlines() if "from lying flat" in line)
    assert line.split()[-2:] == ["45", "30"]


BAD = [  # arguments, words of the one message
    (["--at", "0"], ["--at", "no unit"]),
    (["--at", "0g"], ["--at", "0.01 to 10 g"]),
    (["--at", "-0.5g"], ["--at", "0.01 to 10 g", "-0.5g"]),
    (["--at=-0.5g"], ["--at", "0.01 to 10 g"]),
    (["--at", "fast"], ["--at", "does not start with a number"]),
    (["--at", "5 m/s"], ["--at", "a speed"]),
    (["--at", "nan g"], ["--at", "not finite"]),
    (["--at", "1e9g"], ["--at", "not believable"]),
    (["--at"], ["--at", "Try rollmodel car --help"]),
    (["--front-hole", "4"], ["--front-hole", "1 (softest) to 3 (stiffest)", '"4"']),
    (["--front-hole", "0"], ["--front-hole", "1 (softest) to 3"]),
    (["--rear-hole", "-1"], ["--rear-hole", '"-1"']),
    (["--rear-hole", "two"], ["--rear-hole", '"two"']),
    (["--rear-hole", "1.5"], ["--rear-hole", '"1.5"']),
    (["--units", "imperial"], ["--units", "metric", "us"]),
    (["--attt", "1g"], ["--attt"]),
    (["extra"], ["extra"]),
    (["extra\x1b[31m\n"], ["extra?[31m?"]),
    (["--front-hole", "\x1b[31mx"], ["--front-hole", '"?[31mx"']),
    (["--front-hole", "1", "--front-hole", "3"], ["--front-hole: given twice"]),
    (["--front-hole=1", "--front-hole=1"], ["--front-hole: given twice"]),
    (["--at", "0.6,5g"], ["--at", "a comma in the number"]),
    (["--fields"], ["--fields: stands alone"]),
    (["--fields", "--at", "banana"], ["--fields: stands alone"]),
]


@pytest.mark.parametrize("arguments, words", BAD, ids=lambda value: " ".join(value)[:30])
def test_bad_options(arguments, words, capsys):
    message = refused(capsys, "car", "coupe", *arguments)
    assert all(word in message for word in words), message
    assert message.count("\n") == 1


def test_a_sheet_that_is_not_there(capsys):
    assert '"coupe" was meant' in refused(capsys, "car", "cupe")
    assert "was meant" not in refused(capsys, "car", "nope")
    assert "coupe, gravel, hatch, saloon, single-seater" in refused(capsys, "car", "zzz")
    assert "no such file" in refused(capsys, "car", "zzz.toml")
    assert "given a folder" in refused(capsys, "car", "/")
    assert "SHEET" in refused(capsys, "car")


def test_a_refused_sheet(tmp_path, capsys):
    (tmp_path / "bad.toml").write_text("mass = 1290", encoding="utf-8")
    message = refused(capsys, "car", str(tmp_path / "bad.toml"), "--json")
    assert "bare number" in message and "[front]: the whole table is missing" in message


def test_help_and_unknown_commands(capsys):
    for arguments in ([], ["--help"], ["-h"], ["help"]):
        assert main(arguments) == 0
        text = capsys.readouterr().out
        assert all(name in text for name in COMMANDS) and "py -m rollmodel" in text
    assert main(["car", "--help"]) == 0 and "SHEET" in capsys.readouterr().out
    assert main(["--version"]) == 0 and capsys.readouterr().out.startswith("rollmodel ")
    assert '"car" was meant' in refused(capsys, "cra")
    assert "there are open, doctor, car" in refused(capsys, "xyzzy")


def test_fields_lists_every_field_of_a_sheet(capsys):
    assert main(["car", "--fields"]) == 0
    text = capsys.readouterr().out
    names = {line.split()[0].rstrip("*") for line in text.splitlines() if line.startswith("  ")}
    assert names >= {field.name for fields in TABLES.values() for field in fields} - {"note"}
    assert "on edge" in text and max(map(len, sheet_fields().splitlines())) <= WIDTH


def test_fields_takes_nothing_beside_it(capsys):
    assert "--fields: stands alone" in refused(capsys, "car", "--fields", "nonsense")


def test_nothing_typed_reaches_the_terminal_as_a_command(capsys):
    for arguments in (["\x1b[31mx"], ["runs", "\x9b31m.csv"], ["car", "\x1b]0;x\x07"]):
        message = refused(capsys, *arguments)
        assert message.count("\n") == 1 and message.rstrip("\n").isprintable() and "?" in message


def test_a_hair_above_rolling_over_is_told_apart_from_it(capsys):
    figure = json_of(capsys, "coupe")["rollover_g"]
    message = refused(capsys, "car", "coupe", "--at", f"{figure + 1e-5:.9f} g")
    known, asked = re.findall(r"at (\d\.\d+) g", message)[:2]
    assert float(known) < float(asked)


def test_a_sheet_pasted_with_quotes_and_from_the_home_folder(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    sheets.write(sheets.text.to_values(sheets.training_car("hatch")), tmp_path / "mine.toml")
    for typed in (f'"{tmp_path}/mine.toml"', f"'{tmp_path}/mine.toml'", "~/mine.toml", '"hatch"'):
        assert json_of(capsys, typed)["title"] == "College hatch"


def test_an_inner_failure_gives_no_traceback(monkeypatch, capsys):
    monkeypatch.delenv("ROLLMODEL_TRACEBACK", raising=False)
    monkeypatch.setattr("rollmodel.reports.car.read_car", lambda *_: 1 / 0)
    assert main(["car", "coupe"]) == 1
    captured = capsys.readouterr()
    assert "ZeroDivisionError" in captured.err and "Traceback" not in captured.err
    monkeypatch.setenv("ROLLMODEL_TRACEBACK", "1")
    with pytest.raises(ZeroDivisionError):
        main(["car", "coupe"])


def test_a_plain_terminal():
    done = shell("car", "coupe", env={"PYTHONIOENCODING": "ascii", "LC_ALL": "C"})
    assert done.returncode == 0 and b"[N*m/deg]" in done.stdout and done.stderr == b""


def test_a_name_that_is_not_text():
    done = shell("car", os.fsdecode(b"\xff\xfe.toml"), env={"PYTHONIOENCODING": "utf-8"})
    assert done.returncode == 2 and b"no such file" in done.stderr and b"Traceback" not in done.stderr


def test_a_reader_that_closes_first():
    with subprocess.Popen(
        [sys.executable, "-m", "rollmodel", "car", "coupe"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        process.stdout.close()
        errors = process.stderr.read()
        assert process.wait(timeout=120) == 1 and errors == b""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device to write to")
def test_a_full_disk():
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "rollmodel", "car", "coupe"],
            stdout=full,
            stderr=subprocess.PIPE,
            timeout=120,
        )
    assert done.returncode == 1 and done.stderr.count(b"\n") == 1 and b"could not be written" in done.stderr


def test_each_command_is_loaded_only_when_asked_for():
    code = "import sys; from rollmodel.cli import main; main([]); print(sorted(map(repr, sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60)
    loaded = done.stdout.splitlines()[-1]
    assert not any(f"'{name}" in loaded for name in ("numpy", "scipy", "pint", "matplotlib", "jupyterlab"))


def test_every_listed_command_can_be_loaded_and_has_its_two_functions():
    for file, _ in COMMANDS.values():
        command = cli.importlib.import_module(f"rollmodel.cli.{file}")
        assert callable(command.add_arguments) and callable(command.run)


def test_a_training_car_asked_for_as_a_file_is_named(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    message = refused(capsys, "car", "coupe.toml")
    assert 'no file "coupe.toml" here; the training car is called "coupe", without .toml' in message
