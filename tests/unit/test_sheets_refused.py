"""Car sheets that are refused: one message for each fault, in the words of the sheet, with the mend."""

import math
import os
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rollmodel import sheets
from rollmodel.sheets import SheetError
from rollmodel.sheets.schema import TABLES
from tests.unit.independent_cases import changed, sheet

COUPE = sheets.training_cars()["coupe"].read_text(encoding="utf-8")


def faults_of(changes, base="coupe"):
    with pytest.raises(SheetError) as caught:
        sheets.from_values(changed(base, changes), "mine.toml")
    return caught.value.faults


ONE_FAULT = [  # what is changed, words that the message must hold: place, wanted, given, mend
    # misspelt, misplaced, missing
    ({"front.note_": "x"}, ['[front]: unknown field "note_"', '"note" was meant?']),
    ({"front.trak": "1.52 m", "front.track": None}, ['[front]: unknown field "trak"', '"track" was']),
    ({"frnt": sheet("coupe")["front"], "front": None}, ['unknown table "frnt"', '"front" was meant?']),
    ({"front.bar.hols": ["1 m"], "front.bar.holes": None}, ['unknown field "hols"', '"holes" was meant?']),
    ({"roll_center_height": "1 m"}, ["roll_centre_height", "belongs in [front] or [rear]"]),
    ({"front.mass": "1 kg"}, ['[front]: unknown field "mass"', "belongs at the top of the sheet"]),
    ({"track": "1.52 m"}, ["top of the sheet", "belongs in [front] or [rear]"]),
    ({"bar": {"hole": 1}}, ['unknown table "bar"', "belongs in [front] or [rear]"]),
    ({"front.blade": {}}, ['unknown table "blade"', "belongs in [front.bar] or [rear.bar]"]),
    ({"front.damper.zzz": 1}, ["[front.damper]", '"zzz"', "wanted one of rate, motion_ratio, note"]),
    ({"mass": None}, ["top of the sheet, mass: missing", '"1290 kg"']),
    ({"front.track": None}, ["[front] track: missing", '"1.52 m"']),
    ({"rear": None}, ["[rear]: the whole table is missing"]),
    ({"tyre": None}, ["[tyre]: the whole table is missing"]),
    ({"front.bar.holes": None}, ["[front.bar] holes: missing", "softest first"]),
    ({"front.bar.hole": None}, ["[front.bar] hole: missing", "1 (softest) to 3 (stiffest)"]),
    # bare numbers, wrong dimensions, wrong types
    ({"mass": 1290}, ["top of the sheet, mass", "given 1290", "bare number", '"1290 kg"']),
    ({"front_weight_share": 0.52}, ["front_weight_share", "given 0.52", '"52 %"']),
    ({"front_weight_share": 52}, ["front_weight_share", "given 52", '"52 %"']),
    ({"front.camber": -2.0}, ["[front] camber", "given -2", '"-2 deg"']),
    ({"front.spring_rate": "371 lb/in"}, ["[front] spring_rate", "a mass per length", "lbf/in was meant"]),
    ({"front.spring_rate": "65 N"}, ["[front] spring_rate", "N is a force"]),
    ({"chassis_torsion": "9000 N*m"}, ["chassis_torsion", "a moment", "N*m/deg was meant"]),
    ({"front.spring_motion_ratio": "0.7 mm"}, ["[front] spring_motion_ratio", "no unit"]),
    ({"mass": ["1290 kg"]}, ["mass", "given a list"]),
    ({"mass": {"a": 1}}, ["mass", "given a table"]),
    ({"mass": True}, ["mass", "given true"]),
    ({"title": 5}, ["title", "text in quotes", "given 5"]),
    ({"front": "x"}, ["[front]: wanted a table", 'given "x"']),
    ({"front": [{}]}, ["[front]", "given a list", "single square brackets"]),
    # not finite, not believable
    ({"front.spring_rate": "nan N/mm"}, ["not finite"]),
    ({"front.spring_motion_ratio": float("inf")}, ["[front] spring_motion_ratio", "not finite"]),
    ({"front.spring_rate": "65 N/m"}, ["8 to 700 N/mm", 'given "65 N/m"', '"65 N/mm" was meant']),
    ({"cg_height": "470 m"}, ['"470 mm" was meant']),
    ({"front.track": "152 m"}, ["0.8 to 2.1 m", 'given "152 m"']),
    ({"front.camber": "-2 rad"}, ['"-2 deg" was meant']),
    ({"front.damper.rate": "4500 N*s/mm"}, ['"4500 N*s/m" was meant']),
    ({"front.spring_rate": "371 lbf/ft"}, ['"371 lbf/in" was meant', "lbf/in, given"]),
    ({"front.spring_motion_ratio": 2.0}, ["0.5 was meant", "component travel over wheel travel"]),
    ({"front_weight_share": "100 %"}, ["25 to 75 %", 'given "100 %"']),
    ({"front_weight_share": "0 %"}, ["25 to 75 %"]),
    # signs and commas from word processors
    ({"front.camber": "\u22122.0 deg"}, ["[front] camber", "dash"]),
    ({"front.track": "1,52 m"}, ["[front] track", "comma"]),
    # words
    ({"drive": "RWD"}, ['"front", "rear", "all"', 'given "RWD"; "rear" was meant?']),
    ({"drive": "front-wheel drive"}, ['"front" was meant?']),
    ({"drive": "4WD"}, ['"all" was meant?']),
    ({"drive": "all  Wheel-Drive"}, ['"all" was meant?']),
    ({"drive": "rwd drive"}, ['given "rwd drive"']),
    ({"front.bar.arms": "stiff"}, ['"rigid", "same section", "blade"', 'given "stiff"']),
    ({"tyre.curve": "Magic formula"}, ['"magic formula 1987" or "magic formula 2006" was meant?']),
    ({"tyre.curve": "magic formula 206"}, ['; "magic formula 2006" was meant?']),
    ({"title": "a\x1b[31m"}, ["title", "control character"]),
    # holes
    ({"front.bar.hole": 4}, ["[front.bar] hole", "1 to 3", "given 4"]),
    ({"front.bar.hole": 0}, ["1 to 3", "given 0"]),
    ({"front.bar.hole": 2.5}, ["whole number", "given 2.5"]),
    ({"front.bar.hole": 2.0}, ["whole number", "given 2.0; write 2, without the point"]),
    ({"front.bar.hole": True}, ["whole number", "given true"]),
    ({"front.bar.hole": "2"}, ['given "2"', "without quotes"]),
    ({"front.bar.holes": ["200 mm"]}, ["1, the only one there is", "given 2"]),
    ({"front.bar.holes": []}, ["[front.bar] holes", "empty list"]),
    ({"front.bar.holes": "200 mm"}, ["[front.bar] holes", "square brackets"]),
    ({"front.bar.holes": ["230 mm", 200, "170 mm"]}, ["number 2 in the list", '"200 mm"']),
    ({"front.bar.holes": [["230 mm"]]}, ["number 1 in the list", "given a list"]),
    ({"front.bar.holes": ["170 mm", "200 mm", "230 mm"]}, ["softest (longest) first", "turn the list round"]),
    ({"front.bar.holes": ["200 mm", "200 mm", "170 mm"]}, ["softest (longest) first"]),
    # between fields
    ({"front.bar.wall": "14 mm"}, ["[front.bar] wall", 'outer_diameter ("26 mm")', 'given "14 mm"']),
    ({"front.bar.support_spacing": "1 m"}, ["support_spacing", 'centre_length ("950 mm")', 'given "1 m"']),
    ({"front.bar.arm_length": "200 mm"}, ["arm_length", "square distance of its hole", "given 200 mm"]),
    ({"front.bar.arm_length": ["240 mm", "210 mm"]}, ["arm_length", "each of the 3 holes", "given 2"]),
    ({"front.bump_stop_rate": "50 N/mm", "front.bump_travel": None}, ["[front] bump_travel: missing"]),
    ({"front.unsprung_mass": "390 kg", "mass": "700 kg"}, ["[front] unsprung_mass", "364 kg", '"390 kg"']),
    ({"tyre.peak_grip": 1.2}, ["[tyre] peak_grip", '"falling grip", given with "magic formula 1987"']),
    ({"tyre.curve": "magic formula 2006", "tyre.grip_drop_per_kN": 0.03},
     ["[tyre] grip_drop_per_kN", '"falling grip", given with "magic formula 2006"']),
    ({"rear.bar.arm_length": ["245 mm", "330 mm", "480 mm"]},
     ["[rear.bar] arm_length: wanted each hole stiffer", "41.3 N/mm, 34.7 N/mm, 19.3 N/mm", "lie along it"]),
    ({"roll_inertia": "8 kg*m^2"},
     ["top of the sheet, roll_inertia", "58 kg·m² to 1882 kg·m²", 'given "8 kg*m^2"', "leave it out"]),
    ({"tyre.curve": "2006"}, ["[tyre] curve", 'given "2006"; "magic formula 2006" was meant?']),
    ({"tyre.curve": 2006}, ['given 2006; "magic formula 2006" was meant?']),
    ({"tyre.curve": "MF2006"}, ['given "MF2006"; "magic formula 2006" was meant?']),
    ({"cg_height": "150 mm", "front.unsprung_cg_height": "600 mm", "front.unsprung_mass": "330 kg"},
     ["cg_height: wanted a sprung mass above the ground", "given one at -"]),
    ({"front.bar.arms": "blade"}, ["[front.bar.blade]: the whole table is missing"]),
    ({"front.bar.blade": {"length": "0.1 m", "width": "20 mm", "thickness": "4 mm", "angles": ["0 deg"]}},
     ["[front.bar] arms", '"blade" when there is a [front.bar.blade] table']),
]  # fmt: skip


@pytest.mark.parametrize("changes, words", ONE_FAULT, ids=lambda value: str(value)[:60])
def test_one_fault_one_message(changes, words):
    faults = faults_of(changes)
    assert len(faults) == 1, faults
    assert all(word in faults[0] for word in words), faults[0]
    assert faults[0].isprintable()


BLADES = [
    ({"front.bar.holes": ["4 in"]}, ["[front.bar] holes", "does not go with blades", "angles"]),
    ({"front.bar.arm_length": "4 in"}, ["[front.bar] arm_length", "does not go with blades"]),
    ({"front.bar.blade.thickness": "0.80 in"}, ['width ("0.75 in")', 'given "0.80 in"', "swapped"]),
    ({"front.bar.blade.angles": ["0 deg", "30 deg", "15 deg"]}, ["softest first", "from flat they rise"]),
    (
        {"front.bar.blade.angle_from": "on edge"},
        ["[front.bar.blade] angles", "softest first", "from on edge they fall"],
    ),
    ({"front.bar.blade.angles": ["0 deg", "100 deg"]}, ["number 2 in the list", "0 to 90 deg"]),
    ({"front.bar.blade.angles": [0, 45]}, ["number 1 in the list", "bare number", '"0 deg"']),
    ({"front.bar.hole": 9}, ["[front.bar] hole", "1 to 5", "no such angle"]),
    (
        {"front.bar.blade.thickness": "0.75 in"},
        ["[front.bar.blade] angles", "as stiff at every angle: give one"],
    ),
]


@pytest.mark.parametrize("changes, words", BLADES, ids=lambda value: str(value)[:60])
def test_blades(changes, words):
    faults = faults_of(changes, "single-seater")
    assert len(faults) == 1 and all(word in faults[0] for word in words), faults


def test_a_right_angle_may_be_typed_in_radians():
    for typed in ("1.5708 rad", "1.571 rad"):
        car = sheets.from_values(changed("single-seater", {"front.bar.blade.angles": ["0 rad", typed],
                                                           "front.bar.hole": 2}))
        assert car.front.bar.blade.angles[1] == pytest.approx(math.pi / 2, abs=1e-12)
    assert faults_of({"front.bar.blade.angles": ["0 rad", "1.6 rad"], "front.bar.hole": 2}, "single-seater")


def test_messages_answer_in_the_units_that_were_typed():
    fault = faults_of({"front.unsprung_mass": "800 lb", "mass": "1400 lb", "rear.unsprung_mass": "90 lb"})[0]
    assert "728 lb" in fault


def test_falling_grip_needs_its_three_numbers():
    faults = faults_of({"tyre.curve": "falling grip"})
    assert [fault.split(":")[0] for fault in faults] == [
        "[tyre] peak_grip",
        "[tyre] grip_drop_per_kN",
        "[tyre] cornering_stiffness",
    ]


def test_a_tyre_with_no_grip_left_under_a_whole_axle():
    tyre = {
        "curve": "falling grip",
        "peak_grip": 1.1,
        "grip_drop_per_kN": 0.3,
        "cornering_stiffness": "1200 N/deg",
    }
    (fault,) = faults_of({"tyre": tyre})
    assert "grip_drop_per_kN" in fault and "no grip is left" in fault and "0.03 per kN" in fault


def test_several_faults_are_reported_together():
    changes = {
        "mass": 1290,
        "front.track": None,
        "front.trak": "1.52 m",
        "front.spring_rate": "371 lb/in",
        "rear.bar.hole": 9,
    }
    with pytest.raises(SheetError) as caught:
        sheets.from_values(changed("coupe", changes), "mine.toml")
    assert len(caught.value.faults) == 4
    message = str(caught.value)
    assert message.startswith("mine.toml: 4 faults\n  - ")
    assert '"track" was meant?' in message and "lbf/in was meant" in message and "given 9" in message


def test_a_flood_of_faults_is_cut_short():
    with pytest.raises(SheetError) as caught:
        sheets.from_values({f"x{i}": 1 for i in range(3000)})
    lines = str(caught.value).splitlines()
    assert len(lines) < 40 and "more; mend these first" in lines[-1]


TOPPLES = {
    "cg_height": "1.0 m",
    **{f"{end}.spring_motion_ratio": 0.2 for end in ("front", "rear")},
    **{f"{end}.spring_rate": "9 N/mm" for end in ("front", "rear")},
    "front.bar": None,
    "rear.bar": None,
}


@pytest.mark.parametrize("mass, unit", [("1290 kg", "N·m/deg"), ("2844 lb", "lbf·ft/deg")])
def test_a_car_that_does_not_stand_up(mass, unit):
    (fault,) = faults_of({**TOPPLES, "mass": mass})
    assert "does not stand up" in fault and fault.count(unit) == 2 and "spring_rate" in fault


def test_a_car_that_stands_only_through_its_chassis():
    changes = {
        **TOPPLES,
        "mass": "3400 kg",
        "rear.bar": sheet("coupe")["rear"]["bar"],
        "chassis_torsion": "200 N*m/deg",
        "front.spring_motion_ratio": 0.15,
        "rear.spring_rate": "90 N/mm",
        "rear.spring_motion_ratio": 0.7,
    }
    (fault,) = faults_of(changes)
    assert "chassis_torsion" in fault and "one end cannot hold its own share" in fault


TEXTS = [  # text of a sheet, words of the message
    ("mass 1290", ["not TOML", "line 1"]),
    ('title = "x"\nmass = 12 kg\n', ["not TOML", "line 2", "stands in quotes"]),
    ('title = "a"\ntitle = "b"\n', ["not TOML", "line 2", "twice"]),
    ("[tyre]\n[tyre]\n", ["not TOML", "[tyre]", "twice"]),
    ('title = "a\n', ["not TOML", "line 1", "not closed"]),
    ("", ["mass: missing", "[front]: the whole table is missing"]),
    ("a=" + "[" * 1400, ["nested far too deeply"]),
    ("a=" + "[\n" * 9000, ["nested far too deeply"]),
    ("a=" + "9" * 1400, ['unknown field "a"']),
    ("\n".join(["a=[", *["9" * 1400] * 4, "]"]), ["not TOML"]),
    ("a" + ".a" * 30000 + "=1", ["1500 characters"]),
    ('title = "\0"', ["not TOML"]),
    ("mass = 1979-05-27", ["given a date or time"]),
    ("mass=" + "9" * 1400, ["a huge number"]),
    ("#" * 1000 + "\n" * 70000, ["far too large"]),
]


@pytest.mark.parametrize("text, words", TEXTS, ids=lambda value: repr(value)[:30])
def test_text_that_is_no_sheet(text, words):
    with pytest.raises(SheetError) as caught:
        sheets.read_text(text, "mine.toml")
    assert all(word in str(caught.value) for word in words), str(caught.value)[:500]


def test_a_number_beyond_pythons_limit_on_digits():
    before = sys.get_int_max_str_digits()
    sys.set_int_max_str_digits(640)  # the lowest Python takes; the usual limit lies above our longest line
    try:
        with pytest.raises(SheetError, match="more digits"):
            sheets.read_text("mass = " + "9" * 700)
    finally:
        sys.set_int_max_str_digits(before)


BYTES = [
    (COUPE.encode("utf-16"), "not UTF-8"),
    (COUPE.encode("utf-16-le"), "null characters, as text saved as UTF-16 does; save it from the editor"),
    (b"\0" * 4000, "this is no text; wanted a car sheet, a text file whose name ends in .toml"),
    (COUPE.encode() + b"# caf\xe9\n", "not UTF-8 text, first at line 66"),
    (COUPE.encode() + b"#" * 70000, "far too large"),
    (b"\x00\xff\x7f" * 900, "this is no text"),
    (bytes(range(128, 256)) * 20, "not UTF-8"),
]


BYTES_NAMES = ["utf-16", "utf-16 without a mark", "nulls", "latin-1", "large", "random", "no nulls"]


@pytest.mark.parametrize("data, words", BYTES, ids=BYTES_NAMES)
def test_bytes_that_are_no_sheet(tmp_path, data, words):
    file = tmp_path / "mine.toml"
    file.write_bytes(data)
    with pytest.raises(SheetError, match=words):
        sheets.read(file)


def test_files_that_cannot_be_sheets(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "coupe.toml").write_text(COUPE, encoding="utf-8")
    for path, words in [
        (tmp_path, "given a folder"),
        ("/dev/zero", "not a plain file"),
        (tmp_path / "pipe", "not a plain file"),
        (tmp_path / "coup.toml", '"coupe.toml" was meant'),
        (tmp_path / "none" / "x.toml", "no such file"),
        ("a\0b", "cannot be read"),
        ("x" * 5000, "cannot be read"),
        ("", "no such file"),
    ]:
        with pytest.raises(SheetError, match=words):
            sheets.read(path)


def test_a_link_to_nothing_is_not_told_to_be_itself(tmp_path):
    (tmp_path / "dang.toml").symlink_to(tmp_path / "gone.toml")
    with pytest.raises(SheetError, match="a link to a file that is not there, .*gone.toml") as caught:
        sheets.read(tmp_path / "dang.toml")
    assert "was meant" not in str(caught.value)
    with pytest.raises(SheetError) as caught:  # nor is it proposed for another name
        sheets.read(tmp_path / "dan.toml")
    assert "was meant" not in str(caught.value)


@pytest.mark.parametrize("typed", ['"{0}"', "'{0}'", '  "{0}" ', "{0}", "~/mine.toml", '"~/mine.toml"'])
def test_a_path_pasted_with_quotes_or_from_the_home_folder(tmp_path, monkeypatch, typed):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    (tmp_path / "mine.toml").write_text(COUPE, encoding="utf-8")
    path = typed.format(tmp_path / "mine.toml")
    assert sheets.read(path) == sheets.read(Path(path)) == sheets.training_car("coupe")
    assert sheets.read_remarks(path).family == "metric"


def test_a_file_whose_name_has_quotes_is_found_as_it_is(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / '"odd.toml"').write_text(COUPE, encoding="utf-8")
    assert sheets.read('"odd.toml"') == sheets.training_car("coupe")


@pytest.mark.parametrize("end", ["\r", "\r\n"])
def test_line_ends_of_other_systems(tmp_path, end):
    (tmp_path / "mine.toml").write_bytes(COUPE.replace("\n", end).encode())
    assert sheets.read(tmp_path / "mine.toml") == sheets.training_car("coupe")


def test_a_file_that_may_not_be_read(monkeypatch, tmp_path):
    file = tmp_path / "mine.toml"
    file.write_text(COUPE, encoding="utf-8")

    def refuse(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("builtins.open", refuse)
    with pytest.raises(SheetError, match="may not be read"):
        sheets.read(file)


def test_an_unknown_training_car():
    with pytest.raises(SheetError, match='"coupe" was meant'):
        sheets.training_car("cupe")
    with pytest.raises(SheetError, match="there are coupe, gravel, hatch, saloon, single-seater"):
        sheets.training_car("zzz")


def test_no_hostile_text_takes_long():
    start = time.perf_counter()
    for text in [
        "\n".join(["a" + ".a" * 700 + f"{i}=1" for i in range(40)]),
        "\n".join(f"[a{i}]" for i in range(9000)),
        '"' * 1400,
        "a = [" + "[]," * 400,
        "\n".join(["a = '''", *["'" * 1400] * 40]),
    ]:
        with pytest.raises(SheetError):
            sheets.read_text(text)
    assert time.perf_counter() - start < 5  # measured 0.6 s; the margin is for a loaded machine


NAMES = sorted({field.name for fields in TABLES.values() for field in fields} | {"front", "tyre", "bar"})
VALUES = st.recursive(
    st.one_of(
        st.text(max_size=12),
        st.integers(),
        st.floats(),
        st.booleans(),
        st.sampled_from(
            ["65 N/mm", "1.5 m", "0 deg", "-1 mm", "1e999 m", "9**9**9 m", "blade", "falling grip", "52 %"]
        ),
    ),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(NAMES), inner, max_size=3),
    max_leaves=6,
)


@settings(max_examples=300, deadline=None)
@given(st.dictionaries(st.sampled_from(NAMES), VALUES, max_size=8))
def test_any_tables_over_a_good_car_give_a_car_or_one_message(extra):
    try:
        sheets.from_values({**sheet("coupe"), **extra})
    except SheetError as error:
        assert error.faults


@settings(max_examples=300, deadline=None)
@given(st.integers(0, len(COUPE) - 1), st.integers(0, 40), st.text(max_size=10))
def test_any_damage_to_a_good_sheet_gives_a_car_or_one_message(start, length, put_in):
    try:
        sheets.read_text(COUPE[:start] + put_in + COUPE[start + length :])
    except SheetError as error:
        assert error.faults
