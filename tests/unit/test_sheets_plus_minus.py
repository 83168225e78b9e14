"""How well a value is known, written behind it in the sheet."""

import pytest

from rollmodel.sheets import SheetError, read, read_text, read_uncertainties, training_car, training_cars

COUPE = training_cars()["coupe"].read_text(encoding="utf-8")


def sheet(tmp_path, *changes):
    text = COUPE
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    path = tmp_path / "mine.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "typed, uncertainty",
    [
        ('"470 mm ± 20 mm"', 0.020),
        ('"470 ± 20 mm"', 0.020),
        ('"470 mm +/- 0.8 in"', 0.02032),
        ('"470mm±20"', 0.020),
        ('"470 +- 20 mm"', 0.020),
    ],
)
def test_every_way_to_write_it_leaves_the_car_as_it_is(tmp_path, typed, uncertainty):
    path = sheet(tmp_path, ('cg_height = "470 mm"', f"cg_height = {typed}"))
    assert read(path) == training_car("coupe")
    assert read_uncertainties(path) == {"cg_height": pytest.approx(uncertainty)}


def test_shares_ratios_lists_and_inner_tables(tmp_path):
    path = sheet(
        tmp_path,
        ('"52 %"', '"52 ± 0.5 %"'),
        ("spring_motion_ratio = 0.70", 'spring_motion_ratio = "0.70 ± 0.02"'),
        ('["230 mm", "200 mm", "170 mm"]', '["230 mm ± 1 mm", "200 mm ± 2 mm", "170 mm"]'),
    )
    assert read(path) == training_car("coupe")
    assert read_uncertainties(path) == {
        "front_weight_share": pytest.approx(0.005),
        "front.spring_motion_ratio": 0.02,
        "front.bar.holes": 0.002,
    }


@pytest.mark.parametrize(
    "typed, message",
    [
        ('"470 mm ± 0 mm"', "wanted an uncertainty above zero"),
        ('"470 mm ± -3 mm"', "wanted an uncertainty above zero"),
        ('"470 mm ±"', "one number on each side"),
        ('"± 20 mm"', "one number on each side"),
        ('"470 mm ± 20 mm ± 3 mm"', "one number on each side"),
        ('"470 mm ± 20 kg"', "kg is a mass"),
        ('"470 ± 20"', "no unit"),
        ('"4700 mm ± 20 mm"', "not believable"),
    ],
)
def test_each_refusal_names_the_field(typed, message):
    with pytest.raises(SheetError) as refused:
        read_text(COUPE.replace('cg_height = "470 mm"', f"cg_height = {typed}"))
    assert message in str(refused.value) and "cg_height" in str(refused.value)


def test_a_sheet_without_any_has_none():
    assert read_uncertainties(training_cars()["coupe"]) == {}


@pytest.mark.parametrize(
    "old, new, words",
    [
        ('mass = "1290 kg"', 'mass = "1290 kg ± 5000 kg"', "mass: wanted an uncertainty below"),
        ('mass = "1290 kg"', 'mass = "1290 ± 1290 kg"', "below the value itself"),
        ('mass = "2100 kg"', 'mass = "2100 ± 1800 kg"', "nothing would be known with it"),
        ('"-2.0 deg"', '"-2.0 ± 30 deg"', "camber: wanted a believable uncertainty"),
        ('["230 mm", "200 mm", "170 mm"]', '["230 mm", "200 mm", "170 ± 180 mm"]', "holes: wanted an uncert"),
    ],
)
def test_an_uncertainty_that_leaves_nothing_known_is_refused(old, new, words):
    text = COUPE.replace('mass = "1290 kg"', old, 1) if old.startswith("mass") else COUPE
    assert old in text
    with pytest.raises(SheetError, match=words) as caught:
        read_text(text.replace(old, new, 1))
    assert len(caught.value.faults) == 1 and "given" in str(caught.value)


def test_an_uncertainty_may_be_larger_than_a_value_near_zero():
    changed = COUPE.replace('"-2.0 deg"', '"-0.2 ± 0.5 deg"', 1)
    assert changed != COUPE and read_text(changed)
