"""Notes on a sheet that reads without a fault and is still worth a second look."""

import pytest

from rollmodel.sheets import read_remarks, training_cars

PLACES = {
    "spring_motion_ratio = 0.70": "[front] spring_motion_ratio is 1.43",
    "link_motion_ratio = 0.62": "[front.bar] link_motion_ratio is 1.43",
}


@pytest.mark.parametrize("line", PLACES)
def test_a_ratio_upside_down_is_asked_about(line, tmp_path):
    """1 / 0.70 on the coupe's front: believable as a number, and wrong by a factor of four in the rate."""
    text = training_cars()["coupe"].read_text(encoding="utf-8")
    assert line in text
    sheet = tmp_path / "odd.toml"
    sheet.write_text(text.replace(line, f"{line.partition('=')[0]}= 1.43", 1), encoding="utf-8")
    (note,) = read_remarks(sheet).notes
    assert note.startswith(PLACES[line]) and note.endswith("0.699 is meant.")


def test_no_training_car_is_asked_about():
    assert all("upside" not in note and "meant" not in note
               for path in training_cars().values() for note in read_remarks(path).notes)
