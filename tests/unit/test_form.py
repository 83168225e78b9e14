"""The form's logic without a widget: what is asked, what typed text becomes, whose fault a fault is."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rollmodel.sheets import SheetError, read, training_car, training_cars
from rollmodel.sheets.form import BLANK, judge, label
from rollmodel.sheets.form.examples import example, start_answers
from rollmodel.sheets.form.layout import BAR_KINDS, asked, every_path, sections
from rollmodel.sheets.form.saving import here, open_sheet, save
from rollmodel.sheets.form.typed import complete, to_answers, to_tables
from rollmodel.sheets.form.words import WORDS
from rollmodel.sheets.schema import TABLES
from rollmodel.units import FAMILIES

METRIC, US = FAMILIES


def coupe(**changes):
    """The coupe's answers, some changed; a bar's dots are written as two underlines."""
    return start_answers("coupe", METRIC) | {path.replace("__", "."): text for path, text in changes.items()}


def test_every_field_of_a_sheet_has_its_words_and_its_place():
    fields = {
        (key, field.name)
        for key, table in TABLES.items()
        for field in table
        if field.name != "note" or not key
    }
    assert set(WORDS) == fields | {("bar", "kind")}
    assert {(line.key, line.name) for line in every_path().values()} == set(WORDS)
    for words in WORDS.values():
        assert words.what.endswith(".") and (words.how.endswith(".") or not words.how)


def test_names_of_boxes_are_unique():
    labels = [label(path) for path in every_path()]
    assert len(set(labels)) == len(labels)


@pytest.mark.parametrize(
    "kind, wanted, not_wanted",
    [
        ("none", set(), {"outer_diameter", "blade.angles"}),
        ("holes", {"outer_diameter", "holes", "arms", "hole"}, {"blade.angles"}),
        ("blades", {"outer_diameter", "blade.angles", "hole"}, {"holes", "arms", "arm_length", "rates"}),
        ("rates", {"rates", "hole", "link_motion_ratio"}, {"holes", "arms", "outer_diameter"}),
    ],
)
def test_a_bar_is_asked_for_what_its_kind_has(kind, wanted, not_wanted):
    paths = set(asked({"front.bar": kind}))
    assert {f"front.bar.{name}" for name in wanted} <= paths
    assert not paths & {f"front.bar.{name}" for name in not_wanted}
    assert not any(path.startswith("rear.bar.") for path in paths)


def test_a_bar_of_known_rates_misses_them_and_no_size():
    answers = start_answers("coupe", METRIC) | {"front.bar": "rates"}
    verdict = judge(answers)
    assert list(verdict.missing) == ["front.bar.rates"] and not verdict.refused and not verdict.whole
    assert verdict.missing["front.bar.rates"].startswith("missing; wanted a rate")
    typed = judge(answers | {"front.bar.rates": "40 N/mm, 50 N/mm, 60 N/mm"})
    assert typed.car.front.bar.rates == pytest.approx((40e3, 50e3, 60e3)) and not typed.car.front.bar.holes
    assert any("twice as much" in note for note in typed.notes)
    back, unknown = to_answers(to_tables(answers | {"front.bar.rates": "40 N/mm, 50 N/mm, 60 N/mm"}))
    assert back["front.bar"] == "rates" and back["rear.bar"] == "holes" and not unknown


def test_a_tyre_of_its_own_asks_for_its_numbers():
    assert "tyre.peak_grip" not in asked(BLANK)
    assert "tyre.peak_grip" in asked({"tyre.curve": "falling grip"})


def field(path):
    return every_path()[path].field


@pytest.mark.parametrize(
    "path, typed, family, wanted",
    [
        ("mass", "1290", METRIC, "1290 kg"),
        ("mass", " 2844 ", US, "2844 lb"),
        ("mass", "2844 lb", METRIC, "2844 lb"),
        ("cg_height", "470 ± 20", METRIC, "470 mm ± 20 mm"),
        ("cg_height", "18.5 in", METRIC, "18.5 in"),
        ("cg_height", "470+/-20 mm", METRIC, "470 mm ± 20 mm"),
        ("cg_height", "470 mm +- 2 cm", US, "470 mm ± 2 cm"),
        ("front.spring_motion_ratio", "0.7", METRIC, "0.7"),
        ("front_weight_share", "52", METRIC, "52 %"),
        ("chassis_torsion", "9000", METRIC, "9000 N*m/deg"),
        ("tyre.grip_drop_per_kN", "0.03", METRIC, "0.03 1/kN"),
        ("front.bar.holes", "220, 200,180", METRIC, "220 mm, 200 mm, 180 mm"),
        ("front.bar.holes", "9; 8; 7 in", METRIC, "9 in, 8 in, 7 in"),
        ("front.bar.holes", "9 in, 200 mm", US, "9 in, 200 mm"),
        ("front.bar.hole", "2", METRIC, "2"),
        ("title", " My car ", METRIC, "My car"),
        ("mass", "", METRIC, ""),
        ("mass", "heavy", METRIC, "heavy"),
        ("mass", "1,290", METRIC, "1,290"),
        ("front.bar.holes", ",", METRIC, ""),
        ("front.bar.holes", '["220 mm", "200 mm"]', METRIC, "220 mm, 200 mm"),
        ("mass", '"1290 kg"', METRIC, "1290 kg"),
    ],
)
def test_a_bare_number_gets_the_unit_that_is_shown(path, typed, family, wanted):
    assert complete(typed, field(path), family) == wanted


@given(st.text(max_size=80), st.sampled_from(sorted(every_path())), st.sampled_from(FAMILIES))
def test_whatever_is_typed_is_answered_and_completing_twice_changes_nothing(text, path, family):
    once = complete(text, field(path), family)
    assert complete(once, field(path), family) == once
    judge(coupe() | {path: once})


@pytest.mark.parametrize("name", training_cars())
@pytest.mark.parametrize("family", FAMILIES)
def test_a_training_car_is_a_good_start(name, family):
    answers = start_answers(name, family)
    verdict = judge(answers)
    assert verdict.car and not verdict.missing
    assert verdict.car.mass == pytest.approx(training_car(name).mass, rel=1e-3)
    units = " ".join(answers.values())
    assert ("kg" in units, "lb" in units) == ((True, False) if family == METRIC else (False, True))


@pytest.mark.parametrize("name", training_cars())
def test_a_sheet_comes_back_as_it_was(name, tmp_path):
    tables = tomllib.loads(training_cars()[name].read_text(encoding="utf-8"))
    answers, unknown = to_answers(tables)
    assert not unknown and judge(answers).car == training_car(name)
    path = save(answers, str(tmp_path / "mine"))
    assert path.name == "mine.toml" and read(path) == training_car(name)
    assert open_sheet(str(path)) == (answers, [])


def test_a_blank_form_misses_what_a_sheet_needs_and_refuses_nothing():
    verdict = judge(BLANK)
    assert verdict.car is None and not verdict.refused and not verdict.whole
    needed = {field.name for field in TABLES[""] if field.required}
    assert needed <= set(verdict.missing) and {"front.bar", "rear.bar", "rear.track"} <= set(verdict.missing)
    assert "damper" not in " ".join(verdict.missing)


@pytest.mark.parametrize(
    "changes, path, words",
    [
        ({"mass": "1290 lb/in"}, "mass", "mass per length"),
        ({"cg_height": "0.47 mm"}, "cg_height", '"0.47 m" was meant?'),
        ({"front__track": "wide"}, "front.track", "does not start with a number"),
        ({"front__bar__wall": "14 mm"}, "front.bar.wall", 'at most half the outer_diameter ("26 mm")'),
        ({"front__bar__hole": "4"}, "front.bar.hole", "there is no such hole"),
        ({"rear__bar__holes": "175 mm, 210 mm"}, "rear.bar.holes", "turn the list round"),
        ({"rear__spring_motion_ratio": "1.9"}, "rear.spring_motion_ratio", "0.526 was meant?"),
        (
            {"rear__unsprung_mass": "390 kg", "mass": "700 kg"},
            "rear.unsprung_mass",
            "both wheels of one axle",
        ),
        ({"front__spring_rate": "65 N/mm ± 70 N/mm"}, "front.spring_rate", "below the value itself"),
        ({"front__bump_stop_rate": "x"}, "front.bump_stop_rate", "does not start with a number"),
    ],
)
def test_a_fault_stands_beside_its_own_field_in_the_sheet_s_words(changes, path, words):
    verdict = judge(coupe(**changes))
    assert verdict.car is None and set(verdict.refused) == {path}
    assert words in " ".join(verdict.refused[path]) and "[" not in verdict.refused[path][0][:1]


def test_arms_of_a_bar_with_holes_are_not_offered_as_blades():
    assert judge(coupe(front__bar__arms="")).missing == {
        "front.bar.arms": 'missing; wanted "rigid" or "same section"'
    }


def test_a_field_that_another_answer_calls_for_is_missing_not_refused():
    answers = coupe(front__bump_travel="", front__bump_stop_rate="40 N/mm", front__bar__hole="")
    verdict = judge(answers)
    assert set(verdict.missing) == {"front.bump_travel", "front.bar.hole"} and not verdict.refused
    assert set(judge(coupe(tyre__curve="falling grip", tyre__grip_scale="")).missing) == {
        "tyre.peak_grip",
        "tyre.grip_drop_per_kN",
        "tyre.cornering_stiffness",
    }


def test_a_car_that_does_not_stand_up_is_the_whole_car_s_fault():
    soft = {
        f"{end}.{name}": text
        for end in ("front", "rear")
        for name, text in (("spring_rate", "8 N/mm"), ("spring_motion_ratio", "0.3"), ("bar", "none"))
    }
    verdict = judge(coupe() | soft | {"cg_height": "1000 mm"})
    assert verdict.whole and "does not stand up" in verdict.whole[0] and not verdict.refused


def test_no_bar_leaves_the_answers_of_the_old_bar_out_of_the_sheet_and_in_the_form():
    answers = coupe(rear__bar="none")
    assert "bar" not in to_tables(answers)["rear"] and answers["rear.bar.outer_diameter"]
    assert judge(answers).car.rear.bar is None


def test_every_kind_of_bar_has_words():
    assert all(BAR_KINDS.values()) and set(BAR_KINDS) == {"", "none", "holes", "blades", "rates"}


def test_names_that_no_sheet_has_are_named(tmp_path):
    sheet = tmp_path / "old.toml"
    sheet.write_text(
        'mas = "1 kg"\nmass = "900 kg"\n[front]\ntrack = 3\nbar = 5\n[wing]\nx = 1\n', encoding="utf-8"
    )
    answers, unknown = open_sheet(str(sheet))
    assert unknown == ["mas", "front.bar", "wing"] and answers["mass"] == "900 kg"
    assert "a length" in judge(answers).refused["front.track"][0]


def test_a_file_that_stands_is_replaced_only_with_the_tick(tmp_path):
    path = save(coupe(), str(tmp_path / "mine.toml"))
    before = path.read_bytes()
    with pytest.raises(SheetError, match="there already.*tick the box"):
        save(coupe(mass="1300 kg"), str(path))
    assert path.read_bytes() == before and list(tmp_path.iterdir()) == [path]
    assert read(save(coupe(mass="1300 kg"), str(path), replace=True)).mass == 1300


@pytest.mark.parametrize(
    "typed, words",
    [
        ("", "wanted a file name"),
        ("a\nb", "wanted a file name"),
        ("no/such/folder/x.toml", "no folder"),
        ("x" * 300, "cannot be written"),
        (str(next(iter(training_cars().values())).parent / "new"), "training cars"),
    ],
)
def test_a_place_that_cannot_be_used_is_one_sentence(typed, words, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SheetError, match=words) as refusal:
        save(coupe(), typed)
    assert len(refusal.value.faults) == 1 and list(tmp_path.iterdir()) == []


def test_what_makes_no_car_is_not_saved(tmp_path):
    with pytest.raises(SheetError, match="mass: missing"):
        save(coupe(mass=""), str(tmp_path / "mine.toml"))
    assert list(tmp_path.iterdir()) == []


def test_a_lesson_beside_the_sheet_is_given_its_bare_name(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert here(save(coupe(), "mine")) == "mine.toml"
    (tmp_path / "cars").mkdir()
    assert here(save(coupe(), "cars/mine")) == str(tmp_path / "cars" / "mine.toml")


@pytest.mark.parametrize(
    "family, words",
    [(METRIC, "coupe: 26 mm front, 20 mm rear"), (US, "coupe: 1.024 in front, 0.7874 in rear")],
)
def test_an_example_is_a_training_car_s_own(family, words):
    assert example(every_path()["front.bar.outer_diameter"], family) == words


def test_every_needed_field_has_an_example_in_both_families():
    for section in sections({f"{end}.bar": kind for end, kind in (("front", "holes"), ("rear", "blades"))}):
        for line in section.lines:
            if line.field and line.field.required:
                assert all(example(line, family) for family in FAMILIES), line
