"""Readings that tell nothing are refused with file, table and field, whether a sheet is given or not."""

import pytest

from rollmodel.car import CarError
from rollmodel.sheets import training_car
from rollmodel.testday.faults import DayError
from rollmodel.testday.measure import measure, with_measured
from rollmodel.testday.measured import Measured
from rollmodel.testday.readings import readings_of

STEPS = ["-10 mm", "0 mm", "10 mm", "20 mm"]
PADS = {
    f"{end}_{side}": ["336 kg", "335 kg"] for end in ("front", "rear") for side in ("left", "right")
}
BENCH = {"hole": 2, "load": ["100 N", "200 N", "300 N", "400 N"]}
TELL_NOTHING = {
    "a part that never moves": (
        {"front": {"spring": {"wheel": STEPS, "part": ["0 mm"] * 4}}},
        "[front.spring] part: wanted readings that move with the wheel's",
    ),
    "deflections in another order": (
        {"rear": {"bar": {**BENCH, "deflection": ["5.9 mm", "1.7 mm", "8.6 mm", "3 mm"]}}},
        "[rear.bar] deflection: wanted readings that grow with the loads",
    ),
    "deflections of nil": (
        {"rear": {"bar": {**BENCH, "deflection": ["0 mm"] * 4}}},
        "[rear.bar] deflection: wanted readings that grow with the loads",
    ),
    "a pad misread by a hundred": (
        {"corner_weights": {**PADS, "front_left": ["336 kg", "436 kg", "336 kg"]}},
        "[corner_weights] front_left: readings from 336 kg to 436 kg",
    ),
    "a hole of minus five": (
        {"rear": {"bar": {**BENCH, "hole": -5, "deflection": ["1.9 mm", "3.7 mm", "5.6 mm", "7.4 mm"]}}},
        "[rear.bar] hole: wanted a whole number from 1 to 50, given -5; count from the softest, which is 1",
    ),
    "a hole of minus five in quotes": (
        {"rear": {"bar": {**BENCH, "hole": "-5", "deflection": ["1.9 mm", "3.7 mm", "5.6 mm", "7.4 mm"]}}},
        '[rear.bar] hole: wanted a whole number, counted from 1, given "-5"; write the figure alone',
    ),
    "an uncertainty of the size of a street": (
        {"front": {"roll_centre_height": "55 mm ± 150000 mm"}},
        "[front] roll_centre_height: wanted a believable uncertainty",
    ),
}


@pytest.mark.parametrize("car", [None, training_car("coupe")], ids=["alone", "with a sheet"])
@pytest.mark.parametrize("case", TELL_NOTHING)
def test_readings_that_tell_nothing_are_refused_by_table_and_field(case, car):
    tables, message = TELL_NOTHING[case]
    with pytest.raises(DayError) as refused:
        measure(readings_of(tables, "monday.toml"), car)
    assert str(refused.value).startswith(f"monday.toml: {message}")


def test_a_hole_that_no_sheet_confirms_is_noted_and_a_usual_one_is_not():
    for hole, noted in ((9, True), (2, False)):
        bar = {**BENCH, "hole": hole, "deflection": ["1.9 mm", "3.7 mm", "5.6 mm", "7.4 mm"]}
        (one,) = measure(readings_of({"front": {"bar": bar}}))
        assert any("without the car's sheet" in note for note in one.notes) is noted


def test_a_list_with_uncertainties_is_read():
    part = [f"{mm} mm ± 0.5 mm" for mm in (7, 0.1, -7, -14)]
    (one,) = measure(readings_of({"front": {"spring": {"wheel": STEPS, "part": part}}}))
    assert one.value == pytest.approx(0.7, abs=0.01)  # mm per mm, by the steps above


def test_a_measured_number_that_makes_no_car_is_refused_by_its_table():
    wrong = Measured("front.spring_motion_ratio", "spring", "ratio", 0.0, 0.0)
    with pytest.raises(DayError, match=r"\[front\] spring_motion_ratio: wanted .* as measured") as refused:
        with_measured(training_car("coupe"), [wrong])
    assert not isinstance(refused.value, CarError)
