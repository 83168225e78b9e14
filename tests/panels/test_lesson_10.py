"""Lesson 10: picture, words and advice follow the holes on every training car, as the model has it."""

from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest
from matplotlib.text import Text

from rollmodel.advice import CAUTIONS, choose, effect_of, what_now
from rollmodel.advice.kept import every_reading
from rollmodel.car import GRAVITY
from rollmodel.figures import change
from rollmodel.panels.lesson import Lesson
from rollmodel.panels.lessons import lesson_10
from rollmodel.panels.lessons.lesson_10 import ChangePanel
from rollmodel.panels.own_change import OwnMove, told
from rollmodel.physics.balance import limits
from rollmodel.reports.choice import headline
from rollmodel.sheets import training_car, training_cars
from rollmodel.units import FAMILIES, show
from tests.panels.panel_checks import check_panel

CARS = sorted(training_cars())
QUIET = ("symptom", "when")  # words alone, except that "exit" adds drive
G = "lateral acceleration"


def panel_of(car):
    return ChangePanel(Lesson("10", car))


@pytest.fixture
def coupe():
    return panel_of("coupe")


@pytest.mark.parametrize("car", ("coupe", "hatch", "single-seater"))  # links, a wheel in the air, blades
def test_every_control(car):
    check_panel(panel_of(car), quiet=QUIET)


@pytest.mark.parametrize("car", CARS)
def test_advice_is_that_of_the_holes_on_the_sliders(car):
    panel, sheet = panel_of(car), training_car(car)
    panel.own.hide.value = False
    seen = set()
    for front in range(1, sheet.front.positions + 1):
        panel.set(front=front)
        for symptom in ("understeer", "oversteer"):
            panel.rows["symptom"].list.value = symptom
            wanted = headline(choose(sheet.with_holes(front=front), symptom))
            assert wanted in unescape(panel.advice.value), (front, symptom)
            seen.add(panel.advice.value)
    assert len(seen) == 2 * sheet.front.positions


def test_numbers_before_and_now_are_the_model_s(coupe):
    coupe.rows["rear"].steps[1].click()
    effect = effect_of(training_car("coupe"), rear_hole=3)
    for end in ("front", "rear"):
        row = f"{end.capitalize()} limit, g</th>"
        for reading in (effect.before, effect.after):
            row += f"<td>{show(reading.end(end).limit, G, decimals=4).split()[0]}</td>"
        assert row in coupe.numbers.value
    assert "rear hole 3" in coupe.caption.value


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize(
    "end, direction", [("front", "softer"), ("front", "stiffer"), ("rear", "softer"), ("rear", "stiffer")]
)
def test_a_step_past_the_last_hole_is_met_with_the_other_end(car, end, direction):
    panel, sheet = panel_of(car), training_car(car)
    step = panel.rows[end].steps[("softer", "stiffer").index(direction)]
    for _ in range(sheet.axle(end).positions):
        step.click()
    last = sheet.axle(end).positions if direction == "stiffer" else 1
    assert panel.rows[end].value == last
    answer = what_now(sheet.with_holes(**{end: last}), end, direction)
    said = unescape(panel.rows[end].message.value)
    assert "Nothing left here" in said and answer.message in said
    if answer.other_hole is not None:
        effect = effect_of(sheet.with_holes(**{end: last}), **{f"{answer.other_end}_hole": answer.other_hole})
        assert (
            f"limit {show(effect.before.held('front'), G, decimals=4)} to "
            f"{show(effect.after.held('front'), G, decimals=4)}" in said
        )
    panel.rows[end].steps[("stiffer", "softer").index(direction)].click()
    assert panel.rows[end].message.value == ""


@pytest.mark.parametrize(
    "car, symptom, when, first, number",
    [
        ("coupe", "understeer", "entry", "Dampers first", " N a wheel"),
        ("coupe", "oversteer", "exit", "Traction first", " N a wheel"),
        ("gravel", "understeer", "middle", "Raise the roll stiffness", "deg/g"),
        ("hatch", "understeer", "middle", "Leave the bars", "off the ground"),
        (
            "single-seater",
            "understeer",
            "middle",
            "Front bar softer",
            "the sheet says the rear gives up first",
        ),
    ],
)
def test_says_when_a_bar_is_not_the_cure_with_numbers(car, symptom, when, first, number):
    panel = panel_of(car)
    panel.own.hide.value = False
    for name, word in (("symptom", symptom), ("when", when)):
        panel.rows[name].list.value = word
    said = unescape(panel.advice.value)
    assert first in said.split("</strong>")[0] and number in said


@pytest.mark.parametrize(
    "car, where", [("coupe", "at the rear, the driven end"), ("hatch", "at the front, the driven end")]
)
def test_exit_says_what_else_is_counted_and_where_the_rows_are(car, where):
    panel, words = panel_of(car), "the force that holds the speed is counted too"
    assert words not in panel.numbers.value
    panel.rows["when"].list.value = "exit"
    middle, way_out = (every_reading(panel.car, driven)[panel.before].near for driven in (False, True))
    assert f"{words}, {where}" in panel.numbers.value
    assert f"for {show(way_out, G)}, not for {show(middle, G)} as in the middle" in panel.numbers.value


def commit(panel, end, hole, way):
    own = panel.own
    own.end.value, own.hole.value = end, hole
    own.way.value = next(words for words in own.way.options if words.startswith(way))
    own.buttons[0].click()
    return unescape(own.outcome.value)


def test_own_change_right_way(coupe):
    said = commit(coupe, "Rear", 3, "The front gains")
    assert "rear bar stiffer, hole 2 to hole 3" in said
    assert "Your direction is right" in said and "Your change follows it" in said
    assert "The advice has it as its first choice." in said
    assert all(caution in said for caution in CAUTIONS.values())
    assert coupe.values.rear == 3 and coupe.before == (2, 2)
    assert (
        "before" in coupe.numbers.value
        and "Before: the front gives up first, at 1.043 g" in coupe.caption.value
    )


def test_own_change_wrong_way_and_against_the_rule(coupe):
    said = commit(coupe, "Front", 3, "The front gains")
    assert "Your direction is not the model's: the rear gains on the front" in said
    assert "Your change goes against it" in said and "The advice has it" not in said
    advised = headline(choose(training_car("coupe"), "understeer"))
    assert f"The advice does not name this change. For the car before it, it says: {advised}" in said


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("symptom", ["understeer", "oversteer"])
@pytest.mark.parametrize("when", ["entry", "middle", "exit"])
def test_every_own_change_is_told_what_the_advice_thinks_of_it(car, symptom, when):
    panel = panel_of(car)
    panel.set(symptom=symptom, when=when)
    for end, holes in ((end, range(1, panel.car.axle(end).positions + 1)) for end in ("front", "rear")):
        for hole in holes:
            if hole != panel.car.axle(end).hole:
                move = OwnMove(panel.here(), end, hole, 1, panel.effect_of(end, hole))
                said = [line for line in told(move, "metric") if line.startswith("The advice")]
                assert len(said) == 1, (end, hole, said)


def test_two_steps_at_once_and_a_change_that_is_left_out():
    assert "That is 2 steps at once" in commit(panel_of("saloon"), "Rear", 3, "The front gains")
    said = commit(panel_of("hatch"), "Rear", 3, "The front gains")
    assert "Your direction is not the model's: nobody could tell" in said
    assert "A bar is not the first cure" in said and "The advice leaves it out" in said


def test_a_change_goes_on_from_the_change_before(coupe):
    commit(coupe, "Rear", 3, "The front gains")
    coupe.own.again()
    assert coupe.own.outcome.value == ""
    said = commit(coupe, "Front", 1, "The front gains")
    assert "hole 2 to hole 1" in said and coupe.before == (2, 3)
    coupe.reset()
    assert coupe.before == (2, 2)


@pytest.mark.parametrize(
    "end, hole, way, missing",
    [
        (None, None, None, "Choose an end first"),
        ("Rear", None, None, "Choose where to move it"),
        ("Rear", 3, None, "Say what the balance will do"),
    ],
)
def test_own_change_says_what_is_missing_and_keeps_the_rest(coupe, end, hole, way, missing):
    coupe.own.end.value = end
    if hole:
        coupe.own.hole.value = hole
    coupe.own.buttons[0].click()
    assert missing in coupe.own.message.value and coupe.own.end.value == end
    assert coupe.values.rear == 2 and coupe.own.outcome.value == ""


def test_advice_waits_for_the_learner_unless_the_tick_is_taken_away(coupe):
    assert coupe.own.hide.value and "waits" in coupe.advice.value
    assert "Rear bar stiffer" not in coupe.advice.value
    coupe.own.hide.value = False
    assert coupe.advice.value.startswith("For front hole 2 and rear hole 2, as the car stands now:")
    assert "Rear bar stiffer" in coupe.advice.value
    coupe.own.hide.value = True
    commit(coupe, "Rear", 3, "The front gains")
    assert coupe.advice.value.startswith("For front hole 2 and rear hole 3, after your change:")
    assert "Front bar softer" in coupe.advice.value


def test_the_guess_leaves_the_picture_to_the_learner_s_own_change(coupe, monkeypatch):
    drawn = []
    monkeypatch.setattr(change, "mark", lambda artists, end, guess: drawn.append(guess))
    coupe.card.direction.value, coupe.card.size.value = "It rises", "0.05"
    coupe.card.commit()
    assert drawn[-1] is not None
    coupe.own.end.value = "Rear"
    assert drawn[-1] is None
    commit(coupe, "Rear", 3, "The front gains")
    assert drawn[-1] is None
    coupe.own.again()
    assert drawn[-1] is None, "before is still the learner's own"
    coupe.reset()
    assert drawn[-1] is not None


def test_a_commitment_does_not_come_back_with_its_car_or_holes(coupe):
    commit(coupe, "Rear", 3, "The front gains")
    coupe.set(rear=2)
    assert coupe.own.done is None and coupe.own.outcome.value == ""
    coupe.set(rear=3)
    assert coupe.own.done is None and coupe.own.outcome.value == ""
    commit(coupe, "Rear", 2, "The rear gains")
    for car in ("saloon", "coupe"):
        coupe.lesson.change(car=training_car(car))
    assert coupe.own.done is None and coupe.before == (2, 2) and "waits" in coupe.advice.value


def test_the_keyboard_lands_on_the_result(coupe, monkeypatch):
    focused = []
    monkeypatch.setattr(type(coupe.own.outcome), "focus", lambda widget: focused.append(widget))
    commit(coupe, "Rear", 3, "The front gains")
    assert focused == [coupe.own.outcome]
    assert coupe.access.names[".rm-own-result .widget-html-content"]["tabindex"] == "-1"


def test_another_car_forgets_the_change(coupe):
    commit(coupe, "Rear", 3, "The front gains")
    coupe.lesson.change(car=training_car("saloon"))
    assert coupe.fault is None and coupe.own.outcome.value == "" and coupe.before == (1, 1)
    coupe.lesson.change(car=training_car("coupe"))
    assert coupe.fault is None


@pytest.mark.parametrize("without", ["front", "rear", "both"])
def test_a_car_that_lacks_a_bar(without):
    sheet = training_car("coupe")
    for end in ("front", "rear") if without == "both" else (without,):
        sheet = replace(sheet, **{end: replace(sheet.axle(end), bar=None)})
    panel = panel_of(sheet)
    assert panel.fault is None
    for end in ("front", "rear"):
        assert (end in panel.rows) == (sheet.axle(end).bar is not None)
    panel.own.end.value = "Front" if without == "front" else "Rear"
    assert ("no bar here" in dict(panel.own.hole.options)) == (without in ("both", "front", "rear"))
    if without != "both":
        check_panel(panel_of(sheet), quiet=QUIET)


def test_a_readings_map_is_solved_once_for_a_car(coupe, monkeypatch):
    """Moving holes costs no solve: every pair was read when the panel opened."""
    from rollmodel.advice import kept

    monkeypatch.setattr(kept, "readings", lambda *_: pytest.fail("solved again"))
    for front in (1, 2, 3):
        for rear in (1, 2, 3):
            coupe.compute(coupe.start_values(front=front, rear=rear))


def test_readme_tells_what_its_picture_shows(coupe):
    coupe.set(rear=3)
    readme = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")
    assert f"{unescape(coupe.caption.value)}](lessons/pictures/lesson-10.png)" in readme


@pytest.mark.parametrize("car", CARS)
def test_every_control_of_the_map(car):
    check_panel(lesson_10.MapPanel(Lesson("10", car)), moves_limits=False)


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("driven", [False, True])
def test_the_map_is_what_each_pair_holds_by_itself(car, driven):
    panel = lesson_10.MapPanel(Lesson("10", car))
    panel.set(driven=driven)
    chart, every = panel.compute(panel.values), every_reading(panel.car, driven)
    assert len(every) == chart.grip.size
    for pair, reading in every.items():
        at = tuple(hole or 1 for hole in pair)
        assert chart.at(chart.grip, at) == pytest.approx(reading.limit, rel=1e-9)


@pytest.mark.parametrize("car", CARS)
def test_on_the_way_out_the_limit_falls_and_the_page_says_so(car):
    """The limit with the force that holds the speed, worked out again by the physics alone."""
    panel = panel_of(car)
    panel.card.skip()
    coasting, driven = (limits(panel.car, driven=on) for on in (False, True))
    assert float(driven.lower) < float(coasting.lower)
    end = "front" if driven.front < driven.rear else "rear"
    said = [f"{float(one.lower) / GRAVITY:.3f} g" for one in (coasting, driven)]
    words = f"falls from {said[0]}, coasting, to {said[1]}: the {end} gives up first"
    alike = limits(panel.car, driven=True, open_differential=True)
    end = "front" if alike.front < alike.rear else "rear"
    least = f"push alike, and the limit is {float(alike.lower) / GRAVITY:.3f} g: the {end} gives up first"
    panel.set(when="exit")
    for said in (unescape(panel.numbers.value), lesson_10.entry_and_exit(panel.lesson)):
        assert words in said and least in said
    panel.set(when="middle")
    assert "coasting, to" not in panel.numbers.value


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("family", FAMILIES)
def test_an_open_differential_s_limits_stand_beside_those_with_drive(car, family):
    lesson = Lesson("10", car)
    lesson.family = family
    alike = limits(lesson.car, driven=True, open_differential=True)
    words = lesson_10.with_drive(lesson).split("If yours is open, ")[1]
    for end in ("front", "rear"):
        held = f"the {end} can hold {show(float(getattr(alike, end)), G, family)}"
        assert (held in words) == (lesson.car.drive in (end, "all"))
    assert f"the {'front' if alike.front < alike.rear else 'rear'} gives up first" in words


def test_past_the_limit_the_picture_and_its_words_say_that_it_is_drawn_at_the_limit(coupe):
    at_limit = every_reading(coupe.car)[2, 2].limit
    coupe.set(corner=1.03 * at_limit)
    assert coupe.values.corner == 1.03 * at_limit, "the control stays where it was put"
    asked, most = (show(one, G) for one in (1.03 * at_limit, at_limit))
    drawn = [text.get_text() for text in coupe.canvas.figure.findobj(Text) if text.get_visible()]
    assert f"It cannot hold {asked}: drawn at {most}" in drawn
    words = unescape(coupe.caption.value)
    assert f"It cannot hold {asked}, so the picture is drawn at its limit: at {most}" in words
    coupe.set(corner=0.97 * at_limit)
    drawn = [text.get_text() for text in coupe.canvas.figure.findobj(Text) if text.get_visible()]
    assert not any("cannot hold" in words for words in drawn) and "cannot" not in coupe.caption.value


@pytest.mark.parametrize("said", ["understeer", "oversteer"])
def test_another_car_leaves_the_driver_s_complaint_as_it_was(said):
    """Whatever the sheets of the cars point at; a reset alone goes back to what this car's sheet says."""
    panel = panel_of("coupe")
    starts = set()
    panel.rows["symptom"].list.value = said
    for car in [*CARS, "coupe"]:
        panel.lesson.change(car=training_car(car))
        starts.add(panel.start_values().symptom)
        assert panel.fault is None and panel.values.symptom == said == panel.rows["symptom"].list.value
        assert f"the driver says {said} in the middle" in panel.own.question.value
    assert starts == {"understeer", "oversteer"}, "or nothing would have changed it"
    panel.lesson.change(car=training_car("single-seater"))
    assert ChangePanel(panel.lesson).values.symptom == said, "nor does running the cell again"
    panel.reset()
    assert panel.values.symptom == "oversteer"


@pytest.mark.parametrize("car", CARS)
@pytest.mark.parametrize("family", FAMILIES)
def test_the_verdict_with_drive_is_the_physics_own(car, family):
    lesson = Lesson("10", car)
    lesson.family = family
    coasting, driven = (limits(lesson.car, driven=on) for on in (False, True))
    ends = ["front" if held.front < held.rear else "rear" for held in (coasting, driven)]
    words = lesson_10.with_drive(lesson)
    assert ("turns the verdict round" in words) == (ends[0] != ends[1])
    assert f"**{ends[1]}** " in words and show(float(driven.rear), G, family) in words
    assert "With no drive, coasting" in lesson_10.where_it_stands(lesson)
    assert ("with drive" in lesson_10.take_away(lesson)[1]) == (ends[0] != ends[1])
    assert f"{ends[0]}, " in lesson_10.five_cars(lesson).split(lesson.car.title)[1]


@pytest.mark.parametrize("car", CARS)
def test_at_full_stiff_what_is_said_of_the_car_and_of_the_other_end_is_computed(car):
    lesson = Lesson("10", car)
    sheet = lesson.car
    stiffest = sheet.with_holes(**{end: sheet.axle(end).positions for end in ("front", "rear")})
    words, here = lesson_10.full_stiff(lesson), limits(stiffest)
    assert ("still understeers" in words) == bool(here.front <= here.rear)
    softer = stiffest.with_holes(front=sheet.front.positions - 1)
    there = limits(softer)
    gain = float(there.gap - here.gap) / GRAVITY
    assert ("In numbers it does:" in words) == (gain >= 0.002)
    assert ("hardly moves at all" in words) == (abs(gain) < 0.002)
    assert ("Both ends lose" in words) == bool(there.front < here.front and there.rear < here.rear)
