"""The form for one's own car without a browser: boxes, refusals beside them, nothing typed lost, saving."""

import os
import re
from dataclasses import replace

import pytest

from rollmodel.advice import missing_parts
from rollmodel.panels import Lesson, session
from rollmodel.panels.car_form import CarForm
from rollmodel.panels.form_line import css
from rollmodel.reports.car_line import car_line
from rollmodel.sheets import read, training_car
from rollmodel.sheets.form import judge, label
from rollmodel.sheets.form.draft import NAME
from rollmodel.sheets.form.examples import start_answers
from rollmodel.sheets.form.layout import asked
from rollmodel.units import FAMILIES

METRIC, US = FAMILIES


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    """An empty folder to work in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def form():
    return CarForm(Lesson("index"))


def lines(form):
    return [line for part in form.parts for line in part.lines.values()]


def box(form, path):
    return next(line.boxes[path] for line in lines(form) if path in line.boxes)


def said(form, path):
    """What stands below the line of a path."""
    return next(line.message.value for line in lines(form) if path in line.boxes)


def type_car(form, answers):
    """Type a whole car box by box: what decides on other boxes comes first."""
    for path in asked(answers):
        if path in answers and any(path in line.boxes for line in lines(form)):
            box(form, path).value = answers[path]


def unfold_all(form):
    for part in form.parts:
        if not part.open:
            part.unfold()


def test_a_blank_form_accuses_nobody_and_counts_what_is_missing(form):
    assert not any(line.message.value for line in lines(form))
    assert (
        "Still missing: 19." in form.saving.progress.value and "Driven wheels" in form.saving.progress.value
    )
    assert form.saving.numbers.value == "" and not os.listdir()


@pytest.mark.parametrize("name", ["coupe", "single-seater"])
def test_a_car_typed_box_by_box_is_the_car(form, name):
    unfold_all(form)
    type_car(form, start_answers(name, METRIC if name == "coupe" else US))
    assert form.verdict.car == training_car(name)
    assert "Nothing is missing" in form.saving.progress.value
    assert car_line(training_car(name)) in form.saving.numbers.value


def test_a_bare_number_gets_the_unit_that_stands_in_the_empty_box(form):
    assert box(form, "mass").placeholder == "kg"
    box(form, "mass").value = "1290"
    assert box(form, "mass").value == "1290 kg"
    form.start.units.value = US
    assert box(form, "mass").value == "1290 kg" and box(form, "cg_height").placeholder == "in"
    box(form, "cg_height").value = "18.5 ± 0.8"
    assert form.draft.answers["cg_height"] == "18.5 in ± 0.8 in"


def test_a_refusal_stands_beside_its_box_and_goes_when_mended(form):
    box(form, "front.track").value = "1.52 mm"
    assert 'role="alert"' in said(form, "front.track") and "1.52 m&quot; was meant" in said(
        form, "front.track"
    )
    assert box(form, "front.track").value == "1.52 mm", "what was typed stays"
    assert form.access.names[f".{css('front.track')} input"]["aria-invalid"] == "true"
    assert form.access.names[f".{css('rear.track')} input"]["aria-invalid"] == "false"
    assert "Refused: Front track." in form.saving.progress.value
    box(form, "front.track").value = "1.52 m"
    assert said(form, "front.track") == ""


def test_a_ratio_that_may_be_upside_down_is_asked_about_beside_its_box(form):
    type_car(form, start_answers("hatch", METRIC))
    assert said(form, "rear.spring_motion_ratio") == "" and "Look again" not in form.saving.progress.value
    box(form, "rear.spring_motion_ratio").value = "1.43"
    asked_there = said(form, "rear.spring_motion_ratio")
    assert "look again" in asked_there and "0.699 is meant" in asked_there and "_" not in asked_there
    assert "Look again at: Rear spring motion ratio." in form.saving.progress.value
    assert form.verdict.car is not None and "spring_motion" not in form.saving.numbers.value
    box(form, "rear.spring_motion_ratio").value = "0.7"
    assert said(form, "rear.spring_motion_ratio") == "" and "Look again" not in form.saving.progress.value


def test_what_one_answer_means_for_another_is_said_there(form):
    box(form, "front.bar").value = "holes"
    box(form, "front.bar.outer_diameter").value = "26 mm"
    box(form, "front.bar.wall").value = "14 mm"
    assert "at most half the outer_diameter" in said(form, "front.bar.wall")
    box(form, "front.bar.outer_diameter").value = "30 mm"
    assert said(form, "front.bar.wall") == ""


def test_words_typed_with_markup_are_only_words(form):
    box(form, "mass").value = "<script>x</script>"
    assert "<script>" not in said(form, "mass") and "&lt;script&gt;" in said(form, "mass")


def test_each_kind_of_bar_shows_its_own_boxes_and_a_line_that_stays_is_the_same(form):
    box(form, "front.bar").value = "holes"
    kind, diameter = box(form, "front.bar"), box(form, "front.bar.outer_diameter")
    diameter.value = "26"
    box(form, "front.bar").value = "blades"
    assert box(form, "front.bar") is kind and box(form, "front.bar.outer_diameter") is diameter
    assert box(form, "front.bar.blade.angles") and "front.bar.holes" not in asked(form.draft.answers)
    box(form, "rear.bar").value = "none"
    assert not any(path.startswith("rear.bar.") for line in lines(form) for path in line.boxes)
    assert form.draft.answers["front.bar.outer_diameter"] == "26 mm"


def test_run_again_or_in_a_new_kernel_everything_typed_is_there(form):
    box(form, "mass").value, box(form, "front.track").value = "1290", "wide"
    unfold_all(form)
    box(form, "front.damper.rate").value = "4500 N*s/m"
    again = CarForm(Lesson("index"))
    assert form.widget.comm is None and box(again, "mass").value == "1290 kg"
    session.forget_all()
    fresh = CarForm(Lesson("index"))
    assert fresh.draft is not again.draft and box(fresh, "mass").value == "1290 kg"
    assert box(fresh, "front.track").value == "wide" and "start with a number" in said(fresh, "front.track")
    assert box(fresh, "front.damper.rate").value == "4500 N*s/m", "an optional part in use stands open"


def test_units_come_back_with_the_draft(form):
    form.start.units.value = US
    session.forget_all()
    fresh = CarForm(Lesson("index"))
    assert fresh.start.units.value == US and box(fresh, "mass").placeholder == "lb"


def test_a_disk_that_takes_nothing_is_named_and_nothing_goes(form, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    box(form, "mass").value = "1290"
    assert "No space left on device" in form.saving.progress.value
    again = CarForm(Lesson("index"))
    assert box(again, "mass").value == "1290 kg"


def begun(name):
    """A training car as one's own: its name and its note do not go along."""
    return replace(training_car(name), title="My car", note="")


def test_filling_from_a_car_can_be_taken_back(form):
    box(form, "mass").value = "999 kg"
    form.start.source.value = "saloon"
    form.start.fill()
    assert box(form, "mass").value == "1720 kg" and form.verdict.car == begun("saloon")
    form.start.bring_back()
    assert box(form, "mass").value == "999 kg" and box(form, "front.track").value == ""
    form.start.bring_back()
    assert form.verdict.car == begun("saloon")


def test_a_sheet_on_disk_with_faults_fills_the_form_and_says_them_in_place(form, folder):
    (folder / "old.toml").write_text(
        'mass = "heavy"\nwhatever = 3\n[front]\ntrack = "1.5 m"\n', encoding="utf-8"
    )
    form.start.source.value = "a sheet that you have"
    assert form.start.path.layout.display is None
    form.start.path.value = "old.toml"
    form.start.fill()
    assert "whatever" in form.start.message.value and box(form, "front.track").value == "1.5 m"
    assert "start with a number" in said(form, "mass")
    form.start.path.value = "nothing.toml"
    form.start.fill()
    assert "stays as it is. nothing.toml: no such file" in form.start.message.value
    assert box(form, "front.track").value == "1.5 m"


def test_a_sheet_with_a_word_that_is_none_shows_it(form, folder):
    (folder / "old.toml").write_text('drive = "hovering"\n', encoding="utf-8")
    form.start.source.value, form.start.path.value = "a sheet that you have", "old.toml"
    form.start.fill()
    assert box(form, "drive").value == "hovering" and "wanted one of" in said(form, "drive")


def test_saving_too_early_says_what_is_missing_beside_each_box(form):
    form.saving.save()
    assert "Not saved yet" in form.saving.message.value and os.listdir() == []
    assert "missing; wanted a mass" in said(form, "mass") and "wanted whether this end has a bar" in said(
        form, "rear.bar"
    )


def test_saving_offers_a_name_and_says_how_a_lesson_takes_the_sheet(form, folder):
    form.start.source.value = "hatch"
    form.start.fill()
    box(form, "title").value = "Our hatch"
    assert form.saving.file.value == "our-hatch.toml"
    form.saving.save()
    assert read(folder / "our-hatch.toml").front == training_car("hatch").front
    told = form.saving.message.value
    asked_for = re.search(r"<code>start\((.+?)\)</code>", told)[1]
    number, sheet = (part.split("=")[-1].strip(' "') for part in asked_for.split(","))
    assert Lesson(number, car=sheet).car.title == "Our hatch"
    assert "rollmodel car our-hatch.toml" in told


def test_a_file_that_stands_needs_the_tick_and_the_tick_is_for_once(form, folder):
    form.start.source.value = "hatch"
    form.start.fill()
    form.saving.file.value = "mine.toml"
    form.saving.save()
    box(form, "mass").value = "1100 kg"
    form.saving.save()
    assert "there already" in form.saving.message.value and read(folder / "mine.toml").mass == 1080
    form.saving.replace.value = True
    form.saving.save()
    assert read(folder / "mine.toml").mass == 1100 and form.saving.replace.value is False


def test_the_next_open_box_gets_the_focus_and_its_part_unfolds(form, monkeypatch):
    sent = []
    monkeypatch.setattr(form.access, "send", sent.append)
    form.go_to_next()
    assert css("drive") in sent[-1]["focus"] and "missing" in said(form, "drive")
    form.start.source.value = "coupe"
    form.start.fill()
    dampers = next(part for part in form.parts if part.section.name == "dampers")
    box(form, "rear.damper.rate").value = "x"
    dampers.unfold(False)
    assert not dampers.lines
    form.go_to_next()
    assert dampers.open and css("rear.damper.rate") in sent[-1]["focus"]
    box(form, "rear.damper.rate").value = "4200 N*s/m"
    form.go_to_next()
    assert len(sent) == 2


def test_every_box_has_a_label_a_description_and_a_message_place(form):
    form.start.source.value = "single-seater"
    form.start.fill()
    unfold_all(form)
    names, labels = form.access.names, []
    for line in lines(form):
        for path, one in line.boxes.items():
            labels.append(one.description)
            assert one.description == label(path)
            ids = names[f".{css(path)} input"]["aria-describedby"].split()
            assert [name.get("id") for name in names.values() if name.get("id") in ids] == ids
        assert line.help.value
    assert len(set(labels)) == len(labels)


def test_projector_and_stored_form(form):
    form.start.projector.value = True
    assert "rm-projector" in form.widget._dom_classes
    stored = form.stored()
    assert stored == CarForm(Lesson("index")).stored()
    assert "Track" in stored["text/html"] and "Link holes" in stored["text/plain"]
    assert not missing_parts(stored["text/plain"]), "cautions before somebody measures"
    assert "How thick a tube's wall is. May be left out; then the bar is solid." in stored["text/plain"]


def test_a_damaged_draft_is_named_and_kept(folder):
    (folder / NAME).write_text("{", encoding="utf-8")
    form = CarForm(Lesson("index"))
    assert "damaged" in form.saving.progress.value and len(os.listdir()) == 1


def help_of(form, path):
    return next(line.help.value for line in lines(form) if path in line.boxes)


def test_what_may_be_left_out_says_so_in_the_same_words_and_only_the_others_are_ever_missing(form):
    for car in ("coupe", "single-seater"):
        form.start.source.value = car
        form.start.fill()
        unfold_all(form)
        whole = form.draft.answers | {f"{end}.bar.hole": "1" for end in ("front", "rear")}
        for line in lines(form):
            may = "May be left out" in line.help.value
            assert may == (not line.line.needed) and line.help.value.lower().count("left out") == may
            gone = dict.fromkeys(_with_its_partner(line, whole), "")
            unsaid = judge(whole | _single_place(whole, line.line.name) | gone)
            assert set(unsaid.missing) == (set() if may else set(gone)) and not unsaid.whole, line.line.name


def _with_its_partner(line, answers):
    """The places of a line; a damper's two boxes go together."""
    return [path for path in answers if ".damper." in path] if line.line.key == "damper" else line.boxes


def _single_place(answers, name):
    """For the place in use, which may be left out where there is a single one: a bar with one."""
    lists = (f"{end}.bar.{many}" for end in ("front", "rear") for many in ("holes", "blade.angles"))
    return {path: answers[path].partition(",")[0] for path in lists if path in answers and name == "hole"}


def test_half_a_damper_is_missing_its_other_half(form):
    unfold_all(form)
    assert "together with the other box" in help_of(form, "front.damper.rate")
    box(form, "front.damper.rate").value = "4500"
    assert "front.damper.motion_ratio" in form.verdict.missing


def test_a_part_of_one_and_a_percentage_are_the_same_weight_share_and_the_hint_says_so(form):
    assert "52, 52 % and 0.52 are all the same" in help_of(form, "front_weight_share")
    for typed in ("0.52", "52", "52 %"):
        box(form, "front_weight_share").value = typed
        assert box(form, "front_weight_share").value == "52 %" and not said(form, "front_weight_share")
    box(form, "front_weight_share").value = "0.52 ± 0.01"
    assert box(form, "front_weight_share").value == "52 % ± 1 %"


def taken(form, name):
    return next(part.taken.value for part in form.parts if part.section.name == name)


def test_a_tyre_that_nobody_gave_is_named_while_its_part_is_folded_and_beside_the_car_s_numbers(form):
    assert "magic formula 1987" in taken(form, "tyres") and "grip scale of 1;" in taken(form, "tyres")
    form.start.source.value = "coupe"
    form.start.fill()
    unfold_all(form)
    assert "magic formula 1987" in form.saving.numbers.value and "grip scale" not in taken(form, "tyres")
    box(form, "front.tyre_vertical_rate").value = ""
    assert "do not give under load at the front." in taken(form, "tyres")
    box(form, "tyre.curve").value = "magic formula 2006"
    assert "1987" not in taken(form, "tyres") + form.saving.numbers.value
    assert taken(form, "car") == "" and "a rigid chassis" not in taken(form, "body")
