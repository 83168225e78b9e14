"""``rollmodel measure``: the example's readings into a sheet, what it then knows, and every refusal."""

import json

import pytest

from rollmodel.cli import main
from rollmodel.sheets import read, read_uncertainties


@pytest.fixture
def run(capsys):
    def run(*arguments):
        code = main(["measure", *map(str, arguments)])
        printed = capsys.readouterr()
        return code, printed.out, printed.err

    return run


@pytest.fixture
def readings(run, tmp_path):
    path = tmp_path / "readings.toml"
    assert run("--example", path)[0] == 0
    return path


def test_the_example_alone(run, readings):
    code, out, err = run(readings)
    assert (code, err) == (0, "") and "472 mm ± 20 mm" in out and "predicts" not in out
    assert "Never work under a car on a jack alone" in readings.read_text(encoding="utf-8")
    assert max(map(len, out.splitlines())) <= 80


@pytest.mark.parametrize("units", ["metric", "us"])
def test_readings_and_sheet_to_a_new_sheet(run, readings, tmp_path, units):
    code, out, err = run(readings, "--sheet", "coupe", "--into", tmp_path / "mine.toml", "--units", units)
    assert (
        (code, err) == (0, "")
        and "Improve first" in out
        and "certifies nothing" in out.replace("\n    ", " ")
    )
    assert "the centre of gravity's height" in out.replace("\n    ", " ") and "None" not in out
    assert read(tmp_path / "mine.toml").cg_height == pytest.approx(0.472, abs=6e-4)
    assert read_uncertainties(tmp_path / "mine.toml")["cg_height"] == pytest.approx(0.020, abs=1e-3)
    kept = (tmp_path / "mine.toml").read_bytes()
    code, out, err = run(readings, "--sheet", "coupe", "--into", tmp_path / "mine.toml")
    assert (
        (code, out) == (2, "") and "is there already" in err and (tmp_path / "mine.toml").read_bytes() == kept
    )


def test_json_agrees_with_the_text(run, readings):
    values = json.loads(run(readings, "--sheet", "coupe", "--json")[1])
    height = next(one for one in values["measured"] if one["name"] == "cg_height")
    assert f"{height['value']:.0f} mm ± {height['uncertainty']:.0f} mm" in run(readings)[1]
    gap = next(one for one in values["predicted"] if one["name"] == "limit gap")
    assert gap["unit"] == "g" and gap["improve_first"] == next(iter(gap["from"]))
    assert values["known_to"]["cg_height"]["stated"] and not values["known_to"]["rear.camber"]["stated"]


def test_a_sheet_alone_says_when_the_balance_cannot_be_told(run):
    assert "cannot be told" in run("--sheet", "gravel")[1]
    assert "cannot be told" not in run("--sheet", "saloon")[1]


@pytest.mark.parametrize(
    "arguments, message",
    [
        ((), "wanted a file of readings, or --sheet"),
        (("none.toml",), "none.toml: no such file"),
        (("--sheet", "cuope"), '"coupe" was meant?'),
        (("R", "--into", "x.toml"), "--into: needs readings, and --sheet"),
    ],
)
def test_each_refusal_is_one_message_and_exit_2(run, readings, arguments, message):
    code, out, err = run(*(readings if word == "R" else word for word in arguments))
    assert (code, out) == (2, "")
    assert message in err and len(err.strip().splitlines()) == 1
