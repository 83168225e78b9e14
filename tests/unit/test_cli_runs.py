"""``rollmodel sample`` and ``rollmodel runs``: from a sheet to a verdict, and every refusal."""

import json
import re

import pytest

from rollmodel.cli import main
from rollmodel.sheets import training_cars


@pytest.fixture
def run(capsys):
    def run(*arguments):
        code = main([*map(str, arguments)])
        printed = capsys.readouterr()
        return code, printed.out, printed.err

    return run


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Simulated runs of the saloon, rear hole 1 and then 3."""
    into = tmp_path_factory.mktemp("runs")
    assert main(["sample", "saloon", "--change", "rear", "3", "--into", str(into)]) == 0
    return into


def test_the_sample_says_that_nobody_drove_it_and_names_the_holes(folder):
    before, after = ((folder / f"{name}.csv").read_text(encoding="utf-8") for name in ("before", "after"))
    assert before.startswith("# simulated: ") and "nobody drove" in before.splitlines()[0]
    assert "# rear hole: 1" in before and "# rear hole: 3" in after and "# radius: 30 m" in before


def test_before_and_after_from_the_sheet_to_the_verdict(run, folder):
    code, out, err = run("runs", folder / "before.csv", folder / "after.csv", "--sheet", "saloon")
    assert (code, err) == (0, "") and max(map(len, out.splitlines())) <= 80
    assert out.startswith("SIMULATED") and out.count("Seen. The interval") == 2
    assert "Scatter of one run's slope, deg/g: roll gradient 0.0" in out
    assert "Scatter of one run's slope, deg/g: roll gradient 0.0" in out
    assert "certify nothing" in out and "Closed course" in out and "{" not in out and "nan" not in out


def test_json_holds_the_same_figures(run, folder):
    files = folder / "before.csv", folder / "after.csv"
    values = json.loads(run("runs", *files, "--sheet", "saloon", "--json")[1])
    text = run("runs", *files, "--sheet", "saloon")[1]
    row = next(line for line in text.splitlines() if line.startswith("Roll gradient"))
    before, _, after, _, change, _, predicted, _ = map(float, re.findall(r"[+-]?\d+\.\d+", row))
    one = values["differences"]["roll gradient"]
    assert before == pytest.approx(one["before"]["deg_per_g"], abs=6e-4)  # printed to 0.001 deg/g
    assert after == pytest.approx(one["after"]["deg_per_g"], abs=6e-4)
    assert change == pytest.approx(one["change_deg_per_g"], abs=6e-4)
    assert predicted == pytest.approx(one["predicted_change_deg_per_g"], abs=6e-4)
    assert one["verdict"] == "seen" and values["simulated"] is True
    json.dumps(values, allow_nan=False)


def test_one_setup_alone_beside_the_sheet(run, folder):
    code, out, _ = run("runs", folder / "before.csv", "--sheet", "saloon")
    assert code == 0 and "sheet" in out and "Verdict" not in out


def test_several_files_of_one_setup(run, folder, tmp_path):
    text = (folder / "before.csv").read_text(encoding="utf-8").splitlines()
    head = next(i for i, line in enumerate(text) if line.startswith("time"))
    for way in ("left", "right"):
        rows = [line for line in text[head + 1 :] if f",{way}," in line]
        (tmp_path / f"{way}.csv").write_text("\n".join([*text[: head + 1], *rows]) + "\n", encoding="utf-8")
    both = json.loads(run("runs", "--before", tmp_path / "left.csv", tmp_path / "right.csv", "--json")[1])
    one = json.loads(run("runs", folder / "before.csv", "--json")[1])
    assert both["gradients"]["roll gradient"]["deg_per_g"] == pytest.approx(
        one["gradients"]["roll gradient"]["deg_per_g"]
    )


def test_a_run_is_left_out_by_its_name_and_that_is_said(run, folder):
    code, out, _ = run("runs", folder / "before.csv", "--leave-out", "run 3 left")
    assert code == 0 and "5 runs (2 left, 3 right)" in out and "left out as asked" in out


def test_a_range_is_kept_to(run, folder):
    values = json.loads(run("runs", folder / "before.csv", "--from", "0.2g", "--to", "0.4g", "--json")[1])
    assert 0.2 <= values["from_g"] < values["to_g"] <= 0.4


@pytest.mark.parametrize(
    "arguments, message",
    [
        ((), "no file of runs given"),
        (("none.csv",), "none.csv: no such file"),
        (("B", "B"), 'before.csv" is given twice; name the file of the other runs'),
        (("B", "A", "B"), "wanted BEFORE.csv and AFTER.csv"),
        (("B", "A", "--change", "rear", "3"), "--change: needs a car sheet"),
        (("B", "A", "--sheet", "salon"), '"saloon" was meant?'),
        (("B", "A", "--sheet", "saloon", "--change", "left", "3"), "wanted front or rear"),
        (("B", "A", "--sheet", "saloon", "--change", "rear", "9"), "wanted a rear hole from 1"),
        (("B", "A", "--sheet", "saloon", "--change", "rear", "1"), "in use already"),
        (("B", "--radius", "30"), '"30 m", given "30": no unit; m or ft belongs behind it'),
        (("B", "A", "--sheet", "nope"), "the training cars are"),
        (("FOLDER",), "wanted a file of runs, such as before.csv in it, given a folder"),
        (("B", "--from", "5g"), "--from: the runs have points at 0."),
        (("B", "A", "--from", "5g"), 'alone, given "5g"'),
        (("B", "--to", "0.01g"), "--to: the runs have points at 0."),
        (("B", "--before", "A", "--before", "C"), "--before: given twice"),
        (("B", "--steering-ratio", "x"), "--steering-ratio: wanted"),
        (("B", "--from", "0.4"), "--from: wanted a lateral acceleration"),
        (("B", "--from", "0.4g", "--to", "0.2g"), '--from: wanted less than --to, given "0.4g" and "0.2g"'),
        (("B", "--from", "0.69g"), "no run has 3 steady points from 0.69 g up that span 0.10 g"),
        (("B", "--leave-out", "run 9"), '--leave-out: no run has the name "run 9"'),
    ],
)
def test_each_refusal_is_one_message_and_exit_2(run, folder, arguments, message):
    paths = {"B": folder / "before.csv", "A": folder / "after.csv", "FOLDER": f"{folder}/"}
    code, out, err = run("runs", *(paths.get(word, word) for word in arguments))
    assert (code, out) == (2, "")
    assert message in err and "Traceback" not in err and len(err.strip().splitlines()) == 1


@pytest.mark.parametrize("seed", ["abc", "1.5", "-1", "\uff11", "9" * 5000])
def test_a_seed_is_a_whole_number(run, seed):
    code, out, err = run("sample", "coupe", "--seed", seed)
    assert (code, out) == (2, "") and "--seed: wanted a whole number from 0 to 999999999, such as 2" in err


@pytest.mark.parametrize("wrong", ["before", "after"])
def test_a_hole_in_a_remark_that_the_car_has_not_is_named_as_such(run, folder, tmp_path, wrong):
    paths = []
    for name in ("before", "after"):
        text = (folder / f"{name}.csv").read_text(encoding="utf-8")
        paths.append(tmp_path / f"{name}.csv")
        hole = 99 if name == wrong else 1 if name == "before" else 3
        paths[-1].write_text(re.sub(r"# rear hole: \d", f"# rear hole: {hole}", text), encoding="utf-8")
    code, _, err = run("runs", *paths, "--sheet", "saloon")
    assert code == 2 and len(err.strip().splitlines()) == 1
    assert f'the runs {wrong} the change say "# rear hole: 99"; by the sheet "saloon" wanted 1' in err


def test_one_row_with_a_time_is_said_to_be_one_row(run, folder, tmp_path):
    text = (folder / "before.csv").read_text(encoding="utf-8").splitlines()
    head = next(i for i, line in enumerate(text) if line.startswith("time"))
    (tmp_path / "one.csv").write_text("\n".join(text[: head + 2]), encoding="utf-8")
    code, _, err = run("runs", tmp_path / "one.csv")
    assert code == 2 and "there is one row of numbers alone" in err and "inf" not in err


def test_a_change_that_nobody_named_is_asked_for(run, folder, tmp_path):
    text = (folder / "after.csv").read_text(encoding="utf-8").replace("# rear hole: 3\n", "")
    (tmp_path / "after.csv").write_text(text, encoding="utf-8")
    code, _, err = run("runs", folder / "before.csv", tmp_path / "after.csv", "--sheet", "saloon")
    assert code == 2 and "which change was made?" in err and "--change rear 3" in err
    code, out, _ = run(
        "runs", folder / "before.csv", tmp_path / "after.csv", "--sheet", "saloon", "--change", "rear", 3
    )
    assert code == 0 and "Verdict" in out


def test_the_sample_writes_over_nothing_unasked(run, folder):
    kept = (folder / "before.csv").read_bytes()
    code, _, err = run("sample", "saloon", "--into", folder)
    assert code == 2 and "is there already" in err and (folder / "before.csv").read_bytes() == kept
    assert run("sample", "saloon", "--into", folder / "none")[0] == 2


@pytest.mark.parametrize("name", sorted(training_cars()))
def test_a_sample_of_every_training_car_gives_its_sheets_gradients_back(run, tmp_path, name):
    assert run("sample", name, "--into", tmp_path, "--units", "us")[0] == 0
    values = json.loads(run("runs", tmp_path / "before.csv", "--sheet", name, "--json")[1])
    for quantity, found in values["gradients"].items():
        wide = (
            2 * (found["high_deg_per_g"] - found["low_deg_per_g"]) / 2
        )  # one draw of a 95 % interval may miss
        assert abs(found["deg_per_g"] - values["predicted_deg_per_g"][quantity]) < wide


def test_a_folder_that_is_not_there_is_said_in_the_lessons_words(run):
    code, _, err = run("measure", "--example", "/nowhere/r.toml")
    assert code == 2 and "there is no folder /nowhere; make it first, or leave it out" in err
