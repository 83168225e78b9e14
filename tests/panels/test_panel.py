"""The base of every panel, shown on the example from its documentation."""

from dataclasses import replace

import pytest
from ipywidgets.widgets.widget import _instances  # every live widget of this kernel

from rollmodel.car import CarError
from rollmodel.panels import Lesson, pace, session
from tests.panels.conftest import make_car
from tests.panels.example_panel import example_panel_class
from tests.panels.panel_checks import check_panel, picture


@pytest.fixture
def panel(car):
    return example_panel_class()(Lesson("02", car))


def test_the_documented_example_does_all_that_a_panel_must(panel):
    check_panel(panel)


def test_slider_and_box_show_the_same(panel):
    row = panel.rows["spring"]
    row.slider.value = 80.0
    assert row.box.value == "80.0" and panel.values.spring == pytest.approx(80e3)
    row.box.value = "90.5"
    assert row.slider.value == pytest.approx(90.0, abs=1.0) and panel.values.spring == pytest.approx(90.5e3)
    assert row.box.value == "90.5"


def test_the_page_moving_a_slider_to_its_grid_is_not_a_change(panel):
    """A browser moves 90.5 to the nearest step and reports it; the learner typed 90.5."""
    row = panel.rows["spring"]
    row.box.value = "90.5"
    row.slider.value = row.control.snapped(90.5e3, "metric")
    assert panel.values.spring == pytest.approx(90.5e3)


@pytest.mark.parametrize("typed", ["stiff", "", "9000", "31,5", "20 lb/in"])
def test_bad_typing_goes_back_with_one_message(panel, typed):
    row, shown = panel.rows["spring"], picture(panel)
    row.box.value = typed
    assert row.box.value == "65.0" and panel.values.spring == 65e3
    assert row.message.value.count('role="alert"') == 1
    assert "Front spring rate: wanted" in row.message.value and "Kept: 65.0 N/mm." in row.message.value
    assert picture(panel) == shown
    row.box.value = "70"
    assert row.message.value == "" and panel.values.spring == pytest.approx(70e3)


def test_a_refusal_goes_when_any_control_moves(panel):
    panel.rows["spring"].box.value = "stiff"
    panel.rows["hole"].slider.value = 3
    assert panel.rows["spring"].message.value == ""


def test_typed_text_is_harmless_in_the_page(panel):
    panel.rows["spring"].box.value = "<img src=x>"
    assert "<img" not in panel.rows["spring"].message.value


def test_units_there_and_back_change_no_value(panel):
    panel.rows["spring"].box.value = "77.7"
    before, shown = vars(panel.values), picture(panel)
    panel.lesson.change(family="US customary")
    assert panel.rows["spring"].unit.value == "lbf/in" and panel.rows["spring"].box.value == "444"
    assert picture(panel) != shown
    panel.lesson.change(family="metric")
    assert vars(panel.values) == before and picture(panel) == shown


def test_another_car_brings_its_own_start_and_range(panel):
    panel.set(spring=100e3)
    panel.lesson.change(car=make_car(spring_rate=40e3))
    assert panel.values.spring == 40e3
    panel.lesson.change(car=make_car())
    assert panel.values.spring == 65e3  # what was tried on another car does not come back


def test_remembered_only_for_the_same_car(car, panel):
    panel.set(spring=100e3)
    assert type(panel)(Lesson("02", car)).values.spring == 100e3
    assert type(panel)(Lesson("02", make_car(spring_rate=40e3))).values.spring == 40e3
    assert type(panel)(Lesson("03", car)).values.spring == 65e3


def test_a_new_panel_closes_the_old_one(car, panel):
    new = type(panel)(Lesson("02", car))
    assert panel.widget.comm is None and panel.rows["spring"].slider.comm is None
    assert new.widget.comm is not None


def test_many_runs_leave_nothing_behind(car):
    lesson, kind = Lesson("02", car), example_panel_class()
    kind(lesson)
    before = len(_instances)
    for _ in range(5):
        kind(lesson)
    assert len(_instances) == before and len(lesson._shown) == 1


@pytest.mark.parametrize(
    "error",
    [
        CarError(["spring_rate: wanted less", "mass: wanted more"]),
        ValueError("a\nb"),
        ZeroDivisionError(),
        KeyError("x"),
    ],
)
def test_a_fault_withdraws_the_picture_in_one_line(panel, error, monkeypatch):
    def fails(values):
        raise error

    monkeypatch.setattr(panel, "compute", fails)
    panel.rows["spring"].slider.value = 80.0
    assert panel.fault is error
    assert panel.trouble.value.count("alert") == 1 and "Traceback" not in panel.trouble.value
    assert "\n" not in panel.trouble.value
    assert "rm-stale" in panel.picture._dom_classes
    assert "It is for: Front hole 2 of 3, 200 mm; Front spring rate 65.0 N/mm." in panel.caption.value
    assert "cannot be worked out" in panel.access.names["img.widget-image"]["alt"]
    monkeypatch.undo()
    panel.reset()
    assert panel.fault is None and panel.trouble.value == "" and "rm-stale" not in panel.picture._dom_classes


def test_a_burst_ends_on_the_last_value(panel):
    for value in range(30, 90):
        panel.rows["spring"].slider.value = float(value)
    burst = picture(panel)
    panel.reset()
    panel.set(spring=89e3)
    assert picture(panel) == burst


@pytest.fixture
def by_hand(monkeypatch):
    """As if the learner had taken a while before running this cell."""
    monkeypatch.setattr(pace, "in_one_go", lambda: False)
    session.forget_all()


def locked(panel):
    return [row.slider.disabled and row.box.disabled for row in panel.rows.values()]


def test_controls_wait_for_the_prediction(by_hand, panel):
    assert all(locked(panel)) and all(button.disabled for button in panel.buttons)
    assert "Commit first, or press Skip" in panel.card.outcome.value
    panel.card.commit()
    assert "Choose a direction" in panel.card.message.value and all(locked(panel))
    panel.card.direction.value = "It rises"
    panel.card.commit()
    assert "rough size" in panel.card.message.value and all(locked(panel))
    panel.card.size.value = "much"
    panel.card.commit()
    assert "wanted a roll stiffness" in panel.card.message.value and all(locked(panel))
    panel.card.size.value = "300"
    panel.card.commit()
    assert not any(locked(panel)) and panel.card.message.value == ""


def test_skip_opens_the_controls(by_hand, panel):
    panel.card.skip()
    assert not any(locked(panel)) and panel.card.guess_value() is None
    panel.rows["spring"].slider.value = 80.0
    assert panel.values.spring == pytest.approx(80e3)


def test_run_all_opens_the_controls_and_says_not_committed(panel):
    assert not any(locked(panel)) and panel.card.outcome.value.startswith("Not committed.")


def test_the_instructor_opens_and_closes(by_hand, panel):
    panel.lesson.open_panels(True)
    assert not any(locked(panel))
    panel.lesson.open_panels(False)
    assert all(locked(panel))


def test_a_prediction_outlives_a_second_run_and_other_units(by_hand, car, panel):
    panel.card.direction.value, panel.card.size.value = "It rises", "300"
    panel.card.commit()
    guess = panel.card.guess_value()
    again = type(panel)(panel.lesson)
    assert again.card.guess_value() == guess and not any(locked(again))
    again.lesson.change(family="US customary")
    assert "221 lbf·ft/deg" in again.card.outcome.value  # 300 N·m/deg times 0.7376


def verdict(panel, direction, size):
    panel.card.again()
    panel.card.direction.value, panel.card.size.value = direction, size
    panel.card.commit()
    panel.set(hole=3)
    return panel.card.outcome.value


def test_the_verdict_follows_the_model(panel):
    soft, stiff = (panel.compute(panel.start_values(hole=hole)).bar_roll for hole in (1, 3))
    change = f"{(stiff - soft) * 3.141592653589793 / 180:.0f}"
    right = verdict(panel, "It rises", change)
    assert "The direction is right and so is the size" in right and f"a change of {change} N·m/deg" in right
    assert "other way" in verdict(panel, "It falls", change)
    assert "You expected it to stay; it rises." in verdict(panel, "It stays about the same", "")
    assert "more than twice yours" in verdict(panel, "It rises", "5")
    assert "less than half of yours" in verdict(panel, "It rises", "9000")


def test_a_change_that_rounds_to_nothing_is_no_praise_for_who_expected_one(panel, monkeypatch):
    asked = panel.prediction()
    monkeypatch.setattr(panel, "prediction", lambda: replace(asked, after=asked.before))
    panel.card.restyle()
    panel.card.direction.value, panel.card.size.value = "It rises", "300"
    panel.card.commit()
    panel.set(**asked.before)
    said = panel.card.outcome.value
    assert "before and after. You expected a change; this counts as about the same." in said
    assert "a change of 0" not in said and "right" not in said
    panel.card.again()
    panel.card.direction.value = "It stays about the same"
    panel.card.commit()
    panel.set(**asked.before)
    assert "The direction is right." in panel.card.outcome.value


def test_a_commitment_belongs_to_its_car(by_hand, panel):
    panel.card.direction.value, panel.card.size.value = "It rises", "300"
    panel.card.commit()
    guess = panel.card.guess_value()
    panel.lesson.change(car=make_car(spring_rate=40e3))
    assert panel.card.guess_value() is None and panel.card.outcome.value.startswith("Not committed.")
    assert panel.card.direction.value is None and panel.card.size.value == "" and not any(locked(panel))
    panel.lesson.change(car=make_car())
    assert panel.card.guess_value() == guess and "You said: it rises" in panel.card.outcome.value


def test_another_car_does_not_open_what_nobody_committed(by_hand, panel):
    panel.lesson.change(car=make_car(spring_rate=40e3))
    assert all(locked(panel))


@pytest.fixture
def two_voices(panel, monkeypatch):
    """A panel whose words and picture keep the answer back; what was asked of the picture is noted."""
    asked = []
    monkeypatch.setattr(panel, "describe_now", lambda result: "The present state alone, for now.")
    monkeypatch.setattr(panel, "withhold", lambda artists, on: asked.append(on))
    panel.predicted()
    return panel, asked


def test_words_and_picture_keep_the_answer_back_until_it_is_asked_for(two_voices):
    panel, asked = two_voices
    for end in (panel.card.skip, lambda: panel.lesson.open_panels(True)):
        assert panel.caption.value.startswith("The present state alone") and asked[-1] is True
        end()
        assert panel.caption.value.startswith("The bar gives") and asked[-1] is False
        panel.card.again()
    assert "present state" not in panel.stored()["text/plain"]


def test_before_the_change_is_made_nothing_is_given_away(panel):
    panel.card.direction.value, panel.card.size.value = "It rises", "300"
    panel.card.commit()
    assert "The model says" not in panel.card.outcome.value


def test_projector(panel):
    small = len(picture(panel))
    panel.lesson.change(projector=True)
    assert "rm-projector" in panel.widget._dom_classes and len(picture(panel)) > small
    width, height = panel.canvas.figure.get_size_inches()
    assert (width, height) == panel.look.size


def without_front_bar():
    car = make_car()
    return replace(car, front=replace(car.front, bar=None))


def test_a_car_the_panel_cannot_show_is_one_line(panel):
    panel.lesson.change(car=without_front_bar())
    assert "Front hole: this car has no bar there" in panel.trouble.value
    assert "rm-stale" in panel.picture._dom_classes
    panel.lesson.change(car=make_car())
    assert panel.fault is None and panel.trouble.value == "" and panel.values.hole == 2


def test_a_cell_with_such_a_car_still_runs_to_its_end():
    panel = example_panel_class()(Lesson("02", without_front_bar()))
    assert "this car has no bar there" in panel.trouble.value
    assert "this car has no bar there" in panel.stored()["text/plain"]
    panel.reset()
    panel.lesson.change(projector=True)
    panel.lesson.change(car=make_car())
    assert panel.fault is None and picture(panel).startswith(b"\x89PNG")


def test_a_drawing_that_broke_off_leaves_nothing_behind(panel, monkeypatch):
    whole, draw = picture(panel), panel.draw

    def breaks_off(figure, result):
        draw(figure, result)
        raise ValueError("half way")

    monkeypatch.setattr(panel, "draw", breaks_off)
    panel.restyle()
    assert "half way" in panel.trouble.value
    monkeypatch.undo()
    panel.refresh()
    assert picture(panel) == whole and len(panel.canvas.figure.axes) == 1
