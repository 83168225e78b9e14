"""Panels with cars at the edge of what a sheet may hold: a picture, or the reason in the sheet's words."""

import re

import pytest

from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons.lesson_04 import BalancePanel, LeanPanel
from rollmodel.panels.lessons.lesson_07 import TyresPanel
from rollmodel.panels.lessons.lesson_09_panel import SoftnessPanel
from rollmodel.sheets import read, training_cars

HIGH_GRIP, HIGHER_GRIP, ICE = {"grip_scale": 1.8}, {"grip_scale": 2.5}, {"grip_scale": 0.3}
LOW = {"cg_height": '"150 mm"', "mass": '"400 kg"'}


@pytest.fixture
def car(tmp_path, request):
    """The coupe's sheet with a few numbers changed, read from disk."""
    words = training_cars()["coupe"].read_text(encoding="utf-8")
    for key, value in request.param.items():
        words, found = re.subn(rf"^{key} = .*$", f"{key} = {value}", words, count=1, flags=re.M)
        assert found == 1
    sheet = tmp_path / "odd.toml"
    sheet.write_text(words, encoding="utf-8")
    return read(sheet)


def faults(panel):
    """What the panel says at the ends of every slider that is not locked."""
    said = [panel.fault]
    for row in panel.rows.values():
        if hasattr(row, "slider"):
            for end in (row.slider.min, row.slider.max):
                row.slider.value = end
                said.append(panel.fault)
    return [str(one) for one in said if one]


SHOWN = [
    (LeanPanel, HIGH_GRIP), (LeanPanel, HIGHER_GRIP), (SoftnessPanel, HIGH_GRIP), (TyresPanel, HIGHER_GRIP),
    (TyresPanel, ICE), (BalancePanel, LOW), (LeanPanel, LOW), (BalancePanel, ICE),
]


@pytest.mark.parametrize("panel, car", SHOWN, indirect=["car"])
@pytest.mark.filterwarnings("error")
def test_there_is_a_picture_at_every_end_of_every_slider(panel, car):
    lesson = Lesson(panel.__module__.rpartition("lesson_")[2][:2], car)
    shown = panel(lesson)
    shown.card.skip()
    assert faults(shown) == []


@pytest.mark.parametrize("car", [HIGHER_GRIP], indirect=True)
def test_a_car_that_only_rolls_over_is_told_so(car):
    said = faults(SoftnessPanel(Lesson("09", car)))
    assert said and all("rolls over before its tyres slide" in one and "grip_scale" in one for one in said)
