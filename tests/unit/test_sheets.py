"""Car sheets that are right: what is read, in both families, and back to text again."""

import math
from dataclasses import asdict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rollmodel import sheets
from rollmodel.car import SHEAR_MODULUS, YOUNGS_MODULUS, Car
from rollmodel.sheets.schema import TABLES
from rollmodel.units import FAMILIES
from tests.unit.independent_cases import CASES, changed, sheet

RAD = math.pi / 180


def flat(record, start=""):
    """Every number, word and gap of a record, by its path."""
    for name, value in asdict(record).items() if not isinstance(record, dict) else record.items():
        if isinstance(value, dict):
            yield from flat(value, f"{start}{name}.")
        elif isinstance(value, tuple):
            yield from ((f"{start}{name}.{i}", item) for i, item in enumerate(value))
        else:
            yield f"{start}{name}", value


def assert_same(one: Car, two: Car):
    """Equal to the rounding of a written sheet, seven digits."""
    ones, twos = dict(flat(one)), dict(flat(two))
    assert ones.keys() == twos.keys()
    for name, value in ones.items():
        wanted = pytest.approx(value, rel=1e-6) if isinstance(value, float) else value
        assert twos[name] == wanted, name


def near(*values):
    """Equal but for the last bits of a conversion."""
    return pytest.approx(values, rel=1e-12)


def test_every_field_of_the_coupe_arrives_in_si():
    car = sheets.training_car("coupe")
    assert car.title == "College coupe" and car.drive == "rear" and "Invented" in car.note
    assert (car.mass, car.front_weight_share, car.wheelbase, car.cg_height) == near(1290, 0.52, 2.48, 0.47)
    assert car.chassis_torsion == pytest.approx(9000 / RAD)
    assert (car.tyre.curve, car.tyre.grip_scale) == ("magic formula 1987", 1.15)
    front, bar = car.front, car.front.bar
    assert (front.track, front.unsprung_mass, front.unsprung_cg_height) == near(1.52, 84, 0.31)
    assert front.camber == pytest.approx(-2 * RAD) and front.camber_recovery == 0.5
    assert (front.spring_rate, front.spring_motion_ratio, front.tyre_vertical_rate) == near(65e3, 0.7, 230e3)
    assert (front.damper.rate, front.damper.motion_ratio) == near(4500, 0.7)
    assert (bar.outer_diameter, bar.wall, bar.centre_length) == near(0.026, 0.004, 0.95)
    assert bar.holes == pytest.approx((0.23, 0.20, 0.17)) and bar.hole == 2 and bar.arms == "same section"
    assert (bar.shear_modulus, bar.youngs_modulus) == (SHEAR_MODULUS, YOUNGS_MODULUS)


def test_what_may_be_left_out_is_none():
    tables = changed(
        "coupe",
        {
            "front.bar": None,
            "front.damper": None,
            "front.tyre_vertical_rate": None,
            "chassis_torsion": None,
            "front.camber": None,
            "front.camber_recovery": None,
            "front.bump_travel": None,
            "tyre.grip_scale": None,
            "title": None,
            "note": None,
        },
    )
    car = sheets.from_values(tables, "mine.toml")
    front = car.front
    assert (front.bar, front.damper, front.tyre_vertical_rate, front.camber, front.camber_recovery) == (
        None,
    ) * 5
    assert car.chassis_torsion is None and car.tyre.grip_scale == 1 and car.title == "mine.toml"


def test_a_single_hole_need_not_be_numbered():
    car = sheets.from_values(changed("coupe", {"front.bar.holes": ["200 mm"], "front.bar.hole": None}))
    assert car.front.bar.hole == 1


def test_us_customary_and_metric_give_the_same_car():
    metric = sheets.training_car("coupe")
    us = sheets.read_text(sheets.to_sheet(metric, "US customary"))
    assert_same(metric, us)


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("name", [*sheets.training_cars(), *CASES])
def test_back_to_text_and_read_again(name, family):
    car = sheets.from_values(changed(CASES[name][0], CASES[name][2]) if name in CASES else sheet(name))
    text = sheets.to_sheet(car, family)
    assert_same(car, sheets.read_text(text))
    # A second turn through text does not drift: what was written is written again.
    assert sheets.to_sheet(sheets.read_text(text), family) == text


def test_written_values_carry_the_units_of_their_family():
    car = sheets.training_car("coupe")
    metric, us = (sheets.to_values(car, family) for family in FAMILIES)
    assert metric["mass"] == "1290 kg" and metric["front"]["bar"]["holes"] == ["230 mm", "200 mm", "170 mm"]
    assert us["front"]["spring_rate"].endswith(" lbf/in") and us["mass"].endswith(" lb")
    assert us["front"]["spring_motion_ratio"] == 0.7


class TestBlades:
    """Softest first; from lying flat unless the sheet says on edge or the list falls."""

    def angles(self, changes):
        car = sheets.from_values(changed("single-seater", {f"front.bar.{k}": v for k, v in changes.items()}))
        return [angle / RAD for angle in car.front.bar.blade.angles]

    def test_from_flat(self):
        assert self.angles({"blade.angles": ["0 deg", "45 deg", "90 deg"]}) == pytest.approx([0, 45, 90])

    def test_from_on_edge(self):
        found = self.angles({"blade.angles": ["80 deg", "30 deg", "0 deg"], "blade.angle_from": "on edge"})
        assert found == pytest.approx([10, 60, 90])

    def test_a_falling_list_counts_from_on_edge(self):
        assert self.angles({"blade.angles": ["90 deg", "45 deg", "0 deg"]}) == pytest.approx([0, 45, 90])

    def test_one_angle_alone_counts_from_flat(self):
        assert self.angles({"blade.angles": ["30 deg"], "hole": 1}) == pytest.approx([30])

    def test_lever(self):
        car = sheets.from_values(changed("single-seater", {"front.bar.blade.lever": "4 in"}))
        assert car.front.bar.holes == pytest.approx((4 * 0.0254,))


class TestSweptArms:
    def lengths(self, arm_length):
        car = sheets.from_values(changed("coupe", {"front.bar.arm_length": arm_length}))
        return car.front.bar.arm_lengths

    def test_one_length_belongs_to_the_first_hole_and_the_sweep_is_kept(self):
        assert self.lengths("253 mm") == pytest.approx((0.253, 0.253 * 200 / 230, 0.253 * 170 / 230))

    def test_one_length_for_each_hole(self):
        assert self.lengths(["250 mm", "220 mm", "190 mm"]) == pytest.approx((0.25, 0.22, 0.19))


def test_loss_of_grip_is_bare_or_with_its_unit():
    for given_as in (0.03, "0.03 1/kN", "0.00003 1/N"):
        tables = changed(
            "coupe",
            {
                "tyre": {
                    "curve": "falling grip",
                    "peak_grip": 1.2,
                    "grip_drop_per_kN": given_as,
                    "cornering_stiffness": "1200 N/deg",
                }
            },
        )
        assert sheets.from_values(tables).tyre.grip_drop == pytest.approx(3e-5)


def test_a_mark_before_the_first_letter_and_foreign_line_ends_are_taken(tmp_path):
    text = sheets.training_cars()["coupe"].read_text(encoding="utf-8")
    file = tmp_path / "sheet.toml"
    file.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert sheets.read(file) == sheets.training_car("coupe")


def test_write_and_read(tmp_path):
    car = sheets.training_car("saloon")
    file = tmp_path / "mine.toml"
    sheets.write(sheets.to_values(car), file)
    assert_same(car, sheets.read(file))
    assert [one.name for one in tmp_path.iterdir()] == ["mine.toml"]


def test_what_could_not_be_read_again_is_not_written(tmp_path):
    file = tmp_path / "mine.toml"
    file.write_text("the old one", encoding="utf-8")
    with pytest.raises(sheets.SheetError, match="mass"):
        sheets.write(changed("coupe", {"mass": None}), file)
    assert file.read_text(encoding="utf-8") == "the old one"


def test_a_folder_that_is_not_there_cannot_be_written_to(tmp_path):
    with pytest.raises(sheets.SheetError, match="cannot be written"):
        sheets.write(sheet("coupe"), tmp_path / "none" / "mine.toml")


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=80), st.text(max_size=200))
def test_any_title_and_note_survive_or_are_refused(title, note):
    tables = changed("coupe", {"title": title, "note": note})
    try:
        car = sheets.from_values(tables)
    except sheets.SheetError:
        return
    again = sheets.read_text(sheets.to_text(tables))
    assert (again.title, again.note.split()) == (car.title, car.note.split())


def test_ranges_hold_their_own_examples_and_no_field_is_forgotten():
    for fields in TABLES.values():
        for field in fields:
            if field.kind not in ("text", "word", "whole number"):
                low, high = field.range
                assert low < high, field.name


@pytest.mark.parametrize("name", sheets.training_cars())
def test_every_number_of_a_training_car_says_where_it_is_measured(name):
    lines = sheets.training_cars()[name].read_text(encoding="utf-8").splitlines()
    assert "invented for the demo" in "\n".join(lines[:4])
    bare = [
        line
        for line in lines
        if "=" in line
        and not line.startswith(("#", "title", "note", "drive", "curve"))
        and "  # " not in line
        and " # " not in line
    ]
    assert bare == []
